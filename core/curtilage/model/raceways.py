"""Raceways with what lies in them, and holes in the structure. Data for later work."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, CountOrNone, Flag, Id, Item, Size, Text, TradeSize
from curtilage.model.policy import Proof
from curtilage.units import Angle, Inches, Length


class Member(Item):
    """What lies in a raceway: the conductors of a feeder or load, or a cable of another system."""
    id: Id = Field(description="short name")
    kind: Literal["feeder", "branch", "control", "class 2", "comm", "fiber", "coaxial", "ground", "spare"] = Field(
        description="what it is")
    of: Id | None = Field(None, description="feeder or load it belongs to")
    size: Size | None = Field(None, description="conductor size")
    count: Count = Field(1, description="number of conductors or cables")
    insulation: Literal["thwn-2", "xhhw-2", "rhw-2", "bare", "other"] | None = Field(None, description="insulation type")
    diameter: Inches | None = Field(None, description="outside diameter of one [in]")


class Raceway(Item):
    """A raceway between two places."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="structure, panel or node at one end")
    to: Id = Field(description="structure, panel or node at the other end")
    kind: Literal["emt", "imc", "rmc", "fmc", "lfmc", "lfnc-a", "lfnc-b", "pvc40", "pvc80", "hdpe"] = Field(
        description="type of raceway")
    size: TradeSize = Field(description="trade size [in]")
    length: Length | None = Field(None, description="length [ft]")
    bends: Angle | None = Field(None, description="sum of bends between pulls [deg]")
    trench: Id | None = Field(None, description="trench it lies in")
    cover: Inches | None = Field(None, description="depth of cover [in]")
    members: tuple[Member, ...] = Field((), description="what lies in it")
    sealed: Flag | None = Field(None, description="whether its ends are sealed")
    expansion: Flag | None = Field(None, description="whether it has an expansion fitting")
    use: Literal["power", "comm", "spare", "sleeve"] = Field("power", description="what it is for")
    note: Text = Field("", description="remark")


class Penetration(Item):
    """A hole or notch in a member of the structure."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it is in")
    member: Literal["stud", "bearing stud", "joist", "rafter", "beam", "lvl", "i-joist", "truss", "glulam", "masonry",
                    "concrete"] = Field(description="kind of member")
    hole: Inches | None = Field(None, description="diameter of the hole [in]")
    notch: Inches | None = Field(None, description="depth of the notch [in]")
    depth: Inches | None = Field(None, description="depth of the member [in]")
    edge: Inches | None = Field(None, description="distance from hole to edge [in]")
    fire_rated: Flag = Field(False, description="whether the assembly is fire rated")
    sealed: Flag | None = Field(None, description="whether it is firestopped or fireblocked")
    approval: Proof | None = Field(None, description="approval of the maker or of an engineer")
    note: Text = Field("", description="remark")


class Box(Item):
    """A pull or junction box."""
    id: Id = Field(description="short name")
    at: Id = Field(description="structure or node")
    length: Inches = Field(description="inside length [in]")
    width: Inches = Field(description="inside width [in]")
    depth: Inches = Field(description="inside depth [in]")
    raceways: tuple[Id, ...] = Field((), description="raceways that enter it")
    straight: Flag = Field(True, description="whether it is a straight pull")
    spare_entries: CountOrNone = Field(0, description="entries kept free")
