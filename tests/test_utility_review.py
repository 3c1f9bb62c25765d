"""What the review says of the utility, of working space, and of buildings that feeders supply. Bounds by hand from the clause."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.arrangements import arrangements
from curtilage.design.impact import impact
from curtilage.design.opening import estate
from curtilage.editions.clearances import pairs
from curtilage.errors import CurtilageError
from curtilage.report import on_utility
from curtilage.report.letter import letter
from curtilage.review.labels import labels
from curtilage.values.check import Check
import pytest
from small_estate import complaint, small

DEMO = "demo_estate"
TRANSFORMER = 'transformer: {rating: 50 kVA, impedance: 2.2 %, x_over_r: 2, fault_letter: ""}'


@cache
def base() -> Design:
    return Design(estate(DEMO, (), "nec2023"))


def changed(edition: str = "nec2023", **paths: Any) -> Design:
    return Design(estate(DEMO, (), edition, {p.replace("__", "."): x for p, x in paths.items()}))


def with_(sets: dict[str, Any], remove: tuple[str, ...] = ()) -> Design:
    return Design(base().estate.with_(sets, remove=remove))


def found(d: Design, number: str, subject: str) -> Check:
    return next(c for c in d.checks if (c.number, c.subject) == (number, subject))


def unstated() -> Design:
    """The small estate: it states nothing of what is asked here."""
    return Design(small((', size: "4/0"', "")))


def of(d: Design, number: str) -> list[Check]:
    return [c for c in d.checks if c.number == number]


# ----------------------------------------------------------------------------------------------------- space, buildings
@pytest.mark.parametrize(("depth", "outcome"), [("35.9 in", "fails"), ("36 in", "passes"), ("24 in", "fails")])
def test_working_space_is_three_feet_deep(depth: str, outcome: str) -> None:
    """Table 110.26(A)(1): 3 ft at 120 V to ground."""
    assert found(with_({"panels.GH-1.depth": depth}), "046", "GH-1").outcome == outcome


@pytest.mark.parametrize(("field", "value"), [("width", "29 in"), ("height", "77 in"), ("dedicated", False)])
def test_working_space_is_wide_and_high_and_kept_free(field: str, value: object) -> None:
    """110.26(A)(2), (3): 30 in and 6 ft 6 in; 110.26(E): dedicated space."""
    assert found(with_({f"panels.GH-1.{field}": value}), "046", "GH-1").outcome == "fails"


def test_large_equipment_has_two_entrances_and_a_space_as_wide_as_itself() -> None:
    """110.26(C)(2): 1,200 A or more and over 6 ft wide; 110.26(A)(2): 30 in or the width of the equipment, the larger."""
    gear = "service.gear."
    for changes, outcome, words in (
        ({}, "passes", "in the open"),
        ({gear + "equipment_width": "97 in"}, "fails", "at least 36, 97"),
        ({gear + "equipment_width": None}, "not evaluated", "equipment_width"),
        ({gear + "equipment_width": "72 in", gear + "indoors": True}, "passes", "one entrance does"),
        ({gear + "indoors": None}, "not evaluated", "stands indoors"),
        ({gear + "indoors": True}, "not evaluated", "how many entrances"),
        ({gear + "indoors": True, gear + "entrances": 1}, "fails", "1 of 2 entrances"),
        ({gear + "indoors": True, gear + "entrances": 2}, "passes", "2 of 2 entrances"),
        ({gear + "equipment_width": None, gear + "bus": "1199 A"}, "passes", ""),
    ):
        c = found(with_(changes), "046", "MSB")
        assert c.outcome == outcome and words in c.found + c.missing, (changes, c)
    assert found(with_({"panels.GH-1.equipment_width": "37 in"}), "046", "GH-1").outcome == "fails"


def test_a_space_that_is_not_stated_is_not_evaluated_and_named() -> None:
    d = unstated()
    c = found(d, "046", "MH-1")
    assert (c.outcome, c.missing) == ("not evaluated", "the depth, width, height, condition of the working space at MH-1")


def test_supplies_of_a_building_need_a_reason() -> None:
    """225.30: one supply, and further ones for standby or production only."""
    assert found(base(), "073", "CG").outcome == "passes"
    d = with_({"sources.alternates.A-GH-S.tiers": []})
    c = found(d, "073", "GH")
    assert c.outcome == "fails" and "A-GH-S for no stated reason" in c.found


def test_a_second_feeder_from_the_same_gear_asks_for_single_disconnects_and_grouping() -> None:
    """225.30(B): up to six feeders from one piece of equipment, each to one disconnect, all grouped."""
    wired = {"feeders.GH-S.from": "M4", "feeders.GH-S.length": "520 ft"}
    c = found(with_(wired), "073", "GH")
    assert c.outcome == "not evaluated" and "the main of GH-1, GH-S" in c.missing
    mains = {"panels.GH-1.main": "200 A", "panels.GH-S.main": "60 A"}
    c = found(with_(wired | mains), "073", "GH")
    assert c.outcome == "not evaluated" and "grouped" in c.missing


@pytest.mark.parametrize(("place", "outcome"), [("none", "fails"), ("inside", "passes")])
def test_a_building_has_a_disconnect(place: str, outcome: str) -> None:
    assert found(with_({"structures.WS.disconnect": place}), "074", "WS").outcome == outcome


@pytest.mark.parametrize(("rating", "structure", "outcome"), [
    ("60 A", "EG", "passes"), ("50 A", "EG", "fails"), ("100 A", "GH", "fails"), ("150 A", "GH", "passes")])
def test_a_disconnect_is_rated_by_use_and_by_load(rating: str, structure: str, outcome: str) -> None:
    """225.39(D): 60 A for the gatehouse, though its load is 26 A; the guest house needs its calculated 138 A."""
    assert found(with_({f"structures.{structure}.disconnect_rating": rating}), "075", structure).outcome == outcome


@pytest.mark.parametrize(("edition", "outcome"), [("nec2020", "does not apply"), ("nec2023", "fails"), ("nec2026", "fails")])
def test_a_fed_dwelling_has_an_outdoor_emergency_disconnect_from_the_middle_edition_on(edition: str, outcome: str) -> None:
    """225.41, new in the edition of 2023."""
    d = changed(edition, structures__GH__emergency_disconnect=False)
    assert found(d, "076", "GH").outcome == outcome


def test_surge_protection_is_asked_where_branch_devices_stand() -> None:
    """215.18, 225.42, new in the edition of 2023; 230.67 on the service in all three."""
    off = {f"panels__{p}__surge_protection": False for p in ("GH-1", "GH-S", "GH-E")} | {"service__gear__surge_protection": False}
    c = found(changed(**{"panels__GH-1__surge_protection": None}), "043", "GH")
    assert c.outcome == "not evaluated" and "GH-1" in c.found and "GH-1" in c.missing
    for panel, home in (("GH-1", "GH"), ("MH-DP", "MH")):
        c = found(changed(**{f"panels__{panel}__surge_protection": False}), "043", home)
        assert c.outcome == "fails" and f"none in or beside {panel}" in c.found and c.remedy
    assert found(changed(**off), "043", "GH").outcome == "fails"
    assert found(changed("nec2020", **off), "043", "GH").outcome == "does not apply"
    assert found(changed("nec2020", **off), "043", "MSB").outcome == "fails"


def test_only_somebody_who_saw_a_plaque_can_say_so() -> None:
    assert found(base(), "079", "GH").outcome == "attested"
    d = with_({}, ("attested.AT-07",))
    assert found(d, "079", "GH").outcome == "not evaluated"


def test_service_conductors_inside_a_building() -> None:
    """230.6: 2 in of concrete; 230.70(A): the disconnect at the point of entrance."""
    assert found(with_({"service.inside": "12 ft"}), "048", "service").outcome == "fails"
    assert found(with_({"service.inside": "12 ft", "service.encased": True}), "048", "service").outcome == "not evaluated"
    assert found(unstated(), "048", "service").outcome == "not evaluated"


def test_more_services_need_a_reason() -> None:
    assert found(with_({"service.others": 1}), "042", "service").outcome == "fails"
    assert found(with_({"service.others": 1, "service.reason": "fire pump"}), "042", "service").outcome == "needs judgement"


# ------------------------------------------------------------------------------------------------------ metering, places
def test_a_large_service_is_metered_by_current_transformers() -> None:
    d = with_({"service.metering.kind": "self-contained"})
    assert found(d, "049", "service").outcome == "fails"
    assert found(with_({"service.metering.distance": "51 ft"}), "050", "service").outcome == "fails"
    assert found(with_({"service.metering.other_wiring": True}), "050", "service").outcome == "fails"


@pytest.mark.parametrize(("at", "outcome"), [("48.1 ft", "passes"), ("47.9 ft", "fails")])
def test_a_generator_keeps_five_feet_from_an_opening(at: str, outcome: str) -> None:
    """NFPA 37 4.1.4: 5 ft; the corner of the generator lies at 43 ft."""
    d = with_({"site.places.P-CG-DOOR.at": [at, "46 ft"]})
    assert found(d, "147", "P-GEN/P-CG-DOOR").outcome == outcome
    if outcome == "fails":
        assert "4.9 ft, 0.1 ft too near" in found(d, "147", "P-GEN/P-CG-DOOR").found


def test_outlines_that_overlap_touch() -> None:
    d = with_({"site.places.P-CG-DOOR.at": ["40 ft", "46 ft"]})
    assert d.number("distance/P-GEN/P-CG-DOOR/distance").value == 0.0


def test_a_thing_without_a_place_is_named() -> None:
    d = with_({}, ("site.places.P-GEN", "site.places.P-PAD"))
    missing = {c.missing for c in of(d, "147")} | {c.missing for c in of(d, "051")}
    assert any("the coordinates of GEN" in m for m in missing) and any("the coordinates of transformer" in m for m in missing)
    assert not of(unstated(), "147")


def test_every_pair_names_a_rule_and_a_check() -> None:
    d = base()
    for p in pairs():
        assert d.ed.rule(p.rule).unit == "ft" and p.check in {c.number for c in d.checks} | {"147", "051", "149a", "151a", "120a"}


# ------------------------------------------------------------------------------------------------------ motors, letters
def test_a_limit_that_the_largest_start_breaks() -> None:
    d = with_({"service.flicker.limit": "0.5 %", "service.flicker.starts": "60 starts/h"})
    assert [c.subject for c in of(d, "056") if c.outcome == "fails"] == ["L164"]


def test_without_a_rate_of_starts_the_stricter_limit_decides() -> None:
    """Between 2.5 % (once a minute) and 4 % (twice an hour) of the published rule nobody can say."""
    d = with_({"service.transformer.rating": "45 kVA", "loads.L164.starts": ""}, ("service.flicker",))
    c = next(c for c in of(d, "056") if c.subject == "L164")
    assert 2.5 < d.items["flicker/L164"].change < 4.0
    assert (c.outcome, c.missing) == ("not evaluated", "how often it starts (starts)")


def test_the_letter_names_what_it_lacks() -> None:
    d = unstated()
    c = found(d, "056a", "load letter")
    assert c.outcome == "not evaluated" and "how the service is metered" in c.missing and "who asks" in c.missing
    assert "## Not known yet" in letter(d) and "- who asks (prepared.by)" in letter(d)
    none = Design(small((', size: "4/0"', ""), ("0.8,N,1/2,20", "0.8,N,,20")))
    assert "the largest motor" in found(none, "056a", "load letter").missing


def test_the_letter_keeps_code_load_and_expected_peak_apart() -> None:
    text = letter(base())
    assert "calculated load, by the code: a minimum for conductors, no forecast | 372.4 kVA" in text
    assert "expected peak: a forecast, no load for conductors | 239.4 kW" in text
    assert "Demonstration: everything in this letter is invented" in text and "Not known yet" not in text


def test_the_log_is_held_against_the_design() -> None:
    came = {"service.letters.LF-1.received": "2026-11-20", "service.letters.LF-1.current": "40000 A"}
    assert found(with_(came), "052a", "service").outcome == "fails"
    rests = {"service.transformer.fault_letter": {"current": "40000 A", "date": "2026-11-20"}}
    assert found(with_(came | rests), "052a", "service").outcome == "passes"


def test_a_letter_without_its_day_is_an_error() -> None:
    stated = TRANSFORMER + "\n  letters: [{id: A, current: 30 kA}]"
    assert complaint((TRANSFORMER, stated)) == (
        "estate.yaml:12:13 service.letters.A: the letter A has a fault current and no day; expected the day it came; "
        "add received, or take the figure out")
    turned = TRANSFORMER + "\n  letters: [{id: A, asked: 2026-05-02, received: 2026-05-01, current: 30 kA}]"
    assert "2026-05-01 is before 2026-05-02, when it was asked for" in complaint((TRANSFORMER, turned))


def test_seven_mains_are_an_error() -> None:
    mains = ", ".join(f"{{id: N{i}, feeders: [MH]}}" for i in range(7))
    stated = f"{TRANSFORMER}\n  options: [{{id: x, title: x, mains: [{mains}]}}]"
    assert "service.options.x.mains" in complaint((TRANSFORMER, stated))


@pytest.mark.parametrize(("due", "slip"), [("2026-11-20", 0), ("2027-06-14", 6)])
def test_a_date_that_passed_and_what_it_moves(due: str, slip: int) -> None:
    """Day of the design 2026-11-24; the transformer needs 7 days before the service is energized on 2027-06-15."""
    d = with_({"service.milestones.U-SET.due": due})
    c = found(d, "058b", "U-SET")
    assert c.outcome == "fails" and d.items["milestone/U-SET"].slip == slip
    assert ("D-PERM, D-GATE move by 6 days" in c.found) == bool(slip)


# -------------------------------------------------------------------------------------------------- whole designs beside
def test_arrangements_are_designs_of_their_own() -> None:
    """240.87 at 1,200 A; 240.4(C) above 800 A; 230.90(A) exception 3 where the mains together exceed the conductors."""
    laid = {x.name: x for x in arrangements(base())}
    assert list(laid) == ["drawn", "one", "two", "six"]
    one, six = laid["one"], laid["six"]
    assert one.design is not None and six.design is not None
    assert one.design.items[one.key].arc_energy and ("040", "M2") in {(c.number, c.subject) for c in one.failed}
    assert one.design.items["service"].ampacity >= one.design.items["main/M2"].rating
    assert six.design.items[six.key].by_load and six.design.items["service"].ampacity < six.design.items["service"].rating
    assert "arrangement/drawn" not in base().items
    assert len(on_utility.side_by_side(base()).lines) == 4


def test_an_option_that_forgets_a_feeder_says_so() -> None:
    d = with_({"service.options": [{"id": "x", "title": "x", "mains": [{"id": "M2", "feeders": ["MH", "PP"]}]}]})
    x = list(arrangements(d))[1]
    assert x.design is None and "CG, EG, GH, GP, SY, WS would hang on no main" in x.why


def test_another_letter_changes_what_it_should() -> None:
    """42 kA gear, 25 ft of lateral: the planted estate fails with an infinite primary and holds with 20 kA at the transformer."""
    d = Design(base().estate.variant("P20"))
    changes = {p.id: p.holds for p in impact(d, 20_000.0).places}
    assert changes["MSB"] == "holds again" and changes["MH-DP"] == "holds"
    with pytest.raises(CurtilageError, match="give amperes, not kiloamperes"):
        impact(d, 30.0)
    assert on_utility.letter_changes(d, 20_000.0)[0].lines


def test_the_label_sheet_follows_the_edition() -> None:
    old = {(x.where, x.says) for x in labels(changed("nec2020"))}
    new = {(x.where, x.says) for x in labels(base())}
    assert ("GH, outdoors", "EMERGENCY DISCONNECT") in new - old
    assert all(x.says and x.clause and x.status for x in labels(base()))


def test_every_table_is_whole() -> None:
    for t in on_utility.tables(base()):
        assert t.lines and all(len(line.cells) == len(t.columns) for line in t.lines), t.title
    assert not on_utility.metering(unstated()).lines


def test_a_device_above_eight_hundred_amperes_needs_its_whole_ampacity() -> None:
    """240.4(C): five sets of 310 A are below one main of 1,600 A, six are not."""
    assert found(base(), "039", "service").outcome == "does not apply"
    one = {"service.mains": [{"id": "M2", "rating": "1600 A"}]} | {
        f"feeders.{f}.from": "M2" for f in ("MH", "GH", "EG", "GP", "SY")}
    assert found(with_(one), "039", "M2").outcome == "passes"
    assert found(with_(one | {"service.lateral.sets": 5}), "039", "M2").outcome == "fails"


def test_sources_beside_the_utility_are_asked_for_by_a_person() -> None:
    assert found(base(), "058", "service").outcome == "attested"
    assert found(with_({}, ("attested.AT-08",)), "058", "service").outcome == "not evaluated"
    assert found(unstated(), "058", "service").outcome == "does not apply"


def test_a_local_layer_states_the_utilitys_own_distances() -> None:
    """A pad that must stand 250 ft from openings: the door of the garage, at 120 ft, is then too near."""
    from curtilage.editions import Edition
    rule = {"title": "the utility's own book (invented)", "amends": "nec2023", "clear_pad_opening": {
        "value": 250.0, "unit": "ft", "clause": "7.1", "status": "verified"}}
    d = Design(estate(DEMO, (), "nec2023"), Edition.load("nec2023", rule))
    c = found(d, "051", "P-PAD/P-CG-DOOR")
    assert c.outcome == "fails" and "129.9 ft too near; at least 250 ft" in c.found
