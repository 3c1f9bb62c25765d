"""What moved between two editions."""
from __future__ import annotations

from typing import NamedTuple

from curtilage.editions.edition import Edition


class Change(NamedTuple):
    """One row: a number, a clause or a shape that differs."""
    what: str
    before: str
    after: str
    clause_before: str
    clause_after: str
    status: str
    kind: str


def changes(a: Edition, b: Edition) -> list[Change]:
    raise NotImplementedError
