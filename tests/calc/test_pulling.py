"""Pulls: a second writing that follows the tension in small arcs, the physics of ropes, weights that makers print."""
from math import cosh, radians, sin, sinh
from typing import Any

from cases_pulling import GROUND, LINE, PULL, pulls, turn
from cases_pulling import straight as step
from cases_pulling import stretch as stretch_of
from curtilage.calc.pulling.load import lie_of, wire_weight
from curtilage.calc.pulling.records import EmptyWay, PullStep
from curtilage.calc.pulling.run import empty_way, pull
from curtilage.calc.pulling.tension import BACK, THERE, along, bend, least_radius, level_bend, pressure, straight
from curtilage.calc.raceways.fill import lie
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
PVC = ED.view("raceway-pvc40")
TOLD = TellingEdition(ED).view("raceway-pvc40")
SIZES = ("2", "1/0", "4/0", "350", "500")

STEPS = st.one_of(
    st.builds(lambda length, share, back: PullStep("s", False, length, share * length, back, 0.0, 0.0),
              st.floats(1, 400), st.floats(-0.9, 0.9), st.booleans()),
    st.builds(lambda angle, radius: PullStep("b", True, 0.0, 0.0, False, angle, radius),
              st.floats(5, 90), st.sampled_from((0.0, 18.0, 36.0, 60.0))))
STRETCHES = st.lists(st.lists(STEPS, min_size=1, max_size=5), min_size=1, max_size=3).map(
    lambda some: tuple(stretch_of(f"{n}", *steps) for n, steps in enumerate(some)))
PULLS = st.builds(
    lambda size, lines, metal, insulation, ground, stretches, friction, feed, grip: PULL._replace(
        size="4", lines=(LINE._replace(size=size, count=lines, material=metal, insulation=insulation),),
        grounds=(GROUND,) if ground else (), stretches=stretches, friction=friction, feed=feed, grip=grip),
    st.sampled_from(SIZES), st.integers(1, 4), st.sampled_from(("cu", "al")), st.sampled_from(("xhhw-2", "thwn-2")),
    st.booleans(), STRETCHES, st.floats(0.1, 0.6), st.floats(0, 200), st.booleans())


# ------------------------------------------------------------------------------------------------------- a second writing
@settings(max_examples=60)
@given(PULLS)
def test_the_second_writing_agrees(p: Any) -> None:
    ours, theirs = pull(p, PVC), plainly.pull(p)
    assert bound(pull, ED, PVC)(p, PVC) == ours
    assert value(pull.told(Given(p, "raceways.R"), TOLD)) == ours
    for name, x in theirs.items():
        got = getattr(ours, name)
        assert got == (x if isinstance(x, str) else pytest.approx(x, rel=2e-4, abs=1e-6)), name


@pytest.mark.parametrize("p", list(pulls()))
def test_the_second_writing_agrees_on_every_kind(p: Any) -> None:
    ours, theirs = pull(p, PVC), plainly.pull(p)
    for name, x in theirs.items():
        assert getattr(ours, name) == (x if isinstance(x, str) else pytest.approx(x, rel=2e-4, abs=1e-6)), name


# --------------------------------------------------------------------------------------------------------- physics of ropes
def test_the_printed_multipliers_of_bends() -> None:
    """e to the power of friction times angle, at 0.5: 1.48 for 45 degrees, 2.19 for 90, 4.81 for 180 (capstan equation)."""
    assert [round(bend(1.0, a, 1.0, 0.5), 2) for a in (45.0, 90.0, 180.0)] == [1.48, 2.19, 4.81]


def test_an_inclined_step_is_the_printed_form() -> None:
    """L W (sin + K cos) upwards, by its angle (published pulling equations)."""
    for degrees in (0.0, 10.0, 30.0, 60.0, 89.0):
        climb = 100.0 * sin(radians(degrees))
        assert straight(0.0, 100.0, climb, 2.0, 1.0, 0.4) == pytest.approx(plainly.angle_up(100.0, degrees, 2.0, 0.4), rel=1e-9)


def test_a_hanging_length_weighs_what_it_weighs() -> None:
    assert straight(0.0, 50.0, 50.0, 2.0, 1.3, 0.5) == pytest.approx(100.0)
    assert straight(150.0, 50.0, -50.0, 2.0, 1.3, 0.5) == pytest.approx(50.0)
    assert straight(20.0, 50.0, -50.0, 2.0, 1.3, 0.5) == 0.0


@given(T=st.floats(0, 2000), angle=st.floats(1, 90), R=st.floats(1, 10), W=st.floats(0.1, 8), f=st.floats(0.1, 0.6))
def test_the_full_form_of_a_level_bend_is_what_statics_asks(T: float, angle: float, R: float, W: float, f: float) -> None:
    """The wall bears turn and weight at right angles: dT = f sqrt(T^2 + (W R)^2) da, followed in small pieces."""
    ours = level_bend(T, angle, R, W, 1.2, f)
    assert ours == pytest.approx(plainly.level_around(T, angle, R, W, 1.2, f), rel=1e-4, abs=1e-6)
    x = 1.2 * f * radians(angle)
    assert ours == pytest.approx(T * cosh(x) + sinh(x) * (T * T + (W * R) ** 2) ** 0.5, rel=1e-9)
    assert ours >= bend(T, angle, 1.2, f) * (1 - 1e-12)


def test_the_short_form_is_enough_where_the_tension_is_large() -> None:
    """With a tension of ten times the weight in the sweep the two forms differ by less than one percent."""
    W, R = 2.0, 3.0
    assert level_bend(60.0, 90.0, R, W, 1.0, 0.5) == pytest.approx(bend(60.0, 90.0, 1.0, 0.5), rel=0.01)


# -------------------------------------------------------------------------------------------------------------- properties
@given(T=st.floats(0, 500), angle=st.floats(1, 80), more=st.floats(0.1, 90), w=st.floats(1, 1.5), f=st.floats(0.05, 0.7))
def test_more_bend_is_more_tension(T: float, angle: float, more: float, w: float, f: float) -> None:
    assert bend(T, angle + more, w, f) >= bend(T, angle, w, f) >= T
    assert bend(bend(T, angle, w, f), more, w, f) == pytest.approx(bend(T, angle + more, w, f), rel=1e-9)


@given(T=st.floats(1, 5000), radius=st.floats(10, 100), wider=st.floats(0.1, 100), D=st.floats(0.5, 6))
def test_a_wider_bend_presses_less(T: float, radius: float, wider: float, D: float) -> None:
    assert pressure(T, radius + wider, D, 1.0) < pressure(T, radius, D, 1.0)
    P = pressure(T, radius, D, 1.0)
    assert least_radius(T, P, 1.0) == pytest.approx((radius - D / 2) / 12, rel=1e-9)


@settings(max_examples=40)
@given(PULLS, st.floats(1, 100))
def test_a_longer_way_and_a_larger_feed_never_pull_lighter(p: Any, more: float) -> None:
    ours = pull(p, PVC)
    assert pull(p._replace(feed=p.feed + more), PVC).there >= ours.there
    level = tuple(s._replace(steps=(*s.steps, step("more", more)), reverse=(step("more", more), *s.reverse)) for s in p.stretches)
    longer = pull(p._replace(stretches=level), PVC)
    assert longer.length > ours.length and longer.there >= ours.there and longer.back >= ours.back * (1 - 1e-12)
    assert longer.bends == ours.bends


@settings(max_examples=40)
@given(PULLS)
def test_the_way_back_is_the_way_of_the_turned_raceway(p: Any) -> None:
    turned = tuple(s._replace(steps=tuple(x._replace(rise=-x.rise) for x in s.reverse),
                              reverse=tuple(x._replace(rise=-x.rise) for x in s.steps)) for s in p.stretches)
    a, b = pull(p, PVC), pull(p._replace(stretches=turned), PVC)
    assert (a.there, a.back, a.tension) == pytest.approx((b.back, b.there, b.tension))


def test_bends_near_the_feed_cost_less() -> None:
    """The better end of a stretch is the one next to its bends."""
    s = stretch_of("s", turn("b", 90.0), step("a", 200.0))
    r = pull(PULL._replace(stretches=(s,)), PVC)
    assert r.there < r.back and r.tension == r.there


def test_a_pull_point_makes_two_easy_pulls_of_a_hard_one() -> None:
    one = stretch_of("one", turn("a", 90.0), step("b", 100.0), turn("c", 90.0), step("d", 100.0), turn("e", 90.0),
                     turn("f", 95.0))
    two = (stretch_of("two", *one.steps[:3]), stretch_of("three", *one.steps[3:]))
    hard, easy = pull(PULL._replace(stretches=(one,)), PVC), pull(PULL._replace(stretches=two), PVC)
    assert hard.bends == 365.0 and not hard.bends_ok
    assert easy.bends == 185.0 and easy.bends_ok and easy.tension < hard.tension and easy.length == pytest.approx(hard.length)
    assert empty_way(EmptyWay("R", "3", (one,)), PVC).bends_ok == hard.bends_ok


def test_a_bend_is_not_narrower_than_the_code_allows() -> None:
    """Ch. 9 Table 2: 13 in. for trade size 3; a bend without a radius is taken with it."""
    for radius, ok in ((13.0, True), (12.9, False), (0.0, True)):
        r = pull(PULL._replace(stretches=(stretch_of("s", step("a", 10.0), turn("b", 90.0, radius)),)), PVC)
        assert (r.radius_least, r.radius_ok) == (13.0, ok)


def test_360_degrees_are_just_allowed() -> None:
    steps = [turn(f"{n}", 90.0) for n in range(4)]
    assert pull(PULL._replace(stretches=(stretch_of("s", *steps),)), PVC).bends_ok


# --------------------------------------------------------------------------------------------------- weights, how they lie
@pytest.mark.parametrize(("size", "metal", "insulation", "pounds", "near"), [
    ("500", "cu", "thwn-2", 1.66, 0.02),          # THHN/THWN-2 500 kcmil: 1,660 lb per 1,000 ft in catalogues, from memory
    ("4/0", "cu", "thwn-2", 0.718, 0.02),         # 4/0: 718 lb per 1,000 ft, from memory
    ("500", "al", "xhhw-2", 0.541, 0.03),         # XHHW-2 500 kcmil aluminium: 541 lb per 1,000 ft, from memory
    ("1/0", "cu", "xhhw-2", 0.371, 0.05),         # 1/0: 326 lb of copper (ASTM B8), about 45 of insulation
])
def test_weights_that_makers_print(size: str, metal: str, insulation: str, pounds: float, near: float) -> None:
    w = LINE._replace(size=size, material=metal, insulation=insulation)
    assert wire_weight(w, lie(w, PVC).each, PVC) == pytest.approx(pounds, rel=near)


def test_three_in_a_triangle_and_three_in_a_cradle() -> None:
    """Makers' guides: 1/sqrt(1 - x^2) and 1 + 4/3 x^2 with x = d/(D - d); both are 1.15 to 1.33 at half, and 2 where they jam."""
    assert lie_of(3, 1.0, 2.4, PVC).factor == pytest.approx(1 / (1 - (1 / 1.4) ** 2) ** 0.5)
    assert lie_of(3, 1.0, 3.0, PVC) == ("cradled", pytest.approx(4 / 3), pytest.approx(2 / 3))
    assert lie_of(1, 1.0, 3.0, PVC) == ("single", 1.0, 1.0) and lie_of(4, 1.0, 4.0, PVC).factor == 1.4
    touching = lie_of(3, 1.0, 2.1548, PVC)        # three that fill a ring: each bears on two others and the wall, 1/cos 60
    assert touching.factor == pytest.approx(2.0, rel=1e-3)


@given(n=st.integers(1, 3), ratio=st.floats(2.2, 12))
def test_a_weight_correction_is_never_below_one_and_fades_in_a_wide_raceway(n: int, ratio: float) -> None:
    w = lie_of(n, 1.0, ratio, PVC)
    assert w.factor >= 1.0 and 0 < w.pressing <= 1.0
    assert lie_of(n, 1.0, ratio * 20, PVC).factor == pytest.approx(1.0, abs=0.01)


# ----------------------------------------------------------------------------------------------------------------- refused
@pytest.mark.parametrize(("change", "words"), [
    ({"stretches": (stretch_of("s", step("a", 10.0, 11.0)),)}, "cannot climb 11 ft"),
    ({"stretches": (stretch_of("s", turn("a", 90.0, 1.0)),)}, "has no inside"),
    ({"lines": (LINE._replace(count=3, size="1000"),), "size": "2", "grounds": ()}, "do not lie side by side"),
    ({"lines": (), "grounds": (GROUND,)}, "nothing that could carry a tension"),
    ({"size": "3-3/4"}, "3-3/4"),
])
def test_what_cannot_be_is_refused(change: dict[str, Any], words: str) -> None:
    with pytest.raises(CurtilageError, match=words):
        pull(PULL._replace(**change), PVC)


def test_no_pull_without_friction_grows_in_a_bend() -> None:
    lies = lie_of(1, 0.9, 3.0, PVC)
    steps = (turn("a", 90.0), turn("b", 45.0))
    for way in (THERE, BACK):
        assert along(steps, way, 100.0, 2.0, 3.042, 13.0, lies, 0.0).tension == 100.0
