"""The working of every number on a page, in the page: folded, and filled in when a reader opens it.

A number on a page is a link that says which number it is: its tag, and where it is not one of the design at hand, of which
edition, with which row left out, or which input. What the numbers shown rest on is there as well, once each.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from html import unescape
import re
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.design.without import told_added
from curtilage.look.text import Markup, e
from curtilage.notebook.frame import elsewhere, marimo, served, show
from curtilage.report import content, parts, results
from curtilage.report.html import KINDS
from curtilage.report.numbers import label, with_unit

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.values.told import Told

LINK = re.compile(r'<a class="k-num" ((?:data-[a-z]+="[^"]*" ?)+)href="#')
PART = re.compile(r'data-([a-z]+)="([^"]*)"')
UNITS = {"va": "VA", "area": "ft2", "length": "ft"}
"""Units of the inputs that pages show."""
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
        found.update((Shown(unescape(x[1])), None) for x in MARK.finditer(text))
    return list(found)


def behind(d: Design, tags: Iterable[str]) -> dict[str, list[str]]:
    """Item -> tags, in the order of design: the numbers given and all those of other items that they rest on."""
    seen: dict[str, None] = {}
    todo = [t for t in tags if d.has(t)]
    while todo:
        tag = todo.pop()
        if tag not in seen:
            seen[tag] = None
            todo += rests_on(d, tag.rpartition("/")[0])
    out: dict[str, list[str]] = {key: [] for key in d.items}
    for tag in seen:
        out[tag.rpartition("/")[0]].append(tag)
    return {key: sorted(found, key=_order(d, key)) for key, found in out.items() if found}


def _order(d: Design, key: str) -> Callable[[str], int]:
    fields = d.items[key]._fields
    return lambda tag: int(fields.index(tag.rpartition("/")[2]))


def rests_on(d: Design, key: str) -> list[str]:
    """The numbers of other items that one item was asked with."""
    ask = d.asks[key]
    out = [path.removeprefix("tag:") for *_, path in ask.more if path.startswith("tag:")]
    for tag in ask.tags.values():
        out += [tag] if isinstance(tag, str) else [t for part in tag.values() for t in part.values()]
    return [t for t in out if not t.startswith("rule:")]


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

    def item(self, d: Design, key: str, tags: Iterable[str], edition: str = "") -> str:
        """One item with those of its numbers that are shown or rested on."""
        numbers = []
        for tag in tags:
            n = content.num(d, tag)
            words = f"{e(label(tag.rpartition('/')[2]))} <b>{e(n)}</b> {e(n.unit)}"
            numbers.append(self.number(Shown(tag, edition), words, _working(d, tag, edition)))
        head = f'<code>{e(key)}</code>{e(results.title(d, key))}<span class="k-steps">{_count(len(numbers), "number")}</span>'
        return f'<details class="k-work r-item"><summary>{head}</summary>{"".join(numbers)}</details>'


def _count(n: int, word: str) -> str:
    return f"{n} {word}{'' if n == 1 else 's'}"


def _working(d: Design, tag: str, edition: str = "") -> Body:
    if tag.rpartition("/")[0] in d.withheld:
        return lambda: "<p>Withheld by a stop until it is answered.</p>"
    return lambda: rows(d.told(tag), edition)


def rows(told: Told, edition: str = "") -> str:
    """The working of one number, down to the numbers of other items; those of another edition lead to their own."""
    made = parts.working_rows({"": told})
    made = made.replace('href="#w/', f'href="#w/{edition}/') if edition else made
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
