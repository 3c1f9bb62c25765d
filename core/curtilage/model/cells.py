"""One cell of the load list at a time, with a message for each that cannot be read."""
from collections.abc import Callable, Mapping
import datetime
import re
from typing import Any

from curtilage.errors import Problems, listed, nearest
from curtilage.model.base import ID_RULE
from curtilage.model.loads import COLUMNS, FLAGS, ID, NUMBER, Column, Load
from curtilage.model.rows import settle
from curtilage.units import Affine, QuantityError, Unit, foreign_digits, plain, shown

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
            problems.add(where, f"{head} is missing", f"expected {column.meaning}", "add it")
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
    number = _number(text, "the unit stands in the head of the column")
    return _QUANTITIES[head].bounded(Unit.convert(number, factor), text)


def _number(text: str, unit_hint: str = "no unit stands here") -> float:
    if NUMBER.fullmatch(text):
        return float(text)
    if foreign_digits(text):
        raise QuantityError(f"{shown(text)} has digits of another script", "expected a number", "write the digits 0 to 9")
    if text.lower().lstrip("+-.") in _NOT_FINITE:
        raise QuantityError(f"{shown(text)} is not a finite number", "expected a number")
    begin = NUMBER.match(text)
    if "," in text:
        mend = "write no comma in a number"
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


def _as_is(c: Column, text: str) -> str:
    return text


_READ: dict[str, Callable[[Column, str], Any]] = {
    "id": _id, "ref": _id, "choice": _choice, "flag": _flag, "number": _bounded_number, "whole": _whole, "date": _date,
    "text": _as_is, "hp": _as_is}
