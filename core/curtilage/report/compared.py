"""Words for two designs side by side, a replayed record, a later load, and what moved between editions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from curtilage.design.compare import causes as causes_of
from curtilage.design.later import NOT_LOOKED_AT
from curtilage.report.content import Column, Line, Table
from curtilage.report.numbers import digits, label, shown, unit_shown
from curtilage.report.text import Paper, table
from curtilage.report.works import extremes
from curtilage.values.told import TRUST

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.compare import Comparison, Moved
    from curtilage.design.later import Element
    from curtilage.design.record import Replayed
    from curtilage.editions import Change

MAIN_FIELDS = (
    "total",
    "minimum_amperes",
    "amperes",
    "device",
    "size",
    "sets",
    "egc",
    "drop",
    "rating",
    "spare_minimum",
    "kw",
    "kva",
)
"""Fields of items that a reader looks for first."""
MAIN_KINDS = ("demand", "feeder", "main", "service", "growth", "expected", "path")


def _shown(x: Any) -> str:
    return "-" if x is None else digits(x)


def _is_main(tag: str) -> bool:
    kind, field = tag.split("/")[0], tag.rsplit("/", 1)[-1]
    return kind in MAIN_KINDS and field in MAIN_FIELDS and "/difference/" not in tag


def numbers_table(d: Design, moved: Iterable[Moved]) -> Table:
    """Numbers that are not the same on both sides."""
    lines = []
    for m in moved:
        unit = d.number(m.name).unit if d.has(m.name) else ""
        item, _, field = m.name.rpartition("/")
        before, after = ("-" if x is None else shown(x, unit, field) for x in (m.before, m.after))
        lines.append(Line((f"{item}: {label(field)}", before, after, unit_shown(unit)), m.name))
    columns = (Column("number"), Column("before", numeric=True), Column("after", numeric=True), Column("unit"))
    return Table("Numbers that follow", columns, tuple(lines))


def worst_table(d: Design, before: Mapping[str, Any], after: Mapping[str, Any]) -> Table:
    """What is built from the sizes, the worst of each kind on both sides, each with its place; only where one of them moved."""
    gear = d.estate.service.gear.id
    was, now = extremes(before, gear), extremes(after, gear)
    lines = []
    for words in {**now, **was}:
        sides = [(tags.get(words, ""), numbers) for tags, numbers in ((was, before), (now, after))]
        if len({(tag, numbers.get(tag)) for tag, numbers in sides}) == 1:
            continue
        tag = now.get(words, "")
        unit, field = d.counted_in(tag or was[words]), (tag or was[words]).rpartition("/")[2]
        places = [t.split("/")[1] if t.count("/") > 1 else "" for t, _ in sides]
        where = " then ".join(dict.fromkeys(x for x in places if x))
        cells = [shown(numbers[t], unit, field) if t else "-" for t, numbers in sides]
        lines.append(Line((f"{words}: {where}" if where else words, *cells, unit_shown(unit)), tag))
    columns = (Column("of what is built"), Column("before", numeric=True), Column("after", numeric=True), Column("unit"))
    return Table("The worst of each kind", columns, tuple(lines))


def side(d: Design, what: str = "") -> str:
    """What stands on a side of a comparison: estate, variant with its title, edition."""
    title = f" ({what})" if what else ""
    return f"{d.estate.name}, variant {d.variant}{title}, {d.ed.title}"


def comparison(a: Design, b: Design, c: Comparison, everything: bool, paper: Paper, sides: tuple[str, str]) -> str:
    """Both sides by name, inputs that changed, numbers that follow with their causes, checks that flipped."""
    paper.fact("A, before", sides[0])
    paper.fact("B, after", sides[1])
    lines = tuple(Line((m.name, _shown(m.before), _shown(m.after), unit_shown(m.unit), m.where), "") for m in c.inputs)
    if lines:
        columns = (Column("input"), Column("before"), Column("after"), Column("unit"), Column("written in", rank=1))
        table(paper, Table("Inputs that changed", columns, lines), tags=False)
    else:
        paper.say("No input changed.")
    shown = [m for m in c.numbers if everything or _is_main(m.name)]
    if shown:
        table(paper, numbers_table(b, shown))
    worst = worst_table(b, a.values(), b.values())
    if worst.lines:
        table(paper, worst)
    said = {m.name for m in shown} | {line.tag for line in worst.lines}
    rest = sum(m.name not in said for m in c.numbers)
    paper.say()
    left_out = f" {rest} lesser ones are left out; --all lists them." if rest else ""
    paper.words(f"{len(c.numbers)} numbers moved, {c.same} stand.{left_out}")
    causes(a, b, c, paper)
    flipped = tuple(Line((f.number, f.subject, f.question, f.before, f.after), "") for f in c.checks)
    if flipped:
        heads = (Column("check"), Column("on"), Column("question"), Column("before"), Column("after"))
        table(paper, Table("Checks that flipped", heads, flipped), tags=False)
    elif c.numbers:
        paper.say("No check flipped.")
    return paper.text()


def causes(a: Design, b: Design, c: Comparison, paper: Paper) -> None:
    """Why the numbers moved: the inputs, sources and rows that changed, not what merely follows."""
    found, renamed = causes_of(a, b, c)
    rows = tuple(Line(tuple(row), "") for row in found)
    if rows:
        columns = (Column("symbol"), Column("before"), Column("after"), Column("why"))
        table(paper, Table("Causes", columns, rows[:40]), tags=False)
    if renamed:
        paper.words(f"{renamed} sources were renumbered or carried over with the same value.")


def replayed(r: Replayed, content: dict[str, Any]) -> str:
    """What became of a record, in a few lines."""
    head = f"{content['estate']}, {content['edition']}, frozen {content['date']}, snapshot {content['snapshot']}"
    if r.reproduces:
        return f"{head}\nReproduces: all {r.numbers} numbers and all checks came out again."
    lines = [head, f"Does not reproduce: {len(r.moved)} of {r.numbers} numbers moved."]
    if r.package[0] != r.package[1]:
        lines.append(f"The record was made by curtilage {r.package[0]}; this is {r.package[1]}.")
    if r.edition_moved:
        lines.append("The rules or tables of the edition were changed since.")
    lines += [f"  {m.name}: {_shown(m.before)} then, {_shown(m.after)} now" for m in r.moved[:20]]
    return "\n".join(lines + ([f"  and {len(r.moved) - 20} more"] if len(r.moved) > 20 else []))


def later(d: Design, panel: str, added: str, found: Iterable[Element], paper: Paper) -> str:
    """The way of a later load, least room first."""
    rows = list(found)
    lines = []
    for e in rows:
        says = "fits" if e.room.fits else "does not fit"
        drop = (f"{e.drop.before:.2f}", f"{e.drop.after.drop:.2f}") if e.drop else ("", "")
        cells = (e.name, f"{e.room.before:.1f}", f"{e.room.after:.1f}", says, *drop)
        lines.append(Line(cells, e.tag, "" if e.room.fits else "fails"))
    columns = (Column("element"), Column("room now, A", numeric=True), Column("room with it, A", numeric=True), Column("says"),
               Column("drop now, %", numeric=True), Column("drop with it, %", numeric=True))
    table(paper, Table(f"{added} at {panel}: {rows[0].room.added:.1f} A at {d.volts:g} V, taken in full", columns, tuple(lines)))
    first = rows[0]
    paper.words(
        f"First to limit: {first.name}."
        if not first.room.fits
        else f"It fits the ampacity and breaker of every conductor on the way; {first.name} has the least room left, "
        f"{first.room.after:.1f} A."
    )
    drops = [(e.name, e.drop) for e in rows if e.drop]
    over = [f"{name} {x.after.drop:.2f} % where {x.most:g} % is advised" for name, x in drops if not x.after.ok]
    if over:
        paper.words(f"Voltage drop with it is above the advice: {', '.join(over)}.")
    paper.words(f"Not looked at: {NOT_LOOKED_AT}.")
    paper.words("A load calculated anew may ask for less: demand factors, non-coincidence and management are not applied here.")
    return paper.text()


def edition_changes(a: str, b: str, found: Iterable[Change], paper: Paper) -> str:
    """What moved between two editions, values first."""
    order = {"value": 0, "shape": 1, "clause": 2}
    rows = sorted(found, key=lambda c: (order.get(c.kind, 3), c.what))
    titles = {"value": "Numbers that moved", "shape": "Rules of another shape", "clause": "Clauses that were renumbered"}
    for kind, title in titles.items():
        some = [c for c in rows if c.kind == kind]
        lines = tuple(Line((c.what, c.before, c.after, c.clause_before, c.clause_after, c.status), "") for c in some)
        columns = (Column("rule"), Column(a), Column(b), Column(f"clause {a}", rank=2), Column(f"clause {b}"), Column("source"))
        if lines:
            table(paper, Table(f"{title}: {a} to {b}", columns, lines), tags=False)
    paper.words(f"Source says how well the newer edition was checked, from {TRUST[1]} to {TRUST[-1]}.")
    return paper.text()
