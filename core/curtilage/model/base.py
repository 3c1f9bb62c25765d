"""What every part of an estate shares: the strict frozen model, and the plain kinds of field that carry no unit."""
import datetime
import math
import re
from typing import TYPE_CHECKING, Annotated, Any, ClassVar

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from curtilage.units import QuantityError, foreign_digits, plain, shown


class Strict(BaseModel):
    """Frozen, and every key must be known."""
    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class Item(Strict):
    """A thing with an id, one of a list; paths name it by that id."""
    if TYPE_CHECKING:
        id: str


class Marker:
    """A kind of field: `parse` reads what was written or raises `QuantityError`; `json` is its JSON Schema."""

    def parse(self, given: object) -> Any:
        """The stored value."""
        raise NotImplementedError

    def json(self) -> dict[str, Any]:
        """The JSON Schema of what may be written."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.parse)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return self.json()


class TextKind(Marker):
    """Words. Control characters are refused; a long text is refused, not cut."""

    def __init__(self, most: int = 4000, empty: bool = True) -> None:
        self.most, self.empty = most, empty

    def json(self) -> dict[str, Any]:
        return {"type": "string", "maxLength": self.most} | ({} if self.empty else {"minLength": 1})

    def parse(self, given: object) -> str:
        if not isinstance(given, str):
            mend = "" if isinstance(given, list | dict) or given is None else f'write "{given}" in quotes'
            raise QuantityError(f"{thing(given)} stands where words are expected", "", mend)
        if len(given) > self.most:
            raise QuantityError(f"the text is {len(given)} characters long", f"allowed: up to {self.most}")
        if not given.strip() and not self.empty:
            raise QuantityError("the text is empty", "expected words")
        if any(ord(c) < 32 and c not in "\n\t" for c in given):
            raise QuantityError("the text holds a control character", "expected a text", "retype it")
        return given.strip()


ID_RULE = "allowed: up to 32 letters, digits, '-' and '_', without spaces or dots"


class IdKind(Marker):
    """A name that other entries refer to: letters, digits, `-` and `_`."""
    def json(self) -> dict[str, Any]:
        return {"type": "string", "pattern": "^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$"}

    _shape = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,31}")

    def parse(self, given: object) -> str:
        if isinstance(given, str) and self._shape.fullmatch(given):
            return given
        if isinstance(given, int | float) and not isinstance(given, bool):
            raise QuantityError(f"{given} is a number where an id is expected", "", f'write "{given}" in quotes')
        raise QuantityError(f"{thing(given)} cannot be an id", ID_RULE)


class FlagKind(Marker):
    """yes or no."""
    def json(self) -> dict[str, Any]:
        return {"enum": [True, False, "yes", "no"]}

    _words: ClassVar = {"yes": True, "no": False, "true": True, "false": False, "Yes": True, "No": False, "Y": True, "N": False}

    def parse(self, given: object) -> bool:
        if isinstance(given, bool):
            return given
        if isinstance(given, str) and given in self._words:
            return self._words[given]
        raise QuantityError(f"{shown(given)} is neither yes nor no", "allowed: yes or no")


class WholeKind(Marker):
    """A count without a unit."""

    def __init__(self, lo: int, hi: int) -> None:
        self.lo, self.hi = lo, hi

    def json(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.lo, "maximum": self.hi}

    def parse(self, given: object) -> int:
        if isinstance(given, bool) or not isinstance(given, int | float) or given != given:
            raise QuantityError(f"{shown(given)} is not a whole number", f"allowed: {self.lo} to {self.hi}",
                                "write the number alone, without a unit and without quotes" if _looks_numeric(given) else "")
        if isinstance(given, float) and not given.is_integer():
            raise QuantityError(f"{given} is not a whole number", f"allowed: {self.lo} to {self.hi}")
        if not self.lo <= given <= self.hi:
            raise QuantityError(f"{plain(given)} is too {'small' if given < self.lo else 'large'}",
                                f"allowed: {self.lo} to {self.hi}")
        return int(given)


class NumberKind(Marker):
    """A ratio: a number that has no unit by nature, such as a power factor."""

    def __init__(self, lo: float, hi: float) -> None:
        self.lo, self.hi = lo, hi

    def json(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.lo, "maximum": self.hi}

    def parse(self, given: object) -> float:
        allowed = f"allowed: {plain(self.lo)} to {plain(self.hi)}"
        if isinstance(given, bool) or not isinstance(given, int | float):
            raise QuantityError(f"{shown(given)} is not a plain number", allowed,
                                "write the number alone, without a unit and without quotes" if _looks_numeric(given) else "")
        if not math.isfinite(given):
            raise QuantityError(f"{given} is not a finite number", allowed)
        if not self.lo <= given <= self.hi:
            raise QuantityError(f"{plain(given)} is too {'small' if given < self.lo else 'large'}", allowed)
        return float(given)


class DateKind(Marker):
    """A calendar day, ISO 8601."""
    def json(self) -> dict[str, Any]:
        return {"type": "string", "format": "date"}

    _shape = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")

    def parse(self, given: object) -> datetime.date:
        if isinstance(given, datetime.date) and not isinstance(given, datetime.datetime):
            return given
        if isinstance(given, str) and self._shape.fullmatch(given):
            try:
                return datetime.date.fromisoformat(given)
            except ValueError:
                pass
        raise QuantityError(f"{shown(given)} is not a date", "expected year-month-day", "write for example 2031-05-20")


SIZES = ("14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600",
         "700", "750", "800", "900", "1000", "1250", "1500", "1750", "2000")
"""Conductor sizes of NEC Table 310.16 in order of area; AWG to 4/0, kcmil from 250."""


SIZE_RULE = "allowed: 14 to 4/0 (AWG), 250 to 2000 (kcmil)"


class SizeKind(Marker):
    """A conductor size, as its table names it: "4/0" is AWG, "500" is kcmil; a unit may be written behind it."""
    def json(self) -> dict[str, Any]:
        return {"enum": list(SIZES)}

    def parse(self, given: object) -> str:
        text = str(given) if isinstance(given, int) and not isinstance(given, bool) else given
        if not isinstance(text, str):
            raise QuantityError(f"{thing(given)} is not a conductor size", SIZE_RULE)
        size, _, unit = text.strip().partition(" ")
        counted = "AWG" if size in SIZES[:SIZES.index("250")] else "kcmil"
        if size in SIZES and unit in ("", counted):
            return size
        if size in SIZES:
            raise QuantityError(f"{shown(given)} is not a conductor size: {size} is counted in {counted}", "", f"write '{size}'")
        raise QuantityError(f"{shown(given)} is not a conductor size", SIZE_RULE)


TRADE_SIZES = ("3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6")
"""Raceway trade sizes of NEC Chapter 9 Table 4."""


class TradeSizeKind(Marker):
    """A raceway trade size in inches, as Chapter 9 Table 4 names it: "1-1/4" or "1-1/4 in"."""
    def json(self) -> dict[str, Any]:
        return {"enum": list(TRADE_SIZES)}

    def parse(self, given: object) -> str:
        text = str(given) if isinstance(given, int) and not isinstance(given, bool) else given
        if isinstance(text, str) and text.strip().removesuffix(" in") in TRADE_SIZES:
            return text.strip().removesuffix(" in")
        raise QuantityError(f"{shown(given)} is not a raceway trade size", f"allowed: {', '.join(TRADE_SIZES)}")


def thing(given: object) -> str:
    """What was written, named for a message."""
    if isinstance(given, dict):
        return "a group of keys"
    if isinstance(given, list | tuple):
        return "a list"
    return "nothing" if given is None else shown(given)


def _looks_numeric(given: object) -> bool:
    return isinstance(given, str) and (any(c in "0123456789" for c in given) or foreign_digits(given))


def none_if_blank(given: object) -> object:
    """An empty text stands for nothing stated."""
    return None if given == "" else given


Text = Annotated[str, TextKind()]
Words = Annotated[str, TextKind(empty=False)]
Id = Annotated[str, IdKind()]
Flag = Annotated[bool, FlagKind()]
Day = Annotated[datetime.date, DateKind()]
Size = Annotated[str, SizeKind()]
TradeSize = Annotated[str, TradeSizeKind()]
PowerFactor = Annotated[float, NumberKind(0.1, 1)]
Ratio = Annotated[float, NumberKind(0.05, 100)]
Share = Annotated[float, NumberKind(0, 1)]
Count = Annotated[int, WholeKind(1, 1000)]
CountOrNone = Annotated[int, WholeKind(0, 1000)]
Sets = Annotated[int, WholeKind(1, 12)]
Wires = Annotated[int, WholeKind(2, 60)]
Poles = Annotated[int, WholeKind(1, 4)]
Stage = Annotated[int, WholeKind(1, 9)]
