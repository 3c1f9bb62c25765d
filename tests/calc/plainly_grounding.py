"""Grounding and bonding, written a second time by the handbook: tables typed in, no editions, no views, no told numbers.

It shares no code with the package. Rods and rings come by numerical integration of the potential that a wire of even current
makes in even soil with its mirror image above ground, not by the formulas.
"""
from collections.abc import Iterable
from math import asinh, cos, hypot, pi, sqrt
from typing import Any

from plainly_conductors import AMP, AREA

# Table 250.66: up to and including (cmil of copper, cmil of aluminium): conductor of copper, of aluminium
T66 = [(66_360, 105_600, "8", "6"), (105_600, 167_800, "6", "4"), (167_800, 250_000, "4", "2"), (350_000, 500_000, "2", "1/0"),
       (600_000, 900_000, "1/0", "3/0"), (1_100_000, 1_750_000, "2/0", "4/0"), (float("inf"), float("inf"), "3/0", "250")]
LADDER = [s for s in AMP if "cu75" in AMP[s] and s in AREA]
BARE = {"6": 0.184, "4": 0.232, "2": 0.292, "1/0": 0.372, "2/0": 0.418, "4/0": 0.528}      # Chapter 9 Table 8, overall diameter
FT = 0.3048


def by_table(area: float, supply: str, wanted: str, last: bool = True) -> str:
    """250.66 and, without its last row, 250.102(C)(1)."""
    for cu, al, of_cu, of_al in T66 if last else T66[:-1]:
        if area <= (cu if supply == "cu" else al):
            return of_cu if wanted == "cu" else of_al
    raise ValueError("above the table")


def larger(a: str, b: str) -> str:
    return a if AREA[a] >= AREA[b] else b


def alone(kind: str, wire: str, metal: str, area: float, supply: str) -> str:
    table = by_table(area, supply, metal)
    caps = {("rod", "cu"): "6", ("plate", "cu"): "6", ("rod", "al"): "4", ("plate", "al"): "4", ("concrete-encased", "cu"): "4"}
    cap = caps.get((kind, metal), table)
    if kind == "ring" and metal == "cu" and wire:
        cap = wire
    return cap if AREA[cap] < AREA[table] else table


def electrode_conductor(x: Any, supply: str) -> tuple[str, bool]:
    """The least conductor, and whether the stated one does."""
    least = alone(x.kind, x.wire, x.material, x.area, supply)
    for e in x.beyond:
        least = larger(least, alone(e.kind, e.wire, x.material, x.area, supply))
    return least, not x.conductor or AREA[x.conductor] >= AREA[least]


def jumper(n: float, size: str, supply: str, metal: str) -> str:
    """250.102(C): the table, above it 12.5 % of conductors in the jumper's own metal with the same ampacity at 75 degC."""
    area = n * AREA[size]
    if area <= (1_100_000 if supply == "cu" else 1_750_000):
        return by_table(area, supply, metal, last=False)
    assumed = size if metal == supply else next(
        s for s in LADDER if f"{metal}75" in AMP[s] and AMP[s][f"{metal}75"] >= AMP[size][f"{supply}75"])
    return next(s for s in LADDER if AREA[s] >= 0.125 * n * AREA[assumed])


def neutral_area(n: float, size: str, supply: str) -> float:
    """250.24 with 250.102(C)(1), in each raceway."""
    least = (0.125 * AREA[size] if AREA[size] > (1_100_000 if supply == "cu" else 1_750_000)
             else AREA[by_table(AREA[size], supply, supply, last=False)])
    return max(least, 105_600) if n > 1 else least


def counts_as_one(x: Any) -> bool:
    """250.52(A)."""
    if x.kind == "rod":
        return x.length >= 8 and x.diameter >= (0.5 if x.listed else 0.625)
    if x.kind == "concrete-encased":
        return x.length >= 20 and (AREA[x.wire] >= AREA["4"] if x.wire else x.diameter >= 0.5)
    if x.kind == "ring":
        return x.length >= 20 and AREA[x.wire] >= AREA["2"] and x.depth >= 2.5
    return x.area >= 2 if x.kind == "plate" else x.length >= 10


# ------------------------------------------------------------------------------------------------------------- in the earth
def mean(f: Any, n: int) -> float:
    """Midpoint rule on 0..1."""
    return sum(f((i + 0.5) / n) for i in range(n)) / n


def along(length: float, off: float) -> Any:
    """Potential per ohm-m and ampere at depth z, `off` beside an evenly loaded rod and its image: the first integral, closed."""
    def at(z: float) -> float:
        real = asinh((length - z) / off) - asinh(-z / off)
        image = asinh((length + z) / off) - asinh(z / off)
        return (real + image) / (4 * pi * length)
    return at


def mutual(length: float, off: float, n: int = 2000) -> float:
    """Mean potential of one rod beside another: the second integral by the midpoint rule. Lengths in m."""
    at = along(length, off)
    return mean(lambda t: at(t * length), n)


def rods(x: Any) -> float:
    length, radius = x.length * FT, x.diameter * 0.0254 / 2
    self_ = mutual(length, radius, 20_000)
    pairs = sum(mutual(length, p.steps * x.spacing * FT) for p in x.pairs)
    return float(x.resistivity * (self_ / x.count + 2 * pairs / x.count**2))


def ring(x: Any, n: int = 20_000) -> float:
    """A circle of thin wire and its image: the potential on the wire's surface."""
    r, a, s = x.length * FT / pi / 2, BARE[x.wire] * 0.0254 / 2, 2 * x.depth * FT
    return float(x.resistivity / (4 * pi) * sum(mean(lambda t, off=off: _near(t, r, off), n) for off in (a, s)))


def _near(t: float, r: float, off: float) -> float:
    """1 / distance, averaged over half the circle; the angle goes with the cube of t, to see the near part."""
    angle = pi * t**3
    chord = 2 * r * sqrt((1 - cos(angle)) / 2)
    return 3 * t**2 / hypot(chord, off)


# ------------------------------------------------------------------------------------------------------------------- bonds
def bonds_by_island(places: Iterable[str], ties: Iterable[tuple[str, str]], bonded: set[str], sources: set[str]) -> list[int]:
    """Bonds of each group of places that holds a source, found by walking from place to place."""
    ties, left, out = list(ties), list(dict.fromkeys(places)), []
    while left:
        here, edge = {left[0]}, [left[0]]
        while edge:
            p = edge.pop()
            for a, b in ties:
                for one, two in ((a, b), (b, a)):
                    if one == p and two not in here:
                        here.add(two)
                        edge.append(two)
        left = [p for p in left if p not in here]
        if here & sources:
            out.append(len(here & bonded))
    return out
