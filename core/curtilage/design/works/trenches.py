"""What runs in each trench of the site graph: raceways by what they are for, against its ducts and its length."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.raceways.records import Duct, Section
from curtilage.calc.raceways.trench import trench
from curtilage.design.ask import Ask
from curtilage.design.works.laid import Planned, home, planned, way

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.later import Provision
    from curtilage.model.site import Trench

FOR_LATER = ("raceway", "sleeve", "conductor")
"""Kinds of provision that take a duct."""


def stage(d: Design) -> None:
    """Every trench that is not for gas or water alone."""
    graph = d.estate.site_graph
    if graph is None:
        return
    runs = planned(d)
    later = [(v, provided(d, v)) for v in d.estate.provisions if v.kind in FOR_LATER and v.use not in ("gas", "water")]
    for t in graph.trenches:
        if t.use in ("power", "comm", "both"):
            section(d, t, runs, later)


def provided(d: Design, v: Provision) -> tuple[str, ...]:
    """The trenches of a provision between two places; none where it stays in one structure."""
    if v.from_ is None or v.to is None:
        return ()
    return way(d, home(d.estate, v.from_), home(d.estate, v.to), "comm" if v.use == "comm" else "power")[0]


def section(d: Design, t: Trench, runs: tuple[Planned, ...], later: list[tuple[Provision, tuple[str, ...]]]) -> None:
    """One trench."""
    ducts: dict[str, list[Duct]] = {"power": [], "comm": [], "spare": []}
    tags: dict[str, dict[str, Any]] = {"power": {}, "comm": {}, "spare": {}}
    for p in runs:
        if t.id in p.way:
            use = p.use if p.use in ("power", "comm") and (p.stated is None or p.stated.members) else "spare"
            key = f"raceway/{p.id}"
            for n in range(1, p.alike + 1):
                name = p.id if p.alike == 1 else f"{p.id}.{n}"
                ducts[use].append(Duct(name, use, d.items[key].size if key in d.items else ""))
                if key in d.items:
                    tags[use][name] = {"size": f"{key}/size"}
    for v, trenches in later:
        if t.id in trenches:
            ducts["spare"] += [Duct(f"{v.id}.{n}" if v.count > 1 else v.id, "spare", v.size or "") for n in range(1, v.count + 1)]
    at = d.estate.site_graph.nodes if d.estate.site_graph else {}
    located = t.from_ in at and t.to in at
    a, b = (at[t.from_], at[t.to]) if located else ((0.0, 0.0), (0.0, 0.0))
    record = Section(t.id, t.ducts, tuple(ducts["power"]), tuple(ducts["comm"]), tuple(ducts["spare"]), t.length, t.rise,
                     a[0], a[1], b[0], b[1], located, t.separation or 0.0)
    path = f"site_graph.trenches.{t.id}"
    nodes = {"east_a": f"site_graph.nodes.{t.from_}", "north_a": f"site_graph.nodes.{t.from_}",
             "east_b": f"site_graph.nodes.{t.to}", "north_b": f"site_graph.nodes.{t.to}", "located": "site_graph.nodes"}
    d.attempt(f"trench/{t.id}", Ask(trench, record, path, "ed", nodes | {"parted": f"{path}.separation"}, tags))
