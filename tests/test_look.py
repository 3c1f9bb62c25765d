"""What the look promises: contrast, order of lightness, one place for the limit, escaped text, no outside file."""
from __future__ import annotations

import re

from curtilage.look import charts, clock, marks, style, theme
from curtilage.look.cautions import cautions
from curtilage.look.components import Result, caution, gauge, margin_words, outcome, result, share_words, sheet_head
from curtilage.look.tables import LOUD_FIRST, checks, figure_words, readiness, table
from curtilage.look.text import number
from curtilage.values.check import OUTCOMES
import pytest

BAD = '<img src=x onerror="1">&'


@pytest.mark.parametrize("mode", theme.MODES)
def test_text_contrast(mode: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 at least, and 7 (1.4.6) for what is read."""
    c, series = theme.MODES[mode]
    for role, least in (("ink", 7), ("ink2", 7), ("iris", 7), ("rust", 7), ("strong", 4.5)):
        assert theme.contrast(c[role], c["ground"]) >= least, role
    assert theme.contrast(c["ink"], c["iris_wash"]) >= 7
    assert all(theme.contrast(theme.ink_on(s), s) >= 4.4 for s in series)
    assert sorted(map(theme.luminance, series)) == [theme.luminance(s) for s in series]


def test_contrast_ends() -> None:
    """Black on white is 21, the greatest there is (WCAG 2.2, contrast ratio)."""
    assert theme.contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert theme.contrast("#777777", "#777777") == pytest.approx(1)


def test_every_outcome_has_its_own_mark_and_word() -> None:
    assert tuple(OUTCOMES) == LOUD_FIRST
    shown = {outcome(o) for o in OUTCOMES}
    assert len(shown) == len(OUTCOMES)
    assert all(o in outcome(o) for o in OUTCOMES)
    assert all(f'id="m-{kind.replace(" ", "-")}"' in marks.definitions() for kind in marks.MARKS)


def test_text_is_escaped() -> None:
    r = Result(BAD, BAD, BAD, "fails", BAD, BAD, BAD, 1, 2, limit_shown=BAD, detail=BAD, working=((BAD, BAD, BAD, BAD),), tag=BAD)
    out = outcome("passes", BAD) + caution("stop", BAD, BAD, BAD) + result(r) + number(BAD, BAD)
    out += table([{BAD: BAD}], caption=BAD) + figure_words(BAD, BAD, [{BAD: BAD}]) + checks([("fails", BAD, BAD, BAD, BAD)])
    out += readiness([BAD], [BAD], {(0, 0): ("fits", BAD)}, [BAD])
    out += sheet_head(BAD, BAD, BAD, BAD, BAD, {BAD: 100.0}, BAD, [BAD], 1)
    assert "<img" not in out


@pytest.mark.parametrize(("value", "limit", "sense", "words"), [
    (2.49, 3.0, "max", "17 % in hand"), (23.6, 22.0, "max", "7 % over"), (612.0, 800.0, "min", "24 % short"),
    (83690.0, 83697.0, "min", "under 1 % short"), (3.0, 3.0, "max", "0 % in hand"), (1.0, 0.0, "max", "no limit to compare with"),
])
def test_margins_are_words(value: float, limit: float, sense: str, words: str) -> None:
    assert margin_words(value, limit, sense) == words


def test_the_limit_stands_at_one_place() -> None:
    """A column of gauges is read as a profile: the tick must not move with the value."""
    for sense in ("max", "min"):
        places = {re.search(r"M([\d.]+) 1\.2V22", gauge(v, 100.0, sense))[1] for v in (0.0, 1.0, 99.0, 100.0, 250.0, 1e6)}  # type: ignore[index]
        assert len(places) == 1
        for v in (0.0, 250.0, 1e6):
            assert max(float(x) for x in re.findall(r'(?:x|width)="([\d.]+)"', gauge(v, 100.0, sense))) <= 190


def test_a_withheld_number_is_an_empty_box() -> None:
    out = result(Result("Expected peak", "", "kW", "not evaluated", "service book"))
    assert "k-blank" in out and "k-value" not in out and "no number" in out


def test_small_shares_are_not_called_zero() -> None:
    said = share_words({"nameplate": 99.6, "submittal": 0.4, "assumed": 0.0})
    assert said == "100 % nameplate, under 1 % submittal, 0 % assumed"


def test_styles_ask_for_nothing_outside() -> None:
    for text in (style.for_report(), style.for_cells(), style.sheet("page.css")):
        assert not re.search(r"url\(|@import|https?:", text)
    assert "marimo" not in style.for_report()
    assert style.for_report().count("{") == style.for_report().count("}")


def test_every_caution_has_words_and_a_strength() -> None:
    found = cautions()
    assert {"C01", "C02", "C03", "C04", "C05", "C06", "C07", "C30", "C34", "C42", "C61"} <= set(found)
    assert {c.strength for c in found.values()} <= {"note", "warning", "stop"}


STEPS = [("general lighting", 27.5, "add"), ("35 % above 3 kVA", -20.8, "take"), ("cooking", 11.4, "add"),
         ("calculated load", 0.0, "sum")]


@pytest.mark.parametrize("mode", theme.MODES)
def test_charts_are_made_in_every_mode(mode: str) -> None:
    """Each chart is a valid specification, says in words what it shows, and names its unit."""
    theme.enable(mode)
    hours = [{"hour": 18 + i / 2, "who": who, "kw": 4.0} for i in range(8) for who in ("building", "car")]
    made = [
        charts.both_methods(STEPS, STEPS[2:], ("Standard", "Part III", "Optional", "220.82"), mode),
        charts.legs([("house", 14.2, 13.1), ("pool", 8.8, 6.3)], mode),
        clock.charging_night(hours, ["building", "car"], [("building", 18.5)], 38.0, mode),
        clock.storm([(0, 54), (36, 16), (72, 38)], 16.0, 54.0, [(36, 40)], [("T0 must not stop", 0, 72)], [(36, 16, "start")],
                    mode),
    ]
    for chart in made:
        spec = chart.to_dict()
        assert spec["description"]
        assert spec["config"]["background"] == theme.MODES[mode][0]["ground"]
    assert charts.peak(STEPS) == pytest.approx(27.5)
