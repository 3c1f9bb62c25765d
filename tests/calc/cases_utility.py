"""Told runs of the utility side: working space, disconnects, flicker, candidates, metering, distances, arrangements."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.utility.distances import Apart, Gap, Owed, Wait, separation, slip
from curtilage.calc.utility.metering import Meter, metering
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


METER = Meter("metering", 600.0, "current transformers", 30.0, 0.0, 0.0)
GAPS = (Gap("0", 3.0, 4.0, 0.0, 0.0, 10.0, 0.0), Gap("1", 30.0, 40.0, 0.0, 0.0, 0.0, 0.0))
APART = Apart("a/b", 5.0, False, False, GAPS)
OWED = Owed("letter", -12.0, 30.0, (Wait("D-PERM", 10.0), Wait("D-GATE", 90.0)))


def meters() -> Iterator[Any]:
    yield METER
    yield METER._replace(rating=200.0, kind="self-contained", distance=0.0, direct_to=320.0)
    yield METER._replace(kind="self-contained", distance=0.0)
    yield METER._replace(farthest=20.0)


def aparts() -> Iterator[Any]:
    yield APART
    yield APART._replace(overlap=True)
    yield APART._replace(at_most=True)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    for w in spaces():
        yield working_space.told(Given(w, f"panels.{w.id}"), ed)
    for b in buildings():
        yield building_disconnect.told(Given(b, f"structures.{b.id}"), ed)
    for x in meters():
        yield metering.told(Given(x, "service.metering"), ed)
    for a in aparts():
        yield separation.told(Given(a, "site.places"))
    for o in (OWED, OWED._replace(due=4.0, waits=())):
        yield slip.told(Given(o, "service.milestones.letter"))
