"""The label sheet: where a mark or label belongs, and what it must say, by edition."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from curtilage.design.works.structures import supplies

if TYPE_CHECKING:
    from curtilage.design import Design


class Label(NamedTuple):
    """One label: where, what it must say, by which clause, and how well that was checked."""

    where: str
    says: str
    clause: str
    status: str


def labels(d: Design) -> tuple[Label, ...]:
    """Every label that the edition asks for on what this estate has, from the service outward."""
    found = (*at_service(d), *at_buildings(d), *at_sources(d), *at_panels(d), *at_managers(d))
    return tuple(label(d, rule, where, more) for rule, where, more in found if getattr(d.ed, rule))


def label(d: Design, rule: str, where: str, more: str) -> Label:
    """One label by its rule."""
    r = d.ed.rule(rule)
    return Label(where, getattr(d.ed, rule) + (f": {more}" if more else ""), r.clause, r.status)


Wanted = Iterator[tuple[str, str, str]]


def at_service(d: Design) -> Wanted:
    """Labels on the service equipment."""
    e = d.estate.service
    gear, dwelling = e.gear, bool(d.tree.dwellings)
    yield "label_form", "every label", ""
    for m in e.mains:
        yield "label_service", f"{gear.id}, main {m.id}", m.note
    if dwelling and d.ed.service_emergency:
        yield "label_emergency", f"{gear.id}", ""
    if any(s.occupancy != "dwelling" for s in d.estate.structures):
        yield "label_arc", gear.id, ""
        yield "label_fault", gear.id, ""
    if d.estate.sources:
        yield "label_standby", gear.id, _sources(d)


def _sources(d: Design) -> str:
    s = d.estate.sources
    assert s is not None
    kinds = [(f"generator {g.id}", g.structure) for g in s.generators] + [(f"storage {b.id}", b.structure) for b in s.storage]
    return ", ".join(f"{name} at {where}" for name, where in [*kinds, *((f"solar {x.id}", x.structure) for x in s.solar)])


def at_buildings(d: Design) -> Wanted:
    """Plaques and emergency disconnects at buildings that feeders supply."""
    for s in d.estate.structures:
        found = supplies(d, s.id) if s.id != d.estate.service.gear.structure else ()
        if len(found) > 1:
            yield "label_plaque", f"{s.id}, each disconnect", ", ".join(x.id for x in found)
        if found and s.occupancy == "dwelling":
            yield "label_building_emergency", f"{s.id}, outdoors", ""


def at_sources(d: Design) -> Wanted:
    """Generators, storage, solar supplies and inlets."""
    s = d.estate.sources
    if s is None:
        return
    for g in s.generators:
        yield "label_generator", f"{g.id}, shutdown device outdoors", ""
    for b in s.storage:
        yield "label_storage", f"{b.id}, disconnect", ""
    if s.storage or s.solar:
        yield "label_interactive", d.estate.service.gear.id, ""
    for i in s.inlets:
        yield "label_inlet", f"{i.id} at {i.panel}", ""


def at_panels(d: Design) -> Wanted:
    """Directories of all panels, and where the supply of those outside dwellings begins."""
    yield "label_directory", f"every panel ({len(d.estate.panels)})", ""
    of = {s.id: s.occupancy for s in d.estate.structures}
    for p in d.estate.panels:
        f = d.tree.feeder_of.get(p.id)
        if f is not None and of.get(p.structure) != "dwelling":
            yield "label_fed_from", p.id, f"{f.from_}, feeder {f.id}"
        if p.series_rated:
            yield "label_series", p.id, ""


def at_managers(d: Design) -> Wanted:
    """Energy management."""
    for m in d.estate.managers:
        yield "label_managed", f"{m.id} at {m.at}", f"{m.set_point:g} A"
