"""Speed, reported and never asserted: `pytest tests/benchmarks --benchmark-enable`. Else each runs once, for its results."""
from __future__ import annotations

from typing import Any

from curtilage.design import Design
import measured
import plain_design
import pytest


def test_the_yardstick_gives_the_same_design() -> None:
    """A second writing of every item of the demonstration estate: what is timed beside ours computes the same numbers."""
    d = measured.design()
    twice = [key for key, ask in d.asks.items() if plain_design.written(ask)]
    assert len(twice) > 0.95 * len(d.asks), "methods that nobody wrote a second time, in plain_loads.py or beside it"
    for key, run in plain_design.items(d).items():
        assert measured.same(d.items[key], run()), f"{key}: ours {d.items[key]}, plainly {run()}"


@pytest.mark.parametrize("name", ["plainly", "methods", "whole", "swift"])
def test_whole_design(benchmark: Any, name: str) -> None:
    benchmark.group = "whole design"
    benchmark(getattr(measured, name)())


def test_one_circuit_longer(benchmark: Any) -> None:
    benchmark.group = "one circuit changed"
    changed = benchmark(measured.longer())
    assert changed.items == Design(changed.estate, changed.ed).items


def test_one_load_larger(benchmark: Any) -> None:
    benchmark.group = "one circuit changed"
    for changed in benchmark(measured.heavier()):
        assert changed.items == Design(changed.estate, changed.ed).items


@pytest.mark.parametrize("text", [False, True])
def test_telling_one_item(benchmark: Any, text: bool) -> None:
    benchmark.group = "telling"
    benchmark(measured.item(text))


def test_telling_everything(benchmark: Any) -> None:
    benchmark.group = "telling"
    benchmark(measured.everything())


@pytest.mark.parametrize("name", ["read_plainly", "read_rows"])
def test_reading_a_list(benchmark: Any, name: str) -> None:
    benchmark.group = "300 rows of CSV"
    assert len(benchmark(getattr(measured, name)())) == 300


def test_quantities(benchmark: Any) -> None:
    benchmark.group = "whole design"
    benchmark(measured.quantities())


@pytest.mark.parametrize("n", [1, 10])
def test_growth(benchmark: Any, n: int) -> None:
    benchmark.group = "growth"
    d = benchmark(measured.times(n))
    assert len([k for k in d.items if k.startswith("feeder/")]) == n * len(measured.estate().feeders)


@pytest.mark.parametrize("words", [(), ("--version",), ("design", str(measured.DEMO))], ids=["python", "version", "design"])
def test_start(benchmark: Any, words: tuple[str, ...]) -> None:
    benchmark.group = "cold start"
    benchmark(measured.start(*words))
