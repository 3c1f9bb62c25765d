"""The fullest of several alike circuits of a row."""
from math import floor
from typing import NamedTuple

from curtilage.calc.demand.motors import table_current
from curtilage.values import lines as u
from curtilage.values.method import method

ONE: u.count = 1


class Shared(NamedTuple):
    """A row of the load list that is fed by several alike branch circuits."""

    id: str
    va: u.VA
    qty: u.count
    circuits: u.count


class Each(NamedTuple):
    """What the fullest of them carries, what one unit takes, and what the row takes."""

    va: u.VA
    one: u.VA
    row: u.VA


@method
def units_on_one(qty: u.count, n: u.count):
    """Units on the fullest of `n` alike circuits that feed `qty` units.

    Units stay whole and lie as evenly as they go, so the fullest circuit holds the next whole number. Where every unit has the
    same number of circuits for itself (2 racks on 4 circuits) each holds an equal part of a unit. Source: 210.19(A), 210.20(A).
    """
    n_own: u.count("circuits that every unit has for itself") = floor(n / max(qty, ONE))
    if n_own * qty == n:
        n_one: u.count = qty / n
    else:
        n_one: u.count("next whole number of units") = -floor(-qty / n)
    return n_one


@method
def per_circuit(r):
    """Load of the fullest of several alike circuits: its whole units at an equal part of the row each."""
    n_one: u.count = units_on_one(r.qty, r.circuits)
    S_one: u.VA = r.va / max(r.qty, ONE)
    S_each: u.VA = S_one * n_one
    return Each(S_each, S_one, r.va)


@method
def motor_circuit(x, n: u.count, ed):
    """Load of the fullest of `n` alike circuits of a row of motors, by their table current.

    A motor is never shared by circuits. Source: 430.6(A), Table 430.248.
    """
    n_part: u.count = units_on_one(x.qty, n)
    n_one: u.count = max(ONE, n_part)
    I_fl: u.A = table_current(x, ed)
    S_one: u.VA("nominal voltage of the circuit") = I_fl * x.volts
    S_each: u.VA = S_one * n_one
    S_row: u.VA = S_one * x.qty
    return Each(S_each, S_one, S_row)
