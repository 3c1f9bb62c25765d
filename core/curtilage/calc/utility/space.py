"""Space in front of equipment, and the disconnecting means of a separate building."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

IN_PER_FT: u.in_per_ft = 12.0
ONE: u.count = 1
TWO: u.count = 2


class Space(NamedTuple):
    """The clear space in front of gear or a panel, as stated."""

    id: str
    band: u.text                 # volts to ground as the table has them: 0-150
    condition: u.text            # what faces it: 1 insulated or nothing, 2 grounded parts, 3 live parts on both sides
    depth: u.inch
    width: u.inch
    height: u.inch
    equipment: u.inch            # width of the equipment; 0: not stated


class Working_space(NamedTuple):
    """What the space must be, and whether it is."""

    depth_least: u.inch
    depth_ok: u.flag
    width_least: u.inch
    width_ok: u.flag
    height_least: u.inch
    height_ok: u.flag
    ok: u.flag


class Building(NamedTuple):
    """A building that a feeder supplies, as its disconnecting means sees it."""

    id: str
    va: u.VA                     # calculated load of its supply
    volts: u.V
    dwelling: u.flag             # one-family dwelling
    circuits: u.count            # branch circuits in it
    two_wire: u.flag             # and none of them has more than two wires
    rating: u.A                  # of the disconnecting means, as stated


class Disconnect(NamedTuple):
    """The smallest rating by use and by load."""

    current: u.A
    by_use: u.A
    least: u.A
    rating: u.A
    ok: u.flag


@method
def working_space(w, ed):
    """The clear space of `w` (a `Space`) against the least depth, width and height.

    For equipment likely to be worked on while energized. The width is also never less than that of the equipment, where it is
    stated; doors open 90 degrees, which is not looked at.
    Not for: equipment above 1,000 V, entrances of large equipment, illumination.
    Errors: a condition or band that the table does not have. Source: NFPA 70 110.26(A), Table 110.26(A)(1).
    """
    depth_least: u.inch = ed.working_depth(w.band, w.condition) * IN_PER_FT
    depth_ok: u.flag = w.depth >= depth_least
    width_least: u.inch = max(ed.working_width, w.equipment)
    width_ok: u.flag = w.width >= width_least
    height_least: u.inch = ed.working_height * IN_PER_FT
    height_ok: u.flag = w.height >= height_least
    ok: u.flag = depth_ok and width_ok and height_ok
    return Working_space(depth_least, depth_ok, width_least, width_ok, height_least, height_ok, ok)


@method
def building_disconnect(b, ed):
    """The rating of the disconnecting means of a separate building, `b` a `Building`.

    Not below the calculated load, nor below what its use asks for. Not for: several disconnecting means added up (225.40),
    three-phase supplies. Source: NFPA 70 225.39.
    """
    I: u.A = b.va / b.volts
    if b.dwelling:
        by_use: u.A = ed.disconnect_one_family
    elif b.circuits <= ONE:
        by_use: u.A = ed.disconnect_one_circuit
    elif b.circuits <= TWO and b.two_wire:
        by_use: u.A = ed.disconnect_two_circuits
    else:
        by_use: u.A = ed.disconnect_other
    least: u.A = max(I, by_use)
    ok: u.flag = b.rating >= least
    return Disconnect(I, by_use, least, b.rating, ok)
