"""What goes into the methods of framing, and what comes out."""
from typing import NamedTuple

from curtilage.values import lines as u


class Hole(NamedTuple):
    """A hole or notch in a sawn member; 0 for what there is not."""

    id: str
    member: u.text               # stud, bearing stud, bearing stud doubled, joist, rafter
    depth: u.inch                # of the member, of a stud its width
    hole: u.inch
    notch: u.inch
    edge: u.inch                 # from the edge of the hole to the nearest edge of the member
    at_end: u.flag               # a notch at the end of the member
    middle: u.flag               # a notch in the middle third of the span
    guarded: u.flag              # a plate, a sleeve, or a raceway that needs neither


class HoleRun(NamedTuple):
    """What the wood allows, and what the wiring asks."""

    hole_most: u.inch
    notch_most: u.inch
    edge_least: u.inch           # for the wood
    hole_ok: u.flag
    notch_ok: u.flag
    edge_ok: u.flag
    wood_ok: u.flag
    nail_least: u.inch           # for the wiring, where nothing guards it
    nail_ok: u.flag
    ok: u.flag


class Leg(NamedTuple):
    """One passage on a way through framing."""

    id: str
    length: u.ft
    rise: u.ft                   # vertical part, added


class Passage(NamedTuple):
    """A way through open framing, and the shortest one there would be if every member could be bored."""

    id: str
    legs: tuple[Leg, ...]
    shortest: tuple[Leg, ...]


class PassageRun(NamedTuple):
    """How long the allowed way is."""

    length: u.ft
    shortest: u.ft
    more: u.ft                   # what it costs not to bore
