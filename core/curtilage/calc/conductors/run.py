"""A branch circuit: from its load to its device, its conductors, its ground and its drop."""
from typing import NamedTuple

from curtilage.calc.conductors.ampacity import conditions
from curtilage.calc.conductors.drop import losses
from curtilage.calc.conductors.grounding_conductor import equipment_ground
from curtilage.calc.conductors.parallel import (
    NO_SIZE,
    column_together,
    smallest_for_drop,
    smallest_protected,
    smallest_with,
    together,
)
from curtilage.calc.conductors.protection import device, motor_device, nameplate_device, protects
from curtilage.calc.conductors.records import CHOOSE_SIZE, CircuitRun
from curtilage.calc.conductors.refusals import none_carries, too_long
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
ONE: u.count = 1


class Need(NamedTuple):
    """What a circuit must carry, and its device."""

    minimum: u.A                 # before factors
    carry: u.A                   # after factors
    own_rule: u.flag             # its device follows a nameplate or the motor rule, not the ampacity of the conductor
    device: object


@method
def largest_motor(c, I: u.A):
    """Current of the largest motor of a circuit of I amperes; one motor alone is all of it."""
    I_one: u.A("the largest motor, or the only one") = c.motor_va / c.volts if c.motor_va > 0 else I
    return I_one


@method
def need_of(c, I: u.A, m):
    """Minimum circuit ampacity and device of a circuit with a load of I amperes.

    A nameplate's minimum circuit ampacity already holds the 125 %; a motor takes it once on its table current, of several motors
    the largest, and the conductor must have it after factors; other continuous load is held at 125 % against the column before
    factors, and as it is after them.
    Source: NFPA 70 210.19(A)(1), 210.20(A), 430.22, 430.24, 440.4(B).
    """
    if c.mca > 0:
        I_min: u.A("NFPA 70 440.4(B): nameplate") = c.mca
        carry: u.A = I_min
    elif c.motor:
        I_one: u.A = largest_motor(c, I)
        I_rest: u.A("the other motors") = I - I_one
        I_min: u.A("NFPA 70 430.22, 430.24") = m.motor_conductor_factor * I_one + I_rest
        carry: u.A = I_min
    else:
        I_min: u.A = m.continuous_factor * I if c.continuous else I
        carry: u.A = I

    own_rule: u.flag("NFPA 70 240.4(G)") = c.mocp > 0 or c.motor
    if c.mocp > 0:
        return Need(I_min, carry, own_rule, nameplate_device(c.id, I_min, c.mocp, c.breaker, m))
    if c.motor:
        I_one: u.A = largest_motor(c, I)
        I_rest: u.A("the other motors") = I - I_one
        return Need(I_min, carry, own_rule, motor_device(I_one, I_rest, I_min, c.volts, c.breaker, m))
    return Need(I_min, carry, own_rule, device(I_min, c.breaker, m.branch_device_least, m))


@method
def carrying_size(c, I: u.A, need, w, m):
    """Smallest size that carries the circuit and is protected by its device.

    Errors: none in the table does. Source: NFPA 70 210.19(A)(1), 240.4, 430.22, 440.4(B).
    """
    if need.own_rule:
        carries: u.size = smallest_with(ONE, need.carry, w, m)
    else:
        carries: u.size = smallest_protected(ONE, I, need.minimum, need.device.rating, c.cords, w, m)
    if carries == NO_SIZE:
        raise none_carries(c.id, need.carry, need.device.rating)
    return carries


@method
def branch_circuit(c, m):
    """A branch circuit, from its load to its conductors; `c` is a `Circuit`, `m` a view of an edition ("cu-pvc").

    The conductor is the smallest that carries, is protected, and keeps the drop; a stated one is held against the same three.
    Drops are those of the whole load at the far end, conductors at 75 degC and stranded.
    Not for: taps, multi-outlet circuits loaded along their length, motors of different sizes in one group, circuits in parallel,
    temporary power.
    Errors: a value outside a table; a nameplate with no standard device; no size within the limits.
    Source: NFPA 70 210.19, 210.20, 240.4, 250.122, 310.15, Ch. 9 Tables 8 and 9.
    """
    I: u.A = c.va / c.volts
    need = need_of(c, I, m)
    d = need.device
    w = conditions(c.insulation, c.terminals, c.ambient, c.ccc, m)
    carries: u.size = carrying_size(c, I, need, w, m)
    if c.size == CHOOSE_SIZE:
        size: u.size = smallest_for_drop(ONE, carries, I, c.length, c.pf, c.volts, c.drop_limit, c.largest, m)
        if size == NO_SIZE:
            raise too_long(c.id, I, c.largest)
    else:
        size: u.size = c.size

    I_c: u.A = column_together(ONE, size, w)
    I_z: u.A = together(ONE, size, w)
    carries_ok: u.flag = I_c >= need.minimum and I_z >= need.carry
    protected: u.flag = d.rating <= d.most if need.own_rule else protects(d.rating, size, I_z, c.cords, m)
    spare: u.percent = WHOLE * (1 - need.carry / I_z)
    lost = losses(ONE, size, I, c.length, c.pf, c.volts, m)
    drop_ok: u.flag = lost.drop <= c.drop_limit
    drop_left: u.percent = c.drop_limit - lost.drop
    g = equipment_ground(d.rating, carries, size, m)
    return CircuitRun(I, need.minimum, d.least, d.most, d.rating, d.ok, d.margin, carries, size, I_z, spare, carries_ok,
                      protected, lost.dc, lost.drop, lost.exact, drop_ok, drop_left, lost.volts, g.table, g.size)
