"""What goes into the fault methods and what comes out: flat records of plain numbers, each field with its unit.

Impedances are sums of resistance and reactance, in ohm, so that they add as complex numbers do. "Line to line" is seen at the
line-to-line voltage, "line to neutral" at half of it. Largest currents take cold conductors and the strongest source, least
currents warm conductors and the weakest.
"""
from typing import NamedTuple

from curtilage.values import lines as u


class Run(NamedTuple):
    """Conductors between two nodes: a feeder with its equipment ground, in one raceway or in several alike."""

    id: str
    sets: u.count
    size: u.size                 # of each line conductor
    neutral: u.size
    ground: u.size               # equipment ground in each raceway
    length: u.ft                 # one way


class Lateral(NamedTuple):
    """Service conductors: the neutral is the way back, there is no equipment ground."""

    id: str
    sets: u.count
    size: u.size
    neutral: u.size
    length: u.ft


class Wire(NamedTuple):
    """One way, all sets in parallel; warm as the tables have it, and cold for the largest fault."""

    r_line: u.ohm
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm
    r_ground: u.ohm
    x_ground: u.ohm
    r_line_cold: u.ohm
    r_neutral_cold: u.ohm
    r_ground_cold: u.ohm
    length: u.ft
    sets: u.count
    size: u.size
    neutral: u.size
    ground: u.size


class LateralWire(NamedTuple):
    """The same for service conductors."""

    r_line: u.ohm
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm
    r_line_cold: u.ohm
    r_neutral_cold: u.ohm
    length: u.ft
    sets: u.count
    size: u.size
    neutral: u.size


class Supply(NamedTuple):
    """The utility's transformer with what is known of the network before it. 0 where nothing is stated."""

    id: str
    rating: u.kVA
    impedance: u.percent         # of the rating
    x_over_r: u.ratio
    volts: u.V                   # line to line, the whole secondary
    primary: u.A                 # fault current on the primary side; 0: infinite
    primary_volts: u.V           # of the primary winding
    primary_x_over_r: u.ratio
    letter: u.A                  # the utility's figure, line to line; 0: no letter
    letter_neutral: u.A          # line to neutral; 0: derived from the transformer
    letter_least: u.A            # the least it expects, line to line; 0: not stated
    letter_x_over_r: u.ratio
    at_gear: u.flag              # the letter's figures hold at the service gear, not at the terminals
    r_line: u.ohm                # of the service conductors, cold: what lies between
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm


class Impedance(NamedTuple):
    """Resistance and reactance."""

    r: u.ohm
    x: u.ohm


class Seen(NamedTuple):
    """What a fault sees from where it is."""

    r_ll: u.ohm                  # line to line
    x_ll: u.ohm
    r_ln: u.ohm                  # line to neutral
    x_ln: u.ohm


class SupplyRun(NamedTuple):
    """The transformer as three branches around its centre tap, and what a fault at its terminals sees.

    Branches are referred to one half winding: `source` and `primary` are common to both halves, `secondary` is in each.
    """

    r_full: u.ohm                # the whole secondary, at line-to-line volts
    x_full: u.ohm
    r_half: u.ohm                # one half, at line-to-neutral volts
    x_half: u.ohm
    r_primary: u.ohm
    x_primary: u.ohm
    r_secondary: u.ohm
    x_secondary: u.ohm
    r_source: u.ohm
    x_source: u.ohm
    r_ll: u.ohm                  # strongest source
    x_ll: u.ohm
    r_ln: u.ohm
    x_ln: u.ohm
    r_ll_least: u.ohm            # weakest source
    x_ll_least: u.ohm
    r_ln_least: u.ohm
    x_ln_least: u.ohm
    basis: u.text                # where the source comes from
    stronger: u.flag             # the letter's current is above what the nameplate lets through from an infinite primary


class Terminals(NamedTuple):
    """The terminals of the transformer: what a fault there sees."""

    id: str
    volts: u.V                   # line to line
    r_ll: u.ohm
    x_ll: u.ohm
    r_ln: u.ohm
    x_ln: u.ohm
    r_ll_least: u.ohm
    x_ll_least: u.ohm
    r_ln_least: u.ohm
    x_ln_least: u.ohm


class Node(NamedTuple):
    """A point, by what a fault sees at the point before it, and the conductors between: one way, all sets."""

    id: str
    volts: u.V                   # line to line
    r_ll: u.ohm                  # at the point before: line to line, strongest source, cold
    x_ll: u.ohm
    r_ln: u.ohm
    x_ln: u.ohm
    r_ll_least: u.ohm            # weakest source, warm
    x_ll_least: u.ohm
    r_ln_least: u.ohm
    x_ln_least: u.ohm
    r_lg: u.ohm                  # through the equipment ground
    x_lg: u.ohm
    r_line: u.ohm                # of the conductors
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm
    r_ground: u.ohm              # what a fault to ground comes back through: of service conductors the neutral
    x_ground: u.ohm
    r_line_cold: u.ohm
    r_neutral_cold: u.ohm


class Fault(NamedTuple):
    """Bolted fault currents at one point, symmetrical, with the impedances behind them."""

    ll: u.A                      # largest: strongest source, cold conductors
    ln: u.A
    largest: u.A                 # the larger of the two: what a rating is held against
    ll_least: u.A                # weakest source, warm conductors
    ln_least: u.A
    lg: u.A                      # line to ground through the equipment ground, least
    r_ll: u.ohm
    x_ll: u.ohm
    r_ln: u.ohm
    x_ln: u.ohm
    r_ll_least: u.ohm
    x_ll_least: u.ohm
    r_ln_least: u.ohm
    x_ln_least: u.ohm
    r_lg: u.ohm
    x_lg: u.ohm


class Point(NamedTuple):
    """A point of the slow side of a trip curve."""

    id: str                      # its place in the list
    multiple: u.ratio
    time: u.second


class Device(NamedTuple):
    """A breaker, and the least fault that it must clear."""

    id: str
    rating: u.A
    fault: u.A
    pickup: u.ratio              # of the instantaneous trip, in multiples of the rating; 0: not stated
    tolerance: u.percent         # how far it may lie above that
    curve: tuple[Point, ...]     # from the highest multiple down; may be empty
    gfci: u.flag                 # ground-fault protection for personnel clears a fault to ground
    limit: u.second
    volts: u.V                   # line to line


class Cleared(NamedTuple):
    """How long a device takes at most to clear its least fault."""

    fault: u.A
    multiple: u.ratio            # fault over rating
    sure: u.ratio                # multiple above which the instantaneous trip is sure to act
    wanted: u.A                  # fault at which it is
    loop: u.ohm                  # impedance of the whole loop that gives this fault
    fits: u.A                    # largest rating whose instantaneous trip this fault is sure to reach
    time: u.second               # a bound, not a prediction
    by: u.text                   # what bounds it
    ok: u.flag
    open: u.flag                 # nothing is stated of the trip, and the curve of the breaker would decide


class Far(NamedTuple):
    """The far end of a branch circuit, and the breaker that must clear a fault to ground there."""

    id: str
    rating: u.A
    size: u.size
    ground: u.size
    length: u.ft
    r_lg: u.ohm                  # at the panel
    x_lg: u.ohm
    volts: u.V                   # line to line
    pickup: u.ratio
    tolerance: u.percent
    curve: tuple[Point, ...]
    gfci: u.flag
    limit: u.second


class Gear(NamedTuple):
    """Service equipment with its rating, behind a transformer and service conductors, cold."""

    id: str
    interrupting: u.A
    volts: u.V                   # line to line
    rating: u.kVA                # of the transformer
    impedance: u.percent
    r_full: u.ohm
    x_full: u.ohm
    r_half: u.ohm
    x_half: u.ohm
    r_line: u.ohm
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm


class Margin(NamedTuple):
    """How far the transformer may change before the rating of the gear is too small, with an infinite primary."""

    enough: u.ratio              # share of the transformer's impedance that is
    impedance_least: u.percent   # at its present rating
    rating_most: u.kVA           # at its present impedance in percent; 0: the service conductors alone are enough
    largest: u.A                 # now, with an infinite primary


class Equipment(NamedTuple):
    """Equipment with its interrupting or short-circuit rating, and the larger fault current available at it."""

    id: str
    interrupting: u.A
    largest: u.A


class Withstands(NamedTuple):
    """What is left of the rating."""

    interrupting: u.A
    left: u.A                    # negative where it falls short
    withstands: u.flag
