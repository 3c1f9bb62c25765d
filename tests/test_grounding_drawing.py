"""The drawing of grounding: nothing stands on anything else, what is wrong is said in words, results are links."""
from __future__ import annotations

from collections.abc import Iterator
import re
from xml.etree import ElementTree

from curtilage.design.design import Design
from curtilage.draw.grounding import APART, HERE, MISSING, WRONG, Placed, Pole, Stand, plan
from curtilage.look.theme import LIGHT, PAGE
from curtilage.model import Estate, load
from curtilage.report.grounding_picture import picture, stands
from curtilage.report.on_grounding import drawings
from hypothesis import given, settings
from hypothesis import strategies as st
import pytest
from small_estate import small

KINDS = ("rod", "plate", "concrete-encased", "ring", "water pipe", "structural metal")
S = "grounding.structures"
CHANGES = ({}, {f"{S}.WS.neutral_bond": True}, {f"{S}.GP.electrodes": [], f"{S}.SY.neutral_bond": False},
           {f"{S}.EG.electrodes.E-EG.diameter": "0.5 in", f"{S}.GH.electrodes.E-GH.tied": None})


@pytest.fixture(scope="module")
def base() -> Estate:
    return load("demo_estate")


def clashes(p: Placed) -> Iterator[tuple[str, str]]:
    for i, (a, one) in enumerate(p.boxes):
        for b, other in p.boxes[:i]:
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                yield one, other


@pytest.mark.parametrize("changed", CHANGES)
def test_no_text_meets_another_and_every_result_is_a_link(base: Estate, changed: dict[str, object]) -> None:
    d = Design(base.with_(changed))
    p = plan(stands(d), "Grounding", LIGHT)
    assert not list(clashes(p))
    links = re.findall(r'data-tag="([^"]+)"', p.svg)
    assert len(links) >= 16 and all(d.has(t) for t in links)
    ElementTree.fromstring(p.svg)


def test_what_is_wrong_is_said(base: Estate) -> None:
    said = picture(Design(base.with_(CHANGES[1])), PAGE)
    assert "bonded again" in said and "bonded where they must not be" in said
    said = picture(Design(base.with_(CHANGES[2])), PAGE)
    assert "no electrode" in said and "no bond" in said
    said = picture(Design(base.with_(CHANGES[3])), PAGE)
    assert "hold point" in said
    assert not any(w in picture(Design(base), PAGE) for w in ("bonded again", "no electrode", "no bond", "hold point"))


def test_the_same_estate_gives_the_same_bytes(base: Estate) -> None:
    assert picture(Design(base), LIGHT) == picture(Design(base), LIGHT)


def test_an_estate_without_grounding_has_no_drawing() -> None:
    d = Design(small(('breaker: 200 A, size: "4/0"}', 'breaker: 200 A, sets: 1, size: "4/0"}')))
    assert picture(d, LIGHT) == "" and drawings(d, LIGHT) == []


POLES = st.builds(Pole, st.sampled_from(KINDS), st.integers(1, 9), st.sampled_from(("", "6 Cu", "250 kcmil Al")),
                  st.tuples(st.sampled_from(KINDS), st.sampled_from(("90 ft", "hold point: not seen tied"))), st.just(-1),
                  st.sampled_from(("", "fails")))
STANDS = st.builds(Stand, st.sampled_from(("SY", "MH-2", "A long name")), st.text("abc &<", max_size=40),
                   st.sampled_from((HERE, WRONG, APART, MISSING)), st.sampled_from(("", "4/0 Cu")),
                   st.sampled_from(("", "2 x 350 Al")), st.lists(POLES, max_size=3).map(tuple))


@settings(max_examples=60)
@given(st.lists(STANDS, min_size=1, max_size=14))
def test_any_estate_fits_its_sheet(found: list[Stand]) -> None:
    p = plan(found, "Grounding", LIGHT)
    width, height = map(float, re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', p.svg).groups())      # type: ignore[union-attr]
    assert not list(clashes(p))
    assert all(b[0] >= 0 and b[1] >= 0 and b[2] <= width and b[3] <= height for b, _ in p.boxes)
    ElementTree.fromstring(p.svg)
