"""Household clothes dryers."""
from curtilage.calc.demand.records import ALL
from curtilage.calc.demand.results import DryerLoad
from curtilage.values import lines as u
from curtilage.values.method import method

NO_UNITS: u.count = 0.0


@method
def dryer_load(rows, ed):
    """Household dryers: nameplate, at least the edition's minimum each, with the table's factor for their number.

    VA. Source: 220.54. Not for: the optional methods (nameplate); a dryer on the laundry circuit; commercial dryers.
    """
    n_dryers: u.count = sum(x.qty for x in rows)
    S_dryers: u.VA = sum(x.qty * max(x.va / x.qty, ed.dryer_min) for x in rows)
    if n_dryers > NO_UNITS:
        f_dryers: u.ratio = ed.dryer_factor(n_dryers)
    else:
        f_dryers: u.ratio = ALL
    D_dryers: u.VA = f_dryers * S_dryers
    return DryerLoad(n_dryers, S_dryers, f_dryers, D_dryers)
