"""The load list: all at once and row by row give the same, from CSV and from a workbook, whatever is in the cells."""
from __future__ import annotations

import csv
import datetime
import io
from pathlib import Path
from typing import Any

from curtilage.errors import CurtilageError, Problems
from curtilage.model import load
from curtilage.model.loads import COLUMNS, Load, head_units
from curtilage.model.rows import Table, fast, read_csv
from curtilage.model.sheet import read_xlsx
from curtilage.model.source import Rows
from curtilage.tables import Table as DataTable
from hypothesis import given
from hypothesis import strategies as st
import openpyxl
import pytest
from small_estate import ESTATE, LOADS

DEMO = (Path(__file__).resolve().parent.parent / "demo_estate" / "loads.csv").read_text(encoding="utf-8")


def slowly(t: Table) -> tuple[list[Load], Problems]:
    """Row by row, whatever the quick way would do."""
    problems = Problems()
    return [r.load for r in Rows.one_by_one(t, problems)], problems


@pytest.mark.parametrize("text", [DEMO, LOADS], ids=["demonstration", "small"])
def test_both_ways_give_the_same_loads(text: str) -> None:
    t = read_csv(text, "loads.csv")
    quick, (slow, problems) = fast(t), slowly(t)
    assert not problems and quick == slow and [type(v) for x in quick or [] for v in x] == [type(v) for x in slow for v in x]


def test_a_plain_reader_finds_the_same_numbers() -> None:
    """A second writing of the columns, by the csv module and float alone."""
    loads = fast(read_csv(DEMO, "loads.csv")) or []
    for row, x in zip(csv.DictReader(io.StringIO(DEMO)), loads, strict=True):
        assert x.id == row["id"] and x.va == float(row["va [VA]"]) and x.volts == float(row["volts [V]"])
        assert x.length == (float(row["length [ft]"]) if row["length [ft]"] else None)
        assert x.continuous is (row["continuous"] == "Y") and x.tier == row["tier"].strip("-") and x.note == row["note"].strip()


CELL = st.sampled_from([
    "", " ", "0", "1", "2", "15", "1.5", "-1", "1e2", "1e9", "007", "1.", ".5", "+3", "1,5", "12 A", "nan", "inf", "x", "Y", "N",
    "yes", "T1", "-", "T9", "base", "all", "general", "none", "L1", "L 1", "1/2", "2026-11-24", "2028-02-29", "2027-02-29",
    "é", " x ",
    "1_0", "0x1", "١٢", "120", "240", "1.0", "2.50"])


@st.composite
def tables(draw: st.DrawFn) -> Table:
    heads = draw(st.permutations(list(COLUMNS)))
    heads = [h for h in heads if COLUMNS[h].required or draw(st.integers(0, 3)) > 0]
    factors = tuple(draw(st.sampled_from(list(head_units(COLUMNS[h]).values()))) if COLUMNS[h].unit else (1.0, 0.0)
                    for h in heads)
    good = {"id": "L1", "structure": "MH", "panel": "P", "load": "x", "category": "general", "volts": "120", "poles": "1"}
    rows = [[draw(CELL) if draw(st.integers(0, 9)) == 0 else good.get(h, "") for h in heads]
            for _ in range(draw(st.integers(1, 4)))]
    return Table("t.csv", tuple(heads), factors, rows, list(range(2, 2 + len(rows))))


@given(tables())
def test_both_ways_agree_on_any_cells(t: Table) -> None:
    quick, (slow, problems) = fast(t), slowly(t)
    if quick is not None:
        assert not problems and quick == slow
        assert [type(v) for x in quick for v in x] == [type(v) for x in slow for v in x]
    for p in problems.items:
        assert p.where.startswith("t.csv:") and p.given


@given(st.lists(st.lists(st.text(st.characters(codec="utf-8"), max_size=8), min_size=1, max_size=5), min_size=1, max_size=4))
def test_any_table_gives_loads_or_a_sentence(cells: list[list[str]]) -> None:
    out = io.StringIO()
    csv.writer(out).writerows(cells)
    try:
        Rows(read_csv(out.getvalue(), "t.csv")).read(Problems())
    except CurtilageError as e:
        assert str(e)


def test_quoted_newlines_do_not_shift_the_lines(tmp_path: Path) -> None:
    (tmp_path / "estate.yaml").write_text(ESTATE)
    (tmp_path / "loads.csv").write_text(LOADS)
    e = load(tmp_path)
    lines = LOADS.splitlines()
    for x in e.loads:
        assert lines[e.places[f"loads.{x.id}.va"].line - 1].startswith(f"{x.id},")


def test_blank_lines_are_passed_over() -> None:
    t = read_csv(LOADS.replace("\nL3", "\n\n,,,\nL3"), "loads.csv")
    assert t.lines[:3] == [2, 3, 6] and len(t.rows) == 7


def test_the_motor_table_names_the_horsepowers() -> None:
    from curtilage.model.read import motor_rows

    assert motor_rows() == tuple(DataTable.load("nec_430_248_flc_1ph").column("hp"))
    assert {"1/6", "7-1/2", "10"} < set(motor_rows())


# --------------------------------------------------------------------------------------------------------------- workbooks


def workbook(rows: list[list[Any]]) -> bytes:
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def as_cells(text: str) -> list[list[Any]]:
    """As a spreadsheet would hold it: numbers as numbers, empty cells as nothing."""
    def cell(x: str) -> Any:
        try:
            return float(x)
        except ValueError:
            return x or None
    return [[cell(x) for x in row] for row in csv.reader(io.StringIO(text))]


def test_a_workbook_gives_the_loads_of_the_csv(tmp_path: Path) -> None:
    (tmp_path / "estate.yaml").write_text(ESTATE.replace("loads.csv", "loads.xlsx"))
    (tmp_path / "loads.xlsx").write_bytes(workbook(as_cells(LOADS)))
    e = load(tmp_path)
    assert list(e.loads) == fast(read_csv(LOADS, "loads.csv")) and str(e.places["loads.L6.va"]) == "loads.xlsx:7 column va"


def test_the_demonstration_list_as_a_workbook() -> None:
    t = read_xlsx(workbook(as_cells(DEMO)), "loads.xlsx")
    assert [r.load for r in Rows(t).read(Problems())] == fast(read_csv(DEMO, "loads.csv"))


def test_cells_of_other_kinds() -> None:
    heads = ["id", "structure", "panel", "load", "category", "volts [V]", "poles", "continuous", "document_date", "va [VA]"]
    rows = [heads, ["L1", "MH", "P", "x", "general", 120, 1, True, datetime.datetime(2026, 5, 20), 1500.5], [None] * 10,
            ["L2", "MH", "P", "y", "none", 0, 0, False, datetime.date(2026, 5, 21), None]]
    a, b = (r.load for r in Rows(read_xlsx(workbook(rows), "x.xlsx")).read(Problems()))
    assert (a.continuous, a.document_date, a.va) == (True, "2026-05-20", 1500.5)
    assert (b.continuous, b.document_date, b.va) == (False, "2026-05-21", 0)


def said(data: bytes) -> str:
    with pytest.raises(CurtilageError) as e:
        Rows(read_xlsx(data, "x.xlsx")).read(Problems())
    return str(e.value)


def test_what_is_wrong_with_a_workbook() -> None:
    assert said(b"") == "x.xlsx: the file is empty; expected a workbook"
    assert said(b"id,structure") == ("x.xlsx: this is not a workbook that can be read (BadZipFile); expected an XLSX file; "
                                     "save it again as XLSX or CSV")
    assert said(workbook([])) == "x.xlsx: the first sheet is empty; expected a row of column heads"
    assert said(workbook([["id"], ["=A1"]])) == (
        "x.xlsx:2 column 1: holds a formula that was never computed; expected a value; "
        "open and save the file in a spreadsheet program, or write the value")
    assert said(workbook([["id", "volts"], ["L1", 1]])).splitlines()[:2] == [
        "6 problems", "x.xlsx:1: the column volts has no unit; accepted: V or kV; write for example 'volts [V]'"]


# ---------------------------------------------------------------------------------------------- what spreadsheets leave


@pytest.mark.parametrize("written,row", [
    ("0.5", "1/2"), ("1.5", "1-1/2"), ("1 1/2", "1-1/2"), ("7.50", "7-1/2"), ("1/3", "1/3"), ("0.333333333333", "1/3"),
    ("3.0", "3")])
def test_horsepower_of_the_same_value_is_the_row_of_the_table(written: str, row: str) -> None:
    """Table 430.248 prints 1/2, 1-1/2, 7-1/2; a spreadsheet keeps 0.5, 1.5, 7.5."""
    text = LOADS.replace(",1/2,20,", f",{written},20,")
    assert next(r.load.hp for r in Rows(read_csv(text, "t.csv")).read(Problems()) if r.load.id == "L5") == row


def test_a_date_cell_in_a_workbook_is_named_a_date() -> None:
    heads = ["id", "structure", "panel", "load", "category", "volts [V]", "poles", "hp"]
    row = ["L1", "MH", "P", "x", "motor", 120, 1, datetime.datetime(2026, 1, 2)]
    problems = Problems()
    Rows(read_xlsx(workbook([heads, row]), "x.xlsx")).read(problems)
    assert str(problems) == ("x.xlsx:2 column hp (L1): '2026-01-02' is a date: a spreadsheet made it of a fraction; expected "
                             "horsepower; write 0.5, or format the cell as text and write 1/2")


def test_empty_columns_at_the_end_and_a_line_that_names_the_separator() -> None:
    plain = read_csv(LOADS, "t.csv")
    lines = LOADS.replace("first line,\nsecond line", "two lines").splitlines()
    wide = read_csv("\n".join([f"{lines[0]},,,", *(f"{x},,," for x in lines[1:])]), "t.csv")
    assert wide.heads == plain.heads and wide.rows[0] == plain.rows[0]
    for first in ("sep=,", "sep=;", '"sep=,"'):
        marked = read_csv(f"{first}\n{LOADS}", "t.csv")
        assert marked.heads == plain.heads and marked.rows == plain.rows and marked.lines == [n + 1 for n in plain.lines]
    with pytest.raises(CurtilageError, match="column 9 has no head"):
        read_csv("id,structure,panel,load,category,volts [V],poles,note,\na,b,c,d,e,120,1,n,left over\n", "t.csv")


def test_a_number_outside_its_range_is_said_in_the_unit_of_its_head() -> None:
    problems = Problems()
    Rows(read_csv(LOADS.replace("va [VA],amp", "va [kVA],amp"), "t.csv")).read(problems)
    assert str(problems.items[0]) == ("t.csv:2 column va (L1): 1440 kVA, by the head of the column, is too large; "
                                      "allowed: 0 to 1,000 kVA")


def test_a_hard_space_in_a_cell_is_a_space() -> None:
    problems = Problems()
    Rows(read_csv(LOADS.replace("30,30,,BATH", "30,80\u00a0ft,,BATH"), "t.csv")).read(problems)
    assert str(problems).endswith("write 80 alone: the unit stands in the head of the column")
