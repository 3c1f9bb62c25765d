"""Told runs of the mass of conductors."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.fault.records import Run
from curtilage.calc.mass import conductor_mass, feeder_mass, run_mass, two_wire_mass
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told


def told() -> Iterator[Any]:
    m = TellingEdition(Edition.load("nec2023")).view("al-pvc")
    n, L = Told("n", 3, "count", "given"), Told("L", 265.0, "ft", "given")
    big, small = Told("size", "500", "size", "given"), Told("ground", "1", "size", "given")
    yield conductor_mass.told(n, big, L, m)
    yield run_mass.told(n, big, big, small, L, m)
    yield feeder_mass.told(Given(Run("F", 2, "500", "350", "1", 265.0), "feeders.F", str), m)
    yield two_wire_mass.told(Given(Run("F", 2, "500", "1", "1", 265.0), "feeders.F", str), m)
