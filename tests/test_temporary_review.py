"""Temporary power in the demonstration estate: what is asked, and what is said when something is missing or wrong."""
from __future__ import annotations

from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.errors import CurtilageError
from curtilage.report import on_temporary
from curtilage.values.check import Check
import pytest
from small_estate import small

DEMO, SERVICE = "demo_estate", "temporary.services.TMP."


def design(**changed: Any) -> Design:
    return Design(estate(DEMO, (), "nec2023", {k.replace("__", ".").replace("_dash_", "-"): v for k, v in changed.items()}))


def found(d: Design, number: str, subject: str) -> Check:
    return next(c for c in d.checks if (c.number, c.subject) == (number, subject))


def test_the_base_passes_or_is_attested() -> None:
    d = design()
    seen = {c.number: c.outcome for c in d.checks if c.number in ("059", "060", "060a", "061", "063", "196")}
    assert len(seen) == 6 and set(seen.values()) == {"passes"}
    assert found(d, "062", "TMP").outcome == found(d, "064", "TB-1").outcome == "attested"
    assert found(d, "064", "TB-2").outcome == "does not apply"


def test_the_winter_is_what_is_plugged_in() -> None:
    """By hand: heat 8,000 + 5,000, drying 2,700, half of the tools 6,480, light and pump 2,000: 24,180 VA; the minimum adds a
    quarter of the 15,700 of heat and of the 2,000 that run on: 28,605 VA, 119.2 A at 240 V."""
    d = design()
    d.works("temporary")
    r = d.items["temporary/TMP/winter"]
    assert (r.va, r.minimum_va) == (24_180, 28_605) and r.minimum == pytest.approx(119.19, abs=0.01)


@pytest.mark.parametrize(("field", "value", "number", "subject", "outcome"), [
    (SERVICE + "gfci", False, "059", "TMP", "fails"),
    ("temporary.boards.TB-2.gfci", False, "059", "TB-2", "fails"),
    (SERVICE + "rating", "100 A", "060", "TMP, winter", "fails"),
    ("temporary.loads.heat-1.count", 12, "060", "TB-1", "fails"),
    ("temporary.boards.TB-1.cord", "300 ft", "060a", "TB-1", "fails"),
    ("temporary.boards.TB-1.cord", None, "060a", "TB-1", "not evaluated"),
    (SERVICE + "permit", "", "061", "TMP", "fails"),
    (SERVICE + "until", None, "061", "TMP", "fails"),
    (SERVICE + "until", None, "196", "TMP", "not evaluated"),
    (SERVICE + "until", "2027-08-01", "061", "TMP", "fails"),
    (SERVICE + "feeds", ["GH"], "061", "TMP", "fails"),
    (SERVICE + "feeds", ["GH"], "196", "TMP", "passes"),
    (SERVICE + "feeds", ["WS"], "196", "TMP", "fails"),
    (SERVICE + "until", "2026-10-01", "196", "TMP", "fails"),
    (SERVICE + "pole", None, "062", "TMP", "not evaluated"),
    ("temporary.fallback", None, "063", "site", "not evaluated"),
    ("temporary.fallback.generator", "20 kW", "063", "site", "fails"),
    ("temporary.fallback.fuel", "diesel", "063", "site", "not evaluated"),
    ("temporary.fallback.to_line", "30 ft", "063", "site", "fails"),
    ("temporary.fallback.sound", None, "063", "site", "not evaluated"),
    ("temporary.boards.TB-1.mapped", None, "064", "TB-1", "not evaluated")])
def test_what_is_wrong_is_said(field: str, value: Any, number: str, subject: str, outcome: str) -> None:
    c = found(Design(estate(DEMO, (), "nec2023", {field: value})), number, subject)
    assert c.outcome == outcome, c.found
    assert c.remedy or outcome == "passes"


def test_a_building_may_be_fed_by_approval() -> None:
    proof = {"by": "county inspector (invented)", "date": "2026-11-01", "evidence": "LB-LT-040"}
    d = Design(estate(DEMO, (), "nec2023", {SERVICE + "feeds": ["GH"], SERVICE + "approval": proof}))
    assert found(d, "061", "TMP").outcome == "passes"


def test_the_planted_second_supply_is_found() -> None:
    c = found(Design(estate(DEMO, ["P26"], "nec2023")), "196", "TMP")
    assert c.outcome == "fails" and "WS" in c.found and "two supplies" in c.found and c.remedy


def test_without_loads_nothing_passes() -> None:
    d = Design(estate(DEMO, (), "nec2023", {"temporary.loads": []}))
    assert {c.outcome for c in d.checks if c.number in ("060", "060a", "063")} == {"not evaluated"}
    assert all("loads" in c.missing for c in d.checks if c.number == "060")


def test_no_temporary_power_no_questions() -> None:
    d = Design(small(('size: "4/0"', 'sets: 1, size: "4/0"')))
    assert not [c for c in d.checks if c.number in ("059", "060", "061", "062", "063", "064", "196")]
    assert on_temporary.tables(d) == []


def test_the_tables_open_and_the_list_is_in_the_order_of_days() -> None:
    d = design()
    tables = {t.title: t for t in on_temporary.tables(d)}
    for line in (line for t in tables.values() for line in t.lines):
        assert all(d.told(c.tag).value == c.value for c in line.cells if not isinstance(c, str))
    days = [str(line.cells[2]) for line in tables["To be removed or converted"].lines]
    assert days == sorted(days) and days[-1] == "2027-07-15" and len(days) == 5


@pytest.mark.parametrize(("field", "value", "words"), [
    ("temporary.boards.TB-1.service", "TMQ", "there is no temporary service 'TMQ'"),
    ("temporary.boards.TB-1.at", "XX", "XX"),
    ("temporary.loads.heat-1.on", "TB-9", "TB-9"),
    ("temporary.loads.heat-1.kind", "stove", "stove"),
    ("temporary.loads.heat-1.va", "4 h", "4 h"),
    ("temporary.fallback.boundary", "east", "east"),
    ("temporary.fallback.delay", "-1 days", "-1"),
    ("temporary.tools_share", "150 %", "150")])
def test_wrong_inputs_are_refused_in_words(field: str, value: str, words: str) -> None:
    with pytest.raises(CurtilageError, match=words):
        estate(DEMO, (), "nec2023", {field: value})


def test_a_board_and_a_service_share_one_space_of_names() -> None:
    with pytest.raises(CurtilageError, match="TMP"):
        estate(DEMO, (), "nec2023", {"temporary.boards": [{"id": "TMP", "service": "TMP", "at": "MH", "gfci": True}]})


def test_the_share_of_tools_may_be_stated() -> None:
    d = Design(estate(DEMO, (), "nec2023", {"temporary.tools_share": "100 %"}))
    d.works("temporary")
    assert d.items["temporary/TMP/winter"].tools == 9 * 1440                      # six saws and three tools, all at once
    assert d.told("temporary/TMP/winter/tools").value == 9 * 1440
