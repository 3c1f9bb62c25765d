"""Overcurrent devices: the next standard size, and what a conductor may be protected by."""
from typing import NamedTuple

from curtilage.calc.conductors.refusals import nameplate_closed
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
NO_LIMIT: u.A = 0.0
MOTOR: u.text = "single_phase"


class Device(NamedTuple):
    """A device held against what it must carry; `most` is 0 where no rule caps it."""

    least: u.A
    most: u.A
    rating: u.A
    ok: u.flag
    margin: u.percent


@method
def protects(D: u.A, s: u.size, I_z: u.A, cords: u.flag, m):
    """Whether a device of rating D protects a conductor of ampacity I_z: the general rule.

    The next standard size above the ampacity will do up to 800 A, but not for circuits of receptacles for cord-connected
    portable loads; above 800 A the ampacity must reach the rating; small conductors have limits of their own.
    Not for: motors and equipment with a nameplate of mca and mocp (240.4(G)), taps, transformers.
    Source: NFPA 70 240.4, 240.4(B), 240.4(C), 240.4(D).
    """
    protected: u.flag("NFPA 70 240.4(B), (C), (D)") = D <= m.small_limit[s] and (D <= I_z or (
        not cords and D <= m.next_size_limit and D <= m.standard_rating(I_z)))
    return protected


@method
def device(I_min: u.A, stated: u.A, floor: u.A, m):
    """The next standard device at or above the minimum, or the stated one held against it.

    In A; `stated` 0 means choose; `floor` is the smallest device in use on this kind of circuit, 0 if there is none.
    Source: NFPA 70 210.20(A), 215.3, 240.6(A).
    """
    asked: u.A = max(I_min, floor)
    least: u.A = m.standard_rating(asked)
    most: u.A("no rule caps it") = NO_LIMIT
    if stated > 0:
        rating: u.A = stated
    else:
        rating: u.A = least
    ok: u.flag = rating >= I_min and m.standard_rating(rating) == rating
    margin: u.percent = WHOLE * (1 - I_min / rating)
    return Device(least, most, rating, ok, margin)


@method
def nameplate_device(where, mca: u.A, mocp: u.A, stated: u.A, m):
    """The largest standard device the nameplate allows, or the stated one held between mca and mocp.

    In A. The largest is chosen, not the smallest, so that the equipment starts.
    Errors: no standard rating between the two figures.
    Not for: motors without a nameplate of minimum circuit ampacity.
    Source: NFPA 70 440.4(B), 440.22(A); the ladder is 240.6(A).
    """
    least: u.A = m.standard_rating(mca)
    most: u.A = m.rating_not_above(mocp)
    if stated > 0:
        rating: u.A = stated
    else:
        if least > most:
            raise nameplate_closed(where, mca, mocp)
        rating: u.A = most
    ok: u.flag("NFPA 70 440.4(B)") = rating >= mca and rating <= mocp and m.standard_rating(rating) == rating
    margin: u.percent = WHOLE * (1 - mca / rating)
    return Device(least, most, rating, ok, margin)


@method
def motor_device_most(I: u.A, V: u.V, m):
    """Largest inverse-time breaker of one motor of I amperes at V volts.

    250 % of the table current, next standard size up; for a motor of 6 A or less not below 20 A at 120 V or 15 A at 240 V. The
    code states those for several small motors on one circuit; that one alone may have what several have is common practice.
    Source: NFPA 70 430.52(C)(1) and its exception 1, Table 430.52; 430.53(A).
    """
    at_most: u.A = m.motor_device[MOTOR] * I
    standard: u.A("NFPA 70 430.52(C)(1) exception 1") = m.standard_rating(at_most)
    if I <= m.small_motor:
        small: u.A = m.small_motor_device_120 if V <= m.small_motor_volts else m.small_motor_device
        most: u.A = max(standard, small)
    else:
        most: u.A = standard
    return most


@method
def motors_device_most(I: u.A, I_rest: u.A, V: u.V, m):
    """Largest inverse-time breaker of a motor of I amperes with other motors of together I_rest amperes on the same circuit.

    That of the largest motor and the currents of the others; nothing is rounded up once more.
    Source: NFPA 70 430.52(C)(1), 430.53(C)(4).
    """
    most: u.A = motor_device_most(I, V, m)
    if I_rest > 0:
        at_most: u.A("NFPA 70 430.53(C)(4)") = most + I_rest
        most: u.A = m.rating_not_above(at_most)
    return most


@method
def motor_device(I: u.A, I_rest: u.A, I_min: u.A, V: u.V, stated: u.A, m):
    """The inverse-time breaker of a motor circuit: the largest allowed, so that it starts, or the stated one held against it.

    In A; I is the full-load current of the largest motor by the tables, I_rest that of all others on the circuit.
    A stated device below I_min is refused here although the code names no least device: it would not hold the motor.
    Not for: fuses, instantaneous-trip breakers.
    Source: as `motors_device_most`.
    """
    least: u.A = m.standard_rating(I_min)
    most: u.A = motors_device_most(I, I_rest, V, m)
    if stated > 0:
        rating: u.A = stated
    else:
        rating: u.A = most
    ok: u.flag("NFPA 70 430.52(C)(1)") = rating >= I_min and rating <= most and m.standard_rating(rating) == rating
    margin: u.percent = WHOLE * (1 - I_min / rating)
    return Device(least, most, rating, ok, margin)
