"""The terminal: tables that fit, nothing said by colour, the tag of every row, loud things where they are seen."""
from __future__ import annotations

from functools import cache
import re

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.report import content as c
from curtilage.report import loads, markdown, schedules, text
from curtilage.report.content import Column, Line, Num, Table
from curtilage.report.text import Paper
import pytest
from small_estate import small


@cache
def design(*variants: str) -> Design:
    return Design(estate("demo_estate", variants))


def set_table(t: Table, width: int) -> list[str]:
    paper = Paper(width)
    text.table(paper, t)
    return paper.text().splitlines()


@pytest.mark.parametrize("width", [80, 100, 120])
@pytest.mark.parametrize("variant", ["base", "as_found"])
def test_every_line_fits(width: int, variant: str) -> None:
    said = text.result(design(variant), Paper(width)).splitlines()
    long = [line for line in said if len(line) > width]
    assert not long, long[:3]


def test_what_is_not_looked_at_is_said_once_and_never_as_passing() -> None:
    """Subjects of planted mistakes that no check finds stand at the top; a subject that a check asks about does not."""
    said = " ".join(text.result(design()).split("Calculated load of the service")[0].split())
    line = said[said.index("Not looked at by this version") :].partition(". ")[0]
    assert "so neither passed nor failed" in line and "passes" not in line
    assert all(w in line for w in ("GFCI and AFCI protection", "stages of shedding", "gas meter"))
    assert not any(w in line for w in ("voltage drop", "growth", "floor area"))
    assert " ".join(text.result(design()).split()).count("Not looked at by this version") == 1


def test_nothing_is_said_by_colour() -> None:
    """Bold is the only sign for the eye alone, and only where it is asked for."""
    plain = text.result(design("as_found"), Paper(100))
    bold = text.result(design("as_found"), Paper(100, bold=True))
    assert "\x1b" not in plain
    assert set(re.findall(r"\x1b\[[\d;]*m", bold)) == {"\x1b[1m", "\x1b[0m"}
    assert re.sub(r"\x1b\[[\d;]*m", "", bold) == plain


def test_a_terminal_without_signs_gets_words() -> None:
    said = text.explain(design(), "feeder/GH/drop", Paper(100, signs=False))
    assert said.isascii()
    assert "sqrt(1 - pf * pf)" in said and "<=" in said
    assert text.result(design(), Paper(80, signs=False)).isascii()


def test_the_head_says_what_the_numbers_rest_on() -> None:
    d = design()
    head = text.result(d).split("\n\n")[0]
    assert d.estate.name in head and "variant base" in head and d.ed.title in head and d.snapshot in head
    assert "none stated" in head and "% nameplate" in head
    assert all(outcome in head for outcome in {check.outcome for check in d.checks})
    assert "(C07)" in text.result(d), "the demonstration estate says that it is invented"


def test_loud_outcomes_are_listed_and_the_rest_is_counted() -> None:
    d = design("as_found")
    said = text.result(d)
    assert said.index("fails") < said.index("Besides:")
    listed = said[said.index("Checks that need a person"):]
    order = [w for w in re.findall(r"^(?:! |  )?(fails|not evaluated|needs judgement) ", listed, re.M)]
    assert order == sorted(order, key=("fails", "not evaluated", "needs judgement").index)
    assert len(order) == len(c.loud(d)[0])
    assert re.search(r"Besides: .*\d+ passes", listed)


def test_expected_peak_stands_apart_from_the_load() -> None:
    said = text.result(design())
    assert said.index("Calculated load") < said.index("Expected peak")
    assert "it is not the calculated load and sizes nothing" in " ".join(said.split())
    assert not any("kw" in str(line.tag) for line in loads.summary(design()).lines)


def test_branches_stand_under_what_feeds_them() -> None:
    d = design()
    depth = dict(c.ordered(d))
    for f in d.estate.feeders:
        if f.from_ in d.tree.mains and f.id in depth:
            assert depth[f.id] == 1
    names = [line.cells[0] for line in loads.summary(d).lines]
    assert names[0] == "service" and set(names[1:]) == set(depth)


def test_both_methods_name_what_the_tiers_hold() -> None:
    d = design()
    t = loads.two_methods(d, "MH")
    words = {str(line.cells[0]): line.cells for line in t.lines}
    assert words["cooking"][2] == "inside the tiers"
    assert isinstance(words["heating or cooling"][2], Num)
    assert str(words["calculated load, A"][1]) == c.num(d, "demand/MH/standard/amperes").shown
    assert re.fullmatch(r"\d+ % less", str(words["calculated load, VA"][4]))
    assert isinstance(words["calculated load, VA"][3], Num)  # the difference opens, too


def test_a_row_that_fails_is_marked_and_says_where_to_look() -> None:
    t = Table("T", (Column("at"), Column("A", True)), (Line(("good", "1.0"), "a/b"), Line(("bad", "2.0"), "a/c", "fails")))
    said = set_table(t, 80)
    assert [line[:5] for line in said if line[2:5] in ("goo", "bad")] == ["  goo", "! bad"]
    assert said[-1] == "! at the left: see the checks"


def test_columns_of_less_weight_go_first_and_words_wrap() -> None:
    t = Table("T", (Column("at"), Column("long words", rank=2), Column("words"), Column("more"), Column("number", True)),
              tuple(Line((f"x{i}", "a " * 30, "b " * 40, "c " * 20, "1,234.5")) for i in range(2)))
    wide, narrow = set_table(t, 120), set_table(t, 60)
    assert "long" in wide[2] + wide[3] and "long" not in narrow[2] + narrow[3]
    assert all(len(line) <= 60 for line in narrow) and sum("1,234.5" in line for line in narrow) == 2


def test_a_withheld_number_is_not_shown() -> None:
    d = Design(estate("demo_estate"))
    vars(d)["withheld"] = frozenset({"feeder/GH"})
    assert str(c.num(d, "feeder/GH/drop")) == "[withheld]"
    gh = next(line for line in schedules.feeders(d).lines if line.cells[0] == "GH")
    assert all(str(cell) == "[withheld]" for cell in gh.cells[2:] if isinstance(cell, Num) and cell.tag.startswith("feeder/"))


def test_a_whole_item_and_a_single_number_can_be_explained() -> None:
    d = design()
    one, whole = text.explain(d, "feeder/GH/drop"), text.explain(d, "feeder/GH")
    assert one.splitlines()[0] == f"feeder/GH/drop: voltage drop {c.num(d, 'feeder/GH/drop').shown} %"
    assert whole.splitlines()[0].startswith("feeder/GH: Guest house") and len(whole) > len(one)
    assert "number demand/GH/optional/total" in one
    assert len(text.explain(d, "feeder/GH/drop", deep=True)) > len(one)
    assert "estate.yaml" in one and "NFPA 70-2023 Table 310.16" in one


def test_an_estate_without_much_in_it_prints_too() -> None:
    d = Design(small(('size: "4/0"', 'sets: 1, size: "4/0"')))
    said = text.result(d)
    assert "Two houses" in said and "Feeders" in said and "(C07)" not in said
    for t in (loads.summary(d), schedules.feeders(d), schedules.paths(d)):
        assert markdown.table(t).startswith(f"### {t.title}")
