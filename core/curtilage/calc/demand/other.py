"""Structures that are no dwelling: garage, workshop, pool house, gate, greenhouse; and several of them on one main."""
from curtilage.calc.demand.appliances import continuous_load, group_continuous, group_load
from curtilage.calc.demand.climate import climate_load, season
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import OtherLoad, OtherParts, Receptacles
from curtilage.calc.demand.vehicles import managed_load, vehicle_load
from curtilage.calc.demand.welders import rv_site, welders
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def receptacle_load(rows, ed):
    """Receptacle outlets other than in dwellings: so much for each yoke, or more where stated, reduced above a first part.

    VA. Source: 220.14(I); 220.47 (220.44 before). Not for: receptacles for a stated appliance, which counts as itself.
    """
    S_outlets: u.VA = sum(max(x.va, x.qty * ed.receptacle) for x in rows)
    D_outlets: u.VA = ed.receptacle_demand(S_outlets)
    return Receptacles(S_outlets, D_outlets)


@method
def continuous_climate(c):
    """Resistance heat of the heating season that lasts three hours or more, by the rows' own flags. VA."""
    C_heating: u.VA = (sum(continuous_load(x) for x in c.supplementary) + sum(continuous_load(x) for x in c.heat)
                       + sum(continuous_load(x) for x in c.zone_heat) + sum(continuous_load(x) for x in c.storage))
    return C_heating


@method
def other_parts(d, ed):
    """The loads of a structure that no season rules: what each part comes to, its largest motor, what is continuous. VA."""
    r = receptacle_load(d.receptacles, ed)
    loads = tuple(motor_load(x, ed) for x in d.loads)
    motors = tuple(motor_load(x, ed) for x in d.motors)
    groups = tuple(group_load(x, ed) for x in d.groups)
    managed = tuple(managed_load(x, ed) for x in d.managers)
    S_lighting: u.VA = sum(x.va for x in d.lighting)
    S_loads: u.VA = sum(m.load for m in loads)
    S_motors: u.VA = sum(m.load for m in motors)
    S_vehicles: u.VA = sum(vehicle_load(x, ed) for x in d.vehicles)
    S_managed: u.VA = sum(m.used for m in managed)
    S_groups: u.VA = sum(m.used for m in groups)
    I_welders: u.A = welders(d.welders, ed)
    S_welders: u.VA = I_welders * d.volts
    S_rv: u.VA = sum(rv_site(x, ed) for x in d.rv)
    S_parts: u.VA = (S_lighting + r.demand + S_loads + S_motors + S_vehicles + S_managed + S_groups + S_welders + S_rv)
    P_parts: u.VA = max(max((m.one for m in loads), default=NONE), max((m.one for m in motors), default=NONE),
                        max((m.one for m in groups), default=NONE))
    C_parts: u.VA = (sum(continuous_load(x) for x in d.lighting) + sum(continuous_load(x) for x in d.loads)
                     + sum(group_continuous(x) for x in d.groups) + S_vehicles + S_managed)
    return OtherParts(S_lighting, r.demand, S_loads, S_motors, S_vehicles, S_managed, S_groups, S_welders, S_rv, S_parts,
                      P_parts, C_parts)


@method
def other(d, ed):
    """Calculated load of a structure that is no dwelling, and the least that conductors and devices must carry.

    Everything at 100 % but receptacles (reduced above a first part), arc welders (by duty and number), groups with a reason
    and managers with their proofs; the largest motor, once for the whole feeder, with a quarter more; the larger of heating
    and cooling. `minimum` adds a quarter of what is continuous (flagged rows that are no motor, vehicle supply, managed set
    points) and takes the season that then asks for more. For structures together on one main give their lists joined, so
    that the largest motor is added once.
    VA and, at `d.volts`, A; nothing is rounded.
    Source: Article 220 Parts II and III (its successor in later editions); 215.2(A), 430.24, 630.11, 625.41, 220.70.
    Not for: dwellings, farms, hazardous or public occupancies, lighting by area of a listed occupancy.
    """
    p = other_parts(d, ed)
    c = climate_load(d.climate, ed)
    w = season(c, p.one, ed)
    S_climate: u.VA = w.load + c.always
    S_total: u.VA = p.total + S_climate + w.motor
    I_total: u.A = S_total / d.volts
    C_heating: u.VA = continuous_climate(d.climate)
    S_both: u.VA = p.total + c.always + (ed.continuous_factor - 1) * p.continuous
    S_lasting: u.VA = w.winter + (ed.continuous_factor - 1) * C_heating
    S_min: u.VA("the season that asks for more, with what is continuous in it") = S_both + max(S_lasting, w.summer)
    C_total: u.VA = p.continuous + C_heating if S_lasting > w.summer else p.continuous
    I_min: u.A = S_min / d.volts
    S_other: u.VA = S_total - w.motor + w.most
    differ: u.flag = w.most > w.motor
    return OtherLoad(p.lighting, p.receptacles, p.loads, S_climate, p.motors, p.vehicles, p.managed, p.groups, p.welders, p.rv,
                     w.motor, S_total, I_total, C_total, S_min, I_min, S_other, differ)
