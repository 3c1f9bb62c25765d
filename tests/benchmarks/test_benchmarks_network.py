"""Speed of the network, reported and never asserted; else each runs once, for its results."""
from __future__ import annotations

from typing import Any

import measured_network as measured
import numpy as np
import pytest


def test_the_same_voltages_are_found() -> None:
    assert measured.same_voltages() < 1e-9


def test_one_solution(benchmark: Any) -> None:
    benchmark.group = "one solution of 322 buses"
    assert benchmark(measured.ours()).shape == (321, 2)


@pytest.mark.parametrize("tolerance", [1e-11, 1e-8])
def test_one_solution_by_opendss(benchmark: Any, tolerance: float) -> None:
    benchmark.group = "one solution of 322 buses"
    measured.by_opendss.build(measured.made())
    benchmark(measured.opendss(tolerance))


def test_many_solutions(benchmark: Any) -> None:
    benchmark.group = "many solutions"
    found = benchmark(measured.many(128))
    assert found.converged.all() and np.isfinite(found.volts).all()


@pytest.mark.parametrize("name", ["our_faults", "their_faults", "pandapower_faults"])
def test_faults(benchmark: Any, name: str) -> None:
    benchmark.group = "faults at every bus"
    benchmark(getattr(measured, name)())


@pytest.mark.parametrize("n", [1, 10])
def test_growth(benchmark: Any, n: int) -> None:
    benchmark.group = "growth of the network"
    flow = benchmark(measured.times(n))
    one = measured.times(1)()
    assert flow.converged and np.allclose(flow.volts[1:321], one.volts[1:321], rtol=1e-10, atol=0)


def test_a_design_that_is_looked_at(benchmark: Any) -> None:
    benchmark.group = "whole design"
    assert "network" in benchmark(measured.looked_at()).items
