"""Pulls, pull boxes, boxes of devices, terminals."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from curtilage.design.works.boxes import unmeasured
from curtilage.design.works.laid import planned
from curtilage.design.works.pulls import unweighed
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.works.laid import Planned
    from curtilage.model.raceways import Raceway


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 084, 162, 162a, 162b, 163, 170."""
    yield from pulls(d, ask)
    yield from unstated(d, ask)
    for b in d.estate.boxes:
        yield pull_box(d, ask, b.id)
    for x in d.estate.device_boxes:
        yield device_box(d, ask, x.id, unmeasured(x))
    yield from lugs(d, ask)


def unstated(d: Design, ask: Asker) -> Iterator[Check]:
    """Where an estate has what wants boxes and states none, that is said: an empty list is no answer."""
    raceways = len(planned(d))
    if raceways and not d.estate.boxes:
        yield ask("163", "estate", "not evaluated", f"no box is stated, so none was looked at; {raceways} raceways",
                  "the pull and junction boxes and handholes (boxes)")
    if dwells(d) and not d.estate.device_boxes:
        yield ask("170", "estate", "not evaluated", "no box of devices is stated, so none was looked at",
                  "the boxes of devices that are full (device_boxes)")


def dwells(d: Design) -> bool:
    """Whether the estate has a dwelling: framed walls, and boxes in them."""
    return any(s.occupancy == "dwelling" for s in d.estate.structures)


def lacking(d: Design, key: str) -> str:
    """Why an item has no result."""
    return d.late.get(key, "") or "it was not worked"


def pulls(d: Design, ask: Asker) -> Iterator[Check]:
    """Bends between pull points, tension and pressure, of every raceway; one word where no way at all is described."""
    every = planned(d)
    if d.estate.pulls is None:
        for p in every:
            if p.stated is not None and p.stated.bends is not None:
                yield stated_bends(d, ask, p.stated, p.stated.bends)
        if every:
            missing = f"the routes of {len(every)} raceways, step by step (pulls)"
            yield ask("162", "estate", "not evaluated", "bends, tension and pressure are not known", missing)
        return
    for p in every:
        key = f"pull/{p.id}"
        if key in d.items:
            r = d.items[key]
            points = f"{r.stretches:g} stretch{'es' if r.stretches > 1 else ''}"
            said = f"at most {r.bends:g} deg between pull points, {points} over {r.length:,.0f} ft"
            yield route(d, ask, p, said)
            yield ask("162b", p.id, bool(r.radius_ok), f"bends of at least {r.radius_least:g} in to the middle of the raceway",
                      tags=(f"{key}/radius_least",))
            unknown = unweighed(d, p)
            if d.has(f"{key}/tension"):
                yield tension(d, ask, p.id)
            elif unknown:
                yield ask("162a", p.id, "not evaluated", "tension and pressure are not known", unknown)
            else:
                yield ask("162a", p.id, "does not apply", "nothing is pulled in now")
        elif p.stated is not None and p.stated.bends is not None:
            yield stated_bends(d, ask, p.stated, p.stated.bends)
        else:
            yield ask("162", p.id, "not evaluated", "the bends are not known", lacking(d, key))


def route(d: Design, ask: Asker, p: Planned, said: str) -> Check:
    """The bends of a described route, held against those stated for the raceway, where both are there."""
    key, r = f"pull/{p.id}", d.items[f"pull/{p.id}"]
    tags, stated = (f"{key}/bends", f"{key}/length"), p.stated.bends if p.stated is not None else None
    if stated is None or stated <= r.bends:
        return ask("162", p.id, bool(r.bends_ok), said, tags=tags)
    said += f"; the raceway states {stated:g} deg between pulls"
    outcome = "not evaluated" if r.bends_ok and stated <= d.ed.bends_most else False
    return ask("162", p.id, outcome, said, f"which of the two is so: {r.bends:g} deg (pulls) or {stated:g} deg (raceways)", tags)


def stated_bends(d: Design, ask: Asker, r: Raceway, bends: float) -> Check:
    """A raceway whose sum of bends is stated, and nothing more."""
    return ask("162", r.id, bends <= d.ed.bends_most, f"{bends:g} deg stated between pull points")


def tension(d: Design, ask: Asker, name: str) -> Check:
    """Tension and pressure: what passes the strict reading passes; what passes only the usual one is for somebody to judge."""
    r, key = d.items[f"pull/{name}"], f"pull/{name}"
    said = (f"about {r.tension:,.0f} lb of {r.allowed:,.0f} lb, each stretch from its better end ({r.there:,.0f} lb in the "
            f"direction of the feeder, {r.back:,.0f} lb against it); "
            f"{r.pressure:,.0f} lb/ft of {r.pressure_allowed:,.0f} lb/ft in a bend")
    outcome: str | bool = bool(r.tension_ok and r.pressure_ok)
    if not outcome and r.usual_ok:
        outcome = "needs judgement"
        said += f"; the usual reading allows {r.usual:,.0f} lb and {d.ed.side_pressure_usual:,.0f} lb/ft"
    return ask("162a", name, outcome, said, tags=tuple(f"{key}/{f}" for f in ("tension", "allowed", "pressure", "there", "back")))


def pull_box(d: Design, ask: Asker, name: str) -> Check:
    """One pull box, by length, width, depth and the distance of its entries."""
    key = f"box/{name}"
    if key not in d.items:
        return ask("163", name, "not evaluated", "what it must measure is not known", lacking(d, key))
    r, b = d.items[key], d.asks[key].record
    tags = tuple(f"{key}/{f}" for f in ("length_least", "width_least", "depth_least", "apart_least"))
    if not r.applies:
        return ask("163", name, "does not apply", f"its largest conductor is {b.largest}: the fill decides (314.16)", tags=tags)
    said = (f"{b.length:g} x {b.width:g} x {b.depth:g} in, at least {r.length_least:g} x {r.width_least:g} in"
            + (f", {r.depth_least:g} in deep" if r.depth_least else ""))
    if b.pairs:
        said += f"; entries of one conductor at least {r.apart_least:g} in apart" + (
            "" if r.apart_ok else f", {r.apart_short:g} in are missing")
    return ask("163", name, bool(r.ok), said, tags=tags)


def device_box(d: Design, ask: Asker, name: str, unknown: str) -> Check:
    """One box of devices: its volume, and its depth where depths are stated."""
    key = f"box/{name}"
    if key not in d.items:
        return ask("170", name, "not evaluated", "its fill is not known", lacking(d, key))
    r, b = d.items[key], d.asks[key].record
    tags = tuple(f"{key}/{f}" for f in ("box_fill", "volume", "depth_least"))
    said = f"{r.box_fill:g} in3 in a box of {r.volume:g} in3"
    if unknown:
        return ask("170", name, "not evaluated" if r.fill_ok else False, said, unknown, tags)
    return ask("170", name, bool(r.ok), f"{said}; {b.depth:g} in deep, at least {r.depth_least:g} in", tags=tags)


def lugs(d: Design, ask: Asker) -> Iterator[Check]:
    """Both ends of every feeder; one word where no terminals at all are stated."""
    feeders = [f for f in d.estate.feeders if f"feeder/{f.id}" in d.items]
    if feeders and not any(f.lugs for f in feeders) and not any(p.lugs for p in d.estate.panels):
        yield ask("084", "estate", "not evaluated", "what the terminals take is not known",
                  f"the lugs of the devices and panels of {len(feeders)} feeders")
        return
    for f in feeders:
        key = f"lug/{f.id}"
        if key not in d.items:
            yield ask("084", f.id, "not evaluated", "what the terminals take is not known", lacking(d, key))
            continue
        r = d.items[key]
        said = [end(t, x) for t, x in zip(d.asks[key].record.ends, r.ends, strict=True)]
        tags = tuple(f"{key}/{n}" for n in ("range_ok", "space_least", "space_ok"))
        yield ask("084", f.id, bool(r.ok), "; ".join(said), tags=tags)


def end(t: Any, x: Any) -> str:
    """The terminals at one end, in words."""
    where = f"panel {t.id.split('.')[1]}" if t.id.startswith("panels.") else "device"
    sets = f"{x.wires:g} x " if x.wires > 1 else ""
    arrives = f"{t.sets:g} x {t.size}" if t.sets > 1 else t.size
    via = f" behind a reducer from {arrives}" if t.adapter != "none" else ""
    takes = f"takes {t.smallest} to {t.largest}" + (f", {t.holds:g} each" if t.holds > 1 else "")
    space = f"{t.bending:g} in to bend, {x.space_least:g} in wanted"
    return f"{where}: {sets}{x.lands}{via}, {takes}; {space}"
