"""Checks that stand here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """None yet."""
    yield from ()
