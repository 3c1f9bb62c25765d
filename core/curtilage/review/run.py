"""Every check on a design, in the order in which a reviewer reads: loud outcomes first, then by severity."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from curtilage.review import feeders, frame, loads, service
from curtilage.review.asked import Asker
from curtilage.values.check import Check, order

if TYPE_CHECKING:
    from curtilage.design import Design


def review(d: Design) -> tuple[Check, ...]:
    """All checks that the inputs of this design can be asked."""
    ask = Asker(d.ed.name)
    found = chain.from_iterable(room.checks(d, ask) for room in (frame, loads, service, feeders))
    return tuple(sorted(found, key=order))
