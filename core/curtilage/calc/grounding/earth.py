"""Electrodes in the earth: whether they count as such, and estimates of their resistance, for information.

The estimates are for even soil of one resistivity. Neither the voltage that somebody touches nor the one between his feet
is assessed here.
"""
from math import asinh, log, pi, sqrt

from curtilage.calc.conductors.records import CHOOSE_SIZE
from curtilage.calc.grounding.records import ContactRun, RingRun, RodsRun
from curtilage.calc.grounding.refusals import no_electrode, nothing_of, too_thick
from curtilage.calc.grounding.sizing import ENCASED, PLATE, RING, ROD, STEEL, WATER
from curtilage.calc.mass import IN_PER_FT
from curtilage.values import lines as u
from curtilage.values.method import method

M_PER_FT: u.m_per_ft = 0.3048
NOTHING_OHM_M: u.ohm_m = 0.0
NOTHING_FT: u.ft = 0.0
NOTHING_IN: u.inch = 0.0
SLENDER: u.ratio = 10.0          # length over diameter from which the formula of a rod is taken (common practice)


@method
def contact(x, ed):
    """Whether what lies in the earth or in concrete counts as an electrode; `x` is a `Contact`.

    Each kind has its least length, thickness, depth or surface; what a kind is not asked for is taken as there.
    Errors: an unknown kind. Source: NFPA 70 250.52(A), 250.53.
    """
    if x.kind == ROD:
        long_enough: u.flag = x.length >= ed.rod_length
        thick_enough: u.flag = x.diameter >= ed.rod_listed if x.listed else x.diameter >= ed.rod_diameter
        deep_enough: u.flag = True
    elif x.kind == ENCASED:
        long_enough: u.flag = x.length >= ed.encased_length
        if x.wire == CHOOSE_SIZE:
            thick_enough: u.flag = x.diameter >= ed.encased_bar
        else:
            thick_enough: u.flag = ed.cmil[x.wire] >= ed.cmil[ed.encased_wire]
        deep_enough: u.flag = True
    elif x.kind == RING:
        long_enough: u.flag = x.length >= ed.ring_length
        thick_enough: u.flag = ed.cmil[x.wire] >= ed.cmil[ed.ring_wire]
        deep_enough: u.flag = x.depth >= ed.ring_depth
    elif x.kind == PLATE:
        long_enough: u.flag = x.area >= ed.plate_area
        thick_enough: u.flag = True
        deep_enough: u.flag = True
    elif x.kind == WATER or x.kind == STEEL:
        long_enough: u.flag = x.length >= ed.pipe_length
        thick_enough: u.flag = True
        deep_enough: u.flag = True
    else:
        raise no_electrode(x.kind)
    ok: u.flag = long_enough and thick_enough and deep_enough
    return ContactRun(long_enough, thick_enough, deep_enough, ok)


@method
def rod_resistance(rho: u.ohm_m, L: u.ft, d: u.inch):
    """Resistance to earth of one vertical rod of length L and diameter d in even soil.

    For information. Not for: layered soil, rods in bedrock, seasons.
    Errors: lengths that are not above 0; a rod that is not slender.
    Source: H. B. Dwight, Calculation of Resistances to Ground, AIEE 1936; IEEE Std 142 (table of formulas).
    """
    if rho <= NOTHING_OHM_M:
        raise nothing_of("the resistivity of the soil in ohm-m", rho)
    if L <= NOTHING_FT:
        raise nothing_of("the length of the rod in ft", L)
    if d <= NOTHING_IN:
        raise nothing_of("the diameter of the rod in in", d)
    a: u.ft = d / 2 / IN_PER_FT
    if L < SLENDER * 2 * a:
        raise too_thick(L, d)
    R: u.ohm = rho / (2 * pi * L * M_PER_FT) * (log(4 * L / a) - 1)
    return R


@method
def rods(x, ed):
    """Resistance to earth of rods alike that share one current equally; `x` is a `Rods`.

    Two rods raise each other: the mutual resistance of evenly loaded rods in closed form, of which Dwight's two series (closer
    than long, farther than long) are the expansions. That all rods carry the same is exact for two and for a ring, and within a
    few percent otherwise. For information.
    Errors: as for one rod; several rods without a spacing.
    Source: H. B. Dwight, AIEE 1936; IEEE Std 142 (two rods); closed form derived.
    """
    R_1: u.ohm = rod_resistance(x.resistivity, x.length, x.diameter)
    if x.count > 1 and x.spacing <= NOTHING_FT:
        raise nothing_of("the spacing of the rods in ft", x.spacing)
    R_m: u.ohm("mutual resistance, summed over the pairs") = sum(
        x.resistivity / (2 * pi * x.length * M_PER_FT) * (
            asinh(2 * x.length / (p.steps * x.spacing)) + p.steps * x.spacing / (2 * x.length)
            - sqrt(1 + (p.steps * x.spacing / (2 * x.length)) ** 2)) for p in x.pairs)
    R: u.ohm = R_1 / x.count + 2 * R_m / x.count ** 2
    below: u.flag = R <= ed.rod_resistance
    return RodsRun(R_1, R, below)


@method
def ring_resistance(x, ed):
    """Resistance to earth of a ring of bare wire; `x` is a `Ring`, taken as a circle of the same length around.

    In ohm, for information. Errors: resistivity, length or depth that is not above 0.
    Source: H. B. Dwight, AIEE 1936; IEEE Std 142 (ring of wire); diameter of wire Ch. 9 Table 8.
    """
    if x.resistivity <= NOTHING_OHM_M:
        raise nothing_of("the resistivity of the soil in ohm-m", x.resistivity)
    if x.length <= NOTHING_FT:
        raise nothing_of("the length of the ring in ft", x.length)
    if x.depth <= NOTHING_FT:
        raise nothing_of("the depth of the ring in ft", x.depth)
    D: u.ft = x.length / pi
    d: u.ft = ed.bare_diameter[x.wire] / IN_PER_FT
    s: u.ft("twice the depth: the distance to the image") = 2 * x.depth
    R: u.ohm = x.resistivity / (2 * pi ** 2 * D * M_PER_FT) * (log(8 * D / d) + log(4 * D / s))
    return RingRun(R)


@method
def four_probe(a: u.ft, R: u.ohm):
    """Resistivity of soil, ohm-m, by four probes in a line at spacing a, driven much less deep than that.

    R is what the instrument shows. Errors: none. Source: F. Wenner 1915, as in MIL-HDBK-419A vol. 2.
    """
    rho: u.ohm_m = 2 * pi * a * M_PER_FT * R
    return rho
