"""Branch circuits of whole rows: motors in every category, uneven units, worked by hand from the clauses named."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.model.loads import Load
import pytest


@cache
def base() -> Design:
    return Design(estate("demo_estate", (), "nec2023"))


def row(name: str, **changes: Any) -> Load:
    return next(r for r in base().tree.rows if r.id == name)._replace(**changes)


def circuit(name: str, **changes: Any) -> Any:
    return base().with_row(row(name, **changes)).items[f"circuit/{name}"]


@pytest.mark.parametrize(("name", "amperes", "minimum", "most"), [
    ("L049", 9.8, 12.25, 25.0),        # 1/2 hp, 115 V; 24.5 A, next size 25
    ("L050", 13.8, 17.25, 35.0),       # 3/4 hp, 115 V; 34.5
    ("L125", 12.0, 15.0, 30.0),        # 2 hp, 230 V; 30
    ("L126", 10.0, 12.5, 25.0),        # 1-1/2 hp, 230 V; 25
    ("L127", 13.8, 17.25, 35.0),
    ("L195", 8.0, 10.0, 20.0),         # 1 hp, 230 V, each on its own; 20
    ("L197", 9.8, 12.25, 25.0)])
def test_every_row_with_horsepower_is_a_motor_circuit(name: str, amperes: float, minimum: float, most: float) -> None:
    """430.6(A)(1), Table 430.248, 430.22: 125 % of the table current; 430.52: 250 %, next standard size."""
    c = base().items[f"circuit/{name}"]
    assert (c.current, c.minimum, c.device_most) == (pytest.approx(amperes), pytest.approx(minimum), most)
    assert c.ampacity >= minimum and c.device_ok and c.protected and c.carries_ok


def test_a_motor_takes_the_table_current_and_not_its_plate() -> None:
    """430.6(A)(1): 3/4 hp at 115 V is 13.8 A whatever the row states; 17.25 A takes 14 Cu (20 A at 75 degC), not on 15 A."""
    c = circuit("L050", va=1200.0, unit_va=1200.0, breaker=None, length=5.0)
    assert c.minimum == pytest.approx(17.25) and c.device >= 20.0 and c.device_ok
    assert not circuit("L050", breaker=15.0).device_ok


def test_a_device_above_the_motor_rule_fails() -> None:
    """430.52(C)(1): 9.8 A may have 25 A, and no more."""
    assert not circuit("L197", breaker=30.0).device_ok


def test_a_nameplate_of_other_equipment_keeps_its_own_rule() -> None:
    """440.4(B): a heat pump's minimum circuit ampacity already holds the 125 %."""
    assert circuit("L052", hp="5").minimum == 38.2


def test_the_fuller_circuit_carries_whole_units() -> None:
    """210.19(A), 210.20(A): 5 transformers of 5 A on 2 circuits: 3 on one, 15 A, continuous 18.75 A."""
    c = base().items["circuit/L077"]
    assert (c.current, c.minimum) == (pytest.approx(15.0), pytest.approx(18.75))
    c = circuit("L077", qty=3, unit_va=1080.0, va=3240.0, breaker=None)
    assert (c.current, c.minimum, c.device) == (pytest.approx(18.0), pytest.approx(22.5), 25.0)


def test_several_motors_on_one_circuit() -> None:
    """430.24: 2 of 3 fans of 7.2 A on one circuit: 1.25 x 7.2 + 7.2 = 16.2 A; 430.53(C)(4): 20 + 7.2 = 27.2, so 25 A."""
    c = base().items["circuit/L172"]
    assert (c.current, c.minimum, c.device_most) == (pytest.approx(14.4), pytest.approx(16.2), 25.0)
    assert not circuit("L172", breaker=15.0).device_ok and not circuit("L172", breaker=30.0).device_ok


def test_motors_below_the_table_on_one_circuit() -> None:
    """430.24 by nameplate: 2 gate operators of 6 A: 13.5 A. 430.53: 20 + 6 A, so 25 A at most."""
    c = base().items["circuit/L178"]
    assert (c.current, c.minimum, c.device_most) == (pytest.approx(12.0), pytest.approx(13.5), 25.0)


@pytest.mark.parametrize(("qty", "circuits", "part"), [
    (6, 3, 1 / 3), (1, 2, 1 / 2), (2, 4, 1 / 4), (14, 3, 5 / 14), (2, 3, 1 / 2)])
def test_units_shared_by_circuits(qty: int, circuits: int, part: float) -> None:
    """Whole units, as evenly as they go; where each unit has circuits of its own, its equal part."""
    d = base()
    changed = row("L119", qty=qty, circuits=circuits, unit_va=2520.0 / qty)
    assert d.with_row(changed).items["circuit/L119"].current == pytest.approx(2520.0 * part / 120.0)


def test_feeders_do_not_see_how_units_lie_on_circuits() -> None:
    d = base().with_row(row("L077", circuits=5))
    assert d.items["feeder/MH-X"].minimum == pytest.approx(base().items["feeder/MH-X"].minimum)
