"""Three or more dwellings by the optional method, and two compared with three of them."""
from curtilage.calc.demand.optional import larger_season, nameplates
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import Many, Two
from curtilage.calc.demand.standard import standard
from curtilage.calc.demand.vehicles import managed_load, vehicle_load
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

HALVES: u.ratio = 1.5
THREE: u.count = 3.0


@method
def dwelling_connected(d, ed):
    """Connected load of one dwelling for the optional method of several: nameplates, the larger of heating and cooling.

    A dwelling without electric cooking is taken with the table's substitute, so that its result may be compared. VA.
    Source: 220.84(A)(2), (C).
    """
    S_nameplates: u.VA = nameplates(d, ed)
    S_cooking: u.VA = sum(x.va for x in d.cooking)
    S_substitute: u.VA = NONE if S_cooking > NONE else ed.many_cooking
    managed = tuple(managed_load(x, ed) for x in d.managers)
    S_vehicles: u.VA = sum(vehicle_load(x, ed) for x in d.vehicles) + sum(m.used for m in managed)
    S_climate: u.VA = larger_season(d.climate, ed)
    S_connected: u.VA = S_nameplates + S_substitute + S_vehicles + S_climate
    return S_connected


@method
def multifamily(units, volts: u.V, ed):
    """Three or more dwellings on one feeder or service, by number and connected load. VA and A.

    `units`: alike dwellings with their number, house loads left out (they follow the standard method and are added).
    Valid where no dwelling has more than one feeder and each has electric cooking and electric heating, cooling or both.
    Source: 220.84. Raises CurtilageError for fewer than three dwellings.
    """
    n_units: u.count = sum(x.qty for x in units)
    if n_units < ed.many_from:
        raise CurtilageError("the optional method for several dwellings starts at three; "
                             "two are compared with three alike, one has a method of its own")
    S_units: u.VA = sum(x.qty * x.connected for x in units)
    f_units: u.ratio = ed.many_factor(n_units)
    D_units: u.VA = f_units * S_units
    I_units: u.A = D_units / volts
    return Many(S_units, f_units, D_units, I_units)


@method
def two_dwellings(first, second, both, ed):
    """Two dwellings on one feeder: the standard method, or three alike dwellings by the optional one if that is less.

    `both` is the two with their lists joined, for the standard method. What three identical units are when the two differ
    is disputed, so both readings are computed: three like the larger one (used), and half as much again as the two
    together. The result is flagged when the readings lead to different loads. VA and A. Source: 220.85, 220.84.
    """
    s = standard(both, ed)
    S_first: u.VA = dwelling_connected(first, ed)
    S_second: u.VA = dwelling_connected(second, ed)
    f_three: u.ratio = ed.many_factor(THREE)
    D_sum: u.VA("the two, and half as much again") = f_three * HALVES * (S_first + S_second)
    D_larger: u.VA("three like the larger one") = f_three * THREE * max(S_first, S_second)
    D_two: u.VA = min(s.total, D_larger)
    D_paired: u.VA = min(s.total, D_sum)
    I_two: u.A = D_two / first.volts
    lower: u.flag = D_larger < s.total
    differ: u.flag = D_paired < D_two
    return Two(s.total, D_sum, D_larger, D_two, I_two, lower, differ)
