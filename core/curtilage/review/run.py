"""Every check on a design, in the order in which a reviewer reads: loud outcomes first, then by severity."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from curtilage.review import (
    bonds,
    fault,
    feeders,
    frame,
    framing,
    grounding,
    loads,
    motors,
    network,
    raceways,
    service,
    structures,
    switches,
    temporary,
    utility,
)
from curtilage.review.asked import Asker
from curtilage.values.check import Check, order

if TYPE_CHECKING:
    from curtilage.design import Design

ROOMS = (
    frame,
    loads,
    service,
    utility,
    network,
    fault,
    feeders,
    structures,
    grounding,
    bonds,
    switches,
    motors,
    raceways,
    framing,
    temporary,
)


def review(d: Design) -> tuple[Check, ...]:
    """All checks that the inputs of this design can be asked."""
    d.works()
    ask = Asker(d.ed.name)
    found = chain.from_iterable(room.checks(d, ask) for room in ROOMS)
    return tuple(sorted(found, key=order))
