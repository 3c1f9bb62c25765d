"""What goes into the methods of boxes, and what comes out."""
from typing import NamedTuple

from curtilage.values import lines as u


class BoxEntry(NamedTuple):
    """A raceway that enters a box."""

    id: str
    trade: u.inch                # its trade size as a number


class BoxRow(NamedTuple):
    """A row of entries on one wall, one of which at least turns or ends here."""

    id: str
    entries: tuple[BoxEntry, ...]


class BoxPair(NamedTuple):
    """Two entries with the same conductors that do not lie opposite each other."""

    id: str
    one: u.inch
    other: u.inch
    apart: u.inch                # between their nearest edges, as built


class PullBox(NamedTuple):
    """A pull or junction box. `long` stands for its length, `wide` for its width."""

    id: str
    length: u.inch
    width: u.inch
    depth: u.inch
    largest: u.size              # largest conductor in it
    straight_long: tuple[BoxEntry, ...]
    straight_wide: tuple[BoxEntry, ...]
    rows_long: tuple[BoxRow, ...]
    rows_wide: tuple[BoxRow, ...]
    pairs: tuple[BoxPair, ...]
    back: u.flag                 # conductors come through the wall opposite the cover


class PullBoxRun(NamedTuple):
    """What a pull box must measure at least."""

    applies: u.flag              # a conductor of 4 AWG or larger is in it
    length_least: u.inch
    width_least: u.inch
    depth_least: u.inch
    apart_least: u.inch          # of the pair that wants most
    apart_short: u.inch          # by how much the worst pair is too near; 0 where none is
    size_ok: u.flag
    apart_ok: u.flag
    ok: u.flag


class BoxCable(NamedTuple):
    """Cables or conductors alike in a device box."""

    id: str
    size: u.size
    wires: u.count               # insulated conductors in each
    count: u.count
    ground: u.flag               # each brings an equipment grounding conductor of the same size


class BoxYoke(NamedTuple):
    """A strap with devices."""

    id: str
    size: u.size
    gangs: u.count
    depth: u.inch                # behind the mounting plane; 0: not stated


class DeviceBox(NamedTuple):
    """A box for devices, by its volume; one of several alike."""

    id: str
    volume: u.in3                # marked on it; 0 where its standard name is given
    standard: u.text
    depth: u.inch
    cables: tuple[BoxCable, ...]
    yokes: tuple[BoxYoke, ...]
    clamps: u.flag
    fittings: u.count
    blocks: u.count


class DeviceBoxRun(NamedTuple):
    """What is in a device box, and what it must hold."""

    wire_fill: u.in3
    devices: u.in3
    clamps: u.in3
    others: u.in3                # fittings and terminal blocks
    grounds: u.in3
    box_fill: u.in3
    volume: u.in3
    spare: u.in3
    fill_ok: u.flag
    depth_least: u.inch
    depth_ok: u.flag
    ok: u.flag
