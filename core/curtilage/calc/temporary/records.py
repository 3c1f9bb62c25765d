"""What goes into the methods of temporary power and what comes out."""
from typing import NamedTuple

from curtilage.values import lines as u

TOOL: u.text = "tool"
HEATER: u.text = "heater"
DRYING: u.text = "drying"
NATURAL: u.text = "natural gas"
PROPANE: u.text = "propane"


class Part(NamedTuple):
    """Alike loads on a board or a temporary service."""

    id: str
    va: u.VA                     # of one
    number: u.count
    volts: u.V
    kind: u.text
    continuous: u.flag           # stated; heaters and drying always are


class Season(NamedTuple):
    """All that runs on a board or a service in one season."""

    id: str
    volts: u.V                   # line to line
    share: u.ratio               # of the tools that run at once
    parts: tuple[Part, ...]


class SeasonRun(NamedTuple):
    """Load of one season."""

    connected: u.VA
    heat: u.VA                   # heaters and drying, never diversified
    tools: u.VA                  # after diversity, not below the largest one
    others: u.VA
    va: u.VA                     # heat, tools and others
    minimum_va: u.VA             # with its continuous part at 125 %
    current: u.A
    minimum: u.A
    neutral_va: u.VA             # of it between line and neutral, taken on one line


class Held(NamedTuple):
    """A temporary service held against the load of a season."""

    id: str
    minimum: u.A
    rating: u.A


class HeldRun(NamedTuple):
    """What is left."""

    minimum: u.A
    rating: u.A
    spare: u.percent
    ok: u.flag


class Face(NamedTuple):
    """The working face at the end of a cord."""

    id: str
    drop: u.percent              # from the temporary service to the board
    va: u.VA                     # of the largest tool
    volts: u.V                   # of the cord
    pf: u.ratio
    cord: u.ft
    size: u.size
    limit: u.percent


class FaceRun(NamedTuple):
    """What arrives."""

    cord: u.percent
    total: u.percent
    volts: u.V
    ok: u.flag


class Carried(NamedTuple):
    """The load of one temporary service in its worst season."""

    id: str
    va: u.VA


class Fallback(NamedTuple):
    """A generator that carries the site while the utility is late."""

    id: str
    days: u.day
    hours: u.h_per_week
    rating: u.kW                 # at the site
    mean: u.percent              # mean load, of the rating
    carried: tuple[Carried, ...]
    fuel: u.text
    use: u.ft3_per_kWh           # at full load, gas of 1,000 Btu/ft3; 0: by the rule
    heating: u.Btu_per_ft3       # of natural gas at the site; 0: by the rule


class FallbackRun(NamedTuple):
    """Hours, energy and fuel."""

    hours: u.h
    energy: u.kWh
    flow: u.ft3_per_h            # of the fuel as it is, at the mean load
    fuel: u.ft3                  # all of it
    heat: u.kBtu
    gallons: u.gal               # of liquid propane; 0 of another fuel
    loading: u.percent           # load of the worst season over the rating
    carries: u.flag


class Sound(NamedTuple):
    """A sound level at one distance."""

    id: str
    level: u.dBA
    at: u.ft
    line: u.ft                   # distance of the property line
    limit: u.dBA


class SoundRun(NamedTuple):
    """The level at the line."""

    level: u.dBA
    margin: u.dBA
    ok: u.flag
