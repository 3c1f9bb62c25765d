"""Expected peak: what is likely to flow, for the utility. Never a load for conductors, and never mixed with one.

The model: each kind of load times a demand factor, real and reactive power added apart; heating and cooling as two seasons;
vehicle supply in full (a handful of cars in one household has no diversity to speak of), or at the set point of a manager;
racks, controls and life safety in full. Between the structures of one estate a coincidence near one, and none of the
diversity that utilities take among many customers. Factors are data with their sources; they come as low, typical, high.
"""
from math import hypot, sqrt

from curtilage.calc.demand.results import Expected, Factors, Peak, Power, Season_peak
from curtilage.calc.demand.vehicles import managed_load
from curtilage.values import lines as u
from curtilage.values.method import method

W_PER_KW: u.W_per_kW = 1000.0
VAR_PER_KVAR: u.VAR_per_kVAR = 1000.0


@method
def low_factors(ed):
    """Low demand factors of the expected peak."""
    return Factors(ed.expect_lighting_low, ed.expect_small_low, ed.expect_motors_low, ed.expect_heaters_low,
                   ed.expect_refrigeration_low, ed.expect_cooling_low, ed.expect_between_low)


@method
def typical_factors(ed):
    """Typical demand factors of the expected peak."""
    return Factors(ed.expect_lighting, ed.expect_small, ed.expect_motors, ed.expect_heaters, ed.expect_refrigeration,
                   ed.expect_cooling, ed.expect_between)


@method
def high_factors(ed):
    """High demand factors of the expected peak."""
    return Factors(ed.expect_lighting_high, ed.expect_small_high, ed.expect_motors_high, ed.expect_heaters_high,
                   ed.expect_refrigeration_high, ed.expect_cooling_high, ed.expect_between_high)


@method
def real_power(x):
    """Real power of a row at its power factor. kW."""
    P: u.kW = x.va * x.pf / W_PER_KW
    return P


@method
def reactive_power(x):
    """Reactive power of a row at its power factor. kVAR."""
    Q: u.kVAR = x.va * sqrt(1 - x.pf * x.pf) / VAR_PER_KVAR
    return Q


@method
def power(rows):
    """Real and reactive power of some rows."""
    P: u.kW = sum(real_power(x) for x in rows)
    Q: u.kVAR = sum(reactive_power(x) for x in rows)
    return Power(P, Q)


@method
def expected_structure(k, f, ed):
    """Expected power of one structure, winter and summer, with one set of factors.

    `k`: rows by kind; `f`: factors. Managed members count at their set point only with all proofs, else in full.
    Not for: conductors and devices. kW and kVAR.
    """
    t = power(k.lighting)
    s = power(k.small)
    m = power(k.motors)
    h = power(k.heaters)
    r = power(k.refrigeration)
    w = power(k.winter)
    p = power(k.winter_pumps)
    c = power(k.summer)
    v = power(k.vehicles)
    a = power(k.constant)
    held = tuple(managed_load(x, ed) for x in k.managers)
    P_held: u.kW("vehicle supply, unity power factor") = sum(x.used for x in held) / W_PER_KW
    P: u.kW = (f.lighting * t.kw + f.small * s.kw + f.motors * m.kw + f.heaters * h.kw + f.refrigeration * r.kw + v.kw + a.kw
               + P_held)
    Q: u.kVAR = (f.lighting * t.kvar + f.small * s.kvar + f.motors * m.kvar + f.heaters * h.kvar + f.refrigeration * r.kvar
                 + v.kvar + a.kvar)
    P_winter: u.kW = P + f.heaters * w.kw + f.cooling * p.kw
    Q_winter: u.kVAR = Q + f.heaters * w.kvar + f.cooling * p.kvar
    P_summer: u.kW = P + f.cooling * c.kw
    Q_summer: u.kVAR = Q + f.cooling * c.kvar
    return Peak(k.id, P_winter, Q_winter, P_summer, Q_summer)


@method
def expected_together(peaks, f):
    """Expected peak of structures together: each season added up, times the coincidence between structures. kW, kVA."""
    P_winter: u.kW = f.between * sum(x.winter_kw for x in peaks)
    Q_winter: u.kVAR = f.between * sum(x.winter_kvar for x in peaks)
    P_summer: u.kW = f.between * sum(x.summer_kw for x in peaks)
    Q_summer: u.kVAR = f.between * sum(x.summer_kvar for x in peaks)
    K_winter: u.kVA = hypot(P_winter, Q_winter)
    K_summer: u.kVA = hypot(P_summer, Q_summer)
    P_peak: u.kW = max(P_winter, P_summer)
    S_peak: u.kVA = max(K_winter, K_summer)
    return Season_peak(P_winter, K_winter, P_summer, K_summer, P_peak, S_peak)


@method
def expected(kinds, ed):
    """Expected peak of an estate or of any part of it, as a band: low, typical, high. kW and kVA.

    `kinds`: one record of rows by kind for each structure. Figures and where they come from stand in the edition's data
    under names that begin with `expect`. Not for: conductors, devices, any code load; sizing of a transformer is the
    utility's.
    """
    low = low_factors(ed)
    typical = typical_factors(ed)
    high = high_factors(ed)
    lows = tuple(expected_structure(k, low, ed) for k in kinds)
    typicals = tuple(expected_structure(k, typical, ed) for k in kinds)
    highs = tuple(expected_structure(k, high, ed) for k in kinds)
    a = expected_together(lows, low)
    b = expected_together(typicals, typical)
    c = expected_together(highs, high)
    return Expected(a.kw, a.kva, b.kw, b.kva, c.kw, c.kva)
