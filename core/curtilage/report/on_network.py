"""Exact voltages of the network under its calculated load: tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import Cell, Column, Line, Table, num, ordered, panel_structure

if TYPE_CHECKING:
    from curtilage.design import Design

ASSUMED = (
    "Every row behind a feeder of the service draws the same part of its connected load, so that the feeder carries its "
    "calculated load; all of these feeders at once. 120 V circuits take the legs in turn until poles are assigned."
)


def tables(d: Design) -> list[Table]:
    """Voltages node by node from the transformer outward, then the network as a whole; what has no solution says so."""
    d.works("network")
    if "network" not in d.items:
        why = d.late.get("network", "")
        return [Table("Exact voltages", (Column("no result"),), (Line((why,), "", "fails"),))] if why else []
    return [nodes(d), whole(d)]


def nodes(d: Design) -> Table:
    """The state at each node, and the current of the run to it."""
    gear, to = d.estate.service.gear.id, {f.id: f.to for f in d.estate.feeders}
    places = [("transformer", "terminals", 0), (gear, "", 0)]
    places += [(to[name], panel_structure(d, to[name]), depth) for name, depth in ordered(d) if name in to]
    least, most, lines = d.ed.utilization_least, d.ed.utilization_most, []
    for name, where, depth in places:
        key = f"network/{name}"
        if key not in d.items:
            continue
        v = d.items[key]
        inside = least <= min(v.volts_a, v.volts_b) and max(v.volts_a, v.volts_b) <= most
        fields = ("volts_a", "volts_b", "volts_ab", "lowest", "current_a", "current_b", "neutral", "lost")
        cells: list[Cell] = [num(d, f"{key}/{field}") for field in fields]
        lines.append(Line((name, where, *cells), f"{key}/volts_a", "" if inside else "over", depth))
    columns = (
        Column("node"),
        Column("stands in", rank=3),
        Column("L1, V", True),
        Column("L2, V", True),
        Column("L1 to L2, V", True, rank=1),
        Column("lower leg, % of nominal", True, rank=1),
        Column("L1, A", True, rank=2),
        Column("L2, A", True, rank=2),
        Column("neutral, A", True),
        Column("lost on the way, W", True, rank=2),
    )
    return Table("Exact voltages, all feeders at their calculated loads together", columns, tuple(lines), ASSUMED)


def whole(d: Design) -> Table:
    """The network as a whole."""
    words = (("load", "load"), ("lost", "lost in conductors and transformer"), ("lost_part", "... of what the source gives"),
             ("lowest", "lowest voltage of a leg, of nominal"))
    lines = []
    for field, said in words:
        n = num(d, f"network/{field}")
        lines.append(Line((said, n, n.unit), n.tag))
    lines.append(Line(("where", str(d.items["network"].where), ""), "network/where"))
    n = num(d, "network/rounds")
    lines.append(Line(("rounds until it settled", n, ""), n.tag))
    return Table("The network as a whole", (Column("what"), Column("number", True), Column("unit")), tuple(lines))
