"""The house itself: its files, its words, the size of its rooms, and the wheel that leaves it."""
from __future__ import annotations

import ast
import csv
import doctest
import os
from pathlib import Path
import re
import shutil
import subprocess
import sys
import tomllib
from typing import Any

from contract import methods
import curtilage
from curtilage.values.method import lines_of, source_tree
import pytest

ROOT = Path(__file__).resolve().parent.parent
CORE = ROOT / "core" / "curtilage"
LINES, FUNCTION = 400, 40
LONGER: dict[str, str] = {                     # file or "file:function" -> why it is allowed to be longer
    "cli/__init__.py:parser": "the commands and their options, one after another; there is nothing to take apart",
    "design/stages.py:feeder": "one record of twenty fields and the origin of each, side by side",
    "design/stages.py:service": "the same",
    "review/feeders.py:feeder": "one check after another",
    "review/service.py:checks": "one check after another",
}


def kept_files() -> list[Path]:
    """The files under version control; where there is none, what lies in the folders of the project."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True)
    if listed.returncode == 0:
        return [ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()]
    folders = ("core", "tests", "tools", "notebooks", "reference_checks", "demo_estate")
    inside = [p for f in folders for p in (ROOT / f).rglob("*") if p.is_file() and "__pycache__" not in p.parts]
    return [*ROOT.glob("*.*"), *inside]


def text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:                 # a picture, or a file that tests other encodings
        return ""


# ------------------------------------------------------------------------------------------------------------------- files


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "Makefile", "pyproject.toml",
                                  "requirements.lock", ".ci/run"])
def test_the_house_is_complete(name: str) -> None:
    assert (ROOT / name).stat().st_size > 200


def test_the_licence_is_the_one_that_is_named() -> None:
    assert "Apache License" in text_of(ROOT / "LICENSE") and "Version 2.0" in text_of(ROOT / "LICENSE")
    assert project()["license"] == "Apache-2.0"


def project() -> dict[str, Any]:
    return tomllib.loads(text_of(ROOT / "pyproject.toml"))["project"]


def test_the_changelog_speaks_of_this_version_numbers_first() -> None:
    assert project()["version"] == curtilage.__version__
    text = text_of(ROOT / "CHANGELOG.md")
    assert f"## {curtilage.__version__}" in text
    for part in re.split(r"^## ", text, flags=re.M)[1:]:
        sections = re.findall(r"^### (.+)$", part, flags=re.M)
        order = ["Numbers that changed", "Editions and tables", "Added", "Fixed"]
        assert sections == [s for s in order if s in sections], f"{part.splitlines()[0]}: {sections}"
        assert sections and sections[0] == "Numbers that changed"


def test_the_lock_names_packages_and_hashes_only() -> None:
    text = text_of(ROOT / "requirements.lock")
    assert "://" not in text and "--index" not in text
    for block in re.split(r"\n(?=\S)", text.strip()):
        assert re.match(r"[a-z0-9.-]+==\S+", block) and "--hash=sha256:" in block, block.splitlines()[0]


def test_what_readme_shows_in_python_is_so() -> None:
    text = re.sub(r"^```.*$", "", text_of(ROOT / "README.md"), flags=re.M)
    examples = doctest.DocTestParser().get_doctest(text, {}, "README.md", None, 0)
    assert examples.examples
    assert doctest.DocTestRunner(optionflags=doctest.ELLIPSIS).run(examples).failed == 0


def test_ci_runs_what_a_developer_runs() -> None:
    run = ROOT / ".ci" / "run"
    assert os.access(run, os.X_OK) and "\nmake test\n" in text_of(run) and "set -euo pipefail" in text_of(run)


# ------------------------------------------------------------------------------------------------------------------- words

MACHINE = re.compile(r"(?<![\w.:/-])/(?:work|home|root|Users)/[\w.]")
NOT_OURS = re.compile("|".join((
    r"files\.python" "hosted", "py" r"pi\.org", r"registry\.npm" "js", r"deb\.deb" "ian",       # hosts of package indexes
    r"\bsha" r"red/(?:tables|look|sketch|design|job|demo)", "sketch_" r"parts\b",              # folders that are not in here
)))


def test_nothing_speaks_of_one_machine() -> None:
    for path in kept_files():
        for pattern in (MACHINE, NOT_OURS):
            found = pattern.search(text_of(path))
            assert not found, f"{path.relative_to(ROOT)}: {found.group()!r}"


def test_text_files_are_tidy() -> None:
    """No tabs in Python, no blanks at line ends, one newline at the end."""
    for path in kept_files():
        if path.suffix in (".py", ".toml", ".md"):
            text = text_of(path)
            assert text.endswith("\n") or not text, f"{path.relative_to(ROOT)} does not end in a newline"
            assert not text.endswith("\n\n"), f"{path.relative_to(ROOT)} ends in empty lines"
        if path.suffix == ".py":
            assert "\t" not in text_of(path), f"{path.relative_to(ROOT)} has tabs"


# -------------------------------------------------------------------------------------------------------------------- size


@pytest.mark.parametrize("path", sorted(CORE.rglob("*.py")), ids=lambda p: str(p.relative_to(CORE)))
def test_modules_and_functions_stay_short(path: Path) -> None:
    name, text = str(path.relative_to(CORE)), text_of(path)
    lines = text.count("\n")
    assert lines <= LINES or name in LONGER, f"{name} has {lines} lines; {LINES} are enough, or write the reason into LONGER"
    for f in ast.walk(ast.parse(text)):
        if isinstance(f, ast.FunctionDef):
            long = (f.end_lineno or 0) - f.lineno + 1
            assert long <= FUNCTION or f"{name}:{f.name}" in LONGER, (
                f"{name}:{f.lineno} {f.name} has {long} lines; {FUNCTION} are enough, or write the reason into LONGER")


def test_the_exceptions_are_needed() -> None:
    for name, reason in LONGER.items():
        file, _, function = name.partition(":")
        assert reason and (CORE / file).exists(), name
        named = [f for f in ast.walk(ast.parse(text_of(CORE / file))) if isinstance(f, ast.FunctionDef) and f.name == function]
        size = max(((f.end_lineno or 0) - f.lineno + 1 for f in named), default=0)
        long = size > FUNCTION if function else text_of(CORE / file).count("\n") > LINES
        assert long, f"{name} is short again: take it off the list"


# ---------------------------------------------------------------------------------------------------------------- glossary


def glossary() -> dict[tuple[str, str], str]:
    with open(CORE / "data" / "glossary.csv", encoding="utf-8", newline="") as f:
        return {(r["symbol"], r["unit"]): r["meaning"] for r in csv.DictReader(f)}


def spoken(symbol: str, unit: str, known: dict[tuple[str, str], str]) -> tuple[str, str]:
    """The entry a symbol falls under: its own, or that of its letter (S_cooling: S; n_dryers: n)."""
    letter, _, word = symbol.partition("_")
    return (symbol, unit) if (symbol, unit) in known or not word or len(letter) > 1 else (letter, unit)


def used_symbols() -> dict[tuple[str, str], str]:
    """Every symbol of a line or an argument with its unit, and the first method that uses it."""
    found: dict[tuple[str, str], str] = {}
    for name, f in methods().items():
        for line in lines_of(f):
            if line.symbol != "test":
                found.setdefault((line.symbol, line.unit.name), name)
        for a in source_tree(f).args.args:
            if a.annotation is not None:
                found.setdefault((a.arg, eval(ast.unparse(a.annotation), f.__globals__).name), name)
    return found


def test_every_symbol_is_in_the_glossary() -> None:
    """Names drift when nobody writes them down: a new symbol, or an old one in another unit, gets a line there first."""
    known = glossary()
    missing = {f"{symbol} [{unit}] in {where}" for (symbol, unit), where in used_symbols().items()
               if spoken(symbol, unit, known) not in known}
    assert not missing, "\n".join(sorted(missing))


def test_the_glossary_says_nothing_that_is_not_used() -> None:
    known = glossary()
    used = {spoken(symbol, unit, known) for symbol, unit in used_symbols()}
    assert not set(known) - used
    assert all(meaning and not meaning.endswith(".") for meaning in known.values())


# ------------------------------------------------------------------------------------------------------------------- wheel


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("wheel")
    done = subprocess.run([sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(out)], cwd=ROOT,
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return next(out.glob("*.whl"))


@pytest.mark.slow
def test_the_wheel_carries_all_of_the_package(wheel: Path, tmp_path: Path) -> None:
    """Every kept file of the package, and nothing from outside it."""
    shutil.unpack_archive(wheel, tmp_path, "zip")
    there = {str(p.relative_to(tmp_path)) for p in tmp_path.rglob("*") if p.is_file()}
    ours = {str(p.relative_to(ROOT / "core")) for p in kept_files() if CORE in p.parents}
    assert not ours - there, f"not in the wheel: {sorted(ours - there)}"
    assert {name.split("/")[0].split("-")[0] for name in there} == {"curtilage"}
    assert any(name.endswith("licenses/LICENSE") for name in there)


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A fresh environment with the wheel and what it asks for, at the locked versions, and nothing of this folder."""
    home = tmp_path_factory.mktemp("alone")
    subprocess.run([sys.executable, "-m", "venv", home], check=True, capture_output=True)
    bin_ = home / ("Scripts" if os.name == "nt" else "bin")
    versions = home / "versions.txt"
    versions.write_text("\n".join(re.findall(r"^([a-z0-9.-]+==[^\\\n]+)", text_of(ROOT / "requirements.lock"), flags=re.M)))
    command = [bin_ / "python", "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-c", versions, wheel]
    done = subprocess.run(command, capture_output=True, text=True)
    assert done.returncode == 0, f"installing the wheel alone failed:\n{done.stderr}"
    return bin_ / "curtilage"


def alone(command: Path, *words: str, cwd: Path) -> str:
    clean = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "COV", "VIRTUAL"))}
    done = subprocess.run([command, *words], cwd=cwd, env=clean, capture_output=True, text=True, stdin=subprocess.DEVNULL)
    assert done.returncode == 0, f"{' '.join(words)}:\n{done.stdout}{done.stderr}"
    return done.stdout


@pytest.mark.slow
def test_the_wheel_alone_gives_a_working_command(installed: Path, tmp_path: Path) -> None:
    assert alone(installed, "--version", cwd=tmp_path) == f"curtilage {curtilage.__version__}\n"
    alone(installed, "new", "first", cwd=tmp_path)
    assert "first" in os.listdir(tmp_path)
    assert alone(installed, "design", "first", "--report", "report.html", cwd=tmp_path)
    assert "<html" in text_of(tmp_path / "report.html")
