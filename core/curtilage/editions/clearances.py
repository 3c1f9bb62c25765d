"""Which kinds of things on a site keep which distance, by which rule: a list beside the editions, which hold the figures."""
from __future__ import annotations

from functools import cache
from pathlib import Path
import tomllib
from typing import NamedTuple

FILE = Path(__file__).parent.parent / "data" / "clearances.toml"


class Pair(NamedTuple):
    """Two kinds of things, the rule between them, and the number of the check. With `near` the rule is a most, not a least."""

    a: str
    b: str
    rule: str
    check: str
    near: bool = False


@cache
def pairs() -> tuple[Pair, ...]:
    """Every pair of kinds, in the order of the list."""
    return tuple(Pair(**p) for p in tomllib.loads(FILE.read_text(encoding="utf-8"))["pair"])
