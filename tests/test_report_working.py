"""Workings as rows: what a reader sees of a line, and that what is printed still is the line."""
from __future__ import annotations

from functools import cache
import math
import re
from typing import NamedTuple

from curtilage.design import Design
from curtilage.editions import Edition
from curtilage.model import load
from curtilage.report import markdown, numbers, typeset
from curtilage.report import working as w
from curtilage.values import lines as u
from curtilage.values.method import method
from curtilage.values.told import Told, item
import pytest

FT_PER_KFT: u.ft_per_kft = 1000.0
NONE: u.VA = 0.0
NO_SIZE: u.size = ""
SIZES = ("10", "8", "6")
OHMS = {"10": 1.2, "8": 0.8, "6": 0.5}


class Load(NamedTuple):
    id: str
    va: Told


@method
def drop(R: u.ohm_per_kft, I: u.A, L: u.ft):
    V_d: u.V("Ohm's law, out and back") = 2 * R * I * L / FT_PER_KFT
    return V_d


@method
def chosen(I: u.A, L: u.ft, limit: u.V, stated: u.size):
    if stated != NO_SIZE:
        size: u.size = stated
    else:
        for s in SIZES:
            R: u.ohm_per_kft = OHMS[s]
            V_d: u.V = drop(R, I, L)
            if V_d <= limit:
                size: u.size = s
                break
    return size


@method
def summed(loads, heat, continuous: u.flag, factor: u.ratio, V: u.V):
    S: u.VA = sum(x.va for x in loads)
    S_least: u.VA = max((x.va for x in loads), default=NONE)
    S_heat: u.VA = sum(heat)
    S_all: u.VA = factor * (S + S_heat) if continuous else S + S_heat
    q: u.ratio = (1 - factor * factor / 2) ** 0.5
    I: u.A = S_all / V - -1.0
    return S_all, I, q, S_least


def given(symbol: str, value: object, unit: str) -> Told:
    return Told(symbol, value, unit, "given", place=f"loads.L1.{symbol}", where=f"loads.csv:2 column {symbol}")


def run(limit: float = 15.0, stated: str = "") -> list[w.Row]:
    numbers_ = given("I", 30.0, "A"), given("L", 240.0, "ft"), given("limit", limit, "V")
    return w.rows(chosen.told(*numbers_, given("stated", stated, "size")))


def total(*va: float, continuous: bool = True) -> list[w.Row]:
    loads = tuple(Load(f"L{i}", given("va", x, "VA")) for i, x in enumerate(va))
    heat = (given("heat", 5000.0, "VA"), given("heat", 0.0, "VA"))
    told = summed.told(loads, heat, given("continuous", continuous, "yes/no"), given("factor", 1.25, ""), given("V", 240.0, "V"))
    return w.rows(*told)


said = typeset.ascii_text


def by_symbol(rows: list[w.Row], symbol: str) -> w.Row:
    return next(r for r in rows if said(r.symbol) == symbol)


def test_a_line_in_symbols_and_in_numbers() -> None:
    r = by_symbol(run(), "V_d")
    assert said(r.symbols) == "2 * R * I * L / 1000"
    assert said(r.numbers) == "2 * 0.8 * 30 * 240 / 1000"
    assert typeset.plain_text(r.numbers) == "2 * 0.8 * 30 * 240 / 1000".replace("*", "\u00d7")
    assert typeset.html(r.symbol) == "V<sub>d</sub>"
    assert (r.shown, r.unit, w.source(r)) == ("11.52", "V", "Ohm's law, out and back")


def test_candidates_stand_in_the_row_of_the_choice() -> None:
    rows = run()
    r = by_symbol(rows, "size")
    assert r.kind == "choice"
    assert said(r.symbols) == "first with V_d <= limit"
    assert said(r.numbers) == "10: 17.28 <= 15 fails; 8: 11.52 <= 15"
    assert said(r.words) == "because stated = not stated"
    assert r.shown == "8"
    assert not [x for x in rows if "test" in said(x.symbol)]


def test_a_branch_is_a_question_and_a_reason() -> None:
    rows = run(stated="6")
    assert by_symbol(rows, "stated != not stated?").shown == "yes"
    assert said(by_symbol(rows, "size").words) == "because stated != not stated"


def test_the_side_that_was_taken_is_shown_and_why() -> None:
    yes, no = by_symbol(total(720.0), "S_all"), by_symbol(total(720.0, continuous=False), "S_all")
    assert said(yes.symbols) == "factor * (S + S_heat)"
    assert said(yes.words) == "because continuous is yes"
    assert said(no.symbols) == "S + S_heat"
    assert said(no.words) == "because continuous is no"
    assert "if" not in said(yes.symbols).split()


def test_sums_count_what_is_alike() -> None:
    rows = total(720.0, 720.0, 720.0, 1500.0)
    r = by_symbol(rows, "S")
    assert said(r.symbols) == "sum of va over loads"
    assert said(r.numbers) == "3 * 720 + 1500"
    assert said(by_symbol(rows, "S_heat").numbers) == "5000 + 0"
    assert said(by_symbol(rows, "S_least").numbers) == "max(720, 720, 720, 1500)"
    assert said(by_symbol(total(), "S").numbers) == ""          # only the result: nothing was added


def test_roots_and_negative_numbers() -> None:
    rows = total(720.0)
    assert said(by_symbol(rows, "q").symbols) == "sqrt(1 - factor * factor / 2)"
    assert typeset.plain_text(by_symbol(rows, "q").symbols) == "\u221a(1 \u2212 factor \u00d7 factor / 2)"
    assert said(by_symbol(rows, "q").numbers) == "sqrt(1 - 1.25 * 1.25 / 2)"
    assert said(by_symbol(rows, "I").numbers) == "7150 / 240 - (-1)"


def test_a_shallow_working_stops_at_numbers_of_other_items() -> None:
    inner = drop.told(given("R", 0.5, "ohm/kft"), given("I", 30.0, "A"), given("L", 240.0, "ft"))
    far = item(Told("L", 240.0, "ft", "line", (inner,)), "route/GH/length")
    outer = drop.told(given("R", 0.5, "ohm/kft"), given("I", 30.0, "A"), far)
    shallow, deep = w.rows(outer), w.rows(outer, deep=True)
    assert [r.tag for r in shallow if r.tag] == ["route/GH/length"]
    assert w.how(next(r for r in shallow if r.tag)) == "number route/GH/length"
    assert len(deep) > len(shallow)


@pytest.mark.parametrize(("value", "unit", "field", "shown"), [
    (2.5345, "%", "drop", "2.53"), (1234.5, "A", "current", "1,234.5"), (200.0, "A", "device", "200"),
    (-0.004, "%", "drop", "0.00"), (33116.6, "VA", "total", "33,117"), (True, "yes/no", "carries_ok", "yes"),
    ("4/0", "size", "size", "4/0"), (0.333, "", "", "0.333"),
])
def test_one_rule_of_show_for_each_field(value: object, unit: str, field: str, shown: str) -> None:
    assert numbers.shown(value, unit, field) == shown


@pytest.mark.parametrize(("x", "text"), [
    (1250000.0, "1250000"), (0.000012, "0.000012"), (16497.3, "16497.3"), (True, "yes"), ((1.0, 2.5), "[1, 2.5]"),
    (math.inf, "\u221e"), (-3.0, "-3"), ("none", "none"),
])
def test_figures_of_a_working_have_no_exponent(x: object, text: str) -> None:
    assert numbers.digits(x) == text


def test_every_field_of_the_results_has_a_label_in_words() -> None:
    d = demo()
    fields = {tag.rpartition("/")[2] for tag in d.tags()}
    assert all(numbers.label(f) and "_" not in numbers.label(f) for f in fields)


@cache
def demo() -> Design:
    return Design(load("demo_estate"))


def as_python(f: typeset.Formula) -> str:
    return re.sub(r"\bmod\b", "%", re.sub(r"number of (\[.*?\])", r"len(\1)", typeset.ascii_text(f)))


@pytest.mark.parametrize("kind", ["demand/MH/standard", "demand/MH/optional", "demand/M2/other", "feeder/", "service", "path/",
                                  "main/", "neutral/MH", "expected", "circuit/L05"])
def test_what_is_printed_gives_the_value(kind: str) -> None:
    """The substituted line, read as arithmetic, gives the result to the printed digits: a second reading of what is shown."""
    d, seen = demo(), 0
    names = {**vars(math), "max": max, "min": min, "len": len, "round": round, "abs": abs}
    for key in (k for k in d.items if k.startswith(kind)):
        for r in w.rows(*w.fields(d.tell(key)).values()):
            if r.kind != "line" or not r.numbers or r.node.unit in numbers.WORDS:
                continue
            value = eval(as_python(r.numbers), {"__builtins__": {}}, names)
            assert value == pytest.approx(r.node.value, rel=2e-4, abs=2e-4), f"{key}: {w.how(r)} = {r.shown}"
            seen += 1
    assert seen


def test_no_python_is_left_in_what_is_shown() -> None:
    d = demo()
    for key in ("feeder/MH", "demand/MH/standard", "service", "circuit/L052"):
        for r in w.rows(*w.fields(d.tell(key)).values()):
            shown = " ".join(typeset.plain_text(f) for f in (r.symbol, r.symbols, r.numbers, r.words))
            assert not re.search(r"\bif\b|\belse\b|==|!=|>=|<=|\*|\btest\b|None|True|False|_see|lambda", shown), shown


def test_other_editions_print_too() -> None:
    d = Design(load("demo_estate"), Edition.load("nec2026"))
    for key in d.items:
        assert w.rows(*w.fields(d.tell(key)).values())


def test_markdown_keeps_text_as_text() -> None:
    assert markdown.safe("a|b <i> *c* [d](e)") == r"a\|b \<i\> \*c\* \[d\](e)"
    text = markdown.explain(demo(), "feeder/GH/drop")
    assert text.startswith("## feeder/GH/drop: voltage drop ")
    assert all(line.count("|") - line.count("\\|") == 5 for line in text.splitlines() if line.startswith("|"))
