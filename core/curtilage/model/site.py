"""Where the estate stands: site conditions, structures and the graph of trenches between them."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Count, Day, Flag, Id, Item, Strict, Text, TradeSize, Words
from curtilage.units import (
    Amps,
    Area,
    Celsius,
    Coordinate,
    Elevation,
    Inches,
    Length,
    LengthOrNone,
    QuantityError,
    Resistivity,
    Sound,
    UnitLoad,
)

Occupancy = Literal["dwelling", "accessory", "shop", "agricultural", "service", "structure"]
Status = Literal["planned", "pending", "foundation", "slab", "framing", "rough-in", "finish", "built"]


def _point(given: object) -> object:
    if isinstance(given, list | tuple) and len(given) == 2:
        return given
    raise QuantityError("a node needs two coordinates", "expected a list of east and north", "write [85 ft, 60 ft]")


Point = Annotated[tuple[Coordinate, Coordinate], BeforeValidator(_point)]


class Boundary(Item):
    """A line of the property with a sound limit."""
    id: Id = Field(description="name of the boundary")
    distance: Length = Field(description="shortest distance from the generator [ft]")
    limit: Sound | None = Field(None, description="sound level allowed at the line [dBA]")


class Place(Item):
    """Something with a place on the site that other things must keep away from, as a point or by its outline."""
    id: Id = Field(description="short name")
    kind: Literal["gear", "transformer", "generator", "storage", "gas meter", "opening", "combustible wall", "wall", "pool edge",
                  "property line", "drive"] = Field(description="what it is")
    of: Id | None = Field(None, description="structure, gear, generator or storage that it belongs to")
    at: Point | None = Field(None, description="east and north [ft]")
    outline: tuple[Point, ...] = Field((), description="corners of its outline or ends of its line, in order [ft]")
    closed: Flag = Field(True, description="whether the outline closes; no: it is a line")
    note: Text = Field("", description="remark")


class Site(Strict):
    """Conditions that hold for the whole estate unless a structure or a run says otherwise."""
    elevation: Elevation = Field(description="height above sea level [ft]")
    ambient: Celsius = Field(description="design ambient temperature outdoors [degC]")
    soil: Celsius | None = Field(None, description="temperature of the ground at burial depth [degC]")
    winter: Celsius | None = Field(None, description="heating design temperature [degC]")
    frost: Inches | None = Field(None, description="frost depth [in]")
    resistivity: Resistivity | None = Field(None, description="soil resistivity [ohm-m]")
    boundaries: tuple[Boundary, ...] = Field((), description="property lines with limits")
    places: tuple[Place, ...] = Field((), description="things that keep distances from one another")


class Provisions(Strict):
    """What a structure offers its occupants; the dwelling-likeness test reads it."""
    sleeping: Flag = Field(description="whether there is a place to sleep")
    sanitation: Flag = Field(description="whether there is a bathroom")
    cooking: Literal["none", "portable", "permanent"] = Field(description="provision for cooking")


class FloorArea(Item):
    """One part of the floor area, counted by outside dimensions."""
    id: Id = Field(description="name of the part")
    area: Area = Field(description="floor area by outside dimensions [ft2]")
    kind: Literal["finished", "open porch", "garage", "unfinished"] = Field(description="what the part is")
    adaptable: Flag = Field(False, description="whether it can be adapted for future use")
    counted: Flag | None = Field(None, description="whether the structure's area includes it; left out: by the edition's rule")


class Structure(Item):
    """A building or yard that is fed. Its id is also its node in the site graph."""
    id: Id = Field(description="short name, also the node in the site graph")
    name: Words = Field(description="name in words")
    occupancy: Occupancy = Field(description="what it is used as")
    area: Area | None = Field(None, description="floor area for the load calculation, by outside dimensions [ft2]")
    areas: tuple[FloorArea, ...] = Field((), description="parts that the area includes or leaves out")
    method: Literal["standard", "optional", "other", "compare"] | None = Field(
        None, description="load calculation method; left out: the lesser of those open to it, both shown")
    ambient: Celsius | None = Field(None, description="ambient temperature inside [degC]; left out: that of the site")
    status: Status | None = Field(None, description="how far it is built")
    unit_load: UnitLoad | None = Field(
        None, description="general lighting load stated on the submitted calculation [VA/ft2]; it is checked")
    heating_and_cooling: Literal["larger", "both"] = Field(
        "larger", description="whether only the larger of heating and cooling counts")
    provisions: Provisions | None = Field(None, description="what it offers its occupants")
    livestock: Flag = Field(False, description="whether livestock is confined in it")
    disconnect: Literal["outside", "inside", "none"] | None = Field(None, description="disconnecting means of the structure")
    disconnect_rating: Amps | None = Field(None, description="rating of its disconnecting means [A]")
    emergency_disconnect: Flag | None = Field(None, description="whether there is an outdoor emergency disconnect")
    day: Day | None = Field(None, description="day by which sleeves and slab work must be decided")
    note: Text = Field("", description="remark")


Where = Literal["yard", "drive", "street", "slab", "building", "concrete"]
"""What lies above a trench: ground, the drive of a dwelling, a street or lot, a slab without vehicles, a building, concrete."""


class Trench(Item):
    """A trench, riser or run between two nodes, with the ducts it holds."""
    id: Id = Field(description="name of the edge")
    from_: Id = Field(alias="from", description="node at one end")
    to: Id = Field(description="node at the other end")
    length: Length = Field(description="length along the trench [ft]")
    rise: LengthOrNone = Field(0.0, description="vertical run added to the length [ft]")
    ducts: Count = Field(1, description="number of ducts")
    use: Literal["power", "comm", "both", "path", "gas"] = Field("power", description="what it carries")
    cover: Inches | None = Field(None, description="depth of cover [in]")
    location: Where | None = Field(None, description="what lies above it")
    ribbon: Inches | None = Field(None, description="height of the warning ribbon above the ducts [in]")
    separation: Inches | None = Field(None, description="earth between power ducts and communication ducts [in]")
    duct: TradeSize | None = Field(None, description="trade size of its ducts")
    note: Text = Field("", description="remark")


class SiteGraph(Strict):
    """Nodes with coordinates, and the trenches between them: one length feeds drop, fault and cost."""
    nodes: dict[Id, Point] = Field(description="node -> east and north [ft]; the id of a structure is its node")
    trenches: tuple[Trench, ...] = Field((), description="edges of the graph")
