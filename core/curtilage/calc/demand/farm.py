"""Farm loads: one building, and all of them with the dwelling."""
from curtilage.calc.demand.ranks import ranked
from curtilage.calc.demand.records import NO_AMPERES
from curtilage.calc.demand.results import Farm
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def farm_building(b, ed):
    """A farm building with two or more branch circuits, in A at 240 V.

    First what runs together, or the largest motor with its quarter, or the first 60 A, whichever is most, in full; of the
    other loads the next 60 A at one factor and the rest at another. Source: 220.102(B), Table 220.102.
    Not for: dwellings on farms (they follow their own methods), estates that are no farm.
    """
    I_motor: u.A = (1 + ed.largest_motor) * b.largest_motor
    I_least: u.A = min(ed.farm_first, b.all)
    I_first: u.A = max(b.together, I_motor, I_least)
    I_rest: u.A = max(b.all - I_first, NO_AMPERES)
    I_next: u.A = min(ed.farm_first, I_rest)
    I_building: u.A = I_first + ed.farm_part["next60A"] * I_next + ed.farm_part["remainder"] * (I_rest - I_next)
    return I_building


@method
def farm_total(loads, I_dwelling: u.A, ed):
    """All farm loads on one feeder or service: ranked by size, each with its share; the dwelling is added in full. A.

    Source: 220.103, Table 220.103.
    """
    first, second, third, rest = ranked(loads)
    I_first: u.A = ed.farm_share["largest"] * sum(x.amperes for x in first)
    I_second: u.A = ed.farm_share["second"] * sum(x.amperes for x in second)
    I_third: u.A = ed.farm_share["third"] * sum(x.amperes for x in third)
    I_rest: u.A = ed.farm_share["remaining"] * sum(x.amperes for x in rest)
    I_other: u.A = I_first + I_second + I_third + I_rest
    I_total: u.A = I_other + I_dwelling
    return Farm(I_other, I_total)
