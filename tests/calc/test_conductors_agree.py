"""Plain, told and bound are one calculation, and a second plain writing finds the same; on random circuits, feeders, services."""
from typing import Any

from cases_conductors import CIRCUIT, FEEDER, SERVICE, circuits, feeders, services
from curtilage.calc.conductors.feeder import feeder
from curtilage.calc.conductors.path import path
from curtilage.calc.conductors.records import Circuit, Feeder, Main, Path, Segment, Service
from curtilage.calc.conductors.run import branch_circuit
from curtilage.calc.conductors.service import service
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError
from curtilage.values.bound import bound
from curtilage.values.given import Given
from curtilage.values.told import value
from hypothesis import given, settings
from hypothesis import strategies as st
import plainly_conductors as plainly
import pytest

ED = Edition.load("nec2023")
TOLD = TellingEdition(ED)
METALS, RACEWAYS = st.sampled_from(("cu", "al")), st.sampled_from(("pvc", "aluminium", "steel"))
flags = st.booleans()
LAID = {
    "length": st.floats(5, 900), "pf": st.floats(0.5, 1.0), "ambient": st.floats(-5, 48),
    "ccc": st.sampled_from((2.0, 3.0, 4.0, 9.0)), "insulation": st.sampled_from((75.0, 90.0)),
    "terminals": st.sampled_from((60.0, 75.0))}
STANDARD = st.sampled_from((0.0, 0.0, 15.0, 20.0, 30.0, 50.0, 60.0, 100.0, 200.0))
CIRCUITS = st.fixed_dictionaries({
    **LAID, "va": st.floats(60, 14_000), "volts": st.sampled_from((120.0, 240.0)), "continuous": flags, "motor": flags,
    "cords": flags, "breaker": STANDARD, "drop_limit": st.floats(1.5, 4), "motor_va": st.sampled_from((0.0, 40.0, 55.0))})
FEEDERS = st.fixed_dictionaries({
    **LAID, "va": st.floats(2_000, 250_000), "neutral_va": st.floats(0, 60_000), "whole_dwelling": flags, "three_wire": flags,
    "take_83": flags, "full_neutral": flags, "drop_limit": st.floats(2, 5)})
SERVICES = st.fixed_dictionaries({**LAID, "whole_dwelling": flags, "take_83": flags, "drop_limit": st.floats(1.5, 5)})


def or_refusal(f: Any, *args: Any) -> Any:
    try:
        return f(*args)
    except CurtilageError as e:
        return str(e)


def one_calculation(f: Any, x: Any, view: str) -> Any:
    """The result, after plain, told and bound were found equal: values and refusals."""
    m = ED.view(view)
    plain = or_refusal(f, x, m)
    assert or_refusal(bound(f, ED, m), x, m) == plain
    assert or_refusal(lambda: value(f.told(Given(x, x.id), TOLD.view(view)))) == plain
    return plain


def agree(ours: Any, second: dict[str, Any]) -> None:
    for name, x in second.items():
        got = getattr(ours, name)
        assert got == (pytest.approx(x, rel=1e-12, abs=1e-12) if isinstance(x, float) else x), name


@settings(max_examples=150)
@given(changes=CIRCUITS, metal=METALS, raceway=RACEWAYS)
def test_circuits(changes: dict[str, Any], metal: str, raceway: str) -> None:
    c = CIRCUIT._replace(**changes)
    ours = one_calculation(branch_circuit, c, f"{metal}-{raceway}")
    if isinstance(ours, str):
        with pytest.raises(StopIteration):
            plainly.branch(c, metal, raceway)
    else:
        agree(ours, plainly.branch(c, metal, raceway))


@settings(max_examples=150)
@given(changes=FEEDERS, more=st.floats(1.0, 1.25), metal=METALS, raceway=RACEWAYS)
def test_feeders(changes: dict[str, Any], more: float, metal: str, raceway: str) -> None:
    f = FEEDER._replace(**changes, minimum_va=changes["va"] * more)
    ours = one_calculation(feeder, f, f"{metal}-{raceway}")
    if isinstance(ours, str):
        with pytest.raises(LookupError):
            plainly.feeder(f, metal, raceway)
    else:
        agree(ours, plainly.feeder(f, metal, raceway))


@settings(max_examples=100)
@given(loads=st.lists(st.floats(8_000, 180_000), min_size=1, max_size=7), changes=SERVICES, metal=METALS, raceway=RACEWAYS)
def test_services(loads: list[float], changes: dict[str, Any], metal: str, raceway: str) -> None:
    mains = tuple(Main(f"M{i}", va, va, 0.0) for i, va in enumerate(loads))
    s = SERVICE._replace(**changes, mains=mains, va=sum(loads), minimum_va=sum(loads), most_sets=20.0)
    ours = one_calculation(service, s, f"{metal}-{raceway}")
    if isinstance(ours, str):
        with pytest.raises(LookupError):
            plainly.service(s, metal, raceway)
    else:
        agree(ours, plainly.service(s, metal, raceway))


@pytest.mark.parametrize("view", ["cu-pvc", "al-steel"])
def test_the_cases_of_the_contract(view: str) -> None:
    """The stated and the odd ones: nameplates, stated sizes, sizes that carry nothing."""
    metal, raceway = view.split("-")
    for x in circuits():
        agree(one_calculation(branch_circuit, x, view), plainly.branch(x, metal, raceway))
    for y in feeders():
        agree(one_calculation(feeder, y, view), plainly.feeder(y, metal, raceway))
    for z in services():
        agree(one_calculation(service, z, view), plainly.service(z, metal, raceway))


@settings(max_examples=80)
@given(lateral=st.floats(0, 9), feeders=st.lists(st.floats(0, 4), max_size=3), branch=st.floats(0, 5), source=st.floats(110, 127))
def test_paths(lateral: float, feeders: list[float], branch: float, source: float) -> None:
    p = Path("P", source, lateral, tuple(Segment(f"F{i}", d) for i, d in enumerate(feeders)), branch, 3.0, 3.0, 5.0)
    plain = path(p, ED)
    assert bound(path, ED)(p, ED) == plain
    assert value(path.told(Given(p, "P"), TOLD)) == plain
    assert plain.outlet_volts == pytest.approx(source - 1.2 * (lateral + sum(feeders) + branch), abs=1e-9)
    assert [n.volts for n in plain.nodes] == pytest.approx([source - 1.2 * (lateral + sum(feeders[:i + 1]))
                                                            for i in range(len(feeders))], abs=1e-9)


def test_records_are_flat_and_say_their_units() -> None:
    for record in (Circuit, Feeder, Service):
        assert record.__doc__ and set(record.__annotations__) == set(record._fields)
