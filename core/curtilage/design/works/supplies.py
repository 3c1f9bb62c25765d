"""Conductors of the alternate feeders: what the other source needs to reach the panel that it takes over."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from curtilage.calc.conductors import records as k
from curtilage.calc.conductors.feeder import feeder
from curtilage.calc.raceways.records import Supply
from curtilage.calc.raceways.trench import rating_load
from curtilage.calc.route import Stretch, Way, route
from curtilage.design.ask import Ask
from curtilage.design.works.laid import home
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.sources import Alternate


def stage(d: Design) -> None:
    """Every alternate feeder, with the load of its panel or, where that is not calculated, of its device."""
    for a in d.estate.sources.alternates if d.estate.sources else ():
        if f"alternate/{a.id}" not in d.late:
            alternate(d, a)


def length(d: Design, key: str, start: str, end: str, path: str) -> float:
    """The length along the route between two places, as an item of its own; 0 where there is none, and why is kept."""
    try:
        edges = d.estate.route(start, end).edges
    except CurtilageError as e:
        d.lack(key, str(e))
        return 0.0
    return along(d, key, edges, path)


def along(d: Design, key: str, edges: Iterable[str], path: str) -> float:
    """The length along some trenches, as an item of its own."""
    stretches = tuple(Stretch(t.id, t.length, t.rise) for t in map(d.stages.trenches.__getitem__, edges))
    record = Way(path.rpartition(".")[2], stretches, d.estate.basis.slack)
    found = d.attempt(key, Ask(route, record, path, "", {"slack": "basis.slack"}))
    return float(found.length)


def load(d: Design, a: Alternate, tags: dict[str, Any]) -> tuple[float, float, float, float] | None:
    """Load, minimum, neutral load and device of an alternate feeder: those of its panel's feeder, or by its device."""
    f = d.tree.feeder_of.get(a.to)
    if f is not None and f"feeder/{f.id}" in d.items:
        asked = d.asks[f"feeder/{f.id}"]
        tags.update({field: asked.tags[field] for field in ("va", "minimum_va", "neutral_va")})
        if a.breaker is None:
            tags["breaker"] = f"feeder/{f.id}/device"
        r = asked.record
        return r.va, r.minimum_va, r.neutral_va, a.breaker or d.items[f"feeder/{f.id}"].device
    if a.breaker is None:
        return None
    key, at = f"bound/{a.id}", f"sources.alternates.{a.id}"
    more = (("V", d.volts, "V", "service.voltage"),)
    found = d.attempt(key, Ask(rating_load, Supply(a.id, a.breaker), at, "", {"device": f"{at}.breaker"}, {}, more))
    tags.update(dict.fromkeys(("va", "minimum_va", "neutral_va"), f"{key}/va"))
    return found.va, found.va, found.va, a.breaker


def alternate(d: Design, a: Alternate) -> None:
    """One alternate feeder."""
    key, at, basis, e = f"alternate/{a.id}", f"sources.alternates.{a.id}", d.estate.basis.feeder, d.estate
    tags: dict[str, Any] = {}
    taken = load(d, a, tags)
    start, end = home(e, a.from_), home(e, a.to)
    if taken is None:
        return d.lack(key, f"the load of {a.to}, or the device of {a.id}, is missing")
    far = a.length
    if far is None and start != end:
        far = length(d, f"run/{a.id}", start, end, at)
        tags["length"] = f"run/{a.id}/length"
    if not far:
        return d.lack(key, f"the length of {a.id} is missing" if start == end else d.late.get(f"run/{a.id}", ""))
    paths = {"volts": "service.voltage", "breaker": f"{at}.breaker", "length": f"{at}.length",
             "sets": f"{at}.sets", "size": f"{at}.size",
             "insulation": f"{at}.insulation" if a.insulation else "basis.feeder.insulation",
             "ambient": f"{at}.ambient" if a.ambient is not None else "site.ambient", "full_neutral": "basis.feeder.neutral",
             "pf": "basis.feeder.power_factor", "terminals": "basis.feeder.terminals", "largest": "basis.feeder.largest_size"}
    origin, limit = d.stages.limit("feeder_drop")
    if origin.startswith("rule:"):
        tags["drop_limit"] = origin
    else:
        paths["drop_limit"] = origin
    va, least, neutral, device = taken
    record = k.Feeder(a.id, va, least, neutral, d.volts, basis.power_factor, device, a.sets or k.CHOOSE_SETS,
                      a.size or k.CHOOSE_SIZE, far, e.site.ambient if a.ambient is None else a.ambient, 2,
                      a.insulation or basis.insulation, basis.terminals, True, False, False,
                      basis.neutral == "full", limit, basis.largest_size, MOST_SETS)
    d.attempt(key, Ask(feeder, record, at, f"{basis.material}-{basis.raceway}", paths, tags))
    return None


MOST_SETS = 8
"""Sets in parallel that are tried, as for feeders."""
