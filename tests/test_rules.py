"""Shapes of rule: what they answer, what they refuse, and that plain, told and bound calculation agree on both.

Numbers are checked against worked examples as printed (named beside each) or against a second writing in this file.
"""
from __future__ import annotations

from collections.abc import Callable
from math import inf, nan
from typing import Any, NamedTuple

from curtilage.calc.conductors.drop import short_drop
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.bound import bound
from curtilage.values.method import method
from curtilage.values.rules import Bands, Formula, Grid, Label, Ladder, Rows, Tiers
from curtilage.values.told import Told, value
from hypothesis import given, settings
from hypothesis import strategies as st
import pytest

ED = Edition.load("nec2023")
VIEWS = [ED.view(name) for name in ED.views()]
LIGHTING = Tiers([[3000, 1.0], [120000, 0.35], [inf, 0.25]], Label("lighting", "a clause", "VA", "Ask"))


def told(shape: Any, *x: Any) -> Told:
    from curtilage.values.rules import Telling
    from curtilage.values.told import Cite
    return Telling("rule", shape, "VA", lambda *_: Cite("a clause", "verified")).told(*x)


# ------------------------------------------------------------------------------------------------------------ single shapes


@pytest.mark.parametrize(("load", "demand"), [
    (9000, 5100),            # NFPA 70 Annex D, Example D1(a), 2005 reprint: 9,000 VA becomes 5,100 VA
    (3000, 3000), (0, 0),
    (120000, 3000 + 117000 * 0.35),
    (200000, 3000 + 40950 + 20000),   # Annex D, D4(a) writes the same steps: 3,000 at 100, 117,000 at 35, the rest at 25 %
])
def test_tiers(load: float, demand: float) -> None:
    assert LIGHTING.plain()(load) == pytest.approx(demand, abs=1e-9)
    assert told(LIGHTING, load).value == LIGHTING.plain()(load)


def test_tiers_say_their_parts() -> None:
    assert LIGHTING.note(9000) == "3000 at 100 % + 6000 at 35 %"
    assert LIGHTING.note(0) == "0"


@given(st.floats(0, 1e7), st.floats(0, 1e7))
def test_tiers_rise_but_less_and_less(a: float, b: float) -> None:
    low, high = sorted((a, b))
    f = LIGHTING.plain()
    assert f(low) <= f(high) <= f(low) + (high - low) + 1e-6


def second_range_column(n: int) -> float:
    """Column C of the range table, written by hand from the rule of the 1999 code and its reprints."""
    listed = {1: 8, 2: 11, 3: 14, 4: 17}
    if n in listed:
        return listed[n]
    return 15 + n if n <= 40 else 25 + 0.75 * n


@pytest.mark.parametrize("n", [1, 2, 3, 4, 5, 12, 25, 26, 30, 31, 40, 41, 50, 60, 61, 200])
def test_range_demand(n: int) -> None:
    assert ED.range_demand(n) == second_range_column(n)


def test_range_demand_as_printed() -> None:
    """NFPA 70 Annex D (2005 reprint): D4(a) has 10 ranges 25 kW, 20 ranges 35 kW, 40 ranges 55 kW; D6 has 24 ranges 39 kW, and
    30 ranges 45 kW before the note raises them to 49.5 kW."""
    assert [ED.range_demand(n) for n in (10, 20, 40, 24, 30)] == [25, 35, 55, 39, 45]


@pytest.mark.parametrize(("n", "percent"), [(1, 100), (4, 100), (5, 85), (11, 47), (12, 46), (17, 41), (23, 35), (24, 34.5),
                                            (42, 25.5), (43, 25), (100, 25)])
def test_dryer_factor(n: int, percent: float) -> None:
    """Table 220.54: 47 % less 1 % a dryer from 12 to 23, 35 % less 0.5 % a dryer from 24 to 42, 25 % from 43."""
    assert ED.dryer_factor(n) == pytest.approx(percent / 100, abs=1e-12)


def test_a_formula_row_says_its_formula() -> None:
    x = TellingEdition(ED).range_demand(27)
    assert (x.value, x.note) == (42.0, "27 falls in the row over 25 up to 30: 15+1n")
    assert Formula(47, -1, 11, "47-(n-11)").at(15) == 43


def test_bands() -> None:
    bands = Bands([15, 20, 60], ["14", "12", "10"], Label("ground", "a clause", "A"), 0.0)
    f = bands.plain()
    assert [f(x) for x in (1, 15, 15.1, 20, 21, 60)] == ["14", "14", "12", "12", "10", "10"]
    assert bands.note(20) == "20 falls in the row over 15 up to 20"
    assert bands.row(1) == 0 and bands.row(60) == 2


def test_ladders() -> None:
    sizes = (15, 20, 25, 30)
    up, down = Ladder(sizes), Ladder(sizes, down=True)
    assert [up.plain()(x) for x in (0, 14.9, 15, 15.01, 30)] == [15, 15, 15, 20, 30]
    assert [down.plain()(x) for x in (15, 19.9, 20, 99)] == [15, 15, 20, 30]
    assert up.note(22) == "next at or above 22 is 25; 20 is below 22"
    assert down.note(22) == "largest not above 22 is 20; 25 is above 22"


@given(st.floats(0, 6000))
def test_a_ladder_is_the_next_size(x: float) -> None:
    """Second method: the smallest of all sizes that are not below."""
    sizes = [s for s in ED.raw_shape("standard_rating").sizes if s >= x]
    assert ED.standard_rating(x) == min(sizes)


def test_rows_and_the_rest() -> None:
    rows = Rows({"14": 15.0, "12": 20.0}, Label("small", "a clause"), rest=inf, others=["14", "12", "4/0"])
    assert rows.plain()["14"] == 15 and rows.plain()["4/0"] == inf
    assert rows.note("14") == "row 14" and rows.note("4/0") == "the table has no limit for 4/0"
    assert rows.row("4/0") is None


def test_a_grid() -> None:
    grid = Grid({1.5: {115.0: 20.0, 230.0: 10.0}, 2.0: {230.0: 12.0}}, Label("current", "a clause", "hp"))
    assert grid.plain()(1.5, 230.0) == 10
    assert told(grid, 1.5, 230.0).note == "row 1.5, column 230"
    with pytest.raises(CurtilageError, match=r"current \(a clause\): nothing for 3 hp; its rows are 1\.5, 2"):
        grid.plain()(3.0, 230.0)
    with pytest.raises(CurtilageError, match="no value at 115, only at 230"):
        grid.plain()(2.0, 115.0)


# -------------------------------------------------------------------------------------------- what lies outside is refused


OUTSIDE: dict[str, tuple[Callable[[Any], Any], str]] = {
    "above a ladder": (lambda e: e.standard_rating(6001.0), r"standard_rating \(NFPA 70-2023 240\.6\(A\)\): nothing for 6001 A; "
                       r"the standard sizes run from 10 to 6000 A"),
    "below a ladder": (lambda e: e.standard_rating(-1.0), "nothing for -1 A"),
    "not a number": (lambda e: e.standard_rating(nan), "nothing for nan A"),
    "too hot": (lambda e: e.ambient_factor60(56.0), r"nothing for 56 degC; the table goes up to 55 degC"),
    "nothing to bundle": (lambda e: e.bundling_factor(0), "nothing for 0"),
    "no dryer": (lambda e: e.dryer_factor(0), "nothing for 0"),
    "no range": (lambda e: e.range_demand(0), "nothing for 0"),
    "device too large": (lambda e: e.egc_cu(6001.0), "nothing for 6001 A; the table goes from 0 up to 6000 A"),
    "negative load": (lambda e: e.general_demand(-0.5), "nothing for -0.5 VA"),
    "no such size": (lambda e: e.cmil["4/00"], r"nothing for '4/00'; its rows are .* did you mean 4/0\?"),
    "no such row": (lambda e: e.r_cu_pvc["700"], "nothing for '700'"),
}


@pytest.mark.parametrize("case", OUTSIDE)
def test_outside_is_an_error_and_the_same_one_told(case: str) -> None:
    look, message = OUTSIDE[case]
    with pytest.raises(CurtilageError, match=message) as plain:
        look(ED)
    with pytest.raises(CurtilageError) as explained:
        look(TellingEdition(ED))
    assert str(plain.value) == str(explained.value)
    assert type(plain.value) is type(explained.value)


@given(st.floats(allow_nan=True, allow_infinity=True))
def test_no_look_up_fails_otherwise(x: float) -> None:
    """Any number is answered or refused by a `CurtilageError`; nothing else comes out."""
    for name in ("standard_rating", "ambient_factor75", "bundling_factor", "dryer_factor", "range_demand", "general_demand"):
        try:
            found = getattr(ED, name)(x)
        except CurtilageError:
            continue
        assert found == getattr(TellingEdition(ED), name)(x).value or found != found


# -------------------------------------------------------------------------------------------------------------- told twins


def test_one_answer_is_one_node() -> None:
    e = TellingEdition(ED)
    assert e.unit_load is e.unit_load
    assert e.cmil["4/0"] is e.cmil["4/0"]
    size = Told("size", "4/0", "size", "given")
    assert e.cmil[size] is e.cmil[size] and e.cmil[size] is not e.cmil["4/0"]
    assert e.cmil[size].inputs == (size,)


def test_a_cell_tells_its_own_status() -> None:
    """The cells of 310.16 from 1250 kcmil up were read in one source, those below in two."""
    e = TellingEdition(ED)
    assert e.ampacity75_cu["4/0"].cite.status == "verified"
    assert e.ampacity75_cu["1250"].cite.status == "seen once"
    assert e.dryer_factor(15).cite.status == "verified"
    assert e.dryer_factor(30).cite.status == "from memory"
    assert e.ampacity75_cu["4/0"].cite.where == "NFPA 70-2023 Table 310.16"


def test_a_told_view_keeps_the_names_of_the_view() -> None:
    m = TellingEdition(ED).view(Told("kind", "al-pvc", "text", "given"))
    assert m.ampacity75["4/0"].symbol == "ampacity75[4/0]" and m.ampacity75["4/0"].value == 180
    assert m.standard_rating(33.0).symbol == "standard_rating(33)"
    start = Told("start", "500", "size", "given")
    larger = [s.value for s in m.from_size[start]]
    assert larger[:2] == ["500", "600"] and larger == list(ED.view("al-pvc").from_size["500"])
    assert m.from_size[start][0].inputs == (start,)


# ------------------------------------------------------------------------------------------------------------------- bound

HALF: u.ratio = 0.5


@method
def drop(R: u.ohm_per_kft, I: u.A, L: u.ft):
    V_d: u.V = 2 * R * I * L / 1000.0
    return V_d


@method
def halved(x: u.A):
    y: u.A = HALF * x
    return y


@method
def squared(x: u.A):
    y: u.A = x * x
    return y


@method
def protected(I: u.A, s, m, ed):
    rated: u.A = ed.standard_rating(I)
    limit: u.A = m.small_limit[s]
    ok: u.flag = rated <= limit and rated <= m.standard_rating(m.ampacity75[s])
    return ok


@method
def chosen(I: u.A, L: u.ft, ambient: u.degC, n: u.count, m, ed):
    f_t: u.ratio = ed.ambient_factor90(ambient)
    f_n: u.ratio = m.bundling_factor(n)
    for s in m.sizes:
        I_z: u.A = min(m.ampacity90[s] * f_t * f_n, m.ampacity75[s])
        V_d: u.V = drop(m.r[s], I, L)
        share: u.ratio = 100 * V_d / 240
        held: u.flag = protected(I, s, m, ed)
        if I_z >= I and share <= ed.drop_limit_feeder and held:
            size: u.size = s
            break
    else:
        raise CurtilageError(f"nothing carries {value(I):g} A")
    ground: u.size = m.egc(ed.standard_rating(I))
    D: u.VA = ed.general_demand(240 * I) * ed.dryer_factor(n)
    odd: u.A = squared(halved(I))
    I: u.A = ed.fixed_factor * I
    later: u.A = ed.standard_rating(I)
    return size, ground, D, odd, later


@method
def two_views(I: u.A, m, ed):
    a: u.flag = protected(I, "4/0", m, ed)
    other = ed.view("cu-pvc")
    b: u.flag = protected(I, "4/0", other, ed)
    return a, b


@method
def refused(I: u.A, ed):
    rated: u.A = ed.standard_rating(I)
    if rated > 10:
        raise CurtilageError(f"{value(I):g} A is too much")
    return rated


def outcome(f: Callable[..., Any], *args: Any) -> Any:
    try:
        return f(*args)
    except CurtilageError as e:
        return str(e)


CASES = st.tuples(st.floats(-50, 9000), st.floats(0, 600), st.floats(-10, 90), st.integers(0, 60))


@settings(max_examples=150)
@given(CASES, st.sampled_from(VIEWS))
def test_plain_told_and_bound_agree(case: tuple[float, float, float, int], view: Any) -> None:
    """Equal to the last bit, and where a rule has no answer, the same message."""
    plain = outcome(chosen, *case, view, ED)
    e = TellingEdition(ED)
    assert outcome(bound(chosen, ED, view), *case, view, ED) == plain
    assert outcome(bound(chosen, ED), *case, view, ED) == plain
    explained = outcome(chosen.told, *case, e.view(view.name), e)
    assert (explained if isinstance(explained, str) else value(explained)) == plain


class Manager(NamedTuple):
    """A record that a method also calls `m`."""
    load: u.A


@method
def managed(m):
    used: u.A = 2 * m.load
    return used


@method
def elsewhere(I: u.A, L: u.ft, x, ed):
    V_d: u.V = short_drop(0.1, I, L)                  # a method of another module, with a constant of that module
    used: u.A = managed(x)                            # `m` is no view there
    rated: u.A = ed.standard_rating(used)
    return V_d, used, rated


def test_bound_across_modules_and_records() -> None:
    x = Manager(16.0)
    assert bound(elsewhere, ED)(10.0, 100.0, x, ED) == elsewhere(10.0, 100.0, x, ED) == (0.2, 32.0, 35.0)
    assert "FT_PER_KFT" not in bound(elsewhere, ED).__code__.co_names


@pytest.mark.parametrize("name", ED.views())
def test_a_view_of_another_material_is_not_mixed_up(name: str) -> None:
    view = ED.view(name)
    for amps in (160.0, 190.0, 226.0):
        assert bound(two_views, ED, view)(amps, view, ED) == two_views(amps, view, ED)


def test_bound_puts_the_numbers_in() -> None:
    f = bound(chosen, ED, VIEWS[0])
    names = set(f.__code__.co_names)
    assert "drop_limit_feeder" not in names and "standard_rating" not in names and "ampacity90" not in names
    assert bound(chosen, ED, VIEWS[0]) is f
    assert bound(chosen, ED, VIEWS[1]) is not f
    assert bound(chosen, Edition.load("nec2026"), Edition.load("nec2026").view("cu-pvc")) is not f


def test_bound_keeps_the_line_numbers() -> None:
    """An error raised in the bound method stands at the line of the source."""
    import traceback
    with pytest.raises(CurtilageError) as e:
        bound(refused, ED)(16.0, ED)
    raised = traceback.extract_tb(e.value.__traceback__)[-1]
    assert "is too much" in (raised.line or "") and raised.filename == __file__
