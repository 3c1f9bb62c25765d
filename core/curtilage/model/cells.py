"""One cell of the load list at a time, with a message for each that cannot be read."""
from collections.abc import Callable, Mapping
import datetime
import re
from typing import Any

from curtilage.errors import Problems, listed, nearest
from curtilage.model.base import ID_RULE
from curtilage.model.loads import COLUMNS, FLAGS, ID, NUMBER, Column, Load, head_units
from curtilage.model.rows import motor_rows, settle
from curtilage.units import Affine, QuantityError, Unit, foreign_digits, plain, shown, uncommaed

_QUANTITIES = {name: Unit(c.unit, c.meaning, c.lo, c.hi) for name, c in COLUMNS.items() if c.kind == "quantity"}
_NOT_FINITE = ("nan", "inf", "infinity")

Cells = Mapping[str, tuple[Any, Affine | None, str]]
"""Column -> what was written, the factor of its head (None if it carries its unit), where it stands."""


def one(cells: Cells, where: str, problems: Problems) -> Load | None:
    """A row; None, with what is wrong added to the problems, if a cell cannot be read."""
    values: list[Any] = []
    before = len(problems)
    for head, column in COLUMNS.items():
        if head in cells:
            values.append(_cell(head, column, *cells[head], problems))
        elif column.required:
            problems.add(where, f"the column {head} is missing", f"it is for: {column.meaning}", "add it")
            values.append(None)
        else:
            values.append(column.default)
    if len(problems) > before:
        return None
    return settle(Load._make(values))


def _cell(head: str, c: Column, given: Any, factor: Affine | None, at: str, problems: Problems) -> Any:
    if given is None or (isinstance(given, str) and not given.strip()):
        if c.required:
            problems.add(at, "is empty", f"expected {c.meaning}", "fill it in")
        return c.default
    try:
        if c.kind == "quantity":
            return _QUANTITIES[head].parse(given) if factor is None else _in_head_unit(head, given, factor)
        return _READ[c.kind](c, _text(given).strip())
    except QuantityError as e:
        problems.add(at, e.given, e.expected, e.mend)
        return c.default


def _text(given: Any) -> str:
    if isinstance(given, bool):
        return "Y" if given else "N"
    if isinstance(given, float) and given == given and abs(given) != float("inf"):
        return plain(given)
    return str(given)


def _in_head_unit(head: str, given: Any, factor: Affine) -> float:
    text = _text(given).strip()
    unit = next(u for u, f in head_units(COLUMNS[head]).items() if f == factor)
    written = None if NUMBER.fullmatch(text) else _WITH_UNIT.fullmatch(text)
    if written and unit != _QUANTITIES[head].meant(written["unit"]):
        raise _clash(head, unit, written["number"], written["unit"])
    number = _number(text, "the unit stands in the head of the column")
    return _QUANTITIES[head].bounded(Unit.convert(number, factor), f"{text} {unit}, by the head of the column,", unit)


_WITH_UNIT = re.compile(rf"(?P<number>{NUMBER.pattern})\s*(?P<unit>[A-Za-z°Ωµ%'\"][A-Za-z0-9°Ωµ²³/%-]{{0,15}})")


def _clash(head: str, unit: str, number: str, written: str) -> QuantityError:
    """A cell with a unit of its own that is not the one in the head of its column: the number alone would be another quantity."""
    quantity = _QUANTITIES[head]
    meant = quantity.meant(written)
    expected = f"the head of the column says {unit}"
    if meant not in quantity.accepted:
        return QuantityError(f"'{number} {written}' is not {quantity.what}", expected, f"write the number of {unit} alone")
    a, b = quantity.accepted[unit]
    value = _short((Unit.convert(float(number), quantity.accepted[meant]) - b) / a)
    return QuantityError(f"'{number} {written}' has another unit than its column", expected,
                         f"{number} {meant} is {value} {unit}: write {value}, or head the column '{head} [{meant}]'")


def _short(x: float) -> str:
    """The fewest digits that are within 0.1 %, and never a whole number rounded."""
    whole = float(f"{x:.9g}")
    if whole.is_integer():
        return plain(whole)
    return plain(next(v for n in range(3, 13) if abs((v := float(f"{x:.{n}g}")) - x) <= 1e-3 * abs(x)))


def _number(text: str, unit_hint: str = "no unit stands here") -> float:
    if NUMBER.fullmatch(text):
        return float(text)
    if foreign_digits(text):
        raise QuantityError(f"{shown(text)} has digits of another script", "expected a number", "write the digits 0 to 9")
    if text.lower().lstrip("+-.") in _NOT_FINITE:
        raise QuantityError(f"{shown(text)} is not a finite number", "expected a number")
    begin = NUMBER.match(text)
    if "," in text:
        mend = uncommaed(text) or "write no comma in a number"
    elif begin and text[begin.end():].strip() == "%":
        part = plain(round(float(begin[0]) / 100, 9))
        mend = f"{begin[0]} % is {part}: write {part}"
    elif begin and re.fullmatch(r"\s*[A-Za-z%°]+", text[begin.end():]):
        mend = f"write {begin[0]} alone: {unit_hint}"
    else:
        mend = ""
    raise QuantityError(f"cannot read {shown(text)} as a number", "expected digits with a point for decimals", mend)


def _bounded_number(c: Column, text: str) -> float:
    value = _number(text)
    if not c.lo <= value <= c.hi:
        why = "is negative" if value < 0 <= c.lo else "is too small" if value < c.lo else "is too large"
        raise QuantityError(f"{text} {why}", f"allowed: {plain(c.lo)} to {plain(c.hi)}")
    return value


def _whole(c: Column, text: str) -> int:
    value = _bounded_number(c, text)
    if not value.is_integer():
        raise QuantityError(f"{text} is not a whole number", f"allowed: {plain(c.lo)} to {plain(c.hi)}")
    return int(value)


def _id(c: Column, text: str) -> str:
    if not ID.fullmatch(text):
        raise QuantityError(f"{shown(text)} cannot be an id", ID_RULE)
    return text


def _choice(c: Column, text: str) -> str:
    if text in c.choices:
        return "" if text == "-" else text
    close = nearest(text, c.choices)
    raise QuantityError(f"{shown(text)} is not known here", f"allowed: {listed([x for x in c.choices if x], 99)}",
                        f"did you mean {close}?" if close else "")


def _flag(c: Column, text: str) -> bool:
    if text in FLAGS:
        return FLAGS[text]
    raise QuantityError(f"{shown(text)} is neither Y nor N", "allowed: Y, N or empty")


def _date(c: Column, text: str) -> str:
    if len(text) == 10 and text.isascii():
        try:
            return datetime.date.fromisoformat(text).isoformat()
        except ValueError:
            pass
    raise QuantityError(f"{shown(text)} is not a date", "expected year-month-day", "write for example 2031-05-20")


_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DATED = re.compile(r"(?P<a>[0-9]{1,2}|[A-Za-z]{3})[-/. ](?P<b>[0-9]{1,2}|[A-Za-z]{3})(?:[-/. ][0-9]{2,4})?|"
                    r"[0-9]{4}-(?P<m>[0-9]{2})-(?P<d>[0-9]{2})")


def _hp(c: Column, text: str) -> str:
    """Horsepower as the motor table prints it; decimals and '1 1/2' are read as the row of the same value."""
    rows = motor_rows()
    if text in rows:
        return text
    value = _fraction(text)
    same = [r for r in rows if value is not None and abs((_fraction(r) or 0.0) - value) < 1e-6]
    if same:
        return same[0]
    dated = _DATED.fullmatch(text)
    pair = dated and [_day_or_month(x) for x in dated.groups() if x]
    if pair and 0 not in pair:
        fractions = [f"{a}/{b}" for a, b in (pair, pair[::-1]) if f"{a}/{b}" in rows]
        meant = fractions[0] if fractions else "1/2"
        raise QuantityError(f"{shown(text)} is a date: a spreadsheet made it of a fraction", "expected horsepower",
                            f"write {plain(round(_fraction(meant) or 0.0, 6))}"
                            f"{'' if fractions else f' for {meant}, for example'}, or format the cell as text and write {meant}")
    return text                                                # the check of the rows says which there are


def _day_or_month(text: str) -> int:
    return int(text) if text.isdigit() else _MONTHS.index(text.lower()) + 1 if text.lower() in _MONTHS else 0


def _fraction(text: str) -> float | None:
    """The value of '1/2', '1-1/2', '1 1/2' or '1.5'; None for anything else."""
    parts = re.fullmatch(r"(?:([0-9]{1,3})[- ]+)?([0-9]{1,2})/([1-9][0-9]?)", text)
    if parts:
        return int(parts[1] or 0) + int(parts[2]) / int(parts[3])
    return float(text) if NUMBER.fullmatch(text) else None


def _as_is(c: Column, text: str) -> str:
    return text


_READ: dict[str, Callable[[Column, str], Any]] = {
    "id": _id, "ref": _id, "choice": _choice, "flag": _flag, "number": _bounded_number, "whole": _whole, "date": _date,
    "text": _as_is, "hp": _hp}
