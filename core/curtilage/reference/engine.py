"""Runs one method on the values of a file, told: every result can be opened down to the line of the file."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from math import isfinite
import re
from types import SimpleNamespace
from typing import Any, NamedTuple

from curtilage.editions import Edition
from curtilage.errors import CurtilageError
from curtilage.reference import given as door
from curtilage.reference.example import Example
from curtilage.reference.kinds import FLAG, SIZE, WORDS, Key, Method, Run
from curtilage.reference.places import Path
from curtilage.reference.problems import Problems
from curtilage.values.told import Told


class Calculation(NamedTuple):
    """Results by name, and the given numbers by key; both in the units that the method states."""
    method: Method
    results: Mapping[str, Told]
    given: Mapping[str, float]

    def number(self, name: str) -> float | None:
        """The bare number of a result, if it is one."""
        told = self.results.get(name)
        return float(told.value) if told is not None and _is_number(told.value) else None


def published(name: str) -> Edition:
    """An edition by its name. Raises `CurtilageError` with the names there are."""
    return Edition.load(name)


def calculate(method: Method, given: Mapping[str, Any], at: Mapping[str, Path], edition: str, example: Example,
              note: Problems, path: Path) -> Calculation | None:
    """The results of a method, or None when an input or the calculation is refused."""
    values = door.read(method, given, at, example, note)
    try:
        ed = published(edition)
    except CurtilageError as e:
        stated = (*path, "edition") in example.places
        note.add(example.line((*path, "edition") if stated else ("edition",)), "edition", str(e))
        return None
    if values is None:
        return None

    where = places(method, at, example)
    try:
        results = dict(method.adapter(_told(method.keys, vars(values), where), Run(values, ed, where)))
        _finite(results)
    except CurtilageError as e:
        note.add(example.line(path or ("given",)), method.name, str(e))
        return None
    except ArithmeticError as e:
        note.add(example.line(path or ("given",)), method.name, f"cannot be computed from these inputs ({e}); is one of them 0?")
        return None
    return Calculation(method, results, _numbers(method.keys, vars(values)))


def _finite(results: Mapping[str, Told]) -> None:
    for name, told in results.items():
        x = told.value
        if isinstance(x, complex) or (isinstance(x, float) and not isfinite(x)):
            raise CurtilageError(f"'{name}' is no finite number for these inputs; is one of them out of its range?")


_FROM = {"volts": ("system", "voltage"), "wye": ("system",), "two_of_wye": ("system",)}      # fields of records by their keys


def places(method: Method, at: Mapping[str, Path], example: Example) -> Callable[[str], str]:
    """Where a leaf of a working was written: file, line and key; or that it is a default, or not stated at all."""
    names = {k.name for k in method.keys}

    def where(leaf: str) -> str:
        parts = re.split(r"[.\[\]]+", leaf)
        wanted = next(((p,) for p in parts if p in names), _FROM.get(parts[-1], ()))
        given = next((k for k in wanted if k in at), "")
        if given:
            return f"{example.file}:{example.line(at[given])} {given}"
        default = next((k for k in wanted if k in names), "")
        return f"{example.file}: {default} is the method's default" if default else f"{example.file}: no {parts[-1]} is stated"
    return where


def _told(keys: tuple[Key, ...], values: Mapping[str, Any], where: Callable[[str], str], path: str = "given") -> SimpleNamespace:
    """Every value as a leaf of a working, which knows its key and the line of the file."""
    def leaf(key: Key, x: Any, name: str) -> Any:
        if key.row:
            return _told(key.row, vars(x), where, name)
        return None if x is None else Told(key.name, x, key.told, "given", place=name, where=where(name))

    out = SimpleNamespace()
    for k in keys:
        x, name = values[k.name], f"{path}.{k.name}"
        setattr(out, k.name, tuple(leaf(k, i, f"{name}[{n}]") for n, i in enumerate(x, 1)) if k.many else leaf(k, x, name))
    return out


def _numbers(keys: tuple[Key, ...], values: Mapping[str, Any]) -> dict[str, float]:
    single = (k.name for k in keys if not k.many and k.unit not in (WORDS, SIZE, FLAG))
    return {name: float(values[name]) for name in single if _is_number(values[name])}


def _is_number(x: Any) -> bool:
    return isinstance(x, int | float) and not isinstance(x, bool)
