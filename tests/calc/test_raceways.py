"""Raceways: plain, told and bound agree with a second writing on random ones; published tables; what must hold of any of them.

Published counts: NFPA 70 Annex C Table C.1 (EMT, THHN), 54 cells as reprinted at voltagelab.com; Table C.8 (RMC), 3/4 in and
12 AWG: 16, steeltubeinstitute.org; a nipple of 2 in IMC for 163.75 conductors of 12 AWG, forum thread 121750 on note 7.
"""
from typing import Any

from cases_raceways import RACEWAY, SECTION, buried
from curtilage.calc.raceways.cover import cover
from curtilage.calc.raceways.expansion import expansion
from curtilage.calc.raceways.fill import (
    area_of_circle,
    count_alike,
    diameter_of_area,
    empty_raceway,
    fit,
    jam,
    lie,
    most_alike,
    raceway,
)
from curtilage.calc.raceways.records import Duct, Exposed, Raceway, Wire
from curtilage.calc.raceways.trench import trench
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError
from curtilage.values.bound import bound
from curtilage.values.given import Given
from curtilage.values.told import value
from hypothesis import assume, given, settings
from hypothesis import strategies as st
import plainly_raceways as plainly
import pytest

ED = Edition.load("nec2023")
TOLD = TellingEdition(ED)
KINDS = st.sampled_from(("emt", "imc", "rmc", "fmc", "lfmc", "lfnc-a", "lfnc-b", "pvc40", "pvc80", "hdpe"))
SIZES = st.sampled_from(("14", "12", "10", "8", "6", "4", "2", "1/0", "4/0", "250", "500", "750"))
COUNTS = st.integers(1, 6)
WIRES = st.one_of(
    st.builds(lambda n, s, i: Wire("w", n, s, i, False, 0.0, n, "cu"), COUNTS, SIZES,
              st.sampled_from(("thwn-2", "xhhw-2", "rhw-2", "rhw-2 uncovered", "bare"))),
    st.builds(lambda n, s, i: Wire("w", n, s, i, True, 0.0, 0, "al"), COUNTS, st.sampled_from(("6", "1/0", "250", "500")),
              st.sampled_from(("thwn-2", "xhhw-2"))),
    st.builds(lambda n, d: Wire("w", n, "", "", False, d, 0, ""), COUNTS, st.floats(0.1, 1.5)))
RACEWAYS = st.builds(
    lambda wires, size, length: Raceway("R", size, length, tuple(w._replace(id=f"w{i}") for i, w in enumerate(wires))),
    st.lists(WIRES, min_size=1, max_size=4), st.sampled_from(("", "", "2", "4")), st.sampled_from((0.0, 1.5, 2.0, 2.1, 300.0)))


def or_refusal(f: Any, *args: Any) -> Any:
    try:
        return f(*args)
    except CurtilageError as e:
        return str(e)


def agree(ours: Any, second: dict[str, Any]) -> None:
    for name, x in second.items():
        got = getattr(ours, name)
        assert got == (pytest.approx(x, rel=1e-9, abs=1e-9) if isinstance(x, float) else x), name


def view(kind: str) -> Any:
    return ED.view(f"raceway-{kind}")


# ----------------------------------------------------------------------------------------------------- the second writing
@settings(max_examples=200)
@given(r=RACEWAYS, kind=KINDS)
def test_a_raceway_twice(r: Raceway, kind: str) -> None:
    assume(r.size in ("", *view(kind).sizes))
    m = view(kind)
    plain = or_refusal(raceway, r, m)
    assert or_refusal(bound(raceway, ED, m), r, m) == plain
    assert or_refusal(lambda: value(raceway.told(Given(r, "R"), TOLD.view(f"raceway-{kind}")))) == plain
    if isinstance(plain, str):
        with pytest.raises(LookupError):
            plainly.raceway(r, kind)
    else:
        agree(plain, plainly.raceway(r, kind))


@given(inches=st.floats(0, 48), column=st.sampled_from(("metal", "nonmetallic", "direct")), service=st.booleans(),
       location=st.sampled_from(list(plainly.COVER)), ribbon=st.sampled_from((0.0, 11.9, 12.0)))
def test_cover_twice(inches: float, column: str, service: bool, location: str, ribbon: float) -> None:
    b = next(buried())._replace(cover=inches, column=column, service=service, location=location, ribbon=ribbon)
    agree(cover(b, ED), plainly.cover(b))


@given(length=st.floats(0.5, 200), warmest=st.floats(0, 60), coldest=st.floats(-45, -1), fitted=st.booleans())
def test_expansion_twice(length: float, warmest: float, coldest: float, fitted: bool) -> None:
    x = Exposed("R", length, warmest, 16.7, coldest, fitted)
    second = plainly.expansion(x)
    assume(abs(second["change"] - 0.25) > 1e-9)
    agree(expansion(x, ED), second)


@given(ducts=st.integers(0, 12), n=st.tuples(*[st.integers(0, 5)] * 3), at=st.tuples(*[st.floats(-900, 900)] * 4),
       located=st.booleans(), parted=st.sampled_from((0.0, 6.0, 12.0)), rise=st.floats(0, 20))
def test_a_trench_twice(ducts: int, n: tuple[int, ...], at: tuple[float, ...], located: bool, parted: float, rise: float) -> None:
    some = [tuple(Duct(f"{use}{i}", use, "2") for i in range(k)) for use, k in zip(("power", "comm", "spare"), n, strict=True)]
    t = SECTION._replace(ducts=ducts, power=some[0], comm=some[1], spare=some[2], rise=rise, east_a=at[0], north_a=at[1],
                         east_b=at[2], north_b=at[3], located=located, parted=parted)
    agree(trench(t, ED), plainly.trench(t))


# ---------------------------------------------------------------------------------------------------------- published
C_1 = {"14": (12, 22, 35, 61, 84, 138), "12": (9, 16, 26, 45, 61, 101), "10": (5, 10, 16, 28, 38, 63),
       "8": (3, 6, 9, 16, 22, 36), "6": (2, 4, 7, 12, 16, 26), "4": (1, 2, 4, 7, 10, 16), "3": (1, 1, 3, 6, 8, 13),
       "2": (1, 1, 3, 5, 7, 11), "1": (1, 1, 1, 4, 5, 8)}
TRADES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")


@pytest.mark.parametrize("size", C_1)
def test_the_counts_of_annex_c(size: str) -> None:
    m = view("emt")
    area = m.conductor_area_thhn[size]
    assert tuple(count_alike(trade, area, m) for trade in TRADES) == C_1[size]


def test_more_counts_in_print() -> None:
    assert count_alike("3/4", view("rmc").conductor_area_thhn["12"], view("rmc")) == 16
    m = view("imc")
    assert 0.6 * m.whole["2"] / 0.0133 == pytest.approx(163.75, abs=0.02)
    assert most_alike("2", 60.0, 0.0133, m) == 163                       # 0.75 is no 0.8


@pytest.mark.parametrize("trade, size, most", [("1/2", "14", 12), ("1/2", "10", 5), ("3/4", "8", 6), ("1", "10", 16)])
def test_what_annex_c_counts_fits_and_one_more_does_not(trade: str, size: str, most: int) -> None:
    m = view("emt")
    wires = (Wire("w", most, size, "thwn-2", False, 0.0, most, "cu"),)
    assert raceway(Raceway("R", trade, 100.0, wires), m).fill_ok
    assert not raceway(Raceway("R", trade, 100.0, (wires[0]._replace(count=most + 1),)), m).fill_ok


def test_mixed_feeder_in_plastic() -> None:
    """EC&M Code Calculations, 24 August 2004, example 1: 3 x 500, 250 and 3 AWG THHN, 2.6162 in2, in 3 in PVC of 2.907 in2."""
    wires = tuple(Wire(s, n, s, "thwn-2", False, 0.0, 0, "cu") for s, n in (("500", 3), ("250", 1), ("3", 1)))
    r = raceway(Raceway("E01", "", 100.0, wires), view("pvc40"))
    assert (r.size, r.least, r.below) == ("3", "3", "2-1/2")
    assert r.conductors == pytest.approx(2.6162, abs=5e-5) and r.room + r.conductors == pytest.approx(2.907, abs=1e-3)


def test_the_average_of_four_hides_a_jam() -> None:
    """Forum thread on jam ratios: three 750 kcmil of 2.111 in and a 2/0 of 0.402 in, in 6.03 in: 3.0 for three, 3.76 for four."""
    three = jam(4, 2.111, 6.03, view("pvc40"))
    assert round(three.in_bend, 2) == 3.0 and not three.ok
    average = (3 * 2.111 + 0.402) / 4
    assert round(jam(4, average, 6.03, view("pvc40")).in_bend, 2) == 3.76


def test_pvc_by_its_table() -> None:
    """Table 352.44 (recalled): 4.06 in for 100 ft and 100 degF."""
    assert expansion(Exposed("R", 100.0, 100 / 1.8, 0.0, 0.0, False), ED).change == pytest.approx(4.06, abs=0.005)


def test_pvc_as_somebody_worked_it() -> None:
    """Forum thread 135463: 20 to 110 degF, 90 degrees, 3.65 in for 100 ft."""
    warm, cold = (110 - 32) / 1.8, (20 - 32) / 1.8
    assert expansion(Exposed("R", 100.0, warm, 0.0, cold, False), ED).change == pytest.approx(3.65, abs=0.005)


def test_six_conductors_in_one_inch() -> None:
    """electricianmath.com, check values: 1 in EMT with six 10 AWG THW (0.0243 in2 each, as XHHW-2): 0.1458 in2, 16.875 %."""
    r = raceway(Raceway("R", "1", 10.0, (Wire("w", 6, "10", "xhhw-2", False, 0.0, 6, "cu"),)), view("emt"))
    assert (round(r.conductors, 4), round(r.fill, 3)) == (0.1458, 16.875)


@pytest.mark.parametrize("column, location, least", [               # Table 300.5 as printed at UpCodes, underground installations
    ("direct", "other", 24), ("metal", "other", 6), ("nonmetallic", "other", 18), ("nonmetallic", "dwelling_driveways", 18),
    ("metal", "streets_driveways_parking", 24), ("nonmetallic", "under_4in_slab_no_vehicles", 4), ("metal", "under_building", 0)])
def test_cover_by_its_table(column: str, location: str, least: float) -> None:
    b = next(buried())._replace(column=column, location=location, cover=float(least))
    assert cover(b, ED).cover_ok and (least == 0 or not cover(b._replace(cover=least - 0.1), ED).cover_ok)


@pytest.mark.parametrize("table", ["thhn", "xhhw"])
def test_diameters_and_areas_of_table_5_belong_together(table: str) -> None:
    m = view("emt")
    areas, diameters = getattr(m, f"conductor_area_{table}"), getattr(m, f"conductor_diameter_{table}")
    for size in areas:
        assert area_of_circle(diameters[size]) == pytest.approx(areas[size], abs=1.6e-3, rel=1e-2)
        assert diameter_of_area(areas[size]) == pytest.approx(diameters[size], abs=1e-3)


def test_a_raceway_may_be_filled_to_its_limit_and_not_beyond() -> None:
    m = view("emt")
    exact = [s for s in m.sizes if 100 * (0.4 * m.whole[s]) / m.whole[s] == 40.0]
    assert exact
    for s in exact:
        assert fit(s, 3, 0.4 * m.whole[s], 0.2 * m.whole[s], False, False, m).ok
        assert not fit(s, 3, 0.4001 * m.whole[s], 0.2 * m.whole[s], False, False, m).ok


def test_limits_belong_to_those_who_keep_them() -> None:
    """24 in is a nipple; 18 in of cover is enough for PVC and wants a ribbon over a service; 12 in of earth are enough."""
    pair = (Wire("a", 2, "500", "xhhw-2", False, 0.0, 2, "al"), Wire("b", 1, "4", "xhhw-2", False, 0.0, 0, "al"))
    m = view("pvc40")
    assert [raceway(Raceway("R", "3", x, pair), m).share for x in (0.0, 2.0, 2.01)] == [40.0, 60.0, 40.0]
    b = next(buried())._replace(cover=18.0, service=True, ribbon=12.0)
    assert cover(b, ED).cover_ok and cover(b, ED).ribbon_wanted and cover(b, ED).ribbon_ok
    assert not cover(b._replace(ribbon=0.0), ED).ribbon_ok and cover(b._replace(ribbon=0.0, service=False), ED).ribbon_ok
    assert trench(SECTION, ED).apart_ok and not trench(SECTION._replace(parted=11.9), ED).apart_ok
    assert trench(SECTION, ED).left == 0 and trench(SECTION, ED).ducts_ok


# ---------------------------------------------------------------------------------------------------------- invariants
@given(r=RACEWAYS, kind=KINDS, more=WIRES)
def test_one_more_conductor_never_lowers_the_fill(r: Raceway, kind: str, more: Wire) -> None:
    m, larger = view(kind), r._replace(wires=(*r.wires, more._replace(id="more")))
    a, b = or_refusal(raceway, r._replace(size=""), m), or_refusal(raceway, larger._replace(size=""), m)
    assume(not isinstance(a, str) and not isinstance(b, str))
    same = raceway(larger._replace(size=a.size), m)
    assert same.fill > a.fill and same.conductors > a.conductors


@given(r=RACEWAYS, kind=KINDS, more=WIRES)
def test_from_three_on_one_more_never_fits_into_less(r: Raceway, kind: str, more: Wire) -> None:
    """From two conductors to three the share rises; from there on the room only shrinks."""
    m, larger = view(kind), r._replace(size="", wires=(*r.wires, more._replace(id="more")))
    a, b = or_refusal(raceway, r._replace(size=""), m), or_refusal(raceway, larger, m)
    assume(not isinstance(a, str) and not isinstance(b, str) and a.wires >= 3)
    assert m.sizes.index(b.least) >= m.sizes.index(a.least)


@given(r=RACEWAYS, kind=KINDS)
def test_a_larger_conductor_never_fits_a_smaller_raceway(r: Raceway, kind: str) -> None:
    m, order = view(kind), ("14", "12", "10", "8", "6", "4", "2", "1/0", "4/0", "250", "500", "750")
    w = r.wires[0]
    assume(w.size in order[:-1] and not w.compact and len(r.wires) == 1)
    up = w._replace(size=order[order.index(w.size) + 1])
    a, b = or_refusal(raceway, r._replace(size=""), m), or_refusal(raceway, r._replace(size="", wires=(up,)), m)
    assume(not isinstance(a, str) and not isinstance(b, str))
    assert m.sizes.index(b.least) >= m.sizes.index(a.least)


@given(r=RACEWAYS, kind=KINDS, data=st.data())
def test_the_order_does_not_matter(r: Raceway, kind: str, data: st.DataObject) -> None:
    assume(r.size in ("", *view(kind).sizes))
    other = r._replace(wires=tuple(data.draw(st.permutations(r.wires))))
    a, b = or_refusal(raceway, r, view(kind)), or_refusal(raceway, other, view(kind))
    if not isinstance(a, str):
        assert (a.size, a.least, a.fill_ok, a.jam_ok) == (b.size, b.least, b.fill_ok, b.jam_ok)
        assert (a.fill, a.jam) == pytest.approx((b.fill, b.jam))


@given(kind=KINDS, n=COUNTS, size=SIZES)
def test_a_larger_raceway_holds_what_a_smaller_one_does(kind: str, n: int, size: str) -> None:
    m = view(kind)
    x = lie(Wire("w", n, size, "thwn-2", False, 0.0, n, "cu"), m)
    held = [bool(fit(s, n, x.area, x.each, True, False, m).ok) for s in m.sizes]
    assert held == sorted(held)


# ---------------------------------------------------------------------------------------------------------- refusals
def test_what_is_refused() -> None:
    m = view("pvc40")
    line = RACEWAY.wires[0]
    for wires, said in (((line._replace(insulation="other"),), "no table gives the size of a conductor with other"),
                        ((line._replace(compact=True, insulation="rhw-2"),), "with compact rhw-2"),
                        ((line._replace(insulation=""),), "no stated insulation"),
                        ((line._replace(size="7"),), "nothing for '7'"),
                        ((line._replace(count=90),), "fit into no trade size")):
        with pytest.raises(CurtilageError, match=said):
            raceway(RACEWAY._replace(wires=wires), m)
    with pytest.raises(CurtilageError, match="its trade size is not stated"):
        empty_raceway(RACEWAY._replace(wires=()), m)
    for x in (Exposed("R", 0.0, 30.0, 0.0, 0.0, False), Exposed("R", 10.0, 0.0, 0.0, 30.0, False),
              Exposed("R", 10.0, 20.0, 0.0, 20.0, False)):
        with pytest.raises(CurtilageError, match="is not above 0"):
            expansion(x, ED)
