"""The parts of the opening page: what stands on the estate, what needs a person first, what the numbers rest on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage import store
from curtilage.draw import oneline
from curtilage.look import components as k
from curtilage.look.tables import figure_words
from curtilage.look.text import Markup, e
from curtilage.look.theme import PAGE
from curtilage.notebook.frame import attempt, show
from curtilage.notebook.workings import given
from curtilage.report import content, drawings, parts, schedules
from curtilage.report.content import Cell, Column, Line, Table, maybe, num
from curtilage.report.numbers import shown

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.site import Structure


# ----------------------------------------------------------------------------------------------------- what needs a person
def person(d: Design) -> Markup:
    """Stops first, then every check that fails, is not evaluated or needs judgement; how many there are besides."""
    need, rest = content.loud(d)
    stopped = "".join(k.caution("stop", s.text, f"{s.number}, {s.caution}", s.answer) for s in d.stops)
    table = parts.checks(need) if need else "<p>No check fails, none is open and none asks for judgement.</p>"
    others = content.count_words(rest)
    tail = f'<p class="k-steps">Besides: {e(others)}. A check that was not asked is not counted.</p>' if others else ""
    return Markup(parts.caution("C04", x=shown(d.shares["assumed"], "ft"), n=content.not_evaluated(d)) + stopped + table + tail)


def broken(d: Design) -> Markup:
    """Recorded decisions that no longer hold, and how many do."""
    lost = [s for s in d.decisions if s.outcome == "broken"]
    said = "".join(f"<li>{e(s.decision.question)} {e(s.decision.chosen)}</li>" for s in lost)
    head = f"<p>{len(lost)} of {len(d.decisions)} recorded decisions no longer hold:</p><ul>{said}</ul>" if lost else (
        f"<p>{len(d.decisions)} recorded decisions, none broken by the numbers of now.</p>" if d.decisions else "")
    return Markup(head)


# --------------------------------------------------------------------------------------------------------------- tables
def structures(d: Design) -> Markup:
    """Every structure: what it is, how large, which feeder reaches it, its load and what is left of its device."""
    lines = [_structure(d, s) for s in d.estate.structures]
    columns = (Column("structure"), Column("name"), Column("is"), Column("floor, ft²", True), Column("stage"), Column("feeder"),
               Column("load, A", True), Column("min., A", True), Column("device, A", True), Column("of the device"))
    note = "The load is the calculated one; the minimum counts what is continuous at 125 %, and the device is chosen by it."
    return Markup(parts.table(Table("Structures", columns, tuple(lines), note), wide=True, title=False))


def _structure(d: Design, s: Structure) -> Line:
    feeder = _fed_by(d, s.id)
    area: Cell = given(d, f"structures.{s.id}.area", shown(s.area, "ft2")) if s.area else ""
    key, growth = f"feeder/{feeder}", f"growth/{feeder}"
    spare = content.in_hand(num(d, f"{growth}/spare_minimum")) if growth in d.items else ""
    numbers = (maybe(d, f"{key}/{f}") for f in ("current", "minimum", "device"))
    return Line((s.id, s.name, s.occupancy, area, s.status or "", feeder, *numbers, spare), key)


def _fed_by(d: Design, structure: str) -> str:
    """The feeder that brings power to a structure: the first one from a main."""
    return next((n for n, depth in content.ordered(d) if depth == 1 and d.tree.branches[n].feeder is not None
                 and d.standing(d.tree.branches[n].feeder.to) == structure), "")          # type: ignore[union-attr]


def power(d: Design) -> Markup:
    """Service conductors and mains, then every feeder from the service outward."""
    service, mains = parts.table(schedules.service(d)), parts.table(schedules.mains(d))
    feeders = parts.table(_lengths_open(d, schedules.feeders(d)), wide=True)
    return Markup(f'<div class="n-two"><div>{mains}</div><div>{service}</div></div>{feeders}')


def _lengths_open(d: Design, table: Table) -> Table:
    """The same table; a length that was stated opens to the place where it was written."""
    at = next(i for i, column in enumerate(table.columns) if column.head.startswith("length"))
    lines = []
    for line in table.lines:
        cell = line.cells[at]
        if isinstance(cell, str) and cell:
            cell = given(d, f"feeders.{line.cells[0]}.length", cell)
        lines.append(line._replace(cells=(*line.cells[:at], cell, *line.cells[at + 1:])))
    return table._replace(lines=tuple(lines))


def one_line(d: Design) -> Markup:
    """The one-line diagram, and the same in words."""
    said = "".join(f'<li style="padding-left:{18 * deep}px">{e(oneline.sentence(n))}</li>'
                   for deep, n in oneline.walk(drawings.one_line(d)))
    drawing = ('<div class="k-draw" tabindex="0" role="region" aria-label="One-line diagram">'
               f"{drawings.one_line_svg(d, PAGE)}</div>")
    folded = f'<details class="k-work"><summary>The drawing in words</summary><ul class="k-words">{said}</ul></details>'
    return Markup(drawing + figure_words("Picture 1.", drawings.ONE_LINE_SAYS, []) + folded)


# -------------------------------------------------------------------------------------------------------- what it rests on
def questions(d: Design) -> Markup:
    """What the authority has to decide."""
    return Markup(parts.table(content.records("Questions for the authority", d.questions), title=False))


def rests(d: Design) -> Markup:
    """Where the figures come from, the assumptions, the recorded decisions."""
    n = len(d.assumptions)
    shares = Line(tuple(num(d, f"provenance/{f}") for f in ("nameplate", "submittal", "assumed")))
    columns = tuple(Column(f"{f}, % of connected load", True) for f in ("nameplate", "submittal", "assumed"))
    table = parts.table(Table("Where the figures come from", columns, (shares,)), title=False)
    many = "" if n == 1 else "s"
    inner = parts.table(content.records("Assumptions", d.assumptions), title=False)
    said = f"{n} assumption{many}: what nobody stated, and what stands in its place"
    listed = f'<details class="k-work"><summary>{said}</summary>{inner}</details>'
    return Markup(table + (listed if n else "") + broken(d))


# ------------------------------------------------------------------------------------------------------------ a new one
def create(folder: str) -> Any:
    """Write the starter estate into a new folder and say where it stands; an error in words where that cannot be."""
    if not folder.strip():
        return show("<p>Write the name of a folder that does not exist yet.</p>")
    made = attempt(store.new_estate, folder.strip())
    return show(f"<p>A starter estate stands in <code>{e(made)}</code>. Write that folder above to open it.</p>")
