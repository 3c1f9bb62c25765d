"""Drawings: no text meets a text or a conductor, the same design gives the same bytes, names and numbers stay text."""
from __future__ import annotations

from functools import cache
import re
import xml.etree.ElementTree as ET

from curtilage.design import Design
from curtilage.design.without import told_named
from curtilage.draw import bars, chain, oneline, site, sizes, svg, voltage
from curtilage.draw.bars import Step
from curtilage.draw.oneline import Node
from curtilage.draw.svg import Text
from curtilage.look.theme import LIGHT, PAGE
from curtilage.model import load
from curtilage.report import drawings
import pytest

BAD = '<img src=x onerror="1">&'
TREE = Node("utility", "Bench Valley Electric", ("120/240 V, single phase",), children=[
    Node("transformer", "250 kVA, 2.2 %Z", feed=("by the utility",), children=[
        Node("meter", "Metering", ("CT cabinet",), ("60 ft lateral", "6 x 500 Al"), children=[
            Node("gear", "Service gear", ("23.6 kA, rated 22",), flag="fails", grounded=True, children=[
                Node("main", "M1", ("600 A",), breaker=True, children=[
                    Node("panel", "Main house", ("11.9 kA",), ("600 A", "265 ft"), True, [
                        Node("panel", "MH-E", feed=("150 A, 2/0 Al",), breaker=True,
                             children=[Node("panel", "MH-T", feed=("40 A, 8 Al",), breaker=True)]),
                        Node("panel", "MH-K", feed=("175 A, 3/0 Al",), breaker=True)])]),
                Node("transfer", "TS-1, 800 A", ("neutral not switched",), ("800 A",), True, [
                    Node("bus", "Backed-up bus", ("19.8 kA",), children=[
                        Node("panel", "Pool pavilion", ("6.1 kA",), ("225 A", "330 ft"), True),
                        Node("inverter", "Inverters", ("2 of 11.4 kW",), ("125 A",), True,
                             [Node("battery", "Battery", ("54 kWh",))])])],
                     alternate=Node("generator", "Generator", ("125 kW gas", "102 kW on site"))),
            ])])])])


@cache
def demo() -> Design:
    return Design(load("demo_estate"))


def texts(drawing: str) -> list[str]:
    root = ET.fromstring(drawing.replace("&nbsp;", " "))
    return ["".join(t.itertext()) for t in root.iter("{http://www.w3.org/2000/svg}text")]


def test_no_text_meets_a_text_or_a_conductor() -> None:
    assert oneline.clashes(TREE) == []
    assert oneline.clashes(drawings.one_line(demo())) == []


@pytest.mark.parametrize("n", [1, 2, 7, 15])
@pytest.mark.parametrize("combed", [False, True])
def test_wide_trees(n: int, combed: bool) -> None:
    leaves = [Node("panel", f"panel {i} with a rather long name", ("22 kA",), ("200 A", "4/0 Al, 1,240 ft"), True)
              for i in range(n)]
    fed = [Node("panel", "DP", ("a", "b", "c", "d"), children=leaves, breaker=True)] if combed else leaves
    switch = Node("transfer", "t", children=fed, alternate=Node("generator", "a long generator name", ("x" * 40,)))
    tree = Node("utility", "u", children=[Node("gear", "g", grounded=True, children=[*leaves, switch])])
    assert oneline.clashes(tree) == []


def test_the_drawing_says_itself_in_words() -> None:
    drawn = oneline.svg(TREE, "One-line diagram")
    assert drawn == oneline.svg(TREE, "One-line diagram")
    said = oneline.words(TREE).splitlines()
    assert said[0] == "Bench Valley Electric, 120/240 V, single phase"
    assert "          Main house, 11.9 kA, 600 A, 265 ft" in said
    assert {"Main house", "MH-T", "Generator", "54 kWh"} <= set(texts(drawn))
    assert "<desc>" in drawn and 'role="img"' in drawn and 'aria-label="One-line diagram"' in drawn


def test_text_is_escaped() -> None:
    bad = Node("panel", BAD, (BAD, Text(BAD, BAD), (Text(BAD), Text(BAD, BAD))), (BAD,))
    assert "<img" not in oneline.svg(bad, BAD)
    step = Step(BAD, 1.0, "add", BAD)
    assert "<img" not in bars.waterfall([step], BAD, BAD, 2.0, LIGHT)
    assert "<img" not in bars.ranking([bars.Share(BAD, 1, 2, BAD)], BAD, BAD, LIGHT)
    spots = [site.Spot("a", 0, 0, BAD), site.Spot("b", 9, 9, BAD)]
    assert "<img" not in site.sketch(spots, [site.Trench("a", "b", BAD)], BAD, LIGHT)
    assert "<img" not in chain.chain([chain.Place(BAD, 1.0, 2.0, BAD)], BAD, LIGHT)
    column = sizes.Criterion(BAD, 1.0, BAD, [sizes.Cell(0.5, BAD), sizes.Cell(None, BAD)])
    assert "<img" not in sizes.trade_off([BAD, "b"], BAD, [column], BAD, LIGHT)
    way = voltage.Way([voltage.Stop(BAD, 0, 120), voltage.Stop(BAD, 100, 118)], BAD)
    assert "<img" not in voltage.path([way], [(116.4, BAD)], BAD, LIGHT)


def test_widths_are_upper_estimates_that_add_up() -> None:
    assert svg.width("MM") == 2 * svg.width("M") > svg.width("il")
    assert svg.wrap("Bench Valley Electric Cooperative", 100) == ["Bench Valley", "Electric", "Cooperative"]
    assert "".join(svg.wrap("a" * 80, 50)) == "a" * 80


def test_a_waterfall_stands_where_its_numbers_say() -> None:
    steps = [Step("a", 40.0, "add"), Step("tiers", 25.0, "take"), Step("b", 10.0, "add"), Step("sum", 0.0, "sum")]
    assert bars.extents(steps) == [(0.0, 40.0), (40.0, 15.0), (15.0, 25.0), (0.0, 25.0)]
    assert bars.reach(steps, steps[:1]) == 40.0
    short, long = bars.levelled(steps[:1], steps)
    assert len(short) == len(long) and short[-1] == steps[0] and short[0].kind == "gap"
    drawn = bars.waterfall(steps, "t", "s", 40.0, LIGHT, room=(100.0, 20.0))
    found = [tuple(map(float, m)) for m in re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', drawn)]
    scale = (520 - 120) / 40
    assert found == [pytest.approx(p) for p in ((100, 40 * scale), (100 + 15 * scale, 25 * scale), (100 + 15 * scale, 10 * scale),
                                                (100, 25 * scale))]


def test_ticks_are_round_and_few() -> None:
    for top in (0.0, 0.7, 3.0, 41.0, 153.0, 9_999.0):
        found = bars.ticks(top)
        assert len(found) <= 6 and found[0] == 0.0 and found[-1] <= top
    assert bars.ticks(153.0) == [0.0, 50.0, 100.0, 150.0]


def test_what_will_not_do_is_a_struck_ring_and_stands_to_scale() -> None:
    """Twice the current stands twice as far from the names; above the rating it is struck, in black and white, too."""
    rows = [chain.Place("a", 10.0, 22.0, "a"), chain.Place("b", 20.0, 10.0, "b"), chain.Place("c", None, None, "withheld")]
    drawn = chain.chain(rows, "t", LIGHT)
    at = {r: float(x) for x, r in re.findall(r'<circle cx="([\d.]+)" cy="[\d.]+" r="([\d.]+)"', drawn)}
    start = svg.width("b", chain.SIZE) + 14
    assert at["5.2"] - start == pytest.approx(2 * (at["4.6"] - start), abs=0.3)
    assert drawn.count("l6.8 6.8") == 1 and LIGHT["rust"] in drawn
    cells = [sizes.Cell(4.0, "4", True), sizes.Cell(2.0, "2")]
    grown = sizes.trade_off(["1", "2"], "2", [sizes.Criterion("x", 3.0, "at most 3", cells)], "t", LIGHT)
    assert grown.count("l6.8 6.8") == 1 and "at most 3" in texts(grown)


def test_the_arrow_of_a_second_supply_meets_no_text() -> None:
    fed = [Node("panel", f"p{i}", ("12.1 of 22 kA", "also SY-E"), ("200 A",), True, second=True) for i in range(3)]
    deep = Node("panel", "DP", ("x",), children=fed, second=True)
    tree = Node("utility", "u", children=[Node("gear", "g", children=[deep, *fed])])
    assert oneline.clashes(tree) == []
    assert oneline.svg(tree, "t").count("stroke-dasharray") == 7


def test_pictures_of_the_demonstration_estate() -> None:
    d = demo()
    for draw in (drawings.voltage_svg, drawings.site_svg, drawings.top_svg, drawings.one_line_svg):
        drawn = draw(d, PAGE)
        assert drawn.startswith("<svg") and "nan" not in drawn
        for tag in re.findall(r'data-tag="([^"]+)"', drawn):
            assert d.has(tag) or told_named(d, tag).value > 0
    assert {f"{s.id} {s.name.split(',')[0]}" for s in d.estate.structures} <= set(texts(drawings.site_svg(d, PAGE)))


def test_the_advice_in_the_picture_of_voltage_counts_from_the_gear() -> None:
    """An outlet is below the lower line just where its drop from the gear is over the 5 % of 210.19, informational note."""
    d = demo()
    (feeders, _), (whole, words) = drawings.advice(d)
    gear = float(d.items["path/MH-L"].service_volts)
    assert (feeders, whole) == (pytest.approx(gear - 3.6), pytest.approx(gear - 6.0)) and "below the gear" in words
    for panel in ("MH-L", "PP-2", "GP-1", "EG-E"):
        r = d.items[f"path/{panel}"]
        assert r.total_ok and float(r.outlet_volts) >= whole


def test_the_one_line_diagram_names_second_supplies() -> None:
    """Every panel that a bus of the backed-up system feeds, too, says so; no other one does."""
    d = demo()
    said = {n.title: oneline.sentence(n) for _, n in oneline.walk(drawings.one_line(d)) if n.kind == "panel"}
    fed = {a.to: a.from_ for a in drawings.alternates(d) if a.to in said}
    assert len(fed) == 13 and all(f"also {bus}" in said[panel] for panel, bus in fed.items())
    assert not any("also SY-" in words for panel, words in said.items() if panel not in fed)


def test_a_picture_of_the_methods_ends_at_the_calculated_load() -> None:
    d = demo()
    for method, steps in (("standard", drawings.standard_steps), ("optional", drawings.optional_steps)):
        found = steps(d, f"demand/MH/{method}")
        assert bars.extents(found)[-1][1] == pytest.approx(d.number(f"demand/MH/{method}/total").value / 1000)
