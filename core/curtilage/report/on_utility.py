"""What the utility asks for and answers, and other arrangements of the service: tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import Table

if TYPE_CHECKING:
    from curtilage.design import Design


def tables(d: Design) -> list[Table]:
    """Nothing yet."""
    return []
