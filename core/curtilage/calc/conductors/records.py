"""What goes into the conductor methods and what comes out: flat records of plain numbers, each field with its unit.

In the inputs `0` (a device, a number of sets) and `""` (a size) mean "not stated: choose it"; anything else is checked.
A percentage is written as 3.0 for 3 %. A margin is what is left over, in percent of what is there (the rating of a device, the
ampacity of a conductor), negative if it falls short.
"""
from typing import NamedTuple

from curtilage.values import lines as u

CHOOSE: u.A = 0.0                # a device that is not stated
CHOOSE_SETS: u.count = 0         # a number of sets that is not stated
CHOOSE_SIZE: u.size = ""         # a size that is not stated


class Circuit(NamedTuple):
    """One branch circuit: two wires that carry the same current, and a ground."""

    id: str
    va: u.VA                     # load of this one circuit; for motors: table full-load currents x volts
    volts: u.V                   # between the two wires: 120 or 240
    pf: u.ratio                  # lagging, above 0, not above 1
    continuous: u.flag           # three hours or more: counted at 125 %
    motor: u.flag                # a motor under Article 430 (hermetic equipment with a nameplate: mca and mocp instead)
    cords: u.flag                # more than one receptacle for cord-connected portable loads: no next size up
    mca: u.A                     # nameplate minimum circuit ampacity; 0 where there is none
    mocp: u.A                    # nameplate largest overcurrent device; 0 where there is none
    breaker: u.A                 # stated device, or 0
    size: u.size                 # stated conductor, or ""
    length: u.ft                 # one way, along the route
    ambient: u.degC
    ccc: u.count                 # current-carrying conductors in the raceway
    insulation: u.degC           # 60, 75 or 90
    terminals: u.degC            # 60 or 75
    drop_limit: u.percent
    largest: u.size              # largest size that may be chosen
    motor_va: u.VA = 0.0         # of several motors the largest one; 0 where the circuit carries one motor, or none


class CircuitRun(NamedTuple):
    """What a branch circuit gets, with what was asked of it and what is left over."""

    current: u.A                 # the load, without the 125 %
    minimum: u.A                 # minimum circuit ampacity, before any factor of temperature or bundling
    device_least: u.A            # smallest standard device that will do
    device_most: u.A             # largest device allowed by nameplate or motor rule; 0 where no such rule applies
    device: u.A
    device_ok: u.flag            # not below the least, not above the most, and a standard rating
    device_margin: u.percent     # left of the device over the minimum
    carries: u.size              # smallest size that carries the load and is protected by the device
    size: u.size
    ampacity: u.A                # of `size`, after factors and terminals
    ampacity_margin: u.percent   # left of the ampacity over what must be carried after factors
    carries_ok: u.flag
    protected: u.flag
    drop_dc: u.percent           # 2 R I L with the direct-current resistance
    drop: u.percent              # R cos + X sin: the number that is compared with the limit
    drop_exact: u.percent        # sending voltage fixed, constant current
    drop_ok: u.flag              # a recommendation, never a code rule
    drop_margin: u.percent       # limit less drop, in points
    volts_far: u.V               # at the load, with nominal voltage at the panel
    egc_table: u.size            # by the device alone
    egc: u.size                  # after the increase in proportion, if the size was increased


class Feeder(NamedTuple):
    """A single-phase three-wire feeder at 120/240 V (or two-wire at one voltage), in one raceway or in several alike."""

    id: str
    va: u.VA                     # calculated load
    minimum_va: u.VA             # the same with its continuous part at 125 %
    neutral_va: u.VA             # calculated neutral load, between line and neutral of one leg at full line voltage (220.61)
    volts: u.V                   # line to line
    pf: u.ratio
    breaker: u.A                 # stated device, or 0
    sets: u.count                # stated sets in parallel, or 0
    size: u.size                 # stated conductor, or ""
    length: u.ft
    ambient: u.degC
    ccc: u.count                 # current-carrying conductors in each raceway (the neutral of a three-wire feeder is not one)
    insulation: u.degC
    terminals: u.degC
    three_wire: u.flag           # single-phase 120/240 V with a neutral
    whole_dwelling: u.flag       # it carries the entire load of one dwelling unit, and nothing else
    take_83: u.flag              # use the 83 % rule where it is allowed
    full_neutral: u.flag         # the neutral is as large as the line conductors
    drop_limit: u.percent
    largest: u.size              # largest size that may be chosen
    most_sets: u.count           # largest number of sets that may be chosen
    neutral: u.size = CHOOSE_SIZE    # stated neutral of each set, or ""


class FeederRun(NamedTuple):
    """What a feeder gets. Sizes are of each conductor of each set; currents and ampacities of all sets together."""

    current: u.A
    minimum: u.A                 # with continuous load at 125 %, before factors
    device_least: u.A
    device: u.A
    device_ok: u.flag
    device_margin: u.percent     # left of the device over the minimum
    dwelling_rule: u.flag        # the 83 % rule is open to this feeder
    dwelling_reason: u.text      # why, or why not
    rule: u.text                 # by which rule the conductors are sized: device, dwelling 83 %
    required: u.A                # ampacity asked for by it, after factors
    sets: u.count
    base: u.size                 # smallest size that carries under the ordinary table: the start of the ground's proportion
    carries: u.size              # smallest size that carries under the rule that was used
    size: u.size
    ampacity: u.A
    ampacity_margin: u.percent   # left of the ampacity over what is required
    carries_ok: u.flag
    protected: u.flag
    parallel_ok: u.flag          # one set, or sets of 1/0 and larger
    drop_dc: u.percent
    drop: u.percent
    drop_exact: u.percent
    drop_ok: u.flag
    drop_margin: u.percent
    volts_far: u.V
    egc_table: u.size            # in each raceway
    egc: u.size                  # in each raceway, in proportion from `base`, not above the line conductor
    egc_from_83: u.size          # the other reading: in proportion from the 83 % size
    neutral_current: u.A
    neutral_least: u.size
    neutral: u.size
    neutral_ok: u.flag
    carries_load: u.flag         # ampacity not below the calculated load, which the 83 % rule does not ask for


class Main(NamedTuple):
    """One service disconnect with its overcurrent device."""

    id: str
    va: u.VA
    minimum_va: u.VA
    rating: u.A                  # stated, or 0


class MainRun(NamedTuple):
    """What one main gets."""

    current: u.A
    minimum: u.A
    rating_least: u.A
    rating: u.A
    rating_ok: u.flag
    spare: u.percent             # of the rating, over the calculated load


class Service(NamedTuple):
    """Single-phase service conductors from the transformer to one group of mains."""

    id: str
    mains: tuple[Main, ...]
    va: u.VA                     # calculated load of the whole service, not more than the sum over the mains
    minimum_va: u.VA
    neutral_va: u.VA
    volts: u.V
    pf: u.ratio
    sets: u.count                # stated, or 0
    size: u.size                 # stated, or ""
    length: u.ft
    ambient: u.degC
    ccc: u.count
    insulation: u.degC
    terminals: u.degC
    dwelling: u.flag             # the service of a dwelling: not below 100 A
    whole_dwelling: u.flag       # of one dwelling unit and nothing else
    take_83: u.flag
    full_neutral: u.flag
    drop_limit: u.percent        # practice of the project or the utility; the code notes do not speak of service conductors
    largest: u.size
    most_sets: u.count
    neutral: u.size = CHOOSE_SIZE    # stated neutral of each set, or ""


class ServiceRun(NamedTuple):
    """What the service conductors get. The mains stand beside, one `MainRun` each."""

    current: u.A
    minimum: u.A
    mains: u.count
    mains_ok: u.flag             # not more than six
    rating: u.A                  # sum of the mains
    rating_least: u.A            # smallest service rating allowed
    rating_ok: u.flag
    rule: u.text                 # by which rule the conductors are sized: device, dwelling 83 %, load of several mains
    dwelling_rule: u.flag
    dwelling_reason: u.text
    required: u.A
    sets: u.count
    carries: u.size
    size: u.size
    ampacity: u.A
    ampacity_margin: u.percent
    carries_ok: u.flag
    protected: u.flag            # by the rule named above
    parallel_ok: u.flag
    drop_dc: u.percent
    drop: u.percent
    drop_exact: u.percent
    drop_ok: u.flag
    drop_margin: u.percent
    volts_far: u.V
    neutral_current: u.A
    neutral_least: u.size        # by load, by the supply-side bonding table and by the parallel rule
    neutral: u.size
    neutral_ok: u.flag
    carries_load: u.flag         # ampacity not below the calculated load, which the 83 % rule does not ask for


class Segment(NamedTuple):
    """One stretch of the way from the transformer to an outlet, with its own drop in percent."""

    id: str
    drop: u.percent


class Path(NamedTuple):
    """The way from the transformer terminals to the farthest outlet of a panel."""

    id: str
    source: u.V                  # at the transformer terminals, on a 120 V base
    lateral: u.percent           # drop of the service conductors
    feeders: tuple[Segment, ...]   # in order, from the service outward; may be empty
    branch: u.percent            # drop of the farthest branch circuit; 0 where only the panel is asked about
    feeder_limit: u.percent      # recommendations: 3, 3 and 5 %
    branch_limit: u.percent
    total_limit: u.percent


class Node(NamedTuple):
    """The end of one stretch."""

    id: str
    drop: u.percent              # from the transformer terminals to here
    volts: u.V                   # on a 120 V base
    in_range: u.flag             # of ANSI C84.1 range A


class PathRun(NamedTuple):
    """Drops along one path; the notes of the code speak of feeder and branch circuit, not of the service conductors."""

    service_volts: u.V
    service_ok: u.flag
    feeders: u.percent           # all feeders in series
    feeders_ok: u.flag
    branch_ok: u.flag
    total: u.percent             # feeders and branch circuit
    total_ok: u.flag
    from_transformer: u.percent  # with the service conductors
    outlet_volts: u.V            # on a 120 V base
    outlet_ok: u.flag
    nodes: tuple[Node, ...]
