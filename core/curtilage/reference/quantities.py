"""Quantities of reference files, read once at the door by the grammar of `curtilage.units`."""
from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from curtilage.errors import CurtilageError, listed
from curtilage.units import FACTORS, Affine, Unit

_ALSO: dict[str, dict[str, Affine]] = {          # what books print beside the units of an estate
    "VA": {"W": (1.0, 0.0), "kW": (1e3, 0.0)},   # at unity power factor, as the load calculations of the Code take ratings in kW
    "kVA": {"kW": (1.0, 0.0), "W": (1e-3, 0.0)},
    "kW": {"kVA": (1.0, 0.0)},
    "kV": {"V": (1e-3, 0.0)},
    "ohm/kft": {"ohm/kft": (1.0, 0.0), "ohm/km": (0.3048, 0.0), "ohm/ft": (1e3, 0.0)},
    "cmil": {"cmil": (1.0, 0.0), "kcmil": (1e3, 0.0)},
    "ohm-m": {"ohm-cm": (0.01, 0.0)},
    "ohm m": {"ohm-m": (1.0, 0.0), "ohm-cm": (0.01, 0.0)},
    "%": {"pu": (100.0, 0.0)},
}
_WHAT = {"VA": "a power or a load", "A": "a current", "V": "a voltage", "ft": "a length", "ft2": "an area",
         "degC": "a temperature", "%": "a percentage", "ohm/kft": "a resistance per length", "ohm": "a resistance",
         "cmil": "an area of a conductor"}
_SAMPLES = {"VA": "12 kW", "kVA": "12 kW", "W": "12 kW", "A": "30 A", "V": "240 V",
            "kV": "12.47 kV", "ft": "185 ft", "ft2": "1500 ft2",
            "degC": "75 degC"}
_MOST = 1e9


class _Quantity(Unit):
    """A unit with what books print beside it."""
    __slots__ = ()

    def __init__(self, unit: str) -> None:
        super().__init__(unit if unit in FACTORS else "%", _WHAT.get(unit, "a quantity"), -273.15 if unit == "degC" else 0, _MOST)
        self.unit = unit
        self.accepted = accepted(unit)


@cache
def accepted(unit: str) -> Mapping[str, Affine]:
    """Unit accepted -> factor and offset to `unit`; a unit that is not in the tables stands for itself alone."""
    return {**FACTORS.get(unit, {unit: (1.0, 0.0)}), **_ALSO.get(unit, {})}


@cache
def _quantity(unit: str) -> _Quantity:
    return _Quantity(unit)


def read(text: object, unit: str) -> float:
    """A quantity as a float in `unit`. Raises `CurtilageError`."""
    return _quantity(unit).parse(text)


def sample(unit: str) -> str:
    """How a quantity in `unit` is written."""
    return _SAMPLES.get(unit) or _quantity(unit).example()


def names(unit: str) -> str:
    """The accepted units in words."""
    return _quantity(unit).names()


def convert(x: float, unit: str, to: str) -> float:
    """A number of ours in `unit`, in the unit that a source prints. Raises `CurtilageError`."""
    if unit == to or {unit, to} == {"", "count"}:
        return x
    known = accepted(unit)
    if to not in known:
        shown = listed(u for u in known if u) or "no unit"
        raise CurtilageError(f"'{to}' is not a unit of this result; accepted: {shown}")
    a, b = known[to]
    return (x - b) / a
