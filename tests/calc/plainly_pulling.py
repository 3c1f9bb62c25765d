"""Pulls, boxes, terminals and holes written a second time, by hand calculation; tables read from the CSV files.

It shares no code with the package: tension is followed in small arcs instead of by a formula, dimensions by plain sums.
"""
import csv
from math import cos, pi, radians, sin, sqrt
from pathlib import Path
from typing import Any

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"
ALLOWANCE = {"18": 1.5, "16": 1.75, "14": 2.0, "12": 2.25, "10": 2.5, "8": 3.0, "6": 5.0}      # Table 314.16(B), typed in
POUNDS = {"cu": 0.008, "al": 0.006}                                                            # a circular mil
DENSITY = {"cu": 0.32117, "al": 0.0975}                                                        # pounds a cubic inch
SLEEVE = {"thwn-2": 0.0506, "xhhw-2": 0.0336, "bare": 0.0336}


def rows(name: str) -> list[dict[str, str]]:
    with open(TABLES / f"{name}.csv", encoding="utf-8") as f:
        return list(csv.DictReader(f))


T8 = {r["size_strand"].removesuffix("_str"): r for r in rows("nec_ch9_t8_conductor_properties")
      if not r["size_strand"].endswith("_sol")}
OUTSIDE = {kind: {r["size"]: r for r in rows(table)}
           for kind, table in (("thwn-2", "nec_ch9_t5_thhn_thwn2"), ("xhhw-2", "nec_ch9_t5_xhhw2"))}
PIPE = {r["trade"]: float(r["id_in"]) for r in rows("nec_ch9_t4_pvc40")}
SWEEP = {r["trade"]: float(r["radius"]) for r in rows("sweep_radius")}
SIDE = {r["size"]: r for r in rows("bending_side")}
OPPOSITE = {r["size"]: r for r in rows("bending_opposite")}
MILS = {s: float(r["cmil"]) for s, r in T8.items()}


# ------------------------------------------------------------------------------------------------------------------- pulls
def weight(w: Any) -> tuple[float, float]:
    """Pounds a foot and inches across of one conductor."""
    bare = float(T8[w.size]["area_in2"])
    out = bare if w.insulation == "bare" else float(OUTSIDE[w.insulation][w.size]["area_in2"])
    across = float(T8[w.size]["od"] if w.insulation == "bare" else OUTSIDE[w.insulation][w.size]["dia_in"])
    metal = MILS[w.size] * pi / 4e6 * 12 * DENSITY[w.material] * 1.02
    return metal + (out - bare) * 12 * SLEEVE[w.insulation], across


def lies(n: float, d: float, pipe: float) -> tuple[str, float, float]:
    """How they lie, weight correction, part that presses: from the angle between the contacts, not from the printed formula."""
    if n == 1:
        return "single", 1.0, 1.0
    if n > 3:
        return "complex", 1.4, 0.7
    if n == 2 or pipe / d < 2.5:
        half = (d / 2) / ((pipe - d) / 2)                  # sine of half the angle between two that touch, seen from the middle
        f = 1 / sqrt(1 - half ** 2)
        return "triangular", f, f / 2
    x = d / (pipe - d)
    f = 1 + 4 / 3 * x ** 2
    return "cradled", f, (3 * f - 2) / 3


def around(tension: float, degrees: float, w: float, friction: float, slices: int = 400) -> float:
    """A bend in small pieces: each presses with the tension times its angle, and friction adds to it (mid-point rule)."""
    step = radians(degrees) / slices
    for _ in range(slices):
        middle = tension * (1 + w * friction * step / 2)
        tension += w * friction * step * middle
    return tension


def level_around(tension: float, degrees: float, radius: float, pounds: float, w: float, friction: float,
                 slices: int = 400) -> float:
    """A level bend with its weight: the wall carries the turn sideways and the weight downwards, at right angles."""
    step = radians(degrees) / slices

    def rate(t: float) -> float:
        return w * friction * sqrt(t * t + (pounds * radius) ** 2)
    for _ in range(slices):
        tension += step * rate(tension + step / 2 * rate(tension))
    return tension


def up(tension: float, length: float, climb: float, pounds: float, w: float, friction: float) -> float:
    """A straight step by its angle."""
    slope = 0.0 if not length else climb / length
    lean = slope if abs(slope) < 1 else (1.0 if slope > 0 else -1.0)
    flat = sqrt(max(0.0, 1 - lean * lean))
    return max(0.0, tension + length * pounds * (w * friction * flat + lean))


def one_way(steps: Any, sign: int, feed: float, pounds: float, pipe: float, least: float, w: float, press: float,
            friction: float) -> tuple[float, float]:
    tension, most = feed, 0.0
    for s in steps:
        if s.bend:
            tension = around(tension, s.angle, w, friction)
            inside = ((s.radius or least) - pipe / 2) / 12
            most = max(most, press * tension / inside)
        else:
            climb = s.rise * sign * (-1 if s.back else 1)
            tension = up(tension, s.length, climb, pounds, w, friction)
    return tension, most


def pull(p: Any) -> dict[str, Any]:
    pipe = PIPE[p.size]
    every = [(w, *weight(w)) for w in (*p.lines, *p.grounds)]
    pounds = sum(w.count * each for w, each, _ in every) + sum(c.count * c.weight for c in p.cables)
    n = sum(w.count for w, _, _ in every) + sum(c.count for c in p.cables)
    thickest = max([across for _, _, across in every] + [c.diameter for c in p.cables])
    bearing = sum(w.count for w in p.lines) or sum(c.count for c in p.cables)
    metal = sum(w.count * POUNDS[w.material] * MILS[w.size] for w in p.lines) or (
        sum(c.count for c in p.cables) * min((c.tension for c in p.cables), default=0.0))
    strict = metal * (1 if bearing < 3 else 2 / 3 if bearing == 3 else 0.6)
    usual = metal * (1 if bearing < 4 else 0.8)
    if p.grip:
        strict, usual = min(strict, 1000), min(usual, 1000)
    name, w, press = lies(n, thickest, pipe)
    there, back, best, worst, length, bends = 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
    even = False                                           # from both ends alike: then either end may be taken
    for s in p.stretches:
        a = one_way(s.steps, 1, p.feed, pounds, pipe, SWEEP[p.size], w, press, p.friction)
        b = one_way(list(reversed(s.steps)), -1, p.feed, pounds, pipe, SWEEP[p.size], w, press, p.friction)
        there, back = max(there, a[0]), max(back, b[0])
        t, side = a if a[0] <= b[0] else b
        even = even or abs(a[0] - b[0]) <= 1e-3 * max(a[0], b[0])
        best, worst = max(best, t), max(worst, side)
        bends = max(bends, sum(x.angle for x in s.steps if x.bend))
        length += sum(2 * pi * x.radius / 12 * x.angle / 360 if x.bend else x.length for x in s.steps)
    found = {"weight": pounds, "diameter": thickest, "lie": name, "factor": w, "there": there, "back": back, "tension": best,
             "allowed": strict, "usual": usual, "length": length, "bends": bends}
    return found if even else found | {"pressure": worst}


# ------------------------------------------------------------------------------------------------------------------- boxes
def pull_box(b: Any) -> dict[str, Any]:
    def row(r: Any) -> float:
        sizes = sorted((e.trade for e in r.entries), reverse=True)
        return 6 * sizes[0] + sum(sizes[1:])
    length = max([8 * e.trade for e in b.straight_long] + [row(r) for r in b.rows_long] + [0])
    width = max([8 * e.trade for e in b.straight_wide] + [row(r) for r in b.rows_wide] + [0])
    big = MILS[b.largest] >= MILS["4"]
    depth = float(SIDE[b.largest]["one"]) if b.back and big else 0.0
    apart = max([6 * max(p.one, p.other) for p in b.pairs] + [0])
    near = any(p.apart < 6 * max(p.one, p.other) for p in b.pairs)
    fits = b.length >= length and b.width >= width and b.depth >= depth
    return {"length_least": length, "width_least": width, "depth_least": depth, "apart_least": apart, "apart_ok": not near,
            "size_ok": fits, "ok": not big or (fits and not near)}


def device_box(b: Any) -> dict[str, Any]:
    entering = [c.size for c in b.cables for _ in range(int(c.count * c.wires))]
    grounds = [c.size for c in b.cables if c.ground for _ in range(int(c.count))]
    largest = max((ALLOWANCE[c.size] for c in b.cables), default=0.0)
    total = sum(ALLOWANCE[s] for s in entering)
    total += sum(2 * ALLOWANCE[y.size] for y in b.yokes for _ in range(int(y.gangs)))
    total += largest * (int(b.clamps) + b.fittings + b.blocks)
    if grounds:
        one = max(ALLOWANCE[s] for s in grounds)
        total += one + one / 4 * len(grounds[4:])
    depth = 0.0
    for y in b.yokes:
        small = y.size in ("18", "16", "14")
        base, reach = (15 / 16, 11 / 16) if small else (1 + 3 / 16, 1.0)
        depth = max(depth, base, y.depth + 1 / 4 if y.depth > reach else 0.0)
    return {"box_fill": total, "depth_least": depth}


# --------------------------------------------------------------------------------------------------------- terminals, holes
def space(size: str, wires: str, opposite: bool) -> float:
    if MILS[size] < MILS["8"]:
        return 0.0
    return float((OPPOSITE if opposite else SIDE)[size][wires])


def hole(h: Any) -> dict[str, Any]:
    most, notch, end, edge = {"stud": (0.6, 0.4, 0.4, 5 / 8), "bearing stud": (0.4, 0.25, 0.25, 5 / 8),
                              "bearing stud doubled": (0.6, 0.25, 0.25, 5 / 8), "joist": (1 / 3, 1 / 6, 1 / 4, 2.0),
                              "rafter": (1 / 3, 1 / 6, 1 / 4, 2.0)}[h.member]
    deepest = 0.0 if h.middle else h.depth * (end if h.at_end else notch)
    wood = h.hole <= most * h.depth + 1e-12 and h.notch <= deepest + 1e-12 and (not h.hole or h.edge >= edge)
    exposed = h.notch > 0 or (h.hole > 0 and h.edge < 1.25)
    return {"hole_most": most * h.depth, "notch_most": deepest, "wood_ok": wood, "nail_ok": h.guarded or not exposed}


def angle_up(length: float, degrees: float, pounds: float, friction: float) -> float:
    """The printed form for a straight upward pull of one cable: L W (sin + K cos)."""
    return length * pounds * (sin(radians(degrees)) + friction * cos(radians(degrees)))
