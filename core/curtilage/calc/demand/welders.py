"""Arc welders and recreational-vehicle sites."""
from curtilage.calc.demand.ranks import ranked
from curtilage.calc.demand.results import Weld
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def welder(x, ed):
    """One arc welder: effective current from the plate, else rated primary current with the factor for its duty. A.

    A duty between two rows of the table takes the next higher row. Source: 630.11(A), Table 630.11(A).
    Not for: resistance welders (630.31).
    """
    I_rated: u.A = x.va / x.volts
    if x.effective > 0:
        I_welder: u.A = x.effective
    elif x.with_motor:
        I_welder: u.A = I_rated * ed.welder_motor(x.duty)
    else:
        I_welder: u.A = I_rated * ed.welder_plain(x.duty)
    return Weld(x.id, I_welder)


@method
def welders(rows, ed):
    """Several arc welders on one feeder: two largest in full, third, fourth and the others at falling shares. A.

    Source: 630.11(B).
    """
    currents = tuple(welder(x, ed) for x in rows)
    first, second, third, fourth, rest = ranked(currents, 4)
    I_two: u.A = sum(x.amperes for x in first) + sum(x.amperes for x in second)
    I_third: u.A = ed.welder_third * sum(x.amperes for x in third)
    I_fourth: u.A = ed.welder_fourth * sum(x.amperes for x in fourth)
    I_rest: u.A = ed.welder_rest * sum(x.amperes for x in rest)
    I_welders: u.A = I_two + I_third + I_fourth + I_rest
    return I_welders


@method
def rv_site(x, ed):
    """Recreational-vehicle sites of one kind, by the receptacle each has (20, 30 or 50 A), without diversity. VA.

    Source: 551.73(A). The factors for parks are `rv_park`.
    """
    if x.receptacle <= ed.rv_small_to:
        S_site: u.VA = x.qty * ed.rv_small
    elif x.receptacle <= ed.rv_middle_to:
        S_site: u.VA = x.qty * ed.rv_middle
    else:
        S_site: u.VA = x.qty * ed.rv_large
    return S_site


@method
def rv_park(sites, ed):
    """A park of recreational-vehicle sites on one feeder or service, with the factor for their number. VA. 551.73(A)."""
    n_sites: u.count = sum(x.qty for x in sites)
    S_sites: u.VA = sum(rv_site(x, ed) for x in sites)
    D_sites: u.VA = S_sites * ed.rv_factor(n_sites)
    return D_sites
