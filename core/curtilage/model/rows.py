"""The load list as a table: columns first, all rows of a column at once, messages row by row only when something is wrong."""
from collections.abc import Iterable, Mapping, Sequence
import csv
import io
import re
from typing import Any, NamedTuple

from curtilage.errors import Problems, listed, nearest, refuse
from curtilage.model.loads import COLUMNS, Column, Load, head_units
from curtilage.units import Affine, Unit, foreign_digits, plain, shown

_HEAD = re.compile(r"\s*([A-Za-z_]+)\s*(?:\[\s*([^\]]*?)\s*\])?\s*")
_NUM = r"[+-]?(?:[0-9]{1,12}(?:\.[0-9]{0,12})?|\.[0-9]{1,12})(?:[eE][+-]?[0-9]{1,2})?"
_NUMBERS = re.compile(rf"(?:{_NUM}\n)*")
_NUMBER = re.compile(_NUM)
_WHOLES = re.compile(r"(?:[0-9]{1,6}(?:\.0+)?\n)*")
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,31}")
_IDS = re.compile(r"(?:[A-Za-z0-9][A-Za-z0-9_-]{0,31}\n)*")
_DATES = re.compile(r"(?:[0-9]{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])\n)*")
_FLAGS: dict[str, bool] = {"Y": True, "N": False, "y": True, "n": False, "yes": True, "no": False, "Yes": True, "No": False,
                           "true": True, "false": False, "TRUE": True, "FALSE": False, "True": True, "False": False}
_QUANTITIES = {name: Unit(c.unit, c.meaning, c.lo, c.hi) for name, c in COLUMNS.items() if c.kind == "quantity"}


class Table(NamedTuple):
    """A table as read: heads with their units, rows of texts, the line of each row."""
    name: str
    heads: tuple[str, ...]
    factors: tuple[Affine, ...]
    rows: list[list[str]]
    lines: list[int]


def read_csv(text: str, name: str) -> Table:
    """Heads, units and rows of a CSV text. Structural faults are refused with their line."""
    if not text.strip():
        refuse(name, "the file is empty", "expected a line of column heads", f"begin with: {_example()}")
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows: list[list[str]] = []
    lines: list[int] = []
    start = 1
    try:
        for row in reader:
            if row and any(row):
                rows.append(row)
                lines.append(start)
            start = reader.line_num + 1
    except csv.Error as e:
        refuse(f"{name}:{reader.line_num}", f"this is not CSV: {e}", "", "look for a quotation mark that is not closed")
    return table(rows, lines, name)


def _example() -> str:
    return ",".join(n if not c.unit else f"{n} [{c.unit}]" for n, c in COLUMNS.items() if c.required)


def table(rows: list[list[str]], lines: list[int], name: str) -> Table:
    """Checks the heads and the width of every row."""
    problems = Problems()
    heads, factors = _heads(rows[0], f"{name}:{lines[0]}", problems)
    wide = len(heads)
    for row, line in zip(rows[1:], lines[1:], strict=True):
        if len(row) < wide:
            row.extend([""] * (wide - len(row)))
        elif len(row) > wide:
            if any(row[wide:]):
                problems.add(f"{name}:{line}", f"the row has {len(row)} fields and the head has {wide}", "",
                             "put texts that hold a comma in quotation marks")
            del row[wide:]
    problems.stop()
    return Table(name, heads, factors, rows[1:], lines[1:])


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
        if not match or head not in COLUMNS:
            close = nearest(head, COLUMNS)
            problems.add(where, f"there is no column {shown(head)}" if head else f"column {i + 1} has no head", "",
                         f"did you mean {close}?" if close else f"columns are: {listed(COLUMNS, 99)}")
            heads.append(f"?{i}")
            factors.append((1.0, 0.0))
            continue
        if head in heads:
            problems.add(where, f"the column {head} stands twice", "", "remove one of them")
        factors.append(_head_factor(head, unit, where, problems))
        heads.append(head)
    for head, column in COLUMNS.items():
        if column.required and head not in heads:
            problems.add(where, f"the column {head} is missing", f"expected {column.meaning}", "add it")
    return tuple(heads), tuple(factors)


def _head_factor(head: str, unit: str | None, where: str, problems: Problems) -> Affine:
    column = COLUMNS[head]
    if not column.unit:
        if unit:
            problems.add(where, f"the column {head} carries the unit {unit} and has none", "", f"write '{head}'")
        return (1.0, 0.0)
    accepted = head_units(column)
    if unit is None or unit not in accepted:
        given = f"the column {head} has no unit" if unit is None else f"the column {head} cannot be in {shown(unit)}"
        problems.add(where, given, f"accepted: {listed(accepted)}", f"write for example '{head} [{column.unit}]'")
        return (1.0, 0.0)
    return accepted[unit]


class Known(NamedTuple):
    """What rows may refer to: names that exist, and the rows of the motor table."""
    structures: frozenset[str]
    panels: frozenset[str]
    managers: frozenset[str]
    groups: frozenset[str]
    hp: frozenset[str] | None
    volts: tuple[float, float]


class _Slow(Exception):
    """A column that needs a look row by row."""


def fast(t: Table) -> list[Load] | None:
    """All rows at once, column by column; None if anything at all is unusual, so that `slow` can say what."""
    given = dict(zip(t.heads, zip(*t.rows, strict=True), strict=True)) if t.rows else {}
    factors = dict(zip(t.heads, t.factors, strict=True))
    n = len(t.rows)
    try:
        columns = [_fast_column(c, given[h], factors[h]) if h in given else [c.default] * n for h, c in COLUMNS.items()]
    except (_Slow, ValueError, KeyError):
        return None
    return [settle(Load._make(values)) for values in zip(*columns, strict=True)]


def _fast_column(c: Column, cells: tuple[str, ...], factor: Affine) -> Iterable[Any]:
    if c.kind == "text":
        if c.required and "" in cells:
            raise _Slow
        return cells
    each = set(cells)
    blank = "" in each
    each.discard("")
    if blank and c.required:
        raise _Slow
    values = _KINDS[c.kind](c, each, factor)
    if values is None:                                         # as written
        return cells if not blank or c.default == "" else [x or c.default for x in cells]
    values[""] = c.default
    return map(values.__getitem__, cells)


def _fast_numbers(c: Column, each: set[str], factor: Affine) -> dict[str, Any]:
    if not _NUMBERS.fullmatch("".join([f"{x}\n" for x in each])):
        raise _Slow
    values = {x: Unit.convert(float(x), factor) for x in each}
    if values and not (c.lo <= min(values.values()) and max(values.values()) <= c.hi):
        raise _Slow
    return values


def _fast_wholes(c: Column, each: set[str], factor: Affine) -> dict[str, Any]:
    if not _WHOLES.fullmatch("".join([f"{x}\n" for x in each])):
        raise _Slow
    values = {x: int(float(x)) for x in each}
    if values and not (c.lo <= min(values.values()) and max(values.values()) <= c.hi):
        raise _Slow
    return values


def _fast_ids(c: Column, each: set[str], factor: Affine) -> None:
    if not _IDS.fullmatch("".join([f"{x}\n" for x in each])):
        raise _Slow


def _fast_choices(c: Column, each: set[str], factor: Affine) -> None:
    if not each.issubset(c.choices) or "-" in each:
        raise _Slow


def _fast_choices_dash(c: Column, each: set[str], factor: Affine) -> dict[str, Any]:
    if not each.issubset(c.choices):
        raise _Slow
    return {x: "" if x == "-" else x for x in each}


def _fast_flags(c: Column, each: set[str], factor: Affine) -> dict[str, Any]:
    return {x: _FLAGS[x] for x in each}


def _fast_dates(c: Column, each: set[str], factor: Affine) -> None:
    if not _DATES.fullmatch("".join([f"{x}\n" for x in each])):
        raise _Slow


_KINDS: dict[str, Any] = {"id": _fast_ids, "ref": _fast_ids, "choice": _fast_choices_dash, "flag": _fast_flags, "whole": _fast_wholes,
                          "number": _fast_numbers, "quantity": _fast_numbers, "date": _fast_dates, "hp": lambda c, e, f: None}


def settle(load: Load) -> Load:
    """Fills in what follows from the rest of the row: VA of one and of all, from each other or from volts and amperes."""
    unit, all_ = load.unit_va, load.va
    if unit is not None and all_ is not None:
        return load
    if unit is None and all_ is None:
        unit = load.volts * load.amperes if load.amperes is not None else 0.0
    if unit is None:
        return load._replace(unit_va=all_ / load.qty if load.qty else all_)
    return load._replace(unit_va=unit, va=unit * load.qty if all_ is None else all_)


def slow(t: Table, problems: Problems) -> list[Load]:
    """Row by row, with a message for each cell that cannot be read."""
    found: list[Load] = []
    for row, line in zip(t.rows, t.lines, strict=True):
        cells = {h: (text, f, f"{t.name}:{line} column {h}") for h, text, f in zip(t.heads, row, t.factors, strict=True)}
        load = one(cells, f"{t.name}:{line}", problems)
        if load is not None:
            found.append(load)
    return found


Cells = Mapping[str, tuple[Any, Affine | None, str]]


def one(cells: Cells, where: str, problems: Problems) -> Load | None:
    """A row from cells of (what was written, factor of its head or None if it carries its unit, where it stands)."""
    values: list[Any] = []
    before = len(problems)
    for head, column in COLUMNS.items():
        if head in cells:
            given, factor, at = cells[head]
            values.append(_cell(head, column, given, factor, at, problems))
        elif column.required:
            problems.add(where, f"{head} is missing", f"expected {column.meaning}", "add it")
            values.append(None)
        else:
            values.append(column.default)
    return settle(Load._make(values)) if len(problems) == before else None


def _cell(head: str, c: Column, given: Any, factor: Affine | None, at: str, problems: Problems) -> Any:
    text = _as_text(given) if factor is not None or c.kind != "quantity" else given
    if text is None or (isinstance(text, str) and not text.strip()):
        if c.required:
            problems.add(at, "is empty", f"expected {c.meaning}", "fill it in")
        return c.default
    if c.kind == "quantity":
        return _quantity_cell(head, text, factor, at, problems)
    text = str(text).strip() if c.kind != "text" else str(text)
    problem, value = _PLAIN[c.kind](c, text)
    if problem:
        problems.add(at, *problem)
        return c.default
    return value


def _as_text(given: Any) -> Any:
    if isinstance(given, bool):
        return "Y" if given else "N"
    if isinstance(given, int | float):
        return plain(given) if given == given and abs(given) != float("inf") else str(given)
    return given


def _quantity_cell(head: str, given: Any, factor: Affine | None, at: str, problems: Problems) -> float | None:
    unit = _QUANTITIES[head]
    from curtilage.units import QuantityError

    try:
        if factor is None:
            return unit.parse(given)
        text = str(given).strip()
        if not _NUMBER.fullmatch(text):
            if foreign_digits(text):
                raise QuantityError(f"{shown(text)} has digits of another script", "expected a number", "write the digits 0 to 9")
            if text.lower().lstrip("+-") in ("nan", "inf", "infinity"):
                raise QuantityError(f"{shown(text)} is not a finite number", "expected a number")
            number = re.match(_NUM, text)
            mend = f"write {number[0]} alone: the unit stands in the head of the column" if number and "," not in text else ""
            raise QuantityError(f"cannot read {shown(text)} as a number", "expected digits with a point for decimals", mend)
        return unit.bounded(Unit.convert(float(text), factor), text)
    except QuantityError as e:
        problems.add(at, e.given, e.expected, e.mend)
        return None


Told = tuple[tuple[str, str, str] | None, Any]


def _id_cell(c: Column, text: str) -> Told:
    if _ID.fullmatch(text):
        return None, text
    return (f"{shown(text)} cannot be an id", "allowed: up to 32 letters, digits, '-' and '_', without spaces or dots", ""), None


def _choice_cell(c: Column, text: str) -> Told:
    if text in c.choices:
        return None, "" if text == "-" else text
    close = nearest(text, c.choices)
    return (f"{shown(text)} is not known here", f"allowed: {listed([x for x in c.choices if x], 99)}",
            f"did you mean {close}?" if close else ""), None


def _flag_cell(c: Column, text: str) -> Told:
    if text in _FLAGS:
        return None, _FLAGS[text]
    return (f"{shown(text)} is neither Y nor N", "allowed: Y, N or empty", ""), None


def _number_cell(c: Column, text: str) -> Told:
    if not _NUMBER.fullmatch(text):
        if foreign_digits(text):
            return (f"{shown(text)} has digits of another script", "expected a number", "write the digits 0 to 9"), None
        finite = text.lower().lstrip("+-") not in ("nan", "inf", "infinity")
        return (f"cannot read {shown(text)} as a number" if finite else f"{shown(text)} is not a finite number",
                "expected digits with a point for decimals", ""), None
    value = float(text)
    if not c.lo <= value <= c.hi:
        return (f"{text} is too {'small' if value < c.lo else 'large'}", f"allowed: {plain(c.lo)} to {plain(c.hi)}", ""), None
    if c.kind == "whole":
        if not value.is_integer():
            return (f"{text} is not a whole number", f"allowed: {plain(c.lo)} to {plain(c.hi)}", ""), None
        return None, int(value)
    return None, value


def _date_cell(c: Column, text: str) -> Told:
    if _DATES.fullmatch(text + "\n"):
        return None, text
    return (f"{shown(text)} is not a date", "expected year-month-day", "write for example 2031-05-20"), None


_PLAIN: dict[str, Any] = {"id": _id_cell, "ref": _id_cell, "choice": _choice_cell, "flag": _flag_cell, "number": _number_cell,
                          "whole": _number_cell, "date": _date_cell, "text": lambda c, t: (None, t), "hp": lambda c, t: (None, t)}
