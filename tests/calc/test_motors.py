"""Motors: the code's tables, published examples, a second writing, a second method for the dip, and what must always hold."""
from cases_motors import PUMP, START
from curtilage.calc.conductors.drop import dip as short_form
from curtilage.calc.motors.circuit import fuse_limits, locked_rotor, motor, overload
from curtilage.calc.motors.elevators import drive_current, elevator_feeder
from curtilage.calc.motors.records import MotorFeeder, OnFeeder, Stretch
from curtilage.calc.motors.starting import dip_at, start
from curtilage.calc.motors.together import motor_feeder
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given, settings
from hypothesis import strategies as st
import numpy as np
import plainly_motors as plain
import pytest

ED = Edition.load("nec2023")
HP = sorted(set(plain.ONE) & set(plain.LOCKED_ONE))
OHMS = st.floats(0.0005, 0.4)


# ------------------------------------------------------------------------------------------------------------ by the code
def test_annex_d8():
    """NEC 2011 Annex D, D8: 25 hp squirrel cage on 460 V: fuses 110 (125) and 60 (70) A, overload 40.0 A; feeder fuse 175 A."""
    r = motor(PUMP._replace(hp=25.0, volts=480.0, phases=3, kind="squirrel_cage_other", fla=32.0), ED)
    assert (r.table, r.fuse, r.fuse_most, r.dual, r.dual_most) == (34, 110, 125, 60, 70)
    assert r.overload == pytest.approx(40.0)
    feeder = motor_feeder(MotorFeeder("D8", (OnFeeder("25", 34, 110), OnFeeder("30a", 40, 60), OnFeeder("30b", 40, 60))), ED)
    assert feeder.most == 175 and feeder.conductor == pytest.approx(124)         # 190 A, next size down


def test_three_horsepower_on_115_volts():
    """EC&M, Motor Calculations Part 2 (May 2004): 34 A by Table 430.248, 42.5 A of conductor, 60 A dual-element fuse."""
    r = motor(PUMP._replace(hp=3.0, volts=120.0, fla=31.0), ED)
    assert (r.table, r.conductor, r.dual) == (34, 42.5, 60)


def test_overload_without_a_service_factor():
    """430.32(A)(1), (C): 115 and 130 % where the plate promises nothing; a low rise does as well as a service factor."""
    assert overload(20.0, 0.0, False, ED) == pytest.approx((23.0, 26.0))
    assert overload(20.0, 1.0, True, ED) == pytest.approx((25.0, 28.0))
    assert overload(20.0, 1.15, False, ED) == pytest.approx((25.0, 28.0))


def test_a_larger_fuse_is_never_below_the_standard_one():
    """Small motors: 400 % of 2.2 A is less than the smallest fuse."""
    old = Edition.load("nec2020")                                           # 10 A became a standard rating in 2023
    assert fuse_limits(2.2, "single_phase", "fuse", 4.0, old) == (15, 15)
    assert fuse_limits(2.2, "single_phase", "fuse", 4.0, ED) == (10, 10)
    assert fuse_limits(4.9, "single_phase", "fuse", 4.0, ED) == (15, 15)


def test_locked_rotor_by_letter_brackets_the_table():
    """Letters G and H of single-phase motors of 5 hp (5.6 to 7.09 kVA/hp) stand below the 168 A of Table 430.251(A)."""
    g, h = (locked_rotor(PUMP._replace(letter=x), ED) for x in "GH")
    assert g.low == pytest.approx(5.6 * 5000 / 230) and h.high == pytest.approx(7.09 * 5000 / 230)
    assert locked_rotor(PUMP, ED).high == 168 and locked_rotor(PUMP._replace(lra=149.0, letter="G"), ED).rule == "nameplate"


@pytest.mark.parametrize(("change", "words"), [
    ({"hp": 0.25}, "nothing for 0.25"), ({"hp": 4.0}, "4"), ({"volts": 277.0}, "277"), ({"letter": "V"}, "'V'")])
def test_what_the_tables_do_not_have_is_refused(change, words):
    x = PUMP._replace(**change)
    with pytest.raises(CurtilageError, match=words):
        locked_rotor(x, ED)
    if change.keys() == {"volts"} or x.hp == 4.0:
        with pytest.raises(CurtilageError, match=words):
            motor(x, ED)


def test_a_start_without_current_is_refused():
    with pytest.raises(CurtilageError, match="no start"):
        start(START._replace(current=0.0), ED)
    with pytest.raises(CurtilageError, match="no stretch"):
        start(START._replace(board="XX"), ED)


# --------------------------------------------------------------------------------------------------------- written twice
@settings(max_examples=80)
@given(st.sampled_from(HP), st.sampled_from([120.0, 240.0]), st.floats(1, 60), st.sampled_from([0.0, 1.0, 1.15, 1.25]),
       st.sampled_from(["", *"ACGHJU"]), st.sampled_from([0.0, 149.0]))
def test_the_second_writing_agrees(hp, volts, plate, factor, letter, lra):
    ours = motor(PUMP._replace(hp=hp, volts=volts, fla=plate, service_factor=factor, letter=letter, lra=lra), ED)
    theirs = plain.devices(hp, volts, 1)
    assert ours.table == plain.full_load(hp, volts, 1) and ours.conductor == pytest.approx(1.25 * ours.table)
    assert (ours.fuse, ours.fuse_most) == theirs["fuse"] and (ours.dual, ours.dual_most) == theirs["dual"]
    assert (ours.breaker, ours.breaker_most) == theirs["breaker"]
    assert (ours.overload, ours.overload_most) == pytest.approx(plain.overload(plate, factor))
    found = locked_rotor(PUMP._replace(hp=hp, volts=volts, letter=letter, lra=lra), ED)
    assert (found.low, found.high) == pytest.approx(plain.locked(hp, volts, lra, letter))


@settings(max_examples=60)
@given(st.lists(st.tuples(st.floats(2, 80), st.sampled_from(plain.RATINGS[:16])), min_size=1, max_size=8))
def test_feeders_written_twice(motors):
    ours = motor_feeder(MotorFeeder("F", tuple(OnFeeder(f"m{i}", a, d) for i, (a, d) in enumerate(motors))), ED)
    assert (ours.conductor, ours.most) == pytest.approx(plain.feeder(motors))


@settings(max_examples=40)
@given(st.integers(2, 12), st.floats(10, 200), st.sampled_from([208.0, 460.0, 480.0]), st.floats(0.8, 1), st.floats(0.5, 1),
       st.floats(1, 20))
def test_elevators_written_twice(n, kva, volts, efficiency, demand, controller):
    one = drive_current(kva, volts, efficiency)
    ours = elevator_feeder(n, one, demand, controller, ED)
    assert (one, ours.feeder) == pytest.approx(plain.elevators(n, kva, volts, efficiency, demand, controller))


def test_annex_d10():
    """NEC 2011 Annex D, D10: six elevators, 95 kVA at 460 V and 90 %, 10 A: 132.48 A, 702.97 A (with 1.732: 132.49, 702.98)."""
    one = drive_current(95.0, 460.0, 0.9)
    assert one == pytest.approx(95_000 / (1.732 * 460 * 0.9), rel=1e-4)
    assert elevator_feeder(6, one, 0.79, 10.0, ED).feeder == pytest.approx(702.98, abs=0.02)


def chain(ohms):
    names = ["transformer", "lateral", *(f"F{i}" for i in range(len(ohms) - 3)), "terminals"]
    return tuple(Stretch(n, r, x, r, x) for n, (r, x) in zip(names, ohms, strict=True))


CHAINS = st.lists(st.tuples(OHMS, OHMS), min_size=4, max_size=6).map(chain)


def started(way, inrush=168.0, pf=0.5, volts=240.0):
    return start(START._replace(stretches=way, current=inrush, pf=pf, volts=volts, board=way[-2].id), ED)


@settings(max_examples=60)
@given(CHAINS, st.floats(5, 400), st.floats(0.1, 1.0))
def test_dips_written_twice(way, inrush, pf):
    ours = started(way, inrush, pf)
    current, theirs = plain.dips(240.0, inrush, pf, [(t.id, complex(t.r_out + t.r_back, t.x_out + t.x_back)) for t in way])
    assert ours.current == pytest.approx(current)
    assert {n.id: n.dip for n in ours.nodes} == pytest.approx(theirs, abs=1e-9)
    assert ours.dip == pytest.approx(theirs["terminals"], abs=1e-9) and ours.gear == dip_at(ours.nodes, "lateral")


@settings(max_examples=40)
@given(CHAINS, st.floats(5, 400), st.floats(0.1, 1.0))
def test_the_nodal_method_agrees(way, inrush, pf):
    """A second method: the admittance matrix of every stretch and of the motor, solved at once."""
    n = len(way)
    Y, J = np.zeros((n, n), complex), np.zeros(n, complex)
    for i, t in enumerate(way):
        y = 1 / complex(t.r_out + t.r_back, t.x_out + t.x_back)
        Y[i, i] += y
        if i:
            Y[i - 1, i - 1] += y
            Y[i, i - 1] -= y
            Y[i - 1, i] -= y
        else:
            J[0] += 240.0 * y
    Y[-1, -1] += 1 / (230.0 / inrush * complex(pf, (1 - pf ** 2) ** 0.5))
    volts = np.abs(np.linalg.solve(Y, J))
    assert [p.volts for p in started(way, inrush, pf).nodes] == pytest.approx(list(volts), rel=1e-9)


# ----------------------------------------------------------------------------------------------------- what always holds
def longer(way, by):
    last = way[-1]
    return (*way[:-1], Stretch(last.id, *(by * z for z in last[1:])))


@settings(max_examples=60)
@given(CHAINS, st.floats(5, 300), st.floats(1.01, 4))
def test_a_longer_run_dips_more(way, inrush, by):
    near, far = started(way, inrush), started(longer(way, by), inrush)
    assert far.dip >= near.dip - 1e-9 and far.current <= near.current + 1e-9
    assert far.gear <= near.gear + 1e-9                                    # what flows is less, so the neighbours see less


@settings(max_examples=60)
@given(CHAINS, st.floats(5, 300), st.floats(1.01, 3))
def test_a_larger_motor_dips_more_and_the_way_up_dips_less(way, inrush, by):
    one, two = started(way, inrush), started(way, by * inrush)
    assert two.dip >= one.dip - 1e-9 and two.gear >= one.gear - 1e-9
    dips = [n.dip for n in one.nodes]
    assert dips == sorted(dips) and one.gear <= one.board <= one.dip


@settings(max_examples=40)
@given(CHAINS, st.floats(2, 30))
def test_the_short_form_is_met_where_dips_are_small(way, inrush):
    """IEEE Std 141: with a dip of a few percent the constant current of the short form and the constant impedance agree."""
    ours = started(way, inrush)
    R, X = sum(t.r_out + t.r_back for t in way), sum(t.x_out + t.x_back for t in way)
    short = short_form(R, X, 0.5, inrush * 240 / 230, 240.0)
    if short < 4:
        assert ours.dip == pytest.approx(short, rel=2 * short / 100 + 0.02)


def test_a_printed_dip():
    """Duquesne Light lesson on flicker: 5 hp, 0.06 ohm, 96 A: 6 V (5.76 V by its own figures); the falling current takes 2 %."""
    way = (Stretch("transformer", 0.0, 0.06, 0.0, 0.0), Stretch("lateral", 0.0, 0.0, 0.0, 0.0), Stretch("terminals", 0, 0, 0, 0))
    ours = start(START._replace(stretches=way, current=96.0 * 230 / 240, pf=0.05, board="lateral"), ED)
    assert 240 - ours.volts == pytest.approx(5.76, rel=0.03)


@settings(max_examples=60)
@given(st.sampled_from(HP), st.sampled_from([120.0, 240.0]))
def test_more_horsepower_never_asks_for_a_smaller_device(hp, volts):
    i = HP.index(hp)
    small, large = (motor(PUMP._replace(hp=x, volts=volts), ED) for x in (hp, HP[min(i + 1, len(HP) - 1)]))
    assert locked_rotor(PUMP._replace(hp=HP[min(i + 1, len(HP) - 1)], volts=volts), ED).high >= locked_rotor(
        PUMP._replace(hp=hp, volts=volts), ED).high
    for field in ("table", "conductor", "fuse", "fuse_most", "dual", "dual_most", "breaker", "breaker_most"):
        assert getattr(large, field) >= getattr(small, field), field
    assert small.breaker <= small.breaker_most and small.fuse <= small.fuse_most and small.dual <= small.dual_most
