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
    return [nodes(d), outlets(d), whole(d)]


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


def outlets(d: Design) -> Table:
    """The branch circuit with the lowest voltage of each panel."""
    lines = []
    for p in d.estate.panels:
        lacking = d.stages.unmeasured(p.id)
        rows = [r for r in d.stages.on_panel.get(p.id, ()) if f"outlet/{r}" in d.items and r not in lacking]
        if rows:
            row = min(rows, key=lambda r: float(d.items[f"outlet/{r}"].on_base))
            key = f"outlet/{row}"
            o = d.items[key]
            kind = "" if o.in_range else "over" if o.in_range_other else "fails"
            word = "in the range" if o.in_range else "on the other leg alone" if o.in_range_other else "below the range"
            lines.append(Line((p.id, row, num(d, f"{key}/on_base"), num(d, f"{key}/on_other"), word), f"{key}/on_base", kind))
    columns = (Column("panel"), Column("circuit"), Column("lower leg, V", True), Column("other leg, V", True), Column("outcome"))
    return Table("Lowest voltage at the far end of the branch circuits of each panel", columns, tuple(lines),
                 "On a base of 120 V; the circuit at its whole load, its panel at its exact voltage.")


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
