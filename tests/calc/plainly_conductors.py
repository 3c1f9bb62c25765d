"""Conductors, written a second time by the handbook: no editions, no views, no told numbers, tables read from the CSV files.

It follows the steps in the order of a hand calculation and shares no code with the package; only the numbers must be the same.
"""
from bisect import bisect_left
import csv
from math import acos, inf, sin, sqrt
from pathlib import Path
from typing import Any

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"


def rows(name: str) -> list[dict[str, str]]:
    with open(TABLES / f"{name}.csv", encoding="utf-8") as f:
        return list(csv.DictReader(f))


AMP = {r["size"]: {k: float(v) for k, v in r.items() if k != "size" and v} for r in rows("nec_310_16_ampacity")}
T8 = {r["size_strand"].removesuffix("_str"): r for r in rows("nec_ch9_t8_conductor_properties")
      if not r["size_strand"].endswith("_sol")}
T9 = {r["size"]: r for r in rows("nec_ch9_t9_ac_rx_z")}
AREA = {s: float(r["cmil"]) for s, r in T8.items()}
RATINGS = [float(r["rating_A"]) for r in rows("nec_240_6A_standard_ratings")]
EGC = [(float(r["ocpd_A"]), r) for r in rows("nec_250_122_egc")]
SMALL = {r["conductor"]: float(r["max_ocpd_A"]) for r in rows("nec_240_4D_small_conductors")}
AMBIENT = [(float(r["ambient_C"].removeprefix("<=").split("-")[-1]), r) for r in rows("nec_310_15B1_1_ambient")]
BUNDLED = {3: 1.0, 6: 0.8, 9: 0.7, 20: 0.5, 30: 0.45, 40: 0.4}           # Table 310.15(C)(1), typed in


def standard(amps: float) -> float:
    """240.6(A)."""
    return RATINGS[bisect_left(RATINGS, amps)]


def factor(ambient: float, insulation: float) -> float:
    return next(float(r[f"f{insulation:.0f}"]) for top, r in AMBIENT if ambient <= top)


def bundle(n: float) -> float:
    return next((f for top, f in BUNDLED.items() if n <= top), 0.35)


class Way:
    """One way of laying: metal, raceway, temperatures, number of conductors."""

    def __init__(self, metal: str, raceway: str, x: Any):
        self.metal, self.raceway = metal, raceway
        self.sizes = [s for s in AMP if f"{metal}75" in AMP[s]]
        self.hot, self.lugs = f"{metal}{x.insulation:.0f}", f"{metal}{x.terminals:.0f}"
        self.f_t, self.f_n = factor(x.ambient, x.insulation), bundle(x.ccc)

    def bare(self, s: str) -> float:
        return min(AMP[s][self.hot], AMP[s][self.lugs])

    def ampacity(self, s: str) -> float:
        return min(AMP[s][self.hot] * self.f_t * self.f_n, AMP[s][self.lugs])

    def protected(self, device: float, s: str, amps: float, cords: bool = False) -> bool:
        if device > SMALL.get(s + self.metal.title(), inf):
            return False
        if device <= amps:
            return True
        return not cords and device <= 800 and standard(amps) >= device

    def table_ground(self, device: float) -> str:
        return next(r[f"egc_{self.metal}"] for top, r in EGC if device <= top)

    def ground(self, device: float, base: str, size: str) -> str:
        """250.122(A), (B): proportion, never above the conductor itself."""
        found = self.table_ground(device)
        if AREA[size] > AREA[base]:
            need = AREA[found] * AREA[size] / AREA[base]
            found = next((s for s in self.sizes if AREA[s] >= max(need, AREA[found])), size)
        return found if AREA[found] <= AREA[size] else size

    def impedance(self, s: str) -> tuple[float, float]:
        x = "x_steel" if self.raceway == "steel" else "x_pvc_al"
        return float(T9[s][f"r{self.metal}_{ {'aluminium': 'al'}.get(self.raceway, self.raceway) }"]), float(T9[s][x])

    def drops(self, s: str, amps: float, feet: float, pf: float, volts: float) -> tuple[float, float, float]:
        """In percent: by direct current, by R cos + X sin, and by the phasors drawn out."""
        r, x = self.impedance(s)
        dc = float(T8[s]["al" if self.metal == "al" else "cu_uncoated"])
        loop = 2 * feet / 1000
        z = complex(r, x) * loop
        i = complex(amps * pf, -amps * sin(acos(pf)))                       # the receiving voltage lies on the real axis
        drop = z * i
        received = sqrt(volts ** 2 - drop.imag ** 2) - drop.real
        return 100 * dc * loop * amps / volts, 100 * drop.real / volts, 100 * (volts - received) / volts


def branch(c: Any, metal: str = "cu", raceway: str = "pvc") -> dict[str, Any]:
    """One branch circuit."""
    w, current = Way(metal, raceway, c), c.va / c.volts
    carry = current
    if c.mca:
        need = carry = c.mca
    elif c.motor:
        need = carry = current + 0.25 * (c.motor_va / c.volts or current)
    else:
        need = 1.25 * current if c.continuous else current
    device = c.breaker
    if not device and c.mocp:
        device = max(r for r in RATINGS if r <= c.mocp)
    elif not device:
        device = standard(max(need, 15))
        if c.motor:
            one = c.motor_va / c.volts or current
            device = max(standard(2.5 * one), (20 if c.volts <= 120 else 15) if one <= 6 else 0)
            if current > one:                                               # 430.53(C)(4)
                device = max(r for r in RATINGS if r <= device + current - one)
    free = bool(c.mocp or c.motor)                                          # 240.4(G)

    def good(s: str) -> bool:
        if free:
            return w.ampacity(s) >= carry
        return w.bare(s) >= need and w.ampacity(s) >= current and w.protected(device, s, w.ampacity(s), c.cords)
    base = next(s for s in w.sizes if good(s))
    size = c.size or next(s for s in w.sizes[w.sizes.index(base):] if s in T9 and AREA[s] <= AREA[c.largest]
                          and w.drops(s, current, c.length, c.pf, c.volts)[1] <= c.drop_limit)
    dc, drop, exact = w.drops(size, current, c.length, c.pf, c.volts)
    return {"current": current, "minimum": need, "device": device, "carries": base, "size": size, "ampacity": w.ampacity(size),
            "drop_dc": dc, "drop": drop, "drop_exact": exact, "egc_table": w.table_ground(device),
            "egc": w.ground(device, base, size)}


def search(w: Way, x: Any, amps: float, good: Any) -> tuple[int, str, str]:
    """Fewest sets, smallest size: (sets, size that carries, size that also keeps the drop)."""
    counts = [int(x.sets)] if x.sets else range(1, int(x.most_sets) + 1)
    for n in counts:
        carries = next((s for s in w.sizes if (n == 1 or AREA[s] >= AREA["1/0"]) and good(n, s)), "none")
        if x.size:
            return n, carries, x.size
        if carries != "none":
            for s in w.sizes[w.sizes.index(carries):]:
                if AREA[s] <= AREA[x.largest] and s in T9 and w.drops(s, amps / n, x.length, x.pf, x.volts)[1] <= x.drop_limit:
                    return n, carries, s
    raise LookupError("no sets")


def feeder(f: Any, metal: str = "al", raceway: str = "pvc") -> dict[str, Any]:
    """One feeder."""
    w, current, need = Way(metal, raceway, f), f.va / f.volts, f.minimum_va / f.volts
    device = f.breaker or standard(need)

    def ordinary(n: int, s: str) -> bool:
        amps = n * w.ampacity(s)
        return n * w.bare(s) >= need and amps >= current and w.protected(device, s, amps)

    def dwelling(n: int, s: str) -> bool:
        return n * w.ampacity(s) >= 0.83 * device
    allowed = f.three_wire and f.whole_dwelling and 100 <= device <= 400
    n, carries, size = search(w, f, current, dwelling if allowed and f.take_83 else ordinary)
    base = next((s for s in w.sizes if (n == 1 or AREA[s] >= AREA["1/0"]) and ordinary(n, s)), size)
    dc, drop, exact = w.drops(size, current / n, f.length, f.pf, f.volts)
    ground = w.ground(device, base, size)
    neutral = "none"
    if f.three_wire:
        least = next(s for s in w.sizes if (n == 1 or AREA[s] >= AREA["1/0"]) and n * w.ampacity(s) >= f.neutral_va / f.volts
                     and n * AREA[s] >= AREA[ground])
        neutral = f.neutral or (size if f.full_neutral else least)
    return {"current": current, "minimum": need, "device": device, "dwelling_rule": allowed, "sets": n, "base": base,
            "carries": carries, "size": size, "ampacity": n * w.ampacity(size), "drop_dc": dc, "drop": drop, "drop_exact": exact,
            "egc_table": w.table_ground(device), "egc": ground, "neutral": neutral}


def service(s: Any, metal: str = "al", raceway: str = "pvc") -> dict[str, Any]:
    """Service conductors."""
    w, current, need = Way(metal, raceway, s), s.va / s.volts, s.minimum_va / s.volts
    rating = sum(m.rating or standard(m.minimum_va / s.volts) for m in s.mains)
    allowed = s.whole_dwelling and 100 <= rating <= 400

    def good(n: int, size: str) -> bool:
        amps = n * w.ampacity(size)
        if allowed and s.take_83:
            return amps >= 0.83 * rating
        return n * w.bare(size) >= need and amps >= current and (len(s.mains) > 1 or w.protected(rating, size, amps))
    n, carries, size = search(w, s, current, good)
    dc, drop, exact = w.drops(size, current / n, s.length, s.pf, s.volts)
    return {"current": current, "rating": rating, "dwelling_rule": allowed, "sets": n, "carries": carries, "size": size,
            "ampacity": n * w.ampacity(size), "drop_dc": dc, "drop": drop, "drop_exact": exact}
