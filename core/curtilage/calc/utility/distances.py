"""Distances between things on the site, and the days that a late utility costs."""
from typing import NamedTuple

from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

TOUCHING: u.ft = 0.0
START: u.ratio = 0.0
END: u.ratio = 1.0
NO_DAYS: u.day = 0.0


class Gap(NamedTuple):
    """A corner of one outline and an edge of the other, from a to b; east and north."""

    id: str
    p_x: u.ft
    p_y: u.ft
    a_x: u.ft
    a_y: u.ft
    b_x: u.ft
    b_y: u.ft


class Apart(NamedTuple):
    """Two things, by every corner of the one against every edge of the other."""

    id: str
    wanted: u.ft                 # by the rule between their kinds
    at_most: u.flag              # the rule wants them near, not apart
    overlap: u.flag              # their outlines cross, or one lies in the other
    gaps: tuple[Gap, ...]


class Distance(NamedTuple):
    """How far apart they are, and what is left over or missing."""

    distance: u.ft
    wanted: u.ft
    ok: u.flag
    spare: u.ft                  # negative: so much is missing


class Wait(NamedTuple):
    """A step of construction that waits for the utility."""

    id: str
    day: u.day                   # from the day of the design


class Owed(NamedTuple):
    """What is to happen by a day, counted from the day of the design; negative: before it."""

    id: str
    due: u.day
    lead: u.day                  # needed between it and the steps that wait for it
    waits: tuple[Wait, ...]


class Slip(NamedTuple):
    """What an open date costs."""

    late: u.day                  # since it was due
    earliest: u.day              # from the day of the design to the first day on which the steps can begin
    slip: u.day                  # by which the first of them moves


@method
def gap(g):
    """Distance of a point from the nearest point of an edge. ft. Source: plane geometry."""
    D_x: u.ft = g.b_x - g.a_x
    D_y: u.ft = g.b_y - g.a_y
    L2: u.ft2 = D_x * D_x + D_y * D_y
    if L2 > 0:
        along: u.ratio("foot of the perpendicular") = ((g.p_x - g.a_x) * D_x + (g.p_y - g.a_y) * D_y) / L2
        t: u.ratio = max(START, min(END, along))
    else:
        t: u.ratio = START
    off_x: u.ft = g.p_x - g.a_x - t * D_x
    off_y: u.ft = g.p_y - g.a_y - t * D_y
    d: u.ft = (off_x * off_x + off_y * off_y) ** 0.5
    return d


@method
def separation(x):
    """Shortest distance of two outlines, against what is wanted between them; `x` is an `Apart`.

    Where neither crosses the other the shortest distance begins at a corner of one of them. In plan: heights are not looked at.
    Errors: nothing to measure between. Source: plane geometry; the wanted distance by its rule.
    """
    if not x.gaps:
        raise CurtilageError(f"{x.id}: a thing without a place has no distance; state its coordinates under site.places")
    gaps = tuple(gap(g) for g in x.gaps)
    nearest: u.ft = min(gaps)
    distance: u.ft = TOUCHING if x.overlap else nearest
    spare: u.ft = x.wanted - distance if x.at_most else distance - x.wanted
    ok: u.flag = spare >= 0
    return Distance(distance, x.wanted, ok, spare)


@method
def moved(w, earliest: u.day):
    """Days by which a step moves that cannot begin before `earliest`."""
    D_moved: u.day = max(NO_DAYS, earliest - w.day)
    return D_moved


@method
def slip(x):
    """Days by which the steps move that wait for something not yet done; `x` is an `Owed`.

    What is past due is taken to happen on the day of the design at the earliest. Steps that wait for these steps are taken to
    move with them. Not for: what has happened. Source: forward pass of the critical path method.
    """
    late: u.day = max(NO_DAYS, -x.due)
    earliest: u.day = max(NO_DAYS, x.due) + x.lead
    moves = tuple(moved(w, earliest) for w in x.waits)
    most: u.day = max(moves) if x.waits else NO_DAYS
    return Slip(late, earliest, most)
