"""What is built from the sizes: worked when somebody looks, so that a changed load does not pay for it.

Each module has `stage(d)`, which sorts inputs into records and asks for late items (`d.attempt`); it computes nothing itself.
The order is that of the list: a stage may read what stands before it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.design.works import (
    alternatives,
    arrangement,
    bonds,
    boxes,
    clearing,
    faults,
    framing,
    grounding,
    letter,
    motors,
    network,
    pulls,
    raceways,
    temporary,
    transformer,
    trenches,
)

if TYPE_CHECKING:
    from curtilage.design.design import Design

STAGES = (
    transformer,
    faults,
    clearing,
    network,
    motors,
    letter,
    grounding,
    bonds,
    raceways,
    pulls,
    boxes,
    trenches,
    framing,
    alternatives,
    arrangement,
    temporary,
)


def run(d: Design) -> None:
    """Every stage, in order."""
    for work in STAGES:
        work.stage(d)
