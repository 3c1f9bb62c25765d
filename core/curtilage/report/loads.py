"""Tables of the calculated loads: every branch, a dwelling by both methods, the rows that matter most, the expected peak."""
from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.design.top import top_rows
from curtilage.design.without import added_tag
from curtilage.report.content import Cell, Column, Line, Num, Table, branch_title, maybe, num, ordered
from curtilage.report.numbers import label, shown

if TYPE_CHECKING:
    from curtilage.design import Design

METHODS = {"standard": "standard", "optional": "optional", "part": "part of a dwelling", "other": "no dwelling",
           "own": "its own panel", "sum": "sum of its parts", "two": "two dwellings"}
STANDARD_LINES = ("general", "appliances", "cooking", "dryers", "climate", "motors", "vehicles", "managed", "loads", "groups",
                  "largest_motor")


def ways(d: Design, name: str) -> list[str]:
    """The methods that the load of one branch was calculated by."""
    return [key.split("/", 2)[2] for key in d.items if key.startswith(f"demand/{name}/")]


def homes(d: Design) -> list[str]:
    """Feeders that carry one whole dwelling, calculated by both methods."""
    return [name for name in d.stages.loads.houses if name not in d.tree.mains]


def summary(d: Design) -> Table:
    """Every branch: the load by each method that is open to it, the one that is used, and the least for conductors."""
    lines = []
    for name, depth in ordered(d):
        if name in d.chosen:
            own = [n for n in d.stages.loads.parts.get(name, ()) if n not in d.tree.branches]
            lines += [_branch(d, name, depth + 1), *(_branch(d, n, depth + 2) for n in own)]
    if "service" in d.chosen:
        lines.insert(0, _branch(d, "service", 0))
    columns = (Column("at"), Column("feeds", rank=2), Column("method used", rank=1), Column("standard, VA", True),
               Column("optional, VA", True), Column("load, A", True), Column("min., A", True))
    note = ("What is no dwelling has one method; it stands under standard. The minimum counts at 125 % what is "
            "continuous: in dwellings only vehicle supply and managed set points, elsewhere also rows marked continuous, "
            "motors apart. Conductors and devices are chosen by it.")
    return Table("Calculated load of the service, every main and every feeder", columns, tuple(lines), note)


def _branch(d: Design, name: str, depth: int) -> Line:
    used = d.chosen[name]
    method = used.rpartition("/")[2]
    subject = used.rpartition("/")[0]
    first: Cell = maybe(d, f"{subject}/standard/total") or (num(d, f"{used}/total") if method != "optional" else "")
    cells = (name, branch_title(d, name), METHODS.get(method, method), first, maybe(d, f"{subject}/optional/total"),
             maybe(d, f"{used}/amperes"), maybe(d, f"{used}/minimum_amperes"))
    return Line(cells, used, "sum" if name == "service" else "", depth)


def two_methods(d: Design, name: str) -> Table:
    """One dwelling line by line, both methods side by side; lines that the optional method joins are named so."""
    a, o, b = (f"demand/{name}/{way}" for way in ("standard", "optional", "difference"))
    other = {"climate": maybe(d, f"{o}/climate"), "vehicles": maybe(d, f"{o}/vehicles_apart")}
    lines = []
    for field in STANDARD_LINES:
        left, right = maybe(d, f"{a}/{field}"), other.get(field, "")
        if _some(left) or _some(right):
            joined = right if _some(right) else "inside the tiers"
            lines.append(Line((label(field), left, joined, maybe(d, f"{b}/{field}"), _less(left, right))))
    lines.append(Line(("nameplate inside the tiers", "", maybe(d, f"{o}/connected"), "", "")))
    lines.append(Line(("the tiers leave of it", "", maybe(d, f"{o}/general"), maybe(d, f"{b}/tiers"), "")))
    for field, words, kind in (("total", "calculated load, VA", "total"), ("amperes", "calculated load, A", ""),
                               ("minimum_amperes", "minimum for conductors and devices, A", "")):
        left, right = maybe(d, f"{a}/{field}"), maybe(d, f"{o}/{field}")
        lines.append(Line((words, left, right, maybe(d, f"{b}/{field}"), _less(left, right)), "", kind))
    columns = (Column("line"), Column("standard, VA", True), Column("optional, VA", True), Column("difference", True),
               Column("optional is", True))
    note = f"Opened by {a} and {o}; the one that is used is {d.chosen[name].rpartition('/')[2]}."
    return Table(f"{name}, {branch_title(d, name)}: both methods, line by line", columns, tuple(lines), note)


def _some(n: Cell) -> bool:
    return isinstance(n, Num) and (bool(n.value) or not n.shown)


def _less(a: Cell, b: Cell) -> str:
    """How the second stands to the first, in words and whole per cents."""
    if not (isinstance(a, Num) and isinstance(b, Num) and a.value and b.shown and b.value is not None):
        return ""
    share = (float(b.value) / float(a.value) - 1) * 100
    return "the same" if abs(share) < 0.5 else f"{abs(share):.0f} % {'less' if share < 0 else 'more'}"


def row_words(d: Design, name: str) -> str:
    """A row of the load list, a group, a manager or a floor area in words."""
    row = next((r for r in d.estate.loads if r.id == name), None)
    if row is not None:
        return row.load
    if any(g.id == name for g in d.estate.groups):
        return f"group {name}"
    if any(m.id == name for m in d.estate.managers):
        return f"held by {name}"
    home = next((s.name for s in d.estate.structures if s.id == name), "")
    return f"floor area of {home}" if home else name


def top(d: Design, most: int = 10) -> Table:
    """The rows that matter most, each with its nameplate and with what the load loses without it."""
    lines = []
    for t in top_rows(d, most):
        adds = Num(added_tag(t), shown(t.marginal, "VA"), "VA", t.marginal)
        plate = shown(t.nameplate, "VA") if t.nameplate else ""
        lines.append(Line((t.id, row_words(d, t.id), t.at, plate, adds), f"{t.key}/total"))
    columns = (Column("row"), Column("load"), Column("at", rank=2), Column("nameplate, VA", True), Column("adds, VA", True))
    note = ("What a row adds is how much the calculated load of its main falls when the row is left out. These do not add up: "
            "tiers, tables and the larger season make the worth of each depend on the others.")
    return Table(f"The {len(lines)} rows that matter most", columns, tuple(lines), note)


def expected(d: Design) -> Table:
    """The expected peak, low, typical and high: never a load for conductors."""
    lines = [Line((words, maybe(d, f"expected/{a}"), maybe(d, f"expected/{b}")), f"expected/{a}") for words, a, b in (
        ("low", "low_kw", "low_kva"), ("typical", "kw", "kva"), ("high", "high_kw", "high_kva")) if d.has(f"expected/{a}")]
    return Table("Expected peak, for the utility", (Column("estimate"), Column("kW", True), Column("kVA", True)), tuple(lines),
                 "A model of how people use things, with its figures stated; it is not the calculated load and sizes nothing."
                 + (HIGHER if _higher(d) else ""))


HIGHER = " The high estimate is above the calculated load, which takes factors for diversity that a day may not keep."


def _higher(d: Design) -> bool:
    """Whether the high estimate exceeds the calculated load."""
    if not d.has("expected/high_kva") or "service" not in d.chosen:
        return False
    return bool(d.value("expected/high_kva") * 1000 > d.value(f"{d.chosen['service']}/total"))
