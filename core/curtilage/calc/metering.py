"""What a meter has shown, in the form that the load calculation takes it."""

from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

W_PER_KW: u.W_per_kW = 1000.0


class Shown(NamedTuple):
    """The highest demand of a record."""

    id: str
    peak: u.kW
    power_factor: u.ratio


class PeakLoad(NamedTuple):
    """The same as apparent power."""

    va: u.VA


@method
def metered_peak(s):
    """Apparent power of a recorded peak; without its power factor a kW figure cannot be held against amperes."""
    S: u.VA("kW over power factor") = s.peak * W_PER_KW / s.power_factor
    return PeakLoad(S)


class New(NamedTuple):
    """One load that is added."""

    id: str
    va: u.VA


class Added(NamedTuple):
    """Loads of the list that are marked as future."""

    id: str
    rows: tuple[New, ...]


@method
def added_load(a):
    """Load that is added to an existing installation, in full."""
    S: u.VA("220.87: the new load in full") = sum(r.va for r in a.rows)
    return PeakLoad(S)
