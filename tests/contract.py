"""What a told line is held to: as printed it gives the value, and with quantities in place of numbers it gives the unit.

The printed line is the code, so this says nothing about whether the code is right: a second writing, printed examples and
second methods do that. It holds the units, the grammar of the methods, and that every line was told at least once.

Told runs come from modules called `cases_*.py` anywhere in tests/: each has a function `told()` that yields results of told
methods (single numbers, records or tuples of them).
"""
from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cache
import importlib
import importlib.util
import math
from pathlib import Path
import pkgutil
import re
from types import FunctionType, ModuleType
from typing import Any, NamedTuple

from curtilage.values import told
from curtilage.values.lines import Unit
from curtilage.values.told import Told, parents
import pint

TESTS = Path(__file__).resolve().parent
WORDS = ("size", "yes/no", "text")
ENOUGH = 30                                    # tellings of one side of one line that are looked at

# ---------------------------------------------------------------------------------------------------- methods and runs


@cache
def modules() -> list[ModuleType]:
    """The rooms in which methods live."""
    found = []
    for room in ("calc", "design"):
        package = importlib.import_module(f"curtilage.{room}")
        inside = pkgutil.walk_packages(package.__path__, f"{package.__name__}.")
        found += [package, *(importlib.import_module(m.name) for m in inside)]
    return found


@cache
def methods() -> dict[str, Any]:
    """Every method of the package, by "room.module.name"."""
    return {f"{m.__name__.removeprefix('curtilage.')}.{f.__name__}": f for m in modules() for f in vars(m).values()
            if isinstance(f, FunctionType) and hasattr(f, "told") and f.__module__ == m.__name__}


@cache
def constants() -> dict[str, set[str]]:
    """The units in which named constants of the modules are declared; a name should have one."""
    units: dict[str, set[str]] = defaultdict(set)
    for m in modules():
        for name, unit in getattr(m, "__annotations__", {}).items():
            unit = eval(unit, vars(m)) if isinstance(unit, str) else unit
            if isinstance(unit, Unit):
                units[name].add(unit.name)
    return units


def results(x: Any) -> Iterator[Told]:
    """The told numbers of a result: itself, or those of a record, a tuple, a dictionary."""
    if isinstance(x, Told):
        yield x
    elif isinstance(x, dict):
        for i in x.values():
            yield from results(i)
    elif isinstance(x, tuple | list):
        for i in x:
            yield from results(i)


class Runs(NamedTuple):
    """Lines and tests told in all the cases, by (symbol, text, side taken), a few of each; and the cases that broke off."""

    nodes: dict[tuple[str, str, bool], list[Told]]
    broken: dict[str, BaseException]


@cache
def runs() -> Runs:
    kept: dict[tuple[str, str, bool], list[Told]] = defaultdict(list)
    broken: dict[str, BaseException] = {}
    for path in sorted(TESTS.rglob("cases_*.py")):
        try:
            for result in load(path).told():
                for n in shallow(result):
                    if n.line is not None and len(some := kept[where(n)]) < ENOUGH:
                        some.append(n)
        except Exception as e:                 # once here, and not again in every test
            broken[path.name] = e
    return Runs(kept, broken)


def nodes() -> dict[tuple[str, str, bool], list[Told]]:
    return runs().nodes


def shallow(result: Any) -> Iterator[Told]:
    """Every node of a result once; numbers of other items are not followed, they have a telling of their own."""
    seen: set[int] = set()
    stack = list(results(result))
    while stack:
        n = stack.pop()
        if id(n) not in seen:
            seen.add(id(n))
            yield n
            if n.how != "item":
                stack.extend(parents(n))


def load(path: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(path.stem, path)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def where(n: Told) -> tuple[str, str, bool]:
    return n.symbol, f"{getattr(n.line, 'lineno', 0)}: {ast.unparse(n.line)}", side(n) is not getattr(n.line, "orelse", None)


# ------------------------------------------------------------------------------------------------------------- as printed

FUNCTIONS = {k: v for k, v in vars(math).items() if callable(v) and not k.startswith("_")}
NAMES = {**FUNCTIONS, "min": min, "max": max, "sum": sum, "len": len, "abs": abs, "round": round, "any": any, "all": all,
         "yes": True, "no": False, "pi": math.pi}


@cache
def helpers() -> dict[str, Any]:
    """Plain functions of the modules that lines call: they are not told, only used."""
    return {k: f for m in modules() for k, f in vars(m).items()
            if callable(f) and not hasattr(f, "told") and not isinstance(f, type)}


def side(n: Told) -> Any:
    if not isinstance(n.line, ast.IfExp):
        return n.line
    return n.line.body if told.value(n.seen[ast.unparse(n.line.test)]) else n.line.orelse


def evaluate(n: Told, leaf: Callable[[str, Any], Any], names: dict[str, Any]) -> Any:
    """The line, run with `leaf(name, what it stood for)` in place of what it read."""
    put: dict[str, Any] = {}

    def show(key: str, x: Any, seen: dict[str, Any]) -> str:
        if isinstance(x, told.Items):
            return f"[{', '.join(told._fill(x.element, seen | item, show) for item in x)}]"
        put[f"q{len(put)}"] = [leaf(key, i) for i in x] if isinstance(x, tuple) else leaf(key, x)
        return f"q{len(put) - 1}"
    text = told._fill(side(n), n.seen, show)
    return eval(text, {**helpers(), **names}, put)


def as_computed(n: Told) -> Any:
    return evaluate(n, lambda key, x: told.value(x), NAMES)


def as_printed(n: Told) -> Any:
    return eval(told.numbers(n), {**helpers(), **NAMES})


# ----------------------------------------------------------------------------------------------------------- as quantities

U: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
for _line in ("kft = 1000 ft", "kcmil = 1000 circular_mil", "cmil = circular_mil", "VAR = volt * ampere = var",
              "MBtu_per_h = 1000 Btu / hour = MBH"):
    U.define(_line)
SPELT = {"%": "percent", "count": "", "degC": "delta_degC", "degF": "delta_degF", "hp": "electrical_horsepower", "dBA": ""}


def quantities_of(text: str) -> Any:
    """The pint unit of one of our unit names: products by a space or *, one division, powers as trailing digits."""
    def one(word: str) -> str:
        return SPELT.get(word, re.sub(r"(?<=[a-zA-Z])([23])$", r"**\1", word)) or "dimensionless"
    parts = text.split("/")
    return U.parse_units(" / ".join(one(p.strip()) if p not in ("", "1") else "1" for p in parts) if text else "")


def quantity(key: str, x: Any) -> Any:
    if isinstance(x, Told):
        return x.value if x.unit in WORDS or isinstance(x.value, bool | str) else U.Quantity(x.value, quantities_of(x.unit))
    units = constants().get(key)
    return U.Quantity(x, quantities_of(min(units))) if units and min(units) not in WORDS else x


def plain(f: Callable[..., float]) -> Callable[..., float]:
    """A function of pure numbers: what it is given must have no dimension left."""
    return lambda *args: f(*(float(a.to("").magnitude) if hasattr(a, "magnitude") else a for a in args))


def root(q: Any) -> Any:
    return q ** 0.5


PURE = ("cos", "sin", "tan", "acos", "asin", "atan", "exp", "log", "log10", "ceil", "floor")
WITH_UNITS = {**NAMES, **{k: plain(FUNCTIONS[k]) for k in PURE}, "sqrt": root,
              "hypot": lambda *q: root(sum(x ** 2 for x in q))}


def with_units(n: Told) -> Any:
    """The magnitude that quantities give, in the line's own unit; it must be the value."""
    got = evaluate(n, quantity, WITH_UNITS)
    if n.unit in WORDS:
        return got
    got = got if isinstance(got, U.Quantity) else U.Quantity(got)
    if got.dimensionless and got.magnitude == 0:                      # an empty sum is nothing, in any unit
        return 0.0
    return got.to(quantities_of(n.unit)).magnitude
