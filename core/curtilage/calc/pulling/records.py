"""What goes into the methods of pulling, and what comes out."""
from typing import NamedTuple

from curtilage.calc.raceways.records import Wire
from curtilage.values import lines as u


class PulledCable(NamedTuple):
    """Cables alike, by what their maker says of one."""

    id: str
    count: u.count
    diameter: u.inch
    weight: u.lb_per_ft
    tension: u.lb                # allowed on one


class PullStep(NamedTuple):
    """One step of the way: a straight length or a bend."""

    id: str
    bend: u.flag
    length: u.ft                 # of a straight step
    rise: u.ft                   # of a straight step, from its beginning to its end
    back: u.flag                 # the step was described from its other end
    angle: u.deg                 # of a bend
    radius: u.inch               # of a bend, to the middle of the raceway; 0: the least the code allows


class PullStretch(NamedTuple):
    """From one pull point to the next."""

    id: str
    steps: tuple[PullStep, ...]
    reverse: tuple[PullStep, ...]    # the same steps, last one first


class Pull(NamedTuple):
    """Everything that is pulled together through one raceway. `lines` carry the tension, `grounds` come along."""

    id: str
    size: u.size                 # trade size of the raceway
    lines: tuple[Wire, ...]
    grounds: tuple[Wire, ...]
    cables: tuple[PulledCable, ...]
    stretches: tuple[PullStretch, ...]
    friction: u.ratio
    feed: u.lb                   # tension at the feeding end
    grip: u.flag                 # pulled by a basket grip, not by an eye on the metal


class EmptyWay(NamedTuple):
    """A raceway in which nothing is pulled now: only its bends are looked at."""

    id: str
    size: u.size                 # trade size of the raceway
    stretches: tuple[PullStretch, ...]


class Load(NamedTuple):
    """What hangs on the rope."""

    weight: u.lb_per_ft
    count: u.count               # single conductors and cables together
    diameter: u.inch             # of the thickest
    allowed: u.lb                # tension by the strict reading
    usual: u.lb                  # tension by the usual reading


class Lie(NamedTuple):
    """How what is pulled lies in the raceway."""

    name: u.text                 # single, triangular, cradled, complex
    factor: u.ratio              # weight correction factor
    pressing: u.ratio            # part of the tension over the radius that presses the conductor that bears most


class Trail(NamedTuple):
    """The end of one stretch, pulled one way."""

    tension: u.lb
    pressure: u.lb_per_ft        # the most in any of its bends


class StretchRun(NamedTuple):
    """One stretch, pulled both ways."""

    id: str
    length: u.ft
    bends: u.deg
    there: u.lb                  # pulled from where the raceway starts to where it ends
    back: u.lb                   # pulled the other way
    tension: u.lb                # the better of the two
    pressure: u.lb_per_ft        # with the better of the two


class PullRun(NamedTuple):
    """What a pull comes to: of its worst stretch."""

    weight: u.lb_per_ft
    diameter: u.inch
    inside: u.inch
    lie: u.text
    factor: u.ratio
    stretches: u.count
    length: u.ft                 # of all stretches
    bends: u.deg                 # the most between two pull points
    bends_ok: u.flag
    radius_least: u.inch         # the least that the code allows
    radius_ok: u.flag            # of every bend whose radius is stated
    there: u.lb                  # the most of any stretch, pulled from start to end
    back: u.lb                   # the most of any stretch, pulled the other way
    tension: u.lb                # the most of any stretch, each pulled the better way
    allowed: u.lb                # strict reading
    usual: u.lb                  # usual reading
    tension_ok: u.flag           # by the strict reading
    usual_ok: u.flag             # tension and pressure by the usual reading
    pressure: u.lb_per_ft
    pressure_allowed: u.lb_per_ft
    pressure_ok: u.flag
    parts: tuple[StretchRun, ...]


class EmptyWayRun(NamedTuple):
    """The bends of an empty raceway."""

    stretches: u.count
    length: u.ft
    bends: u.deg
    bends_ok: u.flag
    radius_least: u.inch
    radius_ok: u.flag
