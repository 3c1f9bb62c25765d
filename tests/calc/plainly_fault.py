"""Fault currents and clearing times, written a second time: complex numbers, one loop after another, and dense node equations."""
import csv
import math
from pathlib import Path

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"
TABLE_9 = {r["size"]: r for r in csv.DictReader((TABLES / "nec_ch9_t9_ac_rx_z.csv").open(encoding="utf-8"))}
COOLER = {"cu": 1 + 0.00323 * (20 - 75), "al": 1 + 0.00330 * (20 - 75)}          # Ch. 9 Table 8 note 2


def conductor(size: str, metal: str, conduit: str, feet: float, sets: int, cold: bool = False) -> complex:
    """Ohm of `sets` alike in parallel, one way."""
    row = TABLE_9[size]
    pipe = {"pvc": "pvc", "aluminium": "al", "steel": "steel"}[conduit]
    z = complex(float(row[f"r{metal}_{pipe}"]) * (COOLER[metal] if cold else 1),
                float(row["x_steel" if conduit == "steel" else "x_pvc_al"]))
    return z * feet / 1000 / sets


def angled(magnitude: float, x_over_r: float) -> complex:
    """An impedance by its size and its ratio."""
    return magnitude * complex(math.cos(math.atan(x_over_r)), math.sin(math.atan(x_over_r)))


def transformer(kva: float, percent: float, x_over_r: float) -> tuple[complex, complex]:
    """120/240 V: the whole secondary at 240 V, one half at 120 V."""
    per_unit = angled(percent / 100, x_over_r)
    whole = per_unit * 240 ** 2 / (kva * 1000)
    half = complex(1.5 * per_unit.real, 1.2 * per_unit.imag) * 120 ** 2 / (kva * 1000)
    return whole, half


def behind(primary_amperes: float, primary_volts: float, x_over_r: float) -> complex:
    """The network before the transformer, at 240 V."""
    return angled(primary_volts / primary_amperes, x_over_r) * (240 / primary_volts) ** 2


def loop(*runs: tuple[complex, complex]) -> complex:
    """Out and back over several runs in series."""
    return sum((out + back for out, back in runs), 0j)


def usual(rating: float) -> float:
    """Upper end of the pick-up that is taken where nothing is stated."""
    return 20 if rating <= 30 else 15 if rating <= 50 else 12 if rating <= 100 else 10


def longest(rating: float, amperes: float, sure: float, curve: list[tuple[float, float]]) -> float:
    """Seconds: the smallest of every bound that holds. `sure`: multiple from which the instantaneous trip acts, inf for never."""
    m = amperes / rating
    rows = [{k: float(v) for k, v in r.items()} for r in
            csv.DictReader((TABLES / "breaker_trip_bounds.csv").open(encoding="utf-8"))]
    row = next(r for r in rows if rating <= r["rating_A"])
    bounds = [row["trip_135_s"]] if m >= 1.35 else []
    if m >= 2:
        bounds.append(row["trip_200_s"])
    if m >= 3:
        bounds.append(row["trip_300_s"] * 9 / m ** 2)
    bounds += [t for multiple, t in curve if m >= multiple]
    if m >= sure:
        bounds.append(0.1)
    return min(bounds, default=math.inf)


# ------------------------------------------------------------------------------------------------------- dense node equations


def solve(a: list[list[complex]], b: list[complex]) -> list[complex]:
    """Linear equations by elimination with pivots."""
    n, rows = len(b), [[*row, x] for row, x in zip(a, b, strict=True)]
    for i in range(n):
        best = max(range(i, n), key=lambda r: abs(rows[r][i]))
        rows[i], rows[best] = rows[best], rows[i]
        for r in range(n):
            if r != i:
                f = rows[r][i] / rows[i][i]
                rows[r] = [x - f * y for x, y in zip(rows[r], rows[i], strict=True)]
    return [rows[i][n] / rows[i][i] for i in range(n)]


class Net:
    """Node equations of an unloaded system: a centre-tapped source between three nodes, and impedances between nodes."""

    def __init__(self, source: complex, whole: complex, half: complex) -> None:
        """Impedance of the network at 240 V, of the whole winding at 240 V, of one half at 120 V."""
        self.names: dict[str, int] = {}
        self.y: dict[tuple[int, int], complex] = {}
        own, shared = half + source / 4, half + source / 4 - (whole + source) / 2
        det = own ** 2 - shared ** 2
        l1, l2, n = (self.node(x) for x in ("0/L1", "0/L2", "0/N"))
        self.driven = {l1: 0j, l2: 0j, n: 0j}
        for a, other, volts in ((l1, l2, 120.0), (l2, l1, -120.0)):
            to_own, to_other = own / det, -shared / det                 # the inverse of the matrix of the two halves
            self.add(a, a, to_own)
            self.add(a, other, to_other)
            self.add(a, n, -to_own - to_other)
            self.add(n, a, -to_own - to_other)
            self.add(n, n, to_own + to_other)
            self.driven[a] += volts * (to_own - to_other)
            self.driven[n] -= volts * (to_own - to_other)

    def node(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))

    def add(self, a: int, b: int, y: complex) -> None:
        self.y[a, b] = self.y.get((a, b), 0j) + y

    def run(self, a: str, b: str, z: complex) -> None:
        """An impedance between two nodes."""
        i, k = self.node(a), self.node(b)
        for p, q, sign in ((i, i, 1), (k, k, 1), (i, k, -1), (k, i, -1)):
            self.add(p, q, sign / z)

    def bolted(self, a: str, b: str) -> float:
        """Current of a fault between two nodes: open voltage over the impedance that is seen there."""
        ground, n = self.node("0/N"), len(self.names)
        keep = [i for i in range(n) if i != ground]
        matrix = [[self.y.get((r, c), 0j) for c in keep] for r in keep]
        i, k = self.node(a), self.node(b)
        volts = dict(zip(keep, solve(matrix, [self.driven.get(r, 0j) for r in keep]), strict=True))
        unit = dict(zip(keep, solve(matrix, [complex((r == i) - (r == k)) for r in keep]), strict=True))
        return abs((volts.get(i, 0j) - volts.get(k, 0j)) / (unit.get(i, 0j) - unit.get(k, 0j)))
