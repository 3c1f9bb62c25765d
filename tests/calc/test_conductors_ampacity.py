"""Ampacity, protection and the 83 % rule against printed figures and against the tables themselves."""
from cases_conductors import CIRCUIT
from curtilage.calc.conductors.ampacity import ampacity
from curtilage.calc.conductors.dwelling_rule import dwelling_ampacity, dwelling_permission
from curtilage.calc.conductors.protection import device, motor_device, nameplate_device, protects
from curtilage.calc.conductors.run import branch_circuit
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError
from curtilage.tables import Table
from curtilage.values.told import Told, weakest
from hypothesis import given
from hypothesis import strategies as st
import pytest

ED = Edition.load("nec2023")
CU, AL = ED.view("cu-pvc"), ED.view("al-pvc")
NO_CORDS = False
EDITIONS = ("nec2020", "nec2023", "nec2026")


def test_six_numbers_and_a_handbook_are_enough() -> None:
    """Plain floats and text in, plain numbers out."""
    a = ampacity("10", 90.0, 75.0, 30.0, 4.0, CU)
    assert (a.base, a.f_t, a.f_n, a.corrected, a.limit, a.ampacity) == (40.0, 1.0, 0.8, 32.0, 35.0, 32.0)


def test_four_current_carrying_conductors() -> None:
    """EC&M Code Q&A (ecmweb.com/qampa/code-qa-112): four 10 AWG THHN, 40 A x 80 % = 32 A."""
    assert ampacity("10", 90.0, 75.0, 30.0, 4.0, CU).corrected == 32.0


def test_terminals_govern_after_the_factors() -> None:
    """The column of the terminals is a ceiling, not a starting point: 110.14(C), from memory of the rule.

    6 AWG copper, 90 degC insulation, 8 conductors, 38 degC: 75 x 0.91 x 0.70 = 47.8 A at either terminal; with no factors
    75 A of insulation end in 65 A or 55 A.
    """
    assert ampacity("6", 90.0, 75.0, 38.0, 8.0, CU).ampacity == pytest.approx(47.775)
    assert ampacity("6", 90.0, 75.0, 30.0, 3.0, CU).ampacity == 65.0
    assert ampacity("6", 90.0, 60.0, 30.0, 3.0, CU).ampacity == 55.0


@given(size=st.sampled_from(CU.sizes), cool=st.floats(-10, 60), hotter=st.floats(0, 15), n=st.integers(2, 50),
       more=st.integers(0, 9), insulation=st.sampled_from((75.0, 90.0)), terminals=st.sampled_from((60.0, 75.0)))
def test_hotter_or_more_crowded_is_never_more(size: str, cool: float, hotter: float, n: int, more: int, insulation: float,
                                              terminals: float) -> None:
    hot = min(cool + hotter, 70.0 if insulation == 75.0 else 75.0)
    before = ampacity(size, insulation, terminals, min(cool, hot), float(n), CU)
    after = ampacity(size, insulation, terminals, hot, float(n + more), CU)
    assert after.ampacity <= before.ampacity <= before.limit and before.corrected <= 1.3 * before.base


@pytest.mark.parametrize(("terminals", "insulation"), [(90.0, 90.0), (75.0, 105.0), (40.0, 60.0)])
def test_a_temperature_that_is_no_column_is_refused(terminals: float, insulation: float) -> None:
    with pytest.raises(CurtilageError, match="is no column of the ampacity table; insulation is 60, 75 or 90"):
        ampacity("4", insulation, terminals, 30.0, 3.0, CU)


def test_nothing_is_extrapolated() -> None:
    with pytest.raises(CurtilageError, match="ambient_factor75"):
        ampacity("4", 75.0, 75.0, 71.0, 3.0, CU)
    with pytest.raises(CurtilageError, match="nothing for '14'"):
        ampacity("14", 90.0, 75.0, 30.0, 3.0, AL)


def test_a_told_ampacity_names_its_weakest_source() -> None:
    m = TellingEdition(ED).view("al-pvc")
    size, hot, lugs, t, n = (Told(k, x, unit, "given") for k, x, unit in (
        ("size", "4/0", "size"), ("insulation", 90.0, "degC"), ("terminals", 75.0, "degC"), ("ambient", 40.0, "degC"),
        ("ccc", 6.0, "count")))
    a = ampacity.told(size, hot, lugs, t, n, m)
    assert a.ampacity.value == pytest.approx(205 * 0.91 * 0.8)
    assert weakest(a.ampacity).status == "seen once"                       # 310.15(C)(1) was read once


# ----------------------------------------------------------------------------------------------------------- protection
def test_next_size_up_ends_at_800_amperes() -> None:
    """240.4(B), (C): 3 x 400 kcmil Al (810 A) under 900 A is not asked for; 2 x 600 (680 A) may have 700 A, not 800 A;
    a rating above 800 A must be reached: 4 x 350 kcmil Al make exactly 1,000 A, 999 A will not do."""
    assert protects(700.0, "600", 680.0, NO_CORDS, AL) and not protects(800.0, "600", 680.0, NO_CORDS, AL)
    assert protects(800.0, "600", 701.0, NO_CORDS, AL)
    assert protects(1000.0, "350", 1000.0, NO_CORDS, AL) and not protects(1000.0, "350", 999.0, NO_CORDS, AL)


def test_an_ampacity_that_is_itself_a_standard_rating_has_no_next_size() -> None:
    """240.4(B)(2): 6 AWG Al, 50 A at 75 degC, takes 50 A and not 60 A; 65 A of 6 AWG Cu takes 70 A."""
    assert protects(50.0, "6", 50.0, NO_CORDS, AL) and not protects(60.0, "6", 50.0, NO_CORDS, AL)
    assert protects(70.0, "6", 65.0, NO_CORDS, CU)


def test_small_conductors_have_limits_of_their_own() -> None:
    """240.4(D), read twice in reprints: 14 Cu 15 A, 12 Cu 20 A, 10 Cu 30 A, 12 Al 15 A, 10 Al 25 A, whatever the column says."""
    for m, limits in ((CU, {"14": 15, "12": 20, "10": 30}), (AL, {"12": 15, "10": 25})):
        for size, most in limits.items():
            over = next(r for r in (20, 25, 30, 35) if r > most)
            assert protects(float(most), size, 60.0, NO_CORDS, m) and not protects(float(over), size, 60.0, NO_CORDS, m)


def test_receptacles_for_portable_loads_get_no_next_size() -> None:
    """240.4(B)(1): 10 AWG at 24 A after factors may have 25 A, but not on a circuit of receptacles."""
    assert protects(25.0, "10", 24.0, False, CU) and not protects(25.0, "10", 24.0, True, CU)


def test_branch_circuit_for_a_continuous_load() -> None:
    """23 A continuous: 28.75 A, 30 A device, 10 AWG. Question read in a list of exam items (Mike Holt); answer from memory."""
    r = branch_circuit(CIRCUIT._replace(va=23.0 * 240, continuous=True, length=10.0), CU)
    assert (r.minimum, r.device, r.size, r.ampacity) == (28.75, 30.0, "10", 35.0)


def test_a_service_sized_continuous_load() -> None:
    """184 A continuous: 230 A, 4/0 copper, 230 A at 75 degC. Question read (Mike Holt, EC&M Article 230); answer from memory."""
    r = branch_circuit(CIRCUIT._replace(va=184.0 * 240, continuous=True, length=10.0), CU)
    assert (r.minimum, r.carries, r.ampacity) == (230.0, "4/0", 230.0)


def test_continuous_counts_before_the_factors_and_as_it_is_after_them() -> None:
    """40 A continuous in 38 degC with six conductors: 50 A against the 75 degC column, 40 A against 75 x 0.91 x 0.8.

    8 AWG copper has 50 A in the column but 55 x 0.91 x 0.8 = 40.04 A after factors: it carries. But 40.04 A are protected by
    45 A at most, so with a 50 A device the choice is 6 AWG (54.6 A). 210.19(A)(1)(a) and (b), from memory.
    """
    c = CIRCUIT._replace(va=40.0 * 240, continuous=True, ambient=38.0, ccc=6.0, breaker=50.0, length=5.0)
    r = branch_circuit(c, CU)
    assert r.minimum == 50.0 and r.current == 40.0
    assert r.carries == "6"
    assert branch_circuit(c._replace(size="8"), CU).carries_ok and not branch_circuit(c._replace(size="8"), CU).protected


# ------------------------------------------------------------------------------------------------------------- nameplates
def test_a_nameplate_sets_the_least_ampacity_and_the_largest_device() -> None:
    """440.4(B): 31 A and 50 A on the plate. Conductor for 31 A (8 AWG at 60 degC terminals), device up to 50 A."""
    r = branch_circuit(CIRCUIT._replace(mca=31.0, mocp=50.0, terminals=60.0, length=10.0), CU)
    assert (r.minimum, r.device, r.device_least, r.device_most, r.size) == (31.0, 50.0, 35.0, 50.0, "8")
    assert r.protected and r.carries_ok
    too_big = branch_circuit(CIRCUIT._replace(mca=31.0, mocp=50.0, breaker=60.0), CU)
    too_small = branch_circuit(CIRCUIT._replace(mca=31.0, mocp=50.0, breaker=30.0), CU)
    assert not too_big.device_ok and not too_big.protected and not too_small.device_ok


def test_a_plate_figure_that_is_no_standard_rating_is_taken_down() -> None:
    assert nameplate_device("hp", 21.0, 33.0, 0.0, CU).rating == 30.0


def test_a_plate_without_room_for_a_device_is_refused() -> None:
    with pytest.raises(CurtilageError, match="hp: no standard device lies between the nameplate's 31 A"):
        nameplate_device("hp", 31.0, 34.0, 0.0, CU)


def test_a_motor_by_its_table_current() -> None:
    """430.22 and Table 430.52 (read in an NEC 2011 reprint): 5 hp, 230 V, 28 A: 35 A of conductor, 70 A of breaker."""
    r = branch_circuit(CIRCUIT._replace(motor=True, va=28.0 * 240, length=10.0), CU)
    assert (r.minimum, r.device, r.size) == (35.0, 70.0, "10")
    assert r.protected and (r.egc_table, r.egc) == ("8", "10")       # 250.122(A): not larger than the conductors
    assert motor_device(28.0, 0.0, 35.0, 240.0, 80.0, CU).ok is False


def test_a_small_motor_may_sit_on_a_15_or_20_ampere_circuit() -> None:
    """430.53(A), from memory: 6 A and less, 20 A at 120 V, 15 A above; a 2 A fan would otherwise have 10 A at most."""
    assert motor_device(2.0, 0.0, 2.5, 120.0, 20.0, CU).ok and motor_device(2.0, 0.0, 2.5, 240.0, 15.0, CU).ok
    assert not motor_device(2.0, 0.0, 2.5, 240.0, 20.0, CU).ok and not motor_device(2.0, 0.0, 2.5, 120.0, 25.0, CU).ok
    assert motor_device(13.8, 0.0, 17.25, 120.0, 0.0, CU).rating == 35.0        # 3/4 hp at 115 V by its table current: 34.5 A


def test_every_standard_rating_is_its_own_next() -> None:
    for rating in (15.0, 70.0, 175.0, 800.0, 1000.0, 1200.0):
        assert device(rating, 0.0, 0.0, CU).rating == rating
    assert device(333.0, 333.0, 0.0, CU).ok is False                        # 333 A is no standard device
    assert device(0.0, 0.0, 15.0, CU).rating == 15.0


@given(small=st.floats(0, 1900), more=st.floats(0, 4000))
def test_more_load_is_never_a_smaller_device(small: float, more: float) -> None:
    assert device(small + more, 0.0, 0.0, CU).rating >= device(small, 0.0, 0.0, CU).rating >= small


# ------------------------------------------------------------------------------------------------------------- 83 % rule
@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("metal", ["cu", "al"])
def test_the_rule_gives_the_table_cell_by_cell(edition: str, metal: str) -> None:
    """Table 310.12 (two readings agree on all 22 cells): the smallest size whose 75 degC ampacity is 83 % of the rating."""
    m = Edition.load(edition).view(f"{metal}-pvc")
    table = Table.load("nec_310_12A_dwelling_service")
    cells = dict(zip(map(float, table.column("service_A")), table.column(metal), strict=True))
    assert len(cells) == 11
    for rating, size in cells.items():
        need = dwelling_ampacity(rating, m)
        assert next(s for s in m.sizes if m.ampacity75[s] >= need) == size == m.dwelling_service(rating)


def test_a_200_ampere_service_in_aluminium() -> None:
    """Practice tests, two sites, one item (practicetestgeeks.com, learnexams.com): 200 A x 0.83 = 166 A, 4/0 Al 180 A."""
    assert dwelling_ampacity(200.0, AL) == 166.0
    assert ampacity("4/0", 75.0, 75.0, 30.0, 3.0, AL).ampacity == 180.0
    assert ampacity("3/0", 75.0, 75.0, 30.0, 3.0, AL).ampacity < 166.0


@pytest.mark.parametrize(("rating", "three_wire", "whole", "allowed", "reason"), [
    (200.0, True, True, True, "entire load of one dwelling unit"),
    (100.0, True, True, True, "within the range"),
    (400.0, True, True, True, "within the range"),
    (90.0, True, True, False, "below the range"),
    (450.0, True, True, False, "above the range"),
    (200.0, True, False, False, "does not carry the entire load"),
    (200.0, False, True, False, "not a single-phase 120/240 V three-wire"),
])
def test_where_the_rule_is_open(rating: float, three_wire: bool, whole: bool, allowed: bool, reason: str) -> None:
    """310.12(A), (B): scope 100 to 400 A, single phase, the entire load of one dwelling (text confirmed in a forum quotation)."""
    p = dwelling_permission(rating, three_wire, whole, AL)
    assert p.allowed is allowed and reason in p.reason
