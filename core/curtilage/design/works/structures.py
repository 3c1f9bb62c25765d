"""Working space in front of gear and panels, and the disconnecting means of buildings that a feeder supplies."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.utility.space import Building, Space, building_disconnect, working_space
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder
    from curtilage.model.panels import Panel
    from curtilage.model.service import Gear
    from curtilage.model.site import Structure
    from curtilage.model.sources import Alternate

BANDS = ((150.0, "0-150"), (600.0, "151-600"), (1000.0, "601-1000"))
"""Volts to ground as the table of working depth names them."""


class Supply(NamedTuple):
    """A supply of a building from another structure, and what it is for: normal, standby, production, or not said."""

    id: str
    to: str
    what: str
    feeder: Feeder | None = None


def stage(d: Design) -> None:
    """Working spaces, then buildings."""
    gear = d.estate.service.gear
    space(d, gear, "service.gear")
    for p in d.estate.panels:
        space(d, p, f"panels.{p.id}")
    for s in d.estate.structures:
        if s.id != gear.structure:
            building(d, s)


def space(d: Design, thing: Gear | Panel, path: str) -> None:
    """The working space of one piece of equipment."""
    missing = [name for name in ("depth", "width", "height", "condition") if getattr(thing, name) is None]
    if missing:
        d.lack(f"space/{thing.id}", f"the {', '.join(missing)} of the working space at {thing.id}")
        return
    volts = d.estate.service.voltage.neutral
    band = next(name for most, name in BANDS if volts <= most)
    record = Space(thing.id, band, f"{thing.condition}", thing.depth or 0.0, thing.width or 0.0, thing.height or 0.0,
                   thing.equipment_width or 0.0)
    paths = {"band": "service.voltage", "equipment": f"{path}.equipment_width"}
    d.attempt(f"space/{thing.id}", Ask(working_space, record, path, "ed", paths))


def places(d: Design) -> dict[str, str]:
    """Everything that a supply may start or end at -> the structure at which it stands."""
    e = d.estate
    out = {e.service.gear.id: e.service.gear.structure, **{m.id: e.service.gear.structure for m in e.service.mains}}
    out |= {p.id: p.structure for p in e.panels}
    out |= {f.id: out[f.to] for f in e.feeders if f.id not in out}
    if e.sources:
        for things in (e.sources.generators, e.sources.storage, e.sources.solar, e.sources.transfers, e.sources.buses):
            out |= {x.id: x.structure for x in things}
    return out


def supplies(d: Design, structure: str) -> tuple[Supply, ...]:
    """What feeds a structure from another one, normal supplies first."""
    at = places(d)
    out = []
    for f in d.estate.feeders:
        if at[f.to] == structure != at[f.from_]:
            what = {"normal": "normal", "source": "production"}.get(f.use, "standby")
            out.append(Supply(f.id, f.to, what, f))
    for a in d.estate.sources.alternates if d.estate.sources else ():
        if at[a.to] == structure != at[a.from_]:
            out.append(Supply(a.id, a.to, purpose(d, a)))
    return tuple(sorted(out, key=lambda x: x.what != "normal"))


def purpose(d: Design, a: Alternate) -> str:
    """What an alternate feeder is for: standby where it carries tiers, production where it ends at a source's panel."""
    s = d.estate.sources
    assert s is not None
    if a.tiers:
        return "standby"
    own = {x.panel for x in s.storage} | {x.panel for x in s.solar}
    return "production" if a.to in own else "not said"


def building(d: Design, s: Structure) -> None:
    """The rating of one building's disconnecting means."""
    normal = [x for x in supplies(d, s.id) if x.feeder is not None and x.what == "normal" and f"feeder/{x.id}" in d.items]
    if not normal:
        return
    f = normal[0].feeder
    assert f is not None
    panel = next(p for p in d.estate.panels if p.id == f.to)
    if s.disconnect_rating is None and panel.main is None:
        d.lack(f"disconnect/{s.id}", f"the rating of the disconnecting means of {s.id} (disconnect_rating)")
        return
    rating, origin = (
        (s.disconnect_rating, f"structures.{s.id}.disconnect_rating")
        if s.disconnect_rating is not None
        else (panel.main, f"panels.{panel.id}.main")
    )
    inside = [r for r in d.tree.rows if r.circuits and d.estate.structure_of(r.panel) == s.id]
    load = d.chosen[f.id]
    record = Building(
        s.id,
        d.value(f"{load}/total"),
        d.volts,
        s.occupancy == "dwelling",
        float(sum(r.circuits for r in inside)),
        all(r.poles == 1 for r in inside),
        rating or 0.0,
    )
    paths = {"rating": origin, "volts": "service.voltage", "dwelling": f"structures.{s.id}.occupancy"}
    paths |= {"circuits": "loads", "two_wire": "loads"}
    d.attempt(f"disconnect/{s.id}", Ask(building_disconnect, record, f"structures.{s.id}", "ed", paths, {"va": f"{load}/total"}))
