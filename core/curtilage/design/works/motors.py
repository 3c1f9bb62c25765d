"""Motors: their circuits, and the dip of the voltage when they start."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Nothing yet."""
