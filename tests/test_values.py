"""What a reader gets of a told number: symbols, numbers, reasons, sources, differences; and what is refused."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from curtilage.calc.conductors.drop import short_drop
from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.values import lines as u
from curtilage.values.given import Given
from curtilage.values.method import arrays, method
from curtilage.values.told import Told, diff, explain, explain_text, item, walk, weakest
import numpy as np
import pytest


@cache
def demo(edition: str = "nec2023", *variants: str) -> Design:
    return Design(estate("demo_estate", variants, edition))


def row(x: Told, symbol: str) -> dict[str, str]:
    return next(r for r in explain(x) if r["symbol"] == symbol)


def given(symbol: str, value: float, unit: str) -> Told:
    return Told(symbol, value, unit, "given", place=symbol, where="by hand")


def test_a_line_shows_symbols_numbers_and_source() -> None:
    """Ohm's law out and back: 2 x 0.491 x 30 x 240 / 1000 = 7.0704 V."""
    x = short_drop.told(given("R", 0.491, "ohm/kft"), given("I", 30.0, "A"), given("L", 240.0, "ft"))
    assert x.value == pytest.approx(7.0704)
    text = explain_text(x)
    assert "2 * 0.491 * 30 * 240 / 1000" in text or "0.491 * 30 * 240" in text


def test_a_plain_method_is_the_function_itself() -> None:
    assert type(short_drop).__name__ == "function"
    assert short_drop(0.491, 30.0, 240.0) == pytest.approx(7.0704)


def test_the_same_line_runs_on_arrays() -> None:
    lengths = np.linspace(10, 500, 7)
    assert np.allclose(
        arrays(short_drop)(0.122, 96.0, lengths), [short_drop(0.122, 96.0, x) for x in lengths.tolist()], rtol=0, atol=0
    )


def test_told_values_have_no_arithmetic() -> None:
    x = given("x", 1.0, "V")
    for wrong in (lambda: x + 1, lambda: 2 * x, lambda: x > 0, lambda: x == 1.0, lambda: bool(x), lambda: float(x)):
        with pytest.raises(TypeError, match="belong in a line"):
            wrong()


def test_a_wrong_unit_is_stopped() -> None:
    with pytest.raises(TypeError, match="L wants ft, got L in m"):
        short_drop.told(given("R", 0.1, "ohm/kft"), given("I", 9.0, "A"), given("L", 55.0, "m"))


def test_steps_of_a_stepped_rule_are_told() -> None:
    general = demo().told("demand/GH/standard/general")
    assert any(r["how"].startswith("3000 at 100 % + ") and "35 %" in r["how"] for r in explain(general))


def test_a_choice_names_the_neighbour_that_failed() -> None:
    """Guest house, 410 ft: 400 kcmil drops more than 3 %, 500 kcmil does not."""
    text = explain_text(demo().told("feeder/GH/size"))
    assert "400 fails: 3.00" in text


def test_difference_gives_causes_before_consequences() -> None:
    a, b = demo().told("demand/GH/standard/total"), demo("nec2026").told("demand/GH/standard/total")
    rows = [r for r in diff(a, b) if r[1] != r[2]]
    assert rows[0][0] == "unit_load" and rows[0][1:3] == ("3 VA/ft2", "2 VA/ft2") and rows[0][3] == "source changed"
    assert rows[-1][3] == "follows"


def test_another_row_of_a_table_is_one_change() -> None:
    a, b = demo().told("feeder/GH/drop"), demo("nec2023", "R10").told("feeder/GH/drop")
    why = {r[0].split("[")[0]: r[3] for r in diff(a, b)}
    assert why["length"] == "input changed" and why["r"] == "another row was read"


def test_the_weakest_source_is_named() -> None:
    assert weakest(demo().told("demand/GH/standard/general")).status in ("seen once", "from memory")


def test_a_number_of_another_item_is_named_and_opened_on_demand() -> None:
    x = demo().told("feeder/GH/current")
    shallow, deep = list(walk(x, deep=False)), list(walk(x))
    assert any(n.how == "item" and n.place == "demand/GH/optional/total" for n in shallow)
    assert len(deep) > 3 * len(shallow)


def test_a_graph_with_many_paths_is_walked_once() -> None:
    """2 to the 60 paths, 61 nodes."""
    x = given("x0", 1.0, "A")
    for i in range(60):
        x = Told(f"x{i + 1}", 1.0, "A", "rule", (x, x))
    assert sum(1 for _ in walk(x)) == 61
    assert sum(1 for _ in walk(item(x, "a/b"), deep=False)) == 62


class Inner(NamedTuple):
    id: str
    va: u.VA


class Outer(NamedTuple):
    id: str
    rows: tuple[Inner, ...]
    volts: u.V


@method
def current(o):
    """Current of some rows."""
    I: u.A = sum(r.va for r in o.rows) / o.volts
    return I


def test_records_inside_records_know_their_home_and_line() -> None:
    record = Outer("o", (Inner("L1", 1200.0), Inner("L2", 600.0)), 240.0)
    told = current.told(
        Given(record, "panel", lambda path: f"file of {path}", None, {"volts": "service.voltage"}, {"Inner": {"": "loads.{id}"}})
    )
    assert told.value == current(record) == 7.5
    places = {n.place: n.where for n in walk(told) if n.how == "given"}
    assert places == {
        "loads.L1.va": "file of loads.L1.va",
        "loads.L2.va": "file of loads.L2.va",
        "service.voltage": "file of service.voltage",
    }
