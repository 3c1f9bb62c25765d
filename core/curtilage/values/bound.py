"""A method bound to one edition: the same source, with the edition's numbers and tables put where they are read.

`bound(branch_circuit, ed)` takes and gives what `branch_circuit` does, only faster: constants become literals, tables
and ladders become names, methods of a single line are put in line. It costs about ten milliseconds once, so it is for
whole estates again and again, and for sweeps.
"""
from __future__ import annotations

import ast
from bisect import bisect_left
import builtins
import copy
from types import FunctionType

from curtilage.values.method import source_tree


def bound(f: FunctionType, ed) -> FunctionType:
    made = ed.bound
    if f not in made:
        made[f] = _bound(f, ed)
    return made[f]


class _Bind(ast.NodeTransformer):
    def __init__(self, ed, names: dict):
        self.ed, self.names, self.cells = ed, names, {"_bisect": bisect_left}

    def cell(self, name: str, x) -> ast.Name:
        self.cells[name] = x
        return ast.Name(name, ast.Load())

    def visit_AnnAssign(self, node):
        return ast.Assign([node.target], self.visit(node.value))

    def visit_Attribute(self, node):
        if not (isinstance(node.value, ast.Name) and node.value.id == "ed"):
            return self.generic_visit(node)
        x = getattr(self.ed, node.attr)
        return ast.Constant(x) if isinstance(x, int | float) else self.cell(f"_ed_{node.attr}", x)

    def visit_Call(self, node):
        f = node.func
        if isinstance(f, ast.Attribute) and isinstance(f.value, ast.Name) and f.value.id == "ed":
            shape, (x,) = self.ed.raw_shape(f.attr), (self.visit(a) for a in node.args)
            if type(shape).__name__ in ("Ladder", "Bands"):
                keys = shape.sizes if hasattr(shape, "sizes") else shape.limits
                values = shape.sizes if hasattr(shape, "sizes") else shape.values
                k, v = self.cell(f"_keys_{f.attr}", keys), self.cell(f"_values_{f.attr}", values)
                find = ast.Call(ast.Name("_bisect", ast.Load()), [k, x], [])
                return ast.Subscript(v, find, ast.Load())
        m = self.names.get(f.id) if isinstance(f, ast.Name) else None
        if not hasattr(m, "told"):
            return self.generic_visit(node)
        fn = source_tree(m)
        args, params = node.args, [a.arg for a in fn.args.args]
        lines = [s for s in fn.body if not isinstance(s, ast.Expr)]
        if len(lines) == 2 and isinstance(lines[0], ast.AnnAssign):
            put = dict(zip(params, args, strict=True))
            return self.visit(_Put(put).visit(lines[0].value))
        return ast.Call(self.cell(f"_{m.__name__}", bound(m, self.ed)), [self.visit(a) for a in args], [])


class _Put(ast.NodeTransformer):
    def __init__(self, put):
        self.put = put

    def visit_Name(self, node):
        return copy.deepcopy(self.put.get(node.id, node))


def _bound(f: FunctionType, ed) -> FunctionType:
    fn = source_tree(f)
    bind = _Bind(ed, {**vars(builtins), **f.__globals__})
    fn.args.args = [ast.arg(a.arg) for a in fn.args.args]
    fn.body = [bind.visit(s) for s in fn.body]
    fn.decorator_list, fn.returns = [], None
    outer = ast.parse(f"def _make({', '.join(bind.cells)}):\n    pass\n    return 0")
    outer.body[0].body = [fn, ast.Return(ast.Name(fn.name, ast.Load()))]
    space: dict = {}
    exec(compile(ast.fix_missing_locations(outer), f.__code__.co_filename, "exec"), f.__globals__, space)
    return space["_make"](**bind.cells)
