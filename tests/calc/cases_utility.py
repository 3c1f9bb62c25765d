"""Told runs of the utility side: working space, disconnects, flicker, candidates, metering, distances, arrangements."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.utility.space import Building, Space, building_disconnect, working_space
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given

SPACE = Space("P1", "0-150", "1", 36.0, 30.0, 78.0)
BUILDING = Building("GH", 33_000.0, 240.0, True, 24.0, False, 200.0)


def spaces() -> Iterator[Any]:
    yield SPACE
    yield SPACE._replace(band="151-600", condition="3", depth=47.0)


def buildings() -> Iterator[Any]:
    b = BUILDING._replace(dwelling=False)
    yield BUILDING
    yield b
    yield b._replace(circuits=1.0, va=1200.0)
    yield b._replace(circuits=2.0, two_wire=True, va=2400.0)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    for w in spaces():
        yield working_space.told(Given(w, f"panels.{w.id}"), ed)
    for b in buildings():
        yield building_disconnect.told(Given(b, f"structures.{b.id}"), ed)
