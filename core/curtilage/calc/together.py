"""Branches side by side on one feeder or main: their loads and their neutrals added, without diversity between them."""
from typing import NamedTuple

from curtilage.calc.demand.expected import expected
from curtilage.calc.demand.neutral import neutral_current
from curtilage.calc.demand.records import Kinds
from curtilage.values import lines as u
from curtilage.values.method import method


class Part(NamedTuple):
    """The load of one branch, by the method that was chosen for it."""

    id: str
    total: u.VA
    minimum: u.VA                # with its continuous part at 125 %


class Parts(NamedTuple):
    """Branches on one feeder, main or service."""

    id: str
    parts: tuple[Part, ...]
    volts: u.V


class Together(NamedTuple):
    """Their sum."""

    total: u.VA
    amperes: u.A
    minimum: u.VA
    minimum_amperes: u.A


@method
def together(p):
    """Loads of several branches on one feeder, main or service; each keeps its own demand, and none is taken between them.

    Source: 220.40. Not for: branches of one dwelling (calculate the whole), two dwellings alone (220.85).
    """
    S: u.VA("220.40: the sum of the branches") = sum(x.total for x in p.parts)
    I: u.A = S / p.volts
    S_min: u.VA = sum(x.minimum for x in p.parts)
    I_min: u.A = S_min / p.volts
    return Together(S, I, S_min, I_min)


class NeutralPart(NamedTuple):
    """What one branch puts on the neutral, before any reduction."""

    id: str
    unbalanced: u.VA
    nonlinear: u.VA


class NeutralParts(NamedTuple):
    """Branches that share a neutral."""

    id: str
    parts: tuple[NeutralPart, ...]
    volts: u.V
    wye: u.flag                  # three-phase, four-wire, wye: never here, and the rule asks
    two_of_wye: u.flag


class NeutralTogether(NamedTuple):
    """The neutral that several branches share."""

    unbalanced: u.VA
    nonlinear: u.VA
    before: u.A
    amperes: u.A


@method
def neutral_together(p, ed):
    """Unbalanced loads of several branches added, then reduced once as the system allows. Source: 220.61."""
    S: u.VA = sum(x.unbalanced for x in p.parts)
    S_nonlinear: u.VA = sum(x.nonlinear for x in p.parts)
    I: u.A = S / p.volts
    I_nonlinear: u.A = S_nonlinear / p.volts
    I_n: u.A = neutral_current(I, I_nonlinear, p, ed)
    return NeutralTogether(S, S_nonlinear, I, I_n)


class Carried(NamedTuple):
    """A neutral current."""

    id: str
    amperes: u.A
    volts: u.V


class NeutralLoad(NamedTuple):
    """The same as a load between the lines."""

    va: u.VA


@method
def neutral_load(n):
    """The reduced neutral current as a load at the voltage between the lines, the form that a feeder takes it in."""
    S: u.VA = n.amperes * n.volts
    return NeutralLoad(S)


class Structures(NamedTuple):
    """Rows by kind, structure by structure."""

    id: str
    kinds: tuple[Kinds, ...]


@method
def expected_peak(s, ed):
    """Expected peak of all structures together; never a load for conductors. Source and figures: see `expected`."""
    return expected(s.kinds, ed)
