"""What differs between two designs: inputs that changed, numbers that follow, checks that flipped, and why."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol

from curtilage.editions import changes
from curtilage.values.check import Check
from curtilage.values.told import Told, diff, walk

if TYPE_CHECKING:
    from curtilage.design.design import Design

CAUSED = ("demand/", "feeder/", "service")
"""Numbers of which the causes are looked for."""


class Side(Protocol):
    """What a comparison wants of a design or of a replayed record."""

    def inputs(self) -> Mapping[str, Any]: ...
    def values(self) -> Mapping[str, Any]: ...
    def where(self, path: str) -> str: ...
    def counted_in(self, name: str) -> str: ...
    @property
    def checks(self) -> tuple[Check, ...]: ...


class Moved(NamedTuple):
    """An input or a number that is not the same on both sides; None where one side does not have it."""

    name: str
    before: Any
    after: Any
    where: str = ""
    unit: str = ""


class Cause(NamedTuple):
    """What was changed behind the numbers that moved: an input, a rule, or the row of a table that was read."""

    symbol: str
    before: str
    after: str
    why: str


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
    def unit(name: str) -> str:
        return b.counted_in(name) or a.counted_in(name)

    numbers = _moved(a.values(), b.values(), unit)
    return Comparison(
        _moved(a.inputs(), b.inputs(), unit, b.where),
        numbers,
        _flipped(a.checks, b.checks),
        len(set(a.values()) & set(b.values())) - sum(m.before is not None and m.after is not None for m in numbers),
    )


def _moved(a: Mapping[str, Any], b: Mapping[str, Any], unit: Any, where: Any = lambda path: "") -> tuple[Moved, ...]:
    names = [*b, *(n for n in a if n not in b)]
    return tuple(Moved(n, a.get(n), b.get(n), where(n), unit(n)) for n in names if a.get(n) != b.get(n))


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


def causes(a: Design, b: Design, c: Comparison) -> tuple[tuple[Cause, ...], int]:
    """Why the main numbers moved, each cause once; and how many sources were renumbered with the same value.

    Of tables and tiers, which answer with what they were asked, a change between editions is told by their own rows.
    """
    seen: dict[tuple[str, str, str, str], None] = {}
    read: set[str] = set()
    for m in c.numbers:
        main = m.name.startswith(CAUSED) and m.name.rsplit("/", 1)[-1] in ("total", "device", "size")
        if main and a.has(m.name) and b.has(m.name):
            before, after = a.told(m.name), b.told(m.name)
            seen.update(dict.fromkeys(why(before, after)))
            same = {(n.symbol, str(n)) for n in walk(before)}
            read.update(n.cite.where for n in walk(after) if n.how == "rule" and n.inputs and (n.symbol, str(n)) not in same)
    rows = [Cause(*row) for row in seen if row[3] != "the rule took another branch" and row[1] != row[2]]
    told = {row.symbol for row in rows}
    for moved in changes(a.ed, b.ed) if read else ():
        name = moved.what.split("[")[0]
        if moved.kind == "value" and name not in told and b.ed.rule(name).where in read:
            rows.append(Cause(moved.what, moved.before, moved.after, "source changed"))
    return tuple(rows), sum(row[3] == "source changed" and row[1] == row[2] for row in seen)
