"""Available fault currents at every bus and device, the largest and the least."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Nothing yet."""
