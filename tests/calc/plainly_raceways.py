"""Raceways, written a second time by the handbook: no editions, no views, no told numbers, tables read from the CSV files.

It shares no code with the package; only the numbers must be the same. Chapter 9, Table 1 and its notes; Tables 4, 5, 5A, 8;
Tables 300.5 and 352.44.
"""
import csv
from math import hypot, pi
from pathlib import Path
from typing import Any

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"


def rows(name: str, key: str) -> dict[str, dict[str, str]]:
    with open(TABLES / f"{name}.csv", encoding="utf-8") as f:
        return {r[key]: r for r in csv.DictReader(f)}


KINDS = ("emt", "imc", "rmc", "fmc", "lfmc", "lfnc_a", "lfnc_b", "pvc40", "pvc80")
T4 = {k.replace("_", "-"): rows(f"nec_ch9_t4_{k}", "trade") for k in KINDS}
T4["hdpe"] = T4["pvc40"]
T5 = {"thwn-2": rows("nec_ch9_t5_thhn_thwn2", "size"), "xhhw-2": rows("nec_ch9_t5_xhhw2", "size"),
      "rhw-2": rows("nec_ch9_t5_rhw2_covered", "size"), "rhw-2 uncovered": rows("nec_ch9_t5_rhw2_nocover", "size")}
T5A = rows("nec_ch9_t5a_compact_al", "size")
T8 = {s.removesuffix("_str"): r for s, r in rows("nec_ch9_t8_conductor_properties", "size_strand").items()
      if not s.endswith("_sol")}
COVER = rows("nec_300_5_burial", "location")


def one(w: Any) -> tuple[float, float]:
    """Diameter and area of one conductor or cable."""
    if w.diameter:
        return w.diameter, pi * w.diameter ** 2 / 4
    if w.insulation == "bare":
        return float(T8[w.size]["od"]), float(T8[w.size]["area_in2"])
    if w.compact:
        name = {"xhhw-2": "xhhw", "thwn-2": "thhn"}[w.insulation]
        return float(T5A[w.size][f"{name}_dia"]), float(T5A[w.size][f"{name}_area"])
    return float(T5[w.insulation][w.size]["dia_in"]), float(T5[w.insulation][w.size]["area_in2"])


def holds(kind: str, trade: str, areas: list[float], nipple: bool) -> bool:
    """Table 1 with notes 4 and 7, conductor by conductor."""
    whole = float(T4[kind][trade]["area100"])
    percent = 60 if nipple else {1: 53, 2: 31}.get(len(areas), 40)
    if 100 * sum(areas) / whole <= percent * (1 + 1e-12):
        return True
    if len(set(areas)) > 1:
        return False
    number, tenths = divmod(percent / 100 * whole / areas[0], 1)
    return len(areas) <= number + (tenths >= 0.8)


def jams(inside: float, diameters: list[float]) -> bool:
    """Whether the range from the ratio to that of a raceway 5 % wider touches 2.8 to 3.2."""
    if len(diameters) < 3:
        return False
    mean = sum(sorted(diameters)[-3:]) / 3
    return inside / mean <= 3.2 and 1.05 * inside / mean >= 2.8


def raceway(r: Any, kind: str) -> dict[str, Any]:
    """A raceway with what lies in it."""
    singles = [one(w) for w in r.wires for _ in range(int(w.count))]
    areas, diameters = [a for _, a in singles], [d for d, _ in singles]
    nipple = 0 < r.length <= 2
    fitting = [t for t in T4[kind] if holds(kind, t, areas, nipple)]
    if not fitting:
        raise LookupError("no trade size")
    clear = [t for t in fitting if not jams(float(T4[kind][t]["id_in"]), diameters)]
    size = r.size or (clear or fitting)[0]
    inside, whole = float(T4[kind][size]["id_in"]), float(T4[kind][size]["area100"])
    order = list(T4[kind])
    least = fitting[0]
    share = 60.0 if nipple else {1: 53.0, 2: 31.0}.get(len(areas), 40.0)
    mean = sum(sorted(diameters)[-3:]) / 3 if len(areas) > 2 else 0.0
    return {"size": size, "bore": inside, "whole": whole, "wires": len(areas), "conductors": sum(areas), "share": share,
            "fill": 100 * sum(areas) / whole, "fill_ok": holds(kind, size, areas, nipple),
            "room": share / 100 * whole - sum(areas), "least": least,
            "below": order[order.index(least) - 1] if order.index(least) else "none",
            "jam": inside / mean if mean else 0.0, "jam_in_bend": 1.05 * inside / mean if mean else 0.0,
            "jam_ok": not jams(inside, diameters), "carrying": sum(w.carrying for w in r.wires)}


def cover(b: Any) -> dict[str, Any]:
    """Table 300.5 and the ribbon of 300.5(D)(3)."""
    column = {"metal": "rmc_imc", "nonmetallic": "nonmetallic", "direct": "direct_burial"}[b.column]
    least = float(COVER[b.location][column])
    wanted = b.service and b.cover >= 18
    return {"least": least, "cover_ok": b.cover >= least, "deeper": b.cover - least, "ribbon_wanted": wanted,
            "ribbon_ok": b.ribbon >= 12 if wanted else True}


def expansion(x: Any) -> dict[str, Any]:
    """352.44 as American tables have it: 3.38e-5 of the length for each degree Fahrenheit."""
    swing = (x.warmest + x.sun - x.coldest) * 9 / 5
    moved = 3.38e-5 * swing * x.length * 12
    return {"change": moved, "wanted": moved >= 0.25, "fitting_ok": bool(x.fitted) or moved < 0.25}


def trench(t: Any) -> dict[str, Any]:
    """Ducts, straight line, gap."""
    power, comm, spare = len(t.power), len(t.comm), len(t.spare)
    straight = hypot(t.east_a - t.east_b, t.north_a - t.north_b) if t.located else 0.0
    gap = 12.0 if power and comm else 0.0
    return {"needed": power + comm + spare, "left": t.ducts - power - comm - spare, "ducts_ok": power + comm + spare <= t.ducts,
            "straight": straight, "length_ok": t.length + t.rise >= straight, "apart": gap, "apart_ok": t.parted >= gap}
