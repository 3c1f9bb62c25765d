"""Power during construction: tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import Table

if TYPE_CHECKING:
    from curtilage.design import Design


def tables(d: Design) -> list[Table]:
    """Nothing yet."""
    return []
