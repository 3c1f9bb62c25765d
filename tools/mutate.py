"""Put small mistakes into the engineering, one at a time, and see whether the tests notice: tests of the tests.

    python tools/mutate.py [--every 10] [--tests tests/calc ...] [calc/conductors/drop.py ...]

Works in a copy; the real files are never touched. Each mistake is one change in one line of a method: a swapped operator, a
comparison that includes or leaves out its limit, min for max, the other side of a choice, a number a tenth too large. What
survives is printed: either a test is missing, or the change makes no difference.
"""
from __future__ import annotations

import argparse
import ast
from collections.abc import Iterator
import copy
import os
from pathlib import Path
import shutil
import subprocess
import sys
import tempfile
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
COPIED = ("core", "tests", "tools", "reference_checks", "demo_estate", "notebooks", "pyproject.toml")
SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.GtE: ast.Gt, ast.Gt: ast.GtE, ast.LtE: ast.Lt,
    ast.Lt: ast.LtE, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.And: ast.Or, ast.Or: ast.And,
}
SECOND = "tests/benchmarks/test_benchmarks.py"          # quick, and notices most
NAMES = {"min": "max", "max": "min", "ceil": "floor"}


class Mutant(NamedTuple):
    """One changed expression of one file."""

    path: Path
    place: tuple[int, int, int, int]
    before: str
    after: str


def expressions(tree: ast.Module) -> Iterator[ast.expr]:
    """The expressions of lines and of tests in methods."""
    for f in ast.walk(tree):
        if isinstance(f, ast.FunctionDef) and any(ast.unparse(d) == "method" for d in f.decorator_list):
            for s in ast.walk(f):
                if isinstance(s, ast.AnnAssign) and s.value is not None:
                    yield s.value
                elif isinstance(s, ast.If):
                    yield s.test


def changed(node: ast.AST) -> bool:
    """Put one mistake into a node; False where there is none to put."""
    if isinstance(node, ast.BinOp | ast.BoolOp) and type(node.op) in SWAPS:
        node.op = SWAPS[type(node.op)]()       # type: ignore[assignment]
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPS:
        node.ops[0] = SWAPS[type(node.ops[0])]()       # type: ignore[call-overload]
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NAMES:
        node.func.id = NAMES[node.func.id]
    elif isinstance(node, ast.IfExp):
        node.body, node.orelse = node.orelse, node.body
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float) and node.value:
        node.value = node.value * 1.1
    else:
        return False
    return True


def mutants(path: Path) -> Iterator[Mutant]:
    for expr in expressions(ast.parse(path.read_text(encoding="utf-8"))):
        for i in range(len(list(ast.walk(expr)))):
            new = copy.deepcopy(expr)
            if changed(list(ast.walk(new))[i]):
                place = (expr.lineno, expr.col_offset, expr.end_lineno or 0, expr.end_col_offset or 0)
                yield Mutant(path, place, ast.unparse(expr), ast.unparse(new))


def put(m: Mutant) -> str:
    """The file with the mistake in it."""
    lines = m.path.read_bytes().splitlines(keepends=True)
    first, start, last, end = m.place
    text = b"".join(lines[first - 1:last])
    tail = len(lines[last - 1]) - end
    lines[first - 1:last] = [text[:start] + f"({m.after})".encode() + text[len(text) - tail:]]
    return b"".join(lines).decode()


def survives(m: Mutant, home: Path, tests: list[str]) -> bool:
    there = home / m.path.relative_to(ROOT)
    there.write_text(put(m), encoding="utf-8")
    command = [sys.executable, "-B", "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    of_the_copy = {**os.environ, "PYTHONPATH": str(home / "core")}
    try:
        done = subprocess.run(command, cwd=home, env=of_the_copy, capture_output=True, timeout=300)
        return done.returncode == 0
    except subprocess.TimeoutExpired:
        return False
    finally:
        shutil.copy(m.path, there)


def main() -> int:
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    ask.add_argument("files", nargs="*", help="files under core/curtilage; all of calc without one")
    ask.add_argument("--every", type=int, default=10, help="try every so many-th mistake")
    ask.add_argument("--tests", nargs="+", default=[f"{SECOND}::test_the_yardstick_gives_the_same_design", "tests/calc"])
    args = ask.parse_args()
    core = ROOT / "core" / "curtilage"
    paths = [core / f for f in args.files] or sorted((core / "calc").rglob("*.py"))
    tried = [m for p in paths for m in mutants(p)][::args.every]
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        for name in COPIED:
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, home / name, ignore=shutil.ignore_patterns("__pycache__"))
            elif (ROOT / name).exists():
                shutil.copy(ROOT / name, home / name)
        left = []
        for m in tried:
            if survives(m, home, args.tests):
                left.append(m)
                print(f"survived  {m.path.relative_to(ROOT)}:{m.place[0]}  {m.before}  ->  {m.after}", flush=True)
    print(f"{len(tried)} mistakes put in, {len(tried) - len(left)} noticed")
    return int(bool(left))


if __name__ == "__main__":
    sys.exit(main())
