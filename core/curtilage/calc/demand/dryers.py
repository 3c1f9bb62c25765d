"""Household clothes dryers."""
from curtilage.calc.demand.results import DryerLoad
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.ratio = 1.0
NO_UNITS: u.count = 0.0


@method
def dryer_factor(n: u.count, ed):
    """Demand factor by number of dryers: rows of the table, then the formulas that the table states. Table 220.54."""
    if n <= NO_UNITS:
        f: u.ratio = WHOLE
    elif n <= ed.dryer_table_to:
        f: u.ratio = ed.dryer_factor(n)
    elif n <= ed.dryer_first_to:
        f: u.ratio = ed.dryer_first - ed.dryer_first_each * (n - ed.dryer_table_to)
    elif n <= ed.dryer_second_to:
        f: u.ratio = ed.dryer_second - ed.dryer_second_each * (n - ed.dryer_first_to)
    else:
        f: u.ratio = ed.dryer_many
    return f


@method
def dryer_load(rows, ed):
    """Household dryers: nameplate, at least the edition's minimum each, with the table's factor for their number.

    VA. Source: 220.54. Not for: the optional methods (nameplate); a dryer on the laundry circuit; commercial dryers.
    """
    n: u.count = sum(x.qty for x in rows)
    S: u.VA = sum(x.qty * max(x.va / x.qty, ed.dryer_min) for x in rows)
    f: u.ratio = dryer_factor(n, ed)
    D: u.VA = f * S
    return DryerLoad(n, S, f, D)
