"""Told runs of the fault methods, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.fault.records import Lateral, Run
from curtilage.calc.fault.wires import cold_factor, feeder_wire, lateral_wire, one_way
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

RUN = Run("F1", 2, "350", "4/0", "1", 240.0)
LATERAL = Lateral("lateral", 6, "500", "350", 60.0)


def wires(ed: TellingEdition) -> Iterator[Any]:
    """Conductors of both metals."""
    yield one_way.told(Told("z", 0.061, "ohm/kft", "given"), Told("L", 240.0, "ft", "given"), Told("n", 2, "count", "given"))
    yield cold_factor.told(ed.view("cu-pvc"))
    yield feeder_wire.told(Given(RUN, "feeders.F1"), ed.view("al-pvc"))
    yield feeder_wire.told(Given(RUN, "feeders.F1"), ed.view("cu-steel"))
    yield lateral_wire.told(Given(LATERAL, "service.lateral"), ed.view("al-pvc"))


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    yield from wires(ed)
