"""The arithmetic that a file may write: + - * / ( ), numbers, names, sqrt, min and max. Nothing else is ever evaluated."""
from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
import math
import operator

from curtilage.errors import CurtilageError

LONGEST = 300
_OPERATORS: dict[type[ast.AST], Callable[..., float]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
    ast.USub: operator.neg, ast.UAdd: operator.pos}
_FUNCTIONS: dict[str, Callable[..., float]] = {"sqrt": math.sqrt, "min": min, "max": max}


def names(formula: str) -> tuple[str, ...]:
    """The names that a formula reads, in order."""
    found = (n.id for n in ast.walk(_tree(formula)) if isinstance(n, ast.Name) and n.id not in _FUNCTIONS)
    return tuple(dict.fromkeys(found))


def value(formula: str, known: Mapping[str, float]) -> float:
    """The value of a formula; every name must be known."""
    try:
        x = float(_value(_tree(formula), known))
    except (ArithmeticError, ValueError, TypeError) as e:
        if isinstance(e, CurtilageError):
            raise
        raise CurtilageError(f"cannot compute '{formula}': {e}") from None
    if not math.isfinite(x):
        raise CurtilageError(f"cannot compute '{formula}': the result is not a finite number")
    return x


def _tree(formula: str) -> ast.expr:
    if len(formula) > LONGEST:
        raise CurtilageError(f"a formula has at most {LONGEST} characters; write several steps")
    try:
        return ast.parse(formula.strip(), mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        raise CurtilageError(f"cannot read '{formula}' as arithmetic; write for example '0.7 * (cooking + dryers)'") from None


def _value(node: ast.expr, known: Mapping[str, float]) -> float:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return float(node.value)
    if isinstance(node, ast.Name):
        if node.id not in known:
            raise CurtilageError(f"no number '{node.id}' here; known: {', '.join(sorted(known)) or 'none'}")
        return known[node.id]
    if isinstance(node, ast.BinOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_value(node.left, known), _value(node.right, known))
    if isinstance(node, ast.UnaryOp) and type(node.op) in _OPERATORS:
        return _OPERATORS[type(node.op)](_value(node.operand, known))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in _FUNCTIONS and not node.keywords:
        return _FUNCTIONS[node.func.id](*(_value(a, known) for a in node.args))
    raise CurtilageError(f"'{ast.unparse(node)}' is not allowed in a path; use + - * / ( ), numbers, names, sqrt, min and max")
