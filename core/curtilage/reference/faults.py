"""Adapters to the methods of fault currents, and to the forms of handbooks beside them."""
from typing import Any

from curtilage.calc.conductors.drop import ONE_WAY, THERE_AND_BACK, THREE_PHASE
from curtilage.calc.fault.chain import bolted, terminals, there_and_back
from curtilage.calc.fault.handbook import (
    before,
    behind_magnitudes,
    let_through,
    of_parts,
    point_to_point,
    polar,
    referred,
    through_resistance,
)
from curtilage.calc.fault.records import Impedance, Supply, Terminals
from curtilage.calc.fault.transformer import full_winding, parts, supply
from curtilage.calc.fault.wires import one_way
from curtilage.reference.conductors import MATERIALS
from curtilage.reference.kinds import COUNT, NUMBER, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Cite, Told

SEEN = Terminals._fields[2:]
PHASES = {"single-phase": ONE_WAY, "three-phase": THREE_PHASE}
LOOPS = {"single-phase": THERE_AND_BACK, "three-phase": THREE_PHASE}

_RATING, _VOLTS = Key("rating", "kVA", "rating of the transformer"), Key("voltage", "V", "voltage of the side of the fault")
_R, _X = Key("resistance", "%", "resistance of the transformer"), Key("reactance", "%", "reactance of the transformer")
_CIRCUIT = Key("circuit", WORDS, "how many phases", "single-phase", choices=tuple(PHASES))
_LENGTH = Key("length", "ft", "length of the run, one way")


def rule(symbol: str, x: float, cite: str) -> Told:
    return Told(symbol, x, "", "rule", cite=Cite(cite, "derived"))


def _transformer(g: Any, run: Run) -> dict[str, Told]:
    z = of_parts.told(g.resistance, g.reactance)
    put = {"rating": g.rating, "impedance": z.impedance, "x_over_r": z.x_over_r, "volts": g.voltage}
    record = Supply("transformer", 1.0, 1.0, 1.0, 240.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, False, 0.0, 0.0, 0.0, 0.0)
    s = supply.told(run.record(record, put=put), run.telling())
    at = Terminals("terminals", 240.0, *(0.0,) * len(SEEN))
    f = terminals.told(run.record(at, put={"volts": g.voltage} | {name: getattr(s, name) for name in SEEN}))
    n = rule("n", 2 * run.bare.primary / run.bare.voltage, "ratio of turns to one half")
    seen = polar.told(referred.told(s.r_primary, n), referred.told(s.x_primary, n))
    half = polar.told(s.r_secondary, s.x_secondary)
    return {"line_to_line": f.ll, "line_to_neutral": f.ln, "primary_branch": seen.magnitude, "primary_angle": seen.angle,
            "half_branch": half.magnitude, "half_angle": half.angle}


def _let_through(g: Any, run: Run) -> dict[str, Told]:
    k = rule("k", PHASES[run.bare.circuit], run.bare.circuit)
    return {"fault": let_through.told(g.rating, g.impedance, g.voltage, k, g.source)}


def _point_to_point(g: Any, run: Run) -> dict[str, Told]:
    k = rule("k", LOOPS[run.bare.circuit], f"{run.bare.circuit}, the loop of the fault")
    r = point_to_point.told(g.available, g.length, g.C, g.conductors, g.voltage, k)
    return {"factor": r.factor, "multiplier": r.multiplier, "fault": r.fault}


def _run(g: Any, run: Run) -> dict[str, Told]:
    """Line to line, out and back, by complex addition and by magnitudes."""
    m = run.telling().view(f"{MATERIALS[run.bare.material]}-{run.bare.raceway}")
    one = Told("n", 1, "count", "rule", cite=Cite("one conductor", "derived"))
    R, X = one_way.told(m.r[g.size], g.length, one), one_way.told(m.x[g.size], g.length, one)
    z = parts.told(before.told(g.voltage, g.available), g.x_over_r)
    end = there_and_back.told(Impedance(z.r, z.x), R, X, R, X)
    loop = there_and_back.told(Impedance(NOTHING, NOTHING), R, X, R, X)
    return {"fault": bolted.told(g.voltage, end.r, end.x),
            "by_magnitudes": behind_magnitudes.told(g.available, g.voltage, polar.told(loop.r, loop.x).magnitude)}


NOTHING = Told("Z", 0.0, "ohm", "rule", cite=Cite("nothing before the run", "derived"))


def _resistive(g: Any, run: Run) -> dict[str, Told]:
    z = of_parts.told(g.resistance, g.reactance)
    t = full_winding.told(g.rating, z.impedance, z.x_over_r, g.primary)
    n = rule("n", run.bare.primary / run.bare.voltage, "ratio of turns")
    return {"primary_current": through_resistance.told(g.applied, t.r, t.x, referred.told(g.fault, n)), "impedance": z.impedance}


METHODS = (
    Method("fault.transformer", "Faults at the terminals of a centre-tapped transformer, infinite primary, and its branches.",
           (_RATING, _R, _X, Key("voltage", "V", "whole secondary, line to line"), Key("primary", "V", "primary winding")),
           (Result("line_to_line", "A", "at the terminals"), Result("line_to_neutral", "A", "at the terminals"),
            Result("primary_branch", "ohm", "common branch, seen from the primary"), Result("primary_angle", "deg", "its angle"),
            Result("half_branch", "ohm", "branch of each half"), Result("half_angle", "deg", "its angle")), _transformer),
    Method("fault.let_through", "Fault at a transformer's terminals by its impedance in percent.",
           (_RATING, Key("impedance", "%", "impedance"), _VOLTS, _CIRCUIT,
            Key("source", "kVA", "short-circuit power of the network before it; 0: infinite", 0.0)),
           (Result("fault", "A", "symmetrical"),), _let_through),
    Method("fault.point_to_point", "Fault at the end of a run by the point-to-point form of the handbooks.",
           (Key("available", "A", "fault at the start of the run"), _LENGTH,
            Key("C", NUMBER, "constant of the conductor", line="ft/ohm"), Key("conductors", COUNT, "in parallel", 1), _VOLTS,
            _CIRCUIT),
           (Result("factor", "", "f"), Result("multiplier", "", "M"), Result("fault", "A", "at the end")), _point_to_point),
    Method("fault.run", "Fault line to line at the end of a run, from the current and the ratio at its start.",
           (Key("available", "A", "fault at the start of the run"), Key("x_over_r", NUMBER, "reactance over resistance there"),
            _VOLTS, _LENGTH, Key("size", SIZE, "conductor"), Key("material", WORDS, "metal", "copper", choices=tuple(MATERIALS)),
            Key("raceway", WORDS, "what it lies in", "pvc", choices=("pvc", "aluminium", "steel"))),
           (Result("fault", "A", "by complex addition"), Result("by_magnitudes", "A", "magnitudes added")), _run),
    Method("fault.resistive", "Primary current of a transformer with a fault through a resistance on its secondary.",
           (_RATING, _R, _X, _VOLTS, Key("primary", "V", "rated primary voltage"), Key("applied", "V", "voltage on the primary"),
            Key("fault", "ohm", "resistance of the fault")),
           (Result("primary_current", "A", "on the primary"), Result("impedance", "%", "of the transformer")), _resistive),
)
