"""The values of [given], read by the keys of a method. Units are read here once; behind it there are bare numbers."""
from __future__ import annotations

from collections.abc import Mapping
from types import SimpleNamespace
from typing import Any

from curtilage.errors import CurtilageError
from curtilage.reference import quantities
from curtilage.reference.example import Example
from curtilage.reference.kinds import COUNT, FLAG, NUMBER, REQUIRED, SIZE, WORDS, Key, Method
from curtilage.reference.places import Path
from curtilage.reference.printed import size
from curtilage.reference.problems import Problems, misspelt, unknown

MOST = 10_000          # things in one list, rows multiplied by their quantities
_QTY = Key("qty", COUNT, "how many of these", 1)


METALS = {"aluminum": "aluminium", "al": "aluminium", "cu": "copper"}
"""Other ways to write a metal that is a choice."""


def read(method: Method, given: Mapping[str, Any], at: Mapping[str, Path], example: Example,
         note: Problems) -> SimpleNamespace | None:
    """The bare values by key, or None when a key is wrong; what is wrong goes into `note`, with the nearest name."""
    mine, out = Problems(note.file), SimpleNamespace()
    names = tuple(k.name for k in method.keys)
    for name in given:
        if name not in names:
            mine.add(example.line(at[name]), f"given.{name}", unknown(f"key of {method.name}", name, names))
    for key in method.keys:
        if key.name in given:
            try:
                setattr(out, key.name, _value(key, given[key.name]))
            except CurtilageError as e:
                mine.add(example.line(at[key.name]), f"given.{key.name}", str(e))
        elif key.default is not REQUIRED:
            setattr(out, key.name, key.default)
        elif not misspelt(key.name, given, names):
            line = min((example.line(p) for p in at.values()), default=1)
            mine.add(line, f"given.{key.name}", f"is missing; {method.name} needs it: {key.about}, for example {sample(key)}")
    for problem in mine.found:
        note.add(problem.line, problem.field, problem.message)
    return None if mine.found else out


def _value(key: Key, x: Any) -> Any:
    if not key.many:
        return _one(key, x)
    if not isinstance(x, list):
        raise CurtilageError(f"is a list, for example {sample(key)}; got {_show(x)}")
    out: list[Any] = []
    for i, item in enumerate(x):
        try:
            out += _rows(key, item)
        except CurtilageError as e:
            raise CurtilageError(f"item {i + 1}: {e}") from None
        if len(out) > MOST:
            raise CurtilageError(f"more than {MOST:,} things in one list")
    return tuple(out)


def _rows(key: Key, item: Any) -> list[Any]:
    """One item of a list: a value, or a row that stands for `qty` of them."""
    if key.row:
        if isinstance(item, str) and key.row[0].name == "rating":          # a rating alone stands for its row
            item = {"rating": item}
        if not isinstance(item, dict):
            raise CurtilageError(f"is a row, for example {sample_row(key)}; got {_show(item)}")
        row = _record(key.row, item)
        return [row] * row.qty
    if isinstance(item, dict):
        row = _record((Key("rating", key.unit, key.about), _QTY), item)
        return [row.rating] * row.qty
    return [_one(key, item)]


def _record(keys: tuple[Key, ...], item: Mapping[str, Any]) -> SimpleNamespace:
    keys = keys if any(k.name == "qty" for k in keys) else (*keys, _QTY)
    out = SimpleNamespace()
    for name in item:
        if name not in {k.name for k in keys}:
            raise CurtilageError(unknown("key", name, (k.name for k in keys)))
    for k in keys:
        if k.name not in item and k.default is REQUIRED:
            raise CurtilageError(f"'{k.name}' is missing: {k.about}")
        try:
            setattr(out, k.name, _value(k, item[k.name]) if k.name in item else k.default)
        except CurtilageError as e:
            raise CurtilageError(f"{k.name}: {e}") from None
    if out.qty > MOST:
        raise CurtilageError(f"qty: at most {MOST:,}; got {out.qty}")
    return out


def _one(key: Key, x: Any) -> Any:
    if key.unit == COUNT:
        if type(x) is not int or x < 0:
            raise CurtilageError(f"is a whole number, 0 or more, without quotes; got {_show(x)}")
        return x
    if key.unit == NUMBER:
        if type(x) not in (int, float) or not abs(x) < 1e12:
            raise CurtilageError(f"is a bare number without a unit, without quotes; got {_show(x)}")
        return float(x)
    if key.unit == FLAG:
        if type(x) is not bool:
            raise CurtilageError(f"is true or false, without quotes; got {_show(x)}")
        return x
    if not isinstance(x, str):
        raise CurtilageError(f"is text in quotes, for example {sample(key._replace(many=False))}; got {_show(x)}")
    if key.unit in (WORDS, SIZE):
        text = size(x) if key.unit == SIZE else x.strip()
        if key.choices and text not in key.choices:
            metal = METALS.get(text, "")
            if metal in key.choices:
                return metal
            raise CurtilageError(unknown("choice", text, key.choices))
        return text
    return quantities.read(x, key.unit)


def sample(key: Key) -> str:
    """How a value of this key is written."""
    if key.row:
        return f"[{sample_row(key)}]"
    if key.like:
        one = key.like
    elif key.unit == WORDS:
        one = f'"{key.choices[0]}"' if key.choices else '"text"'
    else:
        one = {COUNT: "2", NUMBER: "0.9", SIZE: '"1/0"', FLAG: "true"}.get(key.unit, f'"{quantities.sample(key.unit)}"')
    return f"[{one}]" if key.many else one


def sample_row(key: Key) -> str:
    """A row with the keys that it must have."""
    return "{ " + ", ".join(f"{k.name} = {sample(k)}" for k in key.row if k.default is REQUIRED) + " }"


def _show(x: Any) -> str:
    return f"'{x}'"[:60] if isinstance(x, str) else str(x).lower() if isinstance(x, bool) else str(x)[:60]
