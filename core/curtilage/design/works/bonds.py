"""Neutral-to-ground bonds, for every source and every mode of operation."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Nothing yet."""
