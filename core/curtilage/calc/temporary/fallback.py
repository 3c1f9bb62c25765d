"""A generator that carries the site while the utility is late: hours, energy, gas, sound at the property line."""
from math import log10

from curtilage.calc.temporary.records import NATURAL, PROPANE, FallbackRun, SoundRun
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method
from curtilage.values.told import value

WHOLE: u.percent = 100.0
WEEK: u.day_per_week = 7.0
VA_PER_KVA: u.VA_per_kVA = 1000.0
BTU_PER_KBTU: u.Btu_per_kBtu = 1000.0
TENS: u.dBA = 20.0
NO_LIQUID: u.gal = 0.0


@method
def heat_value(x, ed):
    """Heat of a cubic foot of the fuel as it is. Errors: a liquid fuel, whose use the maker of the set states."""
    if x.fuel == NATURAL:
        heating: u.Btu_per_ft3 = x.heating if x.heating > 0 else ed.gas_heat
    elif x.fuel == PROPANE:
        heating: u.Btu_per_ft3 = ed.propane_heat
    else:
        raise CurtilageError(f"the use of {value(x.fuel)} of this set is not known; the rule holds for natural gas and propane: "
                             "read the data sheet of the set")
    return heating


@method
def fallback(x, ed):
    """Hours, energy and gas of a generator that carries the site for a delay; `x` is a `Fallback`.

    The gas follows a straight line: a share of the use at full load even with no load at all. The rule is the median of nine
    small sets; their spread is 12.7 to 18.3 ft3/kWh at full load, and 0.13 to 0.59 for the share of no load.
    The loading takes kVA for kW, a power factor of 1.
    Not for: diesel and gasoline, prices, tanks. Errors: a fuel without a rule.
    Source: data sheets of home generators, as cited beside the figures.
    """
    weeks: u.week = x.days / WEEK
    T: u.h = weeks * x.hours
    f: u.ratio = x.mean / WHOLE
    P: u.kW = f * x.rating
    energy: u.kWh = P * T
    use: u.ft3_per_kWh = x.use if x.use > 0 else ed.gas_use
    standard: u.ft3_per_h = x.rating * use * (ed.gas_no_load + (1 - ed.gas_no_load) * f)
    flow: u.ft3_per_h = standard * ed.gas_heat / heat_value(x, ed)
    fuel: u.ft3 = flow * T
    heat: u.kBtu = standard * T * ed.gas_heat / BTU_PER_KBTU
    gallons: u.gal = heat * BTU_PER_KBTU / ed.propane_gallon if x.fuel == PROPANE else NO_LIQUID
    S: u.VA = sum(c.va for c in x.carried)
    loading: u.percent = WHOLE * S / VA_PER_KVA / x.rating
    carries: u.flag = loading <= WHOLE
    return FallbackRun(T, energy, flow, fuel, heat, gallons, loading, carries)


@method
def sound_at(s):
    """Sound level of a set at the property line, from that at a stated distance; `s` is a `Sound`.

    Free field, a point: 6 dB less for each doubling of the distance. Not for: walls, reflections, several sets.
    Source: 20 log of the distance, as in a generator application manual (p. 30): 95 dBA at 7 m is about 72 at 100 m.
    """
    level: u.dBA = s.level - TENS * log10(s.line / s.at)
    margin: u.dBA = s.limit - level
    ok: u.flag = level <= s.limit
    return SoundRun(level, margin, ok)
