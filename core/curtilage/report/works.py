"""What is built from the sizes, topic by topic: its tables and drawings, the cautions that bite, and what has no result yet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from curtilage.errors import listed, nearest, refuse
from curtilage.report import (
    on_alternatives,
    on_faults,
    on_grounding,
    on_motors,
    on_network,
    on_pulls,
    on_raceways,
    on_temporary,
    on_utility,
)
from curtilage.report.content import Column, Line, Num, Table, keys, num

if TYPE_CHECKING:
    from curtilage.design import Design


class Topic(NamedTuple):
    """One subject: `name` is the word of the command and the place on the page, `kinds` the items it is made of."""

    name: str
    title: str
    tables: Callable[[Design], list[Table]]
    cautions: tuple[str, ...]
    kinds: tuple[str, ...]
    drawings: Callable[[Design, Mapping[str, str]], list[on_raceways.Drawing]] | None = None
    says: str = ""          # what the drawings show, in one sentence


TOPICS = (
    Topic("faults", "Fault currents, ratings, clearing", on_faults.tables, ("C11", "C12", "C13", "C43"),
          ("transformer", "wire", "fault", "clearing")),
    Topic("network", "Exact voltages", on_network.tables, ("C34",), ("network",)),
    Topic("motors", "Motors and their start", on_motors.tables, ("C37",), ("motor", "start")),
    Topic("utility", "Utility, metering and service arrangement", on_utility.tables, ("C10",),
          ("letter", "candidate", "flicker", "metering", "arrangement")),
    Topic("grounding", "Grounding and bonding", on_grounding.tables, ("C14", "C21"), ("ground", "bond"),
          on_grounding.drawings, "At each structure the bars of neutral (N) and ground (G), the tie between them or the gap, "
          "the equipment ground that comes with the feeder, and the conductor down to each electrode."),
    Topic("raceways", "Raceways and trenches", on_raceways.tables, ("C44",),
          ("raceway", "trench", "cover", "expansion", "alternate", "way", "run", "bound")),
    Topic("pulls", "Pulls, boxes, terminals, framing", on_pulls.tables, ("C16",), ("pull", "box", "lug", "framing")),
    Topic("alternatives", "Other ways to feed a long run", on_alternatives.tables, ("C36",), ("alternative",)),
    Topic("temporary", "Temporary power", on_temporary.tables, ("C24",), ("temporary",)),
)
"""In the order of the report."""


def topic(name: str) -> Topic:
    """One topic by its word; raises `CurtilageError` naming those there are."""
    found = next((t for t in TOPICS if t.name == name), None)
    if found is None:
        names = [t.name for t in TOPICS]
        near = nearest(name, names)
        refuse("topic", f"there is no topic {name!r}", f"the topics are {listed(names)}", f"did you mean {near}?" if near else "")
    return found


def tables(d: Design, t: Topic) -> list[Table]:
    """The tables of a topic that have anything in them, and last what of it has no result."""
    d.works()
    return [x for x in (*t.tables(d), lacking(d, t)) if x.lines]


class Worst(NamedTuple):
    """The worst of one kind: in words, the number, its unit and tag, and what it is held against."""

    words: str
    number: Num
    limit: str


def built(d: Design) -> list[Worst]:
    """In short what is built: the smallest margin of a rating, the longest clearing, the lowest exact voltage."""
    ratings = {d.estate.service.gear.id: d.estate.service.gear.interrupting} | {p.id: p.interrupting for p in d.estate.panels}
    found = []
    at = [(rating / d.value(f"fault/{name}/largest"), name) for name, rating in ratings.items()
          if rating and d.has(f"fault/{name}/largest")]
    if at:
        name = min(at)[1]
        found.append(Worst(f"fault nearest its rating: {name}", num(d, f"fault/{name}/largest"),
                           f"rated {ratings[name]:,.0f} A"))
    times = [(d.value(f"{key}/time"), key) for key in keys(d, "clearing") if d.has(f"{key}/time")]
    if times:
        key = max(times)[1]
        found.append(Worst(f"longest clearing: feeder {key.split('/')[1]}", num(d, f"{key}/time"),
                           f"a bound: {d.items[key].by}"))
    legs = [(d.value(f"{key}/{f}"), key, f) for key in keys(d, "network") for f in ("volts_a", "volts_b") if d.has(f"{key}/{f}")]
    if legs:
        _, key, field = min(legs)
        found.append(Worst(f"lowest exact voltage: {key.split('/')[1]}", num(d, f"{key}/{field}"),
                           f"at least {d.ed.utilization_least:g} V"))
    return found


def lacking(d: Design, t: Topic) -> Table:
    """Items of a topic without a result, each with what is missing or wrong."""
    rows = [Line((key, why)) for key, why in d.lacking.items() if key.split("/")[0] in t.kinds]
    return Table("Without a result", (Column("item", keep=True), Column("why")), tuple(rows),
                 "Each of these is not evaluated until what is missing is stated.")
