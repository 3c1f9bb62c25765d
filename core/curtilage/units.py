"""Quantities at the door: "185 ft" in, a plain float in a documented unit out.

A small strict grammar and a list of accepted units per field; nothing is evaluated and nothing is guessed. The factors below are
constants of this module; a test derives each of them again with pint, which is never given a user's text.
"""
from __future__ import annotations

from collections.abc import Mapping
import math
import re
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic_core import CoreSchema

Affine = tuple[float, float]                       # value in the first unit = a * number + b

FACTORS: dict[str, dict[str, Affine]] = {          # the first unit of each row is the one that is stored
    "ft": {"ft": (1.0, 0.0), "in": (1 / 12, 0.0), "m": (1 / 0.3048, 0.0), "cm": (0.01 / 0.3048, 0.0), "mm": (0.001 / 0.3048, 0.0),
           "km": (1000 / 0.3048, 0.0)},
    "in": {"in": (1.0, 0.0), "ft": (12.0, 0.0), "mm": (1 / 25.4, 0.0), "cm": (10 / 25.4, 0.0), "m": (1000 / 25.4, 0.0)},
    "ft2": {"ft2": (1.0, 0.0), "ft²": (1.0, 0.0), "m2": (1 / 0.3048**2, 0.0), "m²": (1 / 0.3048**2, 0.0)},
    "A": {"A": (1.0, 0.0), "kA": (1e3, 0.0), "mA": (1e-3, 0.0)},
    "V": {"V": (1.0, 0.0), "kV": (1e3, 0.0)},
    "VA": {"VA": (1.0, 0.0), "kVA": (1e3, 0.0), "MVA": (1e6, 0.0)},
    "kVA": {"kVA": (1.0, 0.0), "VA": (1e-3, 0.0), "MVA": (1e3, 0.0)},
    "W": {"W": (1.0, 0.0), "kW": (1e3, 0.0)},
    "kW": {"kW": (1.0, 0.0), "W": (1e-3, 0.0), "MW": (1e3, 0.0)},
    "kWh": {"kWh": (1.0, 0.0), "Wh": (1e-3, 0.0), "MWh": (1e3, 0.0)},
    "hp": {"hp": (1.0, 0.0), "W": (1 / 746, 0.0), "kW": (1000 / 746, 0.0)},
    "degC": {"degC": (1.0, 0.0), "°C": (1.0, 0.0), "degF": (5 / 9, -160 / 9), "°F": (5 / 9, -160 / 9)},
    "%": {"%": (1.0, 0.0)},
    "s": {"s": (1.0, 0.0), "min": (60.0, 0.0), "h": (3600.0, 0.0)},
    "min": {"min": (1.0, 0.0), "s": (1 / 60, 0.0), "h": (60.0, 0.0)},
    "h": {"h": (1.0, 0.0), "min": (1 / 60, 0.0), "days": (24.0, 0.0)},
    "days": {"days": (1.0, 0.0), "h": (1 / 24, 0.0), "weeks": (7.0, 0.0)},
    "ohm": {"ohm": (1.0, 0.0), "mohm": (1e-3, 0.0)},
    "ohm-m": {"ohm-m": (1.0, 0.0)},
    "MBH": {"MBH": (1.0, 0.0), "kBtu/h": (1.0, 0.0), "Btu/h": (1e-3, 0.0), "kW": (3.6 / 1.05505585262, 0.0)},
    "ft3/h": {"ft3/h": (1.0, 0.0), "cfh": (1.0, 0.0), "m3/h": (1 / 0.3048**3, 0.0)},
    "ft3/kWh": {"ft3/kWh": (1.0, 0.0), "m3/kWh": (1 / 0.3048**3, 0.0)},
    "Btu/ft3": {"Btu/ft3": (1.0, 0.0), "MJ/m3": (1e6 * 0.3048**3 / 1055.05585262, 0.0)},
    "psi": {"psi": (1.0, 0.0), "inH2O": (25.4 * 9.80665 / 6894.757293168361, 0.0), "kPa": (1 / 6.894757293168361, 0.0)},
    "kcmil": {"kcmil": (1.0, 0.0), "mm2": (4e3 / math.pi / 25.4**2, 0.0)},
    "in2": {"in2": (1.0, 0.0), "mm2": (1 / 25.4**2, 0.0)},
    "in3": {"in3": (1.0, 0.0), "cm3": (1 / 2.54**3, 0.0)},
    "VA/ft2": {"VA/ft2": (1.0, 0.0), "VA/m2": (0.3048**2, 0.0)},
    "deg": {"deg": (1.0, 0.0)},
    "lb": {"lb": (1.0, 0.0), "kg": (1 / 0.45359237, 0.0)},
    "lb/ft": {"lb/ft": (1.0, 0.0), "kg/m": (0.3048 / 0.45359237, 0.0)},
    "dBA": {"dBA": (1.0, 0.0)},
    "starts/h": {"starts/h": (1.0, 0.0), "starts/day": (1 / 24, 0.0)},
}
"""Unit stored -> unit accepted -> factor and offset. Foot, inch, pound, Btu (international table) and the conventional
inch of water as NIST SP 811 defines them."""

_SLIPS = {"feet": "ft", "foot": "ft", "'": "ft", "FT": "ft", "Ft": "ft", "inch": "in", "inches": "in", '"': "in", "meter": "m",
          "meters": "m", "metre": "m", "metres": "m", "a": "A", "amp": "A", "amps": "A", "Amp": "A", "Amps": "A", "ka": "kA",
          "KA": "kA", "v": "V", "volt": "V", "volts": "V", "kv": "kV", "va": "VA", "kva": "kVA", "KVA": "kVA", "kVa": "kVA",
          "w": "W", "kw": "kW", "KW": "kW", "kwh": "kWh", "KWH": "kWh", "C": "degC", "F": "degF", "c": "degC", "f": "degF",
          "sqft": "ft2", "sf": "ft2", "sqm": "m2", "pct": "%", "percent": "%", "hr": "h", "hours": "h", "hour": "h",
          "day": "days", "d": "days", "sec": "s", "mins": "min", "HP": "hp", "Hp": "hp", "mbh": "MBH", "CFH": "ft3/h",
          "psig": "psi", "ohms": "ohm",
          "kAIC": "kA", "kaic": "kA", "AIC": "A", "dB": "dBA", "db": "dBA", "MCM": "kcmil", "cmil": "kcmil"}

_NUMBER = r"[+-]?(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,12})?(?:\.[0-9]{1,18})?(?:[eE][+-]?[0-9]{1,2})?"
_UNIT = r"[A-Za-z°Ωµ%'\"][A-Za-z0-9°Ωµ²³/%-]{0,15}"
_QUANTITY = re.compile(rf"[ \t]*(?P<number>{_NUMBER})[ \t]*(?P<unit>{_UNIT})[ \t]*")
_BARE = re.compile(rf"[ \t]*(?P<number>{_NUMBER})[ \t]*")
_NOT_FINITE = re.compile(r"[ \t]*[+-]?\.?(?:nan|inf(?:inity)?)(?![A-Za-z]).*", re.IGNORECASE)
_TWO = re.compile(r"[ \t]*(?P<a>[0-9]+)[ \t]*(?:ft|')[ \t]*(?P<b>[0-9]+(?:\.[0-9]+)?)[ \t]*(?:in|\")?[ \t]*")
_COMMA = re.compile(rf"[ \t]*(?P<a>[0-9]{{1,12}}),(?P<b>[0-9]{{1,12}})[ \t]*(?P<unit>{_UNIT})[ \t]*")
_LONGEST = 64


class QuantityError(CurtilageError):
    """A text that is not a quantity this field accepts. `given`, `expected` and `mend` are parts of a sentence."""

    def __init__(self, given: str, expected: str, mend: str = "") -> None:
        super().__init__("; ".join(part for part in (given, expected, mend) if part))
        self.given, self.expected, self.mend = given, expected, mend


def shown(x: object) -> str:
    """What somebody wrote, quoted and cut to a length that fits a message."""
    text = str(x) if isinstance(x, str) else repr(x)
    text = text if len(text) <= 40 else text[:37] + "..."
    return repr(text) if isinstance(x, str) else text


def plain(x: float) -> str:
    """A number as a person writes it: no exponent for everyday sizes, no trailing zeros."""
    if x == int(x) and abs(x) < 1e15:
        return str(int(x))
    return f"{x:.12g}"


def foreign_digits(text: str) -> bool:
    """Whether a text holds digits of another script, which look like numbers and are not read as such."""
    return any(c.isdigit() and c not in "0123456789²³" for c in text)


def uncommaed(text: str) -> str:
    """How to write a number that holds commas without them; an empty text where that cannot be told."""
    match = re.fullmatch(r"[ \t]*([+-]?[0-9]{1,12}(?:,[0-9]{1,12})+)(\.[0-9]*)?[ \t]*", text)
    if match is None:
        return ""
    grouped, one = re.fullmatch(r"[+-]?[0-9]{1,3}(?:,[0-9]{3})+", match[1]), match[1].count(",") == 1 and not match[2]
    ways = [match[1].replace(",", "") + (match[2] or "")] if grouped else []
    ways += [match[1].replace(",", ".")] if one else []
    return f"write {' or '.join(ways)}, without a comma" if ways else ""


class Unit:
    """Marker for a field that holds a quantity: reads '185 ft', stores a float in `unit`, writes '185 ft' back.

    `lo` and `hi` bound the stored value (`above=True` leaves out `lo` itself); a value outside is refused, never bent.
    """
    __slots__ = ("_seen", "above", "accepted", "hi", "lo", "only", "unit", "what")

    def __init__(self, unit: str, what: str, lo: float, hi: float, *, above: bool = False, only: tuple[float, ...] = ()) -> None:
        self.unit, self.what, self.lo, self.hi, self.above, self.only = unit, what, lo, hi, above, only
        self.accepted: Mapping[str, Affine] = FACTORS[unit]
        self._seen: dict[str, float] = {}

    def parse(self, given: object) -> float:
        """The value in `self.unit`. Raises `QuantityError`."""
        if isinstance(given, str):
            known = self._seen.get(given)
            if known is not None:
                return known
        value = self._read(given)
        if isinstance(given, str) and len(self._seen) < 4096:
            self._seen[given] = value
        return value

    def meant(self, unit: str) -> str:
        """The accepted unit that a word stands for, where it is a known slip; else the word itself."""
        return unit if unit in self.accepted else _SLIPS.get(unit, unit)

    def _read(self, given: object) -> float:
        given = given.replace("\xa0", " ").replace("\u202f", " ") if isinstance(given, str) else given      # hard spaces
        match = _QUANTITY.fullmatch(given) if isinstance(given, str) and len(given) <= _LONGEST else None
        if match is None or not any(c in "0123456789" for c in match["number"]):
            raise self._unreadable(given)
        factor = self.accepted.get(match["unit"])
        if factor is None:
            raise self._other_unit(match["number"], match["unit"])
        number = float(match["number"].replace(",", ""))
        return self.bounded(self.convert(number, factor), str(given).strip(), match["unit"])

    @staticmethod
    def convert(number: float, factor: Affine) -> float:
        """Number times factor plus offset, to twelve significant digits unless nothing changes."""
        return number if factor == (1.0, 0.0) else float(f"{factor[0] * number + factor[1]:.12g}")

    def bounded(self, value: float, given: str, unit: str = "") -> float:
        """The value itself, if it lies in the range of this field; `unit` is the one it was given in. Raises `QuantityError`."""
        if self.only and math.isfinite(value) and value not in self.only:
            raise QuantityError(f"{given} is not {self.what}", f"allowed: {self.range(unit)}")
        if self.lo <= value <= self.hi and not (self.above and value == self.lo):
            return value + 0.0                                 # no negative zero
        what = f"{given} is not a finite number" if not math.isfinite(value) else self._why_outside(value, given)
        raise QuantityError(what, f"allowed: {self.range(unit)}")

    def _why_outside(self, value: float, given: str) -> str:
        if value < 0 <= self.lo:
            return f"{given} is negative"
        if self.unit == "%" and 0 < value < self.lo and self.lo <= 100 * value <= self.hi:
            return f"{given} is less than {plain(self.lo)} %; if a fraction was meant, write '{plain(round(100 * value, 9))} %'"
        return f"{given} is {'too small' if value <= self.lo else 'too large'}"

    def range(self, unit: str = "") -> str:
        """The range in words, in the stored unit or another accepted one."""
        unit = unit or self.unit
        a, b = self.accepted[unit]

        def said(x: float) -> str:
            return f"{float(f'{(x - b) / a:.6g}'):,}".removesuffix(".0")

        if self.only:
            return f"{', '.join(map(said, self.only[:-1]))} or {said(self.only[-1])} {unit}"
        if self.above:
            return f"more than {said(self.lo)} {unit}, up to {said(self.hi)} {unit}"
        return f"{said(self.lo)} to {said(self.hi)} {unit}"

    def names(self) -> str:
        """The accepted units in a row."""
        row = [u for u in self.accepted if not any(c in "²°" for c in u)]
        return f"{', '.join(row[:-1])} or {row[-1]}" if len(row) > 1 else row[0]

    def _unreadable(self, given: object) -> QuantityError:
        expected = f"expected {self.what} in {self.names()}"
        text = given if isinstance(given, str) else ""
        if isinstance(given, int | float) and not isinstance(given, bool):
            return self._no_unit(plain(given) if math.isfinite(given) else str(given), expected, math.isfinite(given))
        if _NOT_FINITE.fullmatch(text):
            return QuantityError(f"{shown(text)} is not a finite number", expected)
        if foreign_digits(text):
            return QuantityError(f"{shown(text)} has digits of another script", expected, "write the digits 0 to 9")
        bare = _BARE.fullmatch(text)
        if bare and any(c in "0123456789" for c in bare["number"]):
            return self._no_unit(bare["number"], expected, True)
        two = _TWO.fullmatch(text)
        if two and "ft" in self.accepted:
            feet = plain(round(int(two["a"]) + float(two["b"]) / 12, 6))
            return QuantityError(f"{shown(text)} is two quantities", expected, f"write '{feet} ft'")
        comma = _COMMA.fullmatch(text)
        if comma and self.meant(comma["unit"]) in self.accepted:
            return QuantityError(f"cannot read {shown(given)}", expected,
                                 f"write '{comma['a']}.{comma['b']} {self.meant(comma['unit'])}', with a point")
        if given is None:
            return QuantityError("is empty", expected, f"write for example '{self.example()}'")
        return QuantityError(f"cannot read {shown(given)}", expected, f"write for example '{self.example()}'")

    def _no_unit(self, number: str, expected: str, finite: bool) -> QuantityError:
        if not finite:
            return QuantityError(f"{number} is not a finite number", expected)
        if self.unit == "%" and 0 < abs(float(number.replace(",", ""))) < 1:
            mend = f"a fraction is not a percentage: write '{plain(round(100 * float(number), 9))} %'"
            return QuantityError(f"{number} has no unit", expected, mend)
        return QuantityError(f"{number} has no unit", expected, f"write '{number} {self.unit}' if that is what it is")

    def _other_unit(self, number: str, unit: str) -> QuantityError:
        meant = _SLIPS.get(unit, "")
        if meant in self.accepted:
            return QuantityError(f"the unit {unit} is not read", f"accepted: {self.names()}", f"write '{number} {meant}'")
        return QuantityError(f"'{number} {unit}' is not {self.what}", f"accepted: {self.names()}")

    def example(self) -> str:
        """A value that this field would take."""
        inside = list(self.only) or [x for x in (10.0, 100.0, 1.0, 1000.0, 30.0, self.hi) if self.lo < x <= self.hi]
        return f"{plain(inside[0])} {self.unit}"

    def write(self, value: float) -> str:
        """The value with its unit, as it stands in a file."""
        text = repr(float(value))
        return f"{text.removesuffix('.0')} {self.unit}"

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core import core_schema

        written = core_schema.plain_serializer_function_ser_schema(self.write, return_schema=core_schema.str_schema(),
                                                                   when_used="json")
        return core_schema.no_info_plain_validator_function(self.parse, serialization=written)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        units = "|".join(re.escape(u) for u in self.accepted)
        return {"type": "string", "pattern": rf"^\s*{_NUMBER}\s*({units})\s*$", "examples": [self.example()]}


class SplitVoltage(NamedTuple):
    """Single-phase three-wire: volts to neutral and volts between the lines."""
    neutral: float
    line: float

    def __str__(self) -> str:
        return f"{plain(self.neutral)}/{plain(self.line)} V"


_SPLIT = re.compile(r"[ \t]*([0-9]{2,3})/([0-9]{2,3})[ \t]*V[ \t]*")
_WYE = re.compile(r"[ \t]*(?:[0-9]{2,3}[Yy]/[0-9]{2,3}|120/208|277/480|347/600|208|480)[ \t]*V?[ \t]*")


def split_voltage(given: object) -> SplitVoltage:
    """'120/240 V' -> SplitVoltage(120, 240). Three-phase systems are refused with a sentence. Raises `QuantityError`."""
    text = given if isinstance(given, str) else ""
    match = _SPLIT.fullmatch(text)
    if match and float(match[2]) == 2 * float(match[1]) and 110 <= float(match[1]) <= 127:
        return SplitVoltage(float(match[1]), float(match[2]))
    if _WYE.fullmatch(text):
        raise QuantityError(f"{shown(text)} is a three-phase system, and three-phase services are not worked here",
                            "expected a single-phase three-wire service", "write '120/240 V'")
    raise QuantityError(f"cannot read {shown(given)} as the voltage of a service",
                        "expected volts to neutral and volts between lines, the second twice the first", "write '120/240 V'")


def read(text: object, unit: str) -> float:
    """A quantity in any accepted unit, as a float in `unit`. Raises `QuantityError`."""
    return Unit(unit, "a quantity", -1e12, 1e12).parse(text)


SYSTEMS: dict[str, dict[str, str]] = {
    "us": {"degC": "degF"},
    "si": {"ft": "m", "in": "mm", "ft2": "m2", "hp": "kW", "MBH": "kW", "ft3/h": "m3/h", "Btu/ft3": "MJ/m3", "psi": "kPa",
           "kcmil": "mm2", "in2": "mm2", "in3": "cm3", "lb": "kg", "lb/ft": "kg/m",
           "VA/ft2": "VA/m2"},
}
"""Display system -> stored unit -> unit shown; a unit that is not named is shown as stored."""


def displayed(value: float, unit: str, system: str = "us") -> tuple[float, str]:
    """A stored value as the display system shows it: number and unit. Raises `CurtilageError` for an unknown system."""
    if system not in SYSTEMS:
        raise CurtilageError(f"{system!r} is not a display system; allowed: {' or '.join(SYSTEMS)}")
    to = SYSTEMS[system].get(unit, unit)
    if to == unit:
        return value, unit
    a, b = FACTORS[unit][to]
    return (value - b) / a, to


def show(value: float, unit: str, system: str = "us", digits: int = 4) -> str:
    """A stored value as text in the display system, to so many significant digits: '80.77 m'."""
    number, to = displayed(value, unit, system)
    return f"{plain(float(f'{number:.{digits}g}'))} {to}"


def stored(number: float, unit: str, system: str = "us") -> float:
    """A number from a form that shows `system`, back in the stored unit; the inverse of `displayed`."""
    to = SYSTEMS[system].get(unit, unit)
    return Unit.convert(number, FACTORS[unit][to])


_PINT = {"VA": "volt * ampere", "kVA": "kilovolt * ampere", "hp": "electrical_horsepower", "%": "percent", "in": "inch",
         "ft2": "ft ** 2", "in2": "inch ** 2", "in3": "inch ** 3", "VA/ft2": "volt * ampere / ft ** 2", "ohm-m": "ohm * m",
         "MBH": "kBtu_it / hour", "ft3/h": "ft ** 3 / hour", "ft3/kWh": "ft ** 3 / kWh", "Btu/ft3": "Btu_it / ft ** 3",
         "deg": "degree",
         "starts/h": "1 / hour", "h": "hour", "days": "day", "dBA": "dimensionless"}


def quantity(value: float, unit: str) -> Any:
    """A stored value as a pint quantity, for people who work with pint. Needs the `pint` extra."""
    try:
        import pint
    except ImportError:
        raise CurtilageError("pint is not installed; install it with: pip install 'curtilage[pint]'") from None
    made_by = pint.get_application_registry()
    if unit == "kcmil":
        return made_by.Quantity(value * math.pi / 4 * 1000, "thou ** 2")
    return made_by.Quantity(value, _PINT.get(unit, unit))


Length = Annotated[float, Unit("ft", "a length", 0, 20_000, above=True)]
LengthOrNone = Annotated[float, Unit("ft", "a length", 0, 20_000)]
Coordinate = Annotated[float, Unit("ft", "a coordinate", -50_000, 50_000)]
Inches = Annotated[float, Unit("in", "a length", 0, 2_000)]
Elevation = Annotated[float, Unit("ft", "a height above sea level", -1_500, 15_000)]
Area = Annotated[float, Unit("ft2", "an area", 0, 500_000, above=True)]
Amps = Annotated[float, Unit("A", "a current", 0, 10_000, above=True)]
FaultAmps = Annotated[float, Unit("A", "a fault current", 1_000, 300_000)]
Volts = Annotated[float, Unit("V", "a voltage", 0, 1_000)]
PrimaryVolts = Annotated[float, Unit("V", "a primary voltage", 600, 40_000)]
VA = Annotated[float, Unit("VA", "an apparent power", 0, 2e6)]
KVA = Annotated[float, Unit("kVA", "an apparent power", 1, 2_500)]
KW = Annotated[float, Unit("kW", "a power", 0, 2_500)]
KWh = Annotated[float, Unit("kWh", "an energy", 0, 10_000)]
Celsius = Annotated[float, Unit("degC", "a temperature", -50, 60)]
RatedC = Annotated[float, Unit("degC", "a temperature rating", 60, 90, only=(60, 75, 90))]
Percent = Annotated[float, Unit("%", "a percentage", 0, 100)]
Drop = Annotated[float, Unit("%", "a percentage", 0.2, 15)]
Growth = Annotated[float, Unit("%", "a percentage", 0, 200)]
Impedance = Annotated[float, Unit("%", "a percentage", 0.5, 15)]
Seconds = Annotated[float, Unit("s", "a time", 0, 86_400)]
Minutes = Annotated[float, Unit("min", "a time", 0, 10_080)]
Hours = Annotated[float, Unit("h", "a time", 0, 10_000)]
Days = Annotated[float, Unit("days", "a time", 0, 10_000)]
Ohms = Annotated[float, Unit("ohm", "a resistance", 0, 100_000)]
Resistivity = Annotated[float, Unit("ohm-m", "a soil resistivity", 1, 100_000)]
MBH = Annotated[float, Unit("MBH", "a heat input", 0, 20_000)]
GasFlow = Annotated[float, Unit("ft3/h", "a gas flow", 0, 100_000)]
FuelUse = Annotated[float, Unit("ft3/kWh", "a fuel use", 1, 100)]
HeatValue = Annotated[float, Unit("Btu/ft3", "a heating value", 400, 3_500)]
Pressure = Annotated[float, Unit("psi", "a pressure", 0, 150)]
UnitLoad = Annotated[float, Unit("VA/ft2", "a unit load", 0, 50)]
Angle = Annotated[float, Unit("deg", "an angle", 0, 1_080)]
Rise = Annotated[float, Unit("ft", "a rise", -2_000, 2_000)]
Tension = Annotated[float, Unit("lb", "a tension", 0, 50_000)]
Weight = Annotated[float, Unit("lb/ft", "a weight per length", 0, 100, above=True)]
Volume = Annotated[float, Unit("in3", "a volume", 0, 20_000, above=True)]
Sound = Annotated[float, Unit("dBA", "a sound level", 0, 140)]
Starts = Annotated[float, Unit("starts/h", "a rate of starts", 0, 3_600)]
