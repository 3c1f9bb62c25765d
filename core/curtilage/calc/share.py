"""One of several alike circuits of a row."""
from typing import NamedTuple

from curtilage.calc.demand.motors import motor_load
from curtilage.values import lines as u
from curtilage.values.method import method


class Shared(NamedTuple):
    """A row of the load list that is fed by several alike branch circuits."""

    id: str
    va: u.VA
    circuits: u.count


class Each(NamedTuple):
    """What one of them carries."""

    va: u.VA


@method
def per_circuit(r):
    """Load of one of several alike circuits: the row, shared equally."""
    S_each: u.VA("shared equally by the circuits of the row") = r.va / r.circuits
    return Each(S_each)


@method
def motor_circuit(x, n: u.count, ed):
    """Load of one of `n` alike circuits of a row of motors, by their table current. Source: 430.6(A), Table 430.248."""
    m = motor_load(x, ed)
    S_each: u.VA("shared equally by the circuits of the row") = m.load / n
    return Each(S_each)
