"""Methods: ordinary functions whose lines can be told.

    @method
    def drop(R: u.ohm_per_kft, I: u.A, L: u.ft):
        V_d: u.V("Ohm's law, out and back") = 2 * R * I * L / FT_PER_KFT
        return V_d

`drop(0.122, 96.0, 180.0)` is that function and nothing else: Python never evaluates the annotations of local
names. `drop.told(R, I, L)` runs a twin, made from the same source on first use, in which every annotated line
still computes with bare numbers but also notes what it read; values that flow between the lines are Told.
"""
from __future__ import annotations

import ast
import builtins
from contextvars import ContextVar
import copy
from dataclasses import replace
from functools import cache
import inspect
import textwrap
from types import FunctionType
from typing import Any, NamedTuple

from curtilage.values.lines import Unit
from curtilage.values.told import Cite, Items, Told, is_leaf, value

_place: ContextVar[str] = ContextVar("place", default="")


def method(f: Any) -> Any:
    """Mark a function as tellable. The function itself is returned, untouched."""
    twin: list = []

    def told(*args, place: str = ""):
        if not twin:
            twin.append(_twin(f))
        token = _place.set(place or f"{_place.get()} {f.__name__}".strip())
        try:
            return twin[0](*args)
        finally:
            _place.reset(token)

    f.told = told
    return f


class _See:
    """What one line reads while it is computed."""

    def __init__(self):
        self.seen: dict = {}
        self.inputs: list[Told] = []

    def __call__(self, text: str, x):
        if isinstance(x, Told):
            self.inputs.append(x)
        elif type(x) is tuple:
            self.inputs.extend(i for i in x if isinstance(i, Told))
        elif not isinstance(x, int | float | str):
            return x
        self.seen[text] = x
        return value(x)

    def call(self, text: str, f, told, bare):
        """A tellable callee gets told values; anything else gets bare numbers."""
        return self(text, told()) if hasattr(f, "told") else bare()

    def reach(self, text: str, test):
        """One side of an `and`, an `or`, or the test of an `x if test else y`; what is not reached is not printed."""
        self.seen.setdefault(text, bool(test))
        return test

    def each(self, text: str, items, element, over: str):
        outer, kept = self.seen, Items(_element(text), over)
        outer[text] = kept
        for x in items:
            self.seen = {}
            kept.append(self.seen)
            yield element(x)
        self.seen = outer


@cache
def _element(text: str) -> ast.expr:
    return ast.parse(text, mode="eval").body.elt


class _Line(NamedTuple):
    symbol: str
    unit: Unit
    expr: ast.expr
    text: str
    tests: tuple[int, ...]          # the tests it stands under
    depth: int                      # the loops it stands in


class _Frame:
    """One call of a twin: what its tests said last, and what failed before."""

    def __init__(self, place: str, lines: list[_Line]):
        self.place, self.lines, self.items = place, lines, []
        self.last: dict[int, Told] = {}
        self.missed: dict[int, Told] = {}

    def at(self, depth: int, item) -> None:
        """A loop moved on to its next item."""
        self.items[depth:] = [str(value(item))]

    def line(self, n: int, compute) -> Told:
        line, see = self.lines[n], _See()
        x = compute(see)
        because = tuple(self.last[t] for t in line.tests)
        source = see.seen.get(line.text)
        if isinstance(source, Told) and not isinstance(line.expr, ast.Name) and (
                source.how == "rule" or isinstance(line.expr, ast.Call)):
            _same(line.unit, source, line.symbol)                # the line only names what a rule or a method gave
            return replace(source, symbol=line.symbol, because=source.because + because)
        return Told(line.symbol, x, line.unit.name, "line", tuple(see.inputs), Cite(line.unit.cite), line=line.expr,
                    seen=see.seen, because=because, place=self.place)

    def test(self, n: int, compute) -> bool:
        line, see = self.lines[n], _See()
        x = bool(compute(see))
        node = self.last[n] = Told(
            "test", x, line.unit.name, "test", tuple(see.inputs), line=line.expr, seen=see.seen, place=self.place,
            because=tuple(self.last[t] for t in line.tests), item=", ".join(self.items[:line.depth]),
            rejected=self.missed.get(n) if x else None)
        if not x:
            self.missed[n] = node
        return x


def _same(unit: Unit, x: Told, name: str) -> None:
    if x.unit != unit.name:
        raise TypeError(f"{name} wants {unit}, got {x.symbol} in {x.unit}")


def _open(lines: list, wants: dict[str, Unit], args: dict) -> _Frame:
    for name, unit in wants.items():
        if isinstance(args[name], Told):
            _same(unit, args[name], f"{_place.get()}: {name}")
    return _Frame(_place.get(), lines)


class _Expr(ast.NodeTransformer):
    """Inside a line: every leaf is read through `see`, every call goes through `see.call`."""

    def visit(self, node):
        if is_leaf(node) and not isinstance(getattr(node, "ctx", None), ast.Store):
            return _call("_see", ast.Constant(ast.unparse(node)), _tell_calls(node))
        return super().visit(node)

    def visit_Call(self, node):
        told, bare = copy.deepcopy(node), copy.deepcopy(node)
        told.func = ast.Attribute(told.func, "told", ast.Load())
        told.args = [_tell_calls(a) for a in node.args]
        bare.args = [self.visit(a) for a in bare.args]
        bare.keywords = [ast.keyword(k.arg, self.visit(k.value)) for k in bare.keywords]
        return _call("_see.call", ast.Constant(ast.unparse(node)), node.func, _lambda(told), _lambda(bare))

    def visit_BoolOp(self, node):
        node.values = [_call("_see.reach", ast.Constant(ast.unparse(v)), self.visit(v)) for v in node.values]
        return node

    def visit_IfExp(self, node):
        node.test = _call("_see.reach", ast.Constant(ast.unparse(node.test)), self.visit(node.test))
        node.body, node.orelse = self.visit(node.body), self.visit(node.orelse)
        return node

    def visit_GeneratorExp(self, node):
        loop = node.generators[0]
        if len(node.generators) > 1 or loop.ifs:
            raise SyntaxError("a line takes one plain loop: sum(... for x in items)")
        text, over = ast.Constant(ast.unparse(node)), ast.Constant(ast.unparse(loop.iter))
        return _call("_see.each", text, loop.iter, _lambda(self.visit(node.elt), loop.target.id), over)


class _Twin(ast.NodeTransformer):
    """Outside and around the lines."""

    def __init__(self, names: dict):
        self.names, self.lines, self.tests, self.depth = names, [], [], 0

    def add(self, symbol, unit, expr) -> ast.Constant:
        line = _Line(symbol, unit, copy.deepcopy(expr), ast.unparse(expr), tuple(self.tests), self.depth)
        self.lines.append(line)
        return ast.Constant(len(self.lines) - 1)

    def visit_AnnAssign(self, node):
        unit = eval(ast.unparse(node.annotation), self.names)
        n = self.add(node.target.id, unit, node.value)
        return ast.Assign([node.target], _call("_frame.line", n, _lambda(_Expr().visit(node.value), "_see")))

    def visit_If(self, node):
        n = self.add("test", Unit("yes/no"), node.test)
        test = _call("_frame.test", n, _lambda(_Expr().visit(node.test), "_see"))
        self.tests.append(n.value)
        body, orelse = ([self.visit(s) for s in part] for part in (node.body, node.orelse))
        self.tests.pop()
        return ast.If(test, body, orelse)

    def visit_For(self, node):
        node.iter = _tell_calls(node.iter)
        at = ast.Expr(_call("_frame.at", ast.Constant(self.depth), ast.Name(node.target.id, ast.Load())))
        self.depth += 1
        node.body = [at, *(self.visit(s) for s in node.body)]
        self.depth -= 1
        node.orelse = [self.visit(s) for s in node.orelse]
        return node

    def visit_Call(self, node):
        return _tell_calls(node)


def _told_or(f):
    return getattr(f, "told", f)


def _tell_calls(node):
    """Outside a line: a call of a tellable becomes a call of its twin; nothing else changes."""
    class Calls(ast.NodeTransformer):
        def visit_Call(self, node):
            node = self.generic_visit(node)
            node.func = _call("_told_or", node.func)
            return node
    return Calls().visit(copy.deepcopy(node))


def _lambda(body, *args):
    return ast.Lambda(ast.arguments([], [ast.arg(a) for a in args], None, [], [], None, []), body)


def _call(name, *args):
    head, *rest = name.split(".")
    f = ast.Name(head, ast.Load())
    return ast.Call(ast.Attribute(f, rest[0], ast.Load()) if rest else f, list(args), [])


def source_tree(f: FunctionType) -> ast.FunctionDef:
    """The function as written, with its line numbers."""
    fn = ast.parse(textwrap.dedent(inspect.getsource(f))).body[0]
    return ast.increment_lineno(fn, f.__code__.co_firstlineno - 1)


def _twin(f: FunctionType) -> FunctionType:
    """The told twin of a function, compiled from its source."""
    fn = source_tree(f)
    fn.decorator_list = []
    names = {**vars(builtins), **f.__globals__}
    wants = {a.arg: eval(ast.unparse(a.annotation), names) for a in fn.args.args if a.annotation}
    wants = {k: v for k, v in wants.items() if isinstance(v, Unit)}
    maker = _Twin(names)
    fn.body = [maker.visit(s) for s in fn.body]
    for a in fn.args.args:
        a.annotation = None
    fn.returns = None
    args = ast.Dict([ast.Constant(a.arg) for a in fn.args.args], [ast.Name(a.arg, ast.Load()) for a in fn.args.args])
    fn.body.insert(0, ast.Assign([ast.Name("_frame", ast.Store())],
                                 _call("_open", ast.Name("_lines", ast.Load()), ast.Name("_wants", ast.Load()), args)))
    outer = ast.parse("def _make(_open, _lines, _wants, _told_or):\n    pass\n    return 0")
    outer.body[0].body = [fn, ast.Return(ast.Name(fn.name, ast.Load()))]
    ast.fix_missing_locations(outer)
    space: dict = {}
    exec(compile(outer, f.__code__.co_filename, "exec"), f.__globals__, space)
    return space["_make"](_open, maker.lines, wants, _told_or)


def lines_of(f: FunctionType) -> list[_Line]:
    """Every line and test of a method, for contract tests."""
    maker = _Twin({**vars(builtins), **f.__globals__})
    for s in source_tree(f).body:
        maker.visit(s)
    return maker.lines


def arrays(f: FunctionType) -> FunctionType:
    """The same code on arrays: straight-line methods with min and max; a branch on an array raises."""
    import numpy as np
    swap = {"min": lambda *a: np.minimum.reduce(np.broadcast_arrays(*a)),
            "max": lambda *a: np.maximum.reduce(np.broadcast_arrays(*a))}
    return FunctionType(f.__code__, {**f.__globals__, **swap}, f.__name__, f.__defaults__, f.__closure__)
