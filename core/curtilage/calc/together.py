"""Branches side by side on one feeder or main: their loads and their neutrals added, without diversity between them."""
from typing import NamedTuple

from curtilage.calc.demand.expected import expected_structure, expected_together, high_factors, low_factors, typical_factors
from curtilage.calc.demand.neutral import neutral_current
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import Expected, PartLoad, Peak
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


class Whole(NamedTuple):
    """A part of a dwelling by the standard method on its own rows, and the whole of that dwelling."""

    id: str
    total: u.VA
    minimum: u.VA
    whole: u.VA                  # 0 where no feeder carries the whole dwelling
    volts: u.V


@method
def within_whole(p):
    """Load of a feeder inside a dwelling: that of its own rows, and never more than that of the whole dwelling.

    Source: 220.40 for the sum; that a part needs no more than the whole is common practice (310.12(A) says it of conductors).
    """
    S: u.VA = min(p.total, p.whole) if p.whole > NONE else p.total
    I: u.A = S / p.volts
    S_min: u.VA = S + (p.minimum - p.total)
    I_min: u.A = S_min / p.volts
    return PartLoad(p.total, S, I, S_min, I_min)


class StructurePeaks(NamedTuple):
    """Expected power of one structure with the low, the typical and the high factors."""

    winter_kw_low: u.kW
    winter_kvar_low: u.kVAR
    summer_kw_low: u.kW
    summer_kvar_low: u.kVAR
    winter_kw: u.kW
    winter_kvar: u.kVAR
    summer_kw: u.kW
    summer_kvar: u.kVAR
    winter_kw_high: u.kW
    winter_kvar_high: u.kVAR
    summer_kw_high: u.kW
    summer_kvar_high: u.kVAR


@method
def structure_peaks(k, ed):
    """Expected power of one structure, winter and summer, as a band; figures and their sources: see `expected`."""
    a = expected_structure(k, low_factors(ed), ed)
    b = expected_structure(k, typical_factors(ed), ed)
    c = expected_structure(k, high_factors(ed), ed)
    return StructurePeaks(a.winter_kw, a.winter_kvar, a.summer_kw, a.summer_kvar,
                          b.winter_kw, b.winter_kvar, b.summer_kw, b.summer_kvar,
                          c.winter_kw, c.winter_kvar, c.summer_kw, c.summer_kvar)


class Estate(NamedTuple):
    """Expected power of all structures with low, typical and high factors."""

    id: str
    low: tuple[Peak, ...]
    typical: tuple[Peak, ...]
    high: tuple[Peak, ...]


@method
def estate_peak(e, ed):
    """Expected peak of the estate as a band, with the coincidence between its structures; never a load for conductors."""
    a = expected_together(e.low, low_factors(ed))
    b = expected_together(e.typical, typical_factors(ed))
    c = expected_together(e.high, high_factors(ed))
    return Expected(a.kw, a.kva, b.kw, b.kva, c.kw, c.kva)


class Results(NamedTuple):
    """One dwelling by both methods."""

    id: str
    total: u.VA                  # standard
    climate: u.VA
    minimum: u.VA
    optional_total: u.VA
    optional_climate: u.VA
    optional_minimum: u.VA
    connected: u.VA              # nameplate behind the tiers of the optional method
    general: u.VA                # what they leave of it
    volts: u.V


class Difference(NamedTuple):
    """Optional method less standard method; negative where the optional one asks for less."""

    tiers: u.VA                  # what the tiers take off
    climate: u.VA
    total: u.VA
    amperes: u.A
    minimum_amperes: u.A


@method
def between_methods(r):
    """What the optional method changes, line by line where both have the line."""
    S_tiers: u.VA = r.general - r.connected
    S_climate: u.VA = r.optional_climate - r.climate
    S: u.VA = r.optional_total - r.total
    I: u.A = S / r.volts
    I_min: u.A = (r.optional_minimum - r.minimum) / r.volts
    return Difference(S_tiers, S_climate, S, I, I_min)
