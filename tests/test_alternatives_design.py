"""The gate of the demonstration estate, 1,240 ft away: its options, and whether somebody chose one in writing."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.report import on_alternatives, text
import pytest

DEMO = "demo_estate"


@cache
def design() -> Design:
    return Design(estate(DEMO, (), "nec2023"))


def weighed(name: str) -> Any:
    d = design()
    d.works("alternative")
    return d.items[f"alternative/EG/{name}"]


def test_only_the_gate_is_long_and_light() -> None:
    d = design()
    d.works("long")
    assert [k for k in d.items if k.startswith("long/") and d.items[k].offered] == ["long/EG"]


def test_what_is_designed_is_the_feeder_itself() -> None:
    d, r = design(), weighed("designed")
    assert (r.drop, r.fault, r.kilograms) == (d.value("feeder/EG/drop"), d.value("fault/EG-1/lg"), d.value("mass/EG/kilograms"))


@pytest.mark.parametrize(("name", "change"), [
    ("aluminium", {"size": None, "sets": None}), ("copper", {"size": None, "sets": None, "material": "cu"}),
    ("smaller-device", {"size": None, "sets": None, "breaker": None})])
def test_an_option_is_what_the_estate_would_be_with_it(name: str, change: dict[str, Any]) -> None:
    """A second way: the estate itself changed, designed anew."""
    r = weighed(name)
    d = Design(estate(DEMO, (), "nec2023", {f"feeders.EG.{k}": v for k, v in change.items()}))
    d.works("mass")
    assert r.drop == pytest.approx(d.value("feeder/EG/drop")) and r.fault == pytest.approx(d.value("fault/EG-1/lg"))
    assert r.kilograms == pytest.approx(d.value("mass/EG/kilograms"))


def test_metal_and_losses_stand_in_the_order_of_physics() -> None:
    large, small = weighed("designed"), weighed("aluminium")
    assert large.kilograms > small.kilograms and large.losses < small.losses and large.fault > small.fault
    assert weighed("pair-25").losses > 5 * large.losses                              # the iron of two transformers, all year
    assert 178.57 * 8.76 < weighed("pair-25").losses                                 # 2 x (8,750/0.98 - 8,750)/2 W of it


def test_what_fails_is_shown_with_its_numbers() -> None:
    """By ampacity alone the fault at the gate stays below 135 % of 40 A; the windings of 15 kVA lose more than is allowed."""
    bare, pair = weighed("ampacity-alone"), weighed("pair-15")
    assert bare.fault < 1.35 * 40 and bare.time == 0 and not bare.clears and not bare.drop_ok
    assert not pair.drop_ok and pair.drop > design().value("option/EG/pair-15/pair/regulation") > 3
    assert not [k for k, why in design().late.items() if k.startswith("alternative/") and why]


def test_the_question_is_answered_by_a_decision() -> None:
    d = design()
    c = next(c for c in d.checks if c.number == "086")
    assert c.outcome == "passes" and "gate_feeder" in c.found
    bare = Design(estate(DEMO, (), "nec2023"))
    vars(bare)["decisions"] = ()
    assert next(c for c in bare.checks if c.number == "086").outcome == "needs judgement"


def test_the_table_opens() -> None:
    d = design()
    ways, lasting, sun = on_alternatives.tables(d)
    assert [str(line.cells[0]) for line in ways.lines][:2] == ["as designed", "aluminium, by drop"] and len(ways.lines) == 7
    for line in (*ways.lines, *lasting.lines, *sun.lines):
        assert all(d.told(c.tag).value == c.value for c in line.cells if not isinstance(c, str))


def test_no_word_is_broken_on_a_narrow_terminal() -> None:
    """At 110 columns each option and each head keeps its words whole."""
    paper = text.Paper(110)
    for t in on_alternatives.tables(design()):
        text.table(paper, t)
    words = set(paper.text().split())
    assert {"designed", "aluminium,", "transformers", "smallest", "ampacity", "clearing", "growth", "nothing", "never"} <= words
