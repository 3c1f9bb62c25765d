"""Runs files: printed, ours, difference, and the source's own path where it differs."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from curtilage.reference import given
from curtilage.reference.compare import against_itself, answer_name, case_rows
from curtilage.reference.engine import calculate
from curtilage.reference.example import Example
from curtilage.reference.kinds import Method
from curtilage.reference.loader import load
from curtilage.reference.methods import METHODS
from curtilage.reference.path import Steps, walk
from curtilage.reference.problems import Problem, Problems
from curtilage.reference.report import Report, Row


def files(paths: Iterable[str | Path]) -> tuple[list[Path], list[Problem]]:
    """Every TOML file of the paths; a folder stands for all below it."""
    found: list[Path] = []
    problems: list[Problem] = []
    for path in map(Path, paths):
        inside = sorted(p for p in path.rglob("*.toml") if p.is_file()) if path.is_dir() else [path]
        if not inside:
            problems.append(Problem(path.as_posix(), 0, "", "no .toml file in this folder"))
        found += [p for p in inside if p not in found]
    return found, problems


def run(paths: Iterable[str | Path], methods: Mapping[str, Method] | None = None) -> Report:
    """Run reference files and folders of them.

    A file that cannot be read or run stands in `report.problems`; the others run all the same.
    """
    known = METHODS if methods is None else methods
    found, problems = files(paths)
    rows: list[Row] = []
    examples: list[Example] = []
    for path in found:
        note = Problems(path.as_posix())
        example = load(path, note, known)
        if example is not None and note.found:
            _read_on(example, known, note)
        elif example is not None:
            rows += _rows(example, known, note)
            examples.append(example)
        problems += note.found
    problems += _same_ids(examples)
    return Report(tuple(examples), tuple(rows), tuple(problems))


def _rows(example: Example, methods: Mapping[str, Method], note: Problems) -> list[Row]:
    found: list[tuple[Row, Steps]] = []
    for case in example.cases:
        ours = calculate(methods[case.method], case.given, case.given_at, case.edition, example, note, case.path)
        if ours is not None:
            steps = walk(case, ours, example, methods, note)
            found += [(row, steps) for row in case_rows(example, case, ours, steps, note)]
    agreed = {answer_name(row.case, row.result) for row, _ in found if row.reproduced}
    return [against_itself(row, steps, agreed) for row, steps in found]


def _read_on(example: Example, methods: Mapping[str, Method], note: Problems) -> None:
    """A file with a bad head is not run, but its inputs are read, so that everything wrong is said at once."""
    for case in example.cases:
        if case.method in methods:
            given.read(methods[case.method], case.given, case.given_at, example, note)


def _same_ids(examples: list[Example]) -> list[Problem]:
    """An id names one file; two files with one id would be counted twice."""
    first: dict[str, str] = {}
    out = []
    for e in examples:
        if e.id in first:
            out.append(Problem(e.file, e.line(("id",)), "id", f"'{e.id}' is already the id of {first[e.id]}"))
        first.setdefault(e.id, e.file)
    return out
