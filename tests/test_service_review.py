"""What the review says of gear, transformer and expected peak. Bounds by hand from the clause that is named."""

from __future__ import annotations

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.report import loads, results
from curtilage.values.check import Check
import pytest

STARTER, DEMO = "core/curtilage/data/starter", "demo_estate"


def found(d: Design, number: str, subject: str) -> Check:
    return next(c for c in d.checks if (c.number, c.subject) == (number, subject))


@pytest.mark.parametrize(("bus", "outcome"), [("100 A", "fails"), ("199 A", "fails"), ("200 A", "passes")])
def test_the_bus_of_the_gear_is_not_below_its_one_main(bus: str, outcome: str) -> None:
    """408.30, 408.36: behind a main of 200 A the bus is one of 200 A or more."""
    d = Design(estate(STARTER, (), "nec2023", {"service.gear.bus": bus}))
    assert found(d, "098", "SG").outcome == outcome


@pytest.mark.parametrize(("bus", "outcome"), [("1600 A", "fails"), ("1700 A", "needs judgement"), ("2000 A", "passes")])
def test_several_mains_may_exceed_a_bus_only_by_its_listing(bus: str, outcome: str) -> None:
    """Four mains of 1,850 A together; 1,626.7 A is the least (230.42(A)(1)). Between the two the maker's listing decides."""
    d = Design(estate(DEMO, (), "nec2023", {"service.gear.bus": bus}))
    assert found(d, "098", "MSB").outcome == outcome


@pytest.mark.parametrize(("rating", "asked"), [("10 kVA", True), ("250 kVA", True), ("500 kVA", False)])
def test_a_small_transformer_becomes_a_question_to_the_utility(rating: str, asked: bool) -> None:
    """Calculated 372 kVA, expected up to 386 kVA: whatever is below either is the utility's to answer."""
    d = Design(estate(DEMO, (), "nec2023", {"service.transformer.rating": rating}))
    c = found(d, "058a", "transformer")
    assert c.outcome == ("needs judgement" if asked else "does not apply") and c.standing == "utility or local"
    assert "calculated load 372 kVA, expected peak up to 386 kVA" in c.found
    assert ("058a" in {q.number for q in d.questions}) == asked


def test_a_ratio_out_of_habit_is_no_failure_and_no_question_for_the_authority() -> None:
    d = Design(estate(DEMO))
    d.items["expected"] = d.items["expected"]._replace(kva=40.0)
    c = found(d, "208", "service")
    assert (c.outcome, c.standing) == ("needs judgement", "practice")
    assert "208" not in {q.number for q in d.questions}


def test_the_results_name_load_and_minimum_of_the_service_conductors() -> None:
    """6 x 310 A of Table 310.16: 16.6 % over 1,551.5 A, 12.5 % over 1,626.7 A."""
    by_tag = {r.tag: r for r in results.first(Design(estate(DEMO, (), "nec2023")))}
    load, least = by_tag["service/required"], by_tag["service/minimum"]
    assert (load.shown, least.shown, least.limit) == ("1,551.5", "1,626.7", 1860.0)


def test_a_high_estimate_above_the_calculated_load_is_remarked() -> None:
    assert "above the calculated load" in loads.expected(Design(estate(DEMO))).note
    d = Design(estate(DEMO))
    d.items["expected"] = d.items["expected"]._replace(high_kva=300.0)
    assert "above the calculated load" not in loads.expected(d).note
