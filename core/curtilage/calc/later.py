"""Room for a load that is added later."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method


class Room(NamedTuple):
    """What is left of one rating."""

    added: u.A
    before: u.A
    after: u.A
    fits: u.flag


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
