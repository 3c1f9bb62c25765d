"""Printed answers: the digits as printed set the tolerance. And the named ways in which sources round."""
from __future__ import annotations

from decimal import ROUND_DOWN, ROUND_HALF_UP, ROUND_UP, Decimal
import re
from typing import NamedTuple

from curtilage.errors import CurtilageError

_DIGITS = r"[+-]?(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,12})(?:\.[0-9]{1,12})?|[+-]?\.[0-9]{1,12}"
_NUMBER = re.compile(rf"({_DIGITS})\s*([A-Za-z°%Ω][^\s,]*)?")
_ROUND = re.compile(r"(half up|cut|up) to ([0-9]+(?:\.[0-9]+)?)")
_WAYS = {"half up": ROUND_HALF_UP, "cut": ROUND_DOWN, "up": ROUND_UP}
_NOISE = 9            # decimals behind which a float is noise


class Printed(NamedTuple):
    """A printed number, its unit, and half a unit of its last digit."""
    number: Decimal
    unit: str
    half: Decimal

    def fits(self, x: float) -> bool:
        """Whether a value agrees to the printed digits. The half itself agrees: 77.5 is printed 78."""
        return abs(self.number - Decimal(repr(round(x, _NOISE)))) <= self.half + Decimal("1e-9")


def read(text: str) -> Printed:
    """'18,600 VA' -> 18600, VA, 0.5; '7.2 kVA' -> 7.2, kVA, 0.05."""
    m = _NUMBER.fullmatch(text.strip())
    if m is None:
        raise CurtilageError(f"cannot read '{text}' as a printed number with a unit; write for example '18,600 VA' or '7.2 kVA'")
    number = Decimal(m[1].replace(",", ""))
    digits = number.as_tuple().exponent
    return Printed(number, (m[2] or "").strip(), Decimal(1).scaleb(int(digits)) / 2)


def size(text: str) -> str:
    """A wire size without its dress: '1/0 AWG' and '1/0' are one, '250 kcmil' and '250' too."""
    return re.sub(r"\s*(AWG|kcmil|MCM)\s*$", "", text.strip())


class Rounding(NamedTuple):
    """A named way of rounding: 'half up to 0.1', 'cut to 1', 'up to 1'."""
    way: str
    step: Decimal

    def __call__(self, x: float) -> float:
        steps = Decimal(repr(round(x / float(self.step), _NOISE)))
        return float(steps.quantize(Decimal(1), rounding=_WAYS[self.way]) * self.step)

    def __str__(self) -> str:
        return f"{self.way} to {self.step}"


def rounding(text: str) -> Rounding:
    """Read the name of a way of rounding."""
    m = _ROUND.fullmatch(text.strip())
    if m is None or Decimal(m[2]) == 0:
        raise CurtilageError(f"cannot read '{text}' as a rounding; write like 'half up to 0.1', 'cut to 1' or 'up to 1'")
    return Rounding(m[1], Decimal(m[2]))
