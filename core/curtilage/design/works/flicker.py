"""Flicker of each motor worth asking about, the transformers beside each other, and the figures of the load letter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.fault.transformer import supply
from curtilage.calc.utility.candidates import Candidate, candidate
from curtilage.calc.utility.flicker import Starting, flicker
from curtilage.calc.utility.letter import Asked, letter
from curtilage.design.ask import Ask
from curtilage.editions.shapes import number

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

DRAWN = "drawn"
"""The transformer of the design, as one of the candidates."""
PARTS = ("r_full", "x_full", "r_ll", "x_ll", "r_ln", "x_ln", "r_ll_least", "x_ll_least", "r_ln_least", "x_ln_least")
WIRES = ("r_line", "x_line", "x_neutral", "r_line_cold", "r_neutral_cold")


def motors(d: Design) -> list[Load]:
    """Rows whose start is known or should be, of a horsepower worth asking about or a compressor; largest current first."""
    least = d.ed.flicker_motor_from
    rows = [r for r in d.tree.rows if f"start/{r.id}" in d.items or f"start/{r.id}" in d.late]
    big = [r for r in rows if not r.hp or number(r.hp) >= least]
    return sorted(big, key=lambda r: (-starting(d, r), r.id))


def starting(d: Design, r: Load) -> float:
    """The current of a row while it starts, in the terms of the lines; 0 where it is not known."""
    ask = d.asks.get(f"start/{r.id}")
    return float(ask.record.current) * r.volts / d.volts if ask else 0.0


def stage(d: Design) -> None:
    """Flicker by motor, candidates, letter."""
    for r in motors(d):
        change(d, r)
    candidates(d)
    figures(d)


def change(d: Design, r: Load) -> None:
    """The flicker of one motor."""
    key = f"flicker/{r.id}"
    for needed in (f"start/{r.id}", "transformer", "wire/lateral"):
        if needed not in d.items:
            d.lack(key, d.late.get(needed) or f"{needed} is not known")
            return
    asked = d.asks[f"start/{r.id}"]
    lines = r.poles != 1
    seen, back = ("ll_least", "line") if lines else ("ln_least", "neutral")
    t, w, f = d.items["transformer"], d.items["wire/lateral"], d.estate.service.flicker
    tags: dict[str, Any] = {x: v for x, v in asked.tags.items() if x in ("current", "pf")}
    tags |= {"running": f"circuit/{r.id}/current", "r_supply": f"transformer/r_{seen}", "x_supply": f"transformer/x_{seen}"}
    rule = {"at_gear": "at", "limit": "limit", "limit_starts": "starts"}
    paths = {field: f"service.flicker.{name}" if f else "service" for field, name in rule.items()}
    paths |= {"volts": f"loads.{r.id}.volts", "r_lateral": "service.lateral", "x_lateral": "service.lateral"}
    paths |= {x: p for x, p in asked.paths.items() if x == "current"}
    record = Starting(
        r.id,
        r.volts,
        asked.record.current,
        d.items[f"circuit/{r.id}"].current,
        asked.record.pf,
        r.starts or 0.0,
        getattr(t, f"r_{seen}"),
        getattr(t, f"x_{seen}"),
        w.r_line + getattr(w, f"r_{back}"),
        w.x_line + getattr(w, f"x_{back}"),
        f is None or f.at == "service gear",
        (f.limit or 0.0) if f else 0.0,
        (f.starts or 0.0) if f else 0.0,
    )
    d.attempt(key, Ask(flicker, record, f"loads.{r.id}", "ed", paths, tags))


def candidates(d: Design) -> None:
    """The transformer as drawn, and those that stand beside it."""
    if "transformer" not in d.items:
        for c in d.estate.service.transformer.candidates:
            d.lack(f"candidate/{c.id}", "the transformer, or the service conductors, are not known")
        return
    study(d, DRAWN, d.estate.service.transformer.rating, "transformer", "service.transformer")
    base = d.asks["transformer"]
    for c in d.estate.service.transformer.candidates:
        home, key = f"service.transformer.candidates.{c.id}", f"candidate_supply/{c.id}"
        record = base.record._replace(
            id=c.id,
            rating=c.rating,
            impedance=c.impedance,
            x_over_r=c.x_over_r,
            letter=0.0,
            letter_neutral=0.0,
            letter_least=0.0,
            letter_x_over_r=c.x_over_r,
            at_gear=False,
        )
        paths = {"volts": "service.voltage", "primary": "service.transformer.primary", "letter_x_over_r": f"{home}.x_over_r"}
        paths |= {"primary_volts": "service.transformer.primary_volts"}
        d.attempt(key, Ask(supply, record, home, "ed", paths, base.tags))
        if key in d.items:
            study(d, c.id, c.rating, key, home)
        else:
            d.lack(f"candidate/{c.id}", d.late[key])


def study(d: Design, name: str, rating: float, key: str, home: str) -> None:
    """One transformer; `key` names what a fault at its terminals sees."""
    load, t, w = d.chosen["service"], d.items[key], d.items["wire/lateral"]
    if "expected" not in d.items:
        d.lack(f"candidate/{name}", "the expected peak is not known")
        return
    first = next((r for r in motors(d) if f"flicker/{r.id}" in d.items), None)
    asked = d.asks[f"start/{first.id}"] if first else None
    tags: dict[str, Any] = {x: f"{key}/{x}" for x in PARTS} | {x: f"wire/lateral/{x}" for x in WIRES}
    tags |= {"va": f"{load}/total", "expected": "expected/kva"}
    paths = {"volts": "service.voltage", "pf": "basis.feeder.power_factor", "interrupting": "service.gear.interrupting"}
    if asked and first:
        flick = d.asks[f"flicker/{first.id}"]
        tags |= {x: flick.tags[y] for x, y in (("start", "current"), ("start_pf", "pf")) if y in flick.tags}
        paths |= {"start": flick.paths.get("current", "loads"), "between_lines": f"loads.{first.id}.poles"}
    record = Candidate(
        id=name,
        rating=rating,
        volts=d.volts,
        va=d.value(f"{load}/total"),
        expected=d.items["expected"].kva,
        pf=d.estate.basis.feeder.power_factor,
        start=asked.record.current if asked else 0.0,
        start_pf=asked.record.pf if asked else 1.0,
        between_lines=first is None or first.poles != 1,
        interrupting=d.estate.service.gear.interrupting,
        **{x: getattr(t, x) for x in PARTS},
        **{x: getattr(w, x) for x in WIRES},
    )
    d.attempt(f"candidate/{name}", Ask(candidate, record, home, "", paths, tags))


def largest(d: Design) -> Load | None:
    """The motor of the most horsepower, of several alike the one that draws most while it starts."""
    rows = [r for r in d.tree.rows if r.hp and r.circuits]
    return max(rows, key=lambda r: (number(r.hp), starting(d, r)), default=None)


def hardest(d: Design) -> Load | None:
    """The row that draws most while it starts, compressors among them."""
    rows = [r for r in d.tree.rows if f"start/{r.id}" in d.asks]
    return max(rows, key=lambda r: starting(d, r), default=None)


def figures(d: Design) -> None:
    """The load letter."""
    load = d.chosen["service"]
    if "expected" not in d.items:
        d.lack("letter", "the expected peak is not known")
        return
    x = d.items["expected"]
    first, hard = largest(d), hardest(d)
    start = d.asks.get(f"start/{hard.id}") if hard else None
    cars = [r for r in d.tree.rows if r.category == "vehicle"]
    tags: dict[str, Any] = {"va": f"{load}/total", "rating": "service/rating", "sets": "service/sets"}
    tags |= {name: f"expected/{name}" for name in ("kw", "kva", "high_kw", "high_kva")}
    if start and "current" in start.tags:
        tags["motor_start"] = start.tags["current"]
    paths = {"volts": "service.voltage", "transformer": "service.transformer.rating", "vehicles": "loads", "vehicles_va": "loads"}
    paths |= {"motor_hp": f"loads.{first.id}.hp"} if first else {}
    paths |= {"motor_start": f"loads.{hard.id}.lra"} if hard else {}
    record = Asked(
        "letter",
        d.value(f"{load}/total"),
        d.volts,
        d.items["service"].rating,
        x.kw,
        x.kva,
        x.high_kw,
        x.high_kva,
        d.estate.service.transformer.rating,
        float(d.items["service"].sets),
        number(first.hp) if first else 0.0,
        start.record.current if start else 0.0,
        float(sum(r.qty for r in cars)),
        sum(r.va for r in cars),
    )
    d.attempt("letter", Ask(letter, record, "service", "", paths, tags))


def gaps(d: Design) -> tuple[str, ...]:
    """What a load letter should say and this design does not know."""
    e, out = d.estate, []
    if "letter" not in d.items:
        out.append(d.lacking.get("letter", "the expected peak"))
    elif not d.items["letter"].motor_hp:
        out.append("the largest motor")
    out += [f"the starting current of {r.id} ({r.load})" for r in motors(d) if f"flicker/{r.id}" not in d.items]
    if e.prepared.date is None:
        out.append("the day of the letter (prepared.date)")
    if not e.prepared.by:
        out.append("who asks (prepared.by)")
    if not any(m.before for m in e.service.milestones) and not any("energ" in x.what for x in e.sequence if x.date):
        out.append("the day on which power is wanted (sequence)")
    if e.service.metering is None:
        out.append("how the service is metered (service.metering)")
    return tuple(out)
