"""Grounding and bonding: published figures, invariants, what is refused."""
from functools import cache
from math import dist, log, pi
from typing import Any

from curtilage.calc.grounding.earth import contact, four_probe, ring_resistance, rod_resistance, rods
from curtilage.calc.grounding.neutrals import Tie, islands, rings
from curtilage.calc.grounding.records import Beyond, Bonding, Contact, Electrode, Pair, Ring, Rods
from curtilage.calc.grounding.sizing import bonding, bonding_jumper, electrode_conductor
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given
from hypothesis import strategies as st
import pytest

FT = 0.3048
SIZES = ("8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600", "750", "1000")
METALS = st.sampled_from(("cu", "al"))


@cache
def ed() -> Edition:
    return Edition.load("nec2023")


def view(metal: str) -> Any:
    return ed().view(f"{metal}-pvc")


# ------------------------------------------------------------------------------------------------------------------- sizes
@pytest.mark.parametrize(("n", "size", "metal", "jumper", "printed", "source"), [
    (4, "500", "cu", "cu", "250", "main bonding jumper: a trade digest on 250.28(D), quoted in a code forum, thread 27781"),
    (3, "500", "al", "cu", "2/0", "one supply-side jumper for three raceways: a code forum's answer, post 3042350"),
    (1, "500", "al", "cu", "2", "a supply-side jumper for each raceway: the same"),
    (1, "500", "al", "al", "1/0", "the same"),
    (3, "250", "cu", "cu", "2/0", "Building Code Forum, thread 26483"),
    (2, "3/0", "cu", "cu", "2", "the same, answered with 335,600 cmil"),
    (2, "3/0", "cu", "al", "1/0", "the same"),
])
def test_printed_bonding_jumpers(n: int, size: str, metal: str, jumper: str, printed: str, source: str) -> None:
    assert bonding_jumper(float(n), size, metal, jumper, view(metal)) == printed, source


def test_a_rod_ends_the_conductor_or_passes_it_on() -> None:
    """6 AWG copper or 4 AWG aluminium to rods alone; 4 AWG where it runs on to concrete: electricallicenserenewal.com, 250.66."""
    x = Electrode("E", "rod", "", "cu", "", 1_000_000.0, ())
    assert electrode_conductor(x, view("cu")).least == "6"
    assert electrode_conductor(x._replace(material="al"), view("cu")).least == "4"
    on = x._replace(beyond=(Beyond("F", "concrete-encased", ""),))
    assert electrode_conductor(on, view("cu")).least == "4" and not electrode_conductor(on._replace(conductor="6"), view("cu")).ok


@given(st.integers(1, 7), st.sampled_from(SIZES), st.integers(1, 8), st.sampled_from(SIZES), METALS, METALS)
def test_larger_conductors_never_ask_for_a_smaller_jumper(n: int, a: str, k: int, b: str, fed: str, metal: str) -> None:
    """In one size of strand or with more sets; both grow here."""
    m = view(fed)
    small, large = sorted((a, b), key=SIZES.index)
    x = Bonding("s", float(min(n, k)), small, fed, "500", metal, "")
    one, two = bonding(x, m), bonding(x._replace(sets=float(max(n, k)), size=large), m)
    assert m.cmil[one.least] <= m.cmil[two.least] and m.cmil[one.each] <= m.cmil[two.each]
    assert one.neutral_area <= two.neutral_area
    assert m.cmil[one.each] <= m.cmil[one.least]


SOME = st.sampled_from(("rod", "ring", "concrete-encased", "water pipe"))


@given(st.floats(5e3, 4e6), st.floats(5e3, 4e6), SOME, METALS, METALS)
def test_larger_supply_never_a_smaller_electrode_conductor(a: float, b: float, kind: str, metal: str, fed: str) -> None:
    m = view(fed)
    small, large = (m.cmil[electrode_conductor(Electrode("E", kind, "2", metal, "", x, ()), m).least] for x in sorted((a, b)))
    assert small <= large


@given(st.floats(5e3, 4e6), METALS, st.lists(SOME, max_size=3))
def test_running_on_never_saves_copper(area: float, fed: str, on: list[str]) -> None:
    m = view(fed)
    x = Electrode("E", "rod", "", "cu", "", area, ())
    far = x._replace(beyond=tuple(Beyond(str(i), k, "2") for i, k in enumerate(on)))
    assert m.cmil[electrode_conductor(far, m).least] >= m.cmil[electrode_conductor(x, m).least]


def test_above_the_table_the_jumper_never_falls_below_its_last_row() -> None:
    """12.5 % of more than the table's end is more than its last entry: 137,500 cmil of copper against 2/0."""
    m = view("cu")
    assert m.cmil[bonding_jumper(3.0, "400", "cu", "cu", m)] >= m.cmil["2/0"]


# ---------------------------------------------------------------------------------------------------------------- the earth
def test_one_rod_as_a_handbook_reads_it() -> None:
    """MIL-HDBK-419A vol. 2, 1.2.2.2 a: 3/4 in by 10 ft in 10,000 ohm-cm, 32 ohm by nomograph."""
    assert rod_resistance(100.0, 10.0, 0.75) == pytest.approx(32, abs=0.5)


def test_a_rod_twice_as_deep_by_another_nomograph() -> None:
    """A ground tester's manual: 5/8 in in 10,000 ohm-cm wants 20 ft for 20 ohm; its nomograph lies 8 % above the formula."""
    assert 17.5 < rod_resistance(100.0, 20.0, 0.625) < 20


def test_rods_around_a_field() -> None:
    """MIL-HDBK-419A vol. 2, 1.2.2.2 b: 26 such rods at 20 ft around 100 by 160 ft, 1.76 ohm from its chart (32 x 0.055).

    Without any influence on each other it would be 1.24 ohm; with the mutual resistances summed it is 1.95, 11 % over the chart.
    """
    at = [(20.0 * i, 0.0) for i in range(8)] + [(160.0, 20.0 * i) for i in range(5)]
    at += [(160 - 20.0 * i, 100.0) for i in range(8)] + [(0.0, 100 - 20.0 * i) for i in range(5)]
    pairs = tuple(Pair("E", dist(at[i], at[j]) / 20) for i in range(26) for j in range(i))
    r = rods(Rods("E", 100.0, 10.0, 0.75, 26.0, 20.0, pairs), ed())
    assert len(set(at)) == 26 and r.resistance == pytest.approx(1.76, rel=0.12) and r.resistance > r.one / 26


def test_four_probes() -> None:
    """MIL-HDBK-419A vol. 2, p. 1-3: 20 ft and 2 ohm give 7,662 ohm-cm with 3.14 for pi and 610 cm for 20 ft."""
    assert 100 * four_probe(20.0, 2.0) == pytest.approx(7662, rel=5e-4)


@pytest.mark.parametrize(("L", "s"), [(8.0, 16.0), (10.0, 25.0), (8.0, 40.0)])
def test_two_rods_far_apart_by_dwights_series(L: float, s: float) -> None:
    """IEEE Std 142, two rods, s > L: rho/4piL (ln 4L/a - 1) + rho/4pis (1 - L2/3s2 + 2L4/5s4)."""
    a, x = 0.625 / 24 * FT, Rods("E", 100.0, L, 0.625, 2.0, s, (Pair("E", 1.0),))
    L, s = L * FT, s * FT
    series = 100 / (4 * pi * L) * (log(4 * L / a) - 1) + 100 / (4 * pi * s) * (1 - L**2 / (3 * s**2) + 2 * L**4 / (5 * s**4))
    assert rods(x, ed()).resistance == pytest.approx(series, rel=2e-3)


@pytest.mark.parametrize(("L", "s"), [(8.0, 6.0), (20.0, 6.0), (10.0, 2.0)])
def test_two_rods_close_together_by_dwights_series(L: float, s: float) -> None:
    """IEEE Std 142, two rods, s < L: rho/4piL (ln 4L/a + ln 4L/s - 2 + s/2L - s2/16L2 + s4/512L4)."""
    a, x = 0.625 / 24 * FT, Rods("E", 100.0, L, 0.625, 2.0, s, (Pair("E", 1.0),))
    L, s = L * FT, s * FT
    series = 100 / (4 * pi * L) * (log(4 * L / a) + log(4 * L / s) - 2 + s / (2 * L) - s**2 / (16 * L**2) + s**4 / (512 * L**4))
    assert rods(x, ed()).resistance == pytest.approx(series, rel=1e-3)


def test_soil_in_which_a_rod_keeps_25_ohm() -> None:
    """From the formula, 5/8 in: 63 ohm-m with 8 ft, 76 with 10 ft.

    Average soils by Technical Report 108 of the Bureau of Standards, as reprinted: clay 40.6, mixed 158, gravel 940 ohm-m.
    """
    assert rod_resistance(63.0, 8.0, 0.625) == pytest.approx(25, rel=0.01)
    assert rod_resistance(76.0, 10.0, 0.625) == pytest.approx(25, rel=0.01)
    assert rod_resistance(40.6, 8.0, 0.625) < 25 < rod_resistance(158.0, 10.0, 0.625) < rod_resistance(940.0, 10.0, 0.625)


SOIL, ROD, THICK = st.floats(1, 5000), st.floats(4, 60), st.floats(0.4, 1.2)


@given(SOIL, ROD, ROD, THICK, st.floats(3, 100), st.floats(3, 100))
def test_physics_of_rods(rho: float, a: float, b: float, d: float, s: float, t: float) -> None:
    """Longer, less; proportional to the soil; two lie between half of one and one; farther apart, less."""
    one, two = (rod_resistance(rho, x, d) for x in sorted((a, b)))
    assert two <= one and rod_resistance(2 * rho, a, d) == pytest.approx(2 * rod_resistance(rho, a, d))
    near, far = (rods(Rods("E", rho, a, d, 2.0, x, (Pair("E", 1.0),)), ed()) for x in sorted((s, t)))
    assert near.one / 2 < far.resistance <= near.resistance * (1 + 1e-12) and near.resistance < near.one


@given(SOIL, st.floats(20, 500), st.floats(20, 500), st.floats(1, 6), st.floats(1, 6))
def test_physics_of_rings(rho: float, a: float, b: float, h: float, k: float) -> None:
    """A longer ring and a deeper one have less."""
    small, large = sorted((a, b))
    up, down = sorted((h, k))
    r = ring_resistance(Ring("E", rho, small, "2", up), ed()).resistance
    assert ring_resistance(Ring("E", rho, large, "2", up), ed()).resistance <= r * (1 + 1e-12)
    assert ring_resistance(Ring("E", rho, small, "2", down), ed()).resistance <= r * (1 + 1e-12)


# ---------------------------------------------------------------------------------------------------------------- neutrals
PLACES = "abcdefgh"
TIES = st.lists(st.tuples(st.sampled_from(PLACES), st.sampled_from(PLACES)), max_size=14)


@given(TIES, st.integers(0, 13))
def test_an_open_pole_never_joins_islands(ties: list[tuple[str, str]], which: int) -> None:
    """Opening one tie leaves as many islands or one more; every old island holds the new ones whole."""
    closed = [Tie(a, b, True) for a, b in ties]
    opened = [t._replace(closed=i != which) for i, t in enumerate(closed)]
    before, after = islands(PLACES, closed), islands(PLACES, opened)
    assert len(before) <= len(after) <= len(before) + 1
    assert all(any(set(i) <= set(j) for j in before) for i in after)


@given(TIES)
def test_rings_are_ties_beyond_a_tree(ties: list[tuple[str, str]]) -> None:
    """Euler: ties less places plus islands."""
    closed = [Tie(a, b, True) for a, b in ties]
    assert rings(PLACES, closed) == len(ties) - len(PLACES) + len(islands(PLACES, closed)) >= 0


# ----------------------------------------------------------------------------------------------------------------- refusals
def refused(method: Any, *given: Any) -> str:
    with pytest.raises(CurtilageError) as e:
        method(*given)
    return str(e.value)


def test_what_is_refused() -> None:
    assert "no kind of electrode" in refused(contact, Contact("E", "chain", 9.0, 1.0, "", 0.0, 0.0, False), ed())
    assert "no kind of electrode" in refused(electrode_conductor, Electrode("E", "chain", "", "cu", "", 1e5, ()), view("cu"))
    assert "must be above 0" in refused(rod_resistance, 0.0, 8.0, 0.625)
    assert "must be above 0" in refused(rod_resistance, 100.0, 0.0, 0.625)
    assert "must be above 0" in refused(rod_resistance, 100.0, 8.0, 0.0)
    assert "slender" in refused(rod_resistance, 100.0, 1.0, 2.0)
    assert "spacing" in refused(rods, Rods("E", 100.0, 8.0, 0.625, 2.0, 0.0, (Pair("E", 1.0),)), ed())
    for bad in (Ring("E", 0.0, 90.0, "2", 3.0), Ring("E", 100.0, 0.0, "2", 3.0), Ring("E", 100.0, 90.0, "2", 0.0)):
        assert "must be above 0" in refused(ring_resistance, bad, ed())
    assert "use the other metal" in refused(bonding_jumper, 1.0, "2000", "cu", "al", view("cu"))
