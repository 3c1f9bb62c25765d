"""The working of every number on a page, in the page: folded, and filled in when a reader opens it.

A number on a page is a link that says which number it is: its tag, and where it is not one of the design at hand, of which
edition, with which row left out, or which input. What the numbers shown rest on is there as well, once each.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from html import unescape
import re
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.design.ask import rests_on
from curtilage.design.without import told_added
from curtilage.look.text import Markup, e
from curtilage.notebook.frame import elsewhere, marimo, served, show
from curtilage.report import content, parts, results
from curtilage.report.kinds import KINDS
from curtilage.report.numbers import label, with_unit

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.values.told import Told

LINK = re.compile(r'<a class="k-num" ((?:data-[a-z]+="[^"]*" ?)+)href="#')
PART = re.compile(r'data-([a-z]+)="([^"]*)"')
NOW = "now"
"""The name under which numbers that moved stand beside those of the estate as stated."""
UNITS = {"va": "VA", "area": "ft2", "length": "ft"}
"""Units of the inputs that pages show."""
HREF = re.compile(r'href="#w/([^"]+)"')
MARK = re.compile(r'<a href="#w/([^"]+)">')


class Shown(NamedTuple):
    """Which number a link on a page stands for."""

    tag: str
    edition: str = ""  # where it is not the edition of the design at hand
    without: str = ""  # the row that was left out
    given: str = ""  # the path of an input

    @property
    def place(self) -> str:
        """The place of its working on the page."""
        middle = f"{self.edition}/" if self.edition else f"without/{self.without}/" if self.without else ""
        return f"w/in/{self.given}" if self.given else f"w/{middle}{self.tag}"


def link(s: Shown, words: object) -> Markup:
    """A number as a link to its working."""
    parts_ = "".join(f'data-{name}="{e(x)}" ' for name, x in zip(s._fields, s, strict=True) if x)
    return Markup(f'<a class="k-num" {parts_}href="#{e(s.place)}">{e(words)}</a>')


def given(d: Design, path: str, words: object) -> Markup:
    """An input as a number that opens: its working is the place where it was written."""
    return link(Shown("", given=path), words)


def shown_in(*pieces: Any) -> list[Shown]:
    """Every number that pieces of a page link to, once, in the order of the page."""
    found: dict[Shown, None] = {}
    for piece in pieces:
        text = getattr(piece, "text", None) or str(piece)
        for x in LINK.finditer(text):
            found[Shown(**{"tag": ""} | {name: unescape(v) for name, v in PART.findall(x[1])})] = None
        found.update((_marked(unescape(x[1])), None) for x in MARK.finditer(text))
    return list(found)


def _marked(place: str) -> Shown:
    """The number that the name of one leads to."""
    name, _, rest = place.partition("/")
    return Shown(rest, NOW) if name == NOW else Shown(place)


def behind(d: Design, tags: Iterable[str]) -> dict[str, list[str]]:
    """Item -> tags, in the order of design: the numbers given and all those of other items that they rest on."""
    seen: dict[str, None] = {}
    todo = [t for t in tags if d.has(t)]
    while todo:
        tag = todo.pop()
        if tag not in seen:
            seen[tag] = None
            todo += rests_on(d.asks[tag.rpartition("/")[0]])
    out: dict[str, list[str]] = {key: [] for key in d.items}
    for tag in seen:
        out[tag.rpartition("/")[0]].append(tag)
    return {key: sorted(found, key=_order(d, key)) for key, found in out.items() if found}


def _order(d: Design, key: str) -> Callable[[str], int]:
    fields = d.items[key]._fields
    return lambda tag: int(fields.index(tag.rpartition("/")[2]))


# ------------------------------------------------------------------------------------------------------- on the page
Body = Callable[[], str]


class Folded:
    """Collects folded workings. The parts that a reader fills in by opening them live as long as the page's object."""

    def __init__(self) -> None:
        self.kept: list[Any] = []

    def fill(self, body: Body) -> str:
        """A part that is made when it is first seen; made at once where nobody could ask for it later."""
        if served():
            lazy = marimo().lazy(lambda: show(body()))
            self.kept.append(lazy)
            return str(lazy.text)
        return body() if elsewhere() else ""

    def number(self, s: Shown, words: str, body: Body) -> str:
        filled = f'<div class="n-fill" id="{e(s.place)}">{self.fill(body)}</div>'
        return f'<details class="k-work n-one"><summary>{words}</summary>{filled}</details>'

    def item(self, d: Design, key: str, tags: Iterable[str], edition: str = "", own: frozenset[str] | None = None) -> str:
        """One item with those of its numbers that are shown or rested on; `own`: which numbers stand under the edition."""
        numbers = []
        for tag in tags:
            n = content.num(d, tag)
            words = f"{e(label(tag.rpartition('/')[2]))} <b>{e(n)}</b> {e(n.unit)}"
            numbers.append(self.number(Shown(tag, edition), words, _working(d, tag, edition, own)))
        head = f'<code>{e(key)}</code>{e(results.title(d, key))}<span class="k-steps">{_count(len(numbers), "number")}</span>'
        return f'<details class="k-work r-item"><summary>{head}</summary>{"".join(numbers)}</details>'


def _count(n: int, word: str) -> str:
    return f"{n} {word}{'' if n == 1 else 's'}"


def _working(d: Design, tag: str, edition: str = "", own: frozenset[str] | None = None) -> Body:
    if tag.rpartition("/")[0] in d.withheld:
        return lambda: "<p>Withheld by a stop until it is answered.</p>"
    return lambda: rows(d.told(tag), edition, own)


def rows(told: Told, edition: str = "", own: frozenset[str] | None = None) -> str:
    """The working of one number, down to the numbers of other items; those of another edition lead to their own."""
    made = parts.working_rows({"": told})
    if edition:
        made = HREF.sub(lambda x: f'href="#w/{edition}/{x[1]}"' if own is None or unescape(x[1]) in own else x[0], made)
    return f'<div class="k-scroll"><table class="k-table k-worktable">{parts.HEAD}<tbody>{made}</tbody></table></div>'


def workings(d: Design, *pieces: Any, beside: Mapping[str, Design] | None = None) -> Any:
    """The workings of all numbers in these pieces of a page, and of what they rest on. Keep the result under a name.

    `beside` holds the designs of other editions by name.
    """
    folded, found = Folded(), shown_in(*pieces)
    body = [_kinds(folded, d, behind(d, (s.tag for s in found if not (s.edition or s.without or s.given))), "")]
    for name, other in (beside or {}).items():
        tags = [s.tag for s in found if s.edition == name]
        body.append(_fold(f"By {other.ed.title}", _kinds(folded, other, behind(other, tags), name)))
    body.append(_fold("What a row adds", "".join(_without(folded, d, s) for s in found if s.without)))
    body.append(_fold("Inputs that stand on this page", _inputs(d, [s.given for s in found if s.given])))
    lead = "<p>A number on this page leads here. Figures in a working are not rounded; a number of another item leads on.</p>"
    out = show('<h2 class="k-h2">The working of every number on this page</h2>', lead, *body)
    out.kept = folded.kept
    return out


# ------------------------------------------------------------------------------------------- a page on which inputs move
TARGET = re.compile(r'(<a class="k-num" data-tag="([^"]+)" |<a )href="#w/([^"]+)">')


class Base:
    """The workings of a page as the estate is stated. They stand while inputs move, so a moved input does not pay for them."""

    def __init__(self, stated: Design, *pieces: Any) -> None:
        self.stated, self.shown = stated, workings(stated, *pieces)
        self.places = frozenset(unescape(x) for x in re.findall(r' id="w/([^"]+)"', self.shown.text))

    def same(self, d: Design, tag: str) -> bool:
        """Whether a number of a design stands here already: asked just so, with the same answer."""
        if tag not in self.places or d is self.stated:
            return tag in self.places
        key = tag.rpartition("/")[0]
        old, new = self.stated.asks.get(key), d.asks.get(key)
        return (old is new or old == new) and bool(self.stated.items[key] == d.items[key])


class Over:
    """A page over the workings of the estate as stated: its numbers lead there where they are the same, else to their own."""

    def __init__(self, base: Base, d: Design) -> None:
        self.base, self.d = base, d
        self.moved: dict[str, None] = {}

    def show(self, *pieces: str) -> Any:
        """Pieces of the page, each number leading to where its working stands."""
        return show(*(TARGET.sub(self._link, piece) for piece in pieces))

    def section(self, title: str, *pieces: str) -> Any:
        """A part of the page with its head; left out when it is empty."""
        body = "".join(TARGET.sub(self._link, piece) for piece in pieces)
        return show(f'<h2 class="k-h2">{e(title)}</h2>{body}') if body else show("")

    def _link(self, x: re.Match[str]) -> str:
        tag = unescape(x[3])
        if self.base.same(self.d, tag) or not self.d.has(tag):
            return x[0]
        self.moved[tag] = None
        named = f'<a class="k-num" data-tag="{x[2]}" data-edition="{NOW}" ' if x[2] else "<a "
        return f'{named}href="#w/{NOW}/{x[3]}">'

    def workings(self, *pieces: Any) -> Any:
        """The workings of what moved: of the numbers in these pieces, and of what they rest on. Keep the result under a name."""
        folded, found = Folded(), self._behind(*pieces)
        items: dict[str, list[str]] = {}
        for tag in found:
            items.setdefault(tag.rpartition("/")[0], []).append(tag)
        own = frozenset(found)
        body = "".join(folded.item(self.d, key, tags, NOW, own) for key, tags in items.items())
        out = show(f'<h2 class="k-h2">The working of what moved, or is looked at anew</h2>{body}' if body else "")
        out.kept = folded.kept
        return out

    def _behind(self, *pieces: Any) -> list[str]:
        todo = [s.tag for s in shown_in(*pieces) if s.edition == NOW]
        seen: dict[str, None] = {}
        while todo:
            tag = todo.pop()
            if tag not in seen and self.d.has(tag) and not self.base.same(self.d, tag):
                seen[tag] = None
                todo += rests_on(self.d.asks[tag.rpartition("/")[0]])
        order = {key: i for i, key in enumerate(self.d.items)}
        return sorted(seen, key=lambda tag: (order[tag.rpartition("/")[0]], tag))


def beside(designs: Mapping[str, Design], *pieces: Any) -> Any:
    """The workings of numbers that stand under the names of other designs, and the inputs that stand beside them."""
    folded, found, body = Folded(), shown_in(*pieces), ""
    for name, d in designs.items():
        tags = [s.tag for s in found if s.edition == name]
        body += _fold(f"Workings: {name}", _kinds(folded, d, behind(d, tags), name))
    first = next(iter(designs.values()), None)
    body += _fold("Inputs that stand here", _inputs(first, [s.given for s in found if s.given])) if first is not None else ""
    out = show(body)
    out.kept = folded.kept
    return out


def _fold(title: str, body: str) -> str:
    """A group of folded items, folded; nothing where there are none."""
    n = body.count('class="k-work r-item"') or body.count('class="k-work n-one"')
    count = f'<span class="k-steps">{n}</span>' if n else ""
    return f'<details class="k-work n-kind"><summary>{e(title)}{count}</summary>{body}</details>' if body else ""


def _kinds(folded: Folded, d: Design, items: Mapping[str, list[str]], edition: str) -> str:
    by: dict[str, str] = {}
    for key, tags in items.items():
        kind = key.split("/")[0]
        by[kind] = by.get(kind, "") + folded.item(d, key, tags, edition)
    titles = {kind: KINDS.get(kind, kind) for kind in by}
    return "".join(by.values()) if edition else "".join(_fold(titles[kind], x) for kind, x in by.items())


def _inputs(d: Design, paths: Iterable[str]) -> str:
    """Inputs with the file, line and field in which they were written."""
    values = d.inputs()
    said = "".join(f'<tr id="w/in/{e(p)}"><td><code>{e(p)}</code><td class="num">{e(_input(p, values.get(p)))}<td>{e(d.where(p))}'
                   for p in dict.fromkeys(paths))
    head = '<thead><tr><th scope="col">Input<th scope="col" class="num">Value<th scope="col">Written in</thead>'
    return f'<table class="k-table k-inputs">{head}<tbody>{said}</tbody></table>' if said else ""


def _input(path: str, x: Any) -> str:
    """An input as it is held, with the unit that its field is held in."""
    return with_unit(x, UNITS.get(path.rpartition(".")[2], ""), "") if isinstance(x, int | float) else str(x)


def _without(folded: Folded, d: Design, s: Shown) -> str:
    def body() -> str:
        return rows(told_added(d, s.tag.rpartition("/")[0], s.without))

    return folded.number(s, f"what {e(s.without)} adds", body)


def working(d: Design, tag: str) -> Any:
    """One number and its working, open: it follows the inputs of the page."""
    if not d.has(tag) or tag.rpartition("/")[0] in d.withheld:
        return show("")
    n = d.number(tag)
    field = tag.rpartition("/")[2]
    words = f"{e(label(field))} <b>{e(with_unit(n.value, n.unit, field))}</b>"
    return show(f'<div class="n-pinned"><p>{words} <code>{e(tag)}</code></p>{rows(d.told(tag))}</div>')
