"""What a stranger reads when something in an estate is wrong: every message whole, with its place and its mend."""
from __future__ import annotations

from pathlib import Path
import tomllib
from typing import Any

from curtilage.errors import CurtilageError, Problem, Problems, did_you_mean, listed, nearest
from curtilage.model import Estate, from_text, load
from curtilage.model import text as texts
import pytest
from small_estate import ESTATE, LOADS, complaint, small

CASES = tomllib.loads((Path(__file__).parent / "bad_input.toml").read_text(encoding="utf-8"))["case"]


def said(call: Any, *args: Any) -> str:
    with pytest.raises(CurtilageError) as e:
        call(*args)
    return str(e.value)


def test_the_small_estate_itself_is_right() -> None:
    assert complaint() == "" and small().warnings == ()


@pytest.mark.parametrize("case", CASES, ids=[c["name"] for c in CASES])
def test_what_is_said(case: dict[str, Any]) -> None:
    assert complaint(*((old, new) for old, new in case["replace"])) == case["says"]


def test_everything_wrong_is_said_at_once() -> None:
    text = complaint(("growth: 15 %", "growth: 15"), ("from: M2, to", "from: M3, to"), ("25,240,2", "25,240,1"),
                     ("Range,cooking", "Range,coking"))
    assert text.splitlines()[0] == "4 problems"
    assert [line.split(" ")[0] for line in text.splitlines()[1:]] == [
        "estate.yaml:6:18", "loads.csv:3", "estate.yaml:34:20", "loads.csv:4"]


# ------------------------------------------------------------------------------------------------------------------- files


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "estate.yaml").write_text(ESTATE, encoding="utf-8")
    (tmp_path / "loads.csv").write_text(LOADS, encoding="utf-8")
    return tmp_path


def same(one: Estate, other: Estate) -> bool:
    return one.model_dump() == other.model_dump() and one.loads == other.loads


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_encodings_that_are_read(folder: Path, encoding: str) -> None:
    mark = {"utf-16-le": b"\xff\xfe", "utf-16-be": b"\xfe\xff"}.get(encoding, b"")
    text = LOADS.replace("Sauna", "Säuna 桑拿")
    (folder / "loads.csv").write_bytes(mark + text.encode(encoding))
    assert load(folder).by_id["L3"].load == "Säuna 桑拿"
    assert load(folder).places["loads.L6.va"] == load(folder).places["loads.L6.va"]


def test_crlf_and_bare_cr_are_lines_too(folder: Path) -> None:
    for end in ("\r\n", "\r"):
        (folder / "loads.csv").write_bytes(LOADS.replace("\n", end).encode())
        assert str(load(folder).places["loads.L6.va"]) == "loads.csv:8 column va"
    (folder / "estate.yaml").write_bytes(ESTATE.replace("\n", "\r\n").encode())
    assert str(load(folder).places["feeders.GH.to"]) == "estate.yaml:34"


def test_latin_1_is_refused_and_not_guessed(folder: Path) -> None:
    (folder / "loads.csv").write_bytes(LOADS.replace("Sauna", "Säuna").encode("latin-1"))
    assert said(load, folder) == ("loads.csv:4: the byte 0xe4 is not UTF-8 (Western European encodings read it as 'ä'); "
                                  "expected UTF-8; save the file as UTF-8")


def test_utf_16_without_its_mark_is_refused(folder: Path) -> None:
    (folder / "loads.csv").write_bytes(LOADS.encode("utf-16-le"))
    assert said(load, folder) == ("loads.csv:1: holds a zero byte: it is not text, or UTF-16 without its mark; expected UTF-8; "
                                  "save the file as UTF-8")
    (folder / "loads.csv").write_bytes(b"\xff\xfea")
    assert said(load, folder) == "loads.csv: begins like UTF-16 and is not; expected UTF-8; save it as UTF-8"


def test_empty_files(folder: Path) -> None:
    (folder / "loads.csv").write_text("\n\n")
    assert said(load, folder) == ("loads.csv: the file is empty; expected a line of column heads; "
                                  "begin with: id,structure,panel,load,category,volts [V],poles")
    (folder / "estate.yaml").write_text("# nothing yet\n")
    assert said(load, folder) == "estate.yaml: the file is empty; expected an estate; begin with the line 'curtilage: 1'"
    (folder / "estate.yaml").write_text("- a list\n")
    assert said(load, folder) == (
        "estate.yaml:1: the file does not begin with a key; expected keys such as 'name:' and 'service:'")


def test_a_list_with_heads_alone_has_no_loads() -> None:
    assert from_text(ESTATE.replace("groups:\n  - {id: BATH, reason: one person uses one room at a time}\n", ""),
                     LOADS.splitlines()[0] + "\n").loads == ()


def test_other_separators() -> None:
    end = "; expected commas, with a point in decimal numbers; save the list again as comma-separated values"
    assert said(from_text, ESTATE, LOADS.replace(",", ";")) == f"loads.csv:1: the columns are separated by semicolons{end}"
    assert said(from_text, ESTATE, LOADS.replace(",", "\t")) == f"loads.csv:1: the columns are separated by tabs{end}"


def test_too_large_a_file_is_refused_before_it_is_read(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with (folder / "loads.csv").open("wb") as f:
        f.truncate(50_000_000)
    monkeypatch.setattr(texts, "decode", lambda data, name: pytest.fail("read") if name == "loads.csv" else data.decode())
    assert said(load, folder) == "loads.csv: the file has 50 MB; allowed: up to 10 MB; is it the right file?"


def test_files_that_are_not_there(folder: Path, tmp_path: Path) -> None:
    (folder / "loads.csv").unlink()
    assert said(load, folder) == (f"estate.yaml:39:8 loads: the load list 'loads.csv' is not there; looked in {folder.name}; "
                                  "put it beside the estate file, or write its right name here")
    assert said(load, folder / "nowhere") == f"nowhere: there is no such file; looked in {folder.name}"
    (folder / "loads.csv").mkdir()
    assert said(load, folder) == "loads.csv: is a folder, not a file"


class _Vanishing:
    """A file that is cut short after its size was asked."""

    def __init__(self, f: Any) -> None:
        self.f = f

    def __enter__(self) -> _Vanishing:
        return self

    def __exit__(self, *_: object) -> None:
        self.f.close()

    def seek(self, *args: int) -> int:
        return self.f.seek(*args)

    def read(self, n: int) -> bytes:
        return self.f.read(n)[:10]


def test_a_file_that_vanishes_half_way(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    was = Path.open
    def cut(self: Path, mode: str = "r", **k: Any) -> Any:
        return _Vanishing(was(self, mode, **k)) if self.name == "loads.csv" else was(self, mode, **k)
    monkeypatch.setattr(Path, "open", cut)
    assert said(load, folder) == "loads.csv: changed while it was read; try again when it is whole"


def test_an_error_of_the_disk_is_a_sentence(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    was = Path.open
    def broken(self: Path, mode: str = "r", **k: Any) -> Any:
        if self.name == "loads.csv":
            raise OSError(5, "Input/output error")
        return was(self, mode, **k)
    monkeypatch.setattr(Path, "open", broken)
    assert said(load, folder) == "loads.csv: could not be read to the end (Input/output error); try again when the file is whole"


def test_the_load_list_stays_beside_the_estate(folder: Path) -> None:
    cases = {"../loads.csv": "'../loads.csv' is not the name of a file beside estate.yaml; write the name alone: loads.csv",
             "loads.ods": "'loads.ods' is neither CSV nor XLSX; save the load list as loads.csv"}
    for name, says in cases.items():
        (folder / "estate.yaml").write_text(ESTATE.replace("loads: loads.csv", f"loads: {name}"))
        assert said(load, folder) == f"estate.yaml:39:8 loads: {says}"


def test_a_local_layer_that_is_not_there(folder: Path) -> None:
    (folder / "estate.yaml").write_text(ESTATE + "local: county\n")
    assert said(load, folder) == "estate.yaml:40:8 local: there is no local layer 'county'; the folder amendments/ has none"
    (folder / "amendments").mkdir()
    (folder / "amendments" / "country.toml").write_text("")
    assert said(load, folder) == "estate.yaml:40:8 local: there is no local layer 'county'; known: country"


# ---------------------------------------------------------------------------------------------- what is allowed but looks wrong


def warned(*changes: tuple[str, str]) -> list[str]:
    return [str(w) for w in small(*changes).warnings]


def test_a_straight_line_in_place_of_a_trench() -> None:
    assert warned(("to: GH-1}", "to: GH-1, length: 125 ft}")) == [
        "estate.yaml:34:42 feeders.GH.length: 125 ft is shorter than the straight line of 300 ft from SY to GH; "
        "a feeder cannot be shorter; measure along the trench; metres may stand for feet"]
    far = ("length: 105 ft", "length: 400 ft"), ("to: MH-1, breaker", "to: MH-1, length: 200 ft, breaker")
    assert warned(*far) == [
        "estate.yaml:32:42 feeders.MH.length: 200 ft is less than 0.6 of the 470 ft along the trenches from SY to MH; "
        "a straight line may stand for the trench; measure along the trench; metres may stand for feet"]
    assert warned(("to: GH-1}", "to: GH-1, length: 301 ft}")) == []
    assert warned(("to: GH, length: 240 ft", "to: GH, length: 200 ft")) == [
        "estate.yaml:26:42 site_graph.trenches.t3.length: 200 ft is shorter than the straight line of 230 ft from J1 to GH; "
        "a trench cannot be shorter; measure it again, or correct the coordinates"]


def test_groups_and_managers() -> None:
    assert warned((", reason: one person uses one room at a time", "")) == [
        "estate.yaml:36:5 groups.BATH.reason: the group BATH has no reason; loads leave a calculation only for a stated reason; "
        "say why they cannot run together"]
    assert warned(("40,35,,BATH", "40,35,,")) == [
        "estate.yaml:36:5 groups.BATH: the group BATH has one load; expected two or more; "
        "name it in the column group of the load list"]
    assert warned(("EMS-1,,base", ",,base")) == [
        "estate.yaml:38:5 managers.EMS-1: the manager EMS-1 holds no load; expected one or more; "
        "name it in the column manager of the load list"]
    assert warned(("set_point: 40 A", "set_point: 60 A")) == [
        "estate.yaml:38:36 managers.EMS-1.set_point: 60 A is more than the 40 A of its loads together; "
        "a set point above them holds nothing; lower it, or remove the manager"]


def test_rows_that_look_wrong() -> None:
    assert warned(("L4,MH,", "L4,GH,")) == [
        "loads.csv:5 column panel (L4): the load counts at GH and its panel MH-2 stands at MH; "
        "if that is meant, say so in its note"]
    assert warned(("2026-05-20", "2027-05-20")) == [
        "loads.csv:3 column document_date (L2): 2027-05-20 is later than the design of 2026-11-24; "
        "correct the date, or the date under prepared"]
    heads = ("breaker [A],length", "mca [A],mocp [A],breaker [A],length")
    rows = [(f",{b},{n},", f",,,{b},{n},") for b, n in (("15", "60"), ("50", "45"), ("30", "30"), ("20", "30"), ("50", "25"))]
    assert warned(heads, *rows, (",40,35,", ",30,25,40,35,"), ("0,0,1,N,,,,", "0,0,1,N,,,,,,")) == [
        "loads.csv:5 column mocp (L4): the largest device of 25 A is below the smallest ampacity of 30 A; "
        "read the nameplate again; the two may be exchanged"]


# ------------------------------------------------------------------------------------------------------------------- errors


def test_problems_are_collected_and_raised_together() -> None:
    p = Problems()
    p.stop()
    assert not p and len(p) == 0
    p.add("a.yaml:1", "is empty", "expected words", "write some")
    assert str(p) == "a.yaml:1: is empty; expected words; write some"
    p.add("", "is odd")
    assert str(p) == "2 problems\na.yaml:1: is empty; expected words; write some\nis odd"
    with pytest.raises(Problems) as e:
        p.stop()
    assert isinstance(e.value, CurtilageError) and e.value.items == [
        Problem("a.yaml:1", "is empty", "expected words", "write some"), Problem("", "is odd")]


def test_nearest_and_lists() -> None:
    assert nearest("feder", ["feeders", "panels"]) == "feeders" and nearest("EMS-1", ["ems-1"]) == "ems-1"
    assert nearest("range", ["storage", "general"]) == ""
    assert nearest("xyz", ["feeders"]) == "" == did_you_mean("xyz", [])
    assert did_you_mean("pannel", ["panel"]) == "did you mean panel?"
    assert (listed([]), listed(["a"]), listed("abc"), listed("abcd", 2)) == ("nothing", "a", "a, b or c", "a, b and 2 more")
