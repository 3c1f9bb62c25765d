"""Where a dwelling is worked: its floor area stays with it, whatever else hangs on its panel and wherever a row of it strays."""

from __future__ import annotations

from pathlib import Path

from curtilage.design import Design
from curtilage.design.compare import causes, compare
from curtilage.design.opening import estate
from curtilage.design.top import top_rows
from curtilage.model import from_text
from curtilage.report import text
from curtilage.values.check import Check
import pytest

FOLDER = Path("core/curtilage/data/starter")
ESTATE, LOADS = ((FOLDER / f).read_text(encoding="utf-8") for f in ("estate.yaml", "loads.csv"))
OPTIONAL = ("method: standard", "method: optional")
OWN_MAIN = (
    ("from: HS-1, to: GR-1", "from: M2, to: GR-1"),
    ("- {id: M1, rating: 200 A}", "- {id: M1, rating: 200 A}\n    - {id: M2, rating: 100 A}"),
)
SUBPANEL = (
    ("  - {id: GR-1,", "  - {id: HS-2, structure: HS, rating: 200 A, spaces: 42, interrupting: 22 kA}\n  - {id: GR-1,"),
    ("from: HS-1, to: GR-1", "from: HS-2, to: GR-1"),
    ("  - {id: GR, from", "  - {id: HS-2, from: HS-1, to: HS-2, length: 10 ft}\n  - {id: GR, from"),
    ("L07,HS,HS-1", "L07,HS,HS-2"),
    ("L11,HS,HS-1", "L11,HS,HS-2"),
)
GARAGE = 9870.0
"""480 + 720 + 1.25 x 1,176 + 7,200 VA (220.14, 430.24, 220.57)."""
HOUSE = 28_697.0
"""General 3,000 + 0.35 x (3 x 2,400 + 4,500 - 3,000) = 6,045 (220.45); appliances 0.75 x 5,376 = 4,032 (220.53); range of 9 kW
in column C 8,000 (220.55); dryer 5,400; heat pump 3,600, air handler 720; a quarter of the compressor 900 VA."""
LARGE = 38_777.0
"""The same with 12,000 ft2: general 3,000 + 0.35 x (36,000 + 4,500 - 3,000) = 16,125 VA."""
BY_OPTIONAL = 22_910.4
"""10,000 + 0.4 x (7,200 + 4,500 + 5,376 + 9,000 + 5,400 - 10,000) + 3,600 + 720 VA (220.82)."""


def first(*changes: tuple[str, str]) -> Design:
    """The starter with texts replaced, in the file or in the load list."""
    e, rows = ESTATE, LOADS
    for old, new in changes:
        assert old in e or old in rows, old
        e, rows = e.replace(old, new), rows.replace(old, new)
    return Design(from_text(e, rows))


def found(d: Design, number: str, subject: str = "HS") -> list[Check]:
    return [c for c in d.checks if (c.number, c.subject) == (number, subject)]


def load(d: Design, name: str) -> float:
    return float(d.items[d.chosen[name]].total)


@pytest.mark.parametrize(("area", "house"), [("2400 ft2", HOUSE), ("12000 ft2", LARGE)])
@pytest.mark.parametrize("where", [(), OWN_MAIN, SUBPANEL], ids=["behind the house panel", "own main", "behind a subpanel"])
def test_floor_area_counts_wherever_the_garage_hangs(area: str, house: float, where: tuple[tuple[str, str], ...]) -> None:
    """A garage behind the house panel adds its load and takes no floor area away (220.40, 220.41)."""
    d = first(("2400 ft2", area), *where)
    assert load(d, "service") == pytest.approx(house + GARAGE)
    assert [c.outcome for c in found(d, "011")] == ["passes"]


def test_the_area_opens_in_the_working_of_the_house_part() -> None:
    d = first()
    assert d.told("demand/HS-own/standard/general").value == 6045
    assert sum(a.area for a in d.asks["demand/HS-own/standard"].record.areas) == 2400
    assert "HS-own" in text.result(d)


@pytest.mark.parametrize("where", [(), SUBPANEL], ids=["behind the house panel", "behind a subpanel"])
def test_the_optional_method_holds_for_the_house_and_asks(where: tuple[tuple[str, str], ...]) -> None:
    """The garage is added at its own load beside 220.82; that it may stand behind the same conductors is a reading."""
    d = first(OPTIONAL, *where)
    assert load(d, "HS-own") == pytest.approx(BY_OPTIONAL) and load(d, "service") == pytest.approx(BY_OPTIONAL + GARAGE)
    (asked,) = found(d, "020", "HS-own")
    assert asked.outcome == "needs judgement" and "GR" in asked.found and "reading" in asked.found


def test_the_optional_method_wants_a_hundred_amperes() -> None:
    d = first(OPTIONAL, ("to: HS-1, breaker: 200 A", "to: HS-1, breaker: 90 A"))
    assert [c.outcome for c in found(d, "020", "HS-own")] == ["fails"]


def test_a_stray_row_is_a_load_where_it_stands_and_is_told() -> None:
    """Garage lighting under the name of the house: the garage keeps its load, the house its area; 220.82(A) is not met."""
    d = first(OPTIONAL, *OWN_MAIN, ("L16,GR,", "L16,HS,"))
    assert (load(d, "GR"), load(d, "HS")) == (GARAGE, pytest.approx(HOUSE))
    assert [c.outcome for c in found(d, "020")] == ["needs judgement"]
    (told,) = found(d, "034")
    assert told.outcome == "needs judgement" and "L16" in told.found and "GR-1" in told.found


def test_a_row_of_the_garage_on_the_house_panel_is_not_inside_the_floor_area() -> None:
    d = first(("L17,GR,GR-1", "L17,GR,HS-1"))
    assert (load(d, "HS-own"), load(d, "HS-rest"), load(d, "GR")) == (pytest.approx(HOUSE), 720, GARAGE - 720)
    assert load(d, "service") == pytest.approx(HOUSE + GARAGE)


def test_two_feeders_of_one_house_and_a_garage_on_one_main() -> None:
    """The area belongs to the main that carries both: neither feeder has all of the house."""
    d = first(*SUBPANEL, ("from: HS-1, to: HS-2", "from: M1, to: HS-2"))
    assert load(d, "M1") == pytest.approx(HOUSE + GARAGE)


def test_a_house_on_two_mains_keeps_its_area_on_one() -> None:
    mains = ("- {id: M1, rating: 200 A}", "- {id: M1, rating: 200 A}\n    - {id: M2, rating: 200 A}")
    small, large = (first(*SUBPANEL, mains, ("from: HS-1, to: HS-2", "from: M2, to: HS-2"), ("2400 ft2", a))
                    for a in ("2400 ft2", "12000 ft2"))
    assert load(large, "service") - load(small, "service") == pytest.approx(0.35 * 3 * 9600)
    assert [c.outcome for c in found(small, "034")] == ["needs judgement"]


def test_an_area_that_no_branch_counts_fails() -> None:
    d = first(*OWN_MAIN, *[(r + "\n", "") for r in LOADS.splitlines() if ",HS,HS-1," in r])
    (c,) = found(d, "011")
    assert c.outcome == "fails" and "no branch" in c.found


def test_an_area_that_contradicts_its_parts_fails_with_both() -> None:
    (c,) = found(first(("area: 2400 ft2   ", "area: 1000 ft2   ")), "011")
    assert c.outcome == "fails" and "1,000" in c.found and "2,400" in c.found
    assert [c.outcome for c in found(first(("area: 2400 ft2   ", "area: 2390 ft2   ")), "011")] == ["passes"]


def test_one_changed_row_of_a_house_part_equals_a_new_design() -> None:
    d = first(("method: standard", "method: compare"))
    row = next(r for r in d.estate.loads if r.id == "L07")
    heavy = row._replace(va=12_000.0, unit_va=12_000.0)
    changed = d.with_row(heavy)
    assert changed.items == Design(changed.estate, d.ed).items and changed.chosen == d.chosen


def test_what_matters_most_of_a_sum_is_found_in_its_parts() -> None:
    d = first(*SUBPANEL)
    ids = [t.id for t in top_rows(d, 40)]
    assert len(ids) == len(set(ids)) and {"L07", "L19", "HS"} <= set(ids)


def test_a_row_of_the_main_house_in_the_garage_leaves_its_area() -> None:
    """The demonstration estate: the garage has 1,650 VA more, the main house keeps 9,150 ft2, and every number opens."""
    base = Design(estate("demo_estate"))
    d = Design(estate("demo_estate", changes={"loads.L066.panel": "CG-1"}))
    assert load(d, "CG") - load(base, "CG") == pytest.approx(1650)
    assert sum(a.area for a in d.asks["demand/MH/standard"].record.areas) == 9150
    assert [c.outcome for c in d.checks if (c.number, c.subject) == ("034", "MH")] == ["needs judgement"]
    assert text.result(d) and all(d.told(t).value == d.value(t) for t in d.tags() if t.startswith("demand/MH/"))


def test_the_policy_on_vehicle_supply_sizes() -> None:
    """Guest house: 40 A of supply at 100 % beside the tiers instead of 40 % inside them, 0.6 x 9,600 VA more (220.82(B))."""
    a, b = (load(Design(estate("demo_estate", v)), "GH") for v in ((), ("R17",)))
    assert b - a == pytest.approx(0.6 * 9600)


def test_a_number_that_only_one_side_has_is_compared_without_its_causes() -> None:
    """The garage moves to a main of its own, and the house part of the old feeder is no more."""
    a, b = first(), first(*OWN_MAIN)
    moved = compare(a, b)
    assert "demand/HS-own/standard/total" in {m.name for m in moved.numbers} and causes(a, b, moved)


def test_several_kinds_of_heating_under_the_optional_method_ask() -> None:
    """220.82(C) takes the largest selection; a house whose kinds of heating all run on a cold day is told both loads."""
    d = Design(estate("demo_estate"))
    (c,) = found(d, "018", "GH")
    assert c.outcome == "needs judgement" and "138 A" in c.found and "140 A" in c.found
    assert "018" in {q.number for q in d.questions}
    assert [c.outcome for c in found(first(OPTIONAL), "018")] == ["passes"]
