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
