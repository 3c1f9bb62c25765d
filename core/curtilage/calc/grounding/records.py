"""What goes into the methods of grounding and bonding and what comes out: flat records, each field with its unit.

In the inputs `0` (a length, a diameter, an area) and `""` (a size) mean "not stated".
"""
from typing import NamedTuple

from curtilage.values import lines as u


class Supply(NamedTuple):
    """The ungrounded conductors that feed a structure: the service's, or those of its largest feeder."""

    id: str
    sets: u.count                # in parallel
    size: u.size                 # of one conductor of one set


class SupplyRun(NamedTuple):
    """What the supply asks of the grounding electrode conductors, before what single kinds of electrode allow."""

    area: u.cmil                 # of one ungrounded conductor, all its parallel sets together
    copper: u.size               # grounding electrode conductor of copper, by the table
    aluminium: u.size            # the same of aluminium


class Beyond(NamedTuple):
    """An electrode that the conductor of another one runs on to."""

    id: str
    kind: u.text
    wire: u.size                 # bare wire that it is made of, or ""


class Electrode(NamedTuple):
    """One electrode, or several alike, and the conductor that ties it in."""

    id: str
    kind: u.text                 # concrete-encased, rod, ring, plate, water pipe, structural metal
    wire: u.size                 # bare copper that it is made of, or ""
    material: u.text             # of the conductor: cu, al
    conductor: u.size            # stated, or ""
    area: u.cmil                 # of the supply's largest ungrounded conductor, parallel sets together
    beyond: tuple[Beyond, ...]   # electrodes that the conductor runs on to


class ElectrodeRun(NamedTuple):
    """The grounding electrode conductor of one electrode."""

    own: u.size                  # what this electrode asks by itself
    least: u.size                # with those that the conductor runs on to
    size: u.size                 # stated, or the least
    ok: u.flag


class Contact(NamedTuple):
    """What an electrode is made of, and how much of it touches earth or concrete."""

    id: str
    kind: u.text
    length: u.ft
    diameter: u.inch             # of rod, pipe or bar
    wire: u.size                 # of bare copper, or ""
    depth: u.ft                  # of a ring
    area: u.ft2                  # of a plate
    listed: u.flag               # a listed rod may be thinner


class ContactRun(NamedTuple):
    """Whether it counts as an electrode."""

    long_enough: u.flag
    thick_enough: u.flag
    deep_enough: u.flag
    ok: u.flag


class Pair(NamedTuple):
    """Two rods of a group, by their distance in units of the spacing."""

    id: str
    steps: u.ratio


class Rods(NamedTuple):
    """Vertical rods alike, from the surface down, in even soil."""

    id: str
    resistivity: u.ohm_m
    length: u.ft
    diameter: u.inch
    count: u.count
    spacing: u.ft                # between neighbours; 0 for a single rod
    pairs: tuple[Pair, ...]      # every two of them, once


class RodsRun(NamedTuple):
    """Resistance to earth, an estimate for information."""

    one: u.ohm                   # of a single rod
    resistance: u.ohm            # of all of them together
    below: u.flag                # not above the figure at which a single rod needs no second


class Ring(NamedTuple):
    """A horizontal ring of bare wire in even soil."""

    id: str
    resistivity: u.ohm_m
    length: u.ft                 # around
    wire: u.size
    depth: u.ft


class RingRun(NamedTuple):
    """Resistance to earth, an estimate for information."""

    resistance: u.ohm


class Bonding(NamedTuple):
    """What the bonding jumpers of a service, or of another source, are sized by. One set lies in each raceway."""

    id: str
    sets: u.count
    size: u.size                 # ungrounded conductor of one set
    metal: u.text                # of these: cu, al
    neutral: u.size              # of one set
    material: u.text             # of the jumper: cu, al
    jumper: u.size               # stated main or system bonding jumper, or ""


class BondingRun(NamedTuple):
    """Main or system bonding jumper, supply-side jumpers, least neutral."""

    area: u.cmil                 # of one ungrounded conductor, all sets together
    least: u.size                # main or system bonding jumper; also one common supply-side jumper for all raceways
    jumper: u.size               # stated, or the least
    jumper_ok: u.flag
    each: u.size                 # supply-side jumper of each raceway, where each has its own
    neutral_area: u.cmil         # least area of the neutral in each raceway
    neutral_ok: u.flag


class Bond(NamedTuple):
    """A place where neutral and ground are tied, or could be; its id is the path of the input that says so."""

    id: str
    bonded: u.flag


class Island(NamedTuple):
    """Neutral conductors that hang together and have a source."""

    id: str
    bonds: tuple[Bond, ...]


class Mode(NamedTuple):
    """One mode of operation: which supplies are on, and the islands that its switches make of the neutrals."""

    id: str
    islands: tuple[Island, ...]


class IslandRun(NamedTuple):
    """How many bonds one island has."""

    bonds: u.count
    ok: u.flag


class ModeRun(NamedTuple):
    """Whether every island has the one bond it should have."""

    islands: u.count
    bonds: u.count               # of all islands
    fewest: u.count
    most: u.count
    ok: u.flag
