"""Closed loops of neutral, what keeps two supplies apart, and ratings against the devices ahead."""
from __future__ import annotations

from functools import cache

from curtilage.design.design import Design
from curtilage.design.neutrals import proofs
from curtilage.model import Estate, load
from curtilage.report import on_grounding
from curtilage.review import bonds, switches
from curtilage.review.asked import Asker
from curtilage.values.check import Check
import pytest

A, T, MODES = "sources.alternates", "sources.transfers", ("utility", "GEN", "ESS", "GEN-and-ESS", "IN-1")
TWICE = ("MH-S", "GH-S", "PP-S", "CG-S", "WS-S", "GP-S", "MH-E", "GH-E", "PP-E", "CG-E", "EG-E", "GP-E", "SY-2")
"""Panels of the estate with a feeder and an alternate, counted by hand: six standby, six essential, one in the yard."""


@cache
def base() -> Estate:
    return load("demo_estate")


def with_(paths: dict[str, object]) -> Design:
    return Design(base().with_(paths))


def broken(said: bool | None, panels: tuple[str, ...] = TWICE) -> dict[str, object]:
    """Said of the switch at some panels: whether it breaks the neutral."""
    return {f"{A}.A-{p}.neutral_switched": said for p in panels}


def all_of(d: Design, number: str) -> dict[str, Check]:
    ask = Asker(d.ed.name)
    return {c.subject: c for c in (*bonds.checks(d, ask), *switches.checks(d, ask)) if c.number == number}


# ------------------------------------------------------------------------------------------------------------------- loops
@pytest.mark.parametrize("edition", ["nec2020", "nec2023", "nec2026"])
def test_the_base_has_no_loop_and_stays_one_island_with_one_bond(edition: str) -> None:
    d = with_({"edition": edition})
    found = all_of(d, "095a")
    assert tuple(found) == MODES and {c.outcome for c in found.values()} == {"passes"}
    assert all(len(p.live) == 1 for p in proofs(d.estate))
    for number in ("095", "143a", "143b"):
        assert {c.outcome for c in all_of(d, number).values()} == {"passes"}
    assert tuple(all_of(d, "143a")) == TWICE and set(all_of(d, "143b")) == {"TS-1", "MID-1", "SY-B", "SY-E"}
    for p in proofs(d.estate):
        assert d.value(f"bond/{p.mode}/bonds") == 1


def test_an_unbroken_neutral_closes_one_loop_for_each_panel() -> None:
    """300.3(B): the conductors of a circuit run together; a second neutral over the other supply is a loop. Thirteen panels,
    thirteen loops; the battery stands on its bus by one run and closes none."""
    for c in all_of(with_(broken(False)), "095a").values():
        assert c.outcome == "fails" and "13 closed loops" in c.found and c.remedy
        assert all(p in c.found for p in TWICE) and "CG-2" not in c.found and "SY-B" not in c.found
    d = with_(broken(False, ("GH-S",)))
    for c in all_of(d, "095a").values():
        assert c.outcome == "fails" and "1 closed loop of neutral, at GH-S:" in c.found
    assert {c.outcome for c in all_of(d, "095").values()} == {"passes"}               # one bond all the same
    (table,) = on_grounding.steps(d)
    assert any("closed loops of neutral: 1, at GH-S" in line.cells[2] for line in table.lines)


def test_a_loop_that_depends_on_what_nobody_said_has_no_answer() -> None:
    d = with_(broken(None, ("GH-S",)))
    for c in all_of(d, "095a").values():
        assert c.outcome == "not evaluated" and "A-GH-S" in c.missing and "A-MH-S" not in c.missing
    for number, subject in (("095", "GEN"), ("091", "service")):                       # the bonds do not depend on it
        c = all_of(d, number)[subject]
        assert c.outcome == "passes" and "at 1 panel(s): read both ways, the bonds are the same" in c.found
    assert "read both ways" not in all_of(Design(base()), "095")["GEN"].found


def test_poles_that_gainsay_the_words_leave_loops_without_an_answer() -> None:
    found = all_of(with_({f"{T}.TS-1.poles": 3}), "095a")
    assert {c.outcome for c in found.values()} == {"not evaluated"} and "which is so at TS-1" in found["GEN"].missing


def test_a_battery_that_states_no_run_of_its_own_is_tied_by_its_device() -> None:
    """Without the panel and its run the device is the only way: tied there, no loop, still one island."""
    for said in ({"sources.storage.ESS.panel": None}, {"sources.storage.ESS.panel": None, f"{T}.MID-1.kind": "automatic"}):
        d = with_(said)
        assert {c.outcome for c in all_of(d, "095a").values()} == {"passes"}
        assert all("ESS" in p.live[0] for p in proofs(d.estate))
    d = with_({f"{T}.MID-1.kind": "automatic"})                                        # a switch with a second way to the battery
    assert {c.outcome for c in all_of(d, "095a").values()} == {"fails"}


def test_steps_tell_on_which_side_the_switches_of_the_panels_stand() -> None:
    steps = {p.mode: p.steps for p in proofs(base())}
    assert any("on the first supply: MH-S, GH-S" in x for x in steps["utility"])
    assert any("on the second supply: MH-S, GH-S" in x for x in steps["GEN"])
    in_ess = [x for x in steps["ESS"] if x.startswith("switches at panels")]
    assert len(in_ess) == 2 and "first supply: MH-S" in in_ess[0] and "second supply: MH-E" in in_ess[1]


# ---------------------------------------------------------------------------------------------------------- two supplies
def test_two_supplies_with_nothing_between() -> None:
    c = all_of(with_({f"{A}.A-WS-S.switch": None}), "143a")["WS-S"]
    assert c.outcome == "not evaluated" and "two supplies of WS-S can be closed at once" in c.found
    assert "A-WS-S.switch" in c.missing


@pytest.mark.parametrize(("switch", "outcome", "said"), [
    ({"kind": "manual", "poles": 3, "rating": "300 A"}, "fails", "300 A; ahead: MH-S 350 A"),     # the feeder's device is 350 A
    ({"kind": "manual", "poles": 3, "rating": "350 A"}, "passes", "350 A"),
    ({"kind": "manual", "poles": 2, "rating": "400 A"}, "fails", "the neutral is said to be switched"),
    ({"kind": "manual", "poles": 1, "rating": "400 A"}, "fails", "2 lines are to be switched"),
    ({"kind": "manual", "poles": 3}, "not evaluated", "3 poles"),
    ({"kind": "interlock", "poles": 3}, "passes", "interlock"),
])
def test_a_switch_fits_what_is_ahead_and_what_is_said_of_the_neutral(switch: object, outcome: str, said: str) -> None:
    c = all_of(with_({f"{A}.A-MH-S.switch": switch}), "143a")["MH-S"]
    assert c.outcome == outcome and said in c.found


def test_the_larger_of_both_devices_counts() -> None:
    """The alternate's own device of 450 A is more than the switch of 400 A, though the feeder's 350 A is not."""
    assert all_of(with_({f"{A}.A-MH-S.breaker": "450 A"}), "143a")["MH-S"].outcome == "fails"
    found = all_of(with_(broken(False, ("MH-S",))), "143a")["MH-S"]
    assert found.outcome == "fails" and "not to be switched" in found.found
    assert all_of(with_(broken(None, ("MH-S",))), "143a")["MH-S"].outcome == "not evaluated"


# -------------------------------------------------------------------------------------------------------------- ratings
def test_a_switch_behind_a_main_that_is_larger() -> None:
    """Without a device between, M2's 800 A reaches the 600 A of switch and bus; MID-1's own device keeps the rest apart."""
    found = all_of(with_({f"{T}.TS-1.breaker": None}), "143b")
    assert {k: c.outcome for k, c in found.items()} == {"TS-1": "fails", "SY-B": "fails", "MID-1": "passes", "SY-E": "passes"}
    assert "main M2 800 A" in found["TS-1"].found and found["TS-1"].remedy
    found = all_of(with_({f"{T}.TS-1.breaker": None, f"{T}.MID-1.breaker": None}), "143b")
    assert {c.outcome for c in found.values()} == {"fails"} and "main M2 800 A" in found["SY-E"].found


def test_a_generator_breaker_counts_on_its_side() -> None:
    found = all_of(with_({"sources.generators.GEN.breaker": "700 A"}), "143b")
    assert found["TS-1"].outcome == found["SY-B"].outcome == "fails" and "GEN 700 A" in found["TS-1"].found
    found = all_of(with_({"sources.generators.GEN.breaker": None}), "143b")
    assert found["TS-1"].outcome == "not evaluated" and "the device of GEN" in found["TS-1"].missing


def test_equal_is_enough_and_one_ampere_less_is_not() -> None:
    assert all_of(with_({"sources.buses.SY-E.rating": "399 A"}), "143b")["SY-E"].outcome == "fails"
    assert all_of(with_({"sources.buses.SY-E.rating": "400 A"}), "143b")["SY-E"].outcome == "passes"
