"""Branch circuits of whole rows: motors in every category, uneven units, worked by hand from the clauses named."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.model.loads import Load
from curtilage.report import schedules
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


def variant(**changes: Any) -> Design:
    """The demonstration estate with one feeder, or the lateral, changed."""
    e = estate("demo_estate", (), "nec2023")
    if "lateral" in changes:
        lateral = e.service.lateral.model_copy(update=changes.pop("lateral"))
        return Design(e.model_copy(update={"service": e.service.model_copy(update={"lateral": lateral})}))
    feeders = tuple(f.model_copy(update=changes[f.id]) if f.id in changes else f for f in e.feeders)
    return Design(e.model_copy(update={"feeders": feeders}))


def outcome(d: Design, number: str, subject: str) -> str:
    return next(c.outcome for c in d.checks if (c.number, c.subject) == (number, subject))


def shown(table: Any, name: str, column: str) -> str:
    at = [c.head for c in table.columns].index(column)
    return str(next(line.cells[at] for line in table.lines if line.cells[0] == name))


def test_a_stated_neutral_is_held_against_load_and_ground() -> None:
    """220.61, 215.2(A)(2): the guest house's neutral is not below its equipment ground, 1/0 Al."""
    d = variant(GH={"neutral": "10"})
    assert outcome(d, "031", "GH") == "fails" and d.items["feeder/GH"].neutral == "10"
    assert shown(schedules.feeders(d), "GH", "neutral").startswith("10, wants ")
    assert not variant(GH={"neutral": "1"}).items["feeder/GH"].neutral_ok
    d = variant(GH={"neutral": "4/0"})
    assert outcome(d, "031", "GH") == "passes" and shown(schedules.feeders(d), "GH", "neutral") == "4/0"


def test_a_stated_neutral_of_the_service() -> None:
    """250.24, Table 250.102(C)(1): beside 500 kcmil aluminium 1/0 aluminium; in parallel not below 1/0 (310.10(G))."""
    assert outcome(variant(lateral={"neutral": "6"}), "031", "service") == "fails"
    d = variant(lateral={"neutral": "500"})
    assert outcome(d, "031", "service") == "passes" and shown(schedules.service(d), "neutral", "number") == "500"


def test_the_ground_that_is_stated_is_shown() -> None:
    """250.122(B): the guest house wants 1/0 Al."""
    table = schedules.feeders(variant(GH={"egc": "4"}))
    assert shown(table, "GH", "ground") == "4, wants 1/0"
    assert next(line.kind for line in table.lines if line.cells[0] == "GH") == "fails"
    assert shown(schedules.feeders(variant(GH={"egc": "2/0"})), "GH", "ground") == "2/0"


def test_a_circuit_without_a_length_is_not_evaluated() -> None:
    d = base().with_row(row("L006", length=None))
    panel = row("L006").panel
    assert outcome(d, "068", "L006") == "not evaluated"
    assert outcome(d, "068", f"{panel}, farthest outlet") == outcome(d, "057", f"{panel}, farthest outlet") == "not evaluated"
    table = next(t for t in schedules.circuits(d) if t.title.startswith(f"{panel},"))
    assert shown(table, "L006", "drop, %") == "no length"
    assert shown(schedules.paths(d), panel, "drop").startswith("not evaluated")


def test_a_device_above_the_ampacity_says_its_rule() -> None:
    tables = schedules.circuits(base())
    note = next(t.note for t in tables if t.title.startswith("WS-1,"))
    assert "L166" in note and "L168" in note and "240.4(G)" in note and "L159" not in note


def test_small_appliance_circuits_are_of_120_volts() -> None:
    """210.11(C)(1), 210.52(B): receptacles of countertops are of 120 V; circuits of two poles are none of the two."""
    changed = {r.id: r._replace(volts=240.0, poles=2) for r in base().tree.rows if r.category == "small_appliance"}
    d = base()
    for r in changed.values():
        d = d.with_row(r)
    assert outcome(base(), "012", "MH") == "passes" and outcome(d, "012", "MH") == "fails"
