"""The parts of the page on calculated load: answer, lines of both methods, pictures, rows that matter, expected peak, review."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from curtilage.design.without import matter_most
from curtilage.draw import bars
from curtilage.draw.bars import Step
from curtilage.draw.svg import Text
from curtilage.look.components import Result
from curtilage.look.components import results as results_of
from curtilage.look.tables import figure_words, region
from curtilage.look.text import Markup, e
from curtilage.look.theme import PAGE
from curtilage.notebook.frame import cautions
from curtilage.notebook.workings import Shown, given, link
from curtilage.report import content, drawings, loads, parts, results
from curtilage.report.content import Column, Line, Num, Table, maybe, num
from curtilage.report.numbers import label, rounded, shown
from curtilage.review.asked import Asker
from curtilage.review.loads import checks as checks_on_loads

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.top import Top
    from curtilage.values.check import Check

LINES = ("lighting", "receptacles", "loads", "climate", "motors", "vehicles", "managed", "groups", "welders", "rv",
         "largest_motor")
"""Fields of the load of a structure that is no dwelling, in the order of its method."""


def whole(d: Design, branch: str) -> str:
    """The branch whose calculation carries this one: a main with one feeder has the load of that feeder."""
    return d.chosen[branch].split("/")[1]


def methods(d: Design, branch: str) -> dict[str, str]:
    """Method -> item: both for a whole dwelling, else the one there is."""
    name = whole(d, branch)
    if name in loads.homes(d):
        return {m: f"demand/{name}/{m}" for m in ("standard", "optional")}
    key = d.chosen[branch]
    return {key.rpartition("/")[2]: key}


# ------------------------------------------------------------------------------------------------------------- answer
def answer(d: Design, branch: str) -> Markup:
    """The load by each method, the least for conductors and devices, and the neutral, each against what is built."""
    found = [_method(d, branch, method, key) for method, key in methods(d, branch).items()]
    return Markup(results_of([*found, _minimum(d, branch), *_neutral(d, branch)]) + cautions("C30"))


def limit(d: Design, branch: str) -> Num | None:
    """The device or rating that the load is held against."""
    tags = (f"feeder/{branch}/device", f"main/{branch}/rating", "service/rating" if branch == "service" else "")
    return next((num(d, t) for t in tags if t and d.has(t)), None)


def _result(d: Design, tag: str, name: str, outcome: str, clause: str, most: Num | None, standing: str, detail: str) -> Result:
    n = num(d, tag)
    if not n.shown:
        outcome, detail = "not evaluated", "withheld by a stop"
    words = f"{most.shown} {most.unit}" if most is not None else ""
    value, top = (None if x is None or x.value is None else float(x.value) for x in (n, most))
    checked = results.status(d.told(tag))
    return Result(name, n.shown, n.unit, outcome, clause, standing, checked, value, top, "max", words, detail, tag=tag)


NAMES = {"standard": "Standard method", "optional": "Optional method", "other": "Calculated load", "sum": "Calculated load"}


def _method(d: Design, branch: str, method: str, key: str) -> Result:
    most, used = limit(d, branch), d.chosen[branch] == key
    outcome, detail, standing = "does not apply", "shown beside the method that is used", "code"
    if used:
        outcome, detail = _fits(d.items[key].amperes, most), "used for conductors and devices"
    if used and method == "optional" and d.items[key].judgement:
        inside, outside = (rounded(float(x) / d.volts, 0) for x in (d.items[key].inside, d.items[key].outside))
        outcome, standing = "needs judgement", "interpretation"
        detail = f"vehicle supply inside the reduced part: {inside} A; beside it: {outside} A"
    return _result(d, f"{key}/amperes", NAMES.get(method, "Calculated load"), outcome, _clause(d, method), most, standing, detail)


def _clause(d: Design, method: str) -> str:
    rules = {"standard": "general_demand", "optional": "optional_demand"}
    return d.ed.rule(rules[method]).clause if method in rules else Asker(d.ed.name).clause("036").partition(",")[0]


def _fits(amperes: float, most: Num | None) -> str:
    if most is None or most.value is None:
        return "not evaluated"
    return "passes" if amperes <= most.value else "fails"


def _minimum(d: Design, branch: str) -> Result:
    key, most = d.chosen[branch], limit(d, branch)
    outcome = _fits(d.items[key].minimum_amperes, most)
    detail = "the same load, what is continuous at 125 %"
    return _result(d, f"{key}/minimum_amperes", "Minimum for conductors, devices", outcome, Asker(d.ed.name).clause("067"), most,
                   "code", detail)


def _neutral(d: Design, branch: str) -> Iterator[Result]:
    name = branch if f"neutral/{branch}" in d.items else whole(d, branch)
    if f"neutral/{name}" in d.items:
        carrier = d.items.get(f"feeder/{name}", d.items.get("service") if branch == "service" else None)
        outcome = "not evaluated" if carrier is None else "passes" if carrier.neutral_ok else "fails"
        said = "" if carrier is None else f"a neutral of {carrier.neutral} carries it"
        yield _result(d, f"neutral/{name}/amperes", "Neutral", outcome, Asker(d.ed.name).clause("031"), None, "code", said)


# -------------------------------------------------------------------------------------------------------------- lines
def lines(d: Design, branch: str) -> Markup:
    """Line by line: a dwelling by both methods side by side, anything else by its own."""
    name = whole(d, branch)
    if name in loads.homes(d):
        return Markup(parts.table(loads.two_methods(d, name), wide=True, title=False))
    key = d.chosen[branch]
    made = _sum(d, key) if key.endswith("/sum") else _single(d, key)
    return Markup(parts.table(made, title=False))


def _single(d: Design, key: str) -> Table:
    found = [Line((label(f), n)) for f in LINES if isinstance(n := maybe(d, f"{key}/{f}"), Num) and (n.value or not n.shown)]
    return Table("Line by line", (Column("line"), Column("VA", True)), (*found, *_totals(d, key)))


def _sum(d: Design, key: str) -> Table:
    behind = d.asks[key].tags["parts"]
    found = [Line((name, content.branch_title(d, name), num(d, t["total"]), num(d, t["minimum"]))) for name, t in behind.items()]
    total = Line(("together", "", num(d, f"{key}/total"), num(d, f"{key}/minimum")), "", "total")
    amperes = Line(("in amperes", "", num(d, f"{key}/amperes"), num(d, f"{key}/minimum_amperes")))
    columns = (Column("part"), Column("feeds"), Column("load, VA", True), Column("with continuous at 125 %, VA", True))
    return Table("Part by part", columns, (*found, total, amperes))


def _totals(d: Design, key: str) -> Iterator[Line]:
    yield Line(("calculated load, VA", num(d, f"{key}/total")), "", "total")
    yield Line(("calculated load, A", num(d, f"{key}/amperes")))
    yield Line(("minimum for conductors and devices, A", num(d, f"{key}/minimum_amperes")))


def lines_head(d: Design, branch: str) -> str:
    """The head above the lines: what they are about depends on how many methods there are."""
    return "Where the two methods part" if len(methods(d, branch)) > 1 else "Line by line"


# ----------------------------------------------------------------------------------------------------------- pictures
def picture(d: Design, branch: str) -> Markup:
    """Two waterfalls on one scale for a dwelling, one for anything else."""
    name = whole(d, branch)
    if name in loads.homes(d):
        drawn, says = drawings.both_methods(d, name, PAGE), _both_say(d, name)
    else:
        steps = _steps(d, d.chosen[branch])
        drawn = bars.waterfall(steps, "Calculated load", "what each part adds", bars.reach(steps), PAGE, wide=760)
        says = "Each bar begins where the one above it ends; the solid bar is their sum."
    return Markup(f'<div class="k-draw">{drawn}</div>{figure_words("Picture 1.", says, [])}')


def _both_say(d: Design, name: str) -> str:
    """What the two pictures show, in a sentence."""
    a, o = d.items[f"demand/{name}/standard"], d.items[f"demand/{name}/optional"]
    less, apart = ("optional", "standard") if o.total <= a.total else ("standard", "optional"), abs(a.total - o.total)
    end = (f"The {less[0]} method ends {rounded(apart / d.volts, 0)} A below the {less[1]} one." if apart >= d.volts
           else "Both end at the same load.")
    return f"Filled adds, dashed is taken away by a rule, solid is the sum; both stand on one scale. {end}"


def _steps(d: Design, key: str) -> list[Step]:
    if key.endswith("/sum"):
        behind = {name: num(d, t["total"]) for name, t in d.asks[key].tags["parts"].items()}
    else:
        behind = {label(f): n for f in LINES if isinstance(n := maybe(d, f"{key}/{f}"), Num) and n.value}
    steps = [Step(name, _kva(n), "add", Text(rounded(_kva(n), 1), n.tag)) for name, n in behind.items() if n.value]
    total, amperes = num(d, f"{key}/total"), num(d, f"{key}/amperes")
    return [*steps, Step("calculated load", 0.0, "sum", Text(f"{rounded(_kva(total), 1)} kVA, {amperes.shown} A", amperes.tag))]


def _kva(n: Num) -> float:
    return float(n.value) / 1000


# ----------------------------------------------------------------------------------------------------- rows that matter
def ranking(d: Design, branch: str, most: int = 10) -> Markup:
    """The rows that matter most: what the load loses without each, beside its nameplate."""
    found = matter_most(d, branch, most)
    if not found or not all(num(d, f"{t.key}/total").shown for t in found):
        return Markup("")
    top = max(max(t.marginal, t.nameplate) for t in found)
    body = "".join(_ranked(d, t, top) for t in found)
    heads = ("row", "load", "nameplate, VA", "adds to the load, VA", "", "calculated in")
    head = "".join(f'<th scope="col"{" class=num" if h.endswith("VA") else ""}>{h}</th>' for h in heads)
    note = ("What a row adds is how much the load falls when the row is left out; it opens to both loads. These do not add up: "
            "tiers, tables and the larger season make the worth of each depend on the others.")
    table = f'<table class="k-table"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'
    return Markup(region("Rows that matter most", table) + f'<p class="r-note">{e(note)}</p>')


def _ranked(d: Design, t: Top, top: float) -> str:
    adds = link(Shown(f"{t.key}/total", without=t.id), shown(t.marginal, "VA"))
    bar = _bar(t.marginal / top, t.nameplate / top)
    numbers = f'<td class="num">{_plate(d, t)}</td><td class="num">{adds}</td><td class="n-bar">{bar}</td>'
    return f'<tr><th scope="row">{e(t.id)}</th><td>{_what(d, t)}</td>{numbers}<td>{e(t.key.split("/")[1])}</td></tr>'


def _what(d: Design, t: Top) -> str:
    """What a row of the ranking is, in words."""
    row = next((r for r in d.estate.loads if r.id == t.id), None)
    if row is not None:
        return e(f"{row.load}, {row.location}".strip(", "))
    home = next((s for s in d.estate.structures if s.id == t.id), None)
    if home is not None:
        return f"floor area of {e(home.name)}, {given(d, f'structures.{home.id}.area', shown(home.area, 'ft2'))} ft²"
    held = [r.id for r in d.estate.loads if t.id in (r.manager, r.group)]
    word = "held by the manager" if any(m.id == t.id for m in d.estate.managers) else "of which one runs"
    return e(f"{', '.join(held)}, {word}")


def _plate(d: Design, t: Top) -> str:
    row = next((r for r in d.estate.loads if r.id == t.id), None)
    return given(d, f"loads.{t.id}.va", shown(row.va, "VA")) if row is not None else ""


def _bar(share: float, plate: float, wide: int = 200) -> str:
    """What a row adds, filled, inside the outline of its nameplate."""
    full = max(share, 0.0) * wide
    outline = (f'<rect x="1" y="4" width="{max(plate * wide - 2, 0):.1f}" height="10" fill="none" stroke="currentColor" '
               'stroke-dasharray="3 2"/>')
    return (f'<svg viewBox="0 0 {wide} 18" width="{wide}" height="18" aria-hidden="true" focusable="false">{outline}'
            f'<rect x="1" y="4" width="{max(full - 2, 1):.1f}" height="10" fill="var(--k-rule)" stroke="currentColor"/></svg>')


# ------------------------------------------------------------------------------------------------------ expected peak
def expected(d: Design, branch: str) -> Markup:
    """What people may be expected to draw: of the structures of a branch, and of the estate. Never a load for conductors."""
    found = d.tree.branches.get(branch) or d.tree.mains.get(branch)
    names = found.structures if found is not None else ()
    titles = {s.id: s.name for s in d.estate.structures}
    ends = ("_low", "", "_high")
    rows = [Line((f"{titles.get(s, s)}, {season}", *(maybe(d, f"expected/{s}/{season}_kw{end}") for end in ends)))
            for s in names for season in ("winter", "summer") if f"expected/{s}" in d.items]
    rows.append(Line(("whole estate, the larger season", *(maybe(d, f"expected/{f}") for f in ("low_kw", "kw", "high_kw"))),
                     "", "total" if rows else ""))
    columns = (Column("of"), Column("low, kW", True), Column("typical, kW", True), Column("high, kW", True))
    note = ("A model of how people use things, with its figures stated. It is for the utility and sizes nothing: no conductor, "
            "no device, no rating on this page follows from it.")
    made = parts.table(Table("Expected peak", columns, tuple(rows), note), title=False) if "expected" in d.items else ""
    return Markup(made + cautions("C41")) if made else Markup("")


# ------------------------------------------------------------------------------------------------------------- review
def review(d: Design, branch: str) -> Markup:
    """What the review says of this load, loud outcomes first, with the cautions that bite."""
    found = [c for c in checks_on_loads(d, Asker(d.ed.name)) if concerns(d, c, branch)]
    return Markup(bites(d, branch) + (parts.checks(found) if found else ""))


def concerns(d: Design, c: Check, branch: str) -> bool:
    """Whether a check speaks of this branch, of what stands in it, or of what holds its rows together."""
    found = d.tree.branches.get(branch) or d.tree.mains.get(branch)
    if found is None:
        return c.subject in {"service", "estate", *d.tree.mains}
    held = {x for r in found.rows for x in (r.manager, r.group) if x}
    return c.subject in {branch, whole(d, branch), *found.structures} | held


def bites(d: Design, branch: str) -> Markup:
    """Cautions for what this load rests on: the optional method, two dwellings, a manager."""
    found = d.tree.branches.get(branch) or d.tree.mains.get(branch)
    rows = found.rows if found is not None else d.tree.rows
    refs = ["C31"] if any(k.endswith("/optional") for k in methods(d, branch).values()) else []
    refs += ["C32"] if f"demand/{branch}/two" in d.items or (found is None and len(loads.homes(d)) > 1) else []
    refs += ["C33"] if any(r.manager for r in rows) else []
    return cautions(*refs)


def choices(d: Design, branch: str) -> dict[str, str]:
    """Numbers whose working may be kept in sight while inputs move: what is said -> tag."""
    out: dict[str, str] = {}
    for method, key in methods(d, branch).items():
        for field in d.items[key]._fields:
            n: Any = maybe(d, f"{key}/{field}")
            if isinstance(n, Num) and n.shown and n.value and not isinstance(n.value, bool):
                out[f"{label(field)} ({NAMES.get(method, method).lower()})"] = n.tag
    return out
