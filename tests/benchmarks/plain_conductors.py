"""Circuits, feeders, service and paths as a person would write them who never needs to explain them: the yardstick for speed.

Tables are module globals, ladders and bands are bisected in place, formulas stand in line. The records are those of the
package; everything else is written again.
"""
from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import Any

from curtilage.editions import Edition

ED = Edition.load("nec2023")
RATINGS = tuple(float(x) for x in ED.raw_shape("standard_rating").sizes)
CONTINUOUS, MOTOR = ED.continuous_factor, ED.motor_conductor_factor
MOTOR_DEVICE, LEAST, NEXT = ED.motor_device["single_phase"], ED.branch_device_least, ED.next_size_limit
PARALLEL = ED.parallel_least
SHARE_83, FROM_83, TO_83 = ED.dwelling_factor, ED.dwelling_from, ED.dwelling_to
USED_LEAST, USED_MOST = ED.utilization_least, ED.utilization_most
SERVED_LEAST, SERVED_MOST = ED.service_voltage_least, ED.service_voltage_most
MAINS_MOST, DWELLING_LEAST, NEUTRAL_SHARE = ED.mains_most, ED.dwelling_service_least, ED.feeder_neutral_share
REASONS = ("not a single-phase 120/240 V three-wire supply", "does not carry the entire load of one dwelling unit",
           "rated below the range of the rule", "rated above the range of the rule",
           "carries the entire load of one dwelling unit, rated within the range of the rule")
Result = tuple[Any, ...]


def bands(name: str) -> tuple[Any, Any]:
    shape = ED.raw_shape(name)
    return shape.limits, shape.values


AMBIENT = {t: bands(f"ambient_factor{t:.0f}") for t in (60.0, 75.0, 90.0)}
BUNDLED = bands("bundling_factor")


class Metal:
    """The tables of one material in one raceway."""

    def __init__(self, name: str) -> None:
        m = ED.view(name)
        self.sizes, self.from_size = m.sizes, m.from_size
        self.amps = {60.0: m.ampacity60, 75.0: m.ampacity75, 90.0: m.ampacity90}
        self.cmil, self.small, self.r_dc, self.r, self.x = m.cmil, m.small_limit, m.r_dc, m.r, m.x
        self.egc = (m.raw_shape("egc").limits, m.raw_shape("egc").values)
        self.bond, self.bond_from, self.bond_share = m.bond, m.bond_from, m.bond_share


METALS = {name: Metal(name) for name in ED.views()}


def device(need: float, stated: float, floor: float) -> tuple[float, float, float, bool, float]:
    least = RATINGS[bisect_left(RATINGS, need if need > floor else floor)]
    rating = stated or least
    return least, 0.0, rating, rating >= need and rating in RATINGS, 100.0 * (1 - need / rating)


def ground(m: Metal, rating: float, base: str, size: str) -> tuple[str, str]:
    limits, values = m.egc
    table = grown = values[bisect_left(limits, rating)]
    cmil = m.cmil
    if cmil[size] > cmil[base]:
        need = cmil[table] * cmil[size] / cmil[base]
        for grown in m.from_size[table]:
            if cmil[grown] >= need:
                break
        else:
            grown = size
    return table, size if cmil[grown] > cmil[size] else grown


def losses(m: Metal, n: float, size: str, amps: float, x: Any) -> tuple[float, float, float, float]:
    each, pf, volts = amps / n, x.pf, x.volts
    q, kft = (1 - pf * pf) ** 0.5, 2.0 * each * x.length / 1000.0
    r, z = m.r[size], m.x[size]
    along, across = (r * pf + z * q) * kft, (z * pf - r * q) * kft
    exact = volts + along - (volts * volts - across * across) ** 0.5
    return 100.0 * m.r_dc[size] * kft / volts, 100.0 * along / volts, 100.0 * exact / volts, volts - exact


def for_drop(m: Metal, n: float, start: str, amps: float, x: Any) -> str:
    pf, cmil, r, z = x.pf, m.cmil, m.r, m.x
    q, k, most = (1 - pf * pf) ** 0.5, 200.0 * amps / n * x.length / 1000.0 / x.volts, cmil[x.largest]
    for s in m.from_size[start]:
        if cmil[s] > most:
            break
        if s in r and k * (r[s] * pf + z[s] * q) <= x.drop_limit:
            return s
    return "none"


def branch(c: Any, view: str) -> Result:
    m, current = METALS[view], c.va / c.volts
    limits, values = AMBIENT[c.insulation]
    f = values[bisect_left(limits, c.ambient)] * BUNDLED[1][bisect_left(BUNDLED[0], c.ccc)]
    hot, lugs, small = m.amps[c.insulation], m.amps[c.terminals], m.small
    one = c.motor_va / c.volts or current
    rest = current - one
    need = c.mca or (MOTOR * one + rest if c.motor else CONTINUOUS * current if c.continuous else current)
    carry = need if c.mca or c.motor else current
    free = c.mocp > 0 or c.motor
    if c.mocp > 0:
        least, most = RATINGS[bisect_left(RATINGS, need)], RATINGS[bisect_right(RATINGS, c.mocp) - 1]
        rating = c.breaker or most
        ok, margin = need <= rating <= c.mocp and rating in RATINGS, 100.0 * (1 - need / rating)
    elif c.motor:
        least, most = RATINGS[bisect_left(RATINGS, need)], RATINGS[bisect_left(RATINGS, MOTOR_DEVICE * one)]
        if one <= 6:
            most = max(most, 20.0 if c.volts <= 120 else 15.0)
        if rest > 0:
            most = RATINGS[bisect_right(RATINGS, most + rest) - 1]
        rating = c.breaker or most
        ok, margin = need <= rating <= most and rating in RATINGS, 100.0 * (1 - need / rating)
    else:
        least, most, rating, ok, margin = device(need, c.breaker, LEAST)
    for carries in m.sizes:
        amps = min(hot[carries] * f, lugs[carries])
        if free:
            if amps >= carry:
                break
        elif (amps >= current and min(hot[carries], lugs[carries]) >= need and rating <= small[carries] and (
                rating <= amps or (not c.cords and rating <= NEXT and rating <= RATINGS[bisect_left(RATINGS, amps)]))):
            break
    size = c.size or for_drop(m, 1, carries, current, c)
    amps, column = min(hot[size] * f, lugs[size]), min(hot[size], lugs[size])
    protected = rating <= most if free else rating <= small[size] and (rating <= amps or (
        not c.cords and rating <= NEXT and rating <= RATINGS[bisect_left(RATINGS, amps)]))
    dc, drop, exact, far = losses(m, 1, size, current, c)
    return (current, need, least, most, rating, ok, margin, carries, size, amps, 100.0 * (1 - carry / amps),
            column >= need and amps >= carry, protected, dc, drop, exact, drop <= c.drop_limit, c.drop_limit - drop, far,
            *ground(m, rating, carries, size))


class Lay:
    """A feeder or service being laid: how it lies, and what it must carry."""

    def __init__(self, m: Metal, x: Any, current: float, need: float, rating: float, rule: str) -> None:
        limits, values = AMBIENT[x.insulation]
        self.m, self.x, self.current, self.need, self.rating, self.rule = m, x, current, need, rating, rule
        self.f = values[bisect_left(limits, x.ambient)] * BUNDLED[1][bisect_left(BUNDLED[0], x.ccc)]
        self.hot, self.lugs = m.amps[x.insulation], m.amps[x.terminals]

    def amps(self, n: float, s: str) -> float:
        return n * min(self.hot[s] * self.f, self.lugs[s])

    def protected(self, s: str, amps: float) -> bool:
        rating = self.rating
        return rating <= self.m.small[s] and (rating <= amps or (
            rating <= NEXT and rating <= RATINGS[bisect_left(RATINGS, amps)]))

    def smallest(self, n: float, rule: str) -> str:
        cmil = self.m.cmil
        for s in self.m.sizes:
            if n > 1 and cmil[s] < PARALLEL:
                continue
            amps = self.amps(n, s)
            if rule == "dwelling 83 %":
                if amps >= SHARE_83 * self.rating:
                    return s
            elif amps >= self.current and n * min(self.hot[s], self.lugs[s]) >= self.need and (
                    rule != "device" or self.protected(s, amps)):
                return s
        return "none"

    def lay(self) -> tuple[float, str, str]:
        x = self.x
        if x.size:
            return x.sets, self.smallest(x.sets, self.rule), x.size
        for n in (x.sets,) if x.sets else range(1, int(x.most_sets) + 1):
            carries = self.smallest(n, self.rule)
            size = carries if carries == "none" else for_drop(self.m, n, carries, self.current, x)
            if size != "none":
                return n, carries, size
        raise LookupError(x.id)

    def stands(self, n: float, s: str) -> Result:
        amps, column = self.amps(n, s), n * min(self.hot[s], self.lugs[s])
        parallel = n == 1 or self.m.cmil[s] >= PARALLEL
        if self.rule == "dwelling 83 %":
            asked = SHARE_83 * self.rating
            carries = protected = amps >= asked
        else:
            asked, carries = self.current, column >= self.need and amps >= self.current
            protected = self.protected(s, amps) if self.rule == "device" else amps >= asked
        return asked, amps, 100.0 * (1 - asked / amps), carries, protected, parallel

    def neutral(self, n: float, size: str, area: float) -> Result:
        cmil, amps = self.m.cmil, self.x.neutral_va / self.x.volts
        for s in self.m.sizes:
            if (n == 1 or cmil[s] >= PARALLEL) and self.amps(n, s) >= amps and n * cmil[s] >= area:
                break
        chosen = self.x.neutral or (size if self.x.full_neutral else s)
        return amps, s, chosen, cmil[chosen] >= cmil[s]


def permission(rating: float, three: bool, whole: bool) -> tuple[bool, str]:
    i = 0 if not three else 1 if not whole else 2 if rating < FROM_83 else 3 if rating > TO_83 else 4
    return i == 4, REASONS[i]


def feeder(f: Any, view: str) -> Result:
    m, current, need = METALS[view], f.va / f.volts, f.minimum_va / f.volts
    least, _, rating, ok, margin = device(need, f.breaker, 0.0)
    allowed, reason = permission(rating, f.three_wire, f.whole_dwelling)
    rule = "dwelling 83 %" if f.take_83 and allowed else "device"
    w = Lay(m, f, current, need, rating, rule)
    n, carries, size = w.lay()
    base = carries if rule == "device" else w.smallest(n, "device")
    base = size if base == "none" else base
    asked, amps, spare, carries_ok, protected, parallel = w.stands(n, size)
    dc, drop, exact, far = losses(m, n, size, current, f)
    table, egc = ground(m, rating, base, size)
    other = ground(m, rating, carries if rule != "device" and carries != "none" else base, size)[1]
    neutral = (f.neutral_va / f.volts, "none", "none", True)
    if f.three_wire:
        neutral = w.neutral(n, size, NEUTRAL_SHARE * m.cmil[egc])
    return (current, need, least, rating, ok, margin, allowed, reason, rule, asked, n, base, carries, size, amps, spare,
            carries_ok, protected, parallel, dc, drop, exact, drop <= f.drop_limit, f.drop_limit - drop, far, table, egc,
            other, *neutral, amps >= current)


def main(x: Any, volts: float) -> Result:
    current, need = x.va / volts, x.minimum_va / volts
    least = RATINGS[bisect_left(RATINGS, need)]
    rating = x.rating or least
    return current, need, least, rating, rating >= need and rating in RATINGS, 100.0 * (1 - current / rating)


def service(s: Any, view: str) -> Result:
    m, current, need = METALS[view], s.va / s.volts, s.minimum_va / s.volts
    rating, count = sum(main(x, s.volts)[3] for x in s.mains), len(s.mains)
    least = max(need, DWELLING_LEAST) if s.dwelling else need
    allowed, reason = permission(rating, True, s.whole_dwelling)
    rule = "dwelling 83 %" if s.take_83 and allowed else "device" if count == 1 else "load of several mains"
    w = Lay(m, s, current, need, rating, rule)
    n, carries, size = w.lay()
    asked, amps, spare, carries_ok, protected, parallel = w.stands(n, size)
    dc, drop, exact, far = losses(m, n, size, current, s)
    area = m.cmil[size]
    bonded = m.bond_share * area if area > m.bond_from else m.cmil[m.bond(area)]
    return (current, need, count, count <= MAINS_MOST, rating, least, rating >= least, rule, allowed, reason, asked, n, carries,
            size, amps, spare, carries_ok, protected, parallel, dc, drop, exact, drop <= s.drop_limit, s.drop_limit - drop, far,
            *w.neutral(n, size, n * bonded), amps >= current)


def path(p: Any) -> Result:
    at, lost, nodes = p.source - 1.2 * p.lateral, p.lateral, []
    feeders = sum(f.drop for f in p.feeders)
    for f in p.feeders:
        lost += f.drop
        volts = p.source - 1.2 * lost
        nodes.append((f.id, lost, volts, USED_LEAST <= volts <= USED_MOST))
    total = feeders + p.branch
    volts = p.source - 1.2 * (p.lateral + total)
    return (at, SERVED_LEAST <= at <= SERVED_MOST, feeders, feeders <= p.feeder_limit, p.branch <= p.branch_limit, total,
            total <= p.total_limit, p.lateral + total, volts, USED_LEAST <= volts <= USED_MOST, tuple(nodes))
