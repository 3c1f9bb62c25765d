"""What differs between two designs: inputs that changed, numbers that follow, checks that flipped, and why."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple, Protocol

from curtilage.values.check import Check
from curtilage.values.told import Told, diff


class Side(Protocol):
    """What a comparison wants of a design or of a replayed record."""

    def inputs(self) -> Mapping[str, Any]: ...
    def values(self) -> Mapping[str, Any]: ...
    def where(self, path: str) -> str: ...
    @property
    def checks(self) -> tuple[Check, ...]: ...


class Moved(NamedTuple):
    """An input or a number that is not the same on both sides; None where one side does not have it."""

    name: str
    before: Any
    after: Any
    where: str = ""


class Flipped(NamedTuple):
    """A check whose outcome is not the same on both sides."""

    number: str
    subject: str
    question: str
    before: str
    after: str


class Comparison(NamedTuple):
    """Two designs side by side. `numbers` are tags in the order of the second design; `stale` the items that moved."""

    inputs: tuple[Moved, ...]
    numbers: tuple[Moved, ...]
    checks: tuple[Flipped, ...]
    same: int

    @property
    def stale(self) -> tuple[str, ...]:
        """Items (circuits, demands, feeders, mains, paths) of which at least one number moved."""
        return tuple(dict.fromkeys(m.name.rsplit("/", 1)[0] for m in self.numbers))


def compare(a: Side, b: Side) -> Comparison:
    """Inputs, numbers and checks that differ from `a` to `b`."""
    numbers = _moved(a.values(), b.values())
    return Comparison(
        _moved(a.inputs(), b.inputs(), b.where),
        numbers,
        _flipped(a.checks, b.checks),
        len(set(a.values()) & set(b.values())) - sum(m.before is not None and m.after is not None for m in numbers),
    )


def _moved(a: Mapping[str, Any], b: Mapping[str, Any], where: Any = lambda path: "") -> tuple[Moved, ...]:
    names = [*b, *(n for n in a if n not in b)]
    return tuple(Moved(n, a.get(n), b.get(n), where(n)) for n in names if a.get(n) != b.get(n))


def _flipped(a: Iterable[Check], b: Iterable[Check]) -> tuple[Flipped, ...]:
    before = {(c.number, c.subject): c for c in a}
    after = {(c.number, c.subject): c for c in b}
    out = []
    for key in [*after, *(k for k in before if k not in after)]:
        x, y = before.get(key), after.get(key)
        c = y or x
        if c is not None and (x is None or y is None or x.outcome != y.outcome):
            out.append(Flipped(*key, c.question, x.outcome if x else "not asked", y.outcome if y else "not asked"))
    return tuple(out)


def why(before: Told, after: Told) -> list[tuple[str, str, str, str]]:
    """The causes of one number that moved: what was changed, not what merely follows."""
    return [row for row in diff(before, after) if row[3] != "follows"]
