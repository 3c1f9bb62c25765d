"""One calculation in three ways (plain, told, bound), and the same calculation written a second time."""
from __future__ import annotations

from collections.abc import Callable
from typing import Any

from curtilage.calc.demand.cooking import cooking_load
from curtilage.calc.demand.expected import expected
from curtilage.calc.demand.multifamily import dwelling_connected, two_dwellings
from curtilage.calc.demand.neutral import dwelling_neutral, other_neutral
from curtilage.calc.demand.optional import existing, optional
from curtilage.calc.demand.other import other
from curtilage.calc.demand.records import Climate, Dwelling, Wiring
from curtilage.calc.demand.standard import standard
from curtilage.editions import Edition, TellingEdition
from curtilage.values.bound import bound
from curtilage.values.given import Given
from curtilage.values.told import Told, value
from demand_strategies import COOKING, DWELLINGS, EDITIONS, KINDS, OTHERS
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_demand as plainly
import pytest

WIRING = st.sampled_from((Wiring(), Wiring(208.0, True), Wiring(208.0, False, True)))


def told(x: Any) -> Any:
    """The same input, told."""
    if hasattr(x, "_fields"):
        return Given(x, "d")
    if isinstance(x, tuple):
        return tuple(map(told, x))
    return Told("x", x, "yes/no", "given")


def joined(d: Dwelling, e: Dwelling) -> Dwelling:
    lists = {k: getattr(d, k) + getattr(e, k) for k in d._fields if k not in ("volts", "climate", "vehicles_apart")}
    return d._replace(climate=Climate(*(a + b for a, b in zip(d.climate, e.climate, strict=True))), **lists)


def alike(f: Callable[..., Any], edition: str, *args: Any) -> Any:
    """Plain, told and bound give the same, bit for bit; returns the plain result."""
    ed = Edition.load(edition)
    plain = f(*args, ed)
    assert value(f.told(*map(told, args), TellingEdition(ed))) == plain                # type: ignore[attr-defined]
    assert bound(f, ed)(*args, ed) == plain
    return plain


def close(x: float, y: float) -> bool:
    return x == pytest.approx(y, rel=1e-9, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(d=DWELLINGS, edition=EDITIONS)
def test_standard(d: Dwelling, edition: str) -> None:
    ours, second = alike(standard, edition, d), plainly.standard(d, edition)
    for name, expected_value in second.items():
        assert close(getattr(ours, name), expected_value), name


@settings(max_examples=40, deadline=None)
@given(d=DWELLINGS, edition=EDITIONS)
def test_optional(d: Dwelling, edition: str) -> None:
    ours, second = alike(optional, edition, d), plainly.optional(d, edition)
    for name, expected_value in second.items():
        assert close(getattr(ours, name), expected_value), name


@settings(max_examples=40, deadline=None)
@given(d=DWELLINGS, added=st.booleans(), edition=EDITIONS)
def test_existing(d: Dwelling, added: bool, edition: str) -> None:
    assert close(alike(existing, edition, d, added).total, plainly.existing(d, added, edition))


@settings(max_examples=100, deadline=None)
@given(rows=COOKING, edition=EDITIONS)
def test_cooking(rows: Any, edition: str) -> None:
    ours = alike(cooking_load, edition, rows)
    used, other_reading = plainly.cooking(rows)
    assert close(ours.used, used) and close(ours.other_reading, other_reading)
    assert ours.judgement == (ours.other_reading < ours.used)


@settings(max_examples=40, deadline=None)
@given(d=DWELLINGS, w=WIRING, edition=EDITIONS)
def test_the_neutral_of_a_dwelling(d: Dwelling, w: Wiring, edition: str) -> None:
    ours = alike(dwelling_neutral, edition, d, w)
    assert close(ours.unbalanced, plainly.dwelling_neutral(d, edition))
    whole = ours.unbalanced / w.volts
    assert close(ours.amperes, whole if w.two_of_wye else plainly.reduced(whole, ours.nonlinear / w.volts, w.wye))


@settings(max_examples=40, deadline=None)
@given(d=OTHERS, edition=EDITIONS)
def test_other(d: Any, edition: str) -> None:
    ours, second = alike(other, edition, d), plainly.other(d, edition)
    for name, expected_value in second.items():
        assert close(getattr(ours, name), expected_value), name


@settings(max_examples=30, deadline=None)
@given(d=OTHERS, w=WIRING, edition=EDITIONS)
def test_the_neutral_of_other_structures(d: Any, w: Wiring, edition: str) -> None:
    assert close(alike(other_neutral, edition, d, w).unbalanced, plainly.other_neutral(d))


@settings(max_examples=20, deadline=None)
@given(d=DWELLINGS, e=DWELLINGS, edition=EDITIONS)
def test_two_dwellings(d: Dwelling, e: Dwelling, edition: str) -> None:
    both = joined(d, e)
    ours = alike(two_dwellings, edition, d, e, both)
    a, b = plainly.connected(d, edition), plainly.connected(e, edition)
    total = plainly.standard(both, edition)["total"]
    assert close(ours.used, min(total, 0.45 * 3 * max(a, b))) and close(ours.by_sum, 0.45 * 1.5 * (a + b))
    assert close(alike(dwelling_connected, edition, d), a)


@settings(max_examples=30, deadline=None)
@given(kinds=st.lists(KINDS, max_size=3).map(tuple), edition=EDITIONS)
def test_expected(kinds: Any, edition: str) -> None:
    ours = alike(expected, edition, kinds)
    for (kw, kva), f in (((ours.low_kw, ours.low_kva), plainly.LOW), ((ours.kw, ours.kva), plainly.TYPICAL),
                         ((ours.high_kw, ours.high_kva), plainly.HIGH)):
        assert close(kw, plainly.expected(kinds, f, edition)[0]) and close(kva, plainly.expected(kinds, f, edition)[1])
