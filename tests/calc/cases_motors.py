"""Told runs of the motor methods, each for a branch of a rule."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.motors.circuit import breaker_limits, by_letter, locked_rotor, motor, rotor_conductor
from curtilage.calc.motors.elevators import drive_current, elevator_feeder
from curtilage.calc.motors.records import Motor, MotorFeeder, OnFeeder, Start, Stretch
from curtilage.calc.motors.starting import seen, start
from curtilage.calc.motors.together import motor_feeder
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

PUMP = Motor("L01", 5.0, 240.0, 1, "single_phase", 26.0, 1.15, False, 0.0, "")
WAY = (Stretch("transformer", 0.006, 0.012, 0.0, 0.0), Stretch("lateral", 0.0003, 0.0004, 0.0003, 0.0004),
       Stretch("GP", 0.018, 0.016, 0.018, 0.016), Stretch("terminals", 0.09, 0.02, 0.09, 0.02))
START = Start("L01", 240.0, 168.0, 0.5, WAY, "lateral", "GP", 15.0)


def motors() -> Iterator[Motor]:
    yield PUMP
    yield PUMP._replace(letter="G", service_factor=1.0)
    yield PUMP._replace(lra=149.0, fla=0.0, cool=True)
    yield PUMP._replace(hp=0.5, volts=120.0)
    yield PUMP._replace(hp=25.0, volts=480.0, phases=3, kind="squirrel_cage_other", fla=32.0)
    yield PUMP._replace(hp=30.0, volts=480.0, phases=3, kind="wound_rotor", fla=38.0, letter="F")


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    for x in motors():
        yield motor.told(Given(x, f"loads.{x.id}"), ed)
        yield locked_rotor.told(Given(x, f"loads.{x.id}"), ed)
        yield by_letter.told(Told("per_hp", 6.29, "kVA/hp", "given"), Given(x, f"loads.{x.id}"), ed)
    for amperes in (1.6, 130.0):
        yield breaker_limits.told(Given(PUMP, "loads.L01"), Told("I", amperes, "A", "given"), ed)
    yield motor_feeder.told(Given(MotorFeeder("D8", (OnFeeder("a", 34.0, 110.0), OnFeeder("b", 40.0, 60.0))), "feeders.D8"), ed)
    yield start.told(Given(START, "loads.L01"), ed)
    yield rotor_conductor.told(Told("I", 65.0, "A", "given"), ed)
    I_t = drive_current.told(Told("P", 95.0, "kVA", "given"), Told("V", 460.0, "V", "given"), Told("f_eff", 0.9, "", "given"))
    yield I_t
    yield elevator_feeder.told(Told("n", 6, "count", "given"), I_t, Told("f_demand", 0.79, "", "given"),
                               Told("I_c", 10.0, "A", "given"), ed)
    yield seen.told(Given(START, "loads.L01"), ed)
