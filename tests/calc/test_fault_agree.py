"""Faults and clearing times against a second writing, dense node equations, physics, and printed figures."""
import math

from curtilage.calc.fault.chain import bolted, node, terminals
from curtilage.calc.fault.clearing import clearing, far_end, inverse_time
from curtilage.calc.fault.margin import margin
from curtilage.calc.fault.records import Device, Far, Fault, Gear, Lateral, Node, Point, Run, Supply, Terminals
from curtilage.calc.fault.transformer import supply
from curtilage.calc.fault.wires import feeder_wire, lateral_wire
from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from hypothesis import given, settings
from hypothesis import strategies as st
from plainly_fault import Net, behind, conductor, longest, loop, transformer, usual
import pytest

ED = Edition.load("nec2023")
SEEN = ("r_ll", "x_ll", "r_ln", "x_ln", "r_ll_least", "x_ll_least", "r_ln_least", "x_ln_least")
SIZES = ("8", "6", "4", "2", "1", "1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600")
LARGE = ("1/0", "2/0", "3/0", "4/0", "250", "300", "350", "400", "500", "600")
ways = st.tuples(st.sampled_from(("cu", "al")), st.sampled_from(("pvc", "aluminium", "steel")))
lengths = st.floats(5, 2000)
units = st.tuples(st.floats(10, 500), st.floats(1, 6), st.floats(0.5, 8))


def supplied(kva=250.0, percent=2.2, x_over_r=2.0, **more):
    known = kva, percent, x_over_r, 240.0, 0.0, 0.0, 10.0, 0.0, 0.0, 0.0, x_over_r, False
    record = Supply("transformer", *known, 0.0, 0.0, 0.0, 0.0)
    return supply(record._replace(**more), ED)


def at_terminals(s) -> Fault:
    return terminals(Terminals("terminals", 240.0, *(getattr(s, name) for name in SEEN)))


def behind_service(up: Fault, w) -> Fault:
    return node(Node("gear", 240.0, *up[6:], w.r_line, w.x_line, w.r_neutral, w.x_neutral, w.r_neutral, w.x_neutral,
                     w.r_line_cold, w.r_neutral_cold))


def behind_feeder(up: Fault, w) -> Fault:
    return node(Node("panel", 240.0, *up[6:], w.r_line, w.x_line, w.r_neutral, w.x_neutral, w.r_ground, w.x_ground,
                     w.r_line_cold, w.r_neutral_cold))


@st.composite
def runs(draw):
    """A feeder and the way it is laid."""
    sets = draw(st.integers(1, 4))
    size = draw(st.sampled_from(LARGE if sets > 1 else SIZES))
    smaller = SIZES[:SIZES.index(size) + 1]
    return Run("F", sets, size, draw(st.sampled_from(smaller)), draw(st.sampled_from(smaller)), draw(lengths)), draw(ways)


@st.composite
def systems(draw):
    """A transformer, service conductors, and a tree of feeders: each with the number of the point it starts at."""
    lateral = Lateral("lateral", draw(st.integers(1, 6)), draw(st.sampled_from(LARGE)), draw(st.sampled_from(LARGE)),
                      draw(st.floats(5, 300)))
    tree = [(draw(st.integers(0, i)), *draw(runs())) for i in range(draw(st.integers(1, 5)))]
    return draw(units), lateral, draw(ways), tree


def view(way):
    return ED.view("-".join(way))


def chain(system) -> list[Fault]:
    unit, lateral, way, tree = system
    points = [behind_service(at_terminals(supplied(*unit)), lateral_wire(lateral, view(way)))]
    for start, run, laid in tree:
        points.append(behind_feeder(points[start], feeder_wire(run, view(laid))))
    return points


# ------------------------------------------------------------------------------------------------------------ second writings


@settings(max_examples=60)
@given(systems())
def test_the_chain_is_the_loop_in_complex_numbers(system):
    unit, service, way, tree = system
    whole, half = transformer(*unit)

    def z(size, laid, feet, sets, cold):
        return conductor(size, *laid, feet, sets, cold)

    loops = []
    for cold in (True, False):
        line, back = (z(s, way, service.length, service.sets, cold) for s in (service.size, service.neutral))
        loops.append([(whole + loop((line, line)), half + loop((line, back)), half + loop((line, back)))])
    for start, run, laid in tree:
        for cold, seen in zip((True, False), loops, strict=True):
            line, back, ground = (z(s, laid, run.length, run.sets, cold) for s in (run.size, run.neutral, run.ground))
            up = seen[start]
            seen.append((up[0] + loop((line, line)), up[1] + loop((line, back)), up[2] + loop((line, ground))))
    for f, most, least in zip(chain(system), *loops, strict=True):
        assert f.ll == pytest.approx(240 / abs(most[0]))
        assert f.ln == pytest.approx(120 / abs(most[1]))
        assert f.largest == max(f.ll, f.ln)
        assert f.ll_least == pytest.approx(240 / abs(least[0]))
        assert f.ln_least == pytest.approx(120 / abs(least[1]))
        assert f.lg == pytest.approx(120 / abs(least[2]))


@settings(max_examples=40)
@given(systems())
def test_the_chain_is_a_dense_nodal_solution(system):
    """Three-winding node equations: two coupled halves, every conductor a branch, ground bonded to neutral at the gear alone."""
    unit, service, way, tree = system
    net = Net(0j, *transformer(*unit))
    for wire, size in (("L1", service.size), ("L2", service.size), ("N", service.neutral)):
        net.run(f"0/{wire}", f"1/{wire}", conductor(size, *way, service.length, service.sets))
    for i, (start, run, laid) in enumerate(tree):
        for wire, size in (("L1", run.size), ("L2", run.size), ("N", run.neutral), ("G", run.ground)):
            begins = f"{start + 1}/N" if wire == "G" and start == 0 else f"{start + 1}/{wire}"
            net.run(begins, f"{i + 2}/{wire}", conductor(size, *laid, run.length, run.sets))
    for i, f in enumerate(chain(system)):
        assert f.ll_least == pytest.approx(net.bolted(f"{i + 1}/L1", f"{i + 1}/L2"))
        assert f.ln_least == pytest.approx(net.bolted(f"{i + 1}/L2", f"{i + 1}/N"))
        assert f.lg == pytest.approx(net.bolted(f"{i + 1}/L1", f"{i + 1}/{'G' if i else 'N'}"))


@settings(max_examples=60)
@given(units, st.floats(1000, 40_000), st.floats(2400, 20_000), st.floats(0.5, 20))
def test_a_source_before_the_transformer(unit, amperes, volts, x_over_r):
    """By node equations, too: the network stands before both halves, so a fault to neutral sees a fourth of it."""
    s = supplied(*unit, primary=amperes, primary_volts=volts, primary_x_over_r=x_over_r)
    f, source = at_terminals(s), behind(amperes, volts, x_over_r)
    whole, half = transformer(*unit)
    assert f.ll == pytest.approx(240 / abs(whole + source))
    assert f.ln == pytest.approx(120 / abs(half + source / 4))
    net = Net(source, whole, half)
    assert f.ll == pytest.approx(net.bolted("0/L1", "0/L2"))
    assert f.ln == pytest.approx(net.bolted("0/L1", "0/N")) == pytest.approx(net.bolted("0/L2", "0/N"))
    t = complex(s.r_source + s.r_primary, s.x_source + s.x_primary)
    u = complex(s.r_secondary, s.x_secondary)
    assert 2 * (2 * t + u) == pytest.approx(whole + source) and t + u == pytest.approx(half + source / 4)


@settings(max_examples=60)
@given(units, st.floats(0.2, 0.95), st.floats(0.5, 6), st.floats(0.3, 1))
def test_the_letter_is_given_back(unit, share, x_over_r, weaker):
    """What the utility states at a place is what is found there, and a least current is never above it."""
    let_through = 240 / abs(transformer(*unit)[0])
    I = share * let_through
    s = supplied(*unit, letter=I, letter_x_over_r=x_over_r, letter_least=weaker * I)
    f = at_terminals(s)
    assert f.ll == pytest.approx(I) and f.ll_least == pytest.approx(weaker * I)
    assert not s.stronger and f.ln_least <= f.ln * (1 + 1e-9)
    n = at_terminals(supplied(*unit, letter=I, letter_x_over_r=x_over_r, letter_neutral=1.4 * I))
    assert n.ln == pytest.approx(1.4 * I) and n.ll == pytest.approx(I)


def test_a_letter_at_the_gear():
    w = lateral_wire(Lateral("lateral", 6, "500", "500", 60.0), ED.view("al-pvc"))
    between = {"r_line": w.r_line_cold, "x_line": w.x_line, "r_neutral": w.r_neutral_cold, "x_neutral": w.x_neutral}
    s = supplied(letter=25_000.0, letter_neutral=27_000.0, letter_x_over_r=2.0, at_gear=True, **between)
    gear = behind_service(at_terminals(s), w)
    assert gear.ll == pytest.approx(25_000) and gear.ln == pytest.approx(27_000)
    with pytest.raises(CurtilageError, match="more than the service conductors let through"):
        supplied(letter=300_000.0, letter_x_over_r=2.0, at_gear=True, **between)


def test_what_does_not_fit_is_refused():
    with pytest.raises(CurtilageError, match="primary_volts"):
        supplied(primary=8000.0)
    with pytest.raises(CurtilageError, match="above its available current"):
        supplied(letter=20_000.0, letter_x_over_r=2.0, letter_least=21_000.0)
    with pytest.raises(CurtilageError, match="no current that could be named"):
        bolted(240.0, 0.0, 0.0)
    assert supplied(letter=60_000.0, letter_x_over_r=2.0).stronger


# ------------------------------------------------------------------------------------------------------------------- physics


@settings(max_examples=60)
@given(systems(), st.data())
def test_longer_runs_let_less_through_and_larger_conductors_more(system, data):
    unit, service, way, tree = system
    i = data.draw(st.integers(0, len(tree) - 1))
    start, run, laid = tree[i]
    longer = chain((unit, service, way, [*tree[:i], (start, run._replace(length=run.length * 1.2), laid), *tree[i + 1:]]))
    here, there = chain(system)[i + 1], longer[i + 1]
    for name in ("ll", "ln", "ll_least", "ln_least", "lg"):
        assert getattr(there, name) < getattr(here, name)
    if run.size != SIZES[-1]:
        larger = SIZES[SIZES.index(run.size) + 1]
        grown = chain((unit, service, way, [*tree[:i], (start, run._replace(size=larger), laid), *tree[i + 1:]]))[i + 1]
        assert grown.ll > here.ll and grown.ln > here.ln and grown.lg > here.lg
    big = chain(((unit[0] * 1.3, *unit[1:]), service, way, tree))[i + 1]
    assert big.ll > here.ll and big.ln > here.ln and big.lg > here.lg


@settings(max_examples=60)
@given(systems())
def test_the_fault_falls_downstream_and_warm_conductors_let_less_through(system):
    points = chain(system)
    for i, (start, _, _) in enumerate(system[3]):
        up, f = points[start], points[i + 1]
        assert f.ll < up.ll and f.ln < up.ln and f.lg < up.lg
    for f in points:
        assert f.ll_least < f.ll and f.ln_least < f.ln


@given(units)
def test_a_half_stands_to_the_whole_between_its_two_factors(unit):
    """2 / 1.5 for resistance alone, 2 / 1.2 for reactance alone; between them for everything else, with an infinite primary."""
    f = at_terminals(supplied(*unit))
    assert 2 / 1.5 < f.ln / f.ll < 2 / 1.2


# ------------------------------------------------------------------------------------------------------------ printed figures


def test_the_printed_faults_of_a_25_kva_transformer():
    """T. Gonen, Electric Power Distribution System Engineering, example 3.2 (2nd ed. p. 119): 5,649 A and 8,181.7 A."""
    f = at_terminals(supplied(25.0, 100 * math.hypot(0.014, 0.012), 0.012 / 0.014))
    assert f.ll == pytest.approx(5649, abs=1) and f.ln == pytest.approx(8181.7, abs=1)


def test_the_ieee_8500_node_service_transformer():
    """Windings of R 0.6, 1.2, 1.2 % and X 2.04, 2.04, 1.36 %: by its star, 1.20 + j 1.70 % whole and 1.80 + j 2.04 % a half."""
    primary, secondary = complex(0.6, (2.04 + 2.04 - 1.36) / 2), complex(1.2, 1.36 / 2)
    whole, half = primary + secondary / 2, primary + secondary
    s = supplied(25.0, abs(whole), whole.imag / whole.real)
    base = 120 ** 2 / 25_000 / 100
    assert complex(s.r_half, s.x_half) == pytest.approx(half * base, rel=1e-3)
    assert complex(s.r_secondary, s.x_secondary) == pytest.approx(secondary * base, rel=1e-3)
    assert complex(s.r_primary, s.x_primary) == pytest.approx(primary * base, rel=1e-3)


# ------------------------------------------------------------------------------------------------------------------ clearing

ratings = st.sampled_from((15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 100.0, 150.0, 200.0, 225.0, 400.0, 600.0, 800.0, 1200.0))
curves = st.lists(st.tuples(st.floats(1.5, 20), st.floats(0.1, 200)), max_size=4)
"""The slow side of a curve: nowhere faster than the instantaneous trip."""


def falling(points) -> tuple[Point, ...]:
    """Points from the highest multiple down, the time rising on the way."""
    multiples = sorted({m for m, _ in points}, reverse=True)
    times = sorted(t for _, t in points)[:len(multiples)]
    return tuple(Point(str(i), m, t) for i, (m, t) in enumerate(zip(multiples, times, strict=True)))


@settings(max_examples=200)
@given(ratings, st.floats(1.36, 60), st.none() | st.floats(3, 15), st.floats(0, 50), curves)
def test_the_second_writing_of_the_bounds(rating, multiple, pickup, tolerance, points):
    curve = falling(points)
    amperes = multiple * rating
    c = clearing(Device("F", rating, amperes, pickup or 0.0, tolerance, curve, False, 5.0, 240.0), ED)
    sure = math.inf if curve and pickup is None else (pickup or usual(rating)) * (1 + tolerance / 100)
    assert c.time == pytest.approx(longest(rating, amperes, sure, [(p.multiple, p.time) for p in curve]))
    assert c.ok == (c.time <= 5)
    assert c.sure == pytest.approx((pickup or usual(rating)) * (1 + tolerance / 100))
    assert c.wanted == pytest.approx(c.sure * rating) and c.loop * c.wanted == pytest.approx(120)


@settings(max_examples=100)
@given(ratings, st.floats(1.36, 60), st.floats(1.01, 3), st.none() | st.floats(3, 15), curves)
def test_more_fault_never_takes_longer(rating, multiple, more, pickup, points):
    d = Device("F", rating, multiple * rating, pickup or 0.0, 25.0, falling(points), False, 5.0, 240.0)
    assert clearing(d._replace(fault=more * d.fault), ED).time <= clearing(d, ED).time


@pytest.mark.parametrize(("changes", "by"), [
    ({"gfci": True}, "ground-fault protection for personnel"),
    ({"pickup": 4.0}, "the stated instantaneous trip"),
    ({"fault": 4000.0}, "the instantaneous trip, its pick-up taken at the usual upper end"),
    ({"curve": (Point("0", 5.0, 3.0),)}, "the stated trip curve"),
    ({"curve": (Point("0", 5.0, 300.0),)}, "the longest inverse time that the standards of breakers allow"),
    ({}, "the longest inverse time that the standards of breakers allow"),
])
def test_a_bound_says_what_it_is(changes, by):
    """200 A and 1,100 A, 5.5 times: below what is sure without a statement (14), above a stated 4 with 25 % (5)."""
    d = Device("F", 200.0, 1100.0, 0.0, 25.0, (), False, 5.0, 240.0)
    assert clearing(d._replace(**changes), ED).by == by


def test_the_bounds_of_the_standards():
    """UL 489: 2 min at 200 % up to 30 A, 4 min up to 50 A, 6 min up to 100 A; 1 h at 135 % up to 50 A (from memory)."""
    assert [inverse_time(D, 2.0, ED) for D in (15.0, 30.0, 31.0, 50.0, 60.0, 100.0)] == [120, 120, 240, 240, 360, 360]
    assert inverse_time(50.0, 1.35, ED) == 3600 and inverse_time(60.0, 1.4, ED) == 7200
    with pytest.raises(CurtilageError, match="need not trip at all"):
        inverse_time(60.0, 1.3, ED)


def test_an_element_that_loses_heat_keeps_below_the_square():
    """The bound above 300 % against a body with a time constant: it never takes longer than the bound, whatever the constant."""
    for D in (20.0, 60.0, 200.0):
        at_300 = inverse_time(D, 3.0, ED)
        for constant in (10.0, 100.0, 1000.0, 1e5):
            held = 9 * (1 - math.exp(-at_300 / constant))                       # heat at which it trips, in squares of the rating
            for m in (3.5, 5.0, 8.0, 12.0):
                true = -constant * math.log1p(-held / m ** 2)
                assert true <= inverse_time(D, m, ED) * (1 + 1e-9)


@settings(max_examples=60)
@given(st.sampled_from(("14", "12", "10", "8", "6")), st.floats(1, 600), st.floats(0, 0.3), st.floats(0, 0.2))
def test_the_far_end_of_a_circuit(size, feet, r, x):
    z = complex(r, x) + 2 * conductor(size, "cu", "pvc", feet, 1)
    far = Far("L", 15.0, size, size, feet, r, x, 240.0, 0.0, 40.0, (), True, 5.0)
    assert far_end(far, ED.view("cu-pvc")).fault == pytest.approx(120 / abs(z))


# ------------------------------------------------------------------------------------------------------ another transformer


@settings(max_examples=60)
@given(units, st.integers(1, 6), st.sampled_from(LARGE), st.floats(5, 300), st.floats(10_000, 200_000))
def test_the_margin_is_where_the_rating_is_met(unit, sets, size, feet, rating):
    s = supplied(*unit)
    w = lateral_wire(Lateral("lateral", sets, size, size, feet), ED.view("al-pvc"))
    m = margin(Gear("MSB", rating, 240.0, *unit[:2], s.r_full, s.x_full, s.r_half, s.x_half, w.r_line_cold, w.x_line,
                    w.r_neutral_cold, w.x_neutral))
    assert m.largest == pytest.approx(behind_service(at_terminals(s), w).largest)
    if m.enough:
        at_limit = behind_service(at_terminals(supplied(m.rating_most, *unit[1:])), w)
        assert at_limit.largest == pytest.approx(rating)
        assert behind_service(at_terminals(supplied(unit[0], m.impedance_least, unit[2])), w).largest == pytest.approx(rating)
        assert (m.enough <= 1) == (m.largest <= rating * (1 + 1e-12))
    else:
        line = conductor(size, "al", "pvc", feet, sets, cold=True)
        assert 240 / abs(2 * line) <= rating * (1 + 1e-12)
