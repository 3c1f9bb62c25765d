"""What one row adds to a calculated load."""
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def added(whole: u.VA, rest: u.VA):
    """What one row adds to a calculated load: the load as it is less the load without the row. VA.

    Tiers, tables and the larger season make the worth of each row depend on the others. Not for: adding up over rows.
    """
    S_added: u.VA("the load less the same load without the row") = whole - rest
    return S_added
