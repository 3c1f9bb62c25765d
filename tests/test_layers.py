"""Who may import whom, and who may touch the world. The tables here are the architecture; this test is its only enforcement."""
from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
import subprocess
import sys

import pytest

CORE = Path(__file__).resolve().parent.parent / "core" / "curtilage"
FILES = sorted(CORE.rglob("*.py"))

EVERYBODY = {"errors", "values", ""}             # "" is the package itself: its version
MAY = {                                          # room -> the rooms it may import, besides those open to everybody
    "errors": set(),
    "values": set(),
    "units": set(),
    "tables": set(),
    "editions": {"tables", "units"},
    "model": {"units", "tables", "editions"},
    "calc": set(),                               # it is handed records and an edition; it looks for nothing
    "design": {"units", "tables", "editions", "model", "calc"},
    "reference": {"units", "tables", "editions", "calc"},
    "review": {"units", "editions", "model", "design"},
    "look": {"units"},
    "draw": {"units", "model", "design", "review", "look"},
    "report": {"units", "editions", "model", "design", "review", "reference", "look", "draw"},
    "store": {"units", "editions", "model", "design", "review", "look", "draw", "report", "reference"},
    "notebook": {"units", "editions", "model", "design", "review", "look", "draw", "report", "store"},
    "cli": None,                                 # all of them
    "__main__": {"cli"},
    "": set(),
}
PACKAGES = {                                     # room -> packages outside the standard library, imported with the room
    "units": {"pydantic", "pydantic_core"},      # the fields of models that read "185 ft"
    "model": {"pydantic", "pydantic_core", "ruamel"},
    "design": {"pydantic"},                      # to walk the models of an estate
    "store": {"pydantic", "ruamel"},
    "cli": {"pydantic"},
}
WHEN_ASKED = {                                   # ... and those imported inside a function, when somebody asks for what they do
    "values": {"numpy"},
    "calc": {"numpy"},
    "units": {"pint"},
    "model": {"openpyxl"},
    "store": {"openpyxl"},
    "look": {"altair", "marimo", "pandas"},
    "report": {"altair", "pandas"},
    "notebook": {"marimo"},
}
WORLD = {                                        # clock, files, machine, network, chance
         "asyncio", "ctypes", "http", "io", "locale", "logging", "multiprocessing", "os", "platform", "random", "secrets",
         "shutil", "socket", "subprocess", "tempfile", "threading", "time", "urllib", "uuid"}
MAY_TOUCH = {
    "store": {"os", "io", "tempfile", "time", "shutil"},
    "cli": {"os", "io", "platform", "time"},
    "model": {"io", "os"},                       # a stream in memory
    "tables": {"io"},
    "notebook": {"os", "urllib"},                # the variable that names the estate of a reader; quoting of links
}
READERS = {                                      # most of them read only the data of the package
    "tables", "editions", "model", "reference", "review", "look", "store", "notebook", "cli"}
UPWARD = {                                       # against the current, inside a function only, and why
    ("design", "review"): "a design answers for its own checks, which are made when somebody asks",
}
READS = {"open", "read_text", "read_bytes"}
WRITES = {"write_text", "write_bytes", "mkdir", "unlink", "touch", "rename", "rmdir", "symlink_to", "hardlink_to", "chmod"}
CLOCK = {"now", "today", "utcnow"}


def room(path: Path) -> str:
    name = path.relative_to(CORE).parts[0].removesuffix(".py")
    return "" if name == "__init__" else name


def name_of(path: Path) -> str:
    return str(path.relative_to(CORE))


def module_names(node: ast.AST) -> list[str]:
    """The modules an import statement, or a call of import_module with a text, brings in."""
    if isinstance(node, ast.Import):
        return [a.name for a in node.names]
    if isinstance(node, ast.ImportFrom):
        assert node.level == 0, f"line {node.lineno}: write the import out from curtilage"
        if node.module == "curtilage":           # from curtilage import values, __version__
            return [f"curtilage.{a.name}" if a.name != "__version__" else "curtilage" for a in node.names]
        return [node.module or ""]
    if isinstance(node, ast.Call) and called(node) in ("import_module", "__import__"):
        first = node.args[0]
        assert isinstance(first, ast.Constant) and isinstance(first.value, str), f"line {node.lineno}: name the module in full"
        return [first.value]
    return []


def called(node: ast.Call) -> str:
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def imports(path: Path) -> Iterator[tuple[int, str, bool]]:
    """(line, module, inside a function or only for the type checker) for every import of a file."""
    def visit(node: ast.AST, asked: bool) -> Iterator[tuple[int, str, bool]]:
        for name in module_names(node):
            yield node.lineno, name, asked
        inside = asked or isinstance(node, ast.FunctionDef) or (
            isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING")
        for child in ast.iter_child_nodes(node):
            yield from visit(child, inside)
    yield from visit(ast.parse(path.read_text(encoding="utf-8")), False)


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_rooms_import_downward_only(path: Path) -> None:
    here = room(path)
    assert here in MAY, f"{here} is a new room: add it to the table here and to DEVELOPERS.md"
    may = MAY[here]
    for line, name, asked in imports(path):
        if name.split(".")[0] == "curtilage":
            there = (name.split(".") + [""])[1]
            excused = asked and (here, there) in UPWARD
            assert may is None or excused or there in may | EVERYBODY | {here}, f"{name_of(path)}:{line} may not import {name}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_packages_from_outside(path: Path) -> None:
    here = room(path)
    for line, name, asked in imports(path):
        top = name.split(".")[0]
        if top == "curtilage" or top in sys.stdlib_module_names:
            continue
        may = PACKAGES.get(here, set()) | (WHEN_ASKED.get(here, set()) if asked else set())
        when = "" if asked else " when it is itself imported"
        assert top in may, f"{name_of(path)}:{line} may not import {top}{when}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_only_the_store_touches_files_and_the_clock(path: Path) -> None:
    here = room(path)
    for line, name, _ in imports(path):
        top = name.split(".")[0]
        assert top not in WORLD or top in MAY_TOUCH.get(here, set()), f"{name_of(path)}:{line} may not import {top}"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        what, where = called(node), f"{name_of(path)}:{node.lineno}"
        if ast.unparse(node.func).startswith("store."):
            continue                             # asking the store to do it is how it is done
        assert what not in READS or here in READERS, f"{where} {what}: only {sorted(READERS)} read files"
        assert what not in WRITES or here == "store", f"{where} {what}: only the store writes files"
        assert what not in CLOCK or here == "store", f"{where} {what}: only the store reads the clock"
        assert what not in {"print", "input"} or here == "cli", f"{where} {what}: only the command line talks to the user"


def test_the_tables_name_rooms_that_exist() -> None:
    """A row left behind by a room that went would hide a mistake in the next one of that name."""
    there = {room(p) for p in FILES}
    later = {"review", "draw"}                   # rooms laid out for work to come
    assert set(MAY) - later <= there, f"no such room: {sorted(set(MAY) - later - there)}"


HEAVY = ("pandas", "altair", "marimo", "pint", "numba", "numpy", "openpyxl")


def test_importing_the_core_brings_in_nothing_heavy() -> None:
    """Every module of the package, imported in one fresh Python: none of the packages that take long to start."""
    modules = [p.relative_to(CORE).with_suffix("").parts for p in FILES if p.stem not in ("__init__", "__main__")]
    names = [".".join(("curtilage", *m)) for m in modules]
    code = (f"import importlib, sys; [importlib.import_module(n) for n in {names!r}]; "
            f"print([h for h in {HEAVY!r} if h in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]", f"imported at the start: {done.stdout}"


def test_the_version_is_answered_before_anything_else_is_imported() -> None:
    code = ("import sys; before = set(sys.modules); sys.argv = ['curtilage', '--version']; from curtilage.__main__ import main; "
            "assert main() == 0; print(sorted(set(sys.modules) - before), file=sys.stderr)")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.stdout.startswith("curtilage ")
    assert done.stderr.strip() == "['curtilage', 'curtilage.__main__']"
