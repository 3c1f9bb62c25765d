"""Questions for the authority: every reading that is not the kit's to decide, both results beside it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.model import Estate


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
    """One question for each check that needs judgement, and those that the estate itself puts to the authority."""
    asked: dict[str, list[Check]] = {}
    for c in checks:
        if c.outcome == "needs judgement":
            asked.setdefault(c.number, []).append(c)
    out = [
        Question(
            n,
            tuple(c.subject for c in cs),
            cs[0].question,
            "; ".join(f"{c.subject}: {c.found}" for c in cs),
            cs[0].clause,
            tuple(t for c in cs for t in c.tags),
        )
        for n, cs in sorted(asked.items())
    ]
    for a in estate.authority.answers:
        said = a.answer if a.answer != "pending" else f"asked {a.asked}, no answer yet" if a.asked else "not asked yet"
        out.append(Question("", (a.id,), a.question or a.id, "", "", (), said))
    return tuple(out)
