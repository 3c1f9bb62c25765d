"""Motors in an estate: what is worked, what is asked, and what is said where an input is missing."""
from __future__ import annotations

from functools import cache
import importlib.util
from pathlib import Path
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.errors import CurtilageError
from curtilage.report import on_motors
from curtilage.values.check import Check
import pytest
from small_estate import LOADS, small

DEMO = "demo_estate"
PUMP = "L189"                                                # 5 hp, 240 V, across the line, on its own circuit
_spec = importlib.util.spec_from_file_location("plainly_motors", Path(__file__).parent / "calc" / "plainly_motors.py")
assert _spec and _spec.loader
plain: Any = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(plain)


@cache
def design(*changed: tuple[str, str]) -> Design:
    return Design(estate(DEMO, (), "nec2023", {f"loads.{PUMP}.{k}": v for k, v in changed}))


def asked(d: Design, number: str, subject: str = PUMP) -> Check:
    return next(c for c in d.checks if c.number == number and c.subject == subject)


def test_a_pump_within_the_table_passes() -> None:
    """Tables 430.248, 430.52, 430.251(A): 28 A, 70 A, 168 A; 125 % of the 24 A of its nameplate."""
    d = design()
    assert asked(d, "111a").outcome == "passes" and "30.0 A on 24 A" in asked(d, "111a").found
    assert d.value(f"motor/{PUMP}/breaker") == 70 and d.value(f"locked/{PUMP}/high") == 168


@pytest.mark.parametrize(("breaker", "outcome"), [("70 A", "passes"), ("90 A", "needs judgement"), ("110 A", "needs judgement"),
                                                  ("125 A", "fails")])
def test_a_larger_device_is_only_for_a_motor_that_does_not_start(breaker: str, outcome: str) -> None:
    """430.52(C)(1): 250 % and the next size is 70 A, the exception ends at 400 %: 112 A, so 110 A."""
    assert asked(design(("breaker", breaker)), "111a").outcome == outcome


def test_without_a_nameplate_current_the_overload_is_not_evaluated() -> None:
    c = asked(design(("fla", "")), "111a")
    assert c.outcome == "not evaluated" and "fla" in c.missing


def test_the_dip_is_that_of_the_impedances_added_up() -> None:
    """The way in complex ohms, from the wires and the transformer of the design."""
    d = design()
    s, t = d.items[f"start/{PUMP}"], d.items["transformer"]
    way = ["wire/lateral", "wire/GP", "wire/GP-S", f"branch_wire/{PUMP}"]
    ohms = [("transformer", complex(t.r_ll_least, t.x_ll_least))]
    ohms += [(k, 2 * complex(d.items[k].r_line, d.items[k].x_line)) for k in way]
    current, dips = plain.dips(240.0, 168.0, 0.5, ohms)
    assert (s.current, s.dip, s.board, s.gear) == pytest.approx(
        (current, dips[way[3]], dips["wire/GP-S"], dips["wire/lateral"]), abs=1e-9)


def test_at_120_volts_the_way_back_is_the_neutral() -> None:
    d = design()
    s, t = d.items["start/L127"], d.items["transformer"]
    way = ["wire/lateral", "wire/PP", "wire/PP-S", "branch_wire/L127"]
    ohms = [("transformer", complex(t.r_ln_least, t.x_ln_least))]
    ohms += [(k, complex(w.r_line + w.r_neutral, w.x_line + w.x_neutral)) for k in way if (w := d.items[k])]
    assert (s.current, s.dip) == pytest.approx((lambda c, x: (c, x["branch_wire/L127"]))(*plain.dips(120.0, 82.8, 0.5, ohms)))


def test_a_neighbour_feels_what_its_way_shares() -> None:
    """The greenhouse panel shares the feeder GP with the pump, the main house only the service conductors."""
    d, dip = design(), plain.dips
    t, s = d.items["transformer"], d.items[f"start/{PUMP}"]
    ohms = [("transformer", complex(t.r_ll_least, t.x_ll_least))]
    ohms += [(k, 2 * complex(d.items[k].r_line, d.items[k].x_line)) for k in
             ("wire/lateral", "wire/GP", "wire/GP-S", f"branch_wire/{PUMP}")]
    _, dips = dip(240.0, 168.0, 0.5, ohms)
    assert d.value(f"dip/{PUMP}/GP/dip") == pytest.approx(dips["wire/GP"]) and d.value(f"dip/{PUMP}/lateral/dip") == s.gear
    felt = {str(line.cells[0]): line for line in on_motors.neighbours(d).lines}
    assert felt["GP-1"].cells[3].value == pytest.approx(dips["wire/GP"]) and PUMP in felt["GP-1"].cells[1]
    assert felt["MH-K"].cells[3].value < felt["GP-1"].cells[3].value


def test_a_row_says_when_the_motor_holds_and_its_neighbours_do_not() -> None:
    """Its panel 300 ft away: within the 15 % of the policy at the pump, above the 5 % of the neighbours at the panel."""
    d = Design(estate(DEMO, (), "nec2023", {"feeders.GP-S.length": "300 ft"}))
    found = asked(d, "068a")
    row = next(line for line in on_motors.starts(d).lines if line.cells[0] == PUMP)
    assert d.items[f"start/{PUMP}"].dip < 15 and 5 < d.items[f"start/{PUMP}"].board and found.outcome == "fails"
    assert row.cells[-1] == "motor: within; neighbours on GP-S: over" and row.kind == "over"


def test_starters() -> None:
    soft, blind, drive = design(("starter", "soft"), ("start_amperes", "80 A")), design(("starter", "soft")), design(
        ("starter", "drive"))
    assert soft.value(f"start/{PUMP}/dip") < design().value(f"start/{PUMP}/dip")
    assert asked(blind, "068a").outcome == "not evaluated" and "soft starter" in asked(blind, "068a").missing
    assert not [c for c in drive.checks if (c.number, c.subject) == ("068a", PUMP)] and not drive.has(f"start/{PUMP}/dip")


def test_a_long_circuit_and_a_missing_length() -> None:
    assert asked(design(("length", "900 ft"), ("breaker", "")), "068a").outcome == "passes"    # the conductor grows
    unknown = asked(design(("length", "")), "068a")
    assert unknown.outcome == "not evaluated" and "length" in unknown.missing


def test_general_receptacles_behind_thirty_amperes() -> None:
    """Table 210.21(B)(3): receptacles of 15 and 20 A stand behind 20 A at most."""
    row = "loads.L179."
    several = Design(estate(DEMO, (), "nec2023", {f"{row}breaker": "30 A"}))
    one = Design(estate(DEMO, (), "nec2023", {f"{row}breaker": "30 A", f"{row}qty": 1, f"{row}unit_va": "1080 VA",
                                                f"{row}amperes": "9 A"}))
    assert asked(several, "110a", "L179").outcome == "fails" and asked(one, "110a", "L179").outcome == "needs judgement"
    assert not [c for c in design().checks if c.number == "110a"]


def test_a_feeder_of_motors_only() -> None:
    """430.62(A): the largest branch device, 50 A, and the other motor, 28 A: 78 A, so 70 A; 430.24: 1.25 x 28 + 28 = 63 A."""
    rows = [r for r in LOADS.splitlines() if r.startswith(("L3,", "L4,"))]
    disposer = LOADS[LOADS.index("L5,"):LOADS.index("L6,")].rstrip("\n")
    pump = "{},MH,MH-2,Pump,motor,1,1,6720,6720,28,240,2,0.8,N,5,50,60,,,base,,"
    fan = "L5,MH,MH-1,Fan,general,1,1,90,90,,120,1,1,N,,15,30,,,base,,"
    d = Design(small((rows[0], pump.format("L3")), (rows[1], pump.format("L4")), (disposer, fan),
                     ('size: "4/0"', 'sets: 1, size: "4/0"'),
                     ("groups:\n  - {id: BATH, reason: one person uses one room at a time}\n", "")))
    r = d.items["motor_feeder/MH-2"] if d.has("motor_feeder/MH-2/most") else None
    assert r is not None and (r.conductor, r.most) == (63, 70)
    assert asked(d, "067a", "MH-2").outcome == ("passes" if d.items["feeder/MH-2"].device <= 70 else "fails")


def test_the_tables_of_the_report_open() -> None:
    d = design()
    tables = on_motors.tables(d)
    assert [t.title for t in tables] == ["Motors", "Voltage while a motor starts", "Starts that the neighbours feel"]
    for line in (line for t in tables for line in t.lines):
        assert all(d.has(c.tag) and d.told(c.tag).value == c.value for c in line.cells if not isinstance(c, str))


@pytest.mark.parametrize(("field", "value"), [
    ("service_factor", "0.5"), ("service_factor", "1.15 A"), ("fla", "-3 A"), ("fla", "24 V")])
def test_a_nameplate_that_cannot_be_is_refused(field: str, value: str) -> None:
    with pytest.raises(CurtilageError, match=field):
        design((field, value))
