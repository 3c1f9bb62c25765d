"""General lighting and receptacles of a dwelling, small-appliance and laundry circuits, and their tiers."""
from curtilage.calc.demand.results import GeneralLoad
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def general_load(d, ed):
    """General lighting and receptacles, small-appliance and laundry circuits of a dwelling, after the tiers.

    The floor area comes in as the edition counts it (`areas`). For a part of a dwelling there is no area, and the listed
    rows `general` stand in its place. VA.
    Source: standard method, unit load per area, small-appliance and laundry circuits, table of lighting demand.
    Not for: occupancies other than dwellings; the number of branch circuits (its unit load may differ).
    """
    A_floor: u.ft2 = sum(a.area for a in d.areas)
    S_rows: u.VA = sum(x.va for x in d.general)
    S_lighting: u.VA = ed.unit_load * A_floor + S_rows
    n_small: u.count = sum(c.circuits for c in d.small_appliance)
    n_laundry: u.count = sum(c.circuits for c in d.laundry)
    S_circuits: u.VA = ed.small_appliance * n_small + ed.laundry * n_laundry
    S_general: u.VA = S_lighting + S_circuits
    D_general: u.VA = ed.general_demand(S_general)
    return GeneralLoad(S_lighting, S_circuits, S_general, D_general)
