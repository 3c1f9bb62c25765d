"""Stages of what is built from the sizes: each makes the kinds it says, asks for what it needs, gives the same alone or not."""
from __future__ import annotations

from functools import cache

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.works import WORKS
from curtilage.model import Estate
from curtilage.report.kinds import KINDS
import pytest


@cache
def base(*variants: str) -> Estate:
    return estate("demo_estate", variants)


@cache
def whole(*variants: str) -> Design:
    d = Design(base(*variants))
    d.works()
    return d


def test_a_stage_makes_the_kinds_that_it_says() -> None:
    d = whole()
    for w in WORKS:
        made = {key.split("/")[0] for key in d.ran[w.name]}
        assert made <= set(w.kinds), f"{w.name} also makes {made - set(w.kinds)}; name them in design/works/__init__.py"


def test_every_kind_has_a_title() -> None:
    assert {kind for w in WORKS for kind in w.kinds} <= set(KINDS)


def test_no_kind_is_made_twice_and_needs_stand_before() -> None:
    kinds = [kind for w in WORKS for kind in w.kinds]
    assert len(kinds) == len(set(kinds))
    for i, w in enumerate(WORKS):
        assert set(w.needs) <= {x.name for x in WORKS[:i]}, w.name


@pytest.mark.parametrize("kind", [kind for w in WORKS for kind in w.kinds])
@pytest.mark.parametrize("variant", ["base", "as_found"])
def test_one_kind_alone_gives_what_the_whole_gives(kind: str, variant: str) -> None:
    """A stage that reads what it does not name among its needs gives something else here."""
    alone, d = Design(base(variant)), whole(variant)
    alone.works(kind)

    def of(x: Design) -> dict[str, object]:
        return {key: x.items.get(key, why) for key, why in x.late.items() if key.split("/")[0] == kind}
    assert of(alone) == of(d)


def test_the_order_is_the_same_whatever_was_asked_first() -> None:
    d = Design(base())
    for w in reversed(WORKS):
        d.works(w.kinds[-1])
    d.works()
    assert list(d.items) == list(whole().items) and list(d.late) == list(whole().late)


def test_asking_for_a_load_works_nothing() -> None:
    d = Design(base())
    assert d.has("feeder/GH/drop") and not d.has("feeder/none/drop") and not d.ran
