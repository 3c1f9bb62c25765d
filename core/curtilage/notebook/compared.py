"""One load by every edition side by side: which lines move, and because of which rule."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.design.compare import why
from curtilage.look.tables import region
from curtilage.look.text import Markup, e
from curtilage.notebook.cases import Case, design, editions
from curtilage.notebook.demand import methods
from curtilage.notebook.workings import Shown, link
from curtilage.report import loads
from curtilage.report.content import Num, maybe
from curtilage.report.numbers import label, unit_shown
from curtilage.values.told import Told, parents, walk

if TYPE_CHECKING:
    from curtilage.design import Design

FIELDS = {
    "standard": loads.STANDARD_LINES,
    "optional": ("connected", "general", "climate", "vehicles_apart"),
    "other": ("lighting", "receptacles", "loads", "climate", "motors", "vehicles", "managed", "groups", "largest_motor"),
}
SUMS = ("total", "amperes", "minimum_amperes")
SAID = {("optional", "connected"): "nameplate inside the tiers", ("optional", "general"): "the tiers leave of it"}
HEADS = {"standard": "Standard method", "optional": "Optional method"}


class Sides(NamedTuple):
    """The editions of a comparison: title and design by name, oldest first."""

    titles: dict[str, str]
    designs: dict[str, Design]


def sides(case: Case, tried: bool = True) -> Sides:
    """The case by every edition that comes with the package, with or without what is tried on the page."""
    titles = {name: title for title, name in editions().items()}
    values = case.get("set") if tried else {}
    return Sides(titles, {name: design({**case, "edition": name, "set": values}) for name in titles})


def edition_table(s: Sides, branch: str) -> Markup:
    """Each line of the load by each edition, and why it moves from one to the next."""
    return _table(tuple(s.titles.items()), tuple(s.designs.items()), branch)


@lru_cache(maxsize=8)
def _table(titles: tuple[tuple[str, str], ...], designs: tuple[tuple[str, Design], ...], branch: str) -> Markup:
    s = Sides(dict(titles), dict(designs))
    first = s.designs[titles[0][0]]
    columns = "".join(f'<th scope="col" class="num">{e(t)}</th>' for t in s.titles.values())
    head = f'<thead><tr><th scope="col">line</th>{columns}<th scope="col">why it moves</th></tr></thead>'
    body = "".join(_method(s, method, key) for method, key in methods(first, branch).items())
    made = region("Editions side by side", f'<table class="k-table n-editions">{head}<tbody>{body}</tbody></table>')
    return Markup(made + f'<p class="r-note">{e(_carried(s, branch))}</p>')


def _method(s: Sides, method: str, key: str) -> str:
    wide = len(s.designs) + 2
    title = f'<tr class="n-part"><th colspan="{wide}" scope="rowgroup">{HEADS[method]}</th></tr>' if method in HEADS else ""
    return title + "".join(_line(s, method, f"{key}/{field}") for field in (*FIELDS.get(method, ()), *SUMS))


def _line(s: Sides, method: str, tag: str) -> str:
    """One line; one that is nothing in every edition is left out."""
    found: dict[str, Any] = {name: maybe(d, tag) for name, d in s.designs.items()}
    if not any(isinstance(n, Num) and n.value for n in found.values()):
        return ""
    field = tag.rpartition("/")[2]
    moved = len({n.value for n in found.values() if isinstance(n, Num)}) > 1
    reason = (_reasons(s, tag) if field not in SUMS else "follows from the lines above") if moved else ""
    unit = f", {unit_shown(first.unit)}" if (first := next(iter(found.values()))) else ""
    words = f"{SAID.get((method, field), label(field))}{unit}"
    cells = "".join(f'<td class="num">{_cell(name, n)}</td>' for name, n in found.items())
    kind = " ".join(c for c, yes in (("k-total", field == "total"), ("n-moved", moved)) if yes)
    opening = f"<tr class={kind!r}>" if kind else "<tr>"
    return f'{opening}<th scope="row">{e(words)}</th>{cells}<td class="n-why">{e(reason)}</td></tr>'


def _cell(edition: str, n: Any) -> str:
    return link(Shown(n.tag, edition), n.shown) if isinstance(n, Num) and n.shown else ""


def _reasons(s: Sides, tag: str) -> str:
    """The rules that moved a line, edition by edition."""
    said: list[str] = []
    for a, b in pairwise(s.designs):
        before, after = (s.designs[n].told(tag) for n in (a, b))
        if before.value != after.value:
            said += causes(before, after)
    return "; ".join(dict.fromkeys(said))


def causes(before: Told, after: Told) -> list[str]:
    """Rules that say something else now: "unit load: 3 VA/ft2, now 2 VA/ft2 (120.41)"."""
    rules = {x.symbol: x for x in walk(after) if x.how == "rule" and not parents(x)}
    moved = [row for row in why(before, after) if row[0] in rules and row[1] != row[2]]
    stated = [row for row in moved if row[1] != "-"] or moved          # those read on both sides, if there are any
    return [f"{name.replace('_', ' ')}: {'' if was == '-' else f'{was}, '}now {now} ({_where(rules[name])})"
            for name, was, now, _ in stated]


def _where(rule: Told) -> str:
    status = f", {rule.cite.status}" if rule.cite.status not in ("", "verified") else ""
    return f"{rule.cite.where}{status}"


def _carried(s: Sides, branch: str) -> str:
    """How many rules behind the load are the same under another number."""
    said = []
    for a, b in pairwise(s.designs):
        same: set[str] = set()
        for key in methods(s.designs[a], branch).values():
            rows = why(*(s.designs[n].told(f"{key}/total") for n in (a, b)))
            same |= {row[0] for row in rows if row[3] == "source changed" and row[1] == row[2]}
        said.append(f"{len(same)} from {s.titles[a]} to {s.titles[b]}")
    return f"Rules and tables behind this load that another edition only prints anew, with the same value: {', '.join(said)}."
