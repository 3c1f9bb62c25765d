"""Numbers on pages: what each stands for, whether it rests on inputs, tables and rules, and figures that open nothing."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from html.parser import HTMLParser
import re

from curtilage.design import Design
from curtilage.design.without import told_added
from curtilage.notebook.cases import BY
from curtilage.notebook.workings import Shown
from curtilage.report import schedules
from curtilage.report.content import Num
from curtilage.report.numbers import shown
from curtilage.values.told import Told, parents


class NotGrounded(AssertionError):
    """A number that rests on nothing that can be looked up."""


def told(s: Shown, d: Design, beside: Mapping[str, Design]) -> Told:
    """The told number that a link on a page stands for."""
    if s.without:
        return told_added(d, s.tag.rpartition("/")[0], s.without)
    return (beside[s.edition] if s.edition else d).told(s.tag)


class Ground:
    """Walks numbers to their leaves: inputs with their place, cells or rules with a clause, constants of a method.

    What stands behind several numbers is walked once.
    """

    def __init__(self, d: Design, beside: Mapping[str, Design]) -> None:
        self.d, self.beside, self.inputs = d, beside, d.inputs()
        self.seen: dict[int, Told] = {}

    def check(self, s: Shown) -> None:
        if s.given:
            if s.given not in self.inputs or not _placed(self.d.where(s.given)):
                raise NotGrounded(f"{s.given} is no input with a place: {self.d.where(s.given)!r}")
            return
        todo = [told(s, self.d, self.beside)]
        while todo:
            n = todo.pop()
            if id(n) not in self.seen:
                self.seen[id(n)] = n
                todo += parents(n)
                if not parents(n) and not _leaf(n):
                    raise NotGrounded(f"{s} rests on {n.symbol} = {n.value} ({n.how}, {n.place}, {n.where or n.cite})")


def _leaf(n: Told) -> bool:
    if n.how == "given":
        return _placed(n.where)
    if n.how == "rule":
        return bool(n.cite.where) or n.note.startswith("from ")
    return n.how in ("line", "test")


def _placed(where: str) -> bool:
    return bool(re.search(r"\.(yaml|csv|xlsx)(:\d+)?", where)) or where.startswith(BY)


# ------------------------------------------------------------------------------------------------------ figures that open nothing
MAY = (
    re.compile(r"(?:under 1|[0-9,]+) % (?:in hand|short|over|less|more)"),     # a margin in words: a share of the limit
    re.compile(r"[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*"),              # the id of a row, panel, structure, trench, manager
    re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}"),                          # a date
    re.compile(r"(?:Table )?[0-9]{2,3}\.[0-9]+(?:\([A-Za-z0-9]+\))*(?:, .*)?"),       # a clause, with its standing
    re.compile(r"[0-9]{3}[a-z]?"),                                      # the number of a check: in tables of checks alone
    re.compile(r"[a-z_]+(?:/[A-Za-z0-9_-]+)+"),                         # the name of a number, which is a link itself
    re.compile(r".*[A-Za-z(]{2}.*", re.S),                              # words: names, what the review found, reasons
)
"""Text with a figure in it that may stand in a table of results without being a link of a number."""
PLAIN = re.compile(r"-?[0-9][0-9,]*(?:\.[0-9]+)?(?: ?(?:A|V|VA|kVA|kW|%|ft|ft²))?")
"""What looks like a result: a figure, alone or with its unit."""
VOID = {"meta", "br", "img", "link", "hr", "input", "path", "rect", "use", "circle", "line"}


class Figures(HTMLParser):
    """Cells of tables and values of results: their text, and whether it stands in a link to a working."""

    def __init__(self) -> None:
        super().__init__()
        self.stack: list[tuple[str, dict[str, str | None]]] = []
        self.found: list[tuple[str, bool, bool]] = []                   # text, opens, the check's own number

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in VOID:
            return
        if tag in ("td", "th", "tr") and any(t == tag for t, _ in self.stack[-3:]):
            self.handle_endtag(tag)
        self.stack.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        while self.stack and any(t == tag for t, _ in self.stack):
            if self.stack.pop()[0] == tag:
                break

    def handle_data(self, data: str) -> None:
        text = data.strip()
        names = [t for t, _ in self.stack]
        if not re.search(r"[0-9]", text) or "svg" in names or not ({"td", "th"} & set(names) or self._inside("k-value")):
            return
        if "thead" in names or self._inside("k-worktable") or self._inside("k-inputs"):
            return
        opens = any("data-tag" in a or "data-given" in a for _, a in self.stack)
        self.found.append((text, opens, self._inside("k-checks")))

    def _inside(self, kind: str) -> bool:
        return any(kind in str(a.get("class")).split() for _, a in self.stack)


def bare(html: str) -> Iterator[str]:
    """Figures in tables and results that neither open nor are on the list above."""
    p = Figures()
    p.feed(html)
    for text, opens, in_checks in p.found:
        number_of_check = in_checks and re.fullmatch(r"[0-9]{3}[a-z]?", text)
        if not opens and not number_of_check and (PLAIN.fullmatch(text) or not any(m.fullmatch(text) for m in MAY)):
            yield text


def shown_as(s: Shown, d: Design, beside: Mapping[str, Design]) -> set[str]:
    """How a number may be written on a page: with its decimals, as a share, with sets and material, or as the input stands."""
    if s.given:
        x = d.inputs()[s.given]
        return {f"{x:,.0f}", f"{x:g}", str(x)}
    t = told(s, d, beside)
    made = {shown(t.value, t.unit, s.tag.rpartition("/")[2])}
    if s.tag.endswith("/size"):
        key = s.tag.rpartition("/")[0]
        sets = getattr(d.items[key], "sets", 1)
        made |= {f"{'' if sets == 1 else f'{sets:g} x '}{t.value} {m}" for m in ("Al", "Cu")}
    if s.tag.startswith("provenance/"):
        made.add(f"{t.value:.0f}")
    if s.tag.endswith(("/egc", "/neutral")):            # what is stated, beside what is wanted
        cells = [cell for line in schedules.feeders(d).lines for cell in line.cells]
        made |= {cell.shown for cell in cells if isinstance(cell, Num) and cell.tag == s.tag}
    return made
