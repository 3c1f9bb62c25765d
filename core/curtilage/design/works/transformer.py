"""Wires between the nodes; the utility's transformer: its impedances, and the candidates beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.fault.records import Lateral, Run
from curtilage.calc.fault.wires import feeder_wire, lateral_wire
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder


def stage(d: Design) -> None:
    """Wires of the service and of every feeder."""
    lateral(d)
    for f in d.estate.feeders:
        wire(d, f)


def lateral(d: Design) -> None:
    """The service conductors."""
    s = d.items["service"]
    tags = {field: f"service/{field}" for field in ("sets", "size", "neutral")}
    record = Lateral("lateral", s.sets, s.size, s.neutral, d.asks["service"].record.length)
    d.attempt("wire/lateral", Ask(lateral_wire, record, "service.lateral", d.asks["service"].view, {}, tags))


def wire(d: Design, f: Feeder) -> None:
    """The conductors of one feeder, as stated or as chosen."""
    key, home = f"feeder/{f.id}", f"feeders.{f.id}"
    if key not in d.items:
        d.lack(f"wire/{f.id}", f"feeder {f.id} carries no load, so its conductors are not sized; give it a load or a size")
        return
    r, asked = d.items[key], d.asks[key]
    tags = {field: f"{key}/{field}" for field in ("sets", "size", "neutral")}
    paths: dict[str, str] = {"length": f"{home}.length"}
    if "length" in asked.tags:
        tags["length"] = asked.tags["length"]
    if f.egc is None:
        tags["ground"] = f"{key}/egc"
    else:
        paths["ground"] = f"{home}.egc"
    record = Run(f.id, r.sets, r.size, r.neutral, f.egc or r.egc, asked.record.length)
    d.attempt(f"wire/{f.id}", Ask(feeder_wire, record, home, asked.view, paths, tags))
