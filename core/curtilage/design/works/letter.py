"""What the utility asks for: load, motors, metering, flicker, the fault-current letter."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Nothing yet."""
