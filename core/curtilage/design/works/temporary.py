"""Temporary power: load by season, boards and their feeders, drop to the working faces, the generator of a late utility."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.conductors.feeder import feeder
from curtilage.calc.conductors.records import Feeder
from curtilage.calc.route import Stretch, Way, route
from curtilage.calc.temporary.fallback import fallback, sound_at
from curtilage.calc.temporary.load import face, held, season_load
from curtilage.calc.temporary.records import TOOL, Carried, Face, Fallback, Held, Part, Season, Sound
from curtilage.design.ask import Ask
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.later import Temporary, TemporaryBoard, TemporaryLoad

SEASONS = ("winter", "summer")
NO_LOADS = "its loads by season are missing (temporary.loads)"
CORD_VOLTS = 120.0


def stage(d: Design) -> None:
    """Services and boards by season; feeders and faces; the fallback."""
    t = d.estate.temporary
    if t is None:
        return
    for s in t.services:
        below = {s.id, *(b.id for b in t.boards if b.service == s.id)}
        for season in SEASONS:
            load(d, t, s.id, season, [x for x in t.loads if x.on in below])
            key = f"temporary/{s.id}/{season}"
            if key in d.items:
                record = Held(s.id, d.items[key].minimum, s.rating)
                d.attempt(f"temporary_service/{s.id}/{season}",
                          Ask(held, record, f"temporary.services.{s.id}", "", {}, {"minimum": f"{key}/minimum"}))
    for b in t.boards:
        for season in SEASONS:
            load(d, t, b.id, season, [x for x in t.loads if x.on == b.id])
        board(d, t, b)
    if t.fallback is not None:
        late(d, t)


def load(d: Design, t: Temporary, place: str, season: str, rows: list[TemporaryLoad]) -> None:
    """What runs on a board or a service in one season."""
    key = f"temporary/{place}/{season}"
    parts = tuple(Part(x.id, x.va, float(x.count), x.volts, x.kind, x.continuous) for x in rows if x.season in ("all", season))
    if not parts:
        d.lack(key, NO_LOADS)
        return
    tags: dict[str, Any] = {} if t.tools_share is not None else {"share": "rule:temporary_tools"}
    paths = {"volts": "service.voltage"} | ({} if tags else {"share": "temporary.tools_share"})
    share = d.ed.temporary_tools if t.tools_share is None else t.tools_share / 100
    d.attempt(key, Ask(season_load, Season(place, d.volts, share, parts), "temporary", "ed", paths, tags))


def worst(d: Design, place: str) -> str:
    """The season that asks for the most, or nothing where no season is known."""
    known = [s for s in SEASONS if f"temporary/{place}/{s}" in d.items]
    return max(known, key=lambda s: float(d.items[f"temporary/{place}/{s}"].minimum), default="")


def way(d: Design, t: Temporary, b: TemporaryBoard, tags: dict[str, Any]) -> float | None:
    """Stated, or along the route from its service through the site graph."""
    if b.length is not None:
        return b.length
    start = next(s.at for s in t.services if s.id == b.service)
    try:
        found = d.estate.route(start, b.at)
    except CurtilageError:
        return None
    if start == b.at or d.estate.site_graph is None:
        return None
    trenches = {x.id: x for x in d.estate.site_graph.trenches}
    stretches = tuple(Stretch(x, trenches[x].length, trenches[x].rise) for x in found.edges)
    record = Way(b.id, stretches, d.estate.basis.slack)
    d.attempt(f"temporary_route/{b.id}", Ask(route, record, f"temporary.boards.{b.id}", "", {"slack": "basis.slack"}))
    tags["length"] = f"temporary_route/{b.id}/length"
    return float(d.items[f"temporary_route/{b.id}"].length)


def board(d: Design, t: Temporary, b: TemporaryBoard) -> None:
    """The feeder of one board, by the rules of any feeder (590.2), and the tool at the end of its cord."""
    key, home, season = f"temporary_feeder/{b.id}", f"temporary.boards.{b.id}", worst(d, b.id)
    if not season:
        d.lack(key, NO_LOADS)
        return
    load, basis = f"temporary/{b.id}/{season}", d.estate.basis.feeder
    tags: dict[str, Any] = {x: f"{load}/{x}" for x in ("va", "minimum_va", "neutral_va")}
    length = way(d, t, b, tags)
    if length is None:
        d.lack(key, "the length of its feeder is missing, and no route leads to it")
        return
    paths = {x: f"basis.feeder.{x}" for x in ("insulation", "terminals")} | {
        "volts": "service.voltage", "ambient": "site.ambient", "pf": "basis.feeder.power_factor",
        "largest": "basis.feeder.largest_size"}
    origin, limit = d.stages.limit("feeder_drop")
    (tags if origin.startswith("rule:") else paths)["drop_limit"] = origin
    r = d.items[load]
    record = Feeder(b.id, r.va, r.minimum_va, r.neutral_va, d.volts, basis.power_factor, b.breaker or 0.0, 1.0 if b.size else 0.0,
                    b.size or "", length, d.estate.site.ambient, 2, basis.insulation, basis.terminals, True, False, False, True,
                    limit, basis.largest_size, 1)
    view = f"{b.material or basis.material}-{basis.raceway}"
    if d.attempt(key, Ask(feeder, record, home, view, paths, tags)) is not None:
        working(d, t, b)


def working(d: Design, t: Temporary, b: TemporaryBoard) -> None:
    """The working face: the largest tool of the board at the end of the longest cord."""
    key, home = f"face/{b.id}", f"temporary.boards.{b.id}"
    tools = [x for x in t.loads if x.on == b.id and x.kind == TOOL and x.volts <= CORD_VOLTS]
    if b.cord is None or not tools:
        d.lack(key, "the longest cord is missing" if b.cord is None else "no tool of 120 V is listed on the board")
        return
    tool = max(tools, key=lambda x: x.va)
    feeding = f"temporary_feeder/{b.id}/drop"
    record = Face(b.id, d.items[f"temporary_feeder/{b.id}"].drop, tool.va, tool.volts, d.ed.temporary_pf, b.cord, b.cord_size,
                  d.ed.temporary_drop)
    paths = {"va": f"temporary.loads.{tool.id}.va", "volts": f"temporary.loads.{tool.id}.volts", "size": f"{home}.cord_size"}
    tags = {"drop": feeding, "pf": "rule:temporary_pf", "limit": "rule:temporary_drop"}
    d.attempt(key, Ask(face, record, home, "cu-pvc", paths, tags))


def late(d: Design, t: Temporary) -> None:
    """The generator while the utility is late, and its sound at the property line."""
    f = t.fallback
    assert f is not None
    known = {s.id: worst(d, s.id) for s in t.services}
    if not known or not all(known.values()):
        d.lack("fallback/site", NO_LOADS)
        return
    keys = {s: f"temporary/{s}/{season}/va" for s, season in known.items()}
    carried = tuple(Carried(s, d.value(tag)) for s, tag in keys.items())
    heating = d.estate.gas.heating_value if d.estate.gas else 0.0
    record = Fallback("site", f.delay, f.hours, f.generator, f.mean, carried, f.fuel, f.fuel_use or 0.0, heating or 0.0)
    paths = {"days": "temporary.fallback.delay", "rating": "temporary.fallback.generator", "use": "temporary.fallback.fuel_use",
             "heating": "gas.heating_value"}
    d.attempt("fallback/site", Ask(fallback, record, "temporary.fallback", "ed", paths,
                                   {"carried": {s: {"va": tag} for s, tag in keys.items()}}))
    line = next((x for x in d.estate.site.boundaries if x.id == f.boundary), None)
    if f.sound is None or f.sound_at is None or f.to_line is None or line is None or line.limit is None:
        d.lack("sound/fallback", "its sound level and where that was taken, the nearest line with its limit, and how far it is")
        return
    paths = {"level": "temporary.fallback.sound", "at": "temporary.fallback.sound_at", "line": "temporary.fallback.to_line",
             "limit": f"site.boundaries.{line.id}.limit"}
    d.attempt("sound/fallback", Ask(sound_at, Sound("fallback", f.sound, f.sound_at, f.to_line, line.limit), "temporary.fallback",
                                    "", paths))
