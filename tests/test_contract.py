"""Every line of every method: it evaluates as printed, its units come out exactly, and the told runs of the tests reach it."""
from __future__ import annotations

import ast
from pathlib import Path
import re

from contract import WORDS, as_computed, as_printed, constants, methods, nodes, quantities_of, runs, with_units
from curtilage.values import lines as u
from curtilage.values.method import lines_of, method, source_tree
from curtilage.values.told import Told, how, symbols
import pytest

METHODS = list(methods())
GRAMMAR = (ast.AnnAssign, ast.Assign, ast.If, ast.For, ast.Break, ast.Continue, ast.Return, ast.Raise, ast.Expr)
NEVER_TOLD: dict[str, str] = {                 # "method: line" -> why no run can reach it
}


def every() -> list[Told]:
    return [n for some in nodes().values() for n in some]


def about(n: Told) -> str:
    return f"{n.place}: {n.symbol} [{n.unit}] = {n.value!r}: {how(n)}"


def test_every_case_runs_to_its_end() -> None:
    for name, e in runs().broken.items():
        raise AssertionError(f"{name} broke off") from e


def test_what_is_printed_is_what_was_computed() -> None:
    for n in every():
        assert as_computed(n) == n.value, about(n)


def test_printed_digits_give_the_printed_result() -> None:
    for n in every():
        if n.unit not in (*WORDS, "count"):
            assert as_printed(n) == pytest.approx(n.value, rel=1e-4), about(n)


def test_units_come_out_exactly() -> None:
    wrong = []
    for n in every():
        try:
            got = with_units(n)
            good = got == n.value if n.unit in WORDS else got == pytest.approx(n.value, rel=1e-9, abs=1e-12)
        except Exception as e:
            got, good = f"{type(e).__name__}: {e}", False
        if not good:
            wrong.append(f"{about(n)}\n    with units: {got}")
    assert not wrong, "\n".join(list(dict.fromkeys(wrong))[:20])


def is_named(expr: ast.expr) -> bool:
    """A line that only names what a rule, a table or another method gave."""
    if isinstance(expr, ast.Call):
        return isinstance(expr.func, ast.Attribute) or any(n.endswith(f".{getattr(expr.func, 'id', '')}") for n in METHODS)
    return isinstance(expr, ast.Subscript | ast.Name | ast.Attribute)


def leads_nowhere(name: str) -> set[int]:
    """Where tests stand on which no line depends: they only raise, return or pass over, and leave no trace in what is told."""
    ifs = [s for s in ast.walk(source_tree(methods()[name])) if isinstance(s, ast.If)]
    return {s.test.lineno for s in ifs if not any(isinstance(n, ast.AnnAssign) for n in ast.walk(s))}


@pytest.mark.parametrize("name", METHODS)
def test_every_line_was_told(name: str) -> None:
    told = {(symbol, text) for symbol, text, _ in nodes()}
    named = {n.symbol for some in nodes().values() for top in some for n in (top, *top.inputs, *top.because)}
    nowhere = leads_nowhere(name)
    for line in lines_of(methods()[name]):
        if line.symbol == "test" and line.expr.lineno in nowhere:
            continue
        what = f"{name}: {line.symbol} = {line.text}"
        reached = (line.symbol, f"{line.expr.lineno}: {line.text}") in told or (is_named(line.expr) and line.symbol in named)
        assert reached or what in NEVER_TOLD, f"{what} is never told; add a case in a module cases_*.py of the tests"


@pytest.mark.parametrize("name", METHODS)
def test_both_sides_of_a_choice_were_told(name: str) -> None:
    told = set(nodes())
    for line in lines_of(methods()[name]):
        if isinstance(line.expr, ast.IfExp):
            for taken in (True, False):
                what = f"{name}: {line.symbol} = {line.text}"
                reached = (line.symbol, f"{line.expr.lineno}: {line.text}", taken) in told
                assert reached or what in NEVER_TOLD, f"{what}: the side '{'if' if taken else 'else'}' is never told"


@pytest.mark.parametrize("name", METHODS)
def test_a_method_keeps_to_its_small_grammar(name: str) -> None:
    """Lines, choices, loops over candidates; arithmetic stands in lines, where it can be told."""
    tree = source_tree(methods()[name])
    for s in ast.walk(tree):
        where = f"{name}, line {getattr(s, 'lineno', '?')}"
        if isinstance(s, ast.stmt) and s is not tree:
            assert isinstance(s, GRAMMAR), f"{where}: no {type(s).__name__} in a method"
        if isinstance(s, ast.Expr):
            assert isinstance(s.value, ast.Constant), f"{where}: a statement without a result"
        if isinstance(s, ast.Return | ast.Assign):
            inner = [n for n in ast.walk(s) if isinstance(n, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp)]
            assert not inner, f"{where}: arithmetic outside a line"
        if isinstance(s, ast.GeneratorExp):
            assert len(s.generators) == 1 and not s.generators[0].ifs, f"{where}: one plain `for` in a sum"
        if isinstance(s, ast.Call) and any(n.endswith(f".{getattr(s.func, 'id', '')}") for n in METHODS):
            starred = [a for a in s.args if isinstance(a, ast.Starred)]
            assert not s.keywords and not starred, f"{where}: a method is called with plain arguments"


@pytest.mark.parametrize("name", METHODS)
def test_a_method_says_what_it_is(name: str) -> None:
    doc = methods()[name].__doc__
    assert doc and doc.strip().split("\n")[0].endswith("."), f"{name} needs a first sentence that ends in a full stop"


@pytest.mark.parametrize("name", METHODS)
def test_units_are_known(name: str) -> None:
    for line in lines_of(methods()[name]):
        assert isinstance(line.unit, u.Unit), f"{name}: {line.symbol}"
        assert line.unit.name in WORDS or quantities_of(line.unit.name) is not None


def test_a_constant_has_one_unit_everywhere() -> None:
    assert not {name: units for name, units in constants().items() if len(units) > 1}


NAMES_WITH_A_YEAR = ("json-schema.org/draft/2020-12", "tag:yaml.org,2002:")


def test_no_year_in_the_code() -> None:
    """Editions are data: what holds from which edition on is said there, and no program text asks for a year."""
    core = Path(__file__).resolve().parent.parent / "core" / "curtilage"
    for path in sorted(core.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        for name in NAMES_WITH_A_YEAR:
            text = text.replace(name, "")
        found = re.findall(r".*\b20(?:0[1-9]|1[0-9]|2[0-9])\b.*", text)
        assert not found, f"{path.name}: {found[0].strip()}"


# ------------------------------------------------------------------------------------ the contract itself is held to its word


@method
def lost_thousand(R: u.ohm_per_kft, I: u.A, L: u.ft):
    """A wrong line: per thousand feet times feet."""
    V_d: u.V = 2 * R * I * L
    return V_d


@method
def wrong_quantity(R: u.ohm_per_kft, I: u.A):
    """A wrong line: volts declared as a percentage."""
    V_d: u.percent = R * I
    return V_d


def given(symbol: str, x: float, unit: str) -> Told:
    return Told(symbol, x, unit, "given")


def test_a_lost_factor_is_caught() -> None:
    n = lost_thousand.told(given("R", 0.491, "ohm/kft"), given("I", 30.0, "A"), given("L", 240.0, "ft"))
    assert as_computed(n) == n.value and symbols(n) == "2 * R * I * L"
    assert with_units(n) == pytest.approx(n.value / 1000)


def test_a_wrong_dimension_is_caught() -> None:
    n = wrong_quantity.told(given("R", 0.491, "ohm/kft"), given("I", 30.0, "A"))
    with pytest.raises(Exception, match="Cannot convert"):
        with_units(n)
