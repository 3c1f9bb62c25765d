"""One reference file, read: who printed what, for which inputs, and the source's own path."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from curtilage.reference.places import Path, line_of
from curtilage.reference.printed import Rounding

VERSION = 1
STATUSES = {"printed": "printed", "recomputed": "recomputed", "from_memory": "from memory", "constructed": "constructed"}


class Answer(NamedTuple):
    """One answer; its status is the name of the table in which it stands."""
    name: str
    text: str
    status: str
    path: Path


class Step(NamedTuple):
    """One step of the source's own path."""
    name: str
    formula: str
    unit: str
    rounding: Rounding | None
    differs: str
    contradicts: str
    method: str
    given: Mapping[str, Any]
    result: str
    path: Path


class Case(NamedTuple):
    """One set of inputs with its answers."""
    name: str
    method: str
    edition: str
    given: Mapping[str, Any]
    given_at: Mapping[str, Path]
    answers: tuple[Answer, ...]
    steps: tuple[Step, ...]
    path: Path


class Example(NamedTuple):
    """A file: its provenance and its cases."""
    file: str
    places: Mapping[Path, int]
    id: str
    family: str
    title: str
    source: str
    source_edition: str
    where: str
    seen_at: str
    duplicates: str
    notes: str
    cases: tuple[Case, ...]

    def line(self, path: Path) -> int:
        return line_of(dict(self.places), path)

    def place(self, path: Path) -> str:
        """'A/AD-D1a.toml:14', for the leaves of a working."""
        return f"{self.file}:{self.line(path)}"
