"""What must hold of every radial network, whatever its numbers: laws of physics, and that a collapse is told as one."""
from __future__ import annotations

import math
import random
from typing import Any

import by_package
from curtilage.calc.network.alone import product, squares
from curtilage.calc.network.faults import faults
from curtilage.calc.network.flow import COLLAPSE, solve, solve_many
from curtilage.calc.network.records import Branch, Source
from curtilage.calc.network.tree import Network
from curtilage.errors import CurtilageError
from hypothesis import given, settings
from hypothesis import strategies as st
import numpy as np
import pytest
from radial import Estate, estate

ESTATES = st.builds(estate, st.integers(0, 10_000), panels=st.integers(2, 9), circuits=st.integers(1, 40),
                    load=st.floats(0.05, 0.6))
FEW = settings(max_examples=25)


def solved(e: Estate) -> Any:
    net = by_package.network(e)
    flow = solve(net, by_package.loads(e, net))
    assert flow.converged
    return net, flow


def with_run(e: Estate, name: str, line: float, neutral: float, ground: float) -> Estate:
    """One run with its impedances times these."""
    runs = [r._replace(line=r.line * line, neutral=r.neutral * neutral, ground=r.ground * ground) if r.id == name else r
            for r in e.runs]
    return e._replace(runs=tuple(runs))


def below(e: Estate, name: str) -> list[int]:
    """Positions of a node and of all behind it."""
    inside = {name}
    for _ in e.runs:
        inside |= {r.id for r in e.runs if r.start in inside}
    return [i for i, r in enumerate(e.runs) if r.id in inside]


@FEW
@given(ESTATES, st.floats(1.05, 3))
def test_a_longer_run_gives_less_fault_and_a_shorter_one_more(e: Estate, k: float) -> None:
    behind = below(e, "P0")
    for longer, sign in ((k, 1), (1 / k, -1)):
        was, now = faults(by_package.network(e)), faults(by_package.network(with_run(e, "P0", longer, longer, longer)))
        for a, b in zip(was, now, strict=True):
            assert (sign * (a - b)[behind] > 0).all()
            other = np.setdiff1d(np.arange(len(a)), behind)
            assert (a[other] == b[other]).all()


@FEW
@given(st.floats(1.05, 2.5), st.floats(0.3, 1), st.floats(100, 9000), st.floats(100, 9000), st.floats(100, 20_000))
def test_a_longer_run_drops_more_and_a_larger_conductor_less(k: float, pf: float, a: float, b: float, ab: float) -> None:
    """One feeder under a load that lags: every leg that draws more than it gets back over the neutral falls."""
    s = complex(pf, math.sqrt(1 - pf * pf))

    def lowest(length: float) -> float:
        net = Network(Source(120.0, 0.0005, 0.001, 0.0008, 0.0008),
                      [Branch("P", "", 0.02 * length, 0.01 * length, 0.03 * length, 0.012 * length)])
        return float(abs(solve(net, np.array([[a * s, b * s, ab * s]])).volts).min())
    assert lowest(k) < lowest(1.0) < lowest(1 / k)


@FEW
@given(ESTATES)
def test_currents_balance_at_every_node(e: Estate) -> None:
    """What comes in L1, L2 and the neutral goes on to the loads and to the runs that start there; the three add to nothing."""
    net, flow = solved(e)
    s, i, v = by_package.loads(e, net), flow.amperes, flow.volts
    assert abs(i.sum(axis=1)).max() < 1e-9
    a, b, c = (np.conj(s[:, k] / u) for k, u in enumerate((v[:, 0], v[:, 1], v[:, 0] - v[:, 1])))
    drawn = np.stack((a + c, b - c, -a - b), axis=1)
    for k, r in enumerate(e.runs):
        onward = sum((i[j] for j, x in enumerate(e.runs) if x.start == r.id), np.zeros(3))
        assert np.allclose(i[k], drawn[k] + onward, rtol=0, atol=1e-7)


@FEW
@given(ESTATES)
def test_energy_in_is_load_and_loss(e: Estate) -> None:
    net, flow = solved(e)
    load = by_package.loads(e, net).sum()
    assert flow.supplied == pytest.approx(load + flow.loss.sum() + flow.transformer_loss, rel=1e-9)
    assert (flow.loss.real >= 0).all() and flow.transformer_loss.real > 0


@FEW
@given(ESTATES, st.integers(0, 1000))
def test_the_order_of_nodes_does_not_matter(e: Estate, seed: int) -> None:
    rng = random.Random(seed)
    runs = list(e.runs)
    rng.shuffle(runs)
    (one, a), (two, b) = solved(e), solved(e._replace(runs=tuple(runs)))
    at = [two.row(name) for name in one.ids]
    assert np.allclose(a.volts, b.volts[at], rtol=1e-11, atol=0)
    for f, g in zip(faults(one), faults(two), strict=True):
        assert np.allclose(f, g[at], rtol=1e-14, atol=0)


@FEW
@given(ESTATES)
def test_folded_and_swept_agree(e: Estate) -> None:
    net = by_package.network(e)
    s = by_package.loads(e, net)
    a, b = (solve(net, s, fold=fold) for fold in (True, False))
    assert np.allclose(a.volts, b.volts, rtol=1e-13, atol=0) and a.rounds == b.rounds


@FEW
@given(ESTATES, st.integers(0, 1000))
def test_many_scenarios_are_each_as_if_alone(e: Estate, seed: int) -> None:
    net = by_package.network(e)
    s = by_package.loads(e, net) * np.random.default_rng(seed).uniform(0, 1.2, (70, len(net.ids), 3))
    s[3] = 0
    many = solve_many(net, s)
    assert many.converged.all() and (many.node == -1).all()
    for k in (0, 3, 63, 64, 69):
        alone = solve(net, s[k])
        assert np.allclose(many.volts[k], alone.volts, rtol=1e-10, atol=0)
        assert many.supplied[k] == pytest.approx(alone.supplied, rel=1e-9, abs=1e-9)
    few = solve_many(net, s, keep=(net.ids[-1], net.ids[0]))
    assert (few.volts == many.volts[:, [-1, 0]]).all()


@FEW
@given(st.integers(1, 90), st.integers(1, 90), st.integers(0, 90), st.integers(0, 99))
def test_products_in_pieces_are_products(rows: int, inner: int, columns: int, seed: int) -> None:
    rng = np.random.default_rng(seed)
    a, b = rng.normal(size=(rows, inner)) + 1j, rng.normal(size=(inner, columns) if columns else inner) - 2j
    assert np.allclose(product(a, b), a @ b, rtol=1e-12, atol=1e-12)
    assert squares(b) == pytest.approx(float((abs(b) ** 2).sum()), rel=1e-12)


def one_loop(kva: float, pf: float = 1.0) -> Any:
    net = Network(Source(120.0, 0.0, 0.0, 0.0, 0.0), [Branch("P", "", 0.02, 0.01, 0.02, 0.01)])
    return solve(net, np.array([[0, 0, kva * 1000 * complex(pf, math.sqrt(1 - pf * pf))]]))


@pytest.mark.parametrize("pf", [1.0, 0.8])
def test_collapse_is_told_and_comes_where_it_must(pf: float) -> None:
    """The most that a loop of z ohm delivers from V volts: V^2 / (2 (|z| + R pf + X q)), derived; see calc.conductors.drop."""
    z, q = complex(0.04, 0.02), math.sqrt(1 - pf * pf)
    most = 240.0**2 / (2 * (abs(z) + z.real * pf + z.imag * q)) / 1000
    just = one_loop(most * 0.999, pf)
    assert just.converged and abs(just.between[0]) < 0.62 * 240
    over = one_loop(most * 1.001, pf)
    assert not over.converged and over.reason == COLLAPSE and over.node == "P"
    assert np.isnan(over.volts).all() and np.isnan(over.amperes).all() and np.isnan(over.loss).all()
    assert math.isnan(over.supplied.real) and math.isnan(over.transformer_loss.real)


def test_a_collapse_among_many_leaves_the_others_alone() -> None:
    e = estate(5, panels=6, circuits=40)
    net = by_package.network(e)
    s = np.repeat(by_package.loads(e, net)[None], 5, axis=0)
    at = net.row("C7")
    s[2, at] *= 400
    many = solve_many(net, s)
    assert list(many.converged) == [True, True, False, True, True]
    assert net.ids[many.node[2]] == "C7" and np.isnan(many.volts[2]).all() and np.isnan(many.supplied[2])
    assert np.allclose(many.volts[3], solve(net, s[3]).volts, rtol=1e-11, atol=0)


def test_a_network_without_load_has_the_voltage_of_its_source() -> None:
    e = estate(1, panels=4, circuits=5)
    net = by_package.network(e)
    flow = solve(net, np.zeros((len(net.ids), 3)))
    assert flow.converged and (flow.volts == [120.0, -120.0]).all() and flow.supplied == 0


RUN = Branch("A", "", 0.01, 0.01, 0.01, 0.01)
REFUSED = [
    ([RUN, RUN], "two branches end there"),
    ([RUN._replace(id="")], "it has no name"),
    ([RUN, RUN._replace(id="B", start="C")], "no way leads there"),
    ([RUN, RUN._replace(id="B", start="C"), RUN._replace(id="C", start="B")], "no way leads there"),
    ([RUN._replace(r_line=-0.1)], "not below 0"),
    ([RUN._replace(x_neutral=math.nan)], "each part is a number"),
]


@pytest.mark.parametrize(("branches", "said"), REFUSED)
def test_what_is_no_radial_network_is_refused(branches: list[Branch], said: str) -> None:
    with pytest.raises(CurtilageError, match=said):
        Network(Source(120.0, 0.0, 0.0, 0.0, 0.0), branches)


@pytest.mark.parametrize(("loads", "said"), [(np.zeros((2, 3)), "expected"), (np.zeros(3), "expected"),
                                             (np.full((1, 3), np.nan), "no number")])
def test_loads_of_another_shape_are_refused(loads: Any, said: str) -> None:
    net = Network(Source(120.0, 0.0, 0.0, 0.0, 0.0), [RUN])
    with pytest.raises(CurtilageError, match=said):
        solve(net, loads)


def test_a_node_without_a_ground_on_the_way_has_no_ground_fault() -> None:
    net = Network(Source(120.0, 0.001, 0.001, 0.0, 0.0), [RUN, RUN._replace(id="B", start="A", r_ground=0.1)])
    assert list(faults(net).line_ground) == [0.0, 0.0]
