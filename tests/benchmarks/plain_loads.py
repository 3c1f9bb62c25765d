"""Load calculations as a person would write them who never needs to explain them: the yardstick for speed.

One pass over the rows of a kind, numbers added as they come, the edition's figures as module globals.
"""
from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from math import floor, hypot, sqrt
from typing import Any

from plain_conductors import ED, bands

UNIT, SMALL, LAUNDRY = ED.unit_load, ED.small_appliance, ED.laundry
FIXED, FIXED_FROM, FIXED_LEAST, FIXED_HP = ED.fixed_factor, ED.fixed_from, ED.fixed_least, ED.fixed_least_hp
DRYER_MIN, DRYERS = ED.dryer_min, bands("dryer_factor")
BASE, STEP, MOST, TOO_SMALL, B_FROM, B_TO = (ED.range_base, ED.range_step, ED.range_most, ED.range_least, ED.range_b_from,
                                            ED.range_b_to)
COLUMN_C, COLUMN_A, COLUMN_B = ED.range_demand, bands("range_factor_a"), bands("range_factor_b")
QUARTER, CONTINUOUS = ED.largest_motor, ED.continuous_factor - 1
EVSE, MANAGED_ANY = ED.evse_min, ED.managed_any
SUPPLEMENT, FEW, MANY, MANY_FROM, APART = (ED.optional_supplementary, ED.optional_few, ED.optional_many, ED.optional_many_from,
                                          ED.optional_vehicles_apart)
FLC = {120.0: ED.flc_115, 208.0: ED.flc_208, 240.0: ED.flc_230}
YOKE, NEUTRAL = ED.receptacle, ED.neutral_share
WELD, WELD_3, WELD_4, WELD_N = bands("welder_plain"), ED.welder_third, ED.welder_fourth, ED.welder_rest
RV = (ED.rv_small_to, ED.rv_small, ED.rv_middle_to, ED.rv_middle, ED.rv_large)
THREE, SUBSTITUTE = ED.many_factor(3.0), ED.many_cooking
KINDS = ("lighting", "small", "motors", "heaters", "refrigeration", "cooling", "between")
EXPECT = [[getattr(ED, f"expect_{k}{end}") for k in KINDS] for end in ("_low", "", "_high")]
STEPS = {name: ED.raw_shape(name).steps for name in ("general_demand", "optional_demand", "receptacle_demand", "neutral_demand")}
Result = tuple[Any, ...]
Rows = Iterable[Any]


def tiers(name: str, x: float) -> float:
    low = total = 0.0
    for up_to, factor in STEPS[name]:
        if x <= up_to:
            return total + (x - low) * factor
        total += (up_to - low) * factor
        low = up_to
    raise LookupError(name)


def load(x: Any) -> tuple[float, float]:
    """What a row puts on a feeder, and its motor."""
    if x.flc_row:
        one = FLC[x.volts][x.flc_row] * x.volts
        return one * x.qty, one
    return x.va, x.va / x.qty if x.motor else 0.0


def loads(rows: Rows) -> tuple[float, float]:
    total = most = 0.0
    for x in rows:
        va, one = load(x)
        total += va
        most = one if one > most else most
    return total, most


def va_of(rows: Rows) -> float:
    return sum([x.va for x in rows])


def lasting(rows: Rows) -> float:
    return sum([x.va for x in rows if x.continuous and not x.motor])


def group(g: Any) -> tuple[float, float, float]:
    """Load, motor and continuous part of a group."""
    some = [load(x) for x in g.members]
    last = [x.va if x.continuous and not x.motor else 0.0 for x in g.members]
    pick = max if g.reasoned else sum
    return pick([va for va, _ in some] or [0.0]), max([one for _, one in some], default=0.0), pick(last or [0.0])


def vehicles(rows: Rows) -> float:
    return sum([max(x.va, x.qty * EVSE) for x in rows])


def managed(m: Any) -> float:
    members = vehicles(m.members) if m.vehicles_only else loads(m.members)[0]
    if m.listed and m.fail_safe and m.locked and (m.vehicles_only or MANAGED_ANY):
        return min(max(m.set_point * m.volts, m.floor), members)
    return members


def general(d: Any) -> tuple[float, float]:
    """Connected and demand."""
    lighting = UNIT * sum([a.area for a in d.areas]) + va_of(d.general)
    connected = lighting + SMALL * sum([c.circuits for c in d.small_appliance]) + LAUNDRY * sum([c.circuits for c in d.laundry])
    return connected, tiers("general_demand", connected)


def appliances(d: Any) -> tuple[float, float, float]:
    """Demand, factor and largest motor."""
    count = counted = rest = most = 0.0
    for x in d.appliances:
        va, one = load(x)
        most = max(most, one)
        if va / x.qty >= FIXED_LEAST or x.hp >= FIXED_HP:
            count, counted = count + x.qty, counted + va
        else:
            rest += va
    for g in d.appliance_groups:
        va, one, _ = group(g)
        most = max(most, one)
        n = sum([x.qty for x in g.members if load(x)[0] / x.qty >= FIXED_LEAST or x.hp >= FIXED_HP])
        count += min(n, 1.0) if g.reasoned else n
        counted, rest = (counted + va, rest) if n else (counted, rest + va)
    factor = FIXED if count >= FIXED_FROM else 1.0
    return factor * counted + rest, factor, most


def column_c(n: float, kva: float) -> float:
    return COLUMN_C(n) * (1 + STEP * floor(kva / n - BASE + 0.5))


def cooking(rows: Rows) -> float:
    a = b = n_a = n_b = n_c = every = large = rest = 0.0
    for x in rows:
        each = x.va / x.qty / 1000.0
        if each <= TOO_SMALL:
            rest += x.va / 1000.0
            continue
        least = max(each, BASE)
        every += x.qty * least
        if each < B_FROM:
            n_a, a = n_a + x.qty, a + x.qty * each
        elif each <= B_TO:
            n_b, b = n_b + x.qty, b + x.qty * each
        else:
            n_c, large = n_c + x.qty, large + x.qty * least
    n = n_a + n_b + n_c
    if not n:
        return rest * 1000.0
    columns = column_c(n_c, large) if n_c else 0.0
    if a:
        columns += a * COLUMN_A[1][bisect_left(COLUMN_A[0], n_a)]
    if b:
        columns += b * COLUMN_B[1][bisect_left(COLUMN_B[0], n_b)]
    return (min(column_c(n, every), columns) + rest) * 1000.0


def dryers(rows: Rows) -> float:
    n, va = sum([x.qty for x in rows]), sum([max(x.va, x.qty * DRYER_MIN) for x in rows])
    return va * DRYERS[1][bisect_left(DRYERS[0], n)] if n else 0.0


def climate(c: Any) -> tuple[float, float, float, float, float]:
    """Heating, cooling, what always runs, largest motor in heating and in cooling."""
    heat = va_of(c.supplementary) + va_of(c.heat) + va_of(c.zone_heat) + va_of(c.storage)
    cool, most_cool = loads(c.cooling)
    always, most = loads(c.always)
    for h in c.heat_pumps:
        va, one = load(h.pump)
        heat, cool, most = heat + max(va, va_of(h.locked)), cool + va, max(most, one)
    return heat, cool, always, most, max(most, most_cool)


def season(c: tuple[float, ...], one: float) -> tuple[float, float, float, bool]:
    """Load, quarter of its motor, quarter of the largest of either, whether it heats."""
    hot, cold = QUARTER * max(one, c[3]), QUARTER * max(one, c[4])
    if c[0] + hot >= c[1] + cold:
        return c[0], hot, max(hot, cold), True
    return c[1], cold, max(hot, cold), False


def standard(d: Any) -> Result:
    _, lighting = general(d)
    fixed, _, most = appliances(d)
    range_, dryer, c = cooking(d.cooking), dryers(d.dryers), climate(d.climate)
    motors, one = loads(d.motors)
    sundry, two = loads(d.loads)
    groups, three = 0.0, 0.0
    for g in d.groups:
        va, big, _ = group(g)
        groups, three = groups + va, max(three, big)
    held, cars = sum([managed(m) for m in d.managers]), vehicles(d.vehicles)
    base = lighting + fixed + range_ + dryer + c[2] + motors + sundry + groups + held + cars
    va, quarter, most_of, _ = season(c, max(most, one, two, three))
    total = base + va + quarter
    minimum = total + CONTINUOUS * (cars + held)
    return (lighting, fixed, range_, dryer, va + c[2], motors, cars, held, sundry, groups, quarter, total, total / d.volts,
            minimum, minimum / d.volts, base + va + most_of, most_of > quarter)


def nameplates(d: Any) -> float:
    groups = sum([group(g)[0] for g in d.groups]) + sum([group(g)[0] for g in d.appliance_groups])
    return general(d)[0] + va_of(d.appliances) + va_of(d.cooking) + va_of(d.dryers) + va_of(d.motors) + va_of(d.loads) + groups


def six(c: Any) -> tuple[float, float, float]:
    """Used, largest, together."""
    pumps = sum([h.pump.va for h in c.heat_pumps])
    extra = va_of(c.supplementary)
    second, third = pumps, 0.0
    if extra or any(h.locked for h in c.heat_pumps):
        second = 0.0
        third = sum([max(h.pump.va, SUPPLEMENT * va_of(h.locked)) for h in c.heat_pumps]) + SUPPLEMENT * extra
    zones, central = va_of(c.zone_heat), va_of(c.heat)
    few = sum([x.qty for x in c.zone_heat]) < MANY_FROM
    fourth, fifth = (FEW * (central + zones), 0.0) if few else (FEW * central, MANY * zones)
    first, sixth = pumps + va_of(c.cooling), va_of(c.storage)
    largest = max(first, second, third, fourth, fifth, sixth)
    return largest + va_of(c.always), largest, max(first, second + third + fourth + fifth + sixth)


def optional(d: Any) -> Result:
    plates = nameplates(d) + sum([managed(m) for m in d.managers if not m.vehicles_only])
    cars = vehicles(d.vehicles) + sum([managed(m) for m in d.managers if m.vehicles_only])
    used, largest, together = six(d.climate)
    every, apart = tiers("optional_demand", plates + cars), tiers("optional_demand", plates)
    inside, outside = every + used, apart + used + cars
    total = outside if APART else inside
    beside = cars if APART else 0.0
    minimum = total + CONTINUOUS * beside
    return (plates + cars, apart if APART else every, used, beside, total, total / d.volts, inside, outside, outside > inside,
            minimum, minimum / d.volts, largest, together, total - largest + together, together > largest)


def within_whole(p: Any) -> Result:
    total = min(p.total, p.whole) if p.whole else p.total
    minimum = total + p.minimum - p.total
    return p.total, total, total / p.volts, minimum, minimum / p.volts


def outlets(rows: Rows) -> float:
    return tiers("receptacle_demand", sum([max(x.va, x.qty * YOKE) for x in rows]))


def site(x: Any) -> float:
    small_to, small, middle_to, middle, large = RV
    return x.qty * (small if x.receptacle <= small_to else middle if x.receptacle <= middle_to else large)


def welders(rows: Rows) -> float:
    amps = sorted([x.effective or x.va / x.volts * WELD[1][bisect_left(WELD[0], x.duty)] for x in rows], reverse=True)
    return sum(amps[:2]) + WELD_3 * sum(amps[2:3]) + WELD_4 * sum(amps[3:4]) + WELD_N * sum(amps[4:])


def other(d: Any) -> Result:
    lights, sockets = va_of(d.lighting), outlets(d.receptacles)
    rest, one = loads(d.loads)
    motors, two = loads(d.motors)
    groups = three = last = 0.0
    for g in d.groups:
        va, big, long = group(g)
        groups, three, last = groups + va, max(three, big), last + long
    cars, held, weld = vehicles(d.vehicles), sum([managed(m) for m in d.managers]), welders(d.welders) * d.volts
    rv = sum([site(x) for x in d.rv])
    c = climate(d.climate)
    va, quarter, most, heats = season(c, max(one, two, three))
    total = lights + sockets + rest + motors + cars + held + groups + weld + rv + va + c[2] + quarter
    last += lasting(d.lighting) + lasting(d.loads) + cars + held
    if heats:
        h = d.climate
        last += lasting(h.supplementary) + lasting(h.heat) + lasting(h.zone_heat) + lasting(h.storage)
    minimum = total + CONTINUOUS * last
    return (lights, sockets, rest, va + c[2], motors, cars, held, groups, weld, rv, quarter, total, total / d.volts, last,
            minimum, minimum / d.volts, total - quarter + most, most > quarter)


# ---------------------------------------------------------------------------------------------------------------- neutrals


def on_neutral(rows: Rows) -> tuple[float, float, float]:
    """Load, largest motor, nonlinear part."""
    total = most = crooked = 0.0
    for x in rows:
        if x.neutral:
            va, one = load(x)
            total, crooked = total + va, crooked + va * x.nonlinear
            most = one if one > most else most
    return total, most, crooked


def group_on_neutral(g: Any) -> tuple[float, float, float]:
    total, most, crooked = on_neutral(g.members)
    return max([load(x)[0] for x in g.members if x.neutral], default=0.0) if g.reasoned else total, most, crooked


def climate_on_neutral(c: Any) -> tuple[float, float, float]:
    p, k, b = on_neutral([h.pump for h in c.heat_pumps]), on_neutral(c.cooling), on_neutral(c.always)
    h = on_neutral([*c.supplementary, *c.heat, *c.zone_heat, *c.storage])
    return p[0] + max(h[0], k[0]) + b[0], max(p[1], k[1], b[1]), p[2] + max(h[2], k[2]) + b[2]


def reduced(amps: float, crooked: float, w: Any) -> float:
    if w.two_of_wye:
        return amps
    kept = crooked if w.wye else 0.0
    return kept + tiers("neutral_demand", amps - kept)


def summed(some: Iterable[tuple[float, float, float]]) -> tuple[float, float, float]:
    total = most = crooked = 0.0
    for va, one, nonlinear in some:
        total, most, crooked = total + va, max(most, one), crooked + nonlinear
    return total, most, crooked


def dwelling_neutral(d: Any, w: Any) -> Result:
    _, factor, _ = appliances(d)
    lighting, range_, dryer = general(d)[1], NEUTRAL * cooking(d.cooking), NEUTRAL * dryers(d.dryers)
    fixed = most = crooked = 0.0
    for x in d.appliances:
        if x.neutral:
            va, one = load(x)
            va = factor * va if va / x.qty >= FIXED_LEAST or x.hp >= FIXED_HP else va
            fixed, most, crooked = fixed + va, max(most, one), crooked + va * x.nonlinear
    c, cars = climate_on_neutral(d.climate), on_neutral(d.vehicles)
    held = summed([on_neutral(m.members) for m in d.managers])
    rest = summed([on_neutral(d.motors), on_neutral(d.loads), *map(group_on_neutral, (*d.appliance_groups, *d.groups))])
    quarter = QUARTER * max(most, c[1], rest[1])
    others = rest[0] + cars[0] + held[0]
    total = lighting + range_ + dryer + fixed + c[0] + others + quarter
    crooked += c[2] + rest[2] + cars[2] + held[2]
    amps = total / w.volts
    return lighting, range_, dryer, fixed, c[0], others, quarter, total, crooked, amps, reduced(amps, crooked / w.volts, w)


def other_neutral(d: Any, w: Any) -> Result:
    lights, cars = on_neutral(d.lighting), on_neutral(d.vehicles)
    c, held = climate_on_neutral(d.climate), summed([on_neutral(m.members) for m in d.managers])
    rest = summed([on_neutral(d.loads), on_neutral(d.motors), *map(group_on_neutral, d.groups)])
    first = outlets(d.receptacles) + lights[0]
    others = rest[0] + cars[0] + held[0] + sum([site(x) for x in d.rv])
    quarter = QUARTER * max(rest[1], c[1])
    total = first + c[0] + others + quarter
    crooked = lights[2] + rest[2] + cars[2] + c[2] + held[2]
    amps = total / w.volts
    return first, 0.0, 0.0, 0.0, c[0], others, quarter, total, crooked, amps, reduced(amps, crooked / w.volts, w)


def neutral_together(p: Any) -> Result:
    total, crooked = sum([x.unbalanced for x in p.parts]), sum([x.nonlinear for x in p.parts])
    amps = total / p.volts
    return total, crooked, amps, reduced(amps, crooked / p.volts, p)


# ------------------------------------------------------------------------------------------------------------------ estate


def together(p: Any) -> Result:
    total, minimum = sum([x.total for x in p.parts]), sum([x.minimum for x in p.parts])
    return total, total / p.volts, minimum, minimum / p.volts


def connected(d: Any) -> float:
    c, cook = d.climate, va_of(d.cooking)
    heat = sum([max(h.pump.va, va_of(h.locked)) for h in c.heat_pumps])
    heat += va_of(c.supplementary) + va_of(c.heat) + va_of(c.zone_heat) + va_of(c.storage)
    cool = sum([h.pump.va for h in c.heat_pumps]) + va_of(c.cooling)
    cars = vehicles(d.vehicles) + sum([managed(m) for m in d.managers])
    return nameplates(d) + (0.0 if cook else SUBSTITUTE) + cars + max(heat, cool) + va_of(c.always)


def two(first: Any, second: Any, both: Any) -> Result:
    total, a, b = standard(both)[11], connected(first), connected(second)
    summed_, larger = THREE * 1.5 * (a + b), THREE * 3.0 * max(a, b)
    used = min(total, larger)
    return total, summed_, larger, used, used / first.volts, larger < total, min(total, summed_) < used


def growth(p: Any) -> Result:
    left, minimum = p.rating - p.current, 100.0 * (p.rating - p.minimum) / p.rating
    return 100.0 * left / p.rating, left, minimum, minimum >= p.wanted


def shares(s: Any) -> Result:
    parts = [va_of(s.nameplate), va_of(s.submittal), va_of(s.assumed)]
    total = sum(parts)
    return total, *(100.0 * x / total if total else 0.0 for x in parts)


def power(rows: Rows) -> tuple[float, float]:
    p = q = 0.0
    for x in rows:
        p += x.va * x.pf / 1000.0
        q += x.va * sqrt(1 - x.pf * x.pf) / 1000.0
    return p, q


def peaks(k: Any) -> Result:
    """Winter and summer, kW and kVAR, with each set of factors."""
    a, b, c, d, e, v, z, w, h, t = [power(r) for r in (k.lighting, k.small, k.motors, k.heaters, k.refrigeration, k.vehicles,
                                                       k.constant, k.winter, k.winter_pumps, k.summer)]
    held, out = sum([managed(m) for m in k.managers]) / 1000.0, []
    for lighting, small, motors, heaters, fridge, cooling, _ in EXPECT:
        p = lighting * a[0] + small * b[0] + motors * c[0] + heaters * d[0] + fridge * e[0] + v[0] + z[0] + held
        q = lighting * a[1] + small * b[1] + motors * c[1] + heaters * d[1] + fridge * e[1] + v[1] + z[1]
        out += [p + heaters * w[0] + cooling * h[0], q + heaters * w[1] + cooling * h[1], p + cooling * t[0], q + cooling * t[1]]
    return tuple(out)


def estate_peak(e: Any) -> Result:
    out: list[float] = []
    for band, factors in zip((e.low, e.typical, e.high), EXPECT, strict=True):
        wp, wq, sp, sq = (factors[6] * sum([x[i] for x in band]) for i in range(1, 5))
        out += max(wp, sp), max(hypot(wp, wq), hypot(sp, sq))
    return tuple(out)


def between(r: Any) -> tuple[float, ...]:
    """The optional method less the standard one."""
    s = r.optional_total - r.total
    return r.general - r.connected, r.optional_climate - r.climate, s, s / r.volts, (r.optional_minimum - r.minimum) / r.volts
