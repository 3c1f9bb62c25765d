"""The utility side against its second writing, printed numbers, and what must hold whatever the numbers are."""
from __future__ import annotations

import math
from typing import Any

import cases_utility as cases
from curtilage.calc.handbook import constant_drop, transformer_drop
from curtilage.calc.utility.arrangement import arrangement, loss_factor
from curtilage.calc.utility.candidates import candidate
from curtilage.calc.utility.distances import Apart, Gap, Owed, Wait, separation, slip
from curtilage.calc.utility.flicker import Starting, dip_by_fault, flicker, published
from curtilage.calc.utility.letter import letter
from curtilage.calc.utility.metering import metering
from curtilage.calc.utility.space import building_disconnect, working_space
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given
from hypothesis import strategies as st
import plainly_utility as plainly
import pytest

ED = Edition.load("nec2023")
small = st.floats(1e-5, 0.05)


def agree(ours: Any, second: dict[str, Any]) -> None:
    for name, x in second.items():
        got = getattr(ours, name)
        assert got == (pytest.approx(x, rel=1e-9, abs=1e-9) if isinstance(x, float) else x), name


# ------------------------------------------------------------------------------------------------------ printed numbers
def test_a_start_by_the_fault_current_as_printed() -> None:
    """FLK-06: Gonen, example 9-11, p. 493: 10 hp of 6.3 kVA each at 7.2 kV and 1,438 A: 0.73 V on 120 V."""
    assert round(dip_by_fault(10 * 6.3, 7.2, 1438.0, 120.0), 2) == 0.73


def test_a_start_over_transformer_secondary_and_service_as_printed() -> None:
    """FLK-08: Gonen, example 7-4, p. 333: 80 A at 240 V and a power factor of 0.5, 50 kVA of 0.0107 and 0.0139 per unit."""
    transformer = transformer_drop(80 * 240 / 1000, 50.0, 0.0107, 0.0139, 0.5)
    secondary, service = constant_drop(0.00636, 80.0, 150.0), constant_drop(0.01089, 80.0, 70.0)
    assert (round(transformer, 5), round(secondary, 5), round(service, 4)) == (0.00668, 0.00763, 0.0061)
    assert round(transformer + secondary + service, 4) == 0.0204


def test_the_same_example_through_the_method() -> None:
    """The transformer's part of FLK-08 in ohm on the whole secondary: the change at its terminals is 0.668 %."""
    z = 240 * 240 / 50_000
    x = Starting("G", 240.0, 80.0, 20.0, 0.5, 1.0, 0.0107 * z, 0.0139 * z, 0.0, 0.0, False, 0.0, 0.0)
    assert round(flicker(x, ED).change, 3) == 0.668


def test_the_loss_factor_of_a_feeder_as_worked_in_print() -> None:
    """Gonen, example 2.9, p. 58: 5.61 GWh a year at a peak of 2,000 kW that loses 100 kW: by hand 0.32 and 147,000 kWh."""
    found = loss_factor(5.61e6 / 8760 / 2000, ED)
    assert round(found, 3) == 0.168 and round(found * 100 * 8760, -3) == 147_000


# ------------------------------------------------------------------------------------------------------ second writing
@given(st.builds(Starting, st.just("L"), st.sampled_from([120.0, 240.0]), st.floats(20, 400), st.floats(1, 20), st.floats(0.1, 1),
                 st.sampled_from([0.0, 0.5, 2.0, 2.1, 10.0, 60.0]), small, small, small, small, st.booleans(),
                 st.sampled_from([0.0, 1.5, 3.0, 6.0]), st.sampled_from([0.0, 1.0, 10.0])))
def test_flicker(x: Starting) -> None:
    agree(flicker(x, ED), plainly.flicker(x))


@given(st.lists(small, min_size=15, max_size=15), st.floats(1000, 500_000), st.floats(1, 500), st.floats(0.3, 1),
       st.floats(0, 400), st.booleans(), st.floats(1_000, 100_000))
def test_candidates(z: list[float], va: float, kva: float, pf: float, amps: float, lines: bool, interrupting: float) -> None:
    c = cases.CANDIDATE._replace(va=va, expected=kva, pf=pf, start=amps, between_lines=lines, interrupting=interrupting,
                                 **dict(zip(cases.CANDIDATE._fields[3:18], z, strict=True)))
    agree(candidate(c), plainly.candidate(c))


place = st.floats(-500, 500)
gap = st.builds(Gap, st.just("0"), *[place] * 6)


@given(st.lists(gap, min_size=1, max_size=5), st.booleans(), st.booleans(), st.floats(0, 50))
def test_distances(gaps: list[Gap], most: bool, overlap: bool, wanted: float) -> None:
    x = Apart("a", wanted, most, overlap, tuple(gaps))
    for name, value in plainly.separation(x).items():
        assert getattr(separation(x), name) == pytest.approx(value, rel=1e-6, abs=1e-4)


@given(st.floats(-400, 400), st.floats(0, 90), st.lists(st.floats(-100, 400), max_size=4))
def test_slips(due: float, lead: float, days: list[float]) -> None:
    x = Owed("m", due, lead, tuple(Wait(f"{i}", day) for i, day in enumerate(days)))
    agree(slip(x), plainly.slip(x))


def test_the_rest_agrees_on_the_cases() -> None:
    for m in cases.meters():
        agree(metering(m, ED), plainly.metering(m))
    for w in cases.spaces():
        agree(working_space(w, ED), plainly.space(w))
    for b in cases.buildings():
        agree(building_disconnect(b, ED), plainly.disconnect(b))


@given(st.floats(100, 4000), st.booleans(), st.integers(0, 40), st.booleans(), st.floats(0, 600))
def test_disconnects(amps: float, dwelling: bool, circuits: int, two_wire: bool, rating: float) -> None:
    b = cases.BUILDING._replace(va=amps * 24, dwelling=dwelling, circuits=float(circuits), two_wire=two_wire, rating=rating)
    agree(building_disconnect(b, ED), plainly.disconnect(b))


@pytest.mark.parametrize(("view", "density"), [("al-pvc", 0.0975), ("cu-pvc", 0.323)])
@given(st.integers(1, 8), st.sampled_from(["1/0", "250", "500", "600"]), st.floats(10, 400), st.floats(0.05, 1))
def test_arrangements(view: str, density: float, sets: int, size: str, length: float, load_factor: float) -> None:
    a = cases.LAID_OUT._replace(sets=float(sets), size=size, length=length, load_factor=load_factor)
    ours, second = arrangement(a, ED.view(view)), plainly.arrangement(a, view)
    agree(ours, {k: v for k, v in second.items() if k not in ("volume", "metal")})
    assert ours.pounds == pytest.approx(second["volume"] * density * 1.02, rel=0.01)
    assert ours.kilograms == pytest.approx(ours.pounds / 2.2046226218)


def test_the_figures_of_the_letter() -> None:
    """372 kVA over 240 V is 1,550 A; 239 kW of 243 kVA is a power factor of 0.984; 386 kVA is 154 % of 250 kVA."""
    x = letter(cases.ASKED)
    assert (x.code_kva, x.code_amperes, x.vehicles_kva) == (372.0, 1550.0, 59.52)
    assert (round(x.pf, 3), round(x.share, 1)) == (0.984, 154.4)
    same = ("mains", "rating"), ("expected_kw", "kw"), ("expected_kva", "kva"), ("high_kw", "high_kw"), ("high_kva", "high_kva")
    assert all(getattr(x, a) == getattr(cases.ASKED, b) for a, b in (*same, ("motor_start", "motor_start"), ("sets", "sets")))


def test_a_limit_that_is_just_met_is_met() -> None:
    change = flicker(cases.STARTING, ED).change
    just = flicker(cases.STARTING._replace(limit=change), ED)
    assert just.ok and not just.fails
    c = cases.CANDIDATE._replace(interrupting=max(candidate(cases.CANDIDATE)[3:5]))
    assert candidate(c).rating_ok


# ------------------------------------------------------------------------------------------- whatever the numbers are
@given(st.floats(0.01, 60), st.floats(0.01, 60))
def test_more_starts_are_never_allowed_more(a: float, b: float) -> None:
    assert published(max(a, b), ED) <= published(min(a, b), ED)


@given(st.floats(50, 500), st.floats(50, 500), st.floats(1, 4), st.floats(0.5, 4))
def test_a_larger_transformer_dips_less(a: float, b: float, percent: float, ratio: float) -> None:
    def change(kva: float) -> float:
        z = percent / 100 * 240 * 240 / (1000 * kva)
        r = z / math.hypot(1, ratio)
        return flicker(cases.STARTING._replace(r_supply=r, x_supply=r * ratio), ED).change
    assert change(max(a, b)) <= change(min(a, b)) * (1 + 1e-12)


@given(small, small, st.floats(0.05, 1))
def test_the_change_is_never_above_its_bound(r: float, x: float, pf: float) -> None:
    """Cauchy and Schwarz: R cos + X sin is at most the magnitude of the impedance."""
    f = flicker(cases.STARTING._replace(r_supply=r, x_supply=x, pf=pf), ED)
    assert f.supply <= f.bound * (1 + 1e-12)


@given(st.floats(0.05, 1))
def test_the_loss_factor_lies_between_the_load_factor_and_its_square(x: float) -> None:
    """Gonen, chapter 2: a load that is whole or nothing gives the load factor, a short peak on a steady one its square."""
    assert x * x * (1 - 1e-12) <= loss_factor(x, ED) <= x * (1 + 1e-12)


@given(gap, place, place, st.floats(0, 2 * math.pi))
def test_a_distance_does_not_change_when_everything_is_moved_or_turned(g: Gap, east: float, north: float, angle: float) -> None:
    def moved(x: float, y: float) -> tuple[float, float]:
        return (x * math.cos(angle) - y * math.sin(angle) + east, x * math.sin(angle) + y * math.cos(angle) + north)
    h = Gap("0", *moved(g.p_x, g.p_y), *moved(g.a_x, g.a_y), *moved(g.b_x, g.b_y))
    here, there = (separation(Apart("a", 0.0, False, False, (x,))).distance for x in (g, h))
    assert there == pytest.approx(here, abs=1e-3)


# ------------------------------------------------------------------------------------------------------------- refusals
def test_a_start_below_the_running_current_is_refused() -> None:
    with pytest.raises(CurtilageError, match="L1: a starting current of 20 A is below the running current of 28 A"):
        flicker(cases.STARTING._replace(current=20.0), ED)


def test_more_than_a_start_a_minute_needs_the_utility() -> None:
    with pytest.raises(CurtilageError, match="61 starts an hour are more than the published rule speaks of"):
        flicker(cases.STARTING._replace(starts=61.0, limit=0.0), ED)


def test_nothing_to_measure_is_refused() -> None:
    with pytest.raises(CurtilageError, match="a thing without a place has no distance"):
        separation(cases.APART._replace(gaps=()))


@pytest.mark.parametrize(("band", "condition", "inches"), [("0-150", "1", 36), ("0-150", "3", 36), ("151-600", "2", 42),
                                                            ("151-600", "3", 48)])
def test_the_depths_of_the_table(band: str, condition: str, inches: float) -> None:
    """Table 110.26(A)(1): 3 ft below 150 V to ground at any condition; 3 ft 6 in and 4 ft above it."""
    assert working_space(cases.SPACE._replace(band=band, condition=condition), ED).depth_least == inches
