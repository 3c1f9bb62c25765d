"""The published examples themselves, and the page that tells a stranger how to write one."""
import ast
from collections.abc import Iterator
import json
from pathlib import Path
import random
import re
from typing import Any

from curtilage.reference import METHODS, Report, command, render, run
from curtilage.reference.command import SCHEMA
from curtilage.reference.kinds import WORDS
from curtilage.reference.listing import markdown
from curtilage.reference.report import FAILS
from curtilage.values.told import explain_text, walk
import freeze_reference
import nbformat
import pytest

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "reference_checks"
README = (FOLDER / "README.md").read_text(encoding="utf-8")
NOT_RUN = (FOLDER / "NOT_RUN.md").read_text(encoding="utf-8")
COLLECTED = """
A01 A02 A03 A04 A05 A06 A07 A08 A09 A10 A15 A17 A19 A20x A21 A22 A23 A24 N29 N30 N31 N32 N34 N35 N36
AD-D1a AD-D1b AD-D2a AD-D2b AD-D2c AD-D3 AD-D4a AD-D4b AD-D5a AD-D6a AD-D6b AD-D11 AD-D12
B01 B04 B05 B09 B10 B11 B12 B13 B15 N25 N26 AD-D7
C01 C02 C04 C05 C06 C07 C09 N09 N10 N11 N13 N15 N52 N53 N55 N56
D01 D02 D03 D04 D05 D06 D07 N01 N02 N05 N06 N07 XF-06 XF-07
I03 I04 I05 I06 I08 AD-D8 AD-D8f AD-D10
J01 J05 J07
E01 E02 E03 E06 E09 N19 N21 N22 N58
K01 K02 K03 K04 K06 AD-D15
""".split()                                       # every record that was collected for these families


@pytest.fixture(scope="module")
def report() -> Report:
    return run([FOLDER])


# --------------------------------------------------------------------------------------------------------- the examples
def test_every_printed_answer_is_reproduced(report: Report) -> None:
    """To its printed digits, or along the source's own path with the step named that differs."""
    assert not report.problems, "\n".join(map(str, report.problems))
    assert not report.failed, [(r.file, r.result, r.printed, r.ours, r.why) for r in report.failed]
    assert report.exit_code == 0


def test_what_was_not_read_in_print_is_reproduced_too(report: Report) -> None:
    """It proves nothing about publications, but a file that does not hold is of no use."""
    assert not [(r.file, r.result, r.printed, r.ours) for r in report.unpublished if r.outcome == FAILS]


def test_every_record_is_a_file_or_says_why_not(report: Report) -> None:
    run_ids = {e.id for e in report.examples}
    for id in COLLECTED:
        listed = re.search(rf"^\| {re.escape(id)} \|", NOT_RUN, re.M) is not None
        assert (id in run_ids) != listed or (id in run_ids and f"{id} (part)" in NOT_RUN), f"{id}: file or reason, one of both"


def test_files_stand_in_the_folder_of_their_family_under_their_id(report: Report) -> None:
    for e in report.examples:
        assert Path(e.file) == FOLDER / e.family / f"{e.id}.toml", e.file


def test_what_was_read_in_print_says_where(report: Report) -> None:
    places = {e.file: e for e in report.examples}
    for r in report.rows:
        e = places[r.file]
        assert r.status != "printed" or (e.source and e.where and e.seen_at), f"{r.file}: no place for '{r.result}'"


def test_second_prints_name_a_record_that_counts(report: Report) -> None:
    ids = {e.id: e for e in report.examples}
    for e in report.examples:
        if e.duplicates:
            assert e.duplicates in ids and not ids[e.duplicates].duplicates, f"{e.file}: {e.duplicates}"


def test_no_expected_value_is_a_program_s_own_output(report: Report) -> None:
    """More than six significant digits are no print but a paste, unless the notes of the file speak of them."""
    notes = {e.file: e.notes for e in report.examples}
    for r in report.rows:
        digits = re.sub(r"^0+", "", re.sub(r"[^0-9]", "", r.printed.split(" ")[0]))
        assert len(digits) <= 6 or notes[r.file] or "," in r.printed, f"{r.file}: {r.result} = {r.printed}"


def test_no_file_names_a_path_of_a_machine(report: Report) -> None:
    for e in report.examples:
        text = Path(e.file).read_text(encoding="utf-8")
        assert not re.search(r"/(?:work|tmp|home|Users|root)/|examples\.yaml", text), e.file


# ----------------------------------------------------------------------------------------------- every number has a working
def test_every_number_of_ours_opens_to_leaves_that_have_a_place(report: Report) -> None:
    """Leaves are inputs with file and line, table cells or rules with their clause, or plain facts that say what they are."""
    for r in report.rows:
        assert r.told is not None, f"{r.file}: {r.result}"
        assert explain_text(r.told)
        for n in walk(r.told):
            if not n.inputs and not n.because and n.how != "line":
                assert n.where or str(n.cite), f"{r.file}: {r.result}: {n.symbol} comes from nowhere"


def test_results_come_in_the_units_that_are_documented(report: Report) -> None:
    cases = {(e.file, c.name): c for e in report.examples for c in e.cases}
    for r in report.rows:
        method = METHODS[cases[r.file, r.case].method]
        result = method.result(r.result)
        assert result is not None and r.told is not None
        if method.name != "edition.rule" and result.unit not in (WORDS,):
            assert r.told.unit == result.unit, f"{method.name}: {r.result} is told in {r.told.unit}"


# -------------------------------------------------------------------------------------------------------- the documentation
def blocks() -> list[str]:
    return re.findall(r"```toml\n(.*?)```", README, re.S)


def test_every_file_of_the_documentation_runs(tmp_path: Path) -> None:
    for i, text in enumerate(blocks()):
        (tmp_path / f"{i}.toml").write_text(text, encoding="utf-8")
    report = run([tmp_path])
    assert not report.problems, "\n".join(map(str, report.problems))
    assert len(report.examples) == len(blocks()) >= 3
    assert not [r for r in report.rows if not r.reproduced]
    assert any(r.outcome == "differs" for r in report.rows)


def test_the_list_of_methods_is_in_step() -> None:
    assert markdown(METHODS.values()) in README, "run: python tools/freeze_reference.py"


def test_the_overview_is_in_step(report: Report) -> None:
    assert freeze_reference.overview(report) in README, "run: python tools/freeze_reference.py"


def test_every_key_of_the_format_is_documented() -> None:
    from curtilage.reference import loader
    for key in {*loader._FILE, *loader._CASE, *loader._STEP}:
        assert f"`{key}`" in README or f"[{key}]" in README, key


def test_every_status_and_rounding_is_documented() -> None:
    from curtilage.reference.example import STATUSES
    from curtilage.reference.printed import rounding
    assert all(f"`[{s}]`" in README for s in STATUSES)
    for name in re.findall(r'`"((?:half up|cut|up) to [0-9.]+)"`', README):
        rounding(name)


BAD = [                                          # what a beginner writes -> the message in the list of common errors
    ('ranges = [{', 'range = [{'), ('"16 kW"', "12"), ('"16 kW"', '"12 kA"'), ("qty = 24", "qty = 2.5"), ('"46.8 kW"', "46.8"),
    ('"46.8 kW"', '"46.8"'), ("demand =", "demnd ="),
    ('demand = "46.8 kW"', 'demand = "46.8 kW"\n[recomputed]\ndemand = "46.8 kW"'),
    ("[printed]", "[printed")]


def errors() -> Iterator[str]:
    part = README.split("## Common errors")[1].split("\n## ")[0]
    yield from re.findall(r"^\| `(.+?)` \|", part, re.M)


def test_the_common_errors_read_as_documented(tmp_path: Path) -> None:
    seen = []
    for i, (old, new) in enumerate(BAD):
        assert old in blocks()[0]
        (tmp_path / f"{i}.toml").write_text(blocks()[0].replace(old, new), encoding="utf-8")
        report = run([tmp_path / f"{i}.toml"])
        assert len(report.problems) == 1, [str(p) for p in report.problems]
        seen.append(str(report.problems[0]))
    differs = re.search(r"^differs.*\n", blocks()[1], re.M)
    assert differs is not None
    for i, (old, new) in enumerate([("0.7 * 1000", "0.8 * 1000"), (differs[0], "")]):
        (tmp_path / f"path{i}.toml").write_text(blocks()[1].replace(old, new), encoding="utf-8")
        seen += [r.why for r in run([tmp_path / f"path{i}.toml"]).failed]
    for message in errors():
        assert any(message in s for s in seen), f"nothing says: {message}\n" + "\n".join(seen)


def spoilt(text: str, chance: random.Random) -> str:
    """A file with a number, a character or a line changed."""
    kind = chance.randrange(4)
    if kind == 0:
        number = chance.choice(list(re.finditer(r"[0-9]+", text)))
        return text[:number.start()] + chance.choice(["0", "-1", "1e9", "nan", "99999999", '"x"']) + text[number.end():]
    if kind == 1:
        word = chance.choice(list(re.finditer(r'"[^"\n]*"', text)))
        return text[:word.start()] + chance.choice(['"0 V"', '""', "true", "[]", "{}", '"90 degC"', "3"]) + text[word.end():]
    if kind == 2:
        at = chance.randrange(len(text))
        return text[:at] + text[at + 1:]
    lines = text.split("\n")
    lines.insert(chance.randrange(len(lines)), lines.pop(chance.randrange(len(lines))))
    return "\n".join(lines)


def test_whatever_a_beginner_does_to_a_file_is_answered(report: Report, tmp_path: Path) -> None:
    """Never a traceback: a spoilt file runs, or says in which line it cannot."""
    chance, path = random.Random(7), tmp_path / "spoilt.toml"
    texts = [Path(e.file).read_text(encoding="utf-8") for e in report.examples]
    for _ in range(250):
        path.write_text(spoilt(chance.choice(texts), chance), encoding="utf-8")
        found = run([path])
        assert render(found)
        assert all(p.message and p.line >= 1 for p in found.problems), [str(p) for p in found.problems]


def test_a_division_by_zero_is_told_in_words(tmp_path: Path) -> None:
    path = tmp_path / "zero.toml"
    path.write_text(blocks()[2].replace('"120 V"', '"0 V"'), encoding="utf-8")
    problems = run([path]).problems
    assert len(problems) == 2 and all("cannot be computed from these inputs" in p.message for p in problems)


# ---------------------------------------------------------------------------------------------------- command and notebooks
def test_the_command_gives_text_and_an_exit_code(tmp_path: Path) -> None:
    (tmp_path / "good.toml").write_text(blocks()[0], encoding="utf-8")
    text, code = command([tmp_path])
    assert code == 0 and "46.8 kW" in text and "published answers   1: 1 agree" in text
    (tmp_path / "good.toml").write_text(blocks()[0].replace("46.8 kW", "46.9 kW"), encoding="utf-8")
    text, code = command([tmp_path], working=True)
    assert code == 1 and "not reproduced" in text and "Table 220.55" in text
    text, code = command([tmp_path / "none.toml"])
    assert code == 2 and "no such file" in text


def test_json_fits_its_schema_and_is_the_same_each_time() -> None:
    jsonschema: Any = pytest.importorskip("jsonschema")
    text, code = command([FOLDER / "A"], as_json=True)
    data = json.loads(text)
    jsonschema.Draft202012Validator(SCHEMA).validate(data)
    assert data["exit_code"] == code
    assert command([FOLDER / "A"], as_json=True) == (text, code)
    assert all(row["working"] for row in data["rows"])


@pytest.mark.parametrize("family", freeze_reference.FAMILIES)
def test_the_notebooks_are_in_step_and_import_only_this_kit(report: Report, family: str) -> None:
    path = FOLDER / f"family_{family}.ipynb"
    made = freeze_reference.notebook(family, [e for e in report.examples if e.family == family])
    kept = nbformat.read(path, as_version=4)
    assert [c.source for c in kept.cells] == [c.source for c in made.cells], "run: python tools/freeze_reference.py"
    for cell in kept.cells:
        assert cell.metadata == {}
        if cell.cell_type == "code":
            for node in ast.walk(ast.parse(cell.source)):
                assert not isinstance(node, ast.Import)
                assert not isinstance(node, ast.ImportFrom) or (node.module or "").split(".")[0] == "curtilage"
                assert not isinstance(node, ast.BinOp), "no engineering in a notebook"
