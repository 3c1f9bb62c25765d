"""The commands, as a person types them: exit codes, words, JSON held against its published schema."""

from __future__ import annotations

import json
from pathlib import Path
import re
from typing import Any

from curtilage.cli import main
from curtilage.report.schemas import schema
import pytest

DEMO = "demo_estate"


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    try:
        code = main(list(words))
    except SystemExit as e:
        code = int(e.code or 0)
    out = capsys.readouterr()
    return code, out.out, out.err


def fits(x: Any, s: Any, at: str = "$") -> None:
    """Whether JSON content fits the part of JSON Schema that is used here."""
    if "oneOf" in s:
        assert sum(matches(x, o) for o in s["oneOf"]) == 1, at
        return
    if "enum" in s:
        assert x in s["enum"], f"{at}: {x!r}"
    if "const" in s:
        assert x == s["const"], at
    kinds = s.get("type", [])
    names = {str: "string", bool: "boolean", int: "integer", float: "number", dict: "object", list: "array", type(None): "null"}
    if kinds:
        kinds = [kinds] if isinstance(kinds, str) else kinds
        whole = type(x) is int and "number" in kinds
        assert names[type(x)] in kinds or whole, f"{at}: {x!r} is no {kinds}"
    if isinstance(x, dict):
        assert set(s.get("required", [])) <= set(x), f"{at} lacks {set(s['required']) - set(x)}"
        for k, v in x.items():
            inner = s.get("properties", {}).get(k, s.get("additionalProperties", {}))
            assert inner is not False, f"{at}.{k} is not in the schema"
            fits(v, inner if isinstance(inner, dict) else {}, f"{at}.{k}")
    if isinstance(x, list):
        for i, v in enumerate(x):
            fits(v, s.get("items", {}), f"{at}[{i}]")


def matches(x: Any, s: Any) -> bool:
    try:
        fits(x, s)
    except AssertionError:
        return False
    return True


def test_design_prints_tables_and_writes_a_report(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, out, err = run(capsys, "design", DEMO, "--report", str(tmp_path / "r.html"))
    assert code == 0 and not err
    assert "Larkspur Bench" in out and "feeder/GH" in out and "Demonstration data" in out
    report = (tmp_path / "r.html").read_text(encoding="utf-8")
    assert report.startswith("<!doctype html>")
    assert not re.search(r"""(src|href)=["']?(https?:)?//|@import|url\((?!["']?data:)""", report)  # nothing is fetched


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("design", ["design", DEMO]),
        ("design", ["design", DEMO, "--variant", "as_found"]),
        ("explain", ["explain", DEMO, "feeder/GH/drop"]),
        ("explain", ["explain", DEMO, "demand/MH/standard/total", "--short"]),
        ("show", ["show", DEMO, "faults"]),
        ("show", ["show", DEMO, "temporary"]),
        ("compare", ["compare", DEMO, "--edition-b", "nec2026"]),
        ("compare", ["compare", DEMO, "--variant-b", "P04"]),
        ("later", ["later", DEMO, "--panel", "CG-1", "--add", "11.5 kVA"]),
        ("variants", ["variants", DEMO]),
        ("edition", ["edition", "changes", "nec2023", "nec2026"]),
    ],
)
def test_json_fits_its_schema(capsys: pytest.CaptureFixture[str], name: str, words: list[str]) -> None:
    code, out, _ = run(capsys, *words, "--json")
    assert code == 0
    fits(json.loads(out), schema(name))
    code, said, _ = run(capsys, "schema", name)
    assert code == 0 and json.loads(said) == schema(name)


@pytest.mark.parametrize("form", ["text", "markdown", "html"])
def test_explain_in_three_forms(capsys: pytest.CaptureFixture[str], form: str) -> None:
    code, out, _ = run(capsys, "explain", DEMO, "feeder/EG/drop", "--as", form)
    assert code == 0 and "Table 9" in out and "1240" in out.replace(",", "")


def test_topics_are_shown_one_by_one(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "show", DEMO)
    names = [line.split()[0] for line in out.splitlines() if line]
    assert code == 0 and {"faults", "network", "grounding", "raceways", "temporary"} <= set(names)
    assert names[-1] == "arrangements"      # each line a design of its own: looked at below
    for name in names[:-1]:
        code, out, _ = run(capsys, "show", DEMO, name)
        assert code == 0 and "Larkspur Bench, variant base" in out and "(C01)" in out
    code, _, err = run(capsys, "show", DEMO, "fault")
    assert code == 2 and "did you mean faults?" in err


def test_the_load_letter(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, out, _ = run(capsys, "letter", DEMO)
    assert code == 0 and "Bench Valley Electric" in out
    code, said, _ = run(capsys, "letter", DEMO, "--to", str(tmp_path / "letter.md"))
    assert code == 0 and "letter.md" in said and (tmp_path / "letter.md").read_text(encoding="utf-8").strip() == out.strip()


def test_a_letter_of_another_current(capsys: pytest.CaptureFixture[str]) -> None:
    """P20: 42 kA gear 25 ft from an infinite primary fails; behind 22 kA at the terminals nothing downstream sees more."""
    code, out, err = run(capsys, "letter", DEMO, "--variant", "P20", "--current", "22 kA")
    assert code == 0 and "takes a while" in err and "With 22,000 A at the transformer" in out and "(C07)" in out
    row = next(line for line in out.splitlines() if line.startswith("MSB "))
    assert "42,000" in row and row.endswith("holds again") and "053" in out
    for wrong in (["--current", "22"], ["--current", "22 A"], ["--current", "22 kA", "--to", "x.md"]):
        code, out, err = run(capsys, "letter", DEMO, *wrong)
        assert code == 2 and not out and "Traceback" not in err


def test_arrangements_are_shown_alone(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "show", DEMO, "arrangements")
    assert code == 0 and "takes a while" in err
    assert all(w in out for w in ("as drawn", "240.87:", "230.90(A)", "(C10)"))


def test_metres_on_request(capsys: pytest.CaptureFixture[str]) -> None:
    """The main house feeder is 265 ft long; a foot is 0.3048 m exactly (NIST SP 811): 80.772 m."""
    code, out, _ = run(capsys, "design", DEMO, "--units", "si")
    row = next(line for line in out.splitlines() if line.startswith("MH ") and "M1 to MH-DP" in line)
    assert code == 0 and " 80.8 " in row
    code, out, _ = run(capsys, "design", DEMO)
    row = next(line for line in out.splitlines() if line.startswith("MH ") and "M1 to MH-DP" in line)
    assert " 265 " in row


def test_branch_circuits_on_request(capsys: pytest.CaptureFixture[str]) -> None:
    """Every row of the load list that has a circuit stands in the schedule; without the word none does."""
    code, out, _ = run(capsys, "design", DEMO, "--circuits")
    assert code == 0 and "circuit/L001" in out
    assert "circuit/L001" not in run(capsys, "design", DEMO)[1]


def test_a_record_of_any_name_opens(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    record = str(tmp_path / "issued for permit")
    assert run(capsys, "freeze", DEMO, "--to", record)[0] == 0
    code, out, _ = run(capsys, "explain", record, "feeder/GH/drop", "--short")
    assert code == 0 and out == run(capsys, "explain", DEMO, "feeder/GH/drop", "--short")[1]


def test_a_part_of_a_tag_lists_what_it_matches(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = run(capsys, "explain", DEMO, "GH/drop")
    assert code == 2 and "feeder/GH/drop" in err and "Traceback" not in err
    code, out, _ = run(capsys, "explain", DEMO, "feeder/GH")  # a whole item opens
    assert code == 0 and "optional" in out


def test_compare_says_inputs_numbers_and_checks(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "compare", DEMO, "--variant-b", "P04")
    assert code == 0 and "feeders.GH.egc" in out and "069" in out and "passes" in out and "fails" in out


def test_another_transformer_shows_what_follows(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """167 kVA where 250 stood: the lateral stays, so the fault at the gear falls, but by less than 167/250 says."""
    record = str(tmp_path / "rev-d.json")
    assert run(capsys, "freeze", DEMO, "--to", record)[0] == 0
    for words in (["replay", record, "--set", "service.transformer.rating=167 kVA"], ["compare", DEMO, "--variant-b", "P20"]):
        out = run(capsys, *words)[1]
        for said in ("fault at the gear: MSB", "fault nearest its rating", "lowest exact voltage", "lost in the network"):
            assert said in out
    out = run(capsys, "replay", record, "--set", "service.transformer.rating=167 kVA")[1]
    before, after = (float(x.replace(",", "")) for x in out.split("fault at the gear: MSB")[1].split()[:2])
    assert before * 167 / 250 < after < before and "largest change of voltage by a start" in out


def test_compare_names_both_sides_the_units_and_the_causes(capsys: pytest.CaptureFixture[str]) -> None:
    """Chapter 9 Table 9, aluminium in PVC: 0.043 ohm/kft for 500 kcmil, 0.036 for 600. Trench t6 is 110 ft longer in R10."""
    code, out, _ = run(capsys, "compare", DEMO, "--variant-b", "R10", "--json")
    found = json.loads(out)
    assert code == 0 and found["a"] == "Larkspur Bench, variant base, NFPA 70-2023"
    assert found["b"].startswith("Larkspur Bench, variant R10 (Trench to the guest house 110 ft longer), ")
    (longer,) = found["inputs"]
    assert longer["path"] == "site_graph.trenches.t6.length"
    assert (longer["before"], longer["after"], longer["unit"]) == (130, 240, "ft")
    assert next(n["unit"] for n in found["numbers"] if n["tag"] == "feeder/GH/drop") == "%"
    causes = {c["symbol"]: (c["before"], c["after"]) for c in found["causes"]}
    assert causes == {"length": ("130 ft", "240 ft"), "r[500] to r[600]": ("0.043 ohm/kft", "0.036 ohm/kft")}
    out = run(capsys, "compare", DEMO, "--variant-b", "R10")[1]
    assert "A, before  Larkspur Bench, variant base" in out and "Trench to the guest house 110 ft longer" in out


def test_causes_between_editions_are_rules_and_no_effects(capsys: pytest.CaptureFixture[str]) -> None:
    """NFPA 70-2026: 2 VA/ft2 (120.41), first tier of the optional method to 8 kVA (120.82(B)), vehicles beside it (120.82(D))."""
    found = json.loads(run(capsys, "compare", DEMO, "--edition-a", "2023", "--edition-b", "2026", "--json")[1])
    assert {c["symbol"]: (c["before"], c["after"]) for c in found["causes"]} == {
        "unit_load": ("3 VA/ft2", "2 VA/ft2"), "optional_vehicles_apart": ("no", "yes"),
        "optional_demand[to 10000]": ("100 %", "-"), "optional_demand[to 8000]": ("-", "100 %")}


def test_a_nameplate_without_a_document_is_named_among_the_assumptions() -> None:
    from curtilage import store
    from curtilage.design import Design

    d = Design(store.estate(DEMO, changes={"loads.L035.source": "nameplate", "loads.L035.document": ""}))
    (found,) = (a for a in d.assumptions if a.what == "loads.L035")
    assert found.source == "nameplate, but no document is named" and found.review == "name the document"


def test_freeze_and_replay(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    record = str(tmp_path / "rev-c.json")
    code, out, _ = run(capsys, "freeze", DEMO, "--to", record)
    assert code == 0 and "Frozen" in out
    fits(json.loads(Path(record).read_text(encoding="utf-8")), schema("record"))
    code, out, _ = run(capsys, "replay", record)
    assert code == 0 and "Reproduces" in out
    code, out, _ = run(capsys, "replay", record, "--json")
    fits(json.loads(out), schema("replay"))
    code, out, _ = run(capsys, "replay", record, "--set", "feeders.GH.length=520 ft", "--json")
    fits(json.loads(out), schema("compare"))
    code, out, _ = run(capsys, "replay", record, "--set", "feeders.GH.length=520 ft")
    assert code == 0 and "feeders.GH.length" in out and "feeder/GH" in out
    code, _, err = run(capsys, "freeze", DEMO, "--to", record)
    assert code == 2 and "already" in err


def test_an_altered_record_is_refused(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    record = tmp_path / "rev-c.json"
    assert run(capsys, "freeze", DEMO, "--to", str(record))[0] == 0
    text = record.read_text(encoding="utf-8")
    record.write_text(text.replace('"feeder/GH/drop": 2.5', '"feeder/GH/drop": 1.5', 1), encoding="utf-8")
    code, _, err = run(capsys, "replay", str(record))
    assert code == 2 and "altered" in err
    record.write_text("{}", encoding="utf-8")
    code, _, err = run(capsys, "replay", str(record))
    assert code == 2 and "not a frozen record" in err


def test_a_record_says_what_no_longer_reproduces(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    from curtilage.design.record import digest

    record = tmp_path / "old.json"
    assert run(capsys, "freeze", DEMO, "--to", str(record))[0] == 0
    content = json.loads(record.read_text(encoding="utf-8"))
    content["values"]["feeder/GH/drop"] = 2.25
    content["package"] = "0.0.1"
    body = {k: v for k, v in content.items() if k != "hash"}
    record.write_text(json.dumps({**body, "hash": digest(body)}), encoding="utf-8")
    code, out, _ = run(capsys, "replay", str(record))
    assert code == 1 and "feeder/GH/drop: 2.25 then" in out and "0.0.1" in out


def test_new_estate_designs_without_a_failing_check(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    folder = str(tmp_path / "mine")
    assert run(capsys, "new", folder)[0] == 0
    code, out, _ = run(capsys, "design", folder, "--json")
    assert code == 0
    outcomes = {c["outcome"] for c in json.loads(out)["checks"]}
    assert "fails" not in outcomes
    code, _, err = run(capsys, "new", folder)
    assert code == 2 and "not empty" in err


def test_edition_changes(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "edition", "changes", "nec2023", "nec2026")
    assert code == 0 and "unit_load" in out and "3 VA/ft2" in out and "2 VA/ft2" in out
    assert run(capsys, "edition", "changes", "2023", "2026")[1] == out  # the year alone will do
    code, out, _ = run(capsys, "edition", "list")
    assert code == 0 and out.split() [0] == "nec2020"


def test_migrate_says_when_there_is_nothing_to_do(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "migrate", DEMO)
    assert code == 0 and "already" in out


def test_variants_and_later(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "variants", DEMO)
    assert code == 0 and "P01" in out and "as_found" in out
    code, out, _ = run(capsys, "later", DEMO, "--panel", "CG-1", "--add", "11.5 kVA", "--continuous")
    assert code == 0 and "First to limit" in out
    code, out, _ = run(capsys, "later", DEMO, "--panel", "GH-1", "--add", "11.5 kVA", "--edition", "nec2023")
    said = " ".join(out.split())
    assert code == 0 and "fits the ampacity and breaker of every conductor on the way" in said and "everywhere" not in said
    assert "conductors of feeder GH 3.37 % where 3 % is advised" in said and "Not looked at: the utility's transformer" in said


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["desing", DEMO], "did you mean design"),
        (["design", DEMO, "--units", "metric"], "no unit system 'metric'; the unit systems are us or si"),
        (["design", DEMO, "--edition", "2017"], "known: nec2020, nec2023 or nec2026\n"),
        (["design", "nowhere"], "there is no such file"),
        (["design", DEMO, "--variant", "P99"], "there is no variant"),
        (["design", DEMO, "--edition", "nec1999"], "nec2020"),
        (["explain", DEMO, "feeder/GH/dorp"], "did you mean feeder/GH/drop"),
        (["later", DEMO, "--panel", "CG-9", "--add", "5 kVA"], "there is no panel"),
        (["later", DEMO, "--panel", "CG-1", "--add", "5"], "no unit"),
        (["edition", "changes", "nec2023", "nec2062"], "nec2026"),
        (["schema", "desing"], "did you mean design"),
        (["replay", "nowhere.json"], "there is no such file"),
    ],
)
def test_bad_words_get_one_clear_answer(capsys: pytest.CaptureFixture[str], words: list[str], expected: str) -> None:
    code, out, err = run(capsys, *words)
    assert code == 2 and expected in err and "Traceback" not in out + err
