"""Which rows of the load list matter most: how much the calculated load falls when a row is left out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.calc.demand.contributions import contributions

if TYPE_CHECKING:
    from curtilage.design.design import Design


class Top(NamedTuple):
    """A row (or group, or manager): what leaving it out takes off the load of its main, in VA, and its nameplate."""

    id: str
    at: str
    marginal: float
    nameplate: float
    key: str


def top_rows(d: Design, most: int = 10) -> tuple[Top, ...]:
    """The rows that matter most, over all mains, largest first. Each counts in the calculation of the branch it stands in."""
    found = [row for name in d.tree.mains for row in branch_rows(d, name)]
    return tuple(sorted(found, key=lambda t: (-t.marginal, t.id))[:most])


def branch_rows(d: Design, name: str) -> Iterator[Top]:
    """What each row of one feeder or main adds to its load; a main whose load is a sum hands over the rows of its parts."""
    key = d.chosen.get(name, "")
    if key.endswith("/sum"):
        for part in d.asks[key].record.parts:
            yield from branch_rows(d, part.id)
    elif key:
        ask = d.asks[key]
        behind = (*(m[1] for m in ask.more), *ask.besides)

        def load(record: Any) -> float:
            return float(ask.method(record, *behind, d.ed).total)

        plate = nameplates(d)
        for c in contributions(load, ask.record):
            yield Top(c.id, name, c.marginal, plate.get(c.id, 0.0), key)


def nameplates(d: Design) -> dict[str, float]:
    """Nameplate in VA of every row, of every group and of what every manager holds."""
    out: dict[str, float] = {}
    for r in d.tree.rows:
        for name in {r.id, r.group, r.manager} - {""}:
            out[name] = out.get(name, 0.0) + r.va
    return out
