"""The utility side, written a second time from its sources: complex numbers for impedances and places, tables from the CSV files.

Shares no code with the package; only the numbers must be the same.
"""
from cmath import rect
import csv
from math import acos, hypot, inf, pi
from pathlib import Path
from typing import Any

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"


def rows(name: str) -> list[dict[str, str]]:
    with open(TABLES / f"{name}.csv", encoding="utf-8") as f:
        return list(csv.DictReader(f))


# -------------------------------------------------------------------------------------------------------------- flicker
def percent(z: complex, amperes: float, pf: float, volts: float) -> float:
    """IEEE Std 141: the part of the impedance voltage in phase with the voltage. The current lags, so it is turned back."""
    return 100 * (z * rect(amperes, -acos(pf))).real / volts


def florida(starts: float) -> float:
    """Rule 25-6.046: 5 % to twice an hour, 2.5 % to once a minute, 4 % for a start at the point of delivery."""
    return min(4.0, 5.0 if starts <= 2 else 2.5 if starts <= 60 else inf)


def limits(x: Any) -> tuple[float, float]:
    """Least and most that may be allowed."""
    rates = [x.starts] if x.starts else [60.0, 2.0]
    found = []
    for rate in rates:
        covered = not x.limit_starts or (rate <= x.limit_starts if x.starts else False)
        if not x.limit:
            found.append(florida(rate))
        else:
            found.append(x.limit if covered else min(x.limit, florida(rate)))
    if not x.starts and x.limit:
        found.append(x.limit)
    return min(found), max(found)


def flicker(x: Any) -> dict[str, Any]:
    before, lateral = complex(x.r_supply, x.x_supply), complex(x.r_lateral, x.x_lateral)
    supply, more = (percent(z, x.current, x.pf, x.volts) for z in (before, lateral))
    change = supply + more if x.at_gear else supply
    least, most = limits(x)
    return {"supply": supply, "lateral": more, "gear": supply + more, "bound": 100 * abs(before) * x.current / x.volts,
            "change": change, "limit": least, "limit_most": most, "ok": change <= least, "fails": change > most}


# ------------------------------------------------------------------------------------------------------------ candidates
def candidate(c: Any) -> dict[str, Any]:
    line, neutral = complex(c.r_line_cold, c.x_line), complex(c.r_neutral_cold, c.x_neutral)
    ll, ln = complex(c.r_ll, c.x_ll), complex(c.r_ln, c.x_ln)
    full, warm = complex(c.r_full, c.x_full), 2 * complex(c.r_line, c.x_line)
    amps, likely = c.va / c.volts, 1000 * c.expected / c.volts
    gear = {"gear_ll": c.volts / abs(ll + 2 * line), "gear_ln": c.volts / 2 / abs(ln + line + neutral)}
    seen, volts = (complex(c.r_ll_least, c.x_ll_least), c.volts) if c.between_lines else (
        complex(c.r_ln_least, c.x_ln_least), c.volts / 2)
    return gear | {
        "ll": c.volts / abs(ll), "ln": c.volts / 2 / abs(ln), "rating_ok": max(gear.values()) <= c.interrupting,
        "loading": c.va / c.rating / 10, "loading_expected": 100 * c.expected / c.rating,
        "drop": percent(full, amps, c.pf, c.volts), "drop_expected": percent(full, likely, c.pf, c.volts),
        "lateral": percent(warm, amps, c.pf, c.volts), "lateral_expected": percent(warm, likely, c.pf, c.volts),
        "flicker": percent(seen, c.start, c.start_pf, volts)}


# -------------------------------------------------------------------------------------------------------------- distances
def to_edge(p: complex, a: complex, b: complex) -> float:
    """Distance of a point from an edge: turned so that the edge lies along the axis."""
    if a == b:
        return abs(p - a)
    turned = (p - a) / (b - a) * abs(b - a)
    over = turned.real - min(max(turned.real, 0.0), abs(b - a))
    return hypot(over, turned.imag)


def separation(x: Any) -> dict[str, Any]:
    nearest = min(to_edge(complex(g.p_x, g.p_y), complex(g.a_x, g.a_y), complex(g.b_x, g.b_y)) for g in x.gaps)
    far = 0.0 if x.overlap else nearest
    spare = x.wanted - far if x.at_most else far - x.wanted
    return {"distance": far, "wanted": x.wanted, "spare": spare}


# ------------------------------------------------------------------------------------------------------- the rest of it
def metering(x: Any) -> dict[str, Any]:
    limit, farthest = x.direct_to or 400.0, x.farthest or 50.0
    transformers = x.kind == "current transformers"
    return {"limit": limit, "farthest": farthest, "kind": "current transformers" if x.rating > limit else "self-contained",
            "kind_ok": transformers or x.rating <= limit, "distance_ok": not transformers or x.distance <= farthest}


def slip(x: Any) -> dict[str, Any]:
    begin = (x.due if x.due > 0 else 0.0) + x.lead
    return {"late": -x.due if x.due < 0 else 0.0, "earliest": begin,
            "slip": max([begin - w.day for w in x.waits if w.day < begin], default=0.0)}


def space(w: Any) -> dict[str, Any]:
    feet = next(float(r[f"cond{w.condition}_ft"]) for r in rows("nec_110_26A1_working_depth") if r["volts_to_ground"] == w.band)
    oks = {"depth_ok": w.depth / 12 >= feet, "width_ok": w.width >= 30 and w.width >= w.equipment, "height_ok": w.height >= 78}
    return oks | {"depth_least": 12 * feet, "ok": all(oks.values())}


def disconnect(b: Any) -> dict[str, Any]:
    """225.39: 100 A for a one-family dwelling, 15 A for one circuit, 30 A for two of two wires, else 60 A."""
    use = 100.0 if b.dwelling else 15.0 if b.circuits < 2 else 30.0 if b.circuits == 2 and b.two_wire else 60.0
    least = max(use, b.va / b.volts)
    return {"by_use": use, "least": least, "ok": b.rating >= least}


def arrangement(a: Any, metal: str) -> dict[str, Any]:
    """Aluminium 0.0975 lb/in3 and copper 0.321 lb/in3, 2 % for the lay (ASTM B8, B231); 1 cmil is pi/4 of a square mil."""
    mils = {r["size_strand"].removesuffix("_str"): float(r["cmil"]) for r in rows("nec_ch9_t8_conductor_properties")}
    inches = 12 * a.length * a.sets * (2 * mils[a.size] + mils[a.neutral]) * pi / 4 / 1e6
    amps = 1000 * a.expected / a.volts
    lost = 2 * amps ** 2 * a.r_line / 1000
    factor = 0.3 * a.load_factor + 0.7 * a.load_factor ** 2
    return {"volume": inches, "metal": metal, "loss_peak": lost, "loss_factor": factor, "energy": 8760 * factor * lost,
            "spare": a.ampacity - a.current, "arc_energy": a.largest >= 1200, "above_next": a.largest > 800,
            "by_load": a.rating > a.ampacity}
