"""Fault currents, interrupting ratings and clearing: tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.faults import TERMINALS
from curtilage.report.content import Cell, Column, Line, Num, Table, maybe, num, ordered

if TYPE_CHECKING:
    from curtilage.design import Design

NO_ARC = (
    "Arc-flash boundaries, incident energy and protective clothing are not computed: they hang on clearing times of real trip "
    "curves, on electrode gaps and on enclosures, none of which a bolted fault current knows. Ask for an arc-flash study.")
SCREEN = (
    "Bolted, symmetrical, at nominal voltage. Largest: strongest source, conductors at 20 degC. Least: weakest source that is "
    "stated, conductors at 75 degC. No contribution of motors, generators or inverters; a study by a qualified engineer governs "
    "what is bought. The breakers in a panel are taken to have its rating. The utility's network may grow: work it again on "
    "every change.")
BOUNDS = (
    "Times are bounds, not predictions: by what is stated of the trip, else by the instantaneous trip with its pick-up at the "
    "usual upper end and the tolerance above, else by the longest time that the standards of breakers allow. Selective "
    "coordination is not worked.")


def tables(d: Design) -> list[Table]:
    """The source, the fault at each point with the rating that stands there, and what clears a fault to ground."""
    for kind in ("transformer", "fault", "margin", "clearing", "far"):
        d.works(kind)
    found = [source(d), points(d), clearing(d), circuits(d)]
    return [t for t in found if t.lines]


def source(d: Design) -> Table:
    """The transformer as it is taken, and how far it may change."""
    gear = d.estate.service.gear.id
    rows = (("whole secondary, at line-to-line volts", "transformer/r_full", "transformer/x_full"),
            ("one half, at line-to-neutral volts", "transformer/r_half", "transformer/x_half"),
            ("network before it, seen at one half", "transformer/r_source", "transformer/x_source"))
    lines = [Line((what, maybe(d, r), maybe(d, x)), r) for what, r, x in rows if d.has(r)]
    note = ""
    if d.has("transformer/basis"):
        note = f"Source: {d.value('transformer/basis')}."
    if d.has(f"margin/{gear}/enough"):
        m = d.items[f"margin/{gear}"]
        note += (f" The gear's rating holds up to {m.rating_most:.0f} kVA at the same impedance in percent, or down to "
                 f"{m.impedance_least:.2f} % at the same rating, with an infinite primary.") if m.rating_most else (
                 " The gear's rating holds behind any transformer: the service conductors limit the fault.")
    columns = (Column("transformer"), Column("R, ohm", True), Column("X, ohm", True))
    return Table("The transformer as the faults see it", columns, tuple(lines), note)


def rated(d: Design) -> Iterator[tuple[str, str, float | None, int]]:
    """Every point in the order of the current: its id, what it is, its rating, its depth."""
    gear = d.estate.service.gear
    yield TERMINALS, "transformer", None, 0
    yield gear.id, "service gear", gear.interrupting, 0
    feeders = {f.id: f.to for f in d.estate.feeders}
    panels = {p.id: p for p in d.estate.panels}
    for name, depth in ordered(d):
        if name in feeders:
            yield feeders[name], "panel", panels[feeders[name]].interrupting, depth
    fed = set(feeders.values())
    yield from ((p.id, "panel, by an alternate feeder", p.interrupting, 1) for p in d.estate.panels if p.id not in fed)
    if d.estate.sources:
        yield from ((b.id, "bus", b.interrupting, 1) for b in d.estate.sources.buses)
        yield from ((t.id, "transfer switch", t.interrupting, 1) for t in d.estate.sources.transfers)


def points(d: Design) -> Table:
    """The fault at each point, and the rating of what stands there."""
    lines = []
    for name, what, rating, depth in rated(d):
        key = f"fault/{name}"
        if key not in d.items:
            continue
        at = f"rated/{name}"
        stated: Cell = ""
        left: Cell = ""
        if at in d.items:
            stated, left = in_kilo(d, f"{at}/interrupting"), in_kilo(d, f"{at}/left")
        elif rating is None and name != TERMINALS:
            stated = "not stated"
        bad = at in d.items and not d.items[at].withstands
        cells = tuple(in_kilo(d, f"{key}/{field}") for field in ("ll", "ln", "ll_least", "ln_least", "lg"))
        lines.append(Line((name, what, *cells, stated, left), f"{key}/largest", "fails" if bad else "", depth))
    columns = (Column("at", keep=True), Column("what", rank=2), Column("line to line, kA", True),
               Column("line to neutral, kA", True),
               Column("least, line to line, kA", True, rank=1), Column("least, line to neutral, kA", True, rank=1),
               Column("least, line to ground, kA", True, rank=1), Column("rating, kA", True), Column("left, kA", True))
    return Table("Fault currents and ratings", columns, tuple(lines), f"{SCREEN} {NO_ARC}")


def in_kilo(d: Design, tag: str) -> Num:
    """A fault current in kA, with the tag that opens it."""
    n = num(d, tag)
    return Num(tag, f"{n.value / 1000:.2f}", "kA", n.value) if n.shown and n.value is not None else n


def clearing(d: Design) -> Table:
    """What clears a fault to ground at the far end of each feeder, and in which time at most."""
    lines = []
    others = [(f"alternate/{a.id}", 1) for a in d.estate.sources.alternates] if d.estate.sources else []
    for laid, depth in (*((f"feeder/{name}", depth) for name, depth in ordered(d)), *others):
        name = laid.partition("/")[2]
        key = f"clearing/{name}"
        if key not in d.items:
            continue
        c = d.items[key]
        lines.append(Line((name, num(d, f"{laid}/device"), num(d, f"{key}/fault"), num(d, f"{key}/multiple"),
                           num(d, f"{key}/wanted"), num(d, f"{key}/time"), c.by), f"{key}/time",
                          "" if c.ok else "over", depth - 1))
    columns = (Column("feeder", keep=True), Column("device, A", True), Column("fault to ground, A", True),
               Column("times the device", True), Column("sure from, A", True, rank=1), Column("at most, s", True),
               Column("bounded by", rank=2))
    return Table("Clearing of a fault to ground at the far end", columns, tuple(lines), BOUNDS)


def circuits(d: Design) -> Table:
    """The slowest branch circuit of each panel."""
    worst: dict[str, str] = {}
    for r in d.tree.rows:
        key = f"far/{r.id}"
        if key in d.items and (r.panel not in worst or d.items[key].time > d.items[f"far/{worst[r.panel]}"].time):
            worst[r.panel] = r.id
    lines = []
    for panel, row in worst.items():
        key, c = f"far/{row}", d.items[f"far/{row}"]
        lines.append(Line((panel, row, num(d, f"{key}/fault"), num(d, f"{key}/multiple"), num(d, f"{key}/time"), c.by),
                          f"{key}/time", "" if c.ok else "over"))
    columns = (Column("panel", keep=True), Column("slowest circuit"), Column("fault to ground, A", True),
               Column("times its breaker", True), Column("at most, s", True), Column("bounded by", rank=1))
    return Table("Far ends of branch circuits", columns, tuple(lines), "Of each panel the circuit whose bound is longest.")
