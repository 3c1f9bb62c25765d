"""Pull boxes, device boxes, terminals and bending space."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Nothing yet."""
