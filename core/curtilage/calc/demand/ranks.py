"""Loads in order of size, for rules that give the largest a share of its own."""
from typing import Any

from curtilage.values.told import value


def ranked(loads: tuple[Any, ...], singles: int = 3) -> tuple[tuple[Any, ...], ...]:
    """The largest, the second, ... each in a tuple of its own (empty when there is none), and all the others.

    Told loads are ranked by their values, so a told run takes the same order. Ties keep the order of the list.
    """
    order = sorted(loads, key=lambda x: -value(x.amperes))
    return (*(tuple(order[i:i + 1]) for i in range(singles)), tuple(order[singles:]))
