"""How the service and the buildings are arranged: working spaces and disconnects. Other arrangements are worked on demand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.design.works import structures

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Working spaces and buildings."""
    structures.stage(d)
