"""Decisions that stay tied to live numbers: a record with criteria that hold or are broken after each change."""

from __future__ import annotations

import math
import operator
from pathlib import Path
import re
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from pydantic import BeforeValidator, Field

from curtilage import units
from curtilage.errors import CurtilageError, Problems, listed
from curtilage.model import text as texts
from curtilage.model.base import Day, Strict, Text, Words
from curtilage.model.places import Place
from curtilage.model.shape import shaped

if TYPE_CHECKING:
    from curtilage.design.design import Design

LIMITS = {"<=": operator.le, ">=": operator.ge, "<": operator.lt, ">": operator.gt, "=": operator.eq}
CRITERION = re.compile(r"\s*(?P<tag>[^\s<>=]+)\s*(?P<sign><=|>=|<|>|=)\s*(?P<limit>.+?)\s*")


def _rows(given: object) -> object:
    return () if given is None else given


class Decision(Strict):
    """A question, the options that were weighed, what was chosen and why, and what must stay true of the numbers."""

    question: Words = Field(description="what had to be decided")
    options: tuple[Words, ...] = Field((), description="variants that were compared; base is the estate as it stands")
    criteria: Annotated[tuple[Words, ...], BeforeValidator(_rows)] = Field((), description="such as 'feeder/GH/drop <= 3 %'")
    chosen: Words = Field(description="the option that was taken")
    reason: Words = Field(description="why")
    by: Text = Field("", description="who decided")
    date: Day | None = Field(None, description="when")


class Criterion(NamedTuple):
    """One criterion on the numbers of now."""

    text: str
    tag: str
    value: Any
    outcome: str  # holds, broken, or not evaluated (no such number in this design, or it is withheld)


class Standing(NamedTuple):
    """A decision and how its criteria stand: "holds", "broken", or "not evaluated" where it has none or one cannot be read."""

    name: str
    decision: Decision
    criteria: tuple[Criterion, ...]
    outcome: str


def decisions(d: Design) -> tuple[Standing, ...]:
    """The decisions in the folder of an estate, each held against this design."""
    folder = (d.estate.folder or Path()) / "decisions"
    if d.estate.folder is None or not folder.is_dir():
        return ()
    return tuple(standing(d, p.stem, read(p)) for p in sorted(folder.glob("*.yaml")))


def read(path: Path) -> Decision:
    """One decision from its file. Raises `Problems` with everything that is wrong."""
    name = f"decisions/{path.name}"
    tree = texts.yaml_of(path, name)
    problems = Problems()
    decision = shaped(Decision, tree, Place(name, 1), problems)
    problems.stop()
    assert decision is not None
    return decision


def standing(d: Design, name: str, decision: Decision) -> Standing:
    """How the criteria of a decision stand."""
    found = tuple(criterion(d, f"decisions/{name}.yaml", text) for text in decision.criteria)
    words = [c.outcome for c in found]
    worst = next((w for w in ("broken", "not evaluated") if w in words), "holds" if words else "not evaluated")
    return Standing(name, decision, found, worst)


def bare(limit: str, where: str, text: str) -> float:
    """The limit of a count or a ratio, which has no unit."""
    try:
        return float(limit)
    except ValueError:
        raise CurtilageError(f"{where}: criterion {text!r}: {limit!r} is no bare number; counts have no unit") from None


def criterion(d: Design, where: str, text: str) -> Criterion:
    """One criterion: a tag, a sign, and a quantity in the unit of the number (or another that converts to it)."""
    m = CRITERION.fullmatch(text)
    if m is None:
        raise CurtilageError(
            f"{where}: criterion {text!r} cannot be read; write for example 'feeder/GH/drop <= 3 %' ({listed(LIMITS)})"
        )
    if not d.has(m["tag"]):
        return Criterion(text, m["tag"], None, "not evaluated")
    number = d.number(m["tag"])
    limit: Any = m["limit"]
    if number.unit in units.FACTORS:
        limit = units.Unit(number.unit, "a limit", -math.inf, math.inf).parse(m["limit"])
    elif isinstance(number.value, int | float) and not isinstance(number.value, bool):
        limit = bare(m["limit"], where, text)
    if m["tag"].rpartition("/")[0] in d.withheld:
        return Criterion(text, m["tag"], None, "not evaluated")
    return Criterion(text, m["tag"], number.value, "holds" if LIMITS[m["sign"]](number.value, limit) else "broken")
