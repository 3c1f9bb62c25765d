"""One outcome of one check on one subject."""
from __future__ import annotations

from typing import NamedTuple

OUTCOMES = ("fails", "not evaluated", "needs judgement", "attested", "passes", "does not apply")     # loudest first
STANDINGS = ("code", "practice", "utility or local", "interpretation")


class Check(NamedTuple):
    """What was asked of what, what was found, and what would mend it.

    `severity`: 1 life safety, 2 capacity, fault and grounding, 3 method and coordination, 4 paperwork and provision.
    `tags` name the numbers it used. A practice is never a code violation: `standing` says which it is.
    """

    number: str
    subject: str
    question: str
    outcome: str
    severity: int
    standing: str
    clause: str
    found: str
    missing: str = ""
    remedy: str = ""
    tags: tuple[str, ...] = ()


def order(c: Check) -> tuple[int, int, str, str]:
    """Loud outcomes first, then by severity, clause and subject."""
    return OUTCOMES.index(c.outcome), c.severity, c.number, c.subject
