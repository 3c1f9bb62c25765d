"""A feeder inside a dwelling, to one of its panels."""
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import PartLoad, Sum
from curtilage.calc.demand.standard import standard
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def part(d, S_whole: u.VA, ed):
    """Calculated load of a feeder that supplies part of a dwelling: the standard method on what hangs on it.

    There is no floor area of a panel, so the listed lighting and receptacle rows stand in its place (`d.general`); the
    tiers, the four appliances, the tables and the largest motor are those of this feeder alone. `S_whole` is the load of
    the whole dwelling by the method chosen for it: `total` is never more than that, which the code says of conductors
    that carry all of it and design practice takes for parts. VA and A.
    Source: 220.40, 220.42 (220.45), 220.53, 220.54, 220.55, 220.60. Not for: the optional method, which wants the whole load.
    Raises CurtilageError when an area is given.
    """
    if sum(a.area for a in d.areas) > 0:
        raise CurtilageError("a part of a dwelling has no floor area of its own; give the lighting and receptacle rows on its "
                             "panel, or calculate the whole dwelling")
    s = standard(d, ed)
    S_part: u.VA = min(s.total, S_whole) if S_whole > NONE else s.total
    I_part: u.A = S_part / d.volts
    S_min: u.VA = S_part + s.minimum - s.total
    I_min: u.A = S_min / d.volts
    return PartLoad(s.total, S_part, I_part, S_min, I_min)


@method
def sum_of(parts, volts: u.V):
    """Several structures on one feeder or main, added without diversity between them. VA and A. Source: 220.40."""
    S_sum: u.VA = sum(x.va for x in parts)
    I_sum: u.A = S_sum / volts
    return Sum(S_sum, I_sum)
