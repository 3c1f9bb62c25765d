"""What the review says of fault currents, ratings and clearing; numbers by hand from the clause or the table that is named."""

from __future__ import annotations

from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.errors import CurtilageError
from curtilage.model import Estate
from curtilage.report import on_faults
from curtilage.values.check import Check
import pytest

DEMO, STARTER = "demo_estate", "core/curtilage/data/starter"
LETTER = "service.transformer.fault_letter"


def demo(changes: dict[str, Any] | None = None, variants: tuple[str, ...] = ()) -> Design:
    return Design(estate(DEMO, variants, "nec2023", changes or {}))


def found(d: Design, number: str, subject: str) -> Check:
    return next(c for c in d.checks if (c.number, c.subject) == (number, subject))


def letter(e: Estate, **fields: Any) -> Design:
    """The demonstration estate with a letter of the utility."""
    form = type(e.service.transformer).model_fields["fault_letter"]
    kind = next(k for k in form.annotation.__args__ if k is not type(None))
    given = kind.model_validate({"date": "2026-12-08", "current": "22 kA", "x_over_r": 2} | fields)
    transformer = e.service.transformer.model_copy(update={"fault_letter": given})
    return Design(e.model_copy(update={"service": e.service.model_copy(update={"transformer": transformer})}))


# ------------------------------------------------------------------------------------------------------------------- ratings


@pytest.mark.parametrize(("rating", "outcome"), [("45 kA", "fails"), ("46 kA", "passes"), ("65 kA", "passes")])
def test_the_gear_is_held_against_the_fault_to_neutral(rating: str, outcome: str) -> None:
    """250 kVA, 2.2 %, X/R 2, 60 ft of six sets of 500 kcmil Al at 20 degC: 1.55 + j 2.14 mohm let 45.4 kA through at 120 V.

    By hand: half winding 0.850 + j 1.360 mohm; one way 0.0043 x 0.8185 x 60 / 6 = 0.352 mohm and 0.39 mohm, twice.
    """
    by_hand = 120 / abs(complex(0.850 + 2 * 0.352, 1.360 + 2 * 0.39)) * 1000
    d = demo({"service.gear.interrupting": rating})
    assert d.value("fault/MSB/ln") == pytest.approx(by_hand, rel=1e-3)
    c = found(d, "053", "MSB")
    assert c.outcome == outcome and "45.4 kA line to neutral (39.4 kA line to line)" in c.found
    assert ("a rating of 45.4 kA or more" in c.remedy) == (outcome == "fails")


def test_the_planted_ratings_are_found_with_number_and_remedy() -> None:
    """P05: a 10 kA panel where 12.1 kA are available. P20: a 42 kA gear 25 ft from the transformer."""
    c = found(demo(variants=("P05",)), "072", "MH-DP")
    assert c.outcome == "fails" and "2.1 kA short" in c.found and c.remedy.startswith("a rating of 12.1 kA or more")
    c = found(demo(variants=("P20",)), "053", "MSB")
    assert c.outcome == "fails" and "58.9 kA line to neutral" in c.found and c.remedy.startswith("a rating of 58.9 kA or more")


def test_a_panel_without_a_rating_is_not_evaluated_and_a_series_rating_is_attested() -> None:
    """240.86, 110.22: a tested combination holds only as far as its document says."""
    missing = found(demo({"panels.MH-K.interrupting": None}), "072", "MH-K")
    assert missing.outcome == "not evaluated" and "rating" in missing.missing
    assert found(demo({"panels.MH-K.series_rated": "yes"}), "072", "MH-K").outcome == "not evaluated"
    series = {"panels.MH-K.series_rated": "yes", "panels.MH-K.series_evidence": "LB-SR-01", "panels.MH-K.series_with": "M1"}
    c = found(demo(series), "072", "MH-K")
    assert c.outcome == "attested" and "behind M1, documented in LB-SR-01" in c.found and "110.22" in c.found
    assert found(demo({**series, "panels.MH-K.interrupting": "10 kA"}), "072", "MH-K").outcome == "fails"


def test_a_panel_behind_an_alternate_feeder_alone_has_a_fault_current() -> None:
    """CG-2 hangs on the essential bus only: what the utility brings through that bus counts."""
    d = demo()
    assert d.value("fault/CG-2/ll") == pytest.approx(d.value("fault/A-CG-2/ll"))
    assert d.value("fault/CG-2/largest") < d.value("fault/SY-E/largest") == pytest.approx(d.value("fault/MSB/largest"))


# -------------------------------------------------------------------------------------------------------------------- source


def test_without_a_letter_the_bound_is_said_to_be_one() -> None:
    c = found(demo(), "052", "service")
    assert c.outcome == "passes" and "no letter yet; infinite primary: a bound" in c.found


def test_a_letter_takes_the_place_of_the_bound() -> None:
    """22 kA at the terminals; at the gear behind it less, and the least by what the utility states as least."""
    e = estate(DEMO, (), "nec2023", {})
    d = letter(e, least="15 kA")
    assert d.value("fault/terminals/ll") == pytest.approx(22_000) and d.value("fault/terminals/ll_least") == pytest.approx(15_000)
    assert "letter of 2026-12-08: 22.0 kA at the transformer terminals" in found(d, "052", "service").found
    at_gear = letter(e, at="service gear")
    assert at_gear.value("fault/MSB/ll") == pytest.approx(22_000)
    assert at_gear.value("fault/terminals/ll") > 22_000


def test_a_letter_above_the_nameplate_is_a_question() -> None:
    """250 kVA with 2.2 % let 47.3 kA through from an infinite primary: 60 kA cannot be the same transformer."""
    d = letter(estate(DEMO, (), "nec2023", {}), current="60 kA")
    c = found(d, "052", "service")
    assert c.outcome == "needs judgement" and "one of the two is wrong" in c.found
    assert d.value("fault/terminals/ll") == pytest.approx(60_000)


def test_what_gives_no_fault_current_stops() -> None:
    """S1: a current on the primary side says nothing without the voltage there."""
    d = demo({"service.transformer.primary": "8 kA"})
    assert [s.number for s in d.stops].count("S1") == 1 and "primary_volts" in next(s for s in d.stops if s.number == "S1").text
    outcomes = {c.outcome for c in d.checks if c.number in ("052", "053", "054", "071", "072", "203", "204")}
    assert outcomes == {"not evaluated"} and not d.has("fault/MSB/ll")
    mended = demo({"service.transformer.primary": "8 kA", "service.transformer.primary_volts": "7.2 kV"})
    assert not [s for s in mended.stops if s.number == "S1"]
    assert mended.value("fault/terminals/ll") < demo().value("fault/terminals/ll")


def test_how_far_the_transformer_may_change() -> None:
    """P20's gear holds up to some 165 kVA at 2.2 %: a transformer of that size lets just 42 kA through to it."""
    d = demo(variants=("P20",))
    c, most = found(d, "054", "MSB"), d.value("margin/MSB/rating_most")
    assert c.outcome == "fails" and f"{most:.0f} kVA" in c.found
    small = demo({"service.lateral.length": "25 ft", "service.transformer.rating": f"{most:.6f} kVA"})
    assert small.value("fault/MSB/largest") == pytest.approx(42_000, rel=1e-6)


# ------------------------------------------------------------------------------------------------------------------ clearing


def test_the_gate_feeder_that_will_not_clear() -> None:
    """P24: 60 A and 1 AWG over 1,240 ft. By hand: 0.105 + 0.310 ohm of R, 0.051 + 0.057 of X: some 280 A, 4.6 times."""
    by_hand = 120 / abs(complex((0.085 + 0.25) * 1.24 + 0.0017, (0.041 + 0.046) * 1.24 + 0.0021))
    c = found(demo(variants=("P24",)), "071", "EG")
    assert c.outcome == "fails" and c.standing == "practice" and c.severity == 1
    assert by_hand == pytest.approx(278, abs=1) and "278 A, 4.6 times 60 A: at most 67.0 s" in c.found
    assert "600 A in place of 278 A, or at most 28 A of device" in c.remedy
    assert found(demo(), "071", "EG").outcome == "passes"


def test_what_is_not_stated_is_an_input_that_is_missing_only_where_it_decides() -> None:
    """Main house: 7.2 times the device is neither below the usual five nor above the sure fourteen, so the curve is asked for."""
    c = found(demo({"feeders.MH.trip": None}), "071", "MH")
    assert c.outcome == "not evaluated" and "feeders.MH.trip" in c.missing
    assert found(demo({"feeders.MH-E.trip": None}), "071", "MH-E").outcome == "passes"
    for setting, outcome in ((6, "fails"), (5.9, "passes")):
        assert found(demo({"feeders.MH.trip.instantaneous": setting}), "071", "MH").outcome == outcome


def alternates(**changes: dict[str, Any]) -> Design:
    """The demonstration estate with fields of its alternate feeders changed; `A_GH_E` stands for A-GH-E."""
    return demo({f"sources.alternates.{name.replace('_', '-')}.{field}": value
                 for name, fields in changes.items() for field, value in fields.items()})


def test_an_alternate_feeder_that_will_not_clear() -> None:
    """30 A over 410 ft of 8 AWG aluminium, line and ground alike, 1.3 ohm/kft in Table 9: 120 V / 1.066 ohm is 112 A, 3.7 times.

    Above 300 % the bound of a 30 A breaker is 70 s x (3 / 3.74)^2, 45 s. Below the usual five no curve is asked for.
    """
    unsaid = {"trip": None, "size": None, "sets": None}
    d = alternates(A_GH_E=unsaid, A_PP_E=unsaid)
    c = found(d, "071a", "A-GH-E")
    assert 120 / (2 * 1.3 * 0.410) == pytest.approx(112.6, abs=0.1)
    assert c.outcome == "fails" and "112 A, 3.7 times 30 A: at most 45." in c.found and c.severity == 1
    assert "840 A in place of 112 A" in c.remedy                # 28 times: twenty, and two fifths above
    c = found(d, "071a", "A-PP-E")
    assert c.outcome == "fails" and "139 A, 4.6 times 30 A" in c.found


def test_the_repaired_alternate_feeders_clear() -> None:
    """6 AWG, 0.81 ohm/kft: 120 V over 2 x 0.81 x 0.410 ohm is 181 A, above 30 A x 4 x 1.25. A pick-up of five is not reached."""
    d = alternates()
    c = found(d, "071a", "A-GH-E")
    assert 150 < d.value("clearing/A-GH-E/fault") < 120 / (2 * 0.81 * 0.410) < 181
    assert c.outcome == "passes" and "6.0 times 30 A" in c.found and "generator and battery give less" in c.found
    assert {x.outcome for x in d.checks if x.number == "071a"} == {"passes"}
    five = {"instantaneous": 5, "tolerance": "25 %", "document": "X"}
    assert found(alternates(A_GH_E={"trip": five}), "071a", "A-GH-E").outcome == "fails"


def test_an_alternate_feeder_whose_curve_decides_asks_for_it() -> None:
    """150 A at 6.9 times lies between the usual five and the sure fourteen."""
    c = found(alternates(A_MH_E={"trip": None}), "071a", "A-MH-E")
    assert c.outcome == "not evaluated" and "sources.alternates.A-MH-E.trip" in c.missing


def test_a_stated_trip_that_decides_wants_its_document() -> None:
    """The pick-up is no figure of the standards: without a document nobody can look it up. Only where it decides."""
    bare = {"instantaneous": 5, "tolerance": "20 %"}
    c = found(demo({"feeders.MH.trip": bare}), "071", "MH")
    assert c.outcome == "not evaluated" and "7.2 times" in c.found and "feeders.MH.trip.document" in c.missing
    assert found(demo({"feeders.MH.trip": bare | {"document": "LB-BR-02"}}), "071", "MH").outcome == "passes"
    assert found(demo({"feeders.MH-E.trip": bare}), "071", "MH-E").outcome == "passes"
    c = found(alternates(A_MH_E={"trip": bare}), "071a", "A-MH-E")
    assert c.outcome == "not evaluated" and "sources.alternates.A-MH-E.trip.document" in c.missing
    curve = [{"multiple": 8, "time": "4 s"}, {"multiple": 15, "time": "0.1 s"}]
    c = found(demo({"basis.branch.trip": {"curve": curve}}), "071", "GP-S, far ends of its circuits")
    assert c.outcome == "not evaluated" and "L187" in c.found and "basis.branch.trip.document" in c.missing


def test_only_a_breaker_with_ground_fault_protection_guards_the_whole_circuit() -> None:
    """A receptacle (210.8) opens what is behind it; a fault in the cable before it is the ordinary breaker's.

    L182, 20 A at 6.1 times: UL 489 and NEMA AB 4 bound a breaker of 30 A or less at 70 s x (3 / 6.11)^2, 16.9 s.
    """
    subject = "EG-E, far ends of its circuits"
    assert found(demo(), "071", subject).outcome == "passes"
    for by in ("receptacle", ""):
        c = found(demo({"loads.L182.gfci_by": by}), "071", subject)
        assert c.outcome == "fails" and "L182" in c.found and "6.1 times its breaker, at most 16.9 s" in c.found
    d = demo()
    assert d.told("far/L182/time").value == 0.1
    with pytest.raises(CurtilageError, match="the column gfci says there is none"):
        demo({"loads.L182.gfci": False})


def test_the_policy_sets_the_time() -> None:
    """L187 clears within 4 s by the stated curve: enough for 5 s, not for 3 s."""
    subject = "GP-S, far ends of its circuits"
    assert found(demo(), "071", subject).outcome == "passes"
    c = found(demo({"policy.clearing": "3 s"}), "071", subject)
    assert c.outcome == "fails" and "L187" in c.found


def test_below_what_any_breaker_must_trip_at() -> None:
    """UL 489: below 135 % no trip is promised; that fails, and no time is named."""
    d = demo({"feeders.EG.breaker": "400 A", "feeders.EG.egc": "1"})
    c = found(d, "071", "EG")
    assert c.outcome == "fails" and "need not trip at all" in c.found and not d.has("clearing/EG/time")


def test_a_curve_that_rises_is_refused() -> None:
    curve = [{"multiple": 5, "time": "3 s"}, {"multiple": 10, "time": "6 s"}]
    d = demo({"basis.branch.trip": {"curve": curve}})
    c = found(d, "071", "MH-S, far ends of its circuits")
    assert c.outcome == "not evaluated" and "must fall as the current grows" in c.missing


# --------------------------------------------------------------------------------------------------------------------- pages


def test_the_tables_say_that_no_arc_flash_figure_is_given() -> None:
    """C12: no boundary, no energy, no clothing anywhere, and a sentence why."""
    tables = on_faults.tables(demo())
    assert [t.title for t in tables][1] == "Fault currents and ratings"
    assert "Arc-flash boundaries, incident energy and protective clothing are not computed" in tables[1].note
    heads = " ".join(c.head for t in tables for c in t.columns).lower()
    assert not any(word in heads for word in ("cal/cm", "ppe", "energy", "boundary", "clothing"))


def test_every_edition_gives_the_same_faults() -> None:
    """Physics does not change with the edition; the tables of resistance did not either."""
    values = [Design(estate(DEMO, (), ed, {})).value("fault/EG-E/ll") for ed in ("nec2020", "nec2023", "nec2026")]
    assert values[0] == values[1] == values[2]


def test_the_small_estate_to_begin_with() -> None:
    """The gear of the starter holds 22 kA; 8.3 kA are available behind 50 kVA of 2 %."""
    d = Design(estate(STARTER, (), "nec2023", {}))
    assert found(d, "053", "SG").outcome == "passes" and "8.3 kA line to neutral" in found(d, "053", "SG").found


def test_a_circuit_without_a_length_is_not_passed_over() -> None:
    d = demo({"loads.L072.length": None})
    c = found(d, "071", "MH-E, far ends of its circuits")
    assert c.outcome == "not evaluated" and "the length of circuit L072 is missing" in c.missing


def test_a_sizable_gap_is_said_to_be_one() -> None:
    """Circuits behind an alternate feeder, and its other sources, are not looked at: the head of every answer says so."""
    from curtilage.review.asked import not_looked_at
    assert any("behind alternate feeders" in words for words in not_looked_at())
