"""What is wrong with a file, all at once: where, what was given, what is allowed."""
from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from curtilage.errors import listed, nearest


class Problem(NamedTuple):
    file: str
    line: int
    field: str
    message: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return f"{place}: {self.field}: {self.message}" if self.field else f"{place}: {self.message}"


class Problems:
    """Collects the problems of one file."""

    def __init__(self, file: str):
        self.file = file
        self.found: list[Problem] = []

    def add(self, line: int, field: str, message: str) -> None:
        problem = Problem(self.file, line, field, message)
        if problem not in self.found:
            self.found.append(problem)


def misspelt(name: str, given: Iterable[str], allowed: Iterable[str]) -> bool:
    """Whether a name that is missing stands there misspelt, which is said already."""
    known = list(allowed)
    return any(g not in known and nearest(g, known) == name for g in given)


def unknown(what: str, name: str, allowed: Iterable[str]) -> str:
    """One sentence for a name that is not known here."""
    names = list(allowed)
    near = nearest(name, names)
    return f"no {what} '{name}'; " + (f"did you mean '{near}'? " if near else "") + f"allowed: {listed(names, 40)}"
