"""Optional method for one dwelling, and the optional method for one that exists."""
from curtilage.calc.demand.appliances import group_load
from curtilage.calc.demand.climate import six_cases
from curtilage.calc.demand.general import general_load
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import Existing, Optional
from curtilage.calc.demand.vehicles import managed_load, vehicle_load
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def nameplates(d, ed):
    """Nameplates of a dwelling behind the tiers of the optional methods: no heating or cooling, no vehicles. VA.

    General lighting per area and the circuits as in the standard method, but before its tiers; appliances, cooking, dryers
    and motors at nameplate (no table, no minimum, no largest motor). Source: 220.82(B).
    """
    g = general_load(d, ed)
    groups = tuple(group_load(x, ed) for x in d.groups)
    paired = tuple(group_load(x, ed) for x in d.appliance_groups)
    S_appliances: u.VA = sum(x.va for x in d.appliances) + sum(m.used for m in paired)
    S_cooking: u.VA = sum(x.va for x in d.cooking)
    S_dryers: u.VA = sum(x.va for x in d.dryers)
    S_motors: u.VA = sum(x.va for x in d.motors)
    S_sundry: u.VA = sum(x.va for x in d.loads) + sum(m.used for m in groups)
    S_nameplates: u.VA = g.connected + S_appliances + S_cooking + S_dryers + S_motors + S_sundry
    return S_nameplates


@method
def optional(d, ed):
    """Calculated load of one dwelling by the optional method.

    Vehicle supply inside the tiers (`inside`) and at 100 % beside them (`outside`) are both computed. It stands beside them
    where the edition or the project's policy (`vehicles_apart`) says so; the result is flagged for judgement when the
    two differ. Heating and cooling by the six selections and
    what always runs; `together` is the total with all kinds of heating that can run at once, where there are several.
    VA and, at `d.volts`, A. `minimum` adds a quarter of vehicle supply only where it stands beside the tiers.
    Source: 220.82.
    Valid for one dwelling whose whole load hangs on one three-wire feeder or service of at least 100 A (`optional_open`).
    Not for: parts of a dwelling, several dwellings, other buildings.
    """
    managed = tuple(managed_load(x, ed) for x in d.managers)
    S_vehicles: u.VA = sum(vehicle_load(x, ed) for x in d.vehicles) + sum(m.supply for m in managed)
    S_held: u.VA("managed, no vehicles") = sum(m.used for m in managed) - sum(m.supply for m in managed)
    S_nameplates: u.VA = nameplates(d, ed) + S_held
    c = six_cases(d.climate, ed)
    S_all: u.VA = S_nameplates + S_vehicles
    D_all: u.VA = ed.optional_demand(S_all)
    D_nameplates: u.VA = ed.optional_demand(S_nameplates)
    S_inside: u.VA = D_all + c.used
    S_outside: u.VA = D_nameplates + c.used + S_vehicles
    apart: u.flag = ed.optional_vehicles_apart or d.vehicles_apart
    if apart:
        D_tiers: u.VA = D_nameplates
        S_apart: u.VA = S_vehicles
        S_total: u.VA = S_outside
    else:
        D_tiers: u.VA = D_all
        S_apart: u.VA = NONE
        S_total: u.VA = S_inside
    I_total: u.A = S_total / d.volts
    differ: u.flag = S_outside > S_inside
    S_min: u.VA = S_total + (ed.continuous_factor - 1) * S_apart
    I_min: u.A = S_min / d.volts
    S_together: u.VA = S_total - c.largest + c.together
    several: u.flag = c.together > c.largest
    return Optional(S_all, D_tiers, c.used, S_apart, S_total, I_total, S_inside, S_outside, differ, S_min, I_min, c.largest,
                    c.together, S_together, several)


@method
def optional_open(dwellings: u.count, whole: u.flag, lines: u.count, ampacity: u.A, ed):
    """Whether the optional method is open to a feeder: one dwelling, its whole load, three wires, at least 100 A.

    `lines`: ungrounded conductors (two with a neutral make three wires). Source: 220.82(A).
    """
    may: u.flag = dwellings == 1 and whole and lines == 2 and ampacity >= ed.optional_least
    return may


@method
def existing(d, climate_added: u.flag, ed):
    """An existing dwelling with what is added to it (`d` holds both), by its optional method.

    With heating or cooling among what is added, the larger of heating and cooling counts at 100 % beside the tiers. With
    none added, the text does not say where existing heating and cooling belongs; it is taken inside the tiers with the
    appliances, the other reading is computed too, and the result is flagged. VA and A. Source: 220.83(A), (B).
    Not for: new dwellings.
    """
    S_nameplates: u.VA = nameplates(d, ed)
    managed = tuple(managed_load(x, ed) for x in d.managers)
    S_connected: u.VA = S_nameplates + sum(vehicle_load(x, ed) for x in d.vehicles) + sum(m.used for m in managed)
    S_climate: u.VA = larger_season(d.climate, ed)
    S_all: u.VA = S_connected + S_climate
    S_inside: u.VA = ed.existing_demand(S_all)
    D_connected: u.VA = ed.existing_demand(S_connected)
    S_beside: u.VA = D_connected + S_climate
    S_total: u.VA = S_beside if climate_added else S_inside
    I_total: u.A = S_total / d.volts
    differ: u.flag = S_beside > S_inside and not climate_added
    return Existing(S_connected, S_climate, S_total, I_total, S_inside, S_beside, differ)


@method
def larger_season(c, ed):
    """The larger of heating and cooling at nameplate, and what always runs. VA."""
    S_heating: u.VA = (sum(max(h.pump.va, locked_out(h)) for h in c.heat_pumps) + sum(x.va for x in c.supplementary)
                       + sum(x.va for x in c.heat) + sum(x.va for x in c.zone_heat) + sum(x.va for x in c.storage))
    S_cooling: u.VA = sum(h.pump.va for h in c.heat_pumps) + sum(x.va for x in c.cooling)
    S_season: u.VA = max(S_heating, S_cooling) + sum(x.va for x in c.always)
    return S_season


@method
def locked_out(h):
    """Supplementary heat that is kept off while the compressor of its heat pump runs. VA."""
    S_locked: u.VA = sum(x.va for x in h.locked)
    return S_locked
