"""The design of whole estates: sums that must close, order that must not matter, what changes when one thing changes."""

from __future__ import annotations

from functools import cache
import math
from random import Random

from curtilage.design import Design
from curtilage.design.compare import compare
from curtilage.design.later import later
from curtilage.design.opening import estate
from curtilage.errors import CurtilageError
from curtilage.model import Estate
from hypothesis import given, settings
from hypothesis import strategies as st
import pytest
from small_estate import small as as_written

DEMO = "demo_estate"
STARTER = "core/curtilage/data/starter"
EDITIONS = ("nec2020", "nec2023", "nec2026")


def small(*changes: tuple[str, str]) -> Estate:
    return as_written(('breaker: 200 A, size: "4/0"}', 'breaker: 200 A, sets: 1, size: "4/0"}'), *changes)


@cache
def demo(edition: str = "nec2023", *variants: str) -> Design:
    return Design(estate(DEMO, variants, edition))


def test_the_base_has_no_failing_check_no_open_one_and_no_stop() -> None:
    for edition in EDITIONS:
        d = demo(edition)
        loud = [(c.number, c.subject, c.found) for c in d.checks if c.outcome in ("fails", "not evaluated")]
        assert not loud and not d.stops


def test_every_counted_row_hangs_on_exactly_one_main() -> None:
    d = demo()
    reached = [r.id for m in d.tree.mains.values() for r in m.rows]
    assert sorted(reached) == sorted(r.id for r in d.tree.rows)


def test_what_mains_carry_is_what_their_feeders_carry() -> None:
    """A sum over different paths: mains against the feeders that start at them, where no demand is taken between."""
    d = demo()
    for m, b in d.tree.mains.items():
        if len(b.children) == 1 and not b.own:
            f = d.items[f"feeder/{b.children[0]}"]
            assert d.items[f"main/{m}"].current == pytest.approx(f.current, rel=1e-12)


def test_service_is_not_more_than_its_mains_by_the_standard_method() -> None:
    d = demo()
    homes = sum(d.items[f"demand/{n}/standard"].total for n in ("MH", "GH"))
    rest = sum(d.items[d.chosen[m]].total for m in ("M2", "M4"))
    assert d.items["demand/service/sum"].total == pytest.approx(homes + rest, rel=1e-12)


def test_drop_along_a_path_is_the_sum_of_its_stretches() -> None:
    d = demo()
    for panel in ("MH-K", "GP-S", "EG-E"):
        way = sum(d.items[f"feeder/{f.id}"].drop for f in d.tree.way(panel))
        p = d.items[f"path/{panel}"]
        assert p.feeders == pytest.approx(way, rel=1e-12)
        assert p.from_transformer == pytest.approx(p.total + d.items["service"].drop, rel=1e-12)


def test_connected_load_closes_over_sources_and_rows() -> None:
    d = demo()
    p = d.items["provenance"]
    assert p.connected == pytest.approx(math.fsum(r.va for r in d.tree.rows), rel=1e-12)
    assert p.nameplate + p.submittal + p.assumed == pytest.approx(100, rel=1e-12)


def test_expected_peak_lies_in_its_band_and_below_the_calculated_load() -> None:
    for edition in EDITIONS:
        e, s = demo(edition).items["expected"], demo(edition).items["demand/service/sum"]
        assert e.low_kw <= e.kw <= e.high_kw and e.kw <= e.kva * (1 + 1e-12) and e.kva * 1000 < s.total


@pytest.mark.parametrize("edition", EDITIONS)
def test_bound_and_plain_designs_are_the_same(edition: str) -> None:
    e = estate(DEMO, (), edition)
    assert Design(e, swift=True).items == Design(e).items


def shuffled(e: Estate, seed: int) -> Estate:
    new = e.model_copy()
    rows = list(e.loads)
    Random(seed).shuffle(rows)
    new._loads = tuple(rows)
    return new


def test_the_order_of_the_load_list_changes_nothing() -> None:
    e = estate(DEMO)
    a = Design(e).values()
    for seed in range(3):
        b = Design(shuffled(e, seed)).values()
        assert set(a) == set(b)
        for tag, x in a.items():
            assert b[tag] == (pytest.approx(x, rel=1e-9) if isinstance(x, float) else x), tag


@settings(max_examples=25)
@given(seed=st.integers(0, 10**6), more=st.floats(1, 5000), column=st.sampled_from(["va", "length", "continuous", "breaker"]))
def test_one_changed_row_equals_a_new_design(seed: int, more: float, column: str) -> None:
    d = demo()
    r = Random(seed).choice(d.tree.rows)
    new = {
        "va": r._replace(va=r.va + more, unit_va=(r.va + more) / r.qty),
        "length": r._replace(length=(r.length or 0.0) + more / 100),
        "continuous": r._replace(continuous=not r.continuous),
        "breaker": r._replace(breaker=None),
    }[column]
    changed = d.with_row(new)
    fresh = Design(changed.estate, d.ed)
    assert changed.items == fresh.items
    assert changed.checks == fresh.checks


@settings(max_examples=15)
@given(seed=st.integers(0, 10**6), more=st.floats(10, 20_000))
def test_more_load_never_means_a_smaller_main_or_feeder(seed: int, more: float) -> None:
    """One row grows: no current on its way falls. Cooking is left out: its table has steps that can fall by a reading."""
    d = demo()
    r = Random(seed).choice([r for r in d.tree.rows if r.category in ("appliance", "technology", "heat", "vehicle", "pool")])
    try:
        after = d.with_row(r._replace(va=r.va + more, unit_va=(r.va + more) / r.qty, breaker=None, mca=None, mocp=None, hp=""))
    except CurtilageError:
        return  # refused: no conductor for it
    for f in d.tree.way(r.panel):
        assert after.items[f"feeder/{f.id}"].current >= d.items[f"feeder/{f.id}"].current * (1 - 1e-12)


def test_a_changed_row_says_who_changed_it() -> None:
    d = demo()
    r = d.tree.rows[0]
    changed = d.with_row(r._replace(length=222.0), by="slider")
    assert changed.where(f"loads.{r.id}.length") == "slider"
    assert d.where(f"loads.{r.id}.length").startswith("loads.csv:")


def test_a_longer_trench_moves_only_what_hangs_on_it() -> None:
    """R10 of the demonstration: the guest house trench grows by 110 ft. What is built from the sizes is left aside."""
    after = demo("nec2023", "R10")
    c = compare(demo(), after)
    assert [m.name for m in c.inputs] == ["site_graph.trenches.t6.length"]
    sized = [m.name for m in c.numbers if m.name.rpartition("/")[0] not in after.late]
    assert {name.split("/")[0] for name in sized} <= {"route", "feeder", "path"} and all("GH" in name for name in sized)


def test_editions_move_what_they_should() -> None:
    """2026: 2 VA/ft2 and an 8 kVA tier (trade press reporting EC&M); 9,150 ft2 lose 35 % of 9,150 VA in the standard method."""
    a, b = demo("nec2023"), demo("nec2026")
    assert a.items["demand/MH/standard"].general - b.items["demand/MH/standard"].general == pytest.approx(0.35 * 9150)
    drop = a.items["demand/MH/optional"].total - b.items["demand/MH/optional"].total
    assert drop == pytest.approx(0.4 * 9150 + 0.6 * 2000)  # 40 % of 9,150 VA; 2 kVA fall from 100 % to 40 %
    assert a.items["demand/MH/standard"].total == demo("nec2020").items["demand/MH/standard"].total


def test_a_later_load_is_limited_by_the_tightest_element_on_its_way() -> None:
    d = demo()
    found = later(d, "CG-1", 11_500.0, True)
    by_hand = 1.25 * 11_500 / 240
    assert all(e.room.added == pytest.approx(by_hand) for e in found)
    assert [e.room.after for e in found] == sorted(e.room.after for e in found)
    f = d.items["feeder/CG"]
    assert found[0].room.before == pytest.approx(min(f.device, f.ampacity) - f.minimum)


def test_the_way_of_a_later_load_goes_by_the_minimum_to_the_gear() -> None:
    """230.42(A)(1): continuous load at 125 %; 6 x 310 A of Table 310.16 less 1,626.7 A, and the 2,000 A bus of the gear."""
    by_name = {e.name: e for e in later(demo("nec2023"), "GH-1", 11_500.0, False)}
    assert by_name["service conductors"].room.before == pytest.approx(233.3, abs=0.1)
    assert by_name["bus of MSB"].room.before == pytest.approx(2000 - 1626.7, abs=0.1)


def test_the_same_conductor_behind_one_main_has_the_same_room() -> None:
    """The starter's service conductors and its feeder HS are alike and carry the same load: 215.2(A)(1), 230.42(A)(1)."""
    d = Design(estate(STARTER, (), "nec2023"))
    by_name = {e.name: e for e in later(d, "HS-1", 1_000.0, False)}
    assert d.items["service"].size == d.items["feeder/HS"].size == "4/0"
    assert by_name["service conductors"].room.before == pytest.approx(by_name["conductors of feeder HS"].room.before)


def test_a_later_load_says_what_it_does_to_the_voltage() -> None:
    """500 kcmil aluminium in PVC, 410 ft: 0.043 and 0.039 ohm/kft (Ch. 9 Table 9), 0.95 lagging; 138.0 and 185.9 A by hand."""
    by_name = {e.name: e for e in later(demo("nec2023"), "GH-1", 11_500.0, True)}
    drop, per_ampere = by_name["conductors of feeder GH"].drop, 2 * (0.043 * 0.95 + 0.039 * 0.3122) * 0.410 / 2.40
    assert drop is not None and drop.before == pytest.approx(138.0 * per_ampere, abs=0.01)
    assert drop.after.drop == pytest.approx(185.9 * per_ampere, abs=0.01) and not drop.after.ok and drop.most == 3
    assert by_name["device of feeder GH"].drop is None


def test_an_unknown_number_is_refused_with_the_nearest() -> None:
    with pytest.raises(CurtilageError, match="did you mean feeder/GH/drop"):
        demo().number("feeder/GH/dorp")
    with pytest.raises(CurtilageError, match="it stands in"):
        demo().told("GH/drop")


def test_a_small_estate_designs() -> None:
    d = Design(small())
    assert d.items["main/M1"].rating == 200 and d.items["feeder/GH"].device >= d.items["feeder/GH"].minimum


def test_a_group_without_a_reason_counts_in_full_and_asks() -> None:
    """Sauna 6,000 VA and steam 7,200 VA: with a reason the larger counts, without one both do (220.60)."""
    with_reason = Design(small())
    without = Design(small(("reason: one person uses one room at a time", 'reason: ""')))
    assert any(c.number == "025" and c.outcome == "needs judgement" for c in without.checks)
    assert not any(c.number == "025" and c.outcome == "needs judgement" for c in with_reason.checks)
    a, b = (d.items["demand/MH-2/rows"].appliances for d in (with_reason, without))
    assert b > a


def test_withheld_numbers_are_withheld_everywhere() -> None:
    d = Design(small(("Disposer", "Finish booth fan")))
    assert [s.number for s in d.stops] == ["S7"] and d.withheld == {"circuit/L5"}
    from curtilage.report import data

    numbers = {n["tag"]: n for n in data.design(d)["numbers"]}
    assert numbers["circuit/L5/current"]["value"] is None and numbers["circuit/L5/current"]["stop"] == "S7"
    assert numbers["circuit/L2/current"]["value"] == 40


def test_what_cannot_be_designed_is_told_at_once_with_its_place() -> None:
    """Two circuits that no conductor can carry within the drop: both are named, each with its line."""
    with pytest.raises(CurtilageError) as e:
        Design(small((",50,45,,,base,2026", ",50,9000,,,base,2026"), (",30,30,,BATH", ",30,9000,,BATH")))
    said = str(e.value)
    assert said.startswith("2 problems") and "loads.csv:3" in said and "loads.csv:4" in said and "drop" in said


def test_a_stated_size_wants_its_sets() -> None:
    with pytest.raises(CurtilageError, match=r"estate.yaml:\d+ feeders.MH.size: 4/0 is stated and the number of sets is not"):
        Design(as_written())
