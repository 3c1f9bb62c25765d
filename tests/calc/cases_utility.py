"""Told runs of the utility side: working space, disconnects, flicker, candidates, metering, distances, arrangements."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.utility.arrangement import Laid_out, arrangement
from curtilage.calc.utility.candidates import Candidate, candidate
from curtilage.calc.utility.distances import Apart, Gap, Owed, Wait, separation, slip
from curtilage.calc.utility.flicker import Starting, dip_by_fault, flicker, published
from curtilage.calc.utility.letter import Asked, letter
from curtilage.calc.utility.metering import Meter, metering
from curtilage.calc.utility.space import Building, Space, building_disconnect, working_space
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

SPACE = Space("P1", "0-150", "1", 36.0, 30.0, 78.0, 0.0)
BUILDING = Building("GH", 33_000.0, 240.0, True, 24.0, False, 200.0)


def spaces() -> Iterator[Any]:
    yield SPACE
    yield SPACE._replace(width=40.0, equipment=42.0)
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


STARTING = Starting("L1", 240.0, 186.0, 28.0, 0.4, 4.0, 0.003, 0.005, 0.001, 0.001, False, 3.0, 10.0)
CANDIDATE = Candidate("T1", 250.0, 240.0, 0.0023, 0.0045, 0.0023, 0.0045, 0.0008, 0.0014, 0.0025, 0.0046, 0.0009, 0.0015, 0.0003,
                      0.0004, 0.0004, 0.00024, 0.00024, 372_000.0, 243.0, 0.95, 240.0, 0.5, True, 65_000.0)
LAID_OUT = Laid_out("one", 6.0, "500", "500", 60.0, 0.00045, 1860.0, 1551.0, 240.0, 243.0, 0.35, 4.0, 1850.0, 800.0)
ASKED = Asked("letter", 372_000.0, 240.0, 1850.0, 239.0, 243.0, 373.0, 386.0, 250.0, 6.0, 7.5, 240.0, 4.0, 59_520.0)


def startings() -> Iterator[Any]:
    """Every way in which a limit is found."""
    x = STARTING
    yield x
    yield x._replace(at_gear=True)
    for starts in (0.0, 1.0, 20.0):
        yield x._replace(starts=starts)
        yield x._replace(starts=starts, limit=0.0)
        yield x._replace(starts=starts, limit_starts=0.0)


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
    for t in startings():
        yield flicker.told(Given(t, "loads.L1"), ed)
    for rate in (2.0, 60.0):
        yield published.told(Told("starts", rate, "1/h", "given"), ed)
    for c in (CANDIDATE, CANDIDATE._replace(between_lines=False)):
        yield candidate.told(Given(c, "service.transformer.candidates.T1"))
    yield letter.told(Given(ASKED, "service"))
    K, V, I, base = (Told(s, x, unit, "given") for s, x, unit in (
        ("K_start", 63.0, "kVA"), ("V", 7.2, "kV"), ("I", 1438.0, "A"), ("V_base", 120.0, "V")))
    yield dip_by_fault.told(K, V, I, base)
    yield arrangement.told(Given(LAID_OUT, "service"), ed.view("al-pvc"))
