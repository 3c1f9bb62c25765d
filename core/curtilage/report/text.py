"""The result of a design on a terminal: tables of 80 to 120 columns, plain words, the tag of each row at its end.

Nothing is said by colour. With `bold` titles and what needs a person are bold; with `plain` false the few signs beyond
ASCII become words.
"""
from __future__ import annotations

from collections.abc import Iterable, Sequence
import textwrap
from typing import TYPE_CHECKING

from curtilage.look.cautions import text as caution
from curtilage.look.components import share_words
from curtilage.report import content as c
from curtilage.report import loads, on_utility, results, schedules, works
from curtilage.report import working as w
from curtilage.report.content import Column, Line, Table
from curtilage.report.numbers import label
from curtilage.report.typeset import plain_text
from curtilage.values.told import Told

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.values.check import Check

GAP, STEP = "  ", "  "
COMFORTABLE, LEAST = 22, 6      # columns of words are made so narrow before others are left out, and at last so narrow


class Paper:
    """How wide the terminal is, whether it can show bold, and whether it has signs beyond ASCII."""

    def __init__(self, width: int = 100, bold: bool = False, signs: bool = True) -> None:
        self.width, self.bold, self.signs = max(60, min(width, 120)), bold, signs
        self.lines: list[str] = []

    def strong(self, text: str) -> str:
        return f"\x1b[1m{text}\x1b[0m" if self.bold and text.strip() else text

    def say(self, text: str = "", strong: bool = False) -> None:
        self.lines.append(self.strong(text) if strong else text.rstrip())

    def words(self, text: str, indent: str = "") -> None:
        self.lines += textwrap.wrap(text, self.width, initial_indent=indent, subsequent_indent=indent) or [""]

    def fact(self, name: str, text: str) -> None:
        self.lines += textwrap.wrap(text, self.width, initial_indent=f"{name:<11}", subsequent_indent=" " * 11)

    def title(self, text: str) -> None:
        self.say()
        self.say(text, strong=True)
        self.say("-" * min(len(text), self.width))

    def text(self) -> str:
        out = "\n".join(self.lines).strip("\n") + "\n"
        return out if self.signs else w.ascii_words(out)


# ------------------------------------------------------------------------------------------------------------ tables
def _cells(table: Table, tags: bool) -> tuple[list[Column], list[list[str]]]:
    columns = list(table.columns)
    rows = [[STEP * line.depth + str(line.cells[0]), *map(str, line.cells[1:])] for line in table.lines]
    if tags and any(line.tag for line in table.lines):
        columns.append(Column("explain", keep=True))
        rows = [[*row, line.tag] for row, line in zip(rows, table.lines, strict=True)]
    return columns, rows


def _widths(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> list[int]:
    return [max([_head_width(col), *(len(r[i]) for r in rows)]) for i, col in enumerate(columns)]


def _head_width(col: Column) -> int:
    """A head may stand on several lines; its longest word decides."""
    return max(map(len, col.head.split()), default=0)


def _total(widths: Sequence[int]) -> int:
    return sum(widths) + len(GAP) * (len(widths) - 1)


def _fit(columns: list[Column], rows: list[list[str]], room: int) -> tuple[list[Column], list[list[str]], list[int]]:
    """Narrow columns of words a little; then leave out those of the highest rank; then narrow what is left as far as needed."""
    widths = _narrowed(columns, _widths(columns, rows), room, COMFORTABLE)
    while _total(widths) > room and any(col.rank for col in columns):
        drop = max(range(len(columns)), key=lambda i: (columns[i].rank, i))
        columns, rows = columns[:drop] + columns[drop + 1 :], [r[:drop] + r[drop + 1 :] for r in rows]
        widths = _narrowed(columns, _widths(columns, rows), room, COMFORTABLE)
    return columns, rows, _narrowed(columns, widths, room, LEAST)


def _narrowed(columns: Sequence[Column], widths: Sequence[int], room: int, least: int) -> list[int]:
    """Take from the widest column of words until all fits, or none is wider than the least."""
    out = list(widths)
    while _total(out) > room:
        words = [i for i, col in enumerate(columns) if not col.numeric and not col.keep and out[i] > least]
        if not words:
            break
        out[max(words, key=lambda i: out[i])] -= 1
    return out


def _wrapped(text: str, width: int) -> list[str]:
    """Lines of a cell; what is indented stays indented."""
    lead = text[: len(text) - len(text.lstrip())]
    return textwrap.wrap(text, width, break_on_hyphens=False, subsequent_indent=lead) or [""]


def _row(cells: Sequence[str], columns: Sequence[Column], widths: Sequence[int], foot: bool = False) -> list[str]:
    """One row on as many lines as its fullest cell needs; figures right, words left."""
    parts = [_wrapped(cell, width) for cell, width in zip(cells, widths, strict=True)]
    high = max(map(len, parts))
    parts = [[""] * (high - len(p)) + p if foot else p + [""] * (high - len(p)) for p in parts]
    return [GAP.join(p[i].rjust(width) if col.numeric else p[i].ljust(width)
                     for p, col, width in zip(parts, columns, widths, strict=True)).rstrip() for i in range(high)]


def table(paper: Paper, t: Table, tags: bool = True) -> None:
    """Set a table; a total is ruled off, a line that fails says so at its left."""
    if not t.lines:
        return
    paper.title(t.title)
    marked = any(line.kind in ("fails", "over") for line in t.lines)
    columns, rows, widths = _fit(*_cells(t, tags), paper.width - (2 if marked else 0))
    lead = "  " if marked else ""
    for text in _row([col.head for col in columns], columns, widths, foot=True):
        paper.say(lead + text)
    paper.say(lead + GAP.join("-" * width for width in widths))
    for cells, line in zip(rows, t.lines, strict=True):
        if line.kind == "total":
            paper.say(lead + GAP.join("-" * width for width in widths))
        for i, text in enumerate(_row(cells, columns, widths)):
            bad = line.kind in ("fails", "over")
            sign = ("! " if i == 0 and bad else "  ") if marked else ""
            paper.say(sign + text, strong=line.kind in ("fails", "total"))
    if marked:
        paper.say("! at the left: see the checks")
    if t.note:
        paper.words(t.note)


# ------------------------------------------------------------------------------------------------------------- parts
def head(paper: Paper, d: Design) -> None:
    """What it is, and what the numbers rest on."""
    e = d.estate
    paper.say(f"{e.name}, variant {c.variant(d)}", strong=True)
    paper.fact("Edition", f"{c.edition(d)}; amendments: {c.amendments(d)}")
    paper.fact("Sources", f"{share_words(c.shares(d))} of the connected load")
    paper.fact("Checks", c.count_words(d.checks))
    paper.fact("Snapshot", d.snapshot)
    paper.words(c.not_looked_at()) if c.not_looked_at() else None
    if e.demonstration:
        paper.say()
        paper.words(f"WARNING  {caution('C07')} (C07)")
    for stop in d.stops:
        paper.say()
        paper.say(f"STOP {stop.number}", strong=True)
        paper.words(stop.text, "  ")
        paper.words(stop.answer, "  ")
        paper.words(f"withheld: {', '.join(stop.withheld)}", "  ") if stop.withheld else None


def check_lines(checks: Iterable[Check]) -> Table:
    """Checks as a table, in the order they are given."""
    lines = []
    for check in checks:
        found = "; ".join(t for t in (check.found, f"missing: {check.missing}" if check.missing else "",
                                      f"remedy: {check.remedy}" if check.remedy and check.outcome == "fails" else "") if t)
        cells = (check.outcome, check.number, check.subject, check.question, found, f"{check.clause}, {check.standing}")
        lines.append(Line(cells, check.tags[0] if check.tags else "", "fails" if check.outcome == "fails" else ""))
    columns = (Column("outcome", keep=True), Column("check", keep=True), Column("on"), Column("question"), Column("found"),
               Column("clause, standing", rank=1))
    return Table("Checks that need a person", columns, tuple(lines))


def result(d: Design, paper: Paper | None = None, circuits: bool = False) -> str:
    """The whole result of `curtilage design`, as text; with the branch circuits of every panel if they are asked for."""
    paper = paper or Paper()
    head(paper, d)
    table(paper, loads.summary(d))
    for name in loads.homes(d):
        table(paper, loads.two_methods(d, name))
    _say(paper, "C30", "C31")
    table(paper, loads.top(d))
    for made in (schedules.service(d), schedules.mains(d), schedules.feeders(d)):
        table(paper, made)
    _say(paper, "C35", "C36", "C44")
    table(paper, schedules.growth(d, short=True))
    table(paper, schedules.paths(d))
    _say(paper, "C34")
    for panel in schedules.circuits(d) if circuits else ():
        table(paper, panel)
    table(paper, loads.expected(d))
    _built(paper, d)
    _questions(paper, d)
    _checks(paper, d)
    closing(paper, d)
    return paper.text()


def _built(paper: Paper, d: Design) -> None:
    """A line for each of the worst of what is built from the sizes, and where the rest is."""
    lines = [Line((x.words, x.number, x.number.unit, x.limit), x.number.tag) for x in works.built(d)]
    columns = (Column("what"), Column("number", True), Column("unit"), Column("held against"))
    words = ", ".join(t.name for t in works.TOPICS)
    table(paper, Table("Built from the sizes", columns, tuple(lines), f"More with: curtilage show ESTATE TOPIC ({words})."))


def _questions(paper: Paper, d: Design) -> None:
    """What the authority has to decide, in its words, with both readings."""
    if not d.questions:
        return
    paper.title("Questions for the authority")
    for q in d.questions:
        head = ", ".join(t for t in (q.number, *q.subjects) if t)
        clause = f" ({q.clause})" if q.clause else ""
        paper.words(f"{head}: {q.text}{clause}")
        paper.words(q.readings, "    ") if q.readings else None
        paper.words(q.answer, "    ") if q.answer else None


def _checks(paper: Paper, d: Design) -> None:
    """What fails, is open or asks for judgement; of the rest only how many."""
    need, rest = c.loud(d)
    table(paper, check_lines(need)) if need else paper.title("Checks that need a person: none")
    paper.say()
    paper.words(f"Besides: {c.count_words(rest)}." if rest else "")
    missing = c.not_evaluated(d)
    if missing:
        paper.say(f"{missing} not evaluated: a check without an answer is no pass.", strong=True)


def _say(paper: Paper, *refs: str) -> None:
    paper.say()
    for ref in refs:
        paper.words(f"{caution(ref)} ({ref})")


def closing(paper: Paper, d: Design) -> None:
    """What every export says of itself."""
    _say(paper, "C01", "C02", "C42", "C61")
    paper.say()
    paper.words("What stands in the column explain opens a working: curtilage explain ESTATE feeder/GH/drop")


# ---------------------------------------------------------------------------------------------------------- one topic
def topics(paper: Paper | None = None) -> str:
    """The topics that `curtilage show` knows, a line each."""
    paper = paper or Paper()
    for t in (*works.TOPICS, *works.ANEW):
        paper.say(f"{t.name:<14}{t.title}")
    return paper.text()


def another_letter(d: Design, current: float, paper: Paper) -> str:
    """What a letter of this current, A line to line at the transformer, would change, with the cautions that bite."""
    _head(paper, d, "What another letter on the available fault current would change")
    for made in on_utility.letter_changes(d, current):
        if made.lines:
            table(paper, made, tags=False)
        else:
            paper.say()
            paper.words(f"{made.title}: none.")
    _say(paper, "C11", "C01")
    return paper.text()


def _head(paper: Paper, d: Design, title: str) -> None:
    paper.say(title, strong=True)
    paper.words(f"{d.estate.name}, variant {c.variant(d)}, {c.edition(d)}, amendments: {c.amendments(d)}.")
    if d.estate.demonstration:
        paper.words(f"WARNING  {caution('C07')} (C07)")


def topic(d: Design, name: str, paper: Paper | None = None) -> str:
    """The tables of one topic, with the cautions that bite."""
    paper, t = paper or Paper(), works.topic(name)
    _head(paper, d, t.title)
    found = works.tables(d, t)
    for made in found:
        table(paper, made)
    if not found:
        paper.say()
        paper.words("The estate states nothing that this topic is about.")
    _say(paper, *t.cautions, "C01")
    return paper.text()


# --------------------------------------------------------------------------------------------------------- one number
def explain(d: Design, tag: str, paper: Paper | None = None, deep: bool = False) -> str:
    """The working of one number, or of a whole item, as text: each line with its numbers and its source."""
    paper = paper or Paper()
    if c.is_item(d, tag):
        paper.say(f"{tag}: {results.title(d, tag)}".rstrip(": "), strong=True)
        told = list(w.fields(d.tell(tag)).values())
    else:
        n = c.num(d, tag)
        paper.say(f"{tag}: {label(tag.rpartition('/')[2])} {n.shown} {n.unit}".rstrip(), strong=True)
        told = [d.told(tag)]
    paper.words(f"{d.estate.name}, variant {c.variant(d)}, {c.edition(d)}, amendments: {c.amendments(d)}.")
    paper.say()
    working(paper, told, deep)
    return paper.text()


def working(paper: Paper, told: Sequence[Told], deep: bool = False) -> None:
    """Rows of a working: symbol and value on a line with what was done; the source below it where it does not fit."""
    rows = w.rows(*told, deep=deep)
    names = [_name(r) for r in rows]
    wide = min(max(map(len, names), default=0), 24)
    shown = [f"{r.shown} {r.unit}".strip() for r in rows]
    values = min(max(map(len, shown), default=0), 20)
    for r, name, value in zip(rows, names, shown, strict=True):
        says, source = w.how(r), w.source(r)
        lead = f"{name:<{wide}}  {value:>{values}}  "
        room = max(paper.width - len(lead), 30)
        tail = f"<{source}>" if source else ""
        body = textwrap.wrap(says, room) or [""]
        if tail and len(body[-1]) + len(tail) + 2 <= room:
            body[-1] = f"{body[-1]}  {tail}" if body[-1] else tail
        elif tail:
            body += textwrap.wrap(tail, room)
        paper.say(lead + body[0])
        for more in body[1:]:
            paper.say(" " * (wide + values + 4) + more)


def _name(r: w.Row) -> str:
    return plain_text(r.symbol)
