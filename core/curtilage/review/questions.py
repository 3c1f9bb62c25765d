"""Questions for the authority: every reading that is not the kit's to decide, both results beside it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.model import Estate
    from curtilage.model.policy import Answer


class Question(NamedTuple):
    """One question in words, what hangs on it, and what the authority has said so far."""

    number: str
    subjects: tuple[str, ...]
    text: str
    readings: str
    clause: str
    tags: tuple[str, ...]
    answer: str = ""


def questions(estate: Estate, checks: Iterable[Check]) -> tuple[Question, ...]:
    """One question for each check that needs the judgement of another, and those that the estate itself puts to the authority."""
    asked: dict[str, list[Check]] = {}
    for c in checks:
        if c.outcome == "needs judgement" and c.standing != "practice":  # a habit is nobody's to decide
            asked.setdefault(c.number, []).append(c)
    said = {a.check: a for a in estate.authority.answers if a.check}
    out = []
    for number, found in sorted(asked.items()):
        readings = "; ".join(f"{c.subject}: {c.found}" for c in found)
        tags = tuple(t for c in found for t in c.tags)
        answer = words(said[number]) if number in said else "not asked yet"
        out.append(Question(number, tuple(c.subject for c in found), found[0].question, readings, found[0].clause, tags, answer))
    for a in estate.authority.answers:
        if a.check not in asked:
            out.append(Question(a.check, (a.id,), a.question or a.id, "", "", (), words(a)))
    return tuple(out)


def words(a: Answer) -> str:
    """What the authority has said so far."""
    if a.answer != "pending":
        return f"{a.answer}{f', {a.date}' if a.date else ''}{f', {a.reference}' if a.reference else ''}"
    return f"asked {a.asked}, no answer yet" if a.asked else "not asked yet"
