"""How conductors are pulled in: the way through a raceway step by step, boxes with their entries, boxes of devices."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, CountOrNone, Flag, Id, Item, Ratio, Size, Strict, Text, TradeSize
from curtilage.units import Angle, Inches, Length, Rise, Tension, Volume

Wall = Literal["north", "east", "south", "west", "back"]


class Step(Item):
    """One step of the way through a raceway: a straight length, a bend, or a point at which one pulls anew."""
    id: Id = Field(description="short name")
    kind: Literal["straight", "bend", "pull point"] = Field(description="what it is")
    length: Length | None = Field(
        None, description="length of a straight step along the raceway [ft]; left out: that of the whole run")
    rise: Rise = Field(0.0, description="climb of a straight step from its beginning to its end [ft]; negative: falls")
    angle: Angle | None = Field(None, description="angle of a bend [deg]")
    radius: Inches | None = Field(None, description="radius of a bend to the middle of the raceway [in]; left out: the least")
    at: Id | None = Field(None, description="box, handhole or panel of a pull point")


class TrenchWay(Item):
    """The way of the ducts of one trench, from its first node to its second, with risers at its ends. Its id is the trench."""
    id: Id = Field(description="trench")
    steps: tuple[Step, ...] = Field(min_length=1, description="the steps in order")


class Run(Item):
    """The way of raceways that lie in no trench, or another way than that of their trench."""
    id: Id = Field(description="short name")
    of: tuple[Id, ...] = Field((), description="raceways, feeders without one described, the gear for its lateral")
    indoors: Flag = Field(False, description="whether it is the way of every raceway inside one building that has no other")
    steps: tuple[Step, ...] = Field(min_length=1, description="the steps in order, from where the feeder starts")
    friction: Ratio | None = Field(None, description="coefficient of friction, where somebody measured it")


class Pulls(Strict):
    """How conductors are pulled in: the ways step by step, rope and lubricant."""
    lubricated: Flag | None = Field(None, description="whether lubricant is used; left out: pulled dry")
    friction: Ratio | None = Field(None, description="coefficient of friction, where somebody measured it")
    head: Literal["eye", "grip"] = Field("grip", description="what the rope holds: a pulling eye on the metal, or a basket grip")
    feed: Tension = Field(0.0, description="tension at the feeding end [lb]")
    trenches: tuple[TrenchWay, ...] = Field((), description="ways along trenches")
    runs: tuple[Run, ...] = Field((), description="other ways")


class Entry(Item):
    """Where a raceway enters a pull box, and where its conductors leave it."""
    id: Id = Field(description="short name")
    raceway: Id | None = Field(None, description="raceway, or feeder whose raceway is not described; left out: spare or foreign")
    size: TradeSize | None = Field(None, description="trade size [in]; left out: that of the raceway")
    wall: Wall = Field(description="wall that it enters")
    row: Count = Field(1, description="row on that wall")
    to: Id | None = Field(None, description="entry through which its conductors leave; left out: they end or are spliced here")
    apart: Inches | None = Field(None, description="distance between the two entries, nearest edges [in]")


class Cable(Item):
    """Cables or conductors alike that enter a device box."""
    id: Id = Field(description="short name")
    size: Size = Field(description="size of their conductors")
    wires: CountOrNone = Field(2, description="insulated conductors in each")
    count: Count = Field(1, description="number alike")
    ground: Flag = Field(True, description="whether each brings an equipment grounding conductor")


class Yoke(Item):
    """A strap with one or more devices."""
    id: Id = Field(description="short name")
    size: Size = Field(description="largest conductor on it")
    gangs: Count = Field(1, description="widths of a single device that it takes")
    depth: Inches | None = Field(None, description="how far it reaches into the box behind the mounting plane [in]")
    controls: Text = Field("", description="what it controls")


class DeviceBox(Item):
    """A box for switches, receptacles, controls."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it is in")
    count: Count = Field(1, description="number of boxes alike")
    volume: Volume | None = Field(None, description="volume marked on it, with its rings and extensions [in3]")
    standard: Text = Field("", description="name of a standard metal box, 4x2-1/8_square; its volume is then that of the table")
    depth: Inches | None = Field(None, description="inside depth [in]")
    cables: tuple[Cable, ...] = Field((), description="what enters it")
    yokes: tuple[Yoke, ...] = Field((), description="devices in it")
    clamps: Flag = Field(True, description="whether it has clamps inside")
    fittings: CountOrNone = Field(0, description="kinds of support fittings inside: luminaire studs, hickeys")
    blocks: CountOrNone = Field(0, description="terminal blocks inside")
    note: Text = Field("", description="remark")
