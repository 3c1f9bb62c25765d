"""Parts of the page made of the shared tables: tables with links, workings with anchors, cautions by their number."""
from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from html import escape
from typing import TYPE_CHECKING, Any

from curtilage.look import components as k
from curtilage.look.cautions import cautions
from curtilage.look.marks import used
from curtilage.look.tables import LOUD_FIRST, count_words, region
from curtilage.look.text import Markup, class_of, e, number
from curtilage.report import content
from curtilage.report import typeset as t
from curtilage.report import working as w
from curtilage.report.content import Cell, Num, Table
from curtilage.report.numbers import label

if TYPE_CHECKING:
    from curtilage.values.check import Check
    from curtilage.values.told import Told


def link(cell: Cell) -> Markup:
    """A cell: words, or a number that opens its working."""
    if not isinstance(cell, Num):
        return Markup(e(cell))
    if not cell.shown:
        return Markup('<span class="k-blank is-small" role="img" aria-label="withheld"></span>')
    return number(cell.tag, cell.shown) if cell.tag else Markup(escape(cell.shown))


def table(x: Table, wide: bool = False, title: bool = True) -> str:
    """A table; the first cell of a row is its head and, where the row has an item of its own, opens it."""
    if not x.lines:
        return ""
    classes = [" ".join(w for w in ("num" if c.numeric else "", f"q{c.rank}" if c.rank else "") if w) for c in x.columns]
    kinds = [f' class="{w}"' if w else "" for w in classes]
    heads = "".join(f'<th scope="col"{kind}>{e(c.head)}</th>' for c, kind in zip(x.columns, kinds, strict=True))
    body = []
    for line in x.lines:
        cells = []
        for i, (cell, shape) in enumerate(zip(line.cells, kinds, strict=True)):
            tag, scope = ("th", " scope=row") if i == 0 else ("td", "")
            deep = f' style="padding-left:{14 * line.depth}px"' if i == 0 and line.depth > 0 else ""
            cells.append(f"<{tag}{scope}{shape}{deep}>{link(cell)}</{tag}>")
        kind = {"total": " class=k-total", "fails": " class=r-bad", "over": " class=r-bad"}.get(line.kind, "")
        body.append(f"<tr{kind}>{''.join(cells)}</tr>")
    caption = f"<caption>{e(x.title)}</caption>" if title else ""
    note = f'<p class="r-note">{e(x.note)}</p>' if x.note else ""
    inner = f'<table class="k-table r-wrap">{caption}<thead><tr>{heads}</tr></thead><tbody>{"".join(body)}</tbody></table>'
    return region(x.title, inner, wide) + note


def folded(title: str, inner: str, count: str = "", paper: bool = True) -> str:
    """A part that opens when somebody asks; on paper it stands open, unless it is not for paper."""
    tail = f'<span class="k-steps">{e(count)}</span>' if count else ""
    kind = "k-work r-fold" if paper else "k-work r-fold r-screen"
    return f'<details class="{kind}"><summary>{e(title)}{tail}</summary>{inner}</details>' if inner else ""


def caution(ref: str, **filled: object) -> str:
    """A caution by its number; one that the kit does not have is left out by nobody: it raises KeyError."""
    found = cautions()[ref]
    return k.caution(found.strength, found.text.format(**filled), ref)


def not_looked_at() -> str:
    """The subjects that no check asks about yet, as a note; nothing where there are none."""
    said = content.not_looked_at()
    return k.caution("note", said, "") if said else ""


def checks(found: Iterable[Check], caption: str = "", has: Callable[[str], bool] = bool) -> str:
    """Checks as a table, loud outcomes first, each with its numbers as links; `has` says which numbers the page has."""
    ordered = sorted(found, key=lambda c: LOUD_FIRST.index(c.outcome))
    body = "".join(_check(c, has) for c in ordered)
    heads = "".join(f'<th scope="col"{" class=num" if h == "Check" else ""}>{h}</th>'
                    for h in ("Outcome", "Check", "On", "Question", "Found", "Clause, standing"))
    words = caption or count_words([c.outcome for c in ordered])
    return region("Checks", f'<table class="k-table k-checks"><caption>{e(words)}</caption><thead><tr>{heads}</tr></thead>'
                            f"<tbody>{body}</tbody></table>")


def tag_link(tag: str) -> str:
    """The name of a number, as a link to its working."""
    return f'<a href="#w/{escape(tag)}">{escape(tag)}</a>'


def _check(c: Check, has: Callable[[str], bool]) -> str:
    parts = [e(c.found)]
    if c.missing:
        parts.append(f"missing: {e(c.missing)}")
    if c.remedy and c.outcome in ("fails", "not evaluated", "needs judgement"):
        parts.append(f'<span class="r-dim">{e(c.remedy)}</span>')
    links = " ".join(map(tag_link, [t for t in c.tags if has(t)][:4]))
    found = "<br>".join(p for p in parts if p) + (f'<br><span class="k-src">{links}</span>' if links else "")
    word = f'<span class="k-out k-{class_of(c.outcome)}">{used(c.outcome)}<span class="k-out-word">{c.outcome}</span></span>'
    return (f'<tr class="is-{class_of(c.outcome)}"><td>{word}</td><td class="num">{e(c.number)}</td><td>{e(c.subject)}</td>'
            f'<th scope="row">{e(c.question)}</th><td>{found}</td><td class="k-src">{e(c.clause)}, {e(c.standing)}</td></tr>')


# ----------------------------------------------------------------------------------------------------------- working
HEAD = ('<thead><tr><th scope="col">Symbols<th scope="col">Numbers<th scope="col" class="num">Result'
        '<th scope="col">Source and status</thead>')


def working_rows(told: dict[str, Told], key: str = "", deep: bool = False) -> str:
    """The rows of a working; a row that is a result of the item carries its anchor."""
    names: dict[int, list[str]] = {}
    for field, x in told.items() if key else ():
        names.setdefault(id(x), []).append(f"{key}/{field}")
    return "".join(_work_row(r, names.get(id(r.node), [])) for r in w.rows(*told.values(), deep=deep))


def _work_row(r: w.Row, tags: list[str]) -> str:
    left = t.html(r.symbol) + (f" = {t.html(r.symbols)}" if r.symbols else "")
    right = t.html(r.numbers)
    if r.tag:
        right = f"number {tag_link(r.tag)}"
    says = f"<small>{t.html(r.words)}</small>" if r.words else ""
    value = f"{escape(r.shown)} {r.unit}".strip()
    source = _source(r.source, r.status)
    opening = f'<tr id="w/{escape(tags[0])}">' if tags else "<tr>"
    called = "; ".join(dict.fromkeys(label(tag.rpartition("/")[2]) for tag in tags))
    also = "".join(f'<span id="w/{escape(tag)}"></span>' for tag in tags[1:])
    left += f"<small>{also}{escape(called)}</small>" if tags else ""
    return f"{opening}<td>{left}<td>{right}{says}<td>{value}<td>{source}"


@lru_cache(maxsize=4096)
def _source(source: str, status: str) -> str:
    """Where a row comes from, and how well that was checked; a source that begins with its status does not say it twice."""
    return escape(source if not source or source.startswith(status) else f"{source}, {status}")


def item(key: str, record: Any, title: str, opened: bool = False) -> str:
    """The working of one item, once: every number of it is a row that can be linked to."""
    told = w.fields(record)
    rows = working_rows(told, key)
    words = f"<code>{escape(key)}</code>{e(title)}"
    return (f'<details class="k-work r-item" id="i/{escape(key)}"{" open" if opened else ""}><summary>{words}</summary>'
            f'<table class="k-table k-worktable">{HEAD}<tbody>{rows}</tbody></table></details>')
