"""A notebook asks, calls and shows. Arithmetic, loops over physics and rules belong in the core, where they are tested."""
from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
import re

import pytest

FOLDER = Path(__file__).resolve().parent.parent / "notebooks"
BOOKS = sorted(FOLDER.glob("*.py"))
MOST_LINES = 14
MAY_IMPORT = {"curtilage", "marimo", "altair"}
ARITHMETIC = (ast.Mult, ast.Div, ast.Pow, ast.Mod, ast.FloorDiv, ast.Sub)


def cells(path: Path) -> Iterator[ast.FunctionDef]:
    for n in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(n, ast.FunctionDef) and any("app.cell" in ast.unparse(d) for d in n.decorator_list):
            yield n


def only_prose(cell: ast.FunctionDef) -> bool:
    return all(isinstance(s, ast.Return) or (isinstance(s, ast.Expr) and ast.unparse(s).startswith("mo.md(")) for s in cell.body)


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_names_say_their_order_and_titles_are_there(path: Path) -> None:
    assert re.fullmatch(r"[0-9]{2}_[a-z_]+", path.stem)
    assert "app_title=" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_cells_are_short_and_define_no_functions(path: Path) -> None:
    for c in cells(path):
        lines = (c.end_lineno or 0) - c.lineno + 1
        assert only_prose(c) or lines <= MOST_LINES, f"{path.name}:{c.lineno} cell {c.name} has {lines} lines"
        made = [d.name for d in ast.walk(c) if isinstance(d, ast.FunctionDef | ast.ClassDef) and d is not c]
        assert all(d.startswith("test_") for d in made), f"{path.name}:{c.lineno} defines {made}; it belongs in the core"


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_imports(path: Path) -> None:
    for n in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [n.module or ""] if isinstance(n, ast.ImportFrom) else []
        for name in [a.name for a in n.names] if isinstance(n, ast.Import) else names:
            assert name.split(".")[0] in MAY_IMPORT, f"{path.name}:{n.lineno} imports {name}"
            assert not name.startswith("curtilage.calc"), f"{path.name}:{n.lineno} calls the engineering past the design"


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_no_arithmetic(path: Path) -> None:
    """Joining texts and lists with + is all right; everything else that computes is engineering."""
    for c in cells(path):
        for n in ast.walk(c):
            assert not (isinstance(n, ast.BinOp) and isinstance(n.op, ARITHMETIC)), f"{path.name}:{n.lineno} {ast.unparse(n)}"
