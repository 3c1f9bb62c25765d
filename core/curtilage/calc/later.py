"""Room for a load that is added later, and what it does to the voltage."""
from typing import NamedTuple

from curtilage.calc.conductors.drop import losses
from curtilage.values import lines as u
from curtilage.values.method import method


class Room(NamedTuple):
    """What is left of one rating."""

    added: u.A
    before: u.A
    after: u.A
    fits: u.flag


class DropWith(NamedTuple):
    """The voltage drop of one run with a later load on it."""

    current: u.A
    drop: u.percent
    ok: u.flag


@method
def room(I_min: u.A, I_rated: u.A, S: u.VA, V: u.V, continuous: u.flag, ed):
    """Room in a device or conductor before and after a load is added in full.

    Not for: a load that is managed, or that is not coincident with what is there (220.60).
    """
    I: u.A = S / V
    I_added: u.A = ed.continuous_factor * I if continuous else I
    I_before: u.A = I_rated - I_min
    I_after: u.A = I_before - I_added
    fits: u.flag = I_after >= 0
    return Room(I_added, I_before, I_after, fits)


@method
def drop_with(I: u.A, S: u.VA, V: u.V, n: u.count, size: u.size, L: u.ft, pf: u.ratio, most: u.percent, m):
    """Voltage drop of n sets of one size over L feet, after a load of S VA at V is added in full to their I amperes.

    The load counts as it is, without 125 %: a drop follows the current that flows.
    Not for: a load between line and neutral, another power factor than that of the run.
    Errors: as `losses`. Source: NFPA 70 215.2(A), informational note; Ch. 9 Table 9.
    """
    I_all: u.A = I + S / V
    lost = losses(n, size, I_all, L, pf, V, m)
    ok: u.flag = lost.drop <= most
    return DropWith(I_all, lost.drop, ok)
