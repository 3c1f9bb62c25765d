"""The reference room: how a file is read, run, compared. The methods here are a stub; the real ones have tests of their own."""
from pathlib import Path
from typing import Any, NamedTuple

from curtilage.errors import CurtilageError
from curtilage.reference import arithmetic, engine, printed
from curtilage.reference.kinds import COUNT, NUMBER, SIZE, WORDS, Key, Method, Result
from curtilage.reference.places import lines
from curtilage.reference.report import Report
from curtilage.reference.run import run
from curtilage.reference.text import render
from curtilage.values import lines as u
from curtilage.values.method import method
from curtilage.values.told import walk
import pytest


class Box(NamedTuple):
    """A stub's input."""
    load: u.VA
    volts: u.V
    qty: u.count


@method
def current(b):
    """Current of alike loads."""
    S: u.VA = b.load * b.qty
    I: u.A = S / b.volts
    return I


def adapter(g: Any, run: Any) -> dict[str, Any]:
    told = current.told(run.record(Box(run.bare.load, run.bare.volts, run.bare.qty)))
    size = told.__class__("size", "1/0" if told.value < 100 else "250", "size", "line", (told,))
    return {"current": told, "total": told.inputs[0], "size": size}


STUB = {"stub.current": Method(
    "stub.current", "current of alike loads",
    (Key("load", "VA", "one load"), Key("volts", "V", "nominal volts", 240.0), Key("qty", COUNT, "how many", 1),
     Key("pf", NUMBER, "power factor", 1.0), Key("ratings", "VA", "more loads", (), True), Key("wire", SIZE, "a size", ""),
     Key("metal", WORDS, "conductor", "copper", choices=("copper", "aluminium"))),
    (Result("current", "A", "their current"), Result("total", "VA", "all loads"), Result("size", SIZE, "a wire")), adapter)}

HEAD = """reference = 1
id = "X1"
family = "A"
title = "a stub"
source = "A book, 1st ed."
where = "p. 1"
edition = "nec2023"
method = "stub.current"
"""


@pytest.fixture(autouse=True)
def no_edition(monkeypatch: pytest.MonkeyPatch) -> None:
    def published(name: str) -> None:
        if name != "nec2023":
            raise CurtilageError(f"no edition '{name}'")
    monkeypatch.setattr(engine, "published", published)


@pytest.fixture
def one(tmp_path: Path) -> Any:
    def make(body: str, head: str = HEAD, name: str = "x.toml") -> Report:
        path = tmp_path / name
        path.write_text(head + body, encoding="utf-8")
        return run([path], STUB)
    return make


def only(report: Report) -> Any:
    assert not report.problems, [str(p) for p in report.problems]
    (row,) = report.rows
    return row


# ------------------------------------------------------------------------------------------- digits set the tolerance
@pytest.mark.parametrize(("text", "number", "unit", "half"), [
    ("18,600 VA", "18600", "VA", "0.5"), ("7.2 kVA", "7.2", "kVA", "0.05"), ("16.20 A", "16.20", "A", "0.005"),
    ("0.02613", "0.02613", "", "0.000005"), (".45", "0.45", "", "0.005"), ("-3 %", "-3", "%", "0.5")])
def test_printed_digits(text: str, number: str, unit: str, half: str) -> None:
    p = printed.read(text)
    assert (str(p.number), p.unit, float(p.half)) == (number, unit, float(half))


@pytest.mark.parametrize("text", ["", "VA", "18.600,5 VA", "1e3 A", "18,60 VA", "1 2 A", "nan A"])
def test_what_is_no_printed_number(text: str) -> None:
    with pytest.raises(CurtilageError, match="cannot read"):
        printed.read(text)


def test_half_a_unit_agrees_and_a_hair_more_does_not() -> None:
    """NEC Annex D, introduction: 0.5 A and more is rounded up, so 77.5 is printed 78."""
    p = printed.read("78 A")
    assert p.fits(77.5) and p.fits(78.4999) and not p.fits(77.49) and not p.fits(78.51)


@pytest.mark.parametrize(("name", "x", "result"), [
    ("half up to 1", 77.5, 78), ("half up to 1", 78.5, 79), ("half up to 0.1", 7.205, 7.2), ("half up to 100", 7205, 7200),
    ("cut to 1", 55.8, 55), ("cut to 0.01", 0.7599, 0.75), ("up to 1", 6206.3, 6207), ("up to 1", 6206, 6206),
    ("half up to 0.1", 276.45, 276.5)])
def test_roundings(name: str, x: float, result: float) -> None:
    assert printed.rounding(name)(x) == result


@pytest.mark.parametrize("name", ["", "half up", "banker to 1", "cut to 0", "cut to -1", "cut to 1 A"])
def test_unknown_roundings(name: str) -> None:
    with pytest.raises(CurtilageError, match="rounding"):
        printed.rounding(name)


# ------------------------------------------------------------------------------------------------- a file that is run
def test_agrees(one: Any) -> None:
    row = only(one('[given]\nload = "18.6 kW"\n[printed]\ncurrent = "78 A"\n'))
    assert (row.outcome, row.ours, row.difference, row.tolerance, row.status) == ("agrees", "77.5 A", "-0.5", "0.5", "printed")
    leaves = [n for n in walk(row.told) if not n.inputs]
    assert any(n.where.endswith("x.toml:10 load") for n in leaves), "a leaf knows its line"


def test_not_reproduced(one: Any) -> None:
    report = one('[given]\nload = "18.6 kW"\n[printed]\ncurrent = "77.4 A"\n')
    assert only(report).outcome == "not reproduced"
    assert report.exit_code == 1
    assert "1 NOT REPRODUCED" in render(report)


def test_the_printed_unit_is_used(one: Any) -> None:
    row = only(one('[given]\nload = "18,640 VA"\n[printed]\ntotal = "18.6 kVA"\n'))
    assert (row.ours, row.tolerance, row.outcome) == ("18.64 kVA", "0.05", "agrees")


def test_sizes_are_compared_without_their_dress(one: Any) -> None:
    assert only(one('[given]\nload = "1 kVA"\n[printed]\nsize = "1/0 AWG"\n')).outcome == "agrees"
    assert only(one('[given]\nload = "1 kVA"\n[printed]\nsize = "250 kcmil"\n')).outcome == "not reproduced"


@pytest.mark.parametrize("table", ["recomputed", "from_memory", "constructed"])
def test_only_what_was_read_in_print_counts(one: Any, table: str) -> None:
    report = one(f'[given]\nload = "18.6 kW"\n[{table}]\ncurrent = "60 A"\n')
    assert only(report).outcome == "not reproduced"
    assert (report.published, report.exit_code) == ((), 0)
    assert "published answers   0" in render(report) and "NOT READ IN PRINT" in render(report)


def test_a_second_print_is_run_and_not_counted(one: Any) -> None:
    report = one('duplicates = "X0"\n[given]\nload = "18.6 kW"\n[printed]\ncurrent = "60 A"\n')
    assert (report.published, len(report.duplicates), report.exit_code) == ((), 1, 1)


def test_several_cases(one: Any) -> None:
    report = one('[given]\nvolts = "120 V"\n'
                 '[[case]]\nname = "one"\ngiven = { load = "1.2 kVA" }\nprinted = { current = "10 A" }\n'
                 '[[case]]\nname = "three"\n[case.given]\nload = "1.2 kVA"\nqty = 3\n[case.recomputed]\ncurrent = "30 A"\n')
    assert [(r.case, r.outcome, r.status) for r in report.rows] == [
        ("one", "agrees", "printed"), ("three", "agrees", "recomputed")]


# ------------------------------------------------------------------------------------------------- the source's own path
PATH = '[given]\nload = "13.1 kVA"\nvolts = "240 V"\n[printed]\ntotal = "13.1 kVA"\ncurrent = "54.2 A"\n[[path]]\n'


CUT = """step = "thirteen"
is = "total"
unit = "kVA"
round = "cut to 1"
differs = "the book drops 0.1 kVA"
[[path]]
step = "current"
is = "1000 * thirteen / volts"
"""


def test_a_path_reproduces_the_digits_and_says_why(one: Any) -> None:
    report = one(PATH + CUT)
    agrees, differs = report.rows
    assert (agrees.outcome, differs.outcome, differs.step, differs.by_their_path) == ("agrees", "differs", "thirteen", "54.167 A")
    assert report.exit_code == 0
    assert "differs at step thirteen" in render(report) and "the book drops 0.1 kVA (their path: 54.167 A)" in render(report)


def test_a_path_that_does_not_lead_to_the_figure_fails(one: Any) -> None:
    row = one(PATH + CUT.replace("cut to 1", "cut to 10")).rows[1]
    assert (row.outcome, row.why) == ("not reproduced", "the path of the file does not lead to the printed figure")


def test_a_path_that_does_not_say_what_differs_fails(one: Any) -> None:
    row = one(PATH + CUT.replace('differs = "the book drops 0.1 kVA"', "")).rows[1]
    assert (row.outcome, row.why) == ("not reproduced", "no step of the path says in 'differs' what the source does otherwise")


def test_a_differs_that_the_figure_does_not_stand_on_is_no_excuse(one: Any) -> None:
    """A remark at a step beside the way excuses nothing."""
    row = one(PATH + CUT.replace("1000 * thirteen / volts", "54.2")).rows[1]
    assert row.outcome == "not reproduced"


def test_a_step_rounds_our_own_value(one: Any) -> None:
    row = one('[given]\nload = "13.4 kVA"\n[printed]\ncurrent = "55 A"\n[[path]]\nstep = "current"\nround = "cut to 1"\n'
              'differs = "the book cuts"\n').rows[0]
    assert (row.ours, row.outcome, row.by_their_path) == ("55.83 A", "differs", "55 A")


def test_a_step_runs_a_method_again(one: Any) -> None:
    row = one('[given]\nload = "12 kVA"\n[printed]\ncurrent = "100 A"\n[[path]]\nstep = "current"\ngiven = { qty = 2 }\n'
              'result = "current"\ndiffers = "the book counts two"\n').rows[0]
    assert (row.ours, row.outcome, row.by_their_path) == ("50 A", "differs", "100 A")


def test_a_source_that_contradicts_itself(one: Any) -> None:
    """Allowed only beside another printed figure of the same source that is reproduced."""
    body = ('[given]\nload = "12 kVA"\n[printed]\ncurrent = "52 A"\ntotal = "{}"\n[[path]]\nstep = "current"\n'
            'contradicts = "total"\ndiffers = "12,000 VA at 240 V are 50 A"\n')
    good, bad = one(body.format("12 kVA")), one(body.format("13 kVA"))
    assert (good.rows[0].outcome, good.exit_code) == ("the source contradicts itself", 0)
    assert (bad.rows[0].outcome, bad.exit_code) == ("not reproduced", 1)


@pytest.mark.parametrize("formula", [
    "__import__('os').system('true')", "current.__class__", "[1][0]", "(lambda: 1)()", "2 ** 9 ** 9", "'a' * 9", "True",
    "sqrt(x=1)", "1 if 1 else 2", "sqrt(-1)", "1 / 0", "9e999", "nothing + 1", "1 +", "(" * 200, "1" * 400])
def test_arithmetic_is_arithmetic_only(formula: str) -> None:
    with pytest.raises(CurtilageError):
        arithmetic.value(formula, {"current": 1.0})


def test_arithmetic() -> None:
    assert arithmetic.value("sqrt(x * x) + max(1, -2) * (3 - 1) / 4", {"x": 3.0}) == 3.5
    assert arithmetic.names("sqrt(a) + b * a") == ("a", "b")


# ------------------------------------------------------------------------------------------------- what is wrong, and where
GOOD = '[given]\nload = "1 kVA"\n[printed]\ncurrent = "4 A"\n'


@pytest.mark.parametrize(("body", "line", "field", "message"), [
    (GOOD.replace("load", "laod"), 10, "given.laod", "no key of stub.current 'laod'; did you mean 'load'?"),
    (GOOD.replace("load", "volts").replace("kVA", "kV"), 10, "given.load",
     "is missing; stub.current needs it: one load, for example \"12 kW\""),
    (GOOD.replace('"1 kVA"', "1"), 10, "given.load", "is text in quotes, for example \"12 kW\"; got 1"),
    (GOOD.replace("1 kVA", "1 kA"), 10, "given.load", "'1 kA' is not a power or a load"),
    (GOOD.replace("1 kVA", "-1 kVA"), 10, "given.load", "negative"),
    (GOOD.replace("1 kVA", "nan VA"), 10, "given.load", "not a finite number"),
    (GOOD.replace("[printed]", "qty = 1.5\n[printed]"), 11, "given.qty", "is a whole number"),
    (GOOD.replace("[printed]", "qty = true\n[printed]"), 11, "given.qty", "is a whole number"),
    (GOOD.replace("[printed]", 'pf = "0.9"\n[printed]'), 11, "given.pf", "is a bare number"),
    (GOOD.replace("[printed]", 'metal = "coper"\n[printed]'), 11, "given.metal", "did you mean 'copper'?"),
    (GOOD.replace("[printed]", 'ratings = "1 kW"\n[printed]'), 11, "given.ratings", "is a list"),
    (GOOD.replace("[printed]", 'ratings = ["1 kW", "1 kX"]\n[printed]'), 11, "given.ratings", "item 2: '1 kX' is not"),
    (GOOD.replace("[printed]", 'ratings = [{ rating = "1 kW", qyt = 2 }]\n[printed]'), 11, "given.ratings",
     "item 1: no key 'qyt'; did you mean 'qty'?"),
    (GOOD.replace("[printed]", 'ratings = [{ rating = "1 kW", qty = 99999999 }]\n[printed]'), 11, "given.ratings",
     "at most 10,000"),
    (GOOD.replace("current", "curent"), 12, "printed.curent", "no result of stub.current 'curent'; did you mean 'current'?"),
    (GOOD.replace('"4 A"', "4"), 12, "printed.current", "write the answer as text"),
    (GOOD.replace('"4 A"', '"4"'), 12, "printed.current", "'4' has no unit; write for example '4 A'"),
    (GOOD.replace('"4 A"', '"4 V"'), 12, "printed.current", "'V' is not a unit of this result"),
    (GOOD.replace('"4 A"', '"four A"'), 12, "printed.current", "cannot read 'four A' as a printed number"),
    (GOOD + '[recomputed]\ncurrent = "4 A"\n', 14, "recomputed.current", "it has one status"),
    (GOOD.replace("[printed]", "[printd]"), 11, "printd", "did you mean 'printed'?"),
    ('[given]\nload = "1 kVA"\n', 1, "", "no answers"),
    (GOOD + '[[path]]\nis = "1"\n', 13, "path[0]", "'step' is missing"),
    (GOOD + '[[path]]\nstep = "a"\nis = "1"\nround = "roughly"\n', 16, "path[0].round", "cannot read 'roughly' as a rounding"),
    (GOOD + '[[path]]\nstep = "a"\nis = "b + 1"\n', 13, "path 'a'",
     "no number 'b' here; known: current, load, pf, qty, total, volts"),
    (GOOD + '[[path]]\nstep = "a"\n', 13, "path 'a'", "write with 'is' how the source gets it"),
    (GOOD + '[[path]]\nstep = "a"\nmethod = "stub.curent"\ngiven = { load = "1 VA" }\nresult = "total"\n', 15, "path[0].method",
     "did you mean 'stub.current'?"),
    (GOOD + '[[case]]\nname = "a"\n', 11, "printed", "move [printed] into one"),
    ('[[case]]\ngiven = { load = "1 kVA" }\nprinted = { current = "4 A" }\n', 9, "case[0]",
     "'name' is missing; every case has one"),
    ("[given\n", 9, "", "this is not TOML"),
])
def test_one_clear_error_for_one_bad_key(one: Any, body: str, line: int, field: str, message: str) -> None:
    report = one(body)
    (problem,) = report.problems
    assert (problem.line, problem.field) == (line, field), str(problem)
    assert message in problem.message, str(problem)
    assert str(problem).startswith(f"{problem.file}:{line}: ") and report.exit_code == 2


@pytest.mark.parametrize(("old", "new", "line", "field", "message"), [
    ("reference = 1", "reference = 2", 1, "reference", "write 'reference = 1'"),
    ('id = "X1"', 'id = "X 1"', 2, "id", "is not an id"),
    ('title = "a stub"', "", 1, "title", "'title' is missing; every file has one"),
    ('source = "A book, 1st ed."', "source = 1", 5, "source", "is text in quotes; got 1"),
    ("stub.current", "stub.curent", 8, "method", "did you mean 'stub.current'?"),
    ("nec2023", "nec1923", 7, "edition", "no edition 'nec1923'"),
])
def test_what_is_wrong_in_the_head(one: Any, old: str, new: str, line: int, field: str, message: str) -> None:
    (problem,) = one(GOOD, HEAD.replace(old, new)).problems
    assert message in problem.message, str(problem)
    assert problem.field in (field, "") and problem.line == line


def test_all_problems_at_once_and_the_other_files_run(tmp_path: Path) -> None:
    (tmp_path / "bad.toml").write_text(HEAD.replace("source =", "sorce =") + GOOD.replace("load", "laod"), encoding="utf-8")
    (tmp_path / "good.toml").write_text(HEAD.replace("X1", "X2") + GOOD.replace('"4 A"', '"4.2 A"'), encoding="utf-8")
    report = run([tmp_path], STUB)
    assert [p.field for p in report.problems] == ["sorce", "given.laod"]
    assert [r.outcome for r in report.rows] == ["agrees"]
    assert "could not be read or run:" in render(report)


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "latin.toml").write_bytes(b'id = "\xe9"')
    (tmp_path / "long.toml").write_bytes(b"#" * 300_000)
    (tmp_path / "empty.toml").write_bytes(b"")
    (tmp_path / "empty").mkdir()
    paths = [tmp_path / n for n in ("latin.toml", "long.toml", "empty", "none.toml")]
    told = [str(p) for p in run(paths, STUB).problems]
    for text in ("is not UTF-8 text", "is larger than 200,000 bytes", "no .toml file in this folder", "no such file"):
        assert any(text in t for t in told), (text, told)
    assert any("'id' is missing" in p.message for p in run([tmp_path / "empty.toml"], STUB).problems)


def test_a_byte_order_mark_and_foreign_line_ends_are_read(tmp_path: Path) -> None:
    path = tmp_path / "dos.toml"
    path.write_bytes(b"\xef\xbb\xbf" + (HEAD + GOOD.replace('"4 A"', '"4.2 A"')).replace("\n", "\r\n").encode())
    assert only(run([path], STUB)).outcome == "agrees"


def test_one_id_is_one_file(tmp_path: Path) -> None:
    for name in ("a.toml", "b.toml"):
        (tmp_path / name).write_text(HEAD + GOOD.replace('"4 A"', '"4.2 A"'), encoding="utf-8")
    (problem,) = run([tmp_path], STUB).problems
    assert "is already the id of" in problem.message and problem.line == 2


def test_places_of_keys() -> None:
    text = ('a = 1\n[t]\n"b c" = """\nx = 1\n[no]\n"""\nd = [\n  1, # [\n]\ne.f = 2\n'
            '[[c]]\n[c.g]\nh = 1\n[[c]]\n[[c.p]]\n[[c.p]]\ni = "#"\n')
    assert lines(text) == {
        ("a",): 1, ("t",): 2, ("t", "b c"): 3, ("t", "d"): 7, ("t", "e", "f"): 10, ("c", 0): 11, ("c", 0, "g"): 12,
        ("c", 0, "g", "h"): 13, ("c", 1): 14, ("c", 1, "p", 0): 15, ("c", 1, "p", 1): 16, ("c", 1, "p", 1, "i"): 17}
