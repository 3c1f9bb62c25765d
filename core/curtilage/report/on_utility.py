"""What the utility asks for and answers, places and buildings, labels; other arrangements of the service, when somebody asks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.design.arrangements import arrangements
from curtilage.design.impact import impact
from curtilage.design.works.flicker import motors
from curtilage.design.works.letter import behind
from curtilage.design.works.structures import supplies
from curtilage.report.content import Cell, Column, Line, Num, Table, given, material, maybe, num, unit_of
from curtilage.report.numbers import shown
from curtilage.review.labels import labels

if TYPE_CHECKING:
    from curtilage.design import Design

LETTER = (
    ("code_kva", "calculated load, by the code: a minimum for conductors, no forecast"),
    ("code_amperes", "the same, in amperes"),
    ("mains", "mains together"),
    ("expected_kw", "expected peak: a forecast, no load for conductors"),
    ("expected_kva", "the same, apparent"),
    ("high_kw", "expected peak, high"),
    ("high_kva", "the same, apparent"),
    ("pf", "power factor of the expected peak"),
    ("motor_hp", "largest motor by its horsepower"),
    ("motor_start", "largest current of a start, compressors among them"),
    ("vehicles", "vehicle supplies"),
    ("vehicles_kva", "the same, nameplate without management"),
    ("transformer", "transformer"),
    ("share", "high expected peak, of the transformer"),
    ("sets", "sets of service conductors"),
)
"""Figures of the load letter, in its order."""


def tables(d: Design) -> list[Table]:
    """Everything on the utility's side that is there without another design."""
    return [figures(d), transformers(d), starts(d), elsewhere(d), metering(d), distances(d), dates(d), buildings(d), sheet(d)]


def figures(d: Design) -> Table:
    """The figures of the load letter."""
    lines = []
    for field, words in LETTER:
        n = maybe(d, f"letter/{field}")
        if isinstance(n, Num) and (n.value or not field.startswith("motor")):
            lines.append(Line((words, n, n.unit), f"letter/{field}"))
    columns = (Column("what"), Column("figure", True), Column("unit"))
    return Table("Load letter", columns, tuple(lines), "Code load and expected peak are two numbers for two uses.")


def transformers(d: Design) -> Table:
    """The transformer of the design and its candidates, side by side."""
    d.works()
    fields = ("rating", "ll", "ln", "gear_ll", "gear_ln", "loading", "loading_expected", "drop_expected", "lateral_expected",
              "flicker")
    lines = []
    for key in (k for k in d.items if k.startswith("candidate/")):
        name = key.partition("/")[2]
        cells: tuple[Cell, ...] = tuple(num(d, f"{key}/{f}") for f in fields)
        holds = "holds" if d.items[key].rating_ok else "too small"
        lines.append(Line((name, *cells, holds), f"{key}/ll", "" if d.items[key].rating_ok else "fails"))
    columns = (Column("transformer"), Column("kVA", True), Column("fault L-L, A", True), Column("L-N, A", True),
               Column("at the gear L-L, A", True, rank=1), Column("L-N, A", True, rank=1), Column("code load, %", True),
               Column("expected, %", True), Column("drop, %", True), Column("lateral, %", True, rank=2),
               Column("largest start, %", True), Column("rating of the gear"))
    return Table("Transformers side by side", columns, tuple(lines),
                 "Loads in percent of the rating; drops under the expected peak. Which one is set is the utility's to say.")


def starts(d: Design) -> Table:
    """Each motor worth asking about."""
    d.works()
    lines = []
    for r in motors(d):
        key = f"flicker/{r.id}"
        if key not in d.items:
            continue
        f = d.items[key]
        says = "within the limit" if f.ok else "above the limit" if f.fails else "depends on how often it starts"
        parts = (num(d, f"{key}/{x}") for x in ("current", "supply", "gear", "limit"))
        cells: tuple[Cell, ...] = (r.id, r.load, f"{r.hp} hp" if r.hp else "-", *parts, says)
        lines.append(Line(cells, f"{key}/change", "" if f.ok else "fails" if f.fails else "over"))
    columns = (Column("row"), Column("motor"), Column("size"), Column("start, A", True), Column("at the transformer, %", True),
               Column("at the gear, %", True), Column("limit, %", True), Column("says"))
    rules = "; or ".join(dict.fromkeys(str(d.items[line.tag.rpartition("/")[0]].rule) for line in lines))
    return Table("Change of voltage by each start", columns, tuple(lines), f"Limit: {rules}." if rules else "")


def elsewhere(d: Design) -> Table:
    """What published rules and curves allow: they differ, and none is the utility's own."""
    lines = []
    for name in ("flicker_seldom", "flicker_often", "flicker_start", "flicker_cycling", "flicker_hourly", "flicker_rapid"):
        r = d.ed.rule(name)
        lines.append(Line((f"at most {getattr(d.ed, name):g} %", r.clause, r.document, r.status)))
    columns = (Column("change"), Column("for"), Column("in"), Column("source"))
    return Table("Change of voltage that is allowed elsewhere", columns, tuple(lines),
                 "The first three stand in where the utility states no limit; the others are shown because sources differ.")


def metering(d: Design) -> Table:
    """Kind of metering and way to the meter."""
    d.works()
    m = d.estate.service.metering
    if m is None or "metering" not in d.items:
        return Table("Metering", (), ())
    way = f"{' '.join(given(d, m.distance, 'ft'))}, stated" if m.distance is not None else "not stated"
    lines = (Line(("kind", m.kind, num(d, "metering/kind")), "metering/kind"),
             Line(("mains together, A", num(d, "service/rating"), num(d, "metering/limit")), "metering/limit"),
             Line(("way to the meter", way, num(d, "metering/farthest")), "metering/farthest"))
    columns = (Column("what"), Column("here"), Column("by the rule"))
    return Table("Metering", columns, lines, f"Rule: {m.reference or 'the usual figures; the utility has its own'}.")


def distances(d: Design) -> Table:
    """Every pair of things that was measured."""
    d.works()
    lines = []
    keys = [k for k in d.items if k.startswith("distance/")]
    for key in sorted(keys, key=lambda k: (d.items[k].spare, k)):
        a, b = key.split("/")[1:3]
        r = d.items[key]
        says = "keeps it" if r.ok else "does not keep it"
        rule = d.ed.rule(d.asks[key].tags["wanted"].removeprefix("rule:"))
        most = "at most" if d.asks[key].record.at_most else "at least"
        by = f"{rule.document}: {rule.clause}"
        cells: tuple[Cell, ...] = (a, b, num(d, f"{key}/distance"), most, num(d, f"{key}/wanted"), says, by, rule.status)
        lines.append(Line(cells, f"{key}/distance", "" if r.ok else "fails"))
    feet = unit_of(d, "ft")
    columns = (Column("from"), Column("to"), Column(f"distance, {feet}", True), Column("", rank=1),
               Column(f"wanted, {feet}", True), Column("says"), Column("rule", rank=2), Column("source", rank=3))
    note = "In plan, least room first. The utility's and the fire official's own distances govern."
    return Table("Distances on the site", columns, tuple(lines), note)


def dates(d: Design) -> Table:
    """Letters and milestones of the utility."""
    d.works()
    lines = []
    for x in d.estate.service.letters:
        value = shown(x.current, "A") + f" A at the {x.at}" if x.current else ""
        lines.append(Line((x.id, "letter on available fault current", f"{x.asked or ''}", f"{x.received or 'open'}", value)))
    for m in d.estate.service.milestones:
        r = d.items.get(f"milestone/{m.id}")
        slips = f"{', '.join(behind(d, m))} move by {r.slip:.0f} days" if r is not None and r.slip else ""
        late = f"{r.late:.0f} days late; " if r is not None and r.late else ""
        kind = "over" if late or slips else ""
        tag = f"milestone/{m.id}/slip" if r is not None else ""
        lines.append(Line((m.id, m.what, f"{m.due}", f"{m.done or 'open'}", late + slips), tag, kind))
    columns = (Column("id"), Column("what"), Column("asked or due"), Column("came"), Column("says"))
    return Table("Letters and dates of the utility", columns, tuple(lines))


def buildings(d: Design) -> Table:
    """Supplies and disconnecting means, building by building."""
    d.works()
    lines = []
    for s in d.estate.structures:
        found = supplies(d, s.id)
        if s.id == d.estate.service.gear.structure or not found:
            continue
        key = f"disconnect/{s.id}"
        names = ", ".join(f"{x.id} ({x.what})" for x in found)
        kind = "fails" if key in d.items and not d.items[key].ok else ""
        lines.append(Line((s.id, names, s.disconnect or "not stated", maybe(d, f"{key}/rating"), maybe(d, f"{key}/least")),
                          f"{key}/least" if key in d.items else "", kind))
    columns = (Column("building"), Column("supplies"), Column("disconnect"), Column("rating, A", True),
               Column("at least, A", True))
    return Table("Supplies of the buildings", columns, tuple(lines))


def sheet(d: Design) -> Table:
    """The label sheet."""
    lines = tuple(Line((x.where, x.says, ", ".join(t for t in (x.clause, x.status) if t))) for x in labels(d))
    columns = (Column("where"), Column("must say"), Column("clause and how well it was checked"))
    return Table("Label sheet", columns, lines, "Facts in our words; words in capitals are printed as they stand.")


# ---------------------------------------------------------------------------------------------- with designs of their own
BRINGS = ("240.87: arc energy reduction", "240.4(C): ampacity not below the main", "230.90(A) exception 3: sized by load")
"""What an arrangement brings with it, in the order of the flags of its record."""


def side_by_side(d: Design) -> Table:
    """Arrangements of the service, each a whole design: this takes a while."""
    lines = []
    for x in arrangements(d):
        if x.design is None:
            lines.append(Line((x.name, x.title, x.why), "", "over"))
            continue
        n, s, a = x.design, x.design.items["service"], x.design.items[x.key]
        brings = [w for yes, w in zip((a.arc_energy, a.above_next, a.by_load), BRINGS, strict=True) if yes]
        failed = ", ".join(sorted({f"{c.number} {c.subject}" for c in x.failed})) or "none"
        cells: tuple[Cell, ...] = (
            x.name, x.title, "; ".join(brings) or "nothing", f"{a.rating:g}", f"{s.sets:g} x {s.size} {material(n, 'service')}",
            f"{s.ampacity:.0f}", f"{s.current:.0f}", f"{a.spare:.0f}", f"{a.pounds:.0f} ({a.kilograms:.0f})",
            f"{a.energy:,.0f}", failed)
        lines.append(Line(cells, "", "fails" if x.failed else ""))
    columns = (Column("id"), Column("arrangement"), Column("brings with it"), Column("mains, A", True), Column("lateral"),
               Column("ampacity, A", True), Column("load, A", True), Column("spare, A", True), Column("metal, lb (kg)", True),
               Column("lost, kWh a year", True), Column("checks that fail besides"))
    return Table("Arrangements of the service", columns, tuple(lines),
                 f"Each is designed anew. Losses are those of the service conductors at a load factor of "
                 f"{d.estate.service.load_factor or 0:g}.")


def letter_changes(d: Design, current: float) -> list[Table]:
    """What a letter of this current, line to line at the transformer, would change: this takes a while."""
    found = impact(d, current)
    rows = [Line((p.id, f"{p.rating:,.0f}" if p.rating else "not stated", f"{p.before:,.0f}", f"{p.after:,.0f}", p.holds), "",
                 "fails" if p.holds.startswith("fails") else "") for p in found.places]
    columns = (Column("place"), Column("rating, A", True), Column("now, A", True), Column("then, A", True), Column("says"))
    flips = tuple(Line(x) for x in found.flipped)
    heads = (Column("check"), Column("on"), Column("now"), Column("then"))
    title = f"With {current:,.0f} A at the transformer"
    return [Table(title, columns, tuple(rows), "Largest of the line-to-line and line-to-neutral faults."),
            Table("Checks that flip", heads, flips)]
