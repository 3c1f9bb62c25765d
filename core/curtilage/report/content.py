"""What a report says, apart from how it is set: tables of words and numbers, each number with the tag that opens it.

The terminal, the page and the text file set the same tables. Nothing is computed here; a share of a limit is put into words.
"""
from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.look import tables
from curtilage.report.numbers import label, shown, unit_shown

if TYPE_CHECKING:
    from curtilage.design.design import Design


class Num(NamedTuple):
    """A number of the design as it is shown: `tag` opens its working."""

    tag: str
    shown: str
    unit: str
    value: Any = None

    def __str__(self) -> str:
        return self.shown


Cell = str | Num


class Column(NamedTuple):
    """A column of a table. Where there is little room, columns of a higher `rank` are left out first."""

    head: str
    numeric: bool = False
    rank: int = 0


class Line(NamedTuple):
    """A row; `tag` is what `curtilage explain` opens for the whole row, `kind` says total or an outcome."""

    cells: tuple[Cell, ...]
    tag: str = ""
    kind: str = ""


class Table(NamedTuple):
    """A table with a title, and a sentence that belongs to it."""

    title: str
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    note: str = ""


def num(d: Design, tag: str) -> Num:
    """A number of the design, rounded for show."""
    n = d.number(tag)
    field = tag.rpartition("/")[2]
    return Num(tag, shown(n.value, n.unit, field), unit_shown(n.unit), n.value)


def maybe(d: Design, tag: str) -> Cell:
    """The same, or nothing where the design has no such number."""
    key, _, field = tag.rpartition("/")
    return num(d, tag) if key in d.items and field in getattr(d.items[key], "_fields", ()) else ""


def keys(d: Design, kind: str) -> list[str]:
    """Items of one kind, in the order of design."""
    return [k for k in d.items if k.startswith(f"{kind}/")]


def in_hand(n: Cell) -> str:
    """A margin in words: "17 % in hand", "24 % short"."""
    if not isinstance(n, Num) or not isinstance(n.value, int | float):
        return ""
    x = float(n.value)
    size = f"{abs(x):.0f} %" if abs(x) >= 1 or x == 0 else "under 1 %"
    return f"{size} {'in hand' if x >= 0 else 'short'}"


def material(d: Design, key: str) -> str:
    """Al or Cu, by the view of the edition that an item was asked with."""
    return d.asks[key].view.split("-")[0].capitalize() if key in d.asks else ""


# ------------------------------------------------------------------------------------------------ where things are
def panel_structure(d: Design, panel: str) -> str:
    """The name of the structure that a panel stands in."""
    ids = {p.id: p.structure for p in d.estate.panels}
    names = {s.id: s.name for s in d.estate.structures}
    return names.get(ids.get(panel, ""), "")


def feeder_title(d: Design, name: str) -> str:
    """A feeder in words: what it feeds, and where that stands."""
    f = next((f for f in d.estate.feeders if f.id == name), None)
    if f is None:
        return name
    place = panel_structure(d, f.to)
    return f"{f.to}, {place}" if place else f.to


def branch_title(d: Design, name: str) -> str:
    """A feeder, main or the service in words."""
    main = next((m for m in d.estate.service.mains if m.id == name), None)
    if main is not None:
        return f"main {name}" + (f": {main.note}" if main.note else "")
    return "the whole service" if name == "service" else feeder_title(d, name)


METHODS = {"standard": "standard", "optional": "optional", "part": "part of a dwelling", "other": "no dwelling",
           "own": "its own panel", "sum": "sum of its parts", "two": "two dwellings"}


def methods(d: Design) -> dict[str, list[str]]:
    """Branch -> methods that its load was calculated by, in the order of design."""
    out: dict[str, list[str]] = {}
    for key in keys(d, "demand"):
        _, name, method = key.split("/", 2)
        out.setdefault(name, []).append(method)
    return out


# ----------------------------------------------------------------------------------------------------- load tables
def _or_blank(d: Design, key: str, field: str) -> Cell:
    return maybe(d, f"{key}/{field}")


def demand_summary(d: Design, feeders: Sequence[str] | None = None) -> Table:
    """Every branch: the load by each method that is open to it, the one that is used, and the least for conductors."""
    lines = []
    for name, ways in methods(d).items():
        used = d.chosen.get(name, f"demand/{name}/{ways[0]}")
        single = f"demand/{name}/{ways[0]}" if not {"standard", "optional"} & set(ways) else ""
        lines.append(Line((
            name, branch_title(d, name), METHODS.get(used.rpartition("/")[2], used.rpartition("/")[2]),
            _or_blank(d, f"demand/{name}/standard", "total") or _or_blank(d, single, "total"),
            _or_blank(d, f"demand/{name}/optional", "total"),
            _or_blank(d, used, "amperes"), _or_blank(d, used, "minimum_amperes"),
        ), used))
    columns = (Column("feeder, main"), Column("feeds", rank=2), Column("method used"),
               Column("standard or only method, VA", True), Column("optional, VA", True),
               Column("calculated, A", True), Column("minimum, A", True))
    note = "The minimum counts what is continuous at 125 %: conductors and devices are chosen by it."
    return Table("Calculated load of every feeder and main", columns, tuple(lines), note)


STANDARD_LINES = ("general", "appliances", "cooking", "dryers", "climate", "motors", "vehicles", "managed", "loads", "groups",
                  "largest_motor")
INSIDE = ("appliances", "cooking", "dryers", "motors", "managed", "loads", "groups", "largest_motor")


def two_methods(d: Design, name: str) -> Table:
    """One dwelling line by line, both methods side by side; lines that the optional method joins are named so."""
    a, o = f"demand/{name}/standard", f"demand/{name}/optional"
    lines = []
    for field in STANDARD_LINES:
        left: Cell = _or_blank(d, a, field)
        right: Cell = "inside the tiers"
        if field == "general":
            right = "inside the tiers"
        elif field == "climate":
            right = _or_blank(d, o, "climate")
        elif field == "vehicles":
            right = _or_blank(d, o, "vehicles_apart")
        lines.append(Line((label(field), left, right)))
    lines.append(Line(("nameplate inside the tiers", "", _or_blank(d, o, "connected"))))
    lines.append(Line(("the tiers leave of it", "", _or_blank(d, o, "general"))))
    for field, words, kind in (("total", "calculated load, VA", "total"), ("amperes", "calculated load, A", ""),
                               ("minimum_amperes", "minimum for conductors and devices, A", "")):
        lines.append(Line((words, _or_blank(d, a, field), _or_blank(d, o, field)), f"{a}/{field}", kind))
    columns = (Column("line"), Column("standard, VA", True), Column("optional, VA", True))
    return Table(f"{feeder_title(d, name)}: both methods, line by line", columns, tuple(lines))


OTHER_LINES = ("lighting", "receptacles", "loads", "climate", "motors", "vehicles", "managed", "groups", "welders", "rv",
               "largest_motor")


def contributions(d: Design, key: str) -> list[tuple[str, Num]]:
    """The lines of one load calculation that are not zero."""
    fields = [f for f in (*STANDARD_LINES, *OTHER_LINES) if f in d.items[key]._fields]
    out = [(label(f), num(d, f"{key}/{f}")) for f in dict.fromkeys(fields)]
    return [(words, n) for words, n in out if n.value]


# ------------------------------------------------------------------------------------------- conductors and mains
def mains(d: Design) -> Table:
    """Mains: load against rating."""
    lines = []
    for key in keys(d, "main"):
        name = key.split("/", 1)[1]
        kind = "" if d.items[key].rating_ok else "fails"
        lines.append(Line((name, branch_title(d, name).partition(": ")[2], num(d, f"{key}/current"), num(d, f"{key}/minimum"),
                           num(d, f"{key}/rating"), in_hand(num(d, f"{key}/spare"))), key, kind))
    columns = (Column("main"), Column("feeds", rank=2), Column("calculated, A", True), Column("minimum, A", True),
               Column("rating, A", True), Column("of the rating"))
    return Table("Mains", columns, tuple(lines))


def conductors(d: Design, key: str) -> Cell:
    """Sets and size as one number: "2 x 500 Al"."""
    size = num(d, f"{key}/size")
    sets = getattr(d.items[key], "sets", 1)
    text = f"{size.shown} {material(d, key)}"
    return Num(size.tag, f"{sets:g} x {text}" if sets and sets > 1 else text, "", size.value)


def length(d: Design, name: str) -> Cell:
    """The length of a feeder: of its route, or as stated."""
    if f"route/{name}" in d.items:
        return num(d, f"route/{name}/length")
    f = next((f for f in d.estate.feeders if f.id == name), None)
    return shown(f.length, "ft") if f is not None and f.length is not None else ""


def feeders(d: Design) -> Table:
    """The feeder schedule."""
    lines = []
    for key in keys(d, "feeder"):
        name, r = key.split("/", 1)[1], d.items[key]
        f = next(f for f in d.estate.feeders if f.id == name)
        bad = not (r.device_ok and r.carries_ok and r.protected and r.parallel_ok and r.neutral_ok)
        lines.append(Line((
            name, f"{f.from_} to {f.to}", num(d, f"{key}/current"), num(d, f"{key}/minimum"), num(d, f"{key}/device"),
            conductors(d, key), num(d, f"{key}/egc"), num(d, f"{key}/neutral"), length(d, name), num(d, f"{key}/drop"),
            in_hand(num(d, f"{key}/device_margin")),
        ), key, "fails" if bad else ""))
    columns = (Column("feeder"), Column("from, to", rank=1), Column("load, A", True), Column("min., A", True),
               Column("device, A", True), Column("conductors"), Column("ground"), Column("neutral", rank=3),
               Column("length, ft", True, rank=2), Column("drop, %", True), Column("device over minimum", rank=1))
    return Table("Feeders", columns, tuple(lines), "Sizes in AWG or kcmil; the ground is that of each raceway.")


def service_lines(d: Design) -> Table:
    """The service conductors, field by field."""
    fields = ("current", "minimum", "rating", "required", "ampacity", "size", "neutral", "drop", "volts_far", "rule")
    lines = []
    for field in fields:
        n = maybe(d, f"service/{field}")
        if isinstance(n, Num):
            cell = conductors(d, "service") if field == "size" else n
            words = "conductors" if field == "size" else label(field)
            lines.append(Line((words, cell, n.unit), n.tag))
    return Table("Service conductors", (Column("what"), Column("number", True), Column("unit")), tuple(lines))


def growth(d: Design) -> Table:
    """Room that is left, against the policy of the project."""
    lines = []
    for key in keys(d, "growth"):
        name, r = key.split("/", 1)[1], d.items[key]
        lines.append(Line((name, num(d, f"{key}/spare"), num(d, f"{key}/spare_minimum"), num(d, f"{key}/spare_amperes"),
                           "as the policy asks" if r.ok else "less than the policy asks"), key, "" if r.ok else "fails"))
    columns = (Column("at"), Column("spare over load, %", True), Column("spare over minimum, %", True), Column("spare, A", True),
               Column("policy of the project"))
    return Table("Room for growth", columns, tuple(lines), "A policy of the project, never a rule of the code.")


def paths(d: Design) -> Table:
    """Voltage from the transformer to the farthest outlet of each panel."""
    lines = []
    for key in keys(d, "path"):
        panel, r = key.split("/", 1)[1], d.items[key]
        lines.append(Line((panel, panel_structure(d, panel), num(d, f"{key}/service_volts"), num(d, f"{key}/feeders"),
                           num(d, f"{key}/total"), num(d, f"{key}/from_transformer"), num(d, f"{key}/outlet_volts"),
                           "within the advice" if r.feeders_ok and r.branch_ok and r.total_ok else "over the advice"), key,
                          "" if r.total_ok and r.feeders_ok else "over"))
    columns = (Column("panel"), Column("stands in", rank=3), Column("service, V", True, rank=2), Column("feeders, %", True),
               Column("with branch, %", True), Column("with service, %", True, rank=1), Column("outlet, V", True), Column("drop"))
    return Table("Voltage to the farthest outlet of each panel", columns, tuple(lines),
                 "V on a base of 120 V. The limits are recommendations of notes, kept here as policy of the project.")


def circuits(d: Design) -> list[Table]:
    """Branch circuits by panel."""
    rows = {r.id: r for r in d.estate.loads}
    by: dict[str, list[Line]] = {}
    for key in keys(d, "circuit"):
        name, r = key.split("/", 1)[1], d.items[key]
        row = rows[name]
        many = f"{row.circuits} alike: " if row.circuits > 1 else ""
        bad = not (r.device_ok and r.carries_ok and r.protected)
        by.setdefault(row.panel, []).append(Line((
            name, f"{many}{row.load}", num(d, f"{key}/current"), num(d, f"{key}/device"),
            f"{row.poles}", conductors(d, key), num(d, f"{key}/egc"), num(d, f"{key}/drop")), key, "fails" if bad else ""))
    columns = (Column("circuit"), Column("load"), Column("load, A", True), Column("device, A", True), Column("poles", True),
               Column("conductors"), Column("ground"), Column("drop, %", True))
    return [Table(f"{panel}, {panel_structure(d, panel)}", columns, tuple(lines)) for panel, lines in by.items()]


def expected(d: Design) -> Table:
    """The expected peak, low, typical and high: never a load for conductors."""
    key = next((k for k in d.items if k in ("expected", "expected/service", "expected/estate")), "")
    lines = [Line((words, maybe(d, f"{key}/{a}"), maybe(d, f"{key}/{b}")), f"{key}/{a}") for words, a, b in (
        ("low", "low_kw", "low_kva"), ("typical", "kw", "kva"), ("high", "high_kw", "high_kva")) if key]
    return Table("Expected peak, for the utility", (Column("estimate"), Column("kW", True), Column("kVA", True)), tuple(lines),
                 "A model of how people use things, with its figures stated; it is not the calculated load and sizes nothing.")


# ------------------------------------------------------------------------------------------------- words of the review
def records(title: str, found: Iterable[Any], note: str = "") -> Table:
    """Records of words (assumptions, questions, decisions) as a table, a column for each field."""
    rows = list(found)
    if not rows:
        return Table(title, (), (), note)
    names = rows[0]._fields
    lines = tuple(Line(tuple(_words(getattr(r, f)) for f in names)) for r in rows)
    used = [i for i in range(len(names)) if any(line.cells[i] for line in lines)]
    columns = tuple(Column(names[i].replace("_", " ").strip()) for i in used)
    return Table(title, columns, tuple(Line(tuple(line.cells[i] for i in used)) for line in lines), note)


def _words(x: Any) -> str:
    if isinstance(x, bool):
        return "yes" if x else "no"
    if isinstance(x, tuple):
        return ", ".join(map(str, x))
    return "" if x is None else str(x)


def loud(d: Design) -> tuple[list[Any], list[Any]]:
    """Checks that need a person, and the rest."""
    need = ("fails", "not evaluated", "needs judgement")
    return [c for c in d.checks if c.outcome in need], [c for c in d.checks if c.outcome not in need]


def count_words(checks: Iterable[Any]) -> str:
    """How many of each outcome."""
    return tables.count_words([check.outcome for check in checks])


def not_evaluated(d: Design) -> int:
    return sum(c.outcome == "not evaluated" for c in d.checks)


def shares(d: Design) -> dict[str, float]:
    """Provenance of the connected load in percent, by the source of the figures."""
    return {name: float(share) for name, share in d.shares.items()}


def some(make: Callable[[], Table]) -> Table | None:
    """A table, unless it is empty."""
    table = make()
    return table if table.lines else None
