"""Told, plain and a second plain writing are one calculation, on random records."""
from typing import Any

from cases_network import BEHIND, DRAWN, PLACES, REACH, ROWS
from curtilage.calc.network import voltage as k
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import value
from hypothesis import given
from hypothesis import strategies as st
import plainly_network as plainly
import pytest

LEGS = st.sampled_from(((1, 0, 0), (0, 1, 0), (0, 0, 1), (0.5, 0.5, 0)))
ED = Edition.load("nec2023")
TOLD = TellingEdition(ED)
VOLTS, AMPERES, OHMS = st.floats(90, 130), st.floats(-400, 400), st.floats(0, 0.1)


def agrees(name: str, record: Any, view: str = "") -> None:
    f = getattr(k, name)
    edition = (ED.view(view),) if view else ()
    found = f(record, *edition)
    assert value(f.told(Given(record, "loads"), *((TOLD.view(view),) if view else ()))) == found
    for ours, plain in zip(found, getattr(plainly, name)(record, *edition), strict=True):
        assert ours == (plain if isinstance(plain, str | bool) else pytest.approx(plain, rel=1e-9, abs=1e-9))


@given(st.lists(st.tuples(st.floats(1, 9e4), st.floats(0.1, 1), LEGS), min_size=1, max_size=6), st.floats(0.1, 2))
def test_loads(rows: list[tuple[float, float, tuple[float, ...]]], part: float) -> None:
    on = tuple(k.OnLegs(f"L{i}", va, pf, *map(float, legs)) for i, (va, pf, legs) in enumerate(rows))
    agrees("loading", k.Connected("MH", 5e4 * part, on))
    agrees("legs", k.Own("P", part, on))


@given(st.lists(st.floats(-9e3, 9e3), min_size=6, max_size=6), VOLTS, VOLTS, st.lists(AMPERES, min_size=8, max_size=8))
def test_currents(powers: list[float], v1: float, v2: float, below: list[float]) -> None:
    fed = (k.Fed("Q", *below[:4]), k.Fed("R", *below[4:]))
    agrees("currents", k.Drawn._make(("P", *powers, v1, -2.0, -v2, 1.5, fed)))


@given(VOLTS, VOLTS, st.lists(OHMS, min_size=4, max_size=4), st.lists(AMPERES, min_size=4, max_size=4))
def test_runs(v1: float, v2: float, ohms: list[float], amperes: list[float]) -> None:
    agrees("reach", k.Reach._make(("P", v1, -2.0, -v2, 1.5, *ohms, *amperes, v1, v2, 120.0)))


@given(VOLTS, st.lists(OHMS, min_size=6, max_size=6), st.lists(AMPERES, min_size=4, max_size=4))
def test_transformers(v: float, ohms: list[float], amperes: list[float]) -> None:
    agrees("terminals", k.Behind._make(("T", v, *ohms, *amperes, v, v, 120.0)))


@given(st.floats(50, 4000), st.floats(0.5, 1), st.sampled_from(("14", "12", "10", "4")), st.floats(0, 150), VOLTS,
       st.sampled_from(("cu-pvc", "cu-steel")))
def test_outlets(va: float, pf: float, size: str, length: float, volts: float, view: str) -> None:
    agrees("outlet", k.Circuit("L1", va, pf, size, length, volts, volts + 3, 120.0, length > 75), view)


def test_the_cases() -> None:
    for name, record in (("currents", DRAWN), ("reach", REACH), ("terminals", BEHIND), ("whole", PLACES),
                         ("legs", k.Own("P", 0.7, ROWS))):
        agrees(name, record)
