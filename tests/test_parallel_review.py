"""Sets in parallel: 310.10(G)(2) asks for one length, material, size, insulation and termination; (G)(3) for raceways alike."""
from __future__ import annotations

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.values.check import Check
import pytest


def asked(subject: str, **changed: object) -> Check:
    d = Design(estate("demo_estate", (), "nec2023", {k.replace("__", ".").replace("_", "-"): v for k, v in changed.items()}))
    return next(c for c in d.checks if (c.number, c.subject) == ("047", subject))


def test_two_raceways_alike() -> None:
    c = asked("MH")
    assert c.outcome == "passes" and "265 ft each" in c.found


@pytest.mark.parametrize(("field", "value", "words"), [
    ("length", "275 ft", "lengths of 265 ft"), ("kind", "rmc", "raceways of pvc40 and rmc")])
def test_what_is_not_alike_is_named(field: str, value: str, words: str) -> None:
    c = asked("MH", **{f"raceways__R_MH_2__{field}": value})
    assert c.outcome == "fails" and words in c.found


def test_a_slip_of_the_tape_is_no_difference() -> None:
    assert asked("MH", raceways__R_MH_2__length="266 ft").outcome == "passes"


def test_one_set_has_nothing_to_be_equal_to() -> None:
    assert asked("GH").outcome == "does not apply"


def test_two_raceways_for_three_sets() -> None:
    c = asked("MH", feeders__MH__sets=3)
    assert c.outcome == "fails" and "2 raceways for 3 sets" in c.found


def test_members_of_another_size_or_insulation() -> None:
    member = {"id": "mh2", "kind": "feeder", "of": "MH", "size": "400", "count": 3, "insulation": "thwn-2"}
    d = Design(estate("demo_estate", (), "nec2023", {"raceways.R-MH-2.members": [member]}))
    c = next(c for c in d.checks if (c.number, c.subject) == ("047", "MH"))
    assert c.outcome == "fails" and "400 and 500" in c.found and "thwn-2 and xhhw-2" in c.found
