"""Told runs of the conductor methods, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.conductors.ampacity import ampacity
from curtilage.calc.conductors.drop import (
    ONE_WAY,
    THREE_PHASE,
    approximate_drop,
    delivered,
    dip,
    exact_drop,
    largest_load,
    reactive_factor,
    short_drop,
)
from curtilage.calc.conductors.feeder import feeder
from curtilage.calc.conductors.neutral_size import bonding_area
from curtilage.calc.conductors.parallel import smallest_for_drop
from curtilage.calc.conductors.path import path
from curtilage.calc.conductors.records import Circuit, Feeder, Main, Path, Segment, Service
from curtilage.calc.conductors.run import branch_circuit
from curtilage.calc.conductors.service import service, service_main
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

CIRCUIT = Circuit("L01", 7200.0, 240.0, 0.95, False, False, False, 0.0, 0.0, 0.0, "", 140.0, 30.0, 2.0, 90.0, 75.0, 3.0, "600")
FEEDER = Feeder("F1", 45_000.0, 48_000.0, 30_000.0, 240.0, 0.95, 0.0, 0.0, "", 200.0, 30.0, 2.0, 90.0, 75.0, True, False, True,
                True, 3.0, "600", 6.0)
ONE = (Main("M1", 90_000.0, 90_000.0, 0.0),)
THREE = (Main("M1", 130_000.0, 130_000.0, 600.0), Main("M2", 150_000.0, 160_000.0, 800.0), Main("M3", 40_000.0, 40_000.0, 0.0))
SERVICE = Service("SY", ONE, 90_000.0, 90_000.0, 60_000.0, 240.0, 0.95, 0.0, "", 60.0, 30.0, 2.0, 90.0, 75.0, True, True, True,
                  True, 2.0, "600", 8.0)
PATH = Path("MH-L1", 120.0, 0.4, (Segment("MH", 2.5), Segment("MH-L1", 0.3)), 1.9, 3.0, 3.0, 5.0)


def circuits() -> Iterator[Circuit]:
    """One circuit for every way a circuit is treated."""
    c = CIRCUIT
    yield c
    yield c._replace(continuous=True, cords=True, volts=120.0, va=1800.0, terminals=60.0, ccc=8.0)
    yield c._replace(motor=True, va=2400.0, ambient=44.0, insulation=75.0)
    yield c._replace(motor=True, va=2400.0, breaker=20.0)
    yield c._replace(motor=True, va=2400.0, motor_va=1200.0)
    yield c._replace(motor=True, va=2400.0, motor_va=1200.0, volts=120.0)
    yield c._replace(motor=True, va=480.0, volts=120.0)
    yield c._replace(motor=True, va=480.0)
    yield c._replace(mca=31.0, mocp=50.0)
    yield c._replace(mca=31.0, mocp=50.0, breaker=40.0)
    yield c._replace(mca=31.0)
    yield c._replace(breaker=50.0, insulation=60.0, terminals=60.0)
    yield c._replace(breaker=40.0, size="8", length=300.0)
    yield c._replace(length=690.0)
    yield c._replace(length=8000.0, va=300.0)
    yield c._replace(breaker=20.0, size="12", va=4500.0)
    yield c._replace(motor=True, va=3840.0, length=500.0, ambient=20.0, breaker=45.0, drop_limit=1.0)


def feeders() -> Iterator[Feeder]:
    """One feeder for every way a feeder is treated."""
    f = FEEDER
    yield f
    yield f._replace(whole_dwelling=True)
    yield f._replace(whole_dwelling=True, va=80_000.0, minimum_va=80_000.0, length=400.0, full_neutral=False)
    yield f._replace(whole_dwelling=True, take_83=False)
    yield f._replace(whole_dwelling=True, breaker=90.0, va=15_000.0, minimum_va=15_000.0)
    yield f._replace(whole_dwelling=True, breaker=600.0, sets=2.0, size="500", va=102_000.0, minimum_va=102_000.0)
    yield f._replace(three_wire=False, neutral_va=0.0)
    yield f._replace(va=220_000.0, minimum_va=220_000.0, full_neutral=False, length=300.0)
    yield f._replace(sets=2.0, va=120_000.0, minimum_va=120_000.0, ccc=5.0, ambient=38.0)
    yield f._replace(sets=1.0, size="4", breaker=400.0, va=90_000.0, minimum_va=90_000.0)
    yield f._replace(sets=1.0, size="500", breaker=1200.0, va=230_000.0, minimum_va=230_000.0)
    yield f._replace(neutral="4")
    yield f._replace(largest="1000", va=90_000.0, minimum_va=90_000.0, length=620.0)


def services() -> Iterator[Service]:
    """One service for every rule of its conductors."""
    s = SERVICE
    yield s
    yield s._replace(mains=(Main("M1", 120_000.0, 120_000.0, 0.0),), va=120_000.0, minimum_va=120_000.0)
    yield s._replace(mains=(Main("M1", 240_000.0, 240_000.0, 0.0),), va=240_000.0, minimum_va=240_000.0, full_neutral=False)
    yield s._replace(mains=THREE, va=320_000.0, minimum_va=330_000.0, dwelling=False, whole_dwelling=False, sets=6.0, size="500")
    yield s._replace(mains=THREE, va=320_000.0, minimum_va=330_000.0)
    yield s._replace(mains=(Main("M1", 12_000.0, 12_000.0, 60.0),), va=12_000.0, minimum_va=12_000.0, take_83=False, length=400.0,
                     drop_limit=1.0)
    yield s._replace(neutral="6")


def given(**numbers: Any) -> list[Told]:
    """Told inputs with their units: `R=(0.122, "ohm/kft")`."""
    return [Told(name, x, unit, "given") for name, (x, unit) in numbers.items()]


def drops() -> Iterator[Any]:
    R, X, pf, I, L, V = given(R=(0.054, "ohm/kft"), X=(0.039, "ohm/kft"), pf=(0.85, ""), I=(200.0, "A"), L=(410.0, "ft"),
                              V=(240.0, "V"))
    q = reactive_factor.told(pf)
    yield q
    yield short_drop.told(R, I, L)
    for k in (ONE_WAY, THREE_PHASE):
        yield approximate_drop.told(k, R, X, pf, q, I, L)
        yield exact_drop.told(k, R, X, pf, q, I, L, V)
    Z_r, Z_x, S = given(R=(0.04, "ohm"), X=(0.03, "ohm"), S=(60_000.0, "VA"))
    yield largest_load.told(Z_r, Z_x, pf, V)
    yield delivered.told(Z_r, Z_x, pf, S, V)
    yield dip.told(Z_r, Z_x, pf, I, V)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    for metal in ("cu-pvc", "al-steel"):
        m = ed.view(metal)
        for c in circuits():
            yield branch_circuit.told(Given(c, f"loads.{c.id}"), m)
        for f in feeders():
            yield feeder.told(Given(f, f"feeders.{f.id}"), m)
        for s in services():
            yield service.told(Given(s, "service"), m)
        for x in THREE:
            yield service_main.told(Given(x, f"mains.{x.id}"), *given(volts=(240.0, "V")), m)
        size, hot, lugs, ambient, n = given(size=("4/0", "size"), insulation=(90.0, "degC"), terminals=(75.0, "degC"),
                                            ambient=(40.0, "degC"), ccc=(6.0, "count"))
        yield ampacity.told(size, hot, lugs, ambient, n, m)
        far = given(n=(1.0, "count"), start=("4/0", "size"), I=(150.0, "A"), L=(2000.0, "ft"), pf=(0.95, ""), V=(240.0, "V"),
                    limit=(3.0, "%"), largest=("500", "size"))
        yield smallest_for_drop.told(*far, m)
        yield bonding_area.told(*given(size=("2000", "size")), m)
    yield path.told(Given(PATH, "paths.MH-L1"), ed)
    yield path.told(Given(PATH._replace(feeders=(), lateral=6.0), "paths.SY"), ed)
    yield from drops()
