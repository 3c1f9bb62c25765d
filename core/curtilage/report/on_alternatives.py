"""Other ways of feeding a long, lightly loaded run: one table for each feeder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import Cell, Column, Line, Table, material, maybe, num

if TYPE_CHECKING:
    from curtilage.design import Design

WORDS = {
    "designed": "as designed",
    "aluminium": "aluminium, by drop",
    "copper": "copper, by drop",
    "smaller-device": "smallest device",
    "ampacity-alone": "by ampacity alone",
}
"""Name of an option in words; a pair of transformers is named by its rating."""


def tables(d: Design) -> list[Table]:
    """The options of every run that is long and lightly loaded, side by side."""
    d.works("alternative")
    feeders = dict.fromkeys(k.split("/")[1] for k in d.late if k.startswith("alternative/"))
    return [t for f in feeders for t in (table(d, f), lasting(d, f), *local(d, f))]


def table(d: Design, f: str) -> Table:
    """The options of one feeder."""
    lines = [line(d, f, k) for k in d.late if k.startswith(f"alternative/{f}/")]
    columns = (Column("way"), Column("device, A", True), Column("wire"), Column("ground", rank=1), Column("drop, %", True),
               Column("far fault, A", True), Column("cleared in, s", True), Column("what it fails"))
    return Table(f"Ways of feeding {f}", columns, tuple(lines),
                 "Drop of run and windings at the calculated load. Times are bounds; never: no trip is promised. A pair of "
                 "transformers brings two bonds and an electrode with it (250.30).")


def lasting(d: Design, f: str) -> Table:
    """What each option takes of metal, and what is lost in it."""
    keys = [k for k in d.late if k.startswith(f"alternative/{f}/")]
    lines = []
    for key in keys:
        name = key.rpartition("/")[2]
        mass = f"mass/{f}/kilograms" if name == "designed" else f"option/{f}/{name}/mass/kilograms"
        lines.append(Line((called(name), maybe(d, mass), maybe(d, f"{key}/losses")), f"{key}/losses" if key in d.items else ""))
    columns = (Column("way"), Column("metal, kg", True), Column("lost in a year, kWh", True))
    return Table(f"Metal and losses of the ways of feeding {f}", columns, tuple(lines),
                 "Metal of conductors only. The energy takes the calculated load as the peak and a share of it as the mean: an "
                 "upper estimate, for comparison. No price is compared.")


def called(name: str) -> str:
    """An option in words."""
    return WORDS.get(name) or f"transformers of {name.partition('-')[2].replace('_', '.')} kVA, up and down"


def local(d: Design, f: str) -> list[Table]:
    """A source at the load, in place of the run."""
    key = f"local/{f}"
    if key not in d.items:
        return []
    rows = (("energy", "energy of a day"), ("solar", "panels"), ("storage", "battery"), ("losses", "lost in it in a year"))
    lines = tuple(Line((words, n, n.unit), n.tag) for field, words in rows for n in (num(d, f"{key}/{field}"),))
    columns = (Column("what"), Column("number", True), Column("unit"))
    return [Table(f"Sun and battery at {f} in place of the run", columns, lines,
                  "An energy balance of the mean load and nothing more: no design of a source. Resistance heat makes it large.")]


def line(d: Design, f: str, key: str) -> Line:
    """One option, or as much of it as there is."""
    name = key.rpartition("/")[2]
    base = f"feeder/{f}" if name == "designed" else f"option/{f}/{name}/feeder"
    there = key in d.items
    laid: Cell = f"{sizes(d, base)} {material(d, base)}" if base in d.items else ""
    return Line((called(name), maybe(d, f"{base}/device"), laid, maybe(d, f"{base}/egc"),
                 num(d, f"{key}/drop") if there else maybe(d, f"{base}/drop"), maybe(d, f"{key}/fault"), time(d, key),
                 failing(d, key)), f"{key}/time" if there else "",
                "" if there and d.items[key].ok else "over")


def time(d: Design, key: str) -> Cell:
    """The longest time in which a far fault is cleared, or that no trip is promised."""
    if key not in d.items:
        return ""
    return num(d, f"{key}/time") if d.items[key].time > 0 else "never"


def sizes(d: Design, base: str) -> str:
    """Sets and size in words."""
    r = d.items[base]
    return f"{r.sets:g} x {r.size}" if r.sets > 1 else str(r.size)


def failing(d: Design, key: str) -> str:
    """What an option fails, in words."""
    if key not in d.items:
        return d.late[key].rpartition(": ")[2] if ": " in d.late[key] else d.late[key]
    r = d.items[key]
    found = (("the drop", r.drop_ok), ("the clearing time", r.clears), ("the margin for growth", r.grows))
    return ", ".join(words for words, ok in found if not ok) or "nothing"
