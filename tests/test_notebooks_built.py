"""The notebooks on service, feeders and raceways without a browser: replaced inputs, moved numbers, workings that stand."""
from __future__ import annotations

import re
import sys
from typing import Any

from curtilage import notebook as nb
from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.notebook import feeder_inputs, feeders, raceway_inputs, service, service_inputs, workings
from curtilage.notebook.workings import NOW, shown_in
from numerals import Ground, bare
import pytest
from test_notebooks import DEMO, app

PIECES = {
    "03_service_entrance": ("head", "answer", "chain", "mains", "review", "gear", "utility", "grounding", "labels"),
    "04_feeders": ("head", "answer", "sizes", "volts", "faults", "fields", "review", "one_line"),
    "09_raceways_and_temporary_power": ("head", "answer", "cut", "schedule", "pulls", "framing", "temporary"),
}
SHORT = {name[:2]: name for name in PIECES}


@pytest.fixture(autouse=True)
def _quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    """No variable of the machine and no word of pytest's command line names an estate."""
    monkeypatch.setenv("CURTILAGE_ESTATE", DEMO)
    monkeypatch.setattr(sys, "argv", ["pytest"])


@pytest.fixture(scope="module")
def d() -> Design:
    return nb.design({"estate": DEMO})


def run(number: str, **case: Any) -> dict[str, Any]:
    """The definitions of a notebook that ran on a case, and on the estate as the case has it stated."""
    whole = {"estate": DEMO, "variant": "base", "edition": "", "set": {}, **case}
    return dict(app(SHORT[number]).run(defs={"case": whole, "stated": nb.opened({**whole, "set": {}})})[1])


def number_in(html: str, tag: str) -> str:
    """What a page shows of a number, wherever its working stands."""
    found = re.search(rf'data-tag="{re.escape(tag)}"[^>]*>(?:<t[^>]*>)?([^<]+)<', html)
    assert found, f"{tag} is not on the page"
    return found[1]


# ------------------------------------------------------------------------------------------------- moved inputs, moved numbers
@pytest.mark.parametrize(("feeder", "tried"), [
    ("GH", {"feeders.GH.length": "640 ft"}), ("EG", {"feeders.EG.size": "4/0", "feeders.EG.sets": 1}),
    ("MH", {"feeders.MH.breaker": "500 A"}), ("GP-S", {"feeders.GP-S.material": "cu"})])
def test_a_moved_feeder_shows_the_numbers_of_a_whole_design(feeder: str, tried: dict[str, Any]) -> None:
    page = run("04", feeder=feeder, set=tried)
    apart = Design(estate(DEMO, changes=tried))
    panel = next(f.to for f in apart.estate.feeders if f.id == feeder)
    for tag in (f"feeder/{feeder}/drop", f"feeder/{feeder}/required", f"clearing/{feeder}/fault", f"fault/{panel}/largest"):
        n = apart.number(tag)
        assert number_in(page["answer"].text, tag) == nb.feeders.num(apart, tag).shown, (tag, n)
    assert number_in(page["faults"].text, f"fault/{panel}/largest") == f"{apart.value(f'fault/{panel}/largest') / 1000:,.1f} kA"
    assert number_in(page["fields"].text, f"mass/{feeder}/pounds") == f"{apart.value(f'mass/{feeder}/pounds'):,.0f}"


@pytest.mark.parametrize("tried", [
    {"service.transformer.rating": "167 kVA"}, {"service.transformer.impedance": "1.6 %"}, {"service.lateral.length": "25 ft"}])
def test_a_moved_service_shows_the_numbers_of_a_whole_design(tried: dict[str, Any]) -> None:
    page, apart = run("03", set=tried), Design(estate(DEMO, changes=tried))
    for tag in ("fault/MSB/largest", "service/drop"):
        assert number_in(page["answer"].text, tag) == nb.feeders.num(apart, tag).shown
    assert number_in(page["chain"].text, "fault/MH-DP/largest") == f"{apart.value('fault/MH-DP/largest') / 1000:,.1f} kA"


def test_a_short_lateral_fails_the_gear_in_the_planted_estate() -> None:
    """P20: 42 kA of gear behind 25 ft of lateral; the number and the outcome stand at the head of the page."""
    page = run("03", variant="P20")
    assert "fails" in page["answer"].text.split("Largest transformer")[0]


def test_another_trade_size_moves_fill(d: Design) -> None:
    page = run("09", raceway="R-GH", trench="t6", set={"raceways.R-GH.size": "4"})
    apart = Design(estate(DEMO, changes={"raceways.R-GH.size": "4"}))
    assert number_in(page["answer"].text, "raceway/R-GH/fill") == nb.feeders.num(apart, "raceway/R-GH/fill").shown
    assert apart.value("raceway/R-GH/fill") < d.value("raceway/R-GH/fill")
    assert "Trench t6, GH" in page["cut"].text or "Trench t6, J2" in page["cut"].text


# ------------------------------------------------------------------------------------------------------------ every number opens
CASES = [
    ("03", {}), ("03", {"variant": "as_found"}), ("03", {"set": {"service.transformer.rating": "500 kVA"}}),
    ("04", {"feeder": "EG"}), ("04", {"feeder": "GH", "set": {"feeders.GH.length": "640 ft"}}),
    ("04", {"feeder": "MH", "variant": "as_found"}),
    ("09", {"raceway": "R-MH-1", "trench": "t1"}),
    ("09", {"raceway": "R-GH", "trench": "t3", "set": {"raceways.R-GH.size": "4"}}),
]


@pytest.mark.parametrize(("number", "case"), CASES)
def test_every_number_opens_and_stands_on_inputs_tables_and_rules(number: str, case: dict[str, Any]) -> None:
    page = run(number, **case)
    stated = nb.design({"estate": DEMO, **case, "set": {}})
    now = nb.design({"estate": DEMO, **case})
    pieces = [page[name] for name in PIECES[SHORT[number]]]
    folded = page["base"].shown.text + page["moved"].text
    ground, found = Ground(stated, {NOW: now}), shown_in(*pieces)
    assert len(found) > 20
    for s in found:
        assert f'id="{s.place}"' in folded, f"{s} has no working on the page"
        ground.check(s)
    left = [x for p in pieces for x in bare(p.text)]
    assert not left, f"figures that do not open and are on no list: {left[:8]}"
    places = re.findall(r' id="(w/[^"]+)"', folded)
    assert len(places) == len(set(places)), "two workings in one place"


def test_what_did_not_move_is_not_worked_again(d: Design) -> None:
    """The load of the gatehouse does not move with its length; its drop and its fault current do."""
    page = run("04", feeder="EG", set={"feeders.EG.length": "1400 ft"})
    assert 'id="w/now/feeder/EG/drop"' in page["moved"].text and "w/now/demand/" not in page["moved"].text
    same = run("04", feeder="EG")
    assert "w/now/" not in same["answer"].text + same["moved"].text
    base = workings.Base(d, nb.show('<a class="k-num" data-tag="feeder/GH/drop" href="#w/feeder/GH/drop">2.50</a>'))
    assert base.same(d.with_values({"feeders.MH.length": "280 ft"}), "feeder/GH/drop")


# ----------------------------------------------------------------------------------------------------------- with designs beside
def test_a_letter_says_what_it_changes(d: Design) -> None:
    """Half of the bound halves no fault current behind conductors, but each falls; a higher one may turn outcomes."""
    low = service.with_letter({"estate": DEMO}, 20.0)
    for name in ("MSB", "MH-DP"):
        before, after = (low.designs[side].value(f"fault/{name}/largest") for side in ("before", "letter"))
        assert after < before and f"{after:,.0f}" in low.made
    assert 'data-edition="letter"' in low.made and 'id="w/letter/fault/MSB/largest"' in low.workings().text
    high = service.with_letter({"estate": DEMO}, 120.0)
    assert "check 053 on MSB" in high.made and "fails" in high.made


def test_arrangements_stand_side_by_side_and_open(d: Design) -> None:
    made = service.arranged(d)
    assert set(made.designs) >= {"drawn"} and "Arrangements of the service" in made.made
    for s in shown_in(made.made):
        assert f'id="{s.place}"' in made.workings().text
    assert not list(bare(made.made))


# --------------------------------------------------------------------------------------------------------------------- inputs
def test_inputs_stand_at_what_the_estate_has(d: Design) -> None:
    assert feeder_inputs.feeder_input(d).value == "EG", "the longest one"
    assert feeder_inputs.length_input(d, "GH").value == d.value("route/GH/length")
    stands = (make(d, "GH").value for make in (feeder_inputs.size_input, feeder_inputs.sets_input, feeder_inputs.device_input,
                                                feeder_inputs.metal_input))
    assert feeder_inputs.changes(d, "GH", *_moved(stands, d)) == {}
    assert service_inputs.changes(d, service_inputs.rating_input(d).value, service_inputs.impedance_input(d).value,
                                  service_inputs.ratio_input(d).value, service_inputs.lateral_input(d).value) == {}
    assert raceway_inputs.changes(d, "R-GH", raceway_inputs.size_input(d, "R-GH").value) == {}


def _moved(stands: Any, d: Design) -> tuple[Any, ...]:
    size, sets, device, metal = stands
    return size, sets, device, d.value("route/GH/length"), metal


def test_a_size_takes_its_number_of_sets_along(d: Design) -> None:
    assert feeder_inputs.changes(d, "GP", "350", 0, 0, d.value("route/GP/length"), "") == {
        "feeders.GP.size": "350", "feeders.GP.sets": 2}
    assert feeder_inputs.changes(d, "GP", "", 1, 225, 520, "cu") == {
        "feeders.GP.sets": 1, "feeders.GP.breaker": "225 A", "feeders.GP.material": "cu"}


def test_an_estate_without_raceways_or_site_graph_has_its_pages(d: Design, tmp_path: Any) -> None:
    folder = tmp_path / "mine"
    nb.start.create(str(folder))
    own = nb.design({"estate": str(folder)})
    for name in feeder_inputs.feeders(own).values():
        assert "k-result" in feeders.answer(own, name)
    assert service.answer(own) and service.chain(own) is not None
    assert raceway_inputs.trenches(own) == {} or raceway_inputs.trench_input(own).value
