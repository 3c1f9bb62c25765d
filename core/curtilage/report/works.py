"""What is built from the sizes, topic by topic: its tables and drawings, the cautions that bite, and what has no result yet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import itemgetter
from typing import TYPE_CHECKING, Any, NamedTuple

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
from curtilage.report.content import Column, Line, Num, Table, num

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
ANEW = (
    Topic("arrangements", "Other arrangements of the service side by side", lambda d: [on_utility.side_by_side(d)], ("C10",), ()),
)
"""Topics of which each line is a design of its own: they take a while and are shown when they are asked for alone."""


def topic(name: str) -> Topic:
    """One topic by its word; raises `CurtilageError` naming those there are."""
    found = next((t for t in (*TOPICS, *ANEW) if t.name == name), None)
    if found is None:
        names = [t.name for t in (*TOPICS, *ANEW)]
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


def extremes(values: Mapping[str, Any], gear: str) -> dict[str, str]:
    """What a reader looks for first in what is built from the sizes: words and the tag of the number; `gear` is the gear's id.

    Only what `values` has, a design's or a record's numbers by tag. Ratings are held against the fault as a part of themselves.
    """
    def of(kind: str, *fields: str) -> list[tuple[Any, str]]:
        return [(x, tag) for tag, x in values.items() if tag.startswith(f"{kind}/") and tag.rpartition("/")[2] in fields]

    first = itemgetter(0)          # of equals the one that is designed first
    near = [(left / values[f"{tag.rpartition('/')[0]}/interrupting"], tag) for left, tag in of("rated", "left")]
    at_gear, nearest_to = f"fault/{gear}/largest", min(near, key=first)[1].split("/")[1] if near else ""
    legs, times, changes = of("network", "volts_a", "volts_b"), of("clearing", "time"), of("flicker", "change")
    found = {
        "fault at the gear": at_gear if at_gear in values else "",
        "fault nearest its rating": f"fault/{nearest_to}/largest" if near else "",
        "longest clearing": max(times, key=first)[1] if times else "",
        "lowest exact voltage": min(legs, key=first)[1] if legs else "",
        "lost in the network": "network/lost" if "network/lost" in values else "",
        "largest change of voltage by a start": max(changes, key=first)[1] if changes else "",
    }
    return {words: tag for words, tag in found.items() if tag}


def built(d: Design) -> list[Worst]:
    """In short what is built: the smallest margin of a rating, the longest clearing, the lowest exact voltage."""
    d.works()
    found, tags = [], extremes(d.values(), d.estate.service.gear.id)
    limits: dict[str, Callable[[str], str]] = {
        "fault nearest its rating": lambda name: f"rated {d.value(f'rated/{name}/interrupting'):,.0f} A",
        "longest clearing": lambda name: f"a bound: {d.items[f'clearing/{name}'].by}",
        "lowest exact voltage": lambda name: f"at least {d.ed.utilization_least:g} V",
    }
    for words, limit in limits.items():
        if words in tags:
            kind, name = tags[words].split("/")[:2]
            found.append(Worst(f"{words}: {'feeder ' if kind == 'clearing' else ''}{name}", num(d, tags[words]), limit(name)))
    return found


def lacking(d: Design, t: Topic) -> Table:
    """Items of a topic without a result, each with what is missing or wrong."""
    rows = [Line((key, why)) for key, why in d.lacking.items() if key.split("/")[0] in t.kinds]
    return Table("Without a result", (Column("item", keep=True), Column("why")), tuple(rows),
                 "Each of these is not evaluated until what is missing is stated.")
