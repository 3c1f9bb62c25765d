"""The exact voltages of the split-phase network under its calculated load.

What is assumed of the load. Every row behind a feeder of the service draws the same part of its connected load: that part with
which the feeder carries its calculated load. Rows of 240 V hang between the lines; circuits of 120 V take the legs in turn, panel
by panel in the order of the names of rows, beginning with L1, until poles are assigned. All feeders of the service are at their
calculated loads together. The load of a panel is drawn at the panel.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from curtilage.calc.network import voltage as k
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.calc.network.flow import Flow
    from curtilage.calc.network.tree import Network
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

LINE = 150.0
"""Volts from which a row hangs between the lines."""
TERMINALS = "transformer"
POWERS = ("p_1", "q_1", "p_2", "q_2", "p_12", "q_12")
CURRENTS = ("i_1re", "i_1im", "i_2re", "i_2im")
PHASORS = ("v_1re", "v_1im", "v_2re", "v_2im")
OHMS = ("r_line", "x_line", "r_neutral", "x_neutral")
WINDINGS = ("r_source", "x_source", "r_primary", "x_primary", "r_secondary", "x_secondary")
LOADS = "loads"
LIT = ("general", "lighting", "outdoor_lighting", "receptacle")
"""Categories of rows on which lamps may hang."""
TOLERANCE = 1e-13
"""The told voltages are to give back those that have settled within a billionth of a volt."""


def stage(d: Design) -> None:
    """Loads by leg, the solution, then currents inwards and voltages outwards, told."""
    try:
        tree = Fed(d)
    except KeyError as e:
        d.lack("network", f"{e.args[0]} is not known: {d.late.get(e.args[0], 'it was not worked')}")
        return
    parts(d, tree)
    legs(d, tree)
    flow, net = solved(d, tree)
    if not flow.converged:
        d.lack("network", f"{flow.reason} at {flow.node} after {flow.rounds} rounds: no voltage there carries the load")
        for name in tree.nodes:
            d.lack(f"network/{name}", f"the network has no solution: {flow.reason} at {flow.node}")
        return
    at = dict(zip(net.ids, range(len(net.ids)), strict=True))
    for name in reversed(tree.nodes):
        current(d, tree, name, flow.volts[at[name]].tolist())
    terminals(d, tree, flow.terminals.tolist())
    for name in tree.nodes:
        reach(d, tree, name, flow.volts[at[name]].tolist())
    whole(d, tree, flow.rounds)


def outlets(d: Design) -> None:
    """The far end of every branch circuit behind a panel whose voltage is known."""
    lit = {r.id for r in d.tree.rows if r.category in LIT}
    for panel, rows in d.stages.on_panel.items():
        for row in rows if f"legs/{panel}" in d.items and f"network/{panel}" in d.items else ():
            outlet(d, panel, row, row in lit)


class Fed:
    """What is fed in normal operation: nodes from the gear outwards, the run to each, the rows on each."""

    def __init__(self, d: Design) -> None:
        self.gear = d.estate.service.gear.id
        self.wire = {self.gear: "wire/lateral"}
        self.start = {self.gear: TERMINALS}
        self.first: dict[str, str] = {self.gear: ""}  # node -> the feeder of the service above it
        for key in ("transformer", "wire/lateral"):
            if key not in d.items:
                raise KeyError(key)
        panels = sorted(d.tree.feeder_of, key=lambda p: len(d.tree.way(p)))
        for panel in panels:
            way = d.tree.way(panel)
            f = way[-1]
            if way[0].from_ in d.tree.mains and d.tree.branches[f.id].rows:
                if f"wire/{f.id}" not in d.items:
                    raise KeyError(f"wire/{f.id}")
                self.wire[panel], self.first[panel] = f"wire/{f.id}", way[0].id
                self.start[panel] = self.gear if len(way) == 1 else f.from_
        self.nodes = tuple(self.wire)
        self.rows = self._rows(d)
        self.children: dict[str, list[str]] = {}
        for panel, start in self.start.items():
            self.children.setdefault(start, []).append(panel)

    def _rows(self, d: Design) -> dict[str, list[k.OnLegs]]:
        """Rows of each node, by leg; circuits of 120 V take turns in the order of their names, not of the load list."""
        on: dict[str, list[k.OnLegs]] = {}
        turns: dict[str, int] = {}
        for r in sorted(d.tree.rows, key=lambda r: r.id):
            if r.va and r.panel in self.wire:
                on.setdefault(r.panel, []).append(on_legs(r, turns))
        return on


def on_legs(r: Load, turns: dict[str, int]) -> k.OnLegs:
    """A row with its parts on L1, on L2 and across; `turns`: circuits of 120 V so far, by panel."""
    if r.volts >= LINE:
        return k.OnLegs(r.id, r.va, r.pf, 0.0, 0.0, 1.0)
    if r.poles == 2:
        return k.OnLegs(r.id, r.va, r.pf, 0.5, 0.5, 0.0)
    n, before = max(r.circuits, 1), turns.get(r.panel, 0)
    turns[r.panel] = before + n
    first = (n + 1 - before % 2) // 2
    return k.OnLegs(r.id, r.va, r.pf, first / n, (n - first) / n, 0.0)


def parts(d: Design, tree: Fed) -> None:
    """What part of its connected load every row behind a feeder of the service draws."""
    behind: dict[str, list[k.OnLegs]] = {}
    for panel, rows in tree.rows.items():
        behind.setdefault(tree.first[panel], []).extend(rows)
    for feeder, found in behind.items():
        load = d.chosen[feeder]
        record = k.Connected(feeder, d.items[load].total, tuple(found))
        d.attempt(f"loading/{feeder}", Ask(k.loading, record, LOADS, "", {"rows": LOADS}, {"total": f"{load}/total"}))


def legs(d: Design, tree: Fed) -> None:
    """What the rows of each panel draw on each leg."""
    for panel, rows in tree.rows.items():
        tag = f"loading/{tree.first[panel]}/part"
        record = k.Own(panel, d.value(tag), tuple(rows))
        d.attempt(f"legs/{panel}", Ask(k.legs, record, LOADS, "", {"rows": LOADS}, {"part": tag}))


def solved(d: Design, tree: Fed) -> tuple[Flow, Network]:
    """The solution: numpy is imported here, when somebody looks."""
    from curtilage.calc.network.flow import solve
    from curtilage.calc.network.records import Branch, Source
    from curtilage.calc.network.tree import Network

    t = d.items["transformer"]
    source = Source(d.volts / 2, t.r_source + t.r_primary, t.x_source + t.x_primary, t.r_secondary, t.x_secondary)
    branches = []
    for node, wire in tree.wire.items():
        start = "" if tree.start[node] == TERMINALS else tree.start[node]
        branches.append(Branch(node, start, *(getattr(d.items[wire], o) for o in OHMS)))
    net = Network(source, branches)
    powers = [own(d, node) for node in net.ids]
    return solve(net, [[complex(*p[i : i + 2]) for i in (0, 2, 4)] for p in powers], TOLERANCE), net


def own(d: Design, node: str) -> tuple[float, ...]:
    """Watts and vars of the rows on a node, leg by leg."""
    found = d.items.get(f"legs/{node}")
    return (0.0,) * len(POWERS) if found is None else tuple(found)


def parted(volts: Iterable[complex]) -> list[float]:
    """The parts of L1 and L2, along and across."""
    return [x for v in volts for x in (v.real, v.imag)]


def current(d: Design, tree: Fed, node: str, volts: list[complex]) -> None:
    """Currents of the run to a node; those of the feeders that start there stand already."""
    feeders, tags = [], {}
    for panel in tree.children.get(node, ()):
        feeders.append(k.Fed(panel, *(getattr(d.items[f"current/{panel}"], i) for i in CURRENTS)))
        tags[panel] = {i: f"current/{panel}/{i}" for i in CURRENTS}
    linked: dict[str, Any] = {"feeders": tags}
    if f"legs/{node}" in d.items:
        linked |= {p: f"legs/{node}/{p}" for p in POWERS}
    record = k.Drawn._make((node, *own(d, node), *parted(volts), tuple(feeders)))
    paths = {name: LOADS for name in (*PHASORS, *POWERS)}
    d.attempt(f"current/{node}", Ask(k.currents, record, LOADS, "", paths, linked))


def terminals(d: Design, tree: Fed, volts: list[complex]) -> None:
    """The transformer under the currents of the whole estate."""
    t, i = d.items["transformer"], d.items[f"current/{tree.gear}"]
    record = k.Behind._make((TERMINALS, d.volts / 2, *(getattr(t, w) for w in WINDINGS), *i, *map(abs, volts), d.volts / 2))
    tags = {w: f"transformer/{w}" for w in WINDINGS} | {c: f"current/{tree.gear}/{c}" for c in CURRENTS}
    paths = {"volts": "service.voltage", "nominal": "service.voltage", "settled_1": LOADS, "settled_2": LOADS}
    d.attempt(f"network/{TERMINALS}", Ask(k.terminals, record, "service.transformer", "", paths, tags))


def reach(d: Design, tree: Fed, node: str, volts: list[complex]) -> None:
    """One run: voltages at its end, by the voltages at its start and its currents."""
    start, wire, current = f"network/{tree.start[node]}", tree.wire[node], f"current/{node}"
    v, w = d.items[start], d.items[wire]
    given = (*(getattr(v, p) for p in PHASORS), *(getattr(w, o) for o in OHMS), *d.items[current], *map(abs, volts))
    record = k.Reach._make((node, *given, d.volts / 2))
    tags = {p: f"{start}/{p}" for p in PHASORS} | {o: f"{wire}/{o}" for o in OHMS} | {c: f"{current}/{c}" for c in CURRENTS}
    paths = {"nominal": "service.voltage", "settled_1": LOADS, "settled_2": LOADS}
    d.attempt(f"network/{node}", Ask(k.reach, record, LOADS, "", paths, tags))


def whole(d: Design, tree: Fed, rounds: int) -> None:
    """Load, losses and the lowest voltage."""
    fields, powers = ("lowest", "lost"), ("p_1", "p_2", "p_12")
    items = {node: d.items[f"network/{node}"] for node in tree.nodes}
    places = tuple(k.Place(node, at.lowest, at.lost) for node, at in items.items())
    loads = tuple(k.Load(panel, *(d.value(f"legs/{panel}/{p}") for p in powers)) for panel in tree.rows)
    record = k.Places("network", places, loads, d.items[f"network/{TERMINALS}"].lost, float(rounds))
    linked: dict[str, Any] = {
        "nodes": {node: {f: f"network/{node}/{f}" for f in fields} for node in items},
        "loads": {panel: {p: f"legs/{panel}/{p}" for p in powers} for panel in tree.rows},
        "in_transformer": f"network/{TERMINALS}/lost",
    }
    d.attempt("network", Ask(k.whole, record, LOADS, "", {"rounds": LOADS}, linked))


def outlet(d: Design, panel: str, row: str, lit: bool) -> None:
    """The far end of one branch circuit, the fullest of its row at its whole load; on either leg, until poles are assigned."""
    asked, circuit, at = d.asks[f"circuit/{row}"], d.items[f"circuit/{row}"], d.items[f"network/{panel}"]
    r, across = asked.record, asked.record.volts >= LINE
    legs = ("volts_ab",) * 2 if across else sorted(("volts_a", "volts_b"), key=lambda leg: getattr(at, leg))
    nominal, low, high = d.volts if across else d.volts / 2, *(getattr(at, leg) for leg in legs)
    record = k.Circuit(row, r.va, r.pf, circuit.size, r.length, low, high, nominal, lit)
    tags = {"volts": f"network/{panel}/{legs[0]}", "volts_other": f"network/{panel}/{legs[1]}", "size": f"circuit/{row}/size"}
    if "va" in asked.tags:
        tags["va"] = asked.tags["va"]
    paths = {"nominal": "service.voltage", "lighting": f"loads.{row}.category"}
    d.attempt(f"outlet/{row}", Ask(k.outlet, record, f"loads.{row}", asked.view, paths, tags))
