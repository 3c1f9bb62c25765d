"""Wires between the nodes; the utility's transformer: its impedances, and the candidates beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.fault.records import Lateral, Run, Supply
from curtilage.calc.fault.transformer import supply
from curtilage.calc.fault.wires import feeder_wire, lateral_wire
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Wires of the service and of every feeder, and the transformer."""
    lateral(d)
    for f in d.estate.feeders:
        wire(d, f.id, f"feeder/{f.id}", f"feeders.{f.id}", f.egc)
    for a in d.estate.sources.alternates if d.estate.sources else ():
        wire(d, a.id, f"alternate/{a.id}", f"sources.alternates.{a.id}", None)
    transformer(d)


def lateral(d: Design) -> None:
    """The service conductors."""
    s = d.items["service"]
    tags = {field: f"service/{field}" for field in ("sets", "size", "neutral")}
    record = Lateral("lateral", s.sets, s.size, s.neutral, d.asks["service"].record.length)
    d.attempt("wire/lateral", Ask(lateral_wire, record, "service.lateral", d.asks["service"].view, {}, tags))


def wire(d: Design, name: str, key: str, home: str, egc: str | None) -> None:
    """The conductors of one feeder, as stated or as chosen; `key` is the item that sized them."""
    if key not in d.items:
        why = d.late.get(key) or f"{name} carries no load, so its conductors are not sized; give it a load or a size"
        d.lack(f"wire/{name}", why)
        return
    r, asked = d.items[key], d.asks[key]
    tags = {field: f"{key}/{field}" for field in ("sets", "size", "neutral")}
    paths: dict[str, str] = {"length": f"{home}.length"}
    if "length" in asked.tags:
        tags["length"] = asked.tags["length"]
    if egc is None:
        tags["ground"] = f"{key}/egc"
    else:
        paths["ground"] = f"{home}.egc"
    record = Run(name, r.sets, r.size, r.neutral, egc or r.egc, asked.record.length)
    d.attempt(f"wire/{name}", Ask(feeder_wire, record, home, asked.view, paths, tags))


def transformer(d: Design) -> None:
    """The transformer as stated, with the utility's letter or what else is known of the network before it."""
    t, home = d.estate.service.transformer, "service.transformer"
    letter, told = t.fault_letter, f"{home}.fault_letter"
    between = ("r_line_cold", "x_line", "r_neutral_cold", "x_neutral")
    if "wire/lateral" not in d.items:
        d.lack("transformer", d.late.get("wire/lateral", "the service conductors are not known"))
        return
    tags = dict(zip(Supply._fields[-4:], (f"wire/lateral/{field}" for field in between), strict=True))
    paths = {field: f"{told}.{name}" for field, name in LETTER.items()} | {"volts": "service.voltage"}
    primary_x_over_r = t.primary_x_over_r
    if primary_x_over_r is None:
        primary_x_over_r, tags["primary_x_over_r"] = d.ed.primary_x_over_r, "rule:primary_x_over_r"
    own = letter is None or letter.x_over_r is None
    if own:
        paths["letter_x_over_r"] = f"{home}.x_over_r"
    record = Supply(
        "transformer",
        t.rating,
        t.impedance,
        t.x_over_r,
        d.volts,
        t.primary or 0.0,
        t.primary_volts or 0.0,
        primary_x_over_r,
        letter.current if letter else 0.0,
        (letter.line_to_neutral or 0.0) if letter else 0.0,
        (letter.least or 0.0) if letter else 0.0,
        t.x_over_r if letter is None or letter.x_over_r is None else letter.x_over_r,
        letter is not None and letter.at == "service gear",
        *(getattr(d.items["wire/lateral"], field) for field in between),
    )
    d.attempt("transformer", Ask(supply, record, home, "ed", paths, tags))


LETTER = {
    "letter": "current",
    "letter_neutral": "line_to_neutral",
    "letter_least": "least",
    "letter_x_over_r": "x_over_r",
    "at_gear": "at",
}
"""Fields of the record that were written in the letter."""
