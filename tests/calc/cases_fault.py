"""Told runs of the fault methods, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.fault.chain import bolted, node, terminals, there_and_back
from curtilage.calc.fault.records import Impedance, Lateral, Node, Run, Supply, Terminals
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
