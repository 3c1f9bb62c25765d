"""Boxes, terminals and holes: a second writing, published examples, and what adding something must do."""
from typing import Any

from cases_pulling import DEVICE_BOX, HERE, HOLE, LUG, PULL_BOX
from curtilage.calc.boxes.device_box import device_box
from curtilage.calc.boxes.pull_box import pull_box, row_least
from curtilage.calc.boxes.records import BoxCable, BoxEntry, BoxPair, BoxRow, BoxYoke
from curtilage.calc.framing.holes import hole
from curtilage.calc.terminals.lugs import bending_space, lug
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError
from curtilage.values.bound import bound
from curtilage.values.given import Given
from curtilage.values.told import value
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_pulling as plainly
import pytest

ED = Edition.load("nec2023")
AL = ED.view("al-pvc")
TOLD = TellingEdition(ED)
TRADES = st.sampled_from((0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0))
ENTRIES = st.lists(st.builds(BoxEntry, st.just("e"), TRADES), min_size=1, max_size=6).map(tuple)
ROWS = st.lists(st.builds(BoxRow, st.just("r"), ENTRIES), max_size=3).map(tuple)
PAIRS = st.lists(st.builds(BoxPair, st.just("p"), TRADES, TRADES, st.floats(0, 60)), max_size=4).map(tuple)
BOXES = st.builds(
    lambda long, wide, rows, more, pairs, side, largest, back: PULL_BOX._replace(
        straight_long=long, straight_wide=wide, rows_long=rows, rows_wide=more, pairs=pairs, length=side, largest=largest,
        back=back),
    st.one_of(st.just(()), ENTRIES), st.one_of(st.just(()), ENTRIES), ROWS, ROWS, PAIRS, st.floats(6, 80),
    st.sampled_from(("10", "6", "4", "1/0", "250", "500", "1000")), st.booleans())
WIRES = st.sampled_from(("14", "12", "10", "8", "6"))
CABLES = st.lists(st.builds(BoxCable, st.just("c"), WIRES, st.integers(0, 4), st.integers(1, 4), st.booleans()), min_size=1,
                  max_size=4).map(tuple)
YOKES = st.lists(st.builds(BoxYoke, st.just("y"), st.sampled_from(("14", "12", "10")), st.integers(1, 3), st.floats(0, 1.8)),
                 max_size=4).map(tuple)
DEVICE_BOXES = st.builds(
    lambda cables, yokes, clamps, fittings, blocks: DEVICE_BOX._replace(cables=cables, yokes=yokes, clamps=clamps,
                                                                        fittings=fittings, blocks=blocks),
    CABLES, YOKES, st.booleans(), st.integers(0, 2), st.integers(0, 2))


def agree(ours: Any, theirs: dict[str, Any]) -> None:
    for name, x in theirs.items():
        assert getattr(ours, name) == (x if isinstance(x, bool) else pytest.approx(x, rel=1e-12, abs=1e-12)), name


def one_calculation(f: Any, x: Any, path: str) -> Any:
    """Plain, told and bound are one calculation."""
    plain = f(x, ED)
    assert bound(f, ED)(x, ED) == plain and value(f.told(Given(x, path), TOLD)) == plain
    return plain


# -------------------------------------------------------------------------------------------------------------- pull boxes
@settings(max_examples=80)
@given(BOXES)
def test_pull_boxes_agree_with_the_second_writing(b: Any) -> None:
    agree(one_calculation(pull_box, b, "boxes.B"), plainly.pull_box(b))


def test_a_row_of_three() -> None:
    """4, 3 and 2 in. turning: 6 x 4 + 3 + 2 = 29 in. (choice (a) of EC&M, Quizzes on the Code of 2000-09-01, question 4)."""
    assert row_least(tuple(BoxEntry("e", d) for d in (2.0, 4.0, 3.0)), ED) == 29.0


@settings(max_examples=60)
@given(BOXES, ENTRIES)
def test_another_raceway_never_asks_for_a_smaller_box(b: Any, more: Any) -> None:
    small, large = pull_box(b, ED), pull_box(b._replace(straight_long=(*b.straight_long, *more)), ED)
    assert large.length_least >= small.length_least and large.width_least == small.width_least
    row = pull_box(b._replace(rows_wide=(*b.rows_wide, BoxRow("more", more))), ED)
    assert row.width_least >= small.width_least


@given(ENTRIES, TRADES)
def test_a_raceway_more_in_a_row_makes_the_row_deeper(entries: Any, d: float) -> None:
    assert row_least((*entries, BoxEntry("more", d)), ED) >= row_least(entries, ED) + min(d, min(e.trade for e in entries))


def test_small_conductors_go_by_fill() -> None:
    small = pull_box(PULL_BOX._replace(largest="6", length=4.0), ED)
    assert not small.applies and small.ok and not small.size_ok
    assert pull_box(PULL_BOX._replace(largest="4", length=4.0), ED).applies


# ------------------------------------------------------------------------------------------------------------ device boxes
@settings(max_examples=80)
@given(DEVICE_BOXES)
def test_device_boxes_agree_with_the_second_writing(b: Any) -> None:
    agree(one_calculation(device_box, b, "device_boxes.D"), plainly.device_box(b))


@settings(max_examples=60)
@given(DEVICE_BOXES, WIRES, st.integers(0, 3), st.booleans())
def test_adding_a_conductor_never_lowers_the_fill(b: Any, size: str, wires: int, ground: bool) -> None:
    more = device_box(b._replace(cables=(*b.cables, BoxCable("more", size, wires, 1, ground))), ED)
    assert more.box_fill >= device_box(b, ED).box_fill
    assert more.volume == b.volume and more.spare == more.volume - more.box_fill


@given(st.integers(1, 30))
def test_grounds_beyond_four_count_a_quarter_each(n: int) -> None:
    """314.16(B)(5) since 2020: ten grounds are 2.5 allowances (forum answer, thread EGC Fill)."""
    grounds = device_box(DEVICE_BOX._replace(cables=(BoxCable("c", "12", 0, n, True),), yokes=(), clamps=False), ED).grounds
    assert grounds == pytest.approx(2.25 * (1 if n <= 4 else 1 + (n - 4) / 4))
    if n == 10:
        assert grounds == 5.625


def test_a_standard_box_has_the_volume_of_the_table() -> None:
    assert device_box(DEVICE_BOX._replace(volume=0.0, standard="4x1-1/2_square"), ED).volume == 21.0
    with pytest.raises(CurtilageError, match="4x2-1/8_square"):
        device_box(DEVICE_BOX._replace(volume=0.0, standard="4x2-1/8_sqare"), ED)


def test_a_deep_device_needs_its_depth_and_a_gap() -> None:
    deep = DEVICE_BOX._replace(yokes=(BoxYoke("dimmer", "12", 1, 1.75),))
    assert device_box(deep, ED).depth_least == 2.0
    assert not device_box(deep._replace(depth=1.875), ED).depth_ok and device_box(deep._replace(depth=2.0), ED).depth_ok
    assert device_box(DEVICE_BOX._replace(yokes=(BoxYoke("switch", "12", 1, 0.9),)), ED).depth_least == 1.1875


def test_a_size_without_an_allowance_is_refused() -> None:
    with pytest.raises(CurtilageError, match="4"):
        device_box(DEVICE_BOX._replace(cables=(BoxCable("c", "4", 2, 1, True),)), ED)


# --------------------------------------------------------------------------------------------------------------- terminals
@pytest.mark.parametrize("opposite", [True, False])
@pytest.mark.parametrize("size", AL.sizes)
def test_bending_space_is_that_of_the_table(size: str, opposite: bool) -> None:
    if size in plainly.SIDE or AL.cmil[size] < 16510:
        assert bending_space(size, "one", opposite, AL) == plainly.space(size, "one", opposite)


def test_a_larger_conductor_never_bends_in_less_space() -> None:
    sizes = [s for s in AL.sizes if s in plainly.OPPOSITE]
    for wires in ("one", "two", "three", "four"):
        for opposite in (True, False):
            table = plainly.OPPOSITE if opposite else plainly.SIDE
            some = [bending_space(s, wires, opposite, AL) for s in sizes if table[s].get(wires)]
            assert some == sorted(some)


def test_4_0_does_not_go_into_a_lug_of_60_amperes() -> None:
    """The gate: 4/0 laid for the drop, terminals up to 4 AWG. A reducer to a conductor that carries the device mends it."""
    small = HERE._replace(size="4/0", smallest="14", largest="4", bending=4.0)
    r = lug(LUG._replace(device=60.0, ends=(small,)), AL)
    assert not r.range_ok and not r.space_ok and r.space_least == 7.0 and not r.ok
    mended = lug(LUG._replace(device=60.0, ends=(small._replace(adapter="4"),)), AL)
    assert mended.ok and mended.space_least == 3.0
    weak = lug(LUG._replace(device=60.0, ends=(small._replace(adapter="6"),)), AL)           # 6 AWG Al carries 50 A at 75 degC
    assert not weak.adapter_ok and not weak.ok


def test_sets_go_where_the_terminal_holds_as_many() -> None:
    two = HERE._replace(sets=2, wires="two")
    assert not lug(LUG._replace(ends=(two,)), AL).range_ok
    assert lug(LUG._replace(ends=(two._replace(holds=2),)), AL).ok
    with pytest.raises(CurtilageError, match="only at"):
        lug(LUG._replace(ends=(HERE._replace(size="2", smallest="8", wires="two", holds=2, sets=2),)), AL)


# ------------------------------------------------------------------------------------------------------------------- holes
HOLES = st.builds(
    lambda member, depth, bore, notch, edge, end, middle, guarded: HOLE._replace(
        member=member, depth=depth, hole=bore, notch=notch, edge=edge, at_end=end,
        middle=middle and member in ("joist", "rafter"), guarded=guarded),
    st.sampled_from(("stud", "bearing stud", "bearing stud doubled", "joist", "rafter")), st.floats(2.5, 12),
    st.one_of(st.just(0.0), st.floats(0.25, 4)), st.one_of(st.just(0.0), st.floats(0.1, 3)), st.floats(0, 3), st.booleans(),
    st.booleans(), st.booleans())


@settings(max_examples=100)
@given(HOLES)
def test_holes_agree_with_the_second_writing(h: Any) -> None:
    agree(one_calculation(hole, h, "penetrations.N"), plainly.hole(h))


def test_limits_of_the_building_code() -> None:
    """A 2 x 6 bearing stud takes 2.2 in., a 2 x 4 one 1.4 in. and no more (40 %, R602.6); a 2 x 8 joist a third (R502.8.1)."""
    assert hole(HOLE._replace(member="bearing stud"), ED).hole_most == pytest.approx(2.2)
    assert hole(HOLE._replace(member="bearing stud", depth=3.5), ED).hole_most == pytest.approx(1.4)
    assert not hole(HOLE._replace(member="bearing stud", depth=3.5, hole=1.5, edge=1.0), ED).hole_ok
    assert hole(HOLE._replace(member="joist", depth=7.25), ED).hole_most == pytest.approx(7.25 / 3)


def test_a_stud_bored_in_the_middle_needs_no_plate_up_to_three_inches_of_it() -> None:
    """300.4(A)(1): a hole of d in a stud of w leaves (w - d) / 2; in a 2 x 4 that is 1-1/4 in. up to a hole of 1 in."""
    for bore, plate in ((1.0, False), (1.125, True)):
        h = hole(HOLE._replace(depth=3.5, hole=bore, edge=(3.5 - bore) / 2), ED)
        assert h.wood_ok and h.nail_ok != plate
        assert hole(HOLE._replace(depth=3.5, hole=bore, edge=(3.5 - bore) / 2, guarded=True), ED).nail_ok


def test_engineered_members_have_no_limits_to_look_up() -> None:
    with pytest.raises(CurtilageError, match="lvl"):
        hole(HOLE._replace(member="lvl"), ED)
