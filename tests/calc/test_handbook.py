"""The handbook forms by second methods: tables of the Code, nodal equations, per-unit arithmetic, and each other."""
from curtilage.calc import handbook as h
from curtilage.calc.conductors.drop import THERE_AND_BACK, THREE_PHASE, exact_drop, reactive_factor, short_drop
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given
from hypothesis import strategies as st
import pytest

ED = Edition.load("nec2023")
CU = ED.view("cu-pvc")
SOME = st.floats(0.5, 500)
GAUGES = {"14": 14, "12": 12, "10": 10, "8": 8, "6": 6, "4": 4, "3": 3, "2": 2, "1": 1, "1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}


@pytest.mark.parametrize("size", GAUGES)
def test_the_gauge_formula_gives_the_areas_of_the_table(size: str) -> None:
    """NFPA 70 Ch. 9 Table 8 prints the areas of ASTM B258, rounded to 10 or 100 circular mils."""
    assert h.wire(GAUGES[size]).area == pytest.approx(CU.cmil[size], rel=1e-3)


def test_six_gauges_double_the_diameter_nearly() -> None:
    """Known of the gauge: 39 steps from 4/0 to 36 for a ratio of 92, so six steps make 2.005."""
    assert h.wire(4).diameter / h.wire(10).diameter == pytest.approx(2.005, abs=5e-4)


@pytest.mark.parametrize("size", [s for s in GAUGES if s not in ("14", "12", "10", "8")])
def test_the_circular_mil_form_with_k_of_75_degc_is_the_drop_by_table_8(size: str) -> None:
    """K 12.9 is handbook practice for copper at 75 degC; Table 8 holds 12.8 to 12.9 ohm cmil/ft."""
    by_area = h.circular_mil_drop(THERE_AND_BACK, 12.9, 20.0, 150.0, CU.cmil[size])
    assert by_area == pytest.approx(short_drop(CU.r_dc[size], 20.0, 150.0), rel=0.01)


@given(SOME, SOME, SOME)
def test_area_and_length_undo_the_drop(current: float, length: float, area: float) -> None:
    drop = h.circular_mil_drop(2.0, 12.9, current, length, area)
    assert h.circular_mils(2.0, 12.9, current, length, drop) == pytest.approx(area)
    over = h.drop_over(THREE_PHASE, 1.1, current, length)
    assert h.longest(THREE_PHASE, 1.1, current, over) == pytest.approx(length)


def test_the_size_for_an_area_is_the_first_that_has_it() -> None:
    assert h.size_of_area(CU.cmil["4"], CU) == "4"
    assert h.size_of_area(CU.cmil["4"] + 1, CU) == "3"
    with pytest.raises(CurtilageError, match="no single conductor"):
        h.size_of_area(3e6, CU)


@given(st.floats(0.01, 2), st.floats(0.001, 0.2), st.floats(0.3, 1), st.floats(1, 100))
def test_effective_impedance_is_below_the_magnitude_and_near_exact(R: float, X: float, pf: float, current: float) -> None:
    z = h.impedance(R, X, pf, current, 100.0)
    in_phase = z.effective * current * 100 / 1000
    assert in_phase <= z.magnitude * (1 + 1e-12)
    exact = exact_drop(1.0, R, X, pf, reactive_factor(pf), current, 100.0, 1e6)
    assert in_phase == pytest.approx(exact, rel=1e-3)


@given(SOME, SOME, st.floats(0, 0.5), st.floats(100, 300), st.floats(100, 300))
def test_open_neutral_by_nodal_equations(Ra: float, Rb: float, r: float, Ea: float, Eb: float) -> None:
    """Two meshes with a common neutral, solved as a 2 x 2 system; a neutral of endless resistance makes one loop of them."""
    far = 1e9
    a, b, c = Ra + r + far, Rb + r + far, -far
    det = a * b - c * c
    mesh_a, mesh_b = (Ea * b - c * Eb) / det, (a * Eb - c * Ea) / det
    sides = h.open_neutral(Ea, Eb, Ra, Rb, r)
    assert sides.volts_a == pytest.approx(mesh_a * Ra, rel=1e-4)
    assert sides.volts_b == pytest.approx(mesh_b * Rb, rel=1e-4)
    assert sides.volts_a + sides.volts_b + 2 * r * sides.current == pytest.approx(Ea + Eb)


@given(SOME, SOME, st.floats(0, 0.5))
def test_the_sending_voltages_give_the_load_voltages_with_the_neutral_whole(Ra: float, Rb: float, r: float) -> None:
    sent = h.sending(120.0, 120.0, Ra, Rb, r)
    a, b, c = Ra + 2 * r, Rb + 2 * r, -r                    # meshes: line, load, neutral
    det = a * b - c * c
    assert (sent.volts_a * b - c * sent.volts_b) / det * Ra == pytest.approx(120.0)
    assert (a * sent.volts_b - c * sent.volts_a) / det * Rb == pytest.approx(120.0)


@pytest.mark.parametrize("rating", [60, 75, 90])
def test_the_ambient_equation_gives_the_table(rating: int) -> None:
    """NFPA 70 Table 310.15(B)(1) prints the equation at the upper end of each band, to two decimals."""
    for ambient in range(10, rating - 4, 5):
        printed = getattr(ED, f"ambient_factor{rating}")(float(ambient))
        assert h.ambient_equation(float(rating), float(ambient)) == pytest.approx(printed, abs=0.00501), ambient
    with pytest.raises(CurtilageError, match="ambient"):
        h.ambient_equation(float(rating), float(rating))


def test_resistance_by_temperature_meets_the_coefficient_at_20_degc() -> None:
    """Physics: alpha at 75 degC is alpha20 / (1 + 55 alpha20), 0.00393 for copper at 20 degC (IEC 60028, from memory)."""
    at_75 = 0.00393 / (1 + 55 * 0.00393)
    assert CU.alpha == pytest.approx(at_75, abs=5e-6)
    assert h.resistance_factor(at_75, 20.0) == pytest.approx(1 / (1 + 55 * 0.00393))
    assert h.resistance_factor(at_75, 75.0) == 1.0


@given(st.floats(1, 1000), st.floats(1, 35), st.floats(100, 40000))
def test_a_start_dips_by_its_share_of_the_fault_level(start: float, kilovolts: float, fault: float) -> None:
    per_unit_reactance = start / (3 ** 0.5 * kilovolts * fault)          # on the base of the starting power
    assert h.start_dip(start, kilovolts, fault, 120.0) == pytest.approx(120 * per_unit_reactance)


@given(st.lists(st.floats(1, 1000), min_size=1, max_size=6), st.floats(0.3, 1))
def test_diversity_and_coincidence_are_reciprocal(peaks: list[float], share: float) -> None:
    d = h.diversity(tuple(peaks), share * sum(peaks))
    assert d.diversity_factor * d.coincidence_factor == pytest.approx(1)
    assert d.load_diversity == pytest.approx((1 - share) * sum(peaks), abs=1e-9)
    alike = h.diversified(max(peaks), len(peaks), 1.0, d.diversity_factor)
    assert alike == pytest.approx(len(peaks) * max(peaks) * share)
