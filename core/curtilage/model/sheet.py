"""The load list from a spreadsheet. The library is imported only here, when there is one to read."""
import datetime
import io
from typing import Any

from curtilage.errors import CurtilageError, Problems, refuse
from curtilage.model.rows import Table, table
from curtilage.units import plain


def read_xlsx(data: bytes, name: str) -> Table:
    """Heads, units and rows of the first sheet. Values only: a formula counts by its last computed value. Raises `Problems`."""
    try:
        import openpyxl
    except ImportError:
        raise CurtilageError(f"{name}: openpyxl is not installed; install it with: pip install 'curtilage[sheets]', "
                             f"or save the list as CSV") from None
    if not data:
        refuse(name, "the file is empty", "expected a workbook")
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        cells = [[c.value for c in row] for row in book.worksheets[0].iter_rows()]
        formulas = _formulas(openpyxl, data) if any(v is None for row in cells for v in row) else set()
        book.close()
    except CurtilageError:
        raise
    except Exception as e:                                     # the library raises whatever its parsers raise
        refuse(name, f"this is not a workbook that can be read ({type(e).__name__})", "expected an XLSX file",
               "save it again as XLSX or CSV")
    return _table(cells, formulas, name)


def _formulas(openpyxl: Any, data: bytes) -> set[tuple[int, int]]:
    book = openpyxl.load_workbook(io.BytesIO(data), read_only=True)
    found = {(i, j) for i, row in enumerate(book.worksheets[0].iter_rows()) for j, c in enumerate(row)
             if isinstance(c.value, str) and c.value.startswith("=")}
    book.close()
    return found


def _table(cells: list[list[Any]], formulas: set[tuple[int, int]], name: str) -> Table:
    problems = Problems()
    rows: list[list[str]] = []
    lines: list[int] = []
    for i, values in enumerate(cells):
        row = [_text(v) for v in values]
        for j, v in enumerate(values):
            if v is None and (i, j) in formulas:
                problems.add(f"{name}:{i + 1} column {j + 1}", "holds a formula that was never computed", "expected a value",
                             "open and save the file in a spreadsheet program, or write the value")
        if any(row):
            rows.append(row)
            lines.append(i + 1)
    problems.stop()
    if not rows:
        refuse(name, "the first sheet is empty", "expected a row of column heads")
    wide = max(j + 1 for j, text in enumerate(rows[0]) if text)
    return table([row[:wide] if not any(row[wide:]) else row for row in rows], lines, name)


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "Y" if value else "N"
    if isinstance(value, datetime.datetime | datetime.date):
        return value.date().isoformat() if isinstance(value, datetime.datetime) else value.isoformat()
    if isinstance(value, int | float):
        return plain(float(value)) if value == value and abs(value) != float("inf") else str(value)
    return str(value).strip()
