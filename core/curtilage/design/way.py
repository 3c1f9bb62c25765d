"""The way of the current from the transformer to a panel."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from curtilage.design.design import Design


class Step(NamedTuple):
    """One element on the way of the current, A."""

    name: str
    tag: str
    minimum: float
    rating: float


def way(d: Design, panel: str) -> tuple[Step, ...]:
    """Every bus, device and conductor between a panel and the transformer, with what it must carry and what it may.

    What it must carry is the minimum, continuous load at 125 % (215.2(A)(1), 215.3, 230.42(A)(1)).
    """
    out = []
    for f in reversed(d.tree.way(panel)):
        r, bus = d.items[f"feeder/{f.id}"], next(p.rating for p in d.estate.panels if p.id == f.to)
        if bus is not None:
            out.append(Step(f"bus of {f.to}", f"feeder/{f.id}/minimum", r.minimum, bus))
        out.append(Step(f"device of feeder {f.id}", f"feeder/{f.id}/device", r.minimum, r.device))
        out.append(Step(f"conductors of feeder {f.id}", f"feeder/{f.id}/ampacity", r.minimum, r.ampacity))
    main = d.tree.main_of(panel)
    if main:
        m, s = d.items[f"main/{main}"], d.items["service"]
        out.append(Step(f"main {main}", f"main/{main}/rating", m.minimum, m.rating))
        out.append(Step("service conductors", "service/ampacity", s.minimum, s.ampacity))
        gear = d.estate.service.gear
        out.append(Step(f"bus of {gear.id}", "service/minimum", s.minimum, gear.bus))
    return tuple(out)
