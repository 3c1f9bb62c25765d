"""Told runs of the methods of grounding and bonding, each for a branch of a rule."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.grounding.bonds import one_bond_each
from curtilage.calc.grounding.earth import contact, four_probe, ring_resistance, rod_resistance, rods
from curtilage.calc.grounding.records import (
    Beyond,
    Bond,
    Bonding,
    Contact,
    Electrode,
    Island,
    Mode,
    Pair,
    Ring,
    Rods,
    Supply,
)
from curtilage.calc.grounding.sizing import bonding, electrode_conductor, supply
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

ELECTRODE = Electrode("E1", "rod", "", "cu", "", 500_000.0, ())
CONTACT = Contact("E1", "rod", 10.0, 0.625, "", 0.0, 0.0, False)
BONDING = Bonding("service", 2.0, "500", "al", "500", "cu", "")
RODS = Rods("E1", 300.0, 10.0, 0.625, 1.0, 0.0, ())
RING = Ring("E2", 300.0, 90.0, "2", 3.0)


def electrodes() -> Iterator[Electrode]:
    """Every kind, in both metals, stated and chosen, alone and on the way to another."""
    e = ELECTRODE
    for metal in ("cu", "al"):
        for kind in ("rod", "plate", "concrete-encased", "ring", "water pipe", "structural metal"):
            yield e._replace(kind=kind, material=metal)
    yield e._replace(kind="ring", wire="2")
    yield e._replace(kind="ring", wire="4/0")
    yield e._replace(area=26_240.0)
    yield e._replace(conductor="8")
    yield e._replace(beyond=(Beyond("E2", "concrete-encased", ""),))
    yield e._replace(kind="concrete-encased", beyond=(Beyond("E2", "rod", ""), Beyond("E3", "water pipe", "")))


def contacts() -> Iterator[Contact]:
    """Every kind, good and short."""
    c = CONTACT
    yield c
    yield c._replace(listed=True, diameter=0.5)
    yield c._replace(kind="concrete-encased", length=20.0, diameter=0.5)
    yield c._replace(kind="concrete-encased", length=18.0, wire="4")
    yield c._replace(kind="ring", length=90.0, wire="2", depth=2.0)
    yield c._replace(kind="plate", area=2.0)
    yield c._replace(kind="water pipe", length=9.0)
    yield c._replace(kind="structural metal", length=12.0)


def bondings() -> Iterator[Bonding]:
    """Within the table and above it, of one metal and of two, stated and chosen."""
    b = BONDING
    yield b
    yield b._replace(sets=1.0, size="4", neutral="6", material="al")
    yield b._replace(sets=6.0, jumper="4/0")
    yield b._replace(sets=6.0, material="al", neutral="2")
    yield b._replace(sets=4.0, metal="cu", size="500")
    yield b._replace(sets=3.0, metal="cu", size="600", material="al")
    yield b._replace(sets=1.0, size="2000", neutral="250", material="al")


def several(n: int, step: float = 12.0) -> Rods:
    """Rods in a row."""
    pairs = tuple(Pair("E1", float(j - i)) for i in range(n) for j in range(i + 1, n))
    return RODS._replace(count=float(n), spacing=step, pairs=pairs)


def modes() -> Iterator[Mode]:
    """One island and two, with none, one and two bonds."""
    on, off = Bond("here", True), Bond("there", False)
    yield Mode("utility", (Island("utility", (on, off)),))
    yield Mode("GEN", (Island("utility", (on, on)), Island("GEN", (off,))))


def told() -> Iterator[Any]:
    """Every case, told."""
    ed = TellingEdition(Edition.load("nec2023"))
    al, cu = ed.view("al-pvc"), ed.view("cu-pvc")
    yield supply.told(Given(Supply("MH", 2.0, "500"), "grounding"), al)
    yield supply.told(Given(Supply("MH", 1.0, "2"), "grounding"), cu)
    for e in electrodes():
        yield electrode_conductor.told(Given(e, "grounding"), al)
    for c in contacts():
        yield contact.told(Given(c, "grounding"), ed)
    for b in bondings():
        yield bonding.told(Given(b, "grounding"), cu if b.metal == "cu" else al)
    soil, length, diameter = (Told(s, x, unit, "given") for s, x, unit in
                              (("rho", 100.0, "ohm m"), ("L", 10.0, "ft"), ("d", 0.75, "in")))
    yield rod_resistance.told(soil, length, diameter)
    for x in (RODS, several(2), several(3, 6.0)):
        yield rods.told(Given(x, "grounding"), ed)
    yield ring_resistance.told(Given(RING, "grounding"), ed)
    yield four_probe.told(Told("a", 20.0, "ft", "given"), Told("R", 2.0, "ohm", "given"))
    for m in modes():
        yield one_bond_each.told(Given(m, "grounding"), ed)
