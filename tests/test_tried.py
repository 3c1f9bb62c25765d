"""Values stated otherwise: the short way gives what a whole design gives, and says who changed them."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.sizes import sizes
from curtilage.errors import CurtilageError
from curtilage.values.told import walk
from hypothesis import given, settings
from hypothesis import strategies as st
import pytest

NAMES = ("MH", "MH-E", "MH-T", "GH", "GH-S", "PP", "CG", "WS", "EG", "GP", "GP-S", "SY")
CHANGES = st.fixed_dictionaries({}, optional={
    "size": st.sampled_from(["6", "2", "2/0", "4/0", "250", "350", "500", "600", None]),
    "sets": st.sampled_from([1, 2, 3, None]),
    "breaker": st.sampled_from(["60 A", "100 A", "200 A", "400 A", None]),
    "length": st.sampled_from(["12 ft", "140 ft", "900 ft", "80 m"]),
    "material": st.sampled_from(["cu", "al", "copper", None]),
    "egc": st.sampled_from(["6", "2", None]),
})


@cache
def base(variant: str = "base") -> Design:
    return Design(estate("demo_estate", (variant,)))


def told(x: Any) -> Any:
    try:
        d = x()
        return d.values(), d.inputs(), [c[:4] for c in d.checks], d.lacking
    except CurtilageError as e:
        return str(e)


LATE = {
    "service.transformer.rating": ["100 kVA", "167 kVA", "500 kVA"], "service.transformer.impedance": ["1.6 %", "3 %"],
    "service.transformer.x_over_r": [1.2, 4], "service.lateral.length": ["25 ft", "180 ft"],
    "service.lateral.size": ["350", "600"],
    "raceways.R-PP-P.size": ["2", "4"], "temporary.services.TMP.rating": ["100 A"],
    "grounding.structures.EG.intersystem": ["yes", "no"],
}


def both(d: Design, changes: dict[str, Any]) -> tuple[Any, Any]:
    return told(lambda: d.with_values(changes, "tried")), told(lambda: Design(d.estate.with_(changes, by="tried")))


@given(st.sampled_from(NAMES), CHANGES)
@settings(max_examples=25)
def test_one_feeder(name: str, changes: dict[str, Any]) -> None:
    short, whole = both(base(), {f"feeders.{name}.{k}": x for k, x in changes.items()})
    assert short == whole


@given(st.sampled_from(sorted(LATE)).flatmap(lambda p: st.tuples(st.just(p), st.sampled_from(LATE[p]))),
       st.sampled_from(["base", "as_found"]))
@settings(max_examples=15)
def test_transformer_lateral_raceways_and_the_rest(changed: tuple[str, Any], variant: str) -> None:
    d = base(variant)
    if changed[0].startswith("raceways") and not any(r.id == "R-PP-P" for r in d.estate.raceways):
        return
    d.works()                                            # what was worked before must not leak into what is worked after
    short, whole = both(d, dict([changed]))
    assert short == whole


def test_it_says_who_changed_it_and_leaves_the_first_one_alone() -> None:
    d = base()
    before = dict(d.values())
    after = d.with_values({"feeders.GH.length": "320 ft"}, "slider")
    assert after.where("feeders.GH.length") == "slider" and after.where("feeders.MH.size").startswith("estate.yaml:")
    assert "slider" in {x.where for x in walk(after.told("feeder/GH/drop"))}
    assert after.with_values({"feeders.GH.sets": 2}, "box").where("feeders.GH.length") == "slider"
    assert dict(d.values()) == before and d.has("route/GH/length") and not after.has("route/GH/length")


@pytest.mark.parametrize(("path", "value", "says"), [
    ("feeders.GH.length", "320", "no unit"), ("feeders.GH.to", "nowhere", "nowhere"), ("feeders.XX.length", "320 ft", "XX"),
    ("feeders.GH.size", "7/0", "7/0"), ("service.transformer.rating", "250 A", "250 A"), ("raceways.none.size", "2", "none")])
def test_what_does_not_read_is_the_error_of_a_file(path: str, value: str, says: str) -> None:
    with pytest.raises(CurtilageError, match=says):
        base().with_values({path: value})


def test_one_change_after_another_is_both() -> None:
    """The second one takes the long way, and keeps the first."""
    d = base()
    both = {"feeders.GH.length": "320 ft", "structures.GH.area": "1500 ft2"}
    after = d.with_values({"feeders.GH.length": "320 ft"}).with_values({"structures.GH.area": "1500 ft2"})
    assert after.values() == Design(d.estate.with_(both)).values()


def test_one_feeder_in_every_size() -> None:
    """A larger size drops less and weighs more; the laid one is the design itself."""
    d = base()
    found = sizes(d, "GH")
    assert next(t.design for t in found if t.size == d.value("feeder/GH/size")) is d and len(found) > 6
    drops = [t.design.value("feeder/GH/drop") for t in found if t.design]
    masses = [t.design.value("mass/GH/pounds") for t in found if t.design]
    assert drops == sorted(drops, reverse=True) and masses == sorted(masses)
    one = next(t for t in found if t.design is not d and t.design)
    whole = Design(d.estate.with_({"feeders.GH.size": one.size, "feeders.GH.sets": 1}))
    assert one.design is not None and one.design.values() == whole.values()


def test_other_paths_get_a_whole_design() -> None:
    d = base()
    assert d.with_values({"structures.GH.area": "1500 ft2"}).values() == Design(
        d.estate.with_({"structures.GH.area": "1500 ft2"})).values()
