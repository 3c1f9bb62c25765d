"""Temporary power: a second writing, printed figures, and what must always hold."""
from cases_temporary import FACE, FALLBACK, PARTS, SEASON, SOUND
from curtilage.calc.temporary.fallback import fallback, sound_at
from curtilage.calc.temporary.load import face, held, season_load
from curtilage.calc.temporary.records import Held, Part, Season
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_temporary as plain
import pytest

ED = Edition.load("nec2023")
PART = st.tuples(st.floats(50, 6000), st.integers(1, 8), st.sampled_from([120.0, 240.0]),
                 st.sampled_from(["tool", "heater", "drying", "pump", "lighting", "trailer", "other"]), st.booleans())
SHARE = st.floats(0.1, 1.0)


def season(parts, share):
    return season_load(Season("X", 240.0, share, tuple(Part(f"p{i}", va, float(n), v, kind, c)
                                                       for i, (va, n, v, kind, c) in enumerate(parts))), ED)


@settings(max_examples=80)
@given(st.lists(PART, min_size=1, max_size=8), SHARE)
def test_a_season_written_twice(parts, share):
    ours, theirs = season(parts, share), plain.season(parts, share)
    assert {k: getattr(ours, k) for k in theirs} == pytest.approx(theirs)


@settings(max_examples=80)
@given(st.lists(PART, min_size=1, max_size=6), PART, SHARE)
def test_more_load_never_asks_for_less(parts, more, share):
    one, two = season(parts, share), season([*parts, more], share)
    assert two.minimum >= one.minimum - 1e-9 and two.va >= one.va - 1e-9 and two.connected > one.connected


@settings(max_examples=40)
@given(st.lists(PART, min_size=1, max_size=6), st.floats(500, 6000), st.integers(1, 4), SHARE)
def test_a_heater_is_never_diversified_away(parts, va, n, share):
    """Whatever the share of the tools, a heater adds itself whole, and a quarter for conductors and devices."""
    one, two = season(parts, share), season([*parts, (va, n, 240.0, "heater", False)], share)
    assert two.va - one.va == pytest.approx(va * n) and two.minimum_va - one.minimum_va == pytest.approx(1.25 * va * n)


def test_one_tool_runs_whole():
    assert season([(1440.0, 1, 120.0, "tool", False)], 0.5).va == 1440
    assert season_load(SEASON, ED).tools == 4320 and season_load(SEASON._replace(parts=PARTS[:1], share=1.0), ED).tools == 8640


@settings(max_examples=60)
@given(st.floats(1, 200), st.floats(1, 168), st.floats(5, 150), st.floats(0, 100), st.sampled_from([0.0, 12.7, 18.3]),
       st.sampled_from([0.0, 830.0, 1030.0]))
def test_the_fallback_written_twice(days, hours, kilowatts, mean, use, heating):
    ours = fallback(FALLBACK._replace(days=days, hours=hours, rating=kilowatts, mean=mean, use=use, heating=heating), ED)
    assert (ours.hours, ours.energy, ours.fuel) == pytest.approx(
        plain.gas(days, hours, kilowatts, mean, use or 14.35, heating or 1000.0))


@pytest.mark.parametrize(("rating", "full", "half", "spread"), [(25.0, 368.1, 252.2, 0.06), (12.0, 197.0, 119.46, 0.15)])
def test_sets_whose_use_was_printed_lie_near_the_rule(rating, full, half, spread):
    """Owners' manuals of a 25 kW and a 12 kW home set, natural gas, kBtu/h: the rule is a median, and says so."""
    for mean, printed in ((100.0, full), (50.0, half)):
        r = fallback(FALLBACK._replace(days=7.0, hours=1.0, rating=rating, mean=mean), ED)
        assert r.heat == pytest.approx(printed, rel=spread)


def test_the_heat_is_the_same_whatever_the_fuel():
    gas, propane = fallback(FALLBACK, ED), fallback(FALLBACK._replace(fuel="propane"), ED)
    assert gas.heat == propane.heat and gas.fuel == pytest.approx(2.5 * propane.fuel)


def test_propane_is_bought_by_the_gallon():
    """A gallon of propane is 36.4 ft3 of vapour (trade tables print 36.38 and 36.39): 1 % between the two ways."""
    gas, propane = fallback(FALLBACK, ED), fallback(FALLBACK._replace(fuel="propane"), ED)
    assert gas.gallons == 0 and propane.gallons == pytest.approx(plain.gallons(propane.heat))
    assert propane.gallons == pytest.approx(propane.fuel / 36.4, rel=0.01)


@pytest.mark.parametrize("fuel", ["diesel", "gasoline"])
def test_a_liquid_fuel_has_no_rule(fuel):
    with pytest.raises(CurtilageError, match="data sheet"):
        fallback(FALLBACK._replace(fuel=fuel), ED)


def test_a_printed_sound_level():
    """Generator application manual (2007, p. 30): 95 dBA at 7 m is about 72 dBA at 100 m."""
    assert sound_at(SOUND._replace(at=7.0, line=100.0)).level == pytest.approx(72, abs=0.5)


@given(st.floats(40, 110), st.floats(3, 50), st.floats(3, 500))
def test_sound_written_twice(level, at, line):
    assert sound_at(SOUND._replace(level=level, at=at, line=line)).level == pytest.approx(plain.sound(level, at, line))


@settings(max_examples=60)
@given(st.floats(300, 1800), st.floats(10, 300), st.floats(0.3, 1), st.sampled_from(["14", "12", "10"]))
def test_a_face_written_twice(va, feet, pf, size):
    m = ED.view("cu-pvc")
    ours = face(FACE._replace(va=va, cord=feet, pf=pf, size=size), m)
    assert ours.cord == pytest.approx(plain.cord(va / 120, feet, m.r[size], m.x[size], pf, 120.0))
    assert ours.volts == pytest.approx(120 * (1 - (2.97 + ours.cord) / 100)) and ours.ok == (ours.total <= 5)


@given(st.floats(10, 300), st.floats(1.01, 3))
def test_a_longer_cord_drops_more(feet, by):
    m = ED.view("cu-pvc")
    assert face(FACE._replace(cord=by * feet), m).total > face(FACE._replace(cord=feet), m).total


def test_held():
    assert held(Held("TMP", 200.0, 200.0)).ok and not held(Held("TMP", 201.0, 200.0)).ok
