"""Raceways with what lies in them, boxes, and holes in the structure."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, CountOrNone, Flag, Id, Item, Size, Text, TradeSize
from curtilage.model.framing import MemberKind
from curtilage.model.policy import Proof
from curtilage.model.pulls import Entry
from curtilage.model.site import Where
from curtilage.units import Angle, Celsius, Inches, Length, LengthOrNone, Tension, Weight


class Member(Item):
    """What lies in a raceway: the conductors of a feeder or load, or a cable of another system."""
    id: Id = Field(description="short name")
    kind: Literal["service", "feeder", "branch", "control", "class 2", "comm", "fiber", "coaxial", "ground", "spare"] = Field(
        description="what it is")
    of: Id | None = Field(None, description="feeder, alternate or load it belongs to")
    size: Size | None = Field(None, description="conductor size; left out: as the service, feeder or circuit has it")
    count: Count = Field(1, description="number of conductors or cables")
    insulation: Literal["thwn-2", "xhhw-2", "rhw-2", "rhw-2 uncovered", "bare", "other"] | None = Field(
        None, description="insulation type; left out: common practice")
    compact: Flag = Field(False, description="whether its strands are compact")
    diameter: Inches | None = Field(None, description="outside diameter of one; of an elliptical cable the larger one [in]")
    weight: Weight | None = Field(None, description="weight of one cable, by its maker [lb/ft]")
    tension: Tension | None = Field(None, description="tension that its maker allows on one cable [lb]")


class Raceway(Item):
    """A raceway between two places."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="structure, panel or node at one end")
    to: Id = Field(description="structure, panel or node at the other end")
    kind: Literal["emt", "imc", "rmc", "fmc", "lfmc", "lfnc-a", "lfnc-b", "pvc40", "pvc80", "hdpe"] = Field(
        description="type of raceway")
    size: TradeSize | None = Field(None, description="trade size [in]; left out: chosen")
    count: Count = Field(1, description="raceways alike, each with the same members")
    length: Length | None = Field(None, description="length [ft]; left out: by the route between its ends")
    bends: Angle | None = Field(None, description="sum of bends between pulls [deg]")
    trench: Id | None = Field(None, description="the one trench it lies in")
    route: tuple[Id, ...] = Field((), description="the trenches it lies in; left out: the shortest route between its ends")
    cover: Inches | None = Field(None, description="depth of cover [in]; left out: that of its trenches")
    location: Where | None = Field(None, description="what it lies under, where it is in no trench of the site graph")
    ribbon: Inches | None = Field(None, description="height of the warning ribbon above it [in]; left out: that of its trenches")
    exposed: LengthOrNone | None = Field(None, description="longest straight run in the open between fixed points [ft]; 0: none")
    warmest: Celsius | None = Field(None, description="warmest it will be in the open [degC]; left out: the site's design "
                                                      "temperature and sun")
    coldest: Celsius | None = Field(None, description="coldest it will be in the open [degC]; left out: the site's winter")
    members: tuple[Member, ...] = Field((), description="what lies in it")
    sealed: Flag | None = Field(None, description="whether its ends are sealed")
    expansion: Flag | None = Field(None, description="whether it has an expansion fitting")
    use: Literal["power", "comm", "spare", "sleeve"] = Field("power", description="what it is for")
    note: Text = Field("", description="remark")


class Penetration(Item):
    """A hole or notch in a member of the structure."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it is in")
    member: MemberKind = Field(
        description="kind of member; a stud is held to the limits of a bearing one until it is said to be non-bearing")
    hole: Inches | None = Field(None, description="diameter of the hole [in]")
    notch: Inches | None = Field(None, description="depth of the notch [in]")
    depth: Inches | None = Field(None, description="depth of the member [in]")
    edge: Inches | None = Field(None, description="distance from the edge of the hole to the nearest edge of the member [in]")
    plate: Flag | None = Field(None, description="whether a steel plate or sleeve guards the wiring from nails and screws")
    doubled: Flag = Field(False, description="whether a stud is doubled at the hole")
    at_end: Flag = Field(False, description="whether a notch is at the end of its member")
    middle_third: Flag | None = Field(None, description="whether a notch lies in the middle third of the span")
    conduit: Flag = Field(False, description="whether rigid or intermediate conduit, PVC or EMT passes, which needs no plate")
    fire_rated: Flag = Field(False, description="whether the assembly is fire rated")
    between_floors: Flag = Field(False, description="whether it opens a fireblocked way between storeys or into the attic")
    sealed: Flag | None = Field(None, description="whether it is firestopped or fireblocked")
    approval: Proof | None = Field(None, description="approval of the maker or of an engineer")
    note: Text = Field("", description="remark")


class Box(Item):
    """A pull or junction box, or a handhole."""
    id: Id = Field(description="short name")
    at: Id = Field(description="structure, node or trench")
    length: Inches = Field(description="inside length, from west to east [in]")
    width: Inches = Field(description="inside width, from south to north [in]")
    depth: Inches = Field(description="inside depth, from the cover to the back [in]")
    raceways: tuple[Id, ...] = Field((), description="raceways that enter it, or feeders whose raceways are not described")
    straight: Flag = Field(True, description="whether they are pulled straight through its length; no: its entries are described")
    entries: tuple[Entry, ...] = Field((), description="where raceways enter it and where their conductors leave")
    largest: Size | None = Field(None, description="largest conductor in it; left out: by what lies in its raceways")
    spare_entries: CountOrNone = Field(0, description="entries kept free")
