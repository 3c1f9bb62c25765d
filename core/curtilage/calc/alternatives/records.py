"""What goes into the comparison of ways to feed a long run, and what comes out."""
from typing import NamedTuple

from curtilage.values import lines as u


class Run(NamedTuple):
    """A feeder, asked whether other ways of feeding its load are worth a look."""

    id: str
    length: u.ft
    current: u.A
    ampacity: u.A


class LongRun(NamedTuple):
    """Whether it is long and lightly loaded."""

    product: u.A_ft
    share: u.ratio               # current over ampacity
    offered: u.flag


class Option(NamedTuple):
    """One way of feeding a run, with the numbers by which it is weighed; they come from the items that stand behind it."""

    id: str
    va: u.VA                     # calculated load
    minimum: u.A                 # minimum ampacity, at the voltage of the run
    volts: u.V                   # of the run
    device: u.A                  # ahead of the run
    drop: u.percent              # on the run
    drop_limit: u.percent
    r_line: u.ohm                # one line conductor, one way, all sets
    no_load: u.W                 # losses that stand whether anything runs or not
    winding: u.W                 # losses in windings at the calculated load
    regulation: u.percent        # drop in the windings at the calculated load
    fault: u.A                   # least fault to ground at the far end
    time: u.second               # longest time in which it is cleared; 0: no trip is promised
    time_limit: u.second
    growth: u.percent            # margin that the policy asks for
    kilograms: u.kg


class Weighed(NamedTuple):
    """One way of feeding a run, weighed."""

    drop: u.percent              # run and windings
    losses: u.kWh                # in a year
    spare: u.percent             # of the device, over the minimum
    fault: u.A
    multiple: u.ratio            # fault over device
    time: u.second
    kilograms: u.kg              # metal of the conductors
    drop_ok: u.flag
    clears: u.flag
    grows: u.flag
    ok: u.flag


class Pair(NamedTuple):
    """Two alike single-phase transformers, one that steps up at the start of a run and one that steps down at its end."""

    id: str
    va: u.VA
    pf: u.ratio
    rating: u.kVA                # of each
    volts: u.V                   # of the estate, line to line
    high: u.V                    # of the run, line to line, its midpoint grounded
    drop_limit: u.percent        # for run and windings together
    r_ll: u.ohm                  # what the start of the run sees of the supply, line to line, weakest source
    x_ll: u.ohm


class PairRun(NamedTuple):
    """What the pair asks for and costs."""

    loading: u.percent           # of the rating, at the calculated load
    fits: u.flag
    primary: u.A                 # device ahead of the first transformer, and behind the second
    device: u.A                  # ahead of the run
    no_load: u.W                 # of both
    winding: u.W                 # of both, at the calculated load
    regulation: u.percent        # of both
    drop_left: u.percent         # for the run
    r_ln: u.ohm                  # what a fault to ground at the start of the run sees
    x_ln: u.ohm


class Way(NamedTuple):
    """A fault to ground at the far end of a run behind a transformer of its own."""

    id: str
    volts: u.V                   # line to line
    r_ln: u.ohm
    x_ln: u.ohm
    r_line: u.ohm
    x_line: u.ohm
    r_ground: u.ohm
    x_ground: u.ohm


class ToGround(NamedTuple):
    """Its current."""

    lg: u.A


class Local(NamedTuple):
    """A load that a source beside it would carry, with no run at all."""

    id: str
    va: u.VA
    pf: u.ratio


class LocalRun(NamedTuple):
    """Energy balance of sun and battery: a first idea, no design."""

    energy: u.kWh                # in a day
    solar: u.kW
    storage: u.kWh
    losses: u.kWh                # in a year, through the battery
