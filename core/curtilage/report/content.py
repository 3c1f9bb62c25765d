"""What a report says, apart from how it is set: tables of words and numbers, each number with the tag that opens it.

The terminal, the page and the text file set the same tables. A share of a limit is put into words; a number that a stop
withholds is left out and its place stays empty.
"""
from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.look import tables
from curtilage.report.numbers import in_system, shown, unit_shown
from curtilage.review import asked

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.values.told import Told


class Num(NamedTuple):
    """A number of the design as it is shown: `tag` opens its working. Without a text it is withheld."""

    tag: str
    shown: str
    unit: str
    value: Any = None

    def __str__(self) -> str:
        return self.shown or "[withheld]"


Cell = str | Num


class Column(NamedTuple):
    """A column of a table. Where there is little room, columns of a higher `rank` are left out first; `keep` is never wrapped."""

    head: str
    numeric: bool = False
    rank: int = 0
    keep: bool = False


class Line(NamedTuple):
    """A row; `tag` is what `curtilage explain` opens for the whole row, `kind` says total or an outcome, `depth` indents."""

    cells: tuple[Cell, ...]
    tag: str = ""
    kind: str = ""
    depth: int = 0


class Table(NamedTuple):
    """A table with a title, and a sentence that belongs to it."""

    title: str
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    note: str = ""


def num(d: Design, tag: str) -> Num:
    """A number of the design, rounded for show; withheld where a stop says so."""
    n, field = d.number(tag), tag.rpartition("/")[2]
    value, unit = in_system(n.value, n.unit, d.estate.units)
    if tag.rpartition("/")[0] in d.withheld:
        return Num(tag, "", unit_shown(unit))
    return Num(tag, shown(value, unit, field), unit_shown(unit), n.value)


def given(d: Design, value: float, unit: str) -> tuple[str, str]:
    """An input as the reader's system shows it: figures and unit."""
    found, to = in_system(value, unit, d.estate.units)
    return shown(found, to), unit_shown(to)


def unit_of(d: Design, unit: str) -> str:
    """What a unit becomes in the reader's system."""
    return given(d, 1.0, unit)[1]


def maybe(d: Design, tag: str) -> Cell:
    """The same, or nothing where the design has no such number."""
    return num(d, tag) if d.has(tag) else ""


def keys(d: Design, kind: str) -> list[str]:
    """Items of one kind, in the order of design."""
    d.works(kind)
    return [k for k in d.items if k.startswith(f"{kind}/")]


def is_item(d: Design, name: str) -> bool:
    """Whether a name is that of a whole item, also of one that is worked when somebody asks."""
    d.works(name.split("/")[0])
    return name in d.items


def told_fields(d: Design, key: str) -> dict[str, Told]:
    """Every number of an item, told; those that are no lines of its method as they are."""
    found = {f: getattr(d.items[key], f) for f in d.items[key]._fields}
    return {f: d.told(f"{key}/{f}") for f, x in found.items() if not isinstance(x, tuple)}


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
def ordered(d: Design) -> list[tuple[str, int]]:
    """Mains and everything under them, from the service outward, with how deep each stands."""
    out: list[tuple[str, int]] = []

    def below(name: str, depth: int) -> None:
        branch = d.tree.mains.get(name) or d.tree.branches.get(name)
        if branch is not None:
            out.append((name, depth))
            for child in branch.children:
                below(child, depth + 1)
    for name in d.tree.mains:
        below(name, 0)
    return out


def panel_structure(d: Design, panel: str) -> str:
    """The name of the structure that a panel, or a main, stands in."""
    ids = {p.id: p.structure for p in d.estate.panels}
    names = {s.id: s.name for s in d.estate.structures}
    return names.get(ids.get(panel, ""), "")


def feeder_title(d: Design, name: str) -> str:
    """A feeder in words: where it goes, and the panel it feeds."""
    f = next((f for f in d.estate.feeders if f.id == name), None)
    if f is None:
        return name
    place = panel_structure(d, f.to)
    return f"{place}, panel {f.to}" if place else f"panel {f.to}"


OWN = {"-own": "rows on its own panel", "-part": "rows of a dwelling on its own panel", "-rest": "other rows on its own panel"}
"""What stands beside further branches on a panel, by how its name ends."""


def branch_title(d: Design, name: str) -> str:
    """A feeder, main or the service in words."""
    main = next((m for m in d.estate.service.mains if m.id == name), None)
    if main is not None:
        return f"main {name}" + (f": {main.note}" if main.note else "")
    home = d.stages.loads.houses.get(name)
    if home is not None and home.branch != name:
        structure = next(s.name for s in d.estate.structures if s.id == home.structure)
        return f"{branch_title(d, home.branch)}: {structure} itself"
    for tail, words in OWN.items():
        if name.endswith(tail):
            return f"{branch_title(d, name.removesuffix(tail))}, {words}"
    return "the whole service" if name == "service" else feeder_title(d, name)


def conductors(d: Design, key: str) -> Cell:
    """Sets and size as one number: "2 x 500 Al"."""
    size, sets = num(d, f"{key}/size"), getattr(d.items[key], "sets", 1)
    text = f"{size.shown} {material(d, key)}" if size.shown else ""
    return Num(size.tag, f"{sets:g} x {text}" if text and sets and sets > 1 else text, "", size.value)


def length(d: Design, name: str) -> Cell:
    """The length of a feeder: of its route, or as stated."""
    if f"route/{name}" in d.items:
        return num(d, f"route/{name}/length")
    f = next((f for f in d.estate.feeders if f.id == name), None)
    return given(d, f.length, "ft")[0] if f is not None and f.length is not None else ""


def feet(d: Design, name: str) -> float:
    """The length of a feeder, ft, whatever the reader's system."""
    if f"route/{name}" in d.items:
        return float(d.items[f"route/{name}"].length)
    return next((f.length or 0.0 for f in d.estate.feeders if f.id == name), 0.0)


# ------------------------------------------------------------------------------------------------- words of the review
def records(title: str, found: Iterable[Any], note: str = "") -> Table:
    """Records of words (assumptions, questions, decisions) as a table, a column for each field; tags are left out."""
    rows = list(found)
    if not rows:
        return Table(title, (), (), note)
    names = [f for f in rows[0]._fields if f not in ("tags", "tag")]
    lines = [tuple(_words(getattr(r, f)) for f in names) for r in rows]
    used = [i for i in range(len(names)) if any(line[i] for line in lines)]
    columns = tuple(Column(names[i].replace("_", " ").strip()) for i in used)
    return Table(title, columns, tuple(Line(tuple(line[i] for i in used)) for line in lines), note)


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
    """How many checks have no answer."""
    return sum(c.outcome == "not evaluated" for c in d.checks)


def not_looked_at() -> str:
    """What no check of this version asks about: it has no outcome, and least of all a good one."""
    subjects = ", ".join(asked.not_looked_at())
    return f"Not looked at by this version, so neither passed nor failed: {subjects}." if subjects else ""


def shares(d: Design) -> dict[str, float]:
    """Provenance of the connected load in percent, by the source of the figures."""
    return {name: float(share) for name, share in d.shares.items()}


def variant(d: Design) -> str:
    """The name of the variant that a page shows."""
    return d.variant


def edition(d: Design) -> str:
    """The title of the edition, with a local amendment before it."""
    return ", with ".join(reversed(d.ed.layers[:2])) if d.estate.local else str(d.ed.title)


def amendments(d: Design) -> str:
    """What the estate file says about local amendments."""
    return d.estate.amendments or "none stated"
