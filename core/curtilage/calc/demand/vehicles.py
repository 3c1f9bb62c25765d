"""Vehicle supply equipment, and loads held down by an energy management system."""
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import ManagedLoad
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def vehicle_load(x, ed):
    """Vehicle supply: nameplate, at least the edition's minimum each (0 where an edition states none). VA. Source: 220.57."""
    S_vehicle: u.VA = x.qty * max(x.va / x.qty, ed.evse_min)
    return S_vehicle


@method
def managed_load(held, ed):
    """Loads that a listed energy management system holds at or below a set point: the set point is their load.

    The credit needs three proofs: listed equipment, safe on failure, set point locked. Without one of them, or where the
    edition does not take a set point for such members, the members count in full. The set point takes nothing off below
    what the members draw at least (`floor`), and adds nothing when the members together are smaller. VA; the set point
    counts as continuous. Source: 220.70 and 750.30 (for vehicles 625.42).
    Raises CurtilageError for a set point that is not above zero.
    """
    if held.set_point <= 0:
        raise CurtilageError(f"{held.id} set_point: a manager holds its members at or below a current above 0 A; "
                             "give the set point of the equipment, or take the members out of the manager")
    if held.vehicles_only:
        S_members: u.VA = sum(vehicle_load(x, ed) for x in held.members)
    else:
        rows = tuple(motor_load(x, ed) for x in held.members)
        S_members: u.VA = sum(r.load for r in rows)
    proven: u.flag = held.listed and held.fail_safe and held.locked
    allowed: u.flag = proven and (held.vehicles_only or ed.managed_any)
    S_set: u.VA = held.set_point * held.volts
    S_held: u.VA = min(max(S_set, held.floor), S_members)
    S_manager: u.VA = S_held if allowed else S_members
    S_off: u.VA = S_members - S_manager
    S_supply: u.VA("vehicle supply among it") = S_manager if held.vehicles_only else NONE
    return ManagedLoad(S_manager, S_members, S_set, S_off, S_supply, allowed)
