"""Grounding and bonding against their second writing, on random input; rods and rings against integration of the potential."""
from functools import cache
from typing import Any

from curtilage.calc.grounding.bonds import one_bond_each
from curtilage.calc.grounding.earth import contact, ring_resistance, rods
from curtilage.calc.grounding.neutrals import Tie, islands
from curtilage.calc.grounding.records import (
    Beyond,
    Bond,
    Bonding,
    Contact,
    Electrode,
    Island,
    Mode,
    Pair,
    Ring,
    Rods,
    Supply,
)
from curtilage.calc.grounding.sizing import bonding, electrode_conductor, supply
from curtilage.editions import Edition
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_grounding as plainly
import pytest

KINDS = ("rod", "plate", "concrete-encased", "ring", "water pipe", "structural metal")
METALS = st.sampled_from(("cu", "al"))
WIRES = st.sampled_from(("", "6", "4", "2", "1/0", "4/0"))
LINES = st.sampled_from(("6", "4", "2", "1/0", "3/0", "4/0", "250", "350", "500", "600", "750", "1000"))
SETS = st.integers(1, 8).map(float)


@cache
def view(metal: str) -> Any:
    return Edition.load("nec2023").view(f"{metal}-pvc")


@cache
def ed() -> Edition:
    return Edition.load("nec2023")


@given(SETS, LINES, METALS)
def test_what_the_supply_asks(n: float, size: str, metal: str) -> None:
    r = supply(Supply("X", n, size), view(metal))
    assert r.area == n * plainly.AREA[size]
    assert (r.copper, r.aluminium) == tuple(plainly.by_table(r.area, metal, wanted) for wanted in ("cu", "al"))


@given(st.sampled_from(KINDS), WIRES, METALS, st.one_of(st.just(""), LINES), st.floats(5e3, 5e6), METALS,
       st.lists(st.tuples(st.sampled_from(KINDS), WIRES), max_size=3))
def test_the_conductor_of_an_electrode(kind: str, wire: str, metal: str, stated: str, area: float, fed: str, on: Any) -> None:
    beyond = tuple(Beyond(str(i), k, w) for i, (k, w) in enumerate(on))
    x = Electrode("E", kind, wire, metal, stated, area, beyond)
    r = electrode_conductor(x, view(fed))
    assert (r.least, r.ok) == plainly.electrode_conductor(x, fed) and r.size == (stated or r.least)


@given(SETS, LINES, METALS, METALS, LINES, st.one_of(st.just(""), LINES))
def test_bonding_jumpers_and_the_least_neutral(n: float, size: str, fed: str, metal: str, neutral: str, stated: str) -> None:
    r = bonding(Bonding("s", n, size, fed, neutral, metal, stated), view(fed))
    assert (r.least, r.each) == (plainly.jumper(n, size, fed, metal), plainly.jumper(1, size, fed, metal))
    assert r.neutral_area == plainly.neutral_area(n, size, fed)
    assert r.neutral_ok == (plainly.AREA[neutral] >= r.neutral_area)
    assert r.jumper_ok == (not stated or plainly.AREA[stated] >= plainly.AREA[r.least])


@given(st.sampled_from(KINDS), st.floats(1, 60), st.floats(0.1, 1.5), WIRES, st.floats(0.1, 6), st.floats(0.1, 8), st.booleans())
def test_what_counts_as_an_electrode(kind: str, L: float, d: float, wire: str, depth: float, area: float, listed: bool) -> None:
    x = Contact("E", kind, L, d, wire or ("2" if kind == "ring" else ""), depth, area, listed)
    assert contact(x, ed()).ok == plainly.counts_as_one(x)


@settings(max_examples=20)
@given(st.floats(5, 2000), st.floats(6, 40), st.floats(0.5, 1.0), st.integers(1, 4), st.floats(0.3, 3))
def test_rods_against_the_integral(rho: float, L: float, d: float, n: int, near: float) -> None:
    """The average potential method, integrated: evenly loaded rods with their images (Howe, as Dwight uses it)."""
    pairs = tuple(Pair("E", float(j - i)) for i in range(n) for j in range(i + 1, n))
    x = Rods("E", rho, L, d, float(n), near * L, pairs)
    assert rods(x, ed()).resistance == pytest.approx(plainly.rods(x), rel=5e-3)


@settings(max_examples=10)
@given(st.floats(5, 2000), st.floats(40, 400), st.sampled_from(("2", "1/0", "4/0")), st.floats(1.5, 4))
def test_a_ring_against_the_integral(rho: float, L: float, wire: str, depth: float) -> None:
    """Dwight's form holds for a depth that is small beside the diameter."""
    x = Ring("E", rho, L, wire, depth)
    assert ring_resistance(x, ed()).resistance == pytest.approx(plainly.ring(x), rel=0.04)


PLACES = "abcdefgh"
TIES = st.lists(st.tuples(st.sampled_from(PLACES), st.sampled_from(PLACES), st.booleans()), max_size=14)


@given(TIES, st.sets(st.sampled_from(PLACES)), st.sets(st.sampled_from(PLACES), min_size=1))
def test_bonds_of_islands(ties: Any, bonded: set[str], sources: set[str]) -> None:
    found = [i for i in islands(PLACES, (Tie(*t) for t in ties)) if sources & set(i)]
    counted = [len(bonded & set(i)) for i in found]
    assert counted == plainly.bonds_by_island(PLACES, ((a, b) for a, b, closed in ties if closed), bonded, sources)
    mode = Mode("m", tuple(Island(i[0], tuple(Bond(p, p in bonded) for p in i)) for i in found))
    r = one_bond_each(mode, ed())
    assert (r.islands, r.bonds, r.fewest, r.most) == (len(counted), sum(counted), min(counted), max(counted))
    assert r.ok == all(n == 1 for n in counted)
