"""What goes into the methods of raceways and what comes out: flat records of plain numbers, each field with its unit.

In the inputs `""` (a size) and `0` (a diameter, a length) mean "not stated". Areas are those of cross-sections with insulation.
"""
from typing import NamedTuple

from curtilage.values import lines as u

NO_SIZE: u.size = "none"         # where no trade size will do, or none is smaller


class Wire(NamedTuple):
    """Conductors, or cables, of one kind in a raceway."""

    id: str
    count: u.count
    size: u.size                 # "" where the diameter is stated
    insulation: u.text           # thwn-2, xhhw-2, rhw-2, rhw-2 uncovered, bare; "" where the diameter is stated
    compact: u.flag              # compact strands (Table 5A)
    diameter: u.inch             # stated outside diameter, of an elliptical cable the larger one; 0: by the tables
    carrying: u.count            # how many of them count as current-carrying
    material: u.text             # cu, al, or "" for a cable


class Raceway(NamedTuple):
    """A raceway with what lies in it; the view of the edition says of which kind it is."""

    id: str
    size: u.size                 # stated trade size, or "": chosen
    length: u.ft                 # 0 where it is not stated: then it is no nipple
    wires: tuple[Wire, ...]


class Lying(NamedTuple):
    """Conductors of one kind as they lie in a raceway."""

    id: str
    count: u.count
    size: u.size
    material: u.text
    diameter: u.inch
    each: u.in2                  # of one
    area: u.in2                  # of all of them


class Fit(NamedTuple):
    """Some conductors in one trade size."""

    share: u.percent             # that may be filled
    fill: u.percent
    ok: u.flag


class Least(NamedTuple):
    """The smallest trade size that will do, and the next smaller one that will not."""

    size: u.size
    below: u.size                # "none" where the smallest of all will do
    below_fill: u.percent


class Jam(NamedTuple):
    """Whether three conductors can wedge side by side in a bend."""

    ratio: u.ratio               # inside diameter over the mean of the three largest; 0 where fewer than three lie there
    in_bend: u.ratio             # with the raceway a little wider in the bend
    ok: u.flag


class Filled(NamedTuple):
    """What a raceway gets."""

    size: u.size                 # stated or chosen
    bore: u.inch                 # inside diameter
    whole: u.in2                 # its cross-section
    wires: u.count
    conductors: u.in2            # area of all conductors
    share: u.percent             # of the cross-section that may be filled
    fill: u.percent
    fill_ok: u.flag
    room: u.in2                  # left of what may be filled, negative if it falls short
    least: u.size                # smallest trade size that holds them
    below: u.size                # the next smaller one, which does not
    below_fill: u.percent
    three: u.inch                # mean diameter of the three largest, 0 where fewer lie there
    jam: u.ratio                 # inside diameter over the mean of the three largest
    jam_in_bend: u.ratio
    jam_ok: u.flag
    carrying: u.count            # current-carrying conductors
    lying: tuple[Lying, ...]


class Buried(NamedTuple):
    """A raceway or cable in the ground."""

    id: str
    column: u.text               # metal, nonmetallic, direct
    location: u.text             # a row of the table
    cover: u.inch
    service: u.flag              # service conductors
    ribbon: u.inch               # height of the warning ribbon above them; 0: none


class Covered(NamedTuple):
    """Its cover against the least."""

    cover: u.inch
    least: u.inch
    cover_ok: u.flag
    deeper: u.inch               # than asked for; negative if it falls short
    ribbon_wanted: u.flag
    ribbon_ok: u.flag


class Exposed(NamedTuple):
    """A straight run of plastic raceway in the open."""

    id: str
    length: u.ft
    warmest: u.degC              # of the raceway, or of the air: then the sun is added
    sun: u.degC                  # 0 where the raceway itself is meant
    coldest: u.degC
    fitted: u.flag               # an expansion fitting is there


class Moved(NamedTuple):
    """How much longer and shorter it becomes."""

    swing: u.degC
    change: u.inch
    wanted: u.flag
    fitting_ok: u.flag


class Duct(NamedTuple):
    """A raceway that lies in a trench."""

    id: str
    use: u.text                  # power, comm, spare
    size: u.size


class Section(NamedTuple):
    """A trench with what runs there. `power`, `comm` and `spare` are its raceways by what they are for."""

    id: str
    ducts: u.count               # stated
    power: tuple[Duct, ...]
    comm: tuple[Duct, ...]
    spare: tuple[Duct, ...]
    length: u.ft
    rise: u.ft
    east_a: u.ft                 # where it starts
    north_a: u.ft
    east_b: u.ft                 # where it ends
    north_b: u.ft
    located: u.flag              # both ends have coordinates
    parted: u.inch               # between power and communication ducts; 0: not stated


class Sectioned(NamedTuple):
    """What a trench comes to."""

    power: u.count
    comm: u.count
    empty: u.count               # spares and provisions
    needed: u.count
    ducts: u.count
    left: u.count
    ducts_ok: u.flag
    length: u.ft                 # with its rise
    straight: u.ft               # as the crow flies; 0 where the ends have no coordinates
    beyond: u.ft                 # length of the trench over the straight line
    length_ok: u.flag
    apart: u.inch                # wanted between power and communication; 0 where only one of them lies there
    parted: u.inch               # stated
    apart_ok: u.flag


class Supply(NamedTuple):
    """A supply with its overcurrent device."""

    id: str
    device: u.A


class Rated(NamedTuple):
    """A supply whose load nobody has calculated, by its device."""

    va: u.VA
