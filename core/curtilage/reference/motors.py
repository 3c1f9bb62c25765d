"""Adapters to the motor methods: from the keys of a file to the method, and back to named results."""
from __future__ import annotations

from typing import Any

from curtilage.calc.conductors.ampacity import conditions
from curtilage.calc.conductors.parallel import smallest_with, together
from curtilage.calc.demand.records import Welder
from curtilage.calc.demand.welders import welder
from curtilage.calc.motors.circuit import locked_rotor, motor, rotor_conductor
from curtilage.calc.motors.elevators import drive_current, elevator_feeder
from curtilage.calc.motors.records import Motor, MotorFeeder, OnFeeder
from curtilage.calc.motors.together import motor_feeder
from curtilage.reference.conductors import _LAID, ONE, view
from curtilage.reference.kinds import COUNT, FLAG, NUMBER, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Told

KINDS = {"single-phase": "single_phase", "squirrel cage": "squirrel_cage_other", "design B": "design_B_ee",
         "synchronous": "synchronous", "wound rotor": "wound_rotor"}
"""Kinds of motor as a file writes them, and the row of Table 430.52."""
PHASES = {"single-phase": 1}

_MOTOR = (
    Key("horsepower", NUMBER, "horsepower, a row of the tables", line="hp"),
    Key("voltage", "V", "voltage, a column of the tables: 115, 230, 460 V and the nominal ones"),
    Key("kind", WORDS, "kind of motor", "single-phase", choices=tuple(KINDS)),
    Key("nameplate", "A", "full-load current of the nameplate; 0 A: not stated", 0.0),
    Key("service_factor", NUMBER, "service factor of the nameplate; 0: not stated", 0.0),
    Key("cool", FLAG, "marked with a rise of 40 degC or less", False))


def _record(g: Any, run: Run) -> Any:
    b = run.bare
    phases = PHASES.get(b.kind, 3)
    bare = Motor("given", b.horsepower, b.voltage, phases, KINDS[b.kind], b.nameplate, b.service_factor, b.cool,
                 getattr(b, "locked_rotor", 0.0), getattr(b, "code_letter", ""))
    put = {"hp": g.horsepower, "volts": g.voltage, "fla": g.nameplate, "service_factor": g.service_factor, "cool": g.cool}
    if hasattr(g, "locked_rotor"):
        put |= {"lra": g.locked_rotor, "letter": g.code_letter}
    return run.record(bare, put=put)


def _circuit(g: Any, run: Run) -> dict[str, Told]:
    m = view(run)
    r = motor.told(_record(g, run), m)
    w = conditions.told(g.insulation, g.terminals, g.ambient, g.conductors, m)
    size = smallest_with.told(ONE, r.conductor, w, m)
    out = {"current": r.table, "conductor": r.conductor, "size": size, "ampacity": together.told(ONE, size, w)}
    out |= {k: getattr(r, k) for k in ("fuse", "fuse_most", "dual", "dual_most", "breaker", "breaker_most", "instant", "overload",
                                       "overload_most")}
    if run.bare.secondary > 0:
        out["secondary"] = rotor_conductor.told(g.secondary, m)
    return out


def _feeder(g: Any, run: Run) -> dict[str, Told]:
    parts = tuple(run.record(OnFeeder(f"{i}", b.current, b.device), put={"amperes": t.current, "device": t.device})
                  for i, (b, t) in enumerate(zip(run.bare.motors, g.motors, strict=True), 1))
    feeder = run.record(MotorFeeder("given", ()), put={"motors": parts})
    r = motor_feeder.told(feeder, run.telling())
    return {"conductor": r.conductor, "device": r.most, "largest": r.largest}


def _locked(g: Any, run: Run) -> dict[str, Told]:
    r = locked_rotor.told(_record(g, run), run.telling())
    return {"low": r.low, "high": r.high}


def _elevators(g: Any, run: Run) -> dict[str, Told]:
    one = drive_current.told(g.rating, g.voltage, g.efficiency)
    r = elevator_feeder.told(g.elevators, one, g.demand_factor, g.controller, run.telling())
    return {"transformer": r.transformer, "sum": r.sum, "diverse": r.diverse, "controllers": r.controllers, "feeder": r.feeder}


def _welder(g: Any, run: Run) -> dict[str, Told]:
    ed, b = run.telling(), run.bare
    x = run.record(Welder("given", b.input, b.duty, b.voltage, b.with_motor),
                   put={"va": g.input, "duty": g.duty, "volts": g.voltage, "with_motor": g.with_motor})
    factor = (ed.welder_motor if b.with_motor else ed.welder_plain).told(g.duty)
    return {"multiplier": factor, "current": welder.told(x, ed).amperes}


METHODS = (
    Method("motor.circuit", "One motor: conductor, short-circuit devices by kind, overload.",
           (*_MOTOR, Key("secondary", "A", "secondary current of a wound rotor; 0 A: none", 0.0), *_LAID),
           (Result("current", "A", "full-load current of the tables"), Result("conductor", "A", "smallest ampacity"),
            Result("size", SIZE, "smallest conductor"), Result("ampacity", "A", "of that conductor"),
            Result("fuse", "A", "nontime-delay fuse"), Result("fuse_most", "A", "the largest one, if it does not start"),
            Result("dual", "A", "dual-element fuse"), Result("dual_most", "A", "the largest one, if it does not start"),
            Result("breaker", "A", "inverse-time breaker"), Result("breaker_most", "A", "the largest one, if it does not start"),
            Result("instant", "A", "setting of an instantaneous trip"), Result("overload", "A", "overload protection"),
            Result("overload_most", "A", "the largest one, if it does not start"),
            Result("secondary", "A", "ampacity between a wound rotor and its controller")), _circuit),
    Method("motor.feeder", "A feeder of motors only.",
           (Key("motors", "A", "its motors", many=True, row=(
               Key("current", "A", "full-load current of the tables"), Key("device", "A", "its short-circuit device"))),),
           (Result("conductor", "A", "smallest ampacity"), Result("device", "A", "largest device"),
            Result("largest", "A", "current of the largest motor")), _feeder),
    Method("motor.locked_rotor", "Locked-rotor current by nameplate, code letter or table.",
           (*_MOTOR, Key("locked_rotor", "A", "locked-rotor current of the nameplate; 0 A: not stated", 0.0),
            Key("code_letter", WORDS, "code letter", "")),
           (Result("low", "A", "lower end"), Result("high", "A", "higher end")), _locked),
    Method("elevators.feeder", "A feeder of alike elevators on drives.",
           (Key("elevators", COUNT, "number of elevators"), Key("rating", "kVA", "transformer of one drive"),
            Key("voltage", "V", "line to line, three-phase"), Key("efficiency", NUMBER, "efficiency of the transformer"),
            Key("demand_factor", NUMBER, "of Table 620.14 for that number"), Key("controller", "A", "continuous current of one")),
           (Result("transformer", "A", "one transformer"), Result("sum", "A", "all of them"),
            Result("diverse", "A", "with the demand factor"), Result("controllers", "A", "at 125 %"),
            Result("feeder", "A", "the feeder")), _elevators),
    Method("welder.supply", "Supply current of one arc welder by its duty cycle.",
           (Key("input", "VA", "rated primary input"), Key("duty", "%", "duty cycle"), Key("voltage", "V", "voltage"),
            Key("with_motor", FLAG, "a motor-generator set", False)),
           (Result("multiplier", "", "of Table 630.11(A)"), Result("current", "A", "supply current")), _welder),
)
