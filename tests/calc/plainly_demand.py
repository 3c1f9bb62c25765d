"""The load calculations written a second time, as a person does them with the tables beside him: no editions, no told lines.

Tables are typed in here, rows are taken apart into single units, seasons and methods are tried as whole scenarios, and the
figures of an edition stand in one dictionary. Nothing is imported from the calculations but the records.
"""
from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor, sqrt
from typing import Any

BASE = {"unit": 3.0, "evse": 0.0, "managed_any": False, "tier": 10_000.0, "apart": False, "dryers": "old"}
YEARS: dict[str, dict[str, Any]] = {
    "nec2020": BASE,
    "nec2023": {**BASE, "evse": 7200.0, "managed_any": True},
    "nec2026": {**BASE, "unit": 2.0, "evse": 7200.0, "managed_any": True, "tier": 8000.0, "apart": True, "dryers": "new"},
}

# Table 430.248: amperes at 115 V, 208 V and 230 V
MOTOR = {"1/6": (4.4, 2.4, 2.2), "1/4": (5.8, 3.2, 2.9), "1/3": (7.2, 4.0, 3.6), "1/2": (9.8, 5.4, 4.9), "3/4": (13.8, 7.6, 6.9),
         "1": (16, 8.8, 8.0), "1-1/2": (20, 11.0, 10), "2": (24, 13.2, 12), "3": (34, 18.7, 17), "5": (56, 30.8, 28),
         "7-1/2": (80, 44.0, 40), "10": (100, 55.0, 50)}
# Table 220.55, one row for each number of units up to 25
A_PERCENT = (80, 75, 70, 66, 62, 59, 56, 53, 51, 49, 47, 45, 43, 41, 40, 39, 38, 37, 36, 35, 34, 33, 32, 31, 30)
B_PERCENT = (80, 65, 55, 50, 45, 43, 40, 36, 35, 34, 32, 32, 32, 32, 32, 28, 28, 28, 28, 28, 26, 26, 26, 26, 26)
C_KW = (8, 11, 14, 17, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40)


def two_steps(x: float, first: float, factor: float) -> float:
    return x if x <= first else first + factor * (x - first)


# ------------------------------------------------------------------------------------------------------------- single rows


def motor(x: Any) -> tuple[float, float]:
    """Load of the row and size of one motor in it."""
    if x.flc_row:
        one = MOTOR[x.flc_row][{120.0: 0, 208.0: 1, 240.0: 2}[x.volts]] * x.volts
        return one * x.qty, one
    return x.va, (x.va / x.qty if x.motor else 0.0)


def loads(rows: Iterable[Any]) -> float:
    return sum(motor(x)[0] for x in rows)


def largest(rows: Iterable[Any]) -> float:
    return max([motor(x)[1] for x in rows], default=0.0)


def plates(rows: Iterable[Any]) -> float:
    return sum(x.va for x in rows)


def group(g: Any) -> float:
    each = [motor(x)[0] for x in g.members]
    return (max(each) if g.reasoned else sum(each)) if each else 0.0


def cars(rows: Iterable[Any], y: dict[str, Any]) -> float:
    return sum(max(x.va / x.qty, y["evse"]) * x.qty for x in rows)


def held(m: Any, y: dict[str, Any]) -> float:
    free = cars(m.members, y) if m.vehicles_only else loads(m.members)
    if not (m.listed and m.fail_safe and m.locked) or not (m.vehicles_only or y["managed_any"]):
        return free
    return min(free, max(m.floor, m.set_point * m.volts))


# ------------------------------------------------------------------------------------------------------ parts of a dwelling


def general(d: Any, y: dict[str, Any]) -> tuple[float, float]:
    """Connected, and after 100 % of 3 kVA, 35 % to 120 kVA, 25 % beyond."""
    s = y["unit"] * sum(a.area for a in d.areas) + plates(d.general)
    s += 1500 * (sum(c.circuits for c in d.small_appliance) + sum(c.circuits for c in d.laundry))
    return s, min(s, 3000) + 0.35 * max(0, min(s, 120_000) - 3000) + 0.25 * max(0, s - 120_000)


def counts(x: Any) -> bool:
    return motor(x)[0] / x.qty >= 500 or x.hp >= 0.25


def fixed_factor(d: Any) -> float:
    n = sum(x.qty for x in d.appliances if counts(x))
    for g in d.appliance_groups:
        inside = sum(x.qty for x in g.members if counts(x))
        n += min(1, inside) if g.reasoned else inside
    return 0.75 if n >= 4 else 1.0


def fixed(d: Any) -> float:
    f, s = fixed_factor(d), 0.0
    for x in d.appliances:
        s += motor(x)[0] * (f if counts(x) else 1)
    for g in d.appliance_groups:
        s += group(g) * (f if any(counts(x) for x in g.members) else 1)
    return s


def dryer_percent(n: float, table: str) -> float:
    few = {1: 100, 2: 100, 3: 100, 4: 100, 5: 85} if table == "old" else {1: 100, 2: 100, 3: 80, 4: 80, 5: 80}
    rows = {**few, 6: 75, 7: 65, 8: 60, 9: 55, 10: 50, 11: 47}
    if n in rows:
        return rows[n]
    return 47 - (n - 11) if n <= 23 else 35 - 0.5 * (n - 23) if n <= 42 else 25


def dryers(d: Any, y: dict[str, Any]) -> float:
    n = sum(x.qty for x in d.dryers)
    return dryer_percent(n, y["dryers"]) / 100 * sum(max(5000, x.va / x.qty) * x.qty for x in d.dryers) if n else 0.0


def column_c(watts: list[float]) -> float:
    """Column C of a list of units, kW: table or formula, then 5 % for each kW of the average above 12 kW, from a half up."""
    n = len(watts)
    table = C_KW[n - 1] if n <= 25 else 15 + n if n <= 40 else 25 + 0.75 * n
    average = sum(Fraction(max(p, 12_000.0)) for p in watts) / n
    return table * (1 + 0.05 * floor(average / 1000 - 12 + Fraction(1, 2)))


def percent(column: tuple[int, ...], n: int, over: list[tuple[int, int]]) -> float:
    return column[n - 1] / 100 if n <= 25 else next(p for upto, p in over if n <= upto) / 100


def small_units(a: list[float], b: list[float], together: bool) -> float:
    n_a, n_b = (len(a) + len(b),) * 2 if together else (len(a), len(b))
    s = sum(a) * percent(A_PERCENT, n_a, [(10**9, 30)]) if a else 0.0
    return s + (sum(b) * percent(B_PERCENT, n_b, [(30, 24), (40, 22), (50, 20), (60, 18), (10**9, 16)]) if b else 0.0)


def cooking(rows: Iterable[Any]) -> tuple[float, float]:
    """The least permitted, and the same if small units are counted together. kW."""
    units = [x.va / x.qty for x in rows for _ in range(int(x.qty))]
    tiny = sum(p for p in units if p <= 1750) / 1000
    a = [p for p in units if 1750 < p < 3500]
    b = [p for p in units if 3500 <= p <= 8750]
    c = [p for p in units if p > 8750]
    if not a + b + c:
        return tiny, tiny
    all_c, large = column_c(a + b + c), column_c(c) if c else 0.0
    one, other = (tiny + min(all_c, large + small_units(a, b, together) / 1000) for together in (False, True))
    return one, other


# ------------------------------------------------------------------------------------------------------------------- seasons


def seasons(c: Any) -> dict[str, tuple[float, float]]:
    """Load and largest motor of each season, with what always runs."""
    both = max(largest(h.pump for h in c.heat_pumps), largest(c.always))
    resistance = plates(c.supplementary) + plates(c.heat) + plates(c.zone_heat) + plates(c.storage)
    winter = resistance + sum(max(motor(h.pump)[0], plates(h.locked)) for h in c.heat_pumps)
    summer = loads(c.cooling) + loads(h.pump for h in c.heat_pumps)
    always = loads(c.always)
    return {"winter": (winter + always, both), "summer": (summer + always, max(both, largest(c.cooling)))}


def whole(base: float, one: float, c: Any) -> tuple[float, float]:
    """The larger scenario, and the scenario's season with the largest motor of either."""
    s = seasons(c)
    best = max(s, key=lambda k: s[k][0] + 0.25 * max(one, s[k][1]))
    most = max(one, *(m for _, m in s.values()))
    return base + s[best][0] + 0.25 * max(one, s[best][1]), base + s[best][0] + 0.25 * most


def standard(d: Any, edition: str) -> dict[str, float]:
    y = YEARS[edition]
    vehicles, managed = cars(d.vehicles, y), sum(held(m, y) for m in d.managers)
    base = (general(d, y)[1] + fixed(d) + 1000 * cooking(d.cooking)[0] + dryers(d, y) + loads(d.motors) + loads(d.loads)
            + sum(map(group, d.groups)) + managed + vehicles)
    members = [x for g in (*d.appliance_groups, *d.groups) for x in g.members]
    total, other = whole(base, largest([*d.appliances, *d.motors, *d.loads, *members]), d.climate)
    return {"total": total, "other_reading": other, "minimum": total + 0.25 * (vehicles + managed), "amperes": total / d.volts}


def plate_sum(d: Any, y: dict[str, Any]) -> float:
    return (general(d, y)[0] + plates([*d.appliances, *d.cooking, *d.dryers, *d.motors, *d.loads])
            + sum(map(group, [*d.appliance_groups, *d.groups])))


def six(c: Any) -> list[float]:
    pumps, extra = plates(h.pump for h in c.heat_pumps), plates(c.supplementary)
    helped = extra > 0 or any(plates(h.locked) for h in c.heat_pumps)
    zones, n = plates(c.zone_heat), sum(x.qty for x in c.zone_heat)
    return [
        pumps + plates(c.cooling),
        0.0 if helped else pumps,
        0.65 * extra + sum(max(h.pump.va, 0.65 * plates(h.locked)) for h in c.heat_pumps) if helped else 0.0,
        0.65 * (plates(c.heat) + (zones if n < 4 else 0)),
        0.4 * zones if n >= 4 else 0.0,
        plates(c.storage)]


def optional(d: Any, edition: str) -> dict[str, float]:
    y = YEARS[edition]
    s = plate_sum(d, y) + sum(held(m, y) for m in d.managers if not m.vehicles_only)
    ev = cars(d.vehicles, y) + sum(held(m, y) for m in d.managers if m.vehicles_only)
    cooling, *heating = six(d.climate)
    climate = max(six(d.climate)) + plates(d.climate.always)
    inside = two_steps(s + ev, y["tier"], 0.4) + climate
    outside = two_steps(s, y["tier"], 0.4) + ev + climate
    apart = y["apart"] or d.vehicles_apart
    total = outside if apart else inside
    together = total + max(cooling, sum(heating)) - max(six(d.climate))
    return {"inside": inside, "outside": outside, "total": total, "minimum": total + (0.25 * ev if apart else 0),
            "together": together}


def season_plate(c: Any) -> float:
    pumps = [(h.pump.va, plates(h.locked)) for h in c.heat_pumps]
    winter = sum(max(p) for p in pumps) + plates([*c.supplementary, *c.heat, *c.zone_heat, *c.storage])
    return max(winter, sum(p for p, _ in pumps) + plates(c.cooling)) + plates(c.always)


def existing(d: Any, added: bool, edition: str) -> float:
    y = YEARS[edition]
    s, climate = plate_sum(d, y) + cars(d.vehicles, y) + sum(held(m, y) for m in d.managers), season_plate(d.climate)
    return two_steps(s, 8000, 0.4) + climate if added else two_steps(s + climate, 8000, 0.4)


def connected(d: Any, edition: str) -> float:
    y = YEARS[edition]
    s = plate_sum(d, y) + cars(d.vehicles, y) + sum(held(m, y) for m in d.managers) + season_plate(d.climate)
    return s + (0 if plates(d.cooking) > 0 else 8000)


# --------------------------------------------------------------------------------------------------------- other structures


def weld(rows: Iterable[Any]) -> float:
    """Amperes of several arc welders: duty read in steps of ten, the two largest in full."""
    with_motor = {20: 0.55, 30: 0.62, 40: 0.69, 50: 0.75, 60: 0.81, 70: 0.86, 80: 0.91, 90: 0.96, 100: 1.0}
    without = {20: 0.45, 30: 0.55, 40: 0.63, 50: 0.71, 60: 0.78, 70: 0.84, 80: 0.89, 90: 0.95, 100: 1.0}
    each = []
    for x in rows:
        duty = max(20, ceil(x.duty / 10) * 10)
        each.append(x.effective or x.va / x.volts * (with_motor if x.with_motor else without)[duty])
    each.sort(reverse=True)
    return sum(i * f for i, f in zip(each, [1, 1, 0.85, 0.7, *[0.6] * len(each)], strict=False))


def other(d: Any, edition: str) -> dict[str, float]:
    y = YEARS[edition]
    outlets = two_steps(sum(max(x.va, 180 * x.qty) for x in d.receptacles), 10_000, 0.5)
    vehicles, managed = cars(d.vehicles, y), sum(held(m, y) for m in d.managers)
    rv = sum(x.qty * (2400 if x.receptacle <= 20 else 3600 if x.receptacle <= 30 else 12_000) for x in d.rv)
    base = (plates(d.lighting) + outlets + loads(d.loads) + loads(d.motors) + vehicles + managed + sum(map(group, d.groups))
            + weld(d.welders) * d.volts + rv)
    members = [x for g in d.groups for x in g.members]
    total, reading = whole(base, largest([*d.loads, *d.motors, *members]), d.climate)
    one, minimum = largest([*d.loads, *d.motors, *members]), 0.0
    for name, (load, size) in seasons(d.climate).items():
        c = d.climate
        heat = [*c.supplementary, *c.heat, *c.zone_heat, *c.storage] if name == "winter" else []
        lasting = [x.va for x in [*d.lighting, *d.loads, *heat] if x.continuous and not x.motor]
        for g in d.groups:
            inside = [x.va if x.continuous and not x.motor else 0 for x in g.members]
            lasting.append((max(inside) if g.reasoned else sum(inside)) if inside else 0)
        minimum = max(minimum, base + load + 0.25 * (max(one, size) + sum(lasting) + vehicles + managed))
    return {"total": total, "other_reading": reading, "minimum": minimum}


# ------------------------------------------------------------------------------------------------------------------- neutral


def on_neutral(rows: Iterable[Any]) -> list[Any]:
    return [x for x in rows if x.neutral]


def neutral_group(g: Any) -> float:
    each = [motor(x)[0] for x in on_neutral(g.members)]
    return (max(each) if g.reasoned else sum(each)) if each else 0.0


def neutral_season(c: Any) -> float:
    heat = loads(on_neutral([*c.supplementary, *c.heat, *c.zone_heat, *c.storage]))
    pumps = loads(on_neutral(h.pump for h in c.heat_pumps))
    return pumps + max(heat, loads(on_neutral(c.cooling))) + loads(on_neutral(c.always))


def dwelling_neutral(d: Any, edition: str) -> float:
    """Unbalanced VA."""
    y, f = YEARS[edition], fixed_factor(d)
    rest = [*d.motors, *d.loads, *d.vehicles, *(x for m in d.managers for x in m.members)]
    groups, c = [*d.appliance_groups, *d.groups], d.climate
    turning = [*d.appliances, *d.motors, *d.loads, *(x for g in groups for x in g.members), *(h.pump for h in c.heat_pumps),
               *c.cooling, *c.always]
    return (general(d, y)[1] + 700 * cooking(d.cooking)[0] + 0.7 * dryers(d, y)
            + sum(motor(x)[0] * (f if counts(x) else 1) for x in on_neutral(d.appliances)) + loads(on_neutral(rest))
            + sum(map(neutral_group, groups)) + neutral_season(c) + 0.25 * largest(on_neutral(turning)))


def other_neutral(d: Any) -> float:
    rest = [*d.lighting, *d.loads, *d.motors, *d.vehicles, *(x for m in d.managers for x in m.members)]
    c = d.climate
    turning = [*d.loads, *d.motors, *(x for g in d.groups for x in g.members), *(h.pump for h in c.heat_pumps), *c.cooling,
               *c.always]
    outlets = two_steps(sum(max(x.va, 180 * x.qty) for x in d.receptacles), 10_000, 0.5)
    rv = sum(x.qty * (2400 if x.receptacle <= 20 else 3600 if x.receptacle <= 30 else 12_000) for x in d.rv)
    return (outlets + rv + loads(on_neutral(rest)) + sum(map(neutral_group, d.groups)) + neutral_season(c)
            + 0.25 * largest(on_neutral(turning)))


def reduced(amperes: float, nonlinear: float = 0.0, wye: bool = False) -> float:
    kept = nonlinear if wye else 0.0
    return kept + two_steps(amperes - kept, 200, 0.7)


# ------------------------------------------------------------------------------------------------------------- expected peak

LOW = {"lighting": 0.65, "small": 0.1, "motors": 0.2, "heaters": 0.8, "refrigeration": 0.4, "cooling": 0.6, "between": 0.93}
TYPICAL = {"lighting": 0.75, "small": 0.25, "motors": 0.3, "heaters": 0.8, "refrigeration": 0.6, "cooling": 0.7, "between": 1.0}
HIGH = {"lighting": 1.0, "small": 0.5, "motors": 1.0, "heaters": 1.0, "refrigeration": 1.0, "cooling": 1.0, "between": 1.0}


def expected(kinds: Iterable[Any], f: dict[str, float], edition: str) -> tuple[float, float]:
    """kW and kVA by complex power, the larger season."""
    seasons_: dict[str, complex] = {"winter": 0, "summer": 0}
    for k in kinds:
        always = sum(held(m, YEARS[edition]) for m in k.managers) + 0j
        parts = {"lighting": k.lighting, "small": k.small, "motors": k.motors, "heaters": k.heaters,
                 "refrigeration": k.refrigeration, "one": [*k.vehicles, *k.constant]}
        always += sum({**f, "one": 1.0}[name] * power(rows) for name, rows in parts.items())
        seasons_["winter"] += always + f["heaters"] * power(k.winter) + f["cooling"] * power(k.winter_pumps)
        seasons_["summer"] += always + f["cooling"] * power(k.summer)
    both = [f["between"] * s / 1000 for s in seasons_.values()]
    return max(s.real for s in both), max(abs(s) for s in both)


def power(rows: Iterable[Any]) -> complex:
    return sum((x.va * complex(x.pf, sqrt(max(0.0, 1 - x.pf ** 2))) for x in rows), 0j)
