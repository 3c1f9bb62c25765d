"""Ways of feeding a long run: a second writing, what must always hold, and one estate in which they are laid side by side."""
from cases_alternatives import OPTION, PAIR, WAY
from curtilage.calc.alternatives.pair import pair
from curtilage.calc.alternatives.records import Local, Run
from curtilage.calc.alternatives.weigh import far_fault, local_source, long_run, loss_factor, weigh
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_alternatives as plain
import pytest

ED = Edition.load("nec2023")
KVA = st.sampled_from(sorted(plain.EFFICIENCY))
SMALL = st.floats(0.001, 0.2)


@settings(max_examples=80)
@given(KVA, st.floats(500, 200_000), st.floats(0.5, 1), SMALL, SMALL)
def test_a_pair_written_twice(kva, va, pf, r, x):
    ours = pair(PAIR._replace(rating=float(kva), va=va, pf=pf, r_ll=r, x_ll=x), ED)
    theirs = plain.pair(va, pf, kva, 3.0, complex(r, x))
    assert {k: getattr(ours, k) for k in theirs} == pytest.approx(theirs)
    assert ours.fits == (va <= 1000 * kva)


@settings(max_examples=60)
@given(st.floats(100, 20_000), SMALL, st.floats(0, 500), st.floats(0, 500))
def test_a_year_written_twice(va, r, no_load, winding):
    ours = weigh(OPTION._replace(va=va, r_line=r, no_load=no_load, winding=winding), ED)
    assert ours.losses == pytest.approx(plain.year(no_load, winding, r, va / 240))


@settings(max_examples=60)
@given(*[SMALL] * 6)
def test_the_far_fault_written_twice(a, b, c, d, e, f):
    assert far_fault(WAY._replace(r_ln=a, x_ln=b, r_line=c, x_line=d, r_ground=e, x_ground=f)).lg == pytest.approx(
        plain.far(480, complex(a, b), complex(c, d), complex(e, f)))


@given(st.floats(100, 20_000), st.floats(0.5, 1))
def test_the_balance_of_a_day_written_twice(va, pf):
    assert local_source(Local("EG", va, pf), ED)._asdict() == pytest.approx(plain.sun(va, pf))


def test_efficiency_at_the_load_of_the_rule():
    """10 CFR 431.196(a)(2): what the losses were made from comes back: 98.0 % of a 25 kVA unit at 35 % of its load."""
    r = pair(PAIR._replace(va=0.35 * 25_000), ED)
    assert 8750 / (8750 + (r.no_load + r.winding) / 2) == pytest.approx(0.98)


def test_the_loss_factor_lies_between_its_bounds():
    """Of a steady load it is the square of the load factor, of one that is on or off the load factor itself."""
    for load in (0.1, 0.3, 0.7):
        assert load ** 2 < loss_factor(load, ED) < load
    assert loss_factor(1.0, ED) == pytest.approx(1) and loss_factor(0.0, ED) == 0


@settings(max_examples=60)
@given(st.floats(0.01, 0.2), st.floats(1.01, 3), st.floats(100, 10_000))
def test_a_larger_conductor_loses_less_and_a_larger_load_more(r, by, va):
    one = weigh(OPTION._replace(r_line=r, va=va), ED)
    assert weigh(OPTION._replace(r_line=r / by, va=va), ED).losses < one.losses < weigh(
        OPTION._replace(r_line=r, va=by * va), ED).losses


@settings(max_examples=60)
@given(KVA, st.floats(500, 15_000), st.floats(1.01, 3))
def test_a_longer_run_has_less_fault(kva, va, by):
    p = pair(PAIR._replace(rating=float(kva), va=va), ED)
    near = WAY._replace(r_ln=p.r_ln, x_ln=p.x_ln)
    far = near._replace(**{k: by * getattr(near, k) for k in ("r_line", "x_line", "r_ground", "x_ground")})
    assert far_fault(far).lg < far_fault(near).lg


def test_what_an_option_fails():
    assert weigh(OPTION, ED).ok
    assert not weigh(OPTION._replace(drop=3.1), ED).drop_ok and not weigh(OPTION._replace(drop=2.0, regulation=1.2), ED).drop_ok
    assert not weigh(OPTION._replace(time=5.1), ED).clears
    assert not weigh(OPTION._replace(device=30.0), ED).grows                # 29.75 A on 30 A


def test_long_and_light():
    """The gate: 1,240 ft at 26 A on 205 A. A short one, and one that is loaded, are left alone."""
    assert long_run(Run("EG", 1240.0, 26.25, 205.0), ED).offered
    assert not long_run(Run("SY", 12.0, 10.75, 65.0), ED).offered and not long_run(Run("MH", 265.0, 418.0, 620.0), ED).offered


def test_ratings_without_a_row_are_refused():
    with pytest.raises(CurtilageError, match="dry_efficiency"):
        pair(PAIR._replace(rating=10.0), ED)
