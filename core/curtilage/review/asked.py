"""What the review asks, read from data: question, clause by edition, severity, standing, remedy."""

from __future__ import annotations

from functools import cache
from pathlib import Path
import tomllib
from typing import Any

from curtilage.values.check import Check

FILE = Path(__file__).parent.parent / "data" / "checks.toml"
FURTHER = FILE.with_name("checks")
"""A folder with a file for each further subject."""


@cache
def asked() -> dict[str, dict[str, Any]]:
    """Number of a check -> what it asks."""
    files = (FILE, *sorted(FURTHER.glob("*.toml")))
    return {number: what for f in files for number, what in tomllib.loads(f.read_text(encoding="utf-8")).items()}


@cache
def not_looked_at() -> tuple[str, ...]:
    """Subjects that an estate can state and no check asks about yet."""
    found = tomllib.loads(FILE.with_name("not_looked_at.toml").read_text(encoding="utf-8"))["subject"]
    return tuple(s["words"] for s in found if not set(s["checks"]) <= set(asked()))


class Asker:
    """Makes checks of one edition: the question and its clause come from data, the finding from the caller."""

    def __init__(self, edition: str) -> None:
        self.edition = edition

    def clause(self, number: str) -> str:
        said = asked()[number]["clause"]
        return str(said if isinstance(said, str) else said.get(self.edition, next(iter(said.values()))))

    def __call__(
        self, number: str, subject: str, outcome: str | bool, found: str, missing: str = "", tags: tuple[str, ...] = ()
    ) -> Check:
        """One outcome; True and False stand for "passes" and "fails"."""
        a = asked()[number]
        word = outcome if isinstance(outcome, str) else "passes" if outcome else "fails"
        remedy = "" if word in ("passes", "does not apply", "attested") else a["remedy"]
        return Check(
            number, subject, a["question"], word, a["severity"], a["standing"], self.clause(number), found, missing, remedy, tags
        )
