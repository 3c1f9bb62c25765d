"""How long a breaker takes at most to clear a fault to ground: bounds, where its curve is not known."""
from curtilage.calc.fault.chain import TO_NEUTRAL, bolted
from curtilage.calc.fault.records import Cleared, Device
from curtilage.calc.fault.refusals import need_not_trip
from curtilage.calc.fault.wires import one_way
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
ONE: u.count = 1
AT_135: u.ratio = 1.35           # multiples of the rating at which standards bound the time
AT_200: u.ratio = 2.0
AT_300: u.ratio = 3.0
BY_GFCI: u.text = "ground-fault protection for personnel"
BY_SETTING: u.text = "the stated instantaneous trip"
BY_USUAL: u.text = "the instantaneous trip, its pick-up taken at the usual upper end"
BY_CURVE: u.text = "the stated trip curve"
BY_STANDARD: u.text = "the longest inverse time that the standards of breakers allow"


@method
def inverse_time(D: u.A, m: u.ratio, ed):
    """Longest time in which a moulded-case breaker of D amperes trips at m times its rating by its inverse-time element.

    The standards bound it at 135, 200 and 300 %. Above 300 % the bound falls with the square of the current: an element that is
    heated, and loses heat the more the longer it takes, never needs more I^2 t at a higher current than at a lower one.
    Not for: fuses, breakers with a short-time delay, electronic trips set to a long delay.
    Errors: below 135 %, where no trip is promised; a rating above the table.
    Source: UL 489 (135 and 200 %), NEMA AB 4 (300 %).
    """
    if m < AT_135:
        raise need_not_trip(D, m)
    if m >= AT_300:
        t: u.second("derived: I^2 t does not grow with the current") = ed.trip_300(D) * (AT_300 / m) ** 2
    elif m >= AT_200:
        t: u.second = ed.trip_200(D)
    else:
        t: u.second = ed.trip_135(D)
    return t


@method
def by_curve(c, m: u.ratio, t_most: u.second):
    """Time at m times the rating by the stated points, each good from its multiple on; `t_most` below the lowest of them."""
    for p in c.curve:
        if m >= p.multiple:
            t: u.second = p.time
            break
    else:
        t: u.second = t_most
    return t


@method
def clearing(c, ed):
    """Longest time in which a breaker clears its least fault to ground; `c` is a `Device`.

    By ground-fault protection, by an instantaneous trip that the fault is sure to reach, by the stated curve, else by what the
    standards of breakers allow. Without a statement the pick-up is taken at the usual upper end, with its tolerance above.
    Not for: selective coordination, arcing faults, breakers that were not maintained.
    Errors: below 135 % of the rating, where no trip is promised.
    Source: NFPA 70 250.4(A)(5) asks that the device operate, and gives no time; bounds as cited beside the rules.
    """
    m: u.ratio = c.fault / c.rating
    stated: u.flag = c.pickup > 0
    drawn: u.flag = len(c.curve) > 0
    k_pick: u.ratio = c.pickup if stated else ed.instantaneous_usual(c.rating)
    sure: u.ratio = k_pick * (1 + c.tolerance / WHOLE)
    wanted: u.A = sure * c.rating
    fits: u.A = c.fault / sure
    loop: u.ohm = c.volts * TO_NEUTRAL / wanted
    reached: u.flag = m >= sure and (stated or not drawn)
    if c.gfci:
        t: u.second = ed.gfci_time
        by: u.text = BY_GFCI
    elif reached:
        t: u.second = ed.instantaneous_time
        by: u.text = BY_SETTING if stated else BY_USUAL
    else:
        t_inv: u.second = inverse_time(c.rating, m, ed)
        t_c: u.second = by_curve(c, m, t_inv)
        t: u.second = min(t_inv, t_c)
        by: u.text = BY_CURVE if t_c < t_inv else BY_STANDARD
    ok: u.flag = t <= c.limit
    unknown: u.flag = not ok and not stated and not drawn and m >= ed.instantaneous_low
    return Cleared(c.fault, m, sure, wanted, loop, fits, t, by, ok, unknown)


@method
def far_end(c, m):
    """A fault to ground at the far end of a branch circuit, and how long its breaker takes at most; `c` is a `Far`.

    Warm conductors, weakest source; the whole current comes back on the equipment ground.
    Not for: metal raceways as the ground, circuits whose branches end beyond the stated length. Errors: as `clearing`.
    Source: as `clearing`; NFPA 70 Ch. 9 Table 9.
    """
    R_loop: u.ohm = c.r_lg + one_way(m.r[c.size], c.length, ONE) + one_way(m.r[c.ground], c.length, ONE)
    X_loop: u.ohm = c.x_lg + one_way(m.x[c.size], c.length, ONE) + one_way(m.x[c.ground], c.length, ONE)
    V_n: u.V = c.volts * TO_NEUTRAL
    I_f: u.A = bolted(V_n, R_loop, X_loop)
    return clearing(Device(c.id, c.rating, I_f, c.pickup, c.tolerance, c.curve, c.gfci, c.limit, c.volts), m)
