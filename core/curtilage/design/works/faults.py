"""Available fault currents at every bus and device, the largest and the least."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.fault.chain import node, terminals
from curtilage.calc.fault.margin import margin, withstands
from curtilage.calc.fault.records import Equipment, Gear, Node, Terminals
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
    headroom(d, gear)
    for m in d.estate.service.mains:
        below(d, m.id, gear)
    if d.estate.sources:
        for b in (*d.estate.sources.buses, *d.estate.sources.transfers):
            beside(d, b.id, gear)
        alternates(d, gear)
    ratings(d)


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


def alternates(d: Design, gear: str) -> None:
    """The far end of every alternate feeder while the utility carries the bus it starts at; a panel with no other feeder, too."""
    assert d.estate.sources is not None
    for a in d.estate.sources.alternates:
        start = a.from_ if f"fault/{a.from_}" in d.items else gear
        home = f"sources.alternates.{a.id}"
        point(d, a.id, start, a.id, home)
        if f"fault/{a.to}" not in d.late:
            point(d, a.to, start, a.id, home)


def headroom(d: Design, gear: str) -> None:
    """How far the transformer may change before the rating of the gear is too small."""
    if f"fault/{gear}" not in d.items:
        d.lack(f"margin/{gear}", "the fault at the service gear is not known")
        return
    own, t = d.estate.service.gear, d.estate.service.transformer
    tags = {field: f"transformer/{field}" for field in ("r_full", "x_full", "r_half", "x_half")}
    between = {"r_line": "r_line_cold", "x_line": "x_line", "r_neutral": "r_neutral_cold", "x_neutral": "x_neutral"}
    tags |= {field: f"wire/lateral/{name}" for field, name in between.items()}
    numbers = (float(d.value(tag)) for tag in tags.values())
    record = Gear(gear, own.interrupting, d.volts, t.rating, t.impedance, *numbers)
    home = "service.transformer"
    paths = {"rating": f"{home}.rating", "impedance": f"{home}.impedance", "volts": "service.voltage"}
    d.attempt(f"margin/{gear}", Ask(margin, record, "service.gear", "", paths, tags))


def ratings(d: Design) -> None:
    """Every rating that is stated against the fault there: of a panel by the supply that brings most."""
    rated(d, d.estate.service.gear.id, "service.gear", d.estate.service.gear.interrupting)
    for p in d.estate.panels:
        rated(d, p.id, f"panels.{p.id}", p.interrupting)
    if d.estate.sources:
        for b in d.estate.sources.buses:
            rated(d, b.id, f"sources.buses.{b.id}", b.interrupting)
        for t in d.estate.sources.transfers:
            rated(d, t.id, f"sources.transfers.{t.id}", t.interrupting)


def strongest(d: Design, name: str) -> str:
    """The point that brings most to a panel: its own, or the end of an alternate feeder while the utility carries its bus."""
    others = [a.id for a in d.estate.sources.alternates if a.to == name] if d.estate.sources else []
    by = [n for n in (name, *others) if f"fault/{n}" in d.items]
    return max(by, key=lambda n: float(d.items[f"fault/{n}"].largest), default=name)


def rated(d: Design, name: str, home: str, rating: float | None) -> None:
    """One rating."""
    point = f"fault/{strongest(d, name)}"
    if point in d.items and rating is not None:
        record = Equipment(name, rating, d.items[point].largest)
        d.attempt(f"rated/{name}", Ask(withstands, record, home, "", {}, {"largest": f"{point}/largest"}))
