"""A load added years later: which element on its way to the transformer limits first, and what is left elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.later import Room, room
from curtilage.errors import listed, nearest, refuse

if TYPE_CHECKING:
    from curtilage.design.design import Design


class Element(NamedTuple):
    """One device or set of conductors on the way, with the room that is left in it, A, before and after."""

    name: str
    tag: str
    room: Room


def later(d: Design, panel: str, va: float, continuous: bool) -> tuple[Element, ...]:
    """The way from a panel to the transformer, least room first.

    `va` in VA at the line-to-line voltage. The load is taken in full at each element: no demand factor is given to it.
    """
    way = d.way(panel)
    if not way:
        near = nearest(panel, d.panels)
        refuse(
            "--panel",
            f"there is no panel {panel!r}",
            f"the panels are {listed(d.panels)}",
            f"did you mean {near}?" if near else "",
        )
    out = [Element(e.name, e.tag, room(e.minimum, e.rating, va, d.volts, continuous, d.ed)) for e in way]
    return tuple(sorted(out, key=lambda e: e.room.after))
