"""A method bound to one edition: the same source, with the edition's numbers and tables put where they are read.

`bound(branch_circuit, ed)` takes and gives what `branch_circuit` does, only faster: constants become literals, tables
and ladders become names, methods of a single line are put in line. It costs about ten milliseconds once, so it is for
whole estates again and again, and for sweeps. `bound(f, ed, m)` binds the view that `f` takes as `m`, too.

Results are equal to those of the plain method bit for bit. Where a table has no answer, the plain method is run
again with the same arguments, so the error is the same one.
"""
from __future__ import annotations

import ast
from bisect import bisect_left
import builtins
import copy
from types import FunctionType

from curtilage.errors import CurtilageError
from curtilage.values.method import source_tree
from curtilage.values.rules import Bands, Ladder


def bound(f, ed, m=None):
    """`f` with the edition it reads as `ed`, and the view it reads as `m`, put in."""
    return _made(f, ed, {"ed": ed, "m": m} if m is not None else {"ed": ed})


def _made(f, ed, readers: dict):
    params = source_params(f)
    mine = {k: r for k, r in readers.items() if k in params}
    key = (f, *(id(mine.get(p)) for p in sorted(mine)))
    if key not in ed.bound:
        ed.bound[key] = _bound(f, ed, mine)
    return ed.bound[key]


def source_params(f) -> tuple[str, ...]:
    return f.__code__.co_varnames[:f.__code__.co_argcount]


class _Bind(ast.NodeTransformer):
    """Puts in what the readers (edition and view, by the name they have here) hold."""

    def __init__(self, ed, readers: dict, names: dict, local: set, cells: dict):
        self.ed, self.readers, self.names, self.local, self.cells = ed, readers, names, local, cells

    def cell(self, hint: str, x) -> ast.Name:
        """A name that stands for one object in the compiled function."""
        name = next((n for n, other in self.cells.items() if other is x), None)
        if name is None:
            name = f"_{len(self.cells)}_{hint}"
            self.cells[name] = x
        return ast.Name(name, ast.Load())

    def reader(self, node):
        """The edition or view that an expression names, if it names one."""
        return self.readers.get(node.id) if isinstance(node, ast.Name) else None

    def visit_AnnAssign(self, node):
        return ast.Assign([node.target], self.visit(node.value))

    def visit_Name(self, node):
        x = self.names.get(node.id)
        if isinstance(node.ctx, ast.Load) and node.id not in self.local and isinstance(x, int | float):
            return ast.Constant(x)
        return node

    def visit_Attribute(self, node):
        reader = self.reader(node.value)
        if reader is None:
            return self.generic_visit(node)
        x = getattr(reader, node.attr)
        return ast.Constant(x) if isinstance(x, int | float | str) else self.cell(node.attr, x)

    def visit_Call(self, node):
        f = node.func
        if isinstance(f, ast.Attribute) and self.reader(f.value) is not None and len(node.args) == 1:
            looked = self.look_up(self.reader(f.value), f.attr, node.args[0])
            if looked is not None:
                return looked
        called = self.names.get(f.id) if isinstance(f, ast.Name) and f.id not in self.local else None
        if not hasattr(called, "told"):
            return self.generic_visit(node)
        return self.method(called, node)

    def look_up(self, reader, attr: str, x):
        """A ladder or bands as a search in line; None where the shape has to be called."""
        try:
            shape = reader.raw_shape(attr)
        except CurtilageError:
            return None
        plain_search = not shape.down if isinstance(shape, Ladder) else isinstance(shape, Bands) and not shape.formulas
        if not plain_search:
            return None
        keys, values = self.cell(f"keys_{attr}", shape.limits), self.cell(f"values_{attr}", shape.values)
        find = ast.Call(self.cell("bisect", bisect_left), [keys, self.visit(x)], [])
        return ast.Subscript(values, find, ast.Load())

    def method(self, called, node):
        """A method in line where that is safe, or the bound method called."""
        params = source_params(called)
        given = {p: self.reader(a) for p, a in zip(params, node.args, strict=True) if p in ("ed", "m")}
        readers = {p: r for p, r in given.items() if r is not None}
        args = [self.visit(a) for a in node.args]
        if not readers and given:
            return ast.Call(self.cell(called.__name__, called), args, [])
        line = _single_line(called)
        if line is None or not _may_put(line, params, args):
            return ast.Call(self.cell(called.__name__, _made(called, self.ed, readers)), args, [])
        names = {**vars(builtins), **called.__globals__}
        inner = _Bind(self.ed, readers, names, set(params), self.cells)
        return _Put(dict(zip(params, args, strict=True)), inner).visit(inner.visit(copy.deepcopy(line)))


class _Put(ast.NodeTransformer):
    """Arguments in the place of parameters, and what else a method names in the place of its names."""

    def __init__(self, put: dict, inner: _Bind):
        self.put, self.inner = put, inner

    def visit_Name(self, node):
        if node.id in self.put:
            return copy.deepcopy(self.put[node.id])
        if node.id in self.inner.cells or node.id not in self.inner.names:
            return node
        return self.inner.cell(node.id, self.inner.names[node.id])


def _single_line(f):
    """The expression of a method that is one line and returns it."""
    body = [s for s in source_tree(f).body if not isinstance(s, ast.Expr)]
    if len(body) != 2 or not isinstance(body[0], ast.AnnAssign) or not isinstance(body[1], ast.Return):
        return None
    line, back = body
    returned = isinstance(back.value, ast.Name) and isinstance(line.target, ast.Name) and back.value.id == line.target.id
    return line.value if returned and not any(isinstance(n, ast.GeneratorExp) for n in ast.walk(line)) else None


def _may_put(line, params, args) -> bool:
    """Whether no argument would be computed twice."""
    used = [n.id for n in ast.walk(line) if isinstance(n, ast.Name)]
    return all(used.count(p) < 2 or isinstance(a, ast.Name | ast.Constant) for p, a in zip(params, args, strict=True))


def _bound(f, ed, readers: dict) -> FunctionType:
    fn = source_tree(f)
    params = source_params(f)
    stored = {n.id for n in ast.walk(fn) if isinstance(n, ast.Name) and isinstance(n.ctx, ast.Store)}
    readers = {k: r for k, r in readers.items() if k not in stored}
    bind = _Bind(ed, readers, {**vars(builtins), **f.__globals__}, stored | set(params), {})
    fn.args.args = [ast.arg(a.arg) for a in fn.args.args]
    body = [bind.visit(s) for s in fn.body]
    kept = [ast.Assign([ast.Name(f"_given_{p}", ast.Store())], ast.Name(p, ast.Load())) for p in params if p in stored]
    given = [ast.Name(f"_given_{p}" if p in stored else p, ast.Load()) for p in params]
    again = ast.Return(ast.Call(bind.cell("plain", f), given, []))
    missed = ast.ExceptHandler(bind.cell("KeyError", KeyError), None, [again])
    fn.body = [*kept, ast.Try(body, [missed], [], [])]
    fn.decorator_list, fn.returns = [], None
    return _compiled(fn, f, bind.cells)


def _compiled(fn, f, cells: dict) -> FunctionType:
    outer = ast.parse(f"def _make({', '.join(cells)}):\n    pass\n    return 0")
    outer.body[0].body = [fn, ast.Return(ast.Name(fn.name, ast.Load()))]
    space: dict = {}
    exec(compile(ast.fix_missing_locations(outer), f.__code__.co_filename, "exec"), f.__globals__, space)
    return space["_make"](**cells)
