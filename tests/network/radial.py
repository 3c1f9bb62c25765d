"""Random radial estates: a centre-tapped transformer, a lateral, panels in a tree, and branch circuits at the panels.

Nothing here knows the package: an estate is plain tuples of numbers, from which each solver makes what it needs.
"""
from __future__ import annotations

from math import sqrt
import random
from typing import NamedTuple


class Run(NamedTuple):
    """A branch to the node `id` from the node `start` ("" is the terminals of the transformer); ohm, one way."""

    id: str
    start: str
    line: complex
    neutral: complex
    ground: complex


class Demand(NamedTuple):
    """Constant power at a node, VA: between L1 and neutral, L2 and neutral, L1 and L2."""

    node: str
    l1: complex
    l2: complex
    both: complex


class Estate(NamedTuple):
    """Volts of a half winding without load; common and half-winding impedance, ohm at a half winding."""

    volts: float
    kva: float
    primary: complex
    secondary: complex
    runs: tuple[Run, ...]
    loads: tuple[Demand, ...]


def power(rng: random.Random, va: float) -> complex:
    """Mixed power factors, mostly lagging, a few leading."""
    pf = rng.choice((1.0, 0.98, 0.95, 0.9, 0.85, 0.8, 0.7))
    q = sqrt(1 - pf * pf) * (-1 if rng.random() < 0.1 else 1)
    return va * complex(pf, q)


def wire(rng: random.Random, r: float, x: float, feet: float) -> complex:
    """Ohm of a run from ohm per 1,000 ft, a little different every time."""
    return complex(r * rng.uniform(0.8, 1.25), x * rng.uniform(0.8, 1.25)) * feet / 1000


def estate(seed: int, panels: int = 20, circuits: int = 300, load: float = 0.6, legs: str = "both") -> Estate:
    """An estate of one lateral, `panels` panels and `circuits` branch circuits; `load` is a share of the transformer,
    and no circuit has more than some 2 kVA.

    `legs`: "both" 120 V on either leg and 240 V, "one" 120 V on L1 alone, "line" 240 V alone.
    """
    rng = random.Random(seed)
    kva = rng.choice((100.0, 167.0, 250.0))
    base = 120.0**2 / (kva * 1000)
    full = complex(0.009, 0.018) * rng.uniform(0.8, 1.3)
    half = complex(1.5 * full.real, 1.2 * full.imag)
    primary, secondary = (2 * full - half) * base, 2 * (half - full) * base
    runs = [Run("GEAR", "", wire(rng, 0.008, 0.012, 60), wire(rng, 0.008, 0.012, 60), 0j)]
    names = ["GEAR"]
    for i in range(panels):
        start = "GEAR" if i < 4 or rng.random() < 0.4 else rng.choice(names[1:])
        r, feet = rng.choice(((0.05, 300.0), (0.08, 220.0), (0.13, 150.0), (0.3, 40.0))), rng.uniform(0.2, 1.0)
        run = [wire(rng, r[0] * k, 0.045, r[1] * feet) for k in (1.0, 1.6, 3.0)]
        runs.append(Run(f"P{i}", start, run[0], run[1], run[2]))
        names.append(f"P{i}")
    loads = []
    for i in range(circuits):
        feet, r = rng.uniform(20, 120), rng.choice((3.1, 2.0, 1.2))
        line, neutral, ground = (wire(rng, r, 0.06, feet) for _ in range(3))
        runs.append(Run(f"C{i}", rng.choice(names[1:]), line, neutral, ground))
        s = power(rng, min(load * kva * 1000 / circuits, 1200.0) * rng.uniform(0.3, 1.7))
        kind = {"both": rng.choice((0, 0, 1, 2)), "one": 0, "line": 2}[legs]
        put = [0j, 0j, 0j]
        put[kind] = s
        loads.append(Demand(f"C{i}", *put))
    for name in rng.sample(names[1:], min(3, panels)):              # and some loads of all kinds on the panels themselves
        s = [power(rng, rng.uniform(100, 2000)) for _ in range(3)]
        keep = {"both": (1, 1, 1), "one": (1, 0, 0), "line": (0, 0, 1)}[legs]
        loads.append(Demand(name, s[0] * keep[0], s[1] * keep[1], s[2] * keep[2]))
    return Estate(120.0, kva, primary, secondary, tuple(runs), tuple(loads))
