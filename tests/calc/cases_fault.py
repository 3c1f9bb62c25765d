"""Told runs of the fault methods, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.fault.chain import bolted, node, terminals, there_and_back
from curtilage.calc.fault.clearing import by_curve, clearing, far_end, inverse_time
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
from curtilage.calc.fault.margin import margin, share_for, withstands
from curtilage.calc.fault.records import Device, Equipment, Far, Gear, Impedance, Lateral, Node, Point, Run, Supply, Terminals
from curtilage.calc.fault.transformer import (
    behind_primary,
    by_letter,
    full_winding,
    half_winding,
    least_seen,
    letter_half,
    parts,
    seen_half,
    supply,
)
from curtilage.calc.fault.wires import cold_factor, feeder_wire, lateral_wire, one_way
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

RUN = Run("F1", 2, "350", "4/0", "1", 240.0)
LATERAL = Lateral("lateral", 6, "500", "350", 60.0)
SUPPLY = Supply("transformer", 250.0, 2.2, 2.0, 240.0, 0.0, 0.0, 10.0, 0.0, 0.0, 0.0, 2.0, False, 0.00035, 0.00039, 0.00035,
                0.00039)
TERMINALS = Terminals("terminals", 240.0, 0.0023, 0.0045, 0.00085, 0.00136, 0.0025, 0.0048, 0.0009, 0.0015)
NODE = Node("MH-DP", 240.0, *TERMINALS[2:], 0.0009, 0.0015, 0.0057, 0.0052, 0.0057, 0.0052, 0.0172, 0.0056, 0.0047, 0.0047)
FULL, HALF = Impedance(0.0023, 0.0045), Impedance(0.00085, 0.00136)
CURVE = (Point("1", 12.0, 0.5), Point("0", 6.0, 6.0))
DEVICE = Device("GH", 200.0, 1100.0, 0.0, 40.0, (), False, 5.0, 240.0)
FAR = Far("L072", 15.0, "14", "14", 120.0, 0.01, 0.004, 240.0, 0.0, 40.0, CURVE, False, 5.0)
GEAR = Gear("MSB", 65_000.0, 240.0, 250.0, 2.2, 0.00227, 0.00453, 0.00085, 0.00136, 0.00035, 0.00039, 0.00035, 0.00039)


def told_of(symbol: str, x: float, unit: str) -> Told:
    return Told(symbol, x, unit, "given")


def supplies() -> Iterator[Supply]:
    """Every way in which a utility may say what stands before the transformer."""
    yield SUPPLY
    yield SUPPLY._replace(primary=8000.0, primary_volts=7200.0)
    letter = SUPPLY._replace(letter=22_000.0, letter_x_over_r=1.6)
    yield letter
    yield letter._replace(letter_least=15_000.0)
    yield letter._replace(letter_neutral=30_000.0)
    yield letter._replace(letter_neutral=24_000.0, at_gear=True)
    yield letter._replace(letter=60_000.0)


def chains(ed: TellingEdition) -> Iterator[Any]:
    """The transformer, its terminals and a point behind it."""
    full, half = Given(FULL, "transformer"), Given(HALF, "transformer")
    for s in supplies():
        given = Given(s, "service.transformer")
        yield supply.told(given, ed)
        yield behind_primary.told(given)
        if s.letter:
            yield by_letter.told(given, told_of("I", s.letter, "A"))
            yield least_seen.told(given, full, half, Given(FULL, "transformer"))
        if s.letter_neutral:
            yield letter_half.told(given, ed)
    yield parts.told(told_of("Z", 0.005, "ohm"), told_of("k_xr", 2.0, ""))
    yield full_winding.told(told_of("P", 25.0, "kVA"), told_of("v_z", 1.84, "%"), told_of("k_xr", 0.86, ""),
                            told_of("V", 240.0, "V"))
    yield half_winding.told(full, ed)
    yield seen_half.told(full, full, half)
    yield bolted.told(told_of("V", 240.0, "V"), told_of("R", 0.003, "ohm"), told_of("X", 0.004, "ohm"))
    yield there_and_back.told(full, *(told_of(s, x, "ohm") for s, x in (("R", 0.1), ("X", 0.02), ("R_b", 0.2), ("X_b", 0.03))))
    yield terminals.told(Given(TERMINALS, "service.transformer"))
    yield node.told(Given(NODE, "panels.MH-DP"))


def devices() -> Iterator[Device]:
    """Every way in which a clearing time is bounded."""
    yield DEVICE
    yield DEVICE._replace(fault=450.0)
    yield DEVICE._replace(fault=290.0)
    yield DEVICE._replace(fault=4000.0)
    yield DEVICE._replace(pickup=4.0, tolerance=20.0)
    yield DEVICE._replace(curve=CURVE)
    yield DEVICE._replace(curve=CURVE, fault=1300.0)
    yield DEVICE._replace(curve=CURVE, fault=3000.0)
    yield DEVICE._replace(gfci=True)


def protection(ed: TellingEdition) -> Iterator[Any]:
    """Devices, a circuit, and what another transformer would do."""
    for c in devices():
        yield clearing.told(Given(c, "feeders.GH"), ed)
    for m in (1.5, 2.5, 4.0):
        yield inverse_time.told(told_of("D", 60.0, "A"), told_of("m", m, ""), ed)
        yield by_curve.told(Given(DEVICE._replace(curve=CURVE), "feeders.GH"), told_of("m", 4 * m, ""), told_of("t", 60.0, "s"))
    yield far_end.told(Given(FAR, "loads.L072"), ed.view("cu-pvc"))
    yield margin.told(Given(GEAR, "service.gear"))
    yield margin.told(Given(GEAR._replace(interrupting=200_000.0, r_line=0.003, r_neutral=0.003), "service.gear"))
    yield withstands.told(Given(Equipment("MSB", 65_000.0, 45_000.0), "service.gear"))
    z = Given(FULL, "transformer")
    for I in (42_000.0, 300_000.0, 2_000.0):
        yield share_for.told(z, *(told_of(s, 0.001, "ohm") for s in "RX"), told_of("V", 240.0, "V"), told_of("I", I, "A"))


def handbooks() -> Iterator[Any]:
    """The forms of books."""
    ohm = told_of("R", 0.3, "ohm"), told_of("X", 0.4, "ohm")
    volts, amperes = told_of("V", 480.0, "V"), told_of("I", 20_000.0, "A")
    yield of_parts.told(told_of("R", 1.4, "%"), told_of("X", 1.2, "%"))
    yield polar.told(*ohm)
    yield referred.told(ohm[0], told_of("n", 60.0, ""))
    for source in (0.0, 500_000.0):
        yield let_through.told(told_of("P", 1000.0, "kVA"), told_of("v_z", 5.75, "%"), volts, told_of("k", 3 ** 0.5, ""),
                               told_of("P_source", source, "kVA"))
    run = told_of("L", 20.0, "ft"), told_of("C", 22_185.0, "ft/ohm"), told_of("n", 2, "count")
    yield point_to_point.told(amperes, *run, volts, told_of("k", 2.0, ""))
    yield before.told(volts, amperes)
    yield behind_magnitudes.told(amperes, volts, told_of("Z", 0.01, "ohm"))
    yield through_resistance.told(volts, *ohm, told_of("R_f", 0.1, "ohm"))


def wires(ed: TellingEdition) -> Iterator[Any]:
    """Conductors of both metals."""
    yield one_way.told(told_of("z", 0.061, "ohm/kft"), told_of("L", 240.0, "ft"), told_of("n", 2, "count"))
    yield cold_factor.told(ed.view("cu-pvc"))
    yield feeder_wire.told(Given(RUN, "feeders.F1"), ed.view("al-pvc"))
    yield feeder_wire.told(Given(RUN, "feeders.F1"), ed.view("cu-steel"))
    yield lateral_wire.told(Given(LATERAL, "service.lateral"), ed.view("al-pvc"))


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    yield from wires(ed)
    yield from chains(ed)
    yield from protection(ed)
    yield from handbooks()
