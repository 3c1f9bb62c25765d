"""What is measured of the network, beside OpenDSS and pandapower: one solution, many, faults at every node, growth, a redesign.

One thread everywhere, because more gain nothing here. Every scenario scales each load by a factor of its own, so that no program
finds the answer of the last call where it left it.
"""
from __future__ import annotations

from functools import cache
from itertools import cycle
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from typing import Any

import by_opendss
import by_package
import by_pandapower
from curtilage.calc.network.faults import faults
from curtilage.calc.network.flow import solve, solve_many
from curtilage.calc.network.tree import Network
from curtilage.design import Design
import measured
import numpy as np
from radial import Demand, Estate, estate
from timing import Call

SCENARIOS = 20


@cache
def made() -> Estate:
    """322 buses: 20 panels, 300 branch circuits, the gear and the terminals of the transformer."""
    e = estate(1)
    assert len(e.runs) + 1 == 322
    return e


@cache
def net() -> Network:
    return by_package.network(made())


@cache
def factors(n: int) -> Any:
    return np.random.default_rng(7).uniform(0.3, 1.2, (n, len(made().loads)))


@cache
def scenarios(n: int) -> Any:
    """(n, nodes, 3) VA."""
    at = [net().row(x.node) for x in made().loads]
    s = np.zeros((n, len(net().ids), 3), dtype=complex)
    for k, (row, x) in enumerate(zip(at, made().loads, strict=True)):
        s[:, row] += factors(n)[:, k, None] * np.array(x[1:])
    return s


@cache
def varied() -> list[Estate]:
    """The same scenarios as estates."""
    def load(x: Demand, f: float) -> Demand:
        return Demand(x.node, x.l1 * f, x.l2 * f, x.both * f)
    return [made()._replace(loads=tuple(map(load, made().loads, fs))) for fs in factors(SCENARIOS).tolist()]


# ------------------------------------------------------------------------------------------------------------ one solution


def ours(tolerance: float = 1e-11) -> Call:
    """Loads of the next scenario as an array, voltages at every bus out; the network stands."""
    some = cycle(scenarios(SCENARIOS))
    return lambda: solve(net(), next(some), tolerance).volts


def opendss(tolerance: float, also_solve: bool = True) -> Call:
    """Loads set one by one through its interface, then solved; or set alone."""
    some = cycle(varied())

    def run() -> None:
        by_opendss.set_loads(next(some))
        if also_solve:
            by_opendss.dss.Text.Command(f"set tolerance={tolerance}")
            by_opendss.solve()
    return run


def same_voltages() -> float:
    """The largest difference of magnitudes, over the scenarios, in parts of the voltage."""
    by_opendss.build(made())
    worst = 0.0
    for e, s in zip(varied(), scenarios(SCENARIOS), strict=True):
        by_opendss.set_loads(e)
        by_opendss.solve()
        worst = max(worst, float(np.max(abs(abs(solve(net(), s).volts) / abs(by_opendss.volts(e)) - 1))))
    return worst


# ------------------------------------------------------------------------------------------------------------------- many


def many(n: int = 1000) -> Call:
    """Voltages at every bus of n scenarios."""
    s = scenarios(n)
    return lambda: solve_many(net(), s)


# ----------------------------------------------------------------------------------------------------------------- faults


def our_faults() -> Call:
    """Line to line, line to neutral and line to ground at every bus."""
    return lambda: faults(net())


def their_faults() -> Call:
    """The fault study of OpenDSS, without loads: they would only make it longer."""
    by_opendss.build(made()._replace(loads=()))
    by_opendss.solve()
    return by_opendss.study


def pandapower_faults() -> Call:
    """Its short-circuit calculation at every bus, one kind of fault, for a radial network."""
    from pandapower import shortcircuit
    grid = by_pandapower.build(made(), "line", short=True)
    return lambda: shortcircuit.calc_sc(grid, case="max", lv_tol_percent=10, ip=False, ith=False, topology="radial")


def pandapower_flow() -> Call:
    """One power flow from a flat start."""
    grid = by_pandapower.build(estate(1, legs="line"), "line")
    return lambda: by_pandapower.solve(grid)


# ---------------------------------------------------------------------------------------------------------- growth, design


@cache
def grown(n: int) -> tuple[Network, Any]:
    """The estate n times over behind a transformer and a lateral n times as strong."""
    e = made()
    gear, *rest = e.runs
    runs = [gear._replace(line=gear.line / n, neutral=gear.neutral / n)]
    for k in range(n):
        runs += [r._replace(id=f"{r.id}_{k}", start=r.start if r.start == "GEAR" else f"{r.start}_{k}") for r in rest]
    loads = tuple(x._replace(node=f"{x.node}_{k}") for k in range(n) for x in e.loads)
    whole = Estate(e.volts, e.kva * n, e.primary / n, e.secondary / n, tuple(runs), loads)
    network = by_package.network(whole)
    return network, by_package.loads(whole, network)


def times(n: int) -> Call:
    network, s = grown(n)
    return lambda: solve(network, s)


def looked_at() -> Call:
    """A whole design of the demonstration estate with its exact voltages and faults, each a named number that can be opened."""
    e = measured.estate()

    def run() -> Design:
        d = Design(e)
        d.works("network")
        d.works("fault")
        return d
    return run
