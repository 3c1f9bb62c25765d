"""Shapes of rule: a constant, tiers, bands, a ladder of sizes, rows with an exact key, and a grid of rows by columns.

`plain()` gives what whole designs use: a bare function or dictionary. `note(x)` says what the shape did with x.
`row(x)` is the number of the table row that answered, from which the source of that one cell is known.
A value outside the range of a shape raises the same `CurtilageError` from plain, told and bound calculation.
"""
from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
import difflib
from itertools import takewhile
from math import inf, nextafter
from typing import Any, NamedTuple

from curtilage.errors import CurtilageError
from curtilage.values.told import Cite, Told, value


class Label(NamedTuple):
    """What an error says about a rule: its name, where it stands, the unit of what is looked up, and how to go on."""
    name: str
    where: str = ""
    unit: str = ""
    advice: str = ""


RULE = Label("rule")


def _number(x: Any) -> str:
    """A number in a message: six digits, but whole numbers in full."""
    if not isinstance(x, int | float):
        return str(x)
    return f"{x:.0f}" if 1e5 <= abs(x) < 1e15 and float(x).is_integer() else f"{x:g}"


def _amount(x: Any, unit: str) -> str:
    shown = "" if unit in ("", "count", "size") else f" {unit}"
    return f"{_number(x)}{shown}"


class Shape:
    """Base of every shape. `label` is used in messages only."""
    label = RULE

    def plain(self) -> Any:
        raise NotImplementedError

    def note(self, *x: Any) -> str:
        raise NotImplementedError

    def row(self, *x: Any) -> int | None:
        """The row that answers, or None where a shape has no rows of its own."""
        return None

    def out(self, x: Any, span: str) -> CurtilageError:
        """The one error for a value outside the range."""
        name, where, unit, advice = self.label
        head = f"{name} ({where})" if where else name
        return CurtilageError(f"{head}: nothing for {_amount(x, unit)}; {span}" + (f". {advice}" if advice else ""))


class Formula(NamedTuple):
    """A row that states a formula: a + b (x - c)."""
    a: float
    b: float
    c: float
    text: str

    def at(self, x: float) -> float:
        return self.a + self.b * (x - self.c)


class Tiers(Shape):
    """[(up_to, factor), ...], each factor for the part of x inside its tier; usually the last limit is infinity."""

    def __init__(self, steps: Iterable[Sequence[float]], label: Label = RULE) -> None:
        self.steps = tuple((float(up_to), factor) for up_to, factor in steps)
        self.label = label

    def parts(self, x: float) -> list[tuple[float, float]]:
        low, out = 0.0, []
        for up_to, factor in self.steps:
            if x > low:
                out.append((min(x, up_to) - low, factor))
            low = up_to
        return out

    def plain(self) -> Callable[[float], float]:
        steps, out = self.steps, self._out

        def tiers(x: float) -> float:
            if x < 0:
                raise out(x)
            low = total = 0.0
            for up_to, factor in steps:
                if x <= up_to:
                    return total + (x - low) * factor
                total += (up_to - low) * factor
                low = up_to
            raise out(x)
        return tiers

    def _out(self, x: float) -> CurtilageError:
        return self.out(x, f"its tiers run from 0 to {_amount(self.steps[-1][0], self.label.unit)}")

    def row(self, *x: Any) -> int | None:
        return bisect_left([up_to for up_to, _ in self.steps], x[0])

    def note(self, *x: Any) -> str:
        return " + ".join(f"{_number(amount)} at {100 * factor:g} %" for amount, factor in self.parts(x[0])) or "0"


class Bands(Shape):
    """The value of the first band whose upper limit is not below x. `low` is the last value below the first band.

    `limits` starts with `low`, and `values` is a dictionary from 1 up, so what lies below the first or above the last
    band finds no value, at no cost to what lies inside.
    """

    def __init__(self, limits: Sequence[float], values: Sequence[Any], label: Label = RULE,
                 low: float = -inf, per: float = 1.0) -> None:
        self.limits = (low, *map(float, limits))
        self.cells = tuple(values)
        self.values = {i: v for i, v in enumerate(self.cells, 1)}
        self.label, self.per = label, per
        self.formulas = any(isinstance(v, Formula) for v in self.cells)

    def plain(self) -> Callable[[float], Any]:
        limits, values, out = self.limits, self.values, self._out
        if self.formulas:
            return self._formulas()

        def bands(x: float) -> Any:
            try:
                return values[bisect_left(limits, x)]
            except KeyError:
                raise out(x) from None
        return bands

    def _formulas(self) -> Callable[[float], float]:
        limits, out, per = self.limits, self._out, self.per
        rows = {i: v[:3] if isinstance(v, Formula) else (v * per, 0.0, 0.0) for i, v in self.values.items()}

        def bands(x: float) -> float:
            try:
                a, b, c = rows[bisect_left(limits, x)]
            except KeyError:
                raise out(x) from None
            return (a + b * (x - c)) / per
        return bands

    def _out(self, x: float) -> CurtilageError:
        low = self.limits[0]
        first = "" if low == -inf else f"from {_number(low)} " if float(low).is_integer() else f"from {nextafter(low, inf):g} "
        return self.out(x, f"the table goes {first}up to {_amount(self.limits[-1], self.label.unit)}")

    def row(self, *x: Any) -> int | None:
        return bisect_left(self.limits, x[0]) - 1

    def note(self, *x: Any) -> str:
        i = bisect_left(self.limits, x[0])
        low = f"over {_number(self.limits[i - 1])} " if i > 1 else ""
        up = "" if self.limits[i] == inf else f"up to {_number(self.limits[i])}"
        text = f"{_number(x[0])} falls in the row {low}{up}".rstrip()
        cell = self.values[i]
        return f"{text}: {cell.text}" if isinstance(cell, Formula) else text


class Ladder(Shape):
    """The next standard size at or above x; with `down`, the largest not above x."""

    def __init__(self, sizes: Iterable[float], label: Label = RULE, down: bool = False) -> None:
        self.sizes = tuple(sizes)
        self.label, self.down = label, down
        self.limits = (nextafter(0.0, -inf), *self.sizes)
        self.values = {i: s for i, s in enumerate(self.sizes, 1)}

    def plain(self) -> Callable[[float], float]:
        limits, values, sizes, out = self.limits, self.values, self.sizes, self._out

        def up(x: float) -> float:
            try:
                return values[bisect_left(limits, x)]
            except KeyError:
                raise out(x) from None

        def down(x: float) -> float:
            try:
                return values[bisect_right(sizes, x)]
            except KeyError:
                raise out(x) from None
        return down if self.down else up

    def _out(self, x: float) -> CurtilageError:
        return self.out(x, f"the standard sizes run from {self.sizes[0]:g} to {_amount(self.sizes[-1], self.label.unit)}")

    def row(self, *x: Any) -> int | None:
        return (bisect_right(self.sizes, x[0]) if self.down else bisect_left(self.limits, x[0])) - 1

    def note(self, *x: Any) -> str:
        i = self.row(*x) or 0
        if self.down:
            larger = f"; {self.sizes[i + 1]:g} is above {x[0]:g}" if i + 1 < len(self.sizes) else ""
            return f"largest not above {x[0]:g} is {self.sizes[i]:g}{larger}"
        smaller = f"; {self.sizes[i - 1]:g} is below {x[0]:g}" if i else ""
        return f"next at or above {x[0]:g} is {self.sizes[i]:g}{smaller}"


class Found(dict[Any, Any]):
    """Rows by key; a key that is not there is an error with the nearest name."""
    shape: Rows

    def __missing__(self, key: Any) -> Any:
        raise self.shape.unknown(key)


class Rows(Shape):
    """Rows with an exact key. `rest` answers for the keys of `others`, where the table sets no limit."""

    def __init__(self, rows: Mapping[Any, Any], label: Label = RULE, rest: Any = None, others: Iterable[Any] = ()) -> None:
        self.own, self.label = dict(rows), label
        self.rows = {**{k: rest for k in others}, **rows}
        self._order = {k: i for i, k in enumerate(self.own)}

    def plain(self) -> Found:
        found = Found(self.rows)
        found.shape = self
        return found

    def unknown(self, key: Any) -> CurtilageError:
        named = not str(key).isdigit()                         # another whole number is no slip of the pen
        near = _nearest(str(key), [str(k) for k in self.rows]) if named else ""
        keys = [_number(k) for k in self.rows]
        span = f"its rows are {', '.join(keys) if len(keys) < 13 else f'{keys[0]} to {keys[-1]}'}"
        return self.out(repr(key) if isinstance(key, str) else key, span + (f"; did you mean {near}?" if near else ""))

    def row(self, *x: Any) -> int | None:
        return self._order.get(x[0])

    def note(self, *x: Any) -> str:
        return f"row {_number(x[0])}" if x[0] in self._order else f"the table has no limit for {_number(x[0])}"


def _nearest(word: str, known: Sequence[str]) -> str:
    """The likeliest of several names; of two equally like, the one that begins the same way."""
    def likeness(name: str) -> tuple[float, int]:
        same = takewhile(lambda pair: pair[0] == pair[1], zip(word, name, strict=False))
        return difflib.SequenceMatcher(None, word, name).ratio(), len(list(same))
    return max(difflib.get_close_matches(word, known, 5), key=likeness, default="")


class Grid(Shape):
    """Rows by columns, both with exact keys: `motor_current(hp, volts)`."""

    def __init__(self, rows: Mapping[Any, Mapping[Any, Any]], label: Label = RULE) -> None:
        self.rows, self.label = {k: dict(v) for k, v in rows.items()}, label
        self.order = list(self.rows)
        self.heads = list(dict.fromkeys(c for row in self.rows.values() for c in row))

    def plain(self) -> Callable[[Any, Any], Any]:
        rows, out = self.rows, self._out

        def grid(x: Any, y: Any) -> Any:
            try:
                return rows[x][y]
            except KeyError:
                raise out(x, y) from None
        return grid

    def _out(self, x: Any, y: Any) -> CurtilageError:
        def names(keys: Iterable[Any]) -> str:
            return ", ".join(map(_number, keys))
        if x not in self.rows:
            return self.out(x, f"its rows are {names(self.rows)}")
        return self.out(x, f"this row has no value at {_number(y)}, only at {names(self.rows[x])}")

    def row(self, *x: Any) -> int | None:
        return self.order.index(x[0])

    def note(self, *x: Any) -> str:
        return f"row {_number(x[0])}, column {_number(x[1])}"


class Telling:
    """A shape that answers with its clause; one node for one answer, however often it is read."""

    def __init__(self, name: str, shape: Shape, unit: str, cite: Callable[..., Cite], note: str = "") -> None:
        self.name, self.shape, self.plain, self.unit = name, shape, shape.plain(), unit
        self.cite, self.remark = cite, note
        self._nodes: dict[Any, Told] = {}

    def _node(self, keys: tuple[Any, ...], look: Callable[..., Any], text: Callable[..., str]) -> Told:
        mark = tuple(id(k) if isinstance(k, Told) else k for k in keys)
        if mark not in self._nodes:
            bare = tuple(map(value, keys))
            result = look(*bare)
            note = self.shape.note(*bare)
            inputs = tuple(k for k in keys if isinstance(k, Told))
            self._nodes[mark] = Told(text(*bare), result, self.unit, "rule", inputs, self.cite(*bare),
                                     f"{note}; {self.remark}" if self.remark else note)
        return self._nodes[mark]

    def told(self, *x: Any) -> Told:
        return self._node(x, self.plain, lambda *keys: f"{self.name}({', '.join(map(_number, keys))})")

    __call__ = told

    def __getitem__(self, key: Any) -> Told:
        return self._node((key,), self.plain.__getitem__, lambda k: f"{self.name}[{_number(k)}]")

    def __contains__(self, key: Any) -> bool:
        return value(key) in self.plain
