"""The load list as a table: all rows of a column at once. Messages are written elsewhere, when something is wrong."""
from collections.abc import Iterable, Sequence
import csv
from functools import cache
import io
import re
from typing import Any, NamedTuple

from curtilage.errors import Problems, listed, nearest, refuse
from curtilage.model.loads import COLUMNS, DATES, FLAGS, IDS, NUMBERS, WHOLES, Column, Load, head_units
from curtilage.tables import Table as DataTable
from curtilage.units import Affine, Unit, shown

_HEAD = re.compile(r"\s*([A-Za-z_]+)\s*(?:\[\s*([^\]]*?)\s*\])?\s*")


_SEPARATOR = re.compile(r"sep=.?")                              # a line that some spreadsheet programs put first


@cache
def motor_rows() -> tuple[str, ...]:
    """The horsepowers that the single-phase motor table prints."""
    return tuple(DataTable.load("nec_430_248_flc_1ph").column("hp"))


class Table(NamedTuple):
    """A table as read: heads with their units, rows of texts, the line of each row."""
    name: str
    heads: tuple[str, ...]
    factors: tuple[Affine, ...]
    rows: list[list[str]]
    lines: list[int]


def read_csv(text: str, name: str) -> Table:
    """Heads, units and rows of a CSV text. Structural faults are refused with their line."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows: list[list[str]] = []
    lines: list[int] = []
    start = 1
    try:
        for row in reader:
            if any(row):
                rows.append(row)
                lines.append(start)
            start = reader.line_num + 1
    except csv.Error as e:
        refuse(f"{name}:{start}", f"this row is not CSV: {e}", "", "look for a quotation mark that is not closed")
    if rows and _SEPARATOR.fullmatch(rows[0][0].strip()) and not any(rows[0][1:]):
        del rows[0], lines[0]
    if not rows:
        refuse(name, "the file is empty", "expected a line of column heads", f"begin with: {_example()}")
    return table(rows, lines, name)


def _example() -> str:
    return ",".join(n if not c.unit else f"{n} [{c.unit}]" for n, c in COLUMNS.items() if c.required)


def table(rows: list[list[str]], lines: list[int], name: str) -> Table:
    """A table from rows of texts, the first of which holds the heads. Checks the heads and the width of every row."""
    problems = Problems()
    if not rows[0][-1].strip():
        _narrow(rows)
    heads, factors = _heads(rows[0], f"{name}:{lines[0]}", problems)
    wide = len(heads)
    for row, line in zip(rows[1:], lines[1:], strict=True):
        if len(row) < wide:
            row.extend([""] * (wide - len(row)))
        elif len(row) > wide:
            if any(cell.strip() for cell in row[wide:]):
                problems.add(f"{name}:{line}", f"the row has {len(row)} fields and the head has {wide}", "",
                             "put texts that hold a comma in quotation marks")
            del row[wide:]
    problems.stop()
    return Table(name, heads, factors, rows[1:], lines[1:])


def _narrow(rows: list[list[str]]) -> None:
    """Takes columns from the head that are empty at its end and hold nothing in any row."""
    used = max(i + 1 for row in rows for i, cell in enumerate(row) if cell.strip())
    del rows[0][used:]


def _heads(row: Sequence[str], where: str, problems: Problems) -> tuple[tuple[str, ...], tuple[Affine, ...]]:
    if len(row) == 1 and (";" in row[0] or "\t" in row[0]):
        mark = "semicolons" if ";" in row[0] else "tabs"
        refuse(where, f"the columns are separated by {mark}", "expected commas, with a point in decimal numbers",
               "save the list again as comma-separated values")
    heads: list[str] = []
    factors: list[Affine] = []
    for i, cell in enumerate(row):
        match = _HEAD.fullmatch(cell)
        head, unit = (match[1], match[2]) if match else (cell.strip(), None)
        factors.append(_head_factor(head, unit, where, problems) if head in COLUMNS else (1.0, 0.0))
        if head not in COLUMNS:
            close = nearest(head, COLUMNS)
            problems.add(where, f"there is no column {shown(head)}" if head else f"column {i + 1} has no head", "",
                         f"did you mean {close}?" if close else f"columns are: {listed(COLUMNS, 99)}")
        elif head in heads:
            problems.add(where, f"the column {head} stands twice", "", "remove one of them")
        heads.append(head)
    for head, column in COLUMNS.items():
        if column.required and head not in heads:
            headed = f"{head} [{column.unit}]" if column.unit else head
            problems.add(where, f"the column {head} is missing", f"it is for: {column.meaning}",
                         f"add a column headed '{headed}'")
    return tuple(heads), tuple(factors)


def _head_factor(head: str, unit: str | None, where: str, problems: Problems) -> Affine:
    column = COLUMNS[head]
    if not column.unit:
        if unit:
            problems.add(where, f"the column {head} has the unit {unit} in its head and takes none", "", f"write '{head}'")
        return (1.0, 0.0)
    accepted = head_units(column)
    if unit is None or unit not in accepted:
        given = f"the column {head} has no unit" if unit is None else f"the column {head} cannot be in {shown(unit)}"
        problems.add(where, given, f"accepted: {listed(accepted)}", f"write for example '{head} [{column.unit}]'")
        return (1.0, 0.0)
    return accepted[unit]


class _Unusual(Exception):
    """A column that needs a look row by row."""


def fast(t: Table) -> list[Load] | None:
    """All rows at once, column by column; None if anything at all is unusual, so that somebody else can say what."""
    given = dict(zip(t.heads, zip(*t.rows, strict=True), strict=True)) if t.rows else {}
    factors = dict(zip(t.heads, t.factors, strict=True))
    n = len(t.rows)
    try:
        columns = [_column(c, given[h], factors[h]) if h in given else [c.default] * n for h, c in COLUMNS.items()]
    except (_Unusual, ValueError, KeyError):
        return None
    made = list(map(Load._make, zip(*columns, strict=True)))
    return made if all(x.va is not None and x.unit_va is not None for x in made) else [settle(x) for x in made]


def _column(c: Column, cells: tuple[str, ...], factor: Affine) -> Iterable[Any]:
    if c.kind == "text":
        if (c.required and "" in cells) or tuple(map(str.strip, cells)) != cells:
            raise _Unusual
        return cells
    each = set(cells)
    blank = "" in each
    each.discard("")
    if blank and c.required:
        raise _Unusual
    if not each:
        return [c.default] * len(cells)
    shape = _SHAPES[c.kind]
    if shape and not shape.fullmatch("\n".join(each) + "\n"):
        raise _Unusual
    if c.kind == "choice" and not each.issubset(c.choices):
        raise _Unusual
    if c.kind == "hp" and not each.issubset(motor_rows()):
        raise _Unusual
    if c.kind in _AS_WRITTEN and "-" not in each and (c.default == "" or not blank):
        return cells
    values = _values(c, each, factor)
    values[""] = c.default
    return map(values.__getitem__, cells)


def _values(c: Column, each: set[str], factor: Affine) -> dict[str, Any]:
    """What each text of a column stands for."""
    if c.kind == "flag":
        return {x: FLAGS[x] for x in each}
    if c.kind in _AS_WRITTEN:
        return {x: "" if x == "-" else x for x in each}
    number = (lambda x: int(float(x))) if c.kind == "whole" else float
    same = factor == (1.0, 0.0)
    values = {x: number(x) for x in each} if same else {x: Unit.convert(float(x), factor) for x in each}
    if not (c.lo <= min(values.values()) and max(values.values()) <= c.hi):
        raise _Unusual
    return values


_AS_WRITTEN = ("id", "ref", "hp", "date", "choice")
_SHAPES = {"id": IDS, "ref": IDS, "date": DATES, "number": NUMBERS, "quantity": NUMBERS, "whole": WHOLES, "hp": None,
           "flag": None, "choice": None}


def settle(load: Load) -> Load:
    """Fills in what follows from the rest of the row: VA of one and of all, from each other or from volts and amperes."""
    if load.unit_va is not None and load.va is not None:
        return load
    unit: float | None = load.unit_va
    both: float | None = load.va
    if unit is None and both is None:
        unit = load.volts * load.amperes if load.amperes is not None else 0.0
    if unit is None:
        assert both is not None
        return load._replace(unit_va=both / load.qty if load.qty else both)
    return load._replace(unit_va=unit, va=unit * load.qty if both is None else both)
