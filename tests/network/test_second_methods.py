"""The exact solution against others' programs and against nodal analysis, on random radial estates of a hundred nodes and more.

Second methods: OpenDSS (EPRI) for the split-phase network, pandapower for its single-phase halves, dense nodal analysis for both
loads and faults. The largest disagreements are printed (`pytest -s`).
"""
from __future__ import annotations

from functools import cache
from typing import Any

import by_matrix
import by_opendss
import by_package
import by_pandapower
from curtilage.calc.network.faults import faults
from curtilage.calc.network.flow import Flow, solve
import numpy as np
import pytest
from radial import Estate, estate

pytestmark = pytest.mark.slow
SEEDS = range(16)


@cache
def made(seed: int, legs: str = "both") -> Estate:
    return estate(seed, panels=12 + seed % 9, circuits=100 + 7 * seed, load=0.3 + 0.04 * seed, legs=legs)


@cache
def flow(seed: int, legs: str = "both") -> Flow:
    e = made(seed, legs)
    net = by_package.network(e)
    found = solve(net, by_package.loads(e, net))
    assert found.converged
    return found


@cache
def matrix(seed: int) -> by_matrix.Matrix:
    return by_matrix.Matrix(made(seed))


def apart(ours: Any, theirs: Any) -> float:
    return float(np.max(abs(ours - theirs) / abs(theirs)))


def test_the_estates_are_what_they_should_be() -> None:
    """A hundred nodes and more, unbalanced, mixed power factors, both voltages, some leading."""
    for seed in SEEDS:
        e = made(seed)
        assert len(e.runs) >= 100 and {r.start for r in e.runs} > {"", "GEAR"}
        sums = [sum(getattr(x, k) for x in e.loads) for k in ("l1", "l2", "both")]
        assert all(abs(s) > 1000 for s in sums) and abs(sums[0] - sums[1]) > 100
        factors = {round(s.real / abs(s), 2) for x in e.loads for s in x[1:] if s}
        assert len(factors) >= 5 and any(s.imag < 0 for x in e.loads for s in x[1:])
        assert abs(flow(seed).amperes[:, 2]).max() > 5


def test_opendss() -> None:
    """Voltages at every node, three conductors and a centre-tapped transformer; complex to 1e-9."""
    worst = {}
    for seed in SEEDS:
        e = made(seed)
        by_opendss.build(e, tolerance=1e-11)
        by_opendss.solve()
        theirs = by_opendss.volts(e)
        worst[seed] = apart(flow(seed).volts, theirs), apart(abs(flow(seed).volts), abs(theirs))
    phasors, magnitudes = (max(w[i] for w in worst.values()) for i in (0, 1))
    print(f"\nOpenDSS, {len(worst)} estates: phasors apart by at most {phasors:.1e}, magnitudes by {magnitudes:.1e}")
    assert phasors < 1e-9 and magnitudes < 1e-10


@pytest.mark.parametrize("legs", ["one", "line"])
def test_pandapower(legs: str) -> None:
    """Loads on L1 alone, and between the lines alone: each is one loop."""
    worst = 0.0
    for seed in SEEDS:
        e = made(seed, legs)
        net = by_pandapower.build(e, legs)
        by_pandapower.solve(net)
        ours = flow(seed, legs)
        worst = max(worst, apart(ours.volts[:, 0] if legs == "one" else ours.between, by_pandapower.volts(net, e, legs)))
    print(f"\npandapower, {len(SEEDS)} estates, {legs}: apart by at most {worst:.1e}")
    assert worst < 1e-9


def test_nodal_analysis() -> None:
    """Put the settled voltages into the loads: the potentials of all conductors give them back."""
    worst = max(apart(flow(seed).volts, matrix(seed).volts_under(flow(seed).volts)) for seed in SEEDS)
    print(f"\nnodal analysis, {len(SEEDS)} estates: apart by at most {worst:.1e}")
    assert worst < 1e-9


def test_faults_by_nodal_analysis() -> None:
    worst = 0.0
    for seed in SEEDS:
        e, m = made(seed), matrix(seed)
        ours = faults(by_package.network(e))
        kinds = (by_matrix.L1, by_matrix.L2), (by_matrix.L1, by_matrix.N), (by_matrix.L1, by_matrix.G)
        for found, (one, two) in zip(ours, kinds, strict=True):
            worst = max(worst, apart(found, np.array([m.fault(r.id, one, two) for r in e.runs])))
    print(f"\nfaults by nodal analysis, {len(SEEDS)} estates: apart by at most {worst:.1e}")
    assert worst < 1e-12


@pytest.mark.parametrize("kind", ["line", "one", "ground"])
def test_faults_by_pandapower(kind: str) -> None:
    """Its short-circuit calculation of IEC 60909; three estates, because it inverts every network anew."""
    worst = 0.0
    for seed in SEEDS[::5]:
        e = made(seed)
        found = faults(by_package.network(e))[("line", "one", "ground").index(kind)]
        worst = max(worst, apart(found, by_pandapower.faults(by_pandapower.build(e, kind, short=True))))
    print(f"\nfaults by pandapower, {kind}: apart by at most {worst:.1e}")
    assert worst < 1e-12


def test_faults_by_opendss() -> None:
    """Its fault study: the impedance that it finds at every bus, between conductors."""
    worst = 0.0
    for seed in SEEDS[::5]:
        e = made(seed)._replace(loads=())
        by_opendss.build(e)
        theirs = by_opendss.faults(e)
        ours = faults(by_package.network(e))
        worst = max(worst, apart(np.column_stack(ours[:2]), theirs))
    print(f"\nfaults by OpenDSS: apart by at most {worst:.1e}")
    assert worst < 1e-9
