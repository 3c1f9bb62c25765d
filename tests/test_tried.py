"""One feeder stated otherwise: the short way gives what a whole design gives, and says who changed it."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
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


@given(st.sampled_from(NAMES), CHANGES)
@settings(max_examples=25)
def test_the_short_way_gives_what_the_whole_way_gives(name: str, changes: dict[str, Any]) -> None:
    d = base()
    whole = told(lambda: Design(d.estate.with_({f"feeders.{name}.{k}": x for k, x in changes.items()}, by="tried")))
    assert told(lambda: d.with_feeder(name, changes, "tried")) == whole


def test_it_says_who_changed_it_and_leaves_the_first_one_alone() -> None:
    d = base()
    before = dict(d.values())
    after = d.with_feeder("GH", {"length": "320 ft"}, "slider")
    assert after.where("feeders.GH.length") == "slider" and after.where("feeders.MH.size").startswith("estate.yaml:")
    assert "slider" in {x.where for x in walk(after.told("feeder/GH/drop"))}
    assert after.with_feeder("GH", {"sets": 2}, "box").where("feeders.GH.length") == "slider"
    assert dict(d.values()) == before and d.has("route/GH/length") and not after.has("route/GH/length")


@pytest.mark.parametrize(("name", "changes", "says"), [
    ("GH", {"length": "320"}, "no unit"), ("GH", {"to": "nowhere"}, "nowhere"), ("XX", {"length": "320 ft"}, "XX"),
    ("GH", {"size": "7/0", "sets": 1}, "7/0")])
def test_what_does_not_read_is_the_error_of_a_file(name: str, changes: dict[str, Any], says: str) -> None:
    with pytest.raises(CurtilageError, match=says):
        base().with_feeder(name, changes)
