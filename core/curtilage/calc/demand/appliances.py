"""Appliances fastened in place, and groups of loads unlikely to run together."""
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.records import ALL, NONE
from curtilage.calc.demand.results import ApplianceLoad, Counted, GroupLoad
from curtilage.values import lines as u
from curtilage.values.method import method

NO_UNITS: u.count = 0.0
ONE: u.count = 1.0


@method
def appliance(x, ed):
    """One row of appliances fastened in place: how many count toward the four, and their load.

    Those below both the least power and the least horsepower do not count and take no reduction. Source: 220.53.
    """
    m = motor_load(x, ed)
    S_each: u.VA = m.load / x.qty
    counts: u.flag = S_each >= ed.fixed_least or x.hp >= ed.fixed_least_hp
    n_counts: u.count = x.qty if counts else NO_UNITS
    S_counts: u.VA = m.load if counts else NONE
    S_rest: u.VA = NONE if counts else m.load
    return Counted(n_counts, S_counts, S_rest, m.one)


@method
def group_load(g, ed):
    """A group of loads unlikely to run together: the largest, if a physical reason is stated; without one, all of them.

    VA. The motor of the group is its largest, whichever load is the largest. Source: 220.60.
    """
    members = tuple(motor_load(x, ed) for x in g.members)
    S_all: u.VA = sum(m.load for m in members)
    S_largest: u.VA = max((m.load for m in members), default=NONE)
    S_group: u.VA = S_largest if g.reasoned else S_all
    S_one: u.VA = max((m.one for m in members), default=NONE)
    return GroupLoad(S_group, S_largest, S_all, S_one)


@method
def group_continuous(g):
    """What lasts three hours or more of a group: of its largest such load with a reason, of all without. VA."""
    members = tuple(continuous_load(x) for x in g.members)
    C_largest: u.VA = max(members, default=NONE)
    C_all: u.VA = sum(members)
    C_group: u.VA = C_largest if g.reasoned else C_all
    return C_group


@method
def continuous_load(x):
    """The load of a row that lasts three hours or more; motors have their own rule (430.24) and count as nothing here."""
    C_row: u.VA = x.va if x.continuous and not x.motor else NONE
    return C_row


@method
def group_counted(g, ed):
    """A group of appliances, which counts as one appliance when a reason is stated, else as all its members.

    Source: 220.53 and 220.60 read together.
    """
    s = group_load(g, ed)
    rows = tuple(appliance(x, ed) for x in g.members)
    n_all: u.count = sum(c.units for c in rows)
    n_one: u.count = min(n_all, ONE)
    n_counts: u.count = n_one if g.reasoned else n_all
    S_counts: u.VA = s.used if n_counts > NO_UNITS else NONE
    S_rest: u.VA = NONE if n_counts > NO_UNITS else s.used
    return Counted(n_counts, S_counts, S_rest, s.one)


@method
def appliance_load(d, ed):
    """Appliances fastened in place, reduced when there are enough of them on the feeder.

    Not for: cooking, dryers, space heating, air conditioning, vehicle supply, which have rules of their own. VA.
    Source: 220.53.
    """
    rows = tuple(appliance(x, ed) for x in d.appliances)
    groups = tuple(group_counted(g, ed) for g in d.appliance_groups)
    n_fixed: u.count = sum(c.units for c in rows) + sum(c.units for c in groups)
    S_fixed: u.VA = sum(c.counted for c in rows) + sum(c.counted for c in groups)
    S_little: u.VA = sum(c.rest for c in rows) + sum(c.rest for c in groups)
    f_fixed: u.ratio = ed.fixed_factor if n_fixed >= ed.fixed_from else ALL
    S_connected: u.VA = S_fixed + S_little
    D_fixed: u.VA = f_fixed * S_fixed + S_little
    P_fixed: u.VA = max(max((c.one for c in rows), default=NONE), max((c.one for c in groups), default=NONE))
    return ApplianceLoad(n_fixed, S_connected, f_fixed, D_fixed, P_fixed)
