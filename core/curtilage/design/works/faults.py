"""Available fault currents at every bus and device, the largest and the least."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.fault.chain import node, terminals
from curtilage.calc.fault.records import Node, Terminals
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.design.design import Design

SEEN = ("r_ll", "x_ll", "r_ln", "x_ln", "r_ll_least", "x_ll_least", "r_ln_least", "x_ln_least")
TO_GROUND = ("r_lg", "x_lg")
WIRE = ("r_line", "x_line", "r_neutral", "x_neutral", "r_ground", "x_ground", "r_line_cold", "r_neutral_cold")
TERMINALS = "terminals"
"""Name of the point at the transformer, where the chain begins."""


def stage(d: Design) -> None:
    """From the terminals to the gear, along every feeder to its panel, and the buses beside the gear."""
    gear = d.estate.service.gear.id
    if "transformer" not in d.items:
        d.lack(f"fault/{gear}", "the impedance of the transformer is not known")
        return
    t = d.items["transformer"]
    tags = {field: f"transformer/{field}" for field in SEEN}
    record = Terminals(TERMINALS, d.volts, *(getattr(t, field) for field in SEEN))
    d.attempt(f"fault/{TERMINALS}", Ask(terminals, record, "service.transformer", "", {"volts": "service.voltage"}, tags))
    point(d, gear, TERMINALS, "lateral", "service.gear")
    for m in d.estate.service.mains:
        below(d, m.id, gear)
    for b in (*d.estate.sources.buses, *d.estate.sources.transfers) if d.estate.sources else ():
        beside(d, b.id, gear)


def below(d: Design, start: str, at: str) -> None:
    """Every panel fed from a main or a panel; `at` is the point whose fault is known."""
    for f in d.estate.feeders:
        if f.from_ == start and f"fault/{f.to}" not in d.late:
            point(d, f.to, at, f.id, f"panels.{f.to}")
            below(d, f.to, f.to)


def point(d: Design, name: str, before: str, wire: str, home: str) -> None:
    """One point at the end of a run; of service conductors the neutral is the way back for a fault to ground."""
    up, laid = d.items.get(f"fault/{before}"), d.items.get(f"wire/{wire}")
    if up is None or laid is None:
        what = f"wire/{wire}" if laid is None else f"fault/{before}"
        d.lack(f"fault/{name}", d.late.get(what) or f"{what} is not known")
        return
    back = {"r_ground": "r_neutral", "x_ground": "x_neutral"} if wire == "lateral" else {}
    seen = (*SEEN, *TO_GROUND)
    tags = {field: f"fault/{before}/{field}" for field in seen}
    tags |= {field: f"wire/{wire}/{back.get(field, field)}" for field in WIRE}
    record = Node(name, d.volts, *(getattr(up, field) for field in seen), *(getattr(laid, back.get(x, x)) for x in WIRE))
    d.attempt(f"fault/{name}", Ask(node, record, home, "", {"volts": "service.voltage"}, tags))


def beside(d: Design, name: str, gear: str) -> None:
    """A bus or transfer switch without stated conductors: the fault at the gear is its bound."""
    up = d.items.get(f"fault/{gear}")
    if up is None:
        d.lack(f"fault/{name}", "the fault at the service gear is not known")
        return
    tags = {field: f"fault/{gear}/{field}" for field in (*SEEN, *TO_GROUND)}
    nothing = (0.0,) * len(WIRE)
    record = Node(name, d.volts, *(getattr(up, field) for field in (*SEEN, *TO_GROUND)), *nothing)
    d.attempt(f"fault/{name}", Ask(node, record, "sources", "", {"volts": "service.voltage"}, tags))
