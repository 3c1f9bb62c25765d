"""Voltage drop against phasors, physics and printed figures."""
from cmath import exp, phase
from math import acos, cos, sin, sqrt

from curtilage.calc.conductors.drop import (
    ONE_WAY,
    THERE_AND_BACK,
    THREE_PHASE,
    approximate_drop,
    delivered,
    dip,
    exact_drop,
    largest_load,
    losses,
    reactive_factor,
    short_drop,
)
from curtilage.editions import Edition, View
from curtilage.errors import CurtilageError
from curtilage.values.bound import bound
from curtilage.values.method import arrays
from hypothesis import assume, given
from hypothesis import strategies as st
import numpy as np
import pytest

ED = Edition.load("nec2023")
CU, AL = ED.view("cu-pvc"), ED.view("al-pvc")
VIEWS = [ED.view(v) for v in ED.views()]
pfs = st.floats(0.05, 1.0)


# ------------------------------------------------------------------------------------------------------- second methods
def received(V: float, I: float, pf: float, z: complex) -> float:
    """Receiving voltage of a constant current, by halving: the angle between the two ends is what makes |Vr + I Z| = V."""
    turned = exp(-1j * acos(pf))
    low, high = 0.0, 2 * V
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if abs(middle + I * turned * z) < V else (low, middle)
    return low


@given(R=st.floats(0.001, 4), X=st.floats(0.0, 0.2), pf=pfs, I=st.floats(0.1, 600), L=st.floats(1, 900))
def test_the_exact_drop_by_complex_numbers(R: float, X: float, pf: float, I: float, L: float) -> None:
    """|Vr + I Z| = Vs, with the current behind the receiving voltage by the power-factor angle."""
    z = complex(R, X) * 2 * L / 1000
    assume(abs(z) * I < 200)
    V_d = exact_drop(THERE_AND_BACK, R, X, pf, reactive_factor(pf), I, L, 240.0)
    V_r = 240.0 - V_d
    assert abs(V_r + I * exp(-1j * acos(pf)) * z) == pytest.approx(240.0, rel=1e-12)
    assert V_r == pytest.approx(received(240.0, I, pf, z), rel=1e-9, abs=1e-7)


@given(R=st.floats(0.001, 4), X=st.floats(0.0, 0.2), pf=pfs, I=st.floats(0.1, 600), L=st.floats(1, 900))
def test_the_approximate_drop_lacks_the_quadrature_part(R: float, X: float, pf: float, I: float, L: float) -> None:
    """sqrt(1 - a^2) lies between 1 - a^2/2 - a^4/2 and 1 - a^2/2 for every a up to 1: geometry, not our formula."""
    z = complex(R, X) * 2 * L / 1000
    assume(abs(z) * I < 200)
    q = reactive_factor(pf)
    near, exact = (f(THERE_AND_BACK, R, X, pf, q, I, L, *more) for f, more in ((approximate_drop, ()), (exact_drop, (240.0,))))
    across = (I * exp(-1j * acos(pf)) * z).imag / 240
    assert near + 240 * across ** 2 / 2 - 1e-9 <= exact <= near + 240 * (across ** 2 / 2 + across ** 4 / 2) + 1e-9


@given(R=st.floats(0.001, 4), I=st.floats(0.1, 300), L=st.floats(1, 900))
def test_at_unity_power_factor_without_reactance_all_forms_are_ohms_law(R: float, I: float, L: float) -> None:
    assume(2 * R * L / 1000 * I < 100)
    ohm = I * (R * L / 1000 + R * L / 1000)                    # out, and back
    assert short_drop(R, I, L) == pytest.approx(ohm)
    assert approximate_drop(THERE_AND_BACK, R, 0.0, 1.0, 0.0, I, L) == pytest.approx(ohm)
    assert exact_drop(THERE_AND_BACK, R, 0.0, 1.0, 0.0, I, L, 240.0) == pytest.approx(ohm, abs=1e-9)


@given(R=st.floats(0.001, 2), X=st.floats(0.0, 2), pf=pfs, part=st.floats(0.01, 0.999), V=st.sampled_from((120.0, 240.0)))
def test_what_a_constant_load_gets_closes_the_circuit(R: float, X: float, pf: float, part: float, V: float) -> None:
    """The load's own current, from S = V I*, sent back through the impedance, gives the sending voltage."""
    most = largest_load(R, X, pf, V)
    S = part * most
    d = delivered(R, X, pf, S, V)
    I = (S * exp(1j * acos(pf)) / d.volts).conjugate()
    assert abs(d.volts + I * complex(R, X)) == pytest.approx(V, rel=1e-9)
    assert abs(I) == pytest.approx(d.current) and d.drop == pytest.approx(V - d.volts, abs=1e-9)


@given(R=st.floats(0.001, 2), X=st.floats(0.0, 2), pf=pfs, V=st.sampled_from((120.0, 240.0)))
def test_at_the_largest_load_the_load_impedance_matches_the_line(R: float, X: float, pf: float, V: float) -> None:
    """At the limit of a source behind an impedance the load has the same magnitude of impedance, whatever its power factor
    (maximum power transfer at fixed angle: a theorem of circuits)."""
    S = largest_load(R, X, pf, V)
    d = delivered(R, X, pf, S * (1 - 1e-12), V)
    assert d.volts ** 2 / S == pytest.approx(sqrt(R * R + X * X), rel=1e-4)
    angle = phase(complex(R, X)) - acos(pf)
    assert S == pytest.approx(V * V / (4 * sqrt(R * R + X * X) * cos(angle / 2) ** 2))      # another form of the same limit


def test_a_load_that_cannot_be_delivered_is_called_a_collapse() -> None:
    with pytest.raises(CurtilageError, match=r"voltage collapse: 600000 VA cannot be delivered .* at most 53\d{4} VA"):
        delivered(0.02, 0.02, 0.95, 600_000.0, 240.0)
    with pytest.raises(CurtilageError, match="voltage collapse"):
        bound(delivered, ED)(0.02, 0.02, 0.95, 600_000.0, 240.0)


@given(part=st.floats(0.01, 0.9), more=st.floats(1.01, 1.1))
def test_more_load_is_less_voltage(part: float, more: float) -> None:
    S = part * largest_load(0.05, 0.03, 0.9, 240.0)
    assert delivered(0.05, 0.03, 0.9, S * more, 240.0).volts < delivered(0.05, 0.03, 0.9, S, 240.0).volts


@pytest.mark.parametrize("pf", [0.0, -0.9, 1.2])
def test_a_power_factor_that_is_none_is_refused(pf: float) -> None:
    with pytest.raises(CurtilageError, match="is not above 0 and not above 1; write for example"):
        reactive_factor(pf)


@given(pf=pfs)
def test_the_reactive_factor_is_the_sine(pf: float) -> None:
    assert reactive_factor(pf) == pytest.approx(sin(acos(pf)), abs=1e-9)


@given(size=st.sampled_from([s for s in AL.sizes if s in AL.r]), I=st.floats(1, 400), L=st.floats(1, 400),
       longer=st.floats(0, 300), pf=st.floats(0.6, 1.0), n=st.integers(1, 4), m=st.sampled_from(VIEWS))
def test_longer_is_more_and_more_sets_are_less(size: str, I: float, L: float, longer: float, pf: float, n: int, m: View) -> None:
    assume(losses_or_none(1, size, I, L + longer, pf, m))
    short, long = losses(n, size, I, L, pf, 240.0, m), losses(n, size, I, L + longer, pf, 240.0, m)
    one = losses(1, size, I, L, pf, 240.0, m)
    assert long.drop >= short.drop and long.exact >= short.exact and long.dc >= short.dc
    assert short.drop <= one.drop and short.drop * n == pytest.approx(one.drop)
    assert short.volts == pytest.approx(240 * (1 - short.exact / 100))


def losses_or_none(*args: object) -> object:
    try:
        return losses(args[0], args[1], args[2], args[3], args[4], 240.0, args[5])
    except CurtilageError:
        return None


@pytest.mark.parametrize("view", ED.views())
def test_a_larger_conductor_never_loses_more(view: str) -> None:
    """Table 9, size after size: R cos + X sin falls with the size at every power factor from 0.7 up (below that the printed
    reactance of 10 and 8 AWG, 0.050 and 0.052, and the rounding of R take over)."""
    m = ED.view(view)
    sizes = [s for s in m.sizes if s in m.r]
    for pf in (0.7, 0.85, 0.95, 1.0):
        drops = [losses(1, s, 10.0, 100.0, pf, 240.0, m).drop for s in sizes]
        assert drops == sorted(drops, reverse=True)


def test_nothing_left_of_the_voltage_is_said_in_a_sentence() -> None:
    with pytest.raises(CurtilageError, match=r"30 A over 5000 ft leaves nothing of 120 V; check the length and its unit"):
        losses(1, "12", 30.0, 5000.0, 0.95, 120.0, CU)


def test_both_voltages_of_a_house_lose_the_same_percentage_at_the_same_load_per_leg() -> None:
    """3 kVA on each leg at 120 V, balanced, is 6 kVA line to line: the neutral carries nothing, each leg loses half the volts."""
    line_to_line = losses(1, "6", 25.0, 150.0, 0.95, 240.0, CU)
    leg = approximate_drop(ONE_WAY, CU.r["6"], CU.x["6"], 0.95, reactive_factor(0.95), 25.0, 150.0)
    assert 100 * leg / 120 == pytest.approx(line_to_line.drop)


def test_three_phase_is_root_three_of_one_way() -> None:
    one = approximate_drop(ONE_WAY, 0.16, 0.057, 0.85, reactive_factor(0.85), 100.0, 150.0)
    assert approximate_drop(THREE_PHASE, 0.16, 0.057, 0.85, reactive_factor(0.85), 100.0, 150.0) == pytest.approx(sqrt(3) * one)


def test_lengths_on_an_array() -> None:
    feet = np.array([0.0, 100.0, 410.0, 1240.0])
    many = arrays(short_drop)(0.0424, 140.0, feet)
    assert many.tolist() == [short_drop(0.0424, 140.0, x) for x in feet.tolist()]


# --------------------------------------------------------------------------------------------------------------- printed
def test_secondary_cable_of_a_textbook() -> None:
    """T. Gonen, Electric Power Distribution System Engineering, 2nd ed., p. 329, example 7.3: 2 AWG, 100 A, 100 ft, pf 0.9,
    120 V base, table constant 0.02613 per unit. The companion notebook's own 0.02507 loses the reactive part."""
    V_d = approximate_drop(ONE_WAY, 0.334, 0.0299, 0.9, reactive_factor(0.9), 100.0, 100.0)
    assert V_d / 120 == pytest.approx(0.02613, abs=1e-5)                 # exact arithmetic 0.026136; the table cuts
    assert approximate_drop(ONE_WAY, 0.334, 0.0299, 0.9, sin(acos(0.9) * 3.141592653589793 / 180), 100.0, 100.0) / 120 == \
        pytest.approx(0.02507, abs=1e-5)


def test_the_magnitude_of_the_impedance_voltage_is_no_drop() -> None:
    """Engineers' forum, c. 2014, on Table 9 note 2: 1/0 Cu in PVC, 1,000 ft, 50 A, pf 0.65: |IZ| 6.39 V; drop printed 5.55 V,
    where exact arithmetic gives 5.57 V."""
    V_d = approximate_drop(ONE_WAY, 0.12, 0.044, 0.65, reactive_factor(0.65), 50.0, 1000.0)
    assert round(V_d, 2) == 5.57 and round(50 * abs(complex(0.12, 0.044)), 2) == 6.39
    assert exact_drop(ONE_WAY, 0.12, 0.044, 0.65, reactive_factor(0.65), 50.0, 1000.0, 277.0) < 5.6


@pytest.mark.parametrize("view", ED.views())
def test_effective_impedance_of_table_9(view: str) -> None:
    """Chapter 9 Table 9 prints Z at 0.85 beside R and X (232 of 288 cells agree in two readings): two figures are kept there."""
    from curtilage.tables import Table
    table, m = Table.load("nec_ch9_t9_ac_rx_z"), ED.view(view)
    metal, raceway = view.split("-")
    column = f"z{metal}_{'al' if raceway == 'aluminium' else raceway}"
    for size, printed in zip(table.column("size"), table.column(column), strict=True):
        if printed:
            z = approximate_drop(ONE_WAY, m.r[size], m.x[size], 0.85, reactive_factor(0.85), 1.0, 1000.0)
            assert z == pytest.approx(float(printed), rel=0.06), size        # R and X are themselves printed to two figures


def test_ieee_141_exact_form() -> None:
    """Formula of IEEE Std 141 (from memory), numbers made up: 277 V, 200 A, 0.05 + j0.05 ohm, 0.85: 13.787 V against 13.768 V."""
    q = reactive_factor(0.85)
    assert round(exact_drop(ONE_WAY, 0.05, 0.05, 0.85, q, 200.0, 1000.0, 277.0), 3) == 13.787
    assert round(approximate_drop(ONE_WAY, 0.05, 0.05, 0.85, q, 200.0, 1000.0), 3) == 13.768


def test_starting_a_motor_by_a_textbook() -> None:
    """T. Gonen, example 7.4, p. 333: 80 A at 240 V, pf 0.5, over 70 ft of service drop with K 0.01089 pu per 10^4 A ft on a
    120 V base, printed 0.0060984 pu; the constant is R pf + X q over 120 V, so R and X with that constant give that dip."""
    per_ft = 0.01089 * 120 / 1e4                                        # ohm per ft at pf 0.5, one way on 120 V
    R = per_ft * 70 / 0.5                                               # all of it taken as resistance: only the sum counts
    assert dip(R, 0.0, 0.5, 80.0, 120.0) == pytest.approx(0.60984)


def test_a_dip_is_the_drop_of_the_starting_current() -> None:
    q = reactive_factor(0.3)
    V_d = approximate_drop(THERE_AND_BACK, 0.31, 0.048, 0.3, q, 149.0, 120.0)
    assert dip(0.31 * 0.24, 0.048 * 0.24, 0.3, 149.0, 240.0) == pytest.approx(100 * V_d / 240)
