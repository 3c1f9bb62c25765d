"""Motors: the limits of their devices, their locked-rotor current, and the dip of the voltage when they start."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from curtilage.calc.fault.records import Run
from curtilage.calc.fault.wires import feeder_wire
from curtilage.calc.motors.circuit import locked_rotor, motor
from curtilage.calc.motors.records import DRIVE, NOT_STATED, ONE_PHASE, SINGLE, SOFT, Motor, MotorFeeder, OnFeeder, Start, Stretch
from curtilage.calc.motors.starting import seen, start
from curtilage.calc.motors.together import motor_feeder
from curtilage.design.ask import Ask
from curtilage.design.sort import MOVES
from curtilage.editions.shapes import number

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

GEAR = "lateral"
"""The stretch at whose end the service gear stands."""
NO_WAY = 0.0


def stage(d: Design) -> None:
    """Motors of the tables, locked-rotor currents, starts, and feeders that carry motors only."""
    for r in turning(d):
        if r.hp:
            paths = {"phases": "service.phases", "kind": f"loads.{r.id}.hp", "cool": f"loads.{r.id}.note"}
            d.attempt(f"motor/{r.id}", Ask(motor, nameplate(r), f"loads.{r.id}", "ed", paths))
        begins(d, r)
    for name in d.tree.branches:
        motors_only(d, name)


def turning(d: Design) -> Iterator[Load]:
    """Rows whose start can be felt: motors of the tables, and compressors by nameplate."""
    for r in d.tree.rows:
        if r.circuits and (r.hp or r.lra or (r.category in MOVES and r.mca)):
            yield r


def nameplate(r: Load) -> Motor:
    """The record of a row."""
    return Motor(r.id, number(r.hp) if r.hp else 0.0, r.volts, ONE_PHASE, SINGLE, r.fla or NOT_STATED, r.service_factor or 0.0,
                 False, r.lra or NOT_STATED, r.code_letter)


def begins(d: Design, r: Load) -> None:
    """The locked-rotor current of a row and what its start does to the voltage."""
    home = f"loads.{r.id}"
    if r.starter == DRIVE:
        return
    if not (r.hp or r.lra):
        d.lack(f"start/{r.id}", "the locked-rotor current, or the kind of starter, is missing")
        return
    locked = d.attempt(f"locked/{r.id}", Ask(locked_rotor, nameplate(r), home, "ed", {"phases": "service.phases"}))
    if locked is None:
        d.lack(f"start/{r.id}", f"the locked-rotor current or the code letter is missing: {d.late[f'locked/{r.id}']}")
        return
    tags: dict[str, Any] = {"pf": "rule:motor_start_pf"}
    paths: dict[str, str] = {"volts": f"{home}.volts"}
    if r.starter == SOFT and r.start_amperes:
        current, paths["current"] = r.start_amperes, f"{home}.start_amperes"
    elif r.starter == SOFT:
        d.lack(f"start/{r.id}", "the largest current through its soft starter is missing")
        return
    else:
        current, tags["current"] = locked.high, f"locked/{r.id}/high"
    limit, tags_or_paths = d.limit("starting_dip"), tags if d.estate.policy.starting_dip is None else paths
    tags_or_paths["limit"] = "rule:starting_dip" if tags_or_paths is tags else "policy.starting_dip"
    way = stretches(d, r)
    if isinstance(way, str):
        d.lack(f"start/{r.id}", way)
        return
    parts, tags["stretches"] = way
    board = parts[-2].id
    record = Start(r.id, r.volts, current, d.ed.motor_start_pf, parts, GEAR, board, limit)
    ask = Ask(start, record, home, "ed", paths, tags)
    if d.attempt(f"start/{r.id}", ask) is not None:
        for part in parts[1:-1]:
            d.attempt(f"dip/{r.id}/{part.id}", ask._replace(method=seen, record=record._replace(board=part.id)))


def stretches(d: Design, r: Load) -> tuple[tuple[Stretch, ...], dict[str, dict[str, str]]] | str:
    """The way from the source to the motor, and where its ohms come from; or what is missing."""
    if r.length is None:
        return "the length of the circuit is missing"
    circuit = d.items[f"circuit/{r.id}"]
    record = Run(r.id, 1, circuit.size, circuit.size, circuit.egc, r.length)
    named = {"size": f"circuit/{r.id}/size", "neutral": f"circuit/{r.id}/size", "ground": f"circuit/{r.id}/egc"}
    d.attempt(f"branch_wire/{r.id}", Ask(feeder_wire, record, f"loads.{r.id}", d.stages.branch_view, {}, named))
    keys = ["wire/lateral", *(f"wire/{f.id}" for f in d.stages.way(r.panel)), f"branch_wire/{r.id}"]
    missing = next((k for k in ("transformer", *keys) if k not in d.items), None)
    if missing is not None:
        return f"{missing} has no result: {d.late.get(missing, 'it is not worked')}"
    between_lines = r.poles != 1
    parts = [*source(d, between_lines)]
    parts += [stretch(d, key, between_lines) for key in keys]
    return tuple(p for p, _ in parts), {p.id: tags for p, tags in parts}


def source(d: Design, between_lines: bool) -> list[tuple[Stretch, dict[str, str]]]:
    """Utility and transformer, the source at its weakest: seen between the lines, or between one line and the neutral."""
    t, seen = d.items["transformer"], "ll_least" if between_lines else "ln_least"
    tags = {"r_out": f"transformer/r_{seen}", "x_out": f"transformer/x_{seen}"}
    return [(Stretch("transformer", getattr(t, f"r_{seen}"), getattr(t, f"x_{seen}"), NO_WAY, NO_WAY), tags)]


def stretch(d: Design, key: str, between_lines: bool) -> tuple[Stretch, dict[str, str]]:
    """One run out and back: by the other line, or by the neutral."""
    w, back = d.items[key], "line" if between_lines else "neutral"
    name = key.partition("/")[2] if not key.startswith("branch") else "terminals"
    tags = {"r_out": f"{key}/r_line", "x_out": f"{key}/x_line", "r_back": f"{key}/r_{back}", "x_back": f"{key}/x_{back}"}
    return Stretch(name, w.r_line, w.x_line, getattr(w, f"r_{back}"), getattr(w, f"x_{back}")), tags


def motors_only(d: Design, name: str) -> None:
    """A feeder all of whose load are motors of the tables: 430.24 and 430.62."""
    rows = d.tree.branches[name].rows
    if f"feeder/{name}" not in d.items or len(rows) < 2 or not all(f"motor/{r.id}" in d.items and r.circuits for r in rows):
        return
    each = [(r, i) for r in rows for i in range(r.qty)]
    parts = tuple(OnFeeder(f"{r.id}-{i + 1}" if r.qty > 1 else r.id, d.items[f"motor/{r.id}"].table,
                           d.items[f"circuit/{r.id}"].device) for r, i in each)
    tags = {p.id: {"amperes": f"motor/{r.id}/table", "device": f"circuit/{r.id}/device"}
            for p, (r, _) in zip(parts, each, strict=True)}
    d.attempt(f"motor_feeder/{name}", Ask(motor_feeder, MotorFeeder(name, parts), f"feeders.{name}", "ed", {}, {"motors": tags}))
