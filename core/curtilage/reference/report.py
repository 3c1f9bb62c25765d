"""What came out: a row for each answer, and what could not be run."""
from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from curtilage.reference.example import Example
from curtilage.reference.problems import Problem
from curtilage.values.told import Told

AGREES, DIFFERS, CONTRADICTS, FAILS = "agrees", "differs", "the source contradicts itself", "not reproduced"


class Row(NamedTuple):
    """One answer: what is printed, what we get, and whether its digits are reproduced."""
    file: str
    id: str
    case: str
    result: str
    status: str                   # printed | recomputed | from memory | constructed
    printed: str
    ours: str                     # in the printed unit
    difference: str               # ours less printed; "" for what is not a number
    tolerance: str                # half a unit of the last printed digit
    outcome: str
    step: str                     # at which step of the source it differs
    why: str                      # the source's own step, in words
    by_their_path: str            # what the source's path gives
    line: int
    told: Told | None             # opens to the working
    duplicates: str

    def __repr__(self) -> str:
        """Without the working, which is a graph and would be written out along every path."""
        return f"Row({self.file}:{self.line} {self.result} {self.printed}: {self.ours}, {self.outcome})"

    @property
    def reproduced(self) -> bool:
        return self.outcome != FAILS

    @property
    def counts(self) -> bool:
        """A published check: read in print, and not the second print of a record that counts already."""
        return self.status == "printed" and not self.duplicates

    @property
    def verdict(self) -> str:
        return f"differs at step {self.step}" if self.outcome == DIFFERS else self.outcome


class Count(NamedTuple):
    """Answers of one kind."""
    answers: int
    agree: int
    differ: int                   # reproduced along the source's own path, with the step that differs named
    contradict: int               # no path leads there; another figure of the source, which is reproduced, speaks against it
    fail: int


def count(rows: Iterable[Row]) -> Count:
    rows = list(rows)
    by = [sum(r.outcome == kind for r in rows) for kind in (AGREES, DIFFERS, CONTRADICTS, FAILS)]
    return Count(len(rows), *by)


class Report(NamedTuple):
    examples: tuple[Example, ...]
    rows: tuple[Row, ...]
    problems: tuple[Problem, ...]

    @property
    def published(self) -> tuple[Row, ...]:
        return tuple(r for r in self.rows if r.counts)

    @property
    def duplicates(self) -> tuple[Row, ...]:
        return tuple(r for r in self.rows if r.status == "printed" and r.duplicates)

    @property
    def unpublished(self) -> tuple[Row, ...]:
        return tuple(r for r in self.rows if r.status != "printed")

    @property
    def failed(self) -> tuple[Row, ...]:
        """Printed answers that are not reproduced, duplicates among them."""
        return tuple(r for r in self.rows if r.status == "printed" and not r.reproduced)

    @property
    def exit_code(self) -> int:
        """0 all printed answers are reproduced, 1 not all, 2 a file could not be read or run."""
        return 2 if self.problems else 1 if self.failed else 0
