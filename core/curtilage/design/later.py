"""A load added years later: which element on its way to the transformer limits first, and what is left elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.later import DropWith, Room, drop_with, room
from curtilage.errors import listed, nearest, refuse

if TYPE_CHECKING:
    from curtilage.design.design import Design


NOT_LOOKED_AT = "the utility's transformer, the reserve for growth, free spaces in the panel, fault currents, branch circuits"
"""What a later load touches besides, and the way does not say."""


class Drop(NamedTuple):
    """The voltage drop of the conductors of an element, percent: now, with the load, and what is advised at most."""

    before: float
    after: DropWith
    most: float


class Element(NamedTuple):
    """One device or set of conductors on the way, with the room that is left in it, A, before and after."""

    name: str
    tag: str
    room: Room
    drop: Drop | None = None


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
    out = [Element(e.name, e.tag, room(e.minimum, e.rating, va, d.volts, continuous, d.ed), _drop(d, e.tag, va)) for e in way]
    return tuple(sorted(out, key=lambda e: e.room.after))


def _drop(d: Design, tag: str, va: float) -> Drop | None:
    """The drop of a run with `va` VA more on it; nothing for what is no run."""
    key, _, field = tag.rpartition("/")
    if field != "ampacity":
        return None
    r, ask = d.items[key], d.asks[key]
    x = ask.record
    after = drop_with(r.current, va, x.volts, r.sets, r.size, x.length, x.pf, x.drop_limit, d.ed.view(ask.view))
    return Drop(r.drop, after, x.drop_limit)
