"""The neutral of a feeder or service: the largest unbalanced load, and what the system allows to take off."""
from curtilage.calc.demand.appliances import appliance, appliance_load
from curtilage.calc.demand.cooking import cooking_load
from curtilage.calc.demand.dryers import dryer_load
from curtilage.calc.demand.general import general_load
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.other import receptacle_load
from curtilage.calc.demand.records import NO_AMPERES, NONE, VA_PER_KVA
from curtilage.calc.demand.results import Neutral, Unbalanced
from curtilage.calc.demand.welders import rv_site
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def neutral_row(x, ed):
    """What a row puts on the neutral: its load if it is connected to it, nothing for a load between lines. VA. 220.61(A)."""
    if x.neutral:
        m = motor_load(x, ed)
        S_neutral: u.VA = m.load
        S_one: u.VA = m.one
        S_nonlinear: u.VA = S_neutral * x.nonlinear
    else:
        S_neutral: u.VA = NONE
        S_one: u.VA = NONE
        S_nonlinear: u.VA = NONE
    return Unbalanced(S_neutral, S_one, S_nonlinear)


@method
def neutral_rows(rows, ed):
    """What some rows together put on the neutral, and the largest motor among those on it. VA."""
    some = tuple(neutral_row(x, ed) for x in rows)
    S: u.VA = sum(n.load for n in some)
    S_one: u.VA = max((n.one for n in some), default=NONE)
    S_nonlinear: u.VA = sum(n.nonlinear for n in some)
    return Unbalanced(S, S_one, S_nonlinear)


@method
def neutral_group(g, ed):
    """What a group of loads unlikely to run together puts on the neutral. VA."""
    some = tuple(neutral_row(x, ed) for x in g.members)
    S_largest: u.VA = max((n.load for n in some), default=NONE)
    S_all: u.VA = sum(n.load for n in some)
    S: u.VA = S_largest if g.reasoned else S_all
    S_one: u.VA = max((n.one for n in some), default=NONE)
    S_nonlinear: u.VA = sum(n.nonlinear for n in some)
    return Unbalanced(S, S_one, S_nonlinear)


@method
def neutral_appliance(x, f: u.ratio, ed):
    """What a row of fastened appliances puts on the neutral, with the factor `f` of all of them. VA."""
    a = appliance(x, ed)
    S_demand: u.VA = f * a.counted + a.rest
    S: u.VA = S_demand if x.neutral else NONE
    S_one: u.VA = a.one if x.neutral else NONE
    S_nonlinear: u.VA = S * x.nonlinear
    return Unbalanced(S, S_one, S_nonlinear)


@method
def neutral_climate(c, ed):
    """What heating or cooling, whichever is more, and all that runs in both put on the neutral. VA."""
    pumps = tuple(h.pump for h in c.heat_pumps)
    p = neutral_rows(pumps, ed)
    s = neutral_rows(c.supplementary, ed)
    h = neutral_rows(c.heat, ed)
    z = neutral_rows(c.zone_heat, ed)
    t = neutral_rows(c.storage, ed)
    k = neutral_rows(c.cooling, ed)
    b = neutral_rows(c.always, ed)
    S_heating: u.VA = s.load + h.load + z.load + t.load
    S: u.VA = p.load + max(S_heating, k.load) + b.load
    S_one: u.VA = max(p.one, k.one, b.one)
    S_nonlinear: u.VA = p.nonlinear + max(s.nonlinear + h.nonlinear + z.nonlinear + t.nonlinear, k.nonlinear) + b.nonlinear
    return Unbalanced(S, S_one, S_nonlinear)


@method
def neutral_current(I: u.A, I_nonlinear: u.A, w, ed):
    """Neutral current after the reduction for what exceeds the first part of the unbalanced load. A.

    On a three-phase, four-wire wye the nonlinear share is kept in full; on two lines and neutral of such a system nothing
    is taken off; on 120/240 V, single phase, nonlinear loads do not bar the reduction. Source: 220.61(B)(2), (C).
    """
    if w.two_of_wye:
        I_n: u.A = I
    else:
        I_kept: u.A = I_nonlinear if w.wye else NO_AMPERES
        I_rest: u.A = I - I_kept
        I_reduced: u.A = ed.neutral_demand(I_rest)
        I_n: u.A = I_kept + I_reduced
    return I_n


@method
def dwelling_neutral(d, w, ed):
    """Neutral of a dwelling's feeder or service, by the standard method whichever method the lines follow. VA and A.

    General load after its tiers; cooking and dryers at their share of the demand on the lines (all of them, as the code
    writes it, even where one appliance takes no neutral); appliances with the factor of the lines; of everything else what
    is connected to the neutral. The two legs are taken as balanced: VA are divided by the voltage between lines, as in the
    informative examples. `w`: the system. Source: 220.61.
    """
    g = general_load(d, ed)
    a = appliance_load(d, ed)
    k = cooking_load(d.cooking, ed)
    y = dryer_load(d.dryers, ed)
    S_cooking: u.VA = ed.neutral_share * k.used * VA_PER_KVA
    S_dryers: u.VA = ed.neutral_share * y.demand
    some = tuple(neutral_appliance(x, a.factor, ed) for x in d.appliances)
    groups = tuple(neutral_group(x, ed) for x in (*d.appliance_groups, *d.groups))
    c = neutral_climate(d.climate, ed)
    m = neutral_rows(d.motors, ed)
    v = neutral_rows(d.vehicles, ed)
    r = neutral_rows(d.loads, ed)
    held = tuple(neutral_rows(x.members, ed) for x in d.managers)
    S_appliances: u.VA = sum(n.load for n in some)
    S_rest: u.VA = m.load + v.load + r.load + sum(n.load for n in groups) + sum(n.load for n in held)
    P_neutral: u.VA = max(max((n.one for n in some), default=NONE), max((n.one for n in groups), default=NONE), c.one, m.one,
                          r.one)
    M: u.VA = ed.largest_motor * P_neutral
    S: u.VA = g.demand + S_cooking + S_dryers + S_appliances + c.load + S_rest + M
    S_nonlinear: u.VA = (sum(n.nonlinear for n in some) + sum(n.nonlinear for n in groups) + c.nonlinear + m.nonlinear
                         + v.nonlinear + r.nonlinear + sum(n.nonlinear for n in held))
    I: u.A = S / w.volts
    I_nonlinear: u.A = S_nonlinear / w.volts
    I_n: u.A = neutral_current(I, I_nonlinear, w, ed)
    return Neutral(g.demand, S_cooking, S_dryers, S_appliances, c.load, S_rest, M, S, S_nonlinear, I, I_n)


@method
def other_neutral(d, w, ed):
    """Neutral of a structure that is no dwelling: what is connected to it, receptacles after their reduction. VA and A.

    Recreational-vehicle sites count in full. Legs are taken as balanced. Source: 220.61.
    """
    o = receptacle_load(d.receptacles, ed)
    t = neutral_rows(d.lighting, ed)
    r = neutral_rows(d.loads, ed)
    m = neutral_rows(d.motors, ed)
    v = neutral_rows(d.vehicles, ed)
    c = neutral_climate(d.climate, ed)
    groups = tuple(neutral_group(x, ed) for x in d.groups)
    held = tuple(neutral_rows(x.members, ed) for x in d.managers)
    S_rv: u.VA = sum(rv_site(x, ed) for x in d.rv)
    S_general: u.VA = o.demand + t.load
    S_rest: u.VA = r.load + m.load + v.load + sum(n.load for n in groups) + sum(n.load for n in held) + S_rv
    P_neutral: u.VA = max(r.one, m.one, c.one, max((n.one for n in groups), default=NONE))
    M: u.VA = ed.largest_motor * P_neutral
    S: u.VA = S_general + c.load + S_rest + M
    S_nonlinear: u.VA = (t.nonlinear + r.nonlinear + m.nonlinear + v.nonlinear + c.nonlinear
                         + sum(n.nonlinear for n in groups) + sum(n.nonlinear for n in held))
    I: u.A = S / w.volts
    I_nonlinear: u.A = S_nonlinear / w.volts
    I_n: u.A = neutral_current(I, I_nonlinear, w, ed)
    S_none: u.VA("household cooking, dryers and appliances stand in the other rows") = NONE
    return Neutral(S_general, S_none, S_none, S_none, c.load, S_rest, M, S, S_nonlinear, I, I_n)
