"""Length of a run along its route."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method


class Stretch(NamedTuple):
    """One trench, riser or run on the way."""

    id: str
    length: u.ft
    rise: u.ft                   # vertical part, added


class Way(NamedTuple):
    """A route through the site graph, and what is added at its ends."""

    id: str
    stretches: tuple[Stretch, ...]
    slack: u.ft


class Route(NamedTuple):
    """What a route comes to."""

    length: u.ft


@method
def route(w):
    """Length along the trenches, not as the crow flies; rises and slack at the ends are added."""
    L: u.ft("sum along the route") = sum(s.length + s.rise for s in w.stretches) + w.slack
    return Route(L)
