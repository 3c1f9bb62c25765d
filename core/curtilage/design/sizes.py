"""One feeder in every size: each through the methods of the whole design, and only what rests on the feeder anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.design.works import alone
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.design.works.laid import Planned

BELOW, MOST = 3, 9
"""Sizes shown below the one that is laid, and in all."""


class Try(NamedTuple):
    """One size: the design with it, or why there is none."""

    size: str
    design: Design | None
    why: str = ""


def sizes(d: Design, name: str, by: str = "another size") -> tuple[Try, ...]:
    """The feeder in sizes around the one that is laid, with its number of sets; the laid one is the design itself."""
    laid = d.items[f"feeder/{name}"]
    m = d.ed.view(d.asks[f"feeder/{name}"].view)
    known = [size for size in m.sizes if size in m.r and size in m.x]
    at = known.index(laid.size) if laid.size in known else len(known) // 2
    first = max(0, min(at - BELOW, len(known) - MOST))
    runs = alone.lying(d, name)
    alone.feeder(d, name, runs)
    return tuple(Try(size, d) if size == laid.size else _try(d, name, size, int(laid.sets), runs, by)
                 for size in known[first:first + MOST])


def _try(d: Design, name: str, size: str, sets: int, runs: tuple[Planned, ...], by: str) -> Try:
    try:
        new = d.with_values({f"feeders.{name}.size": size, f"feeders.{name}.sets": sets}, by)
        alone.feeder(new, name, runs)
        return Try(size, new)
    except CurtilageError as e:
        return Try(size, None, str(e))
