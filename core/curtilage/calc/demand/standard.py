"""Standard method for a dwelling."""
from curtilage.calc.demand.appliances import appliance_load, group_load
from curtilage.calc.demand.climate import climate_load, season
from curtilage.calc.demand.cooking import cooking_load
from curtilage.calc.demand.dryers import dryer_load
from curtilage.calc.demand.general import general_load
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.records import NONE, VA_PER_KVA
from curtilage.calc.demand.results import Standard
from curtilage.calc.demand.vehicles import managed_load, vehicle_load
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def standard(d, ed):
    """Calculated load of a dwelling by the standard method, and the least that conductors must carry.

    Heating against cooling is decided with the largest motor of the whole feeder: each season is added up with its own
    largest motor, and the larger sum rules (`total`). Some read the rule so that the quarter of an omitted, largest motor
    is added to the season that rules; that result is `other_reading`. `minimum` adds a quarter of vehicle supply and of
    managed set points, which count as continuous. VA and, at `d.volts`, A; nothing is rounded.
    Source: Article 220 Parts II and III (its successor in later editions); for the minimum 215.2(A), 625.41, 220.70.
    Not for: optional methods, farms, buildings that are no dwelling. Two dwellings on one feeder: give their lists joined.
    """
    g = general_load(d, ed)
    a = appliance_load(d, ed)
    k = cooking_load(d.cooking, ed)
    D_cooking: u.VA = k.used * VA_PER_KVA
    y = dryer_load(d.dryers, ed)
    c = climate_load(d.climate, ed)
    motors = tuple(motor_load(x, ed) for x in d.motors)
    sundry = tuple(motor_load(x, ed) for x in d.loads)
    groups = tuple(group_load(x, ed) for x in d.groups)
    managed = tuple(managed_load(x, ed) for x in d.managers)
    S_motors: u.VA = sum(m.load for m in motors)
    S_sundry: u.VA = sum(m.load for m in sundry)
    S_groups: u.VA = sum(m.used for m in groups)
    S_managed: u.VA = sum(m.used for m in managed)
    S_vehicles: u.VA = sum(vehicle_load(x, ed) for x in d.vehicles)
    S_base: u.VA = (g.demand + a.demand + D_cooking + y.demand + c.always + S_motors + S_sundry + S_groups + S_managed
                    + S_vehicles)

    P_base: u.VA = max(a.one, max((m.one for m in motors), default=NONE), max((m.one for m in sundry), default=NONE),
                       max((m.one for m in groups), default=NONE))
    w = season(c, P_base, ed)
    S_climate: u.VA = w.load + c.always
    S_total: u.VA = S_base + w.load + w.motor
    I_total: u.A = S_total / d.volts
    S_min: u.VA = S_total + (ed.continuous_factor - 1) * (S_vehicles + S_managed)
    I_min: u.A = S_min / d.volts
    S_other: u.VA = S_base + w.load + w.most
    differ: u.flag = w.most > w.motor
    return Standard(g.demand, a.demand, D_cooking, y.demand, S_climate, S_motors, S_vehicles, S_managed, S_sundry, S_groups,
                    w.motor, S_total, I_total, S_min, I_min, S_other, differ)
