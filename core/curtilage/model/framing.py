"""Where wiring may go in a building that is open and framed: cavities, and what must be crossed between them."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, Id, Item, Text
from curtilage.model.policy import Proof
from curtilage.units import Inches, Length, LengthOrNone

MemberKind = Literal["stud", "bearing stud", "non-bearing stud", "joist", "rafter", "beam", "lvl", "i-joist", "truss", "glulam",
                     "steel", "masonry", "concrete"]


class Passage(Item):
    """A way from one cavity to another, along or through the structure."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="cavity at one end")
    to: Id = Field(description="cavity at the other end")
    length: Length = Field(description="length [ft]")
    rise: LengthOrNone = Field(0.0, description="vertical run added to the length [ft]")
    crosses: MemberKind | None = Field(
        None, description="member that must be bored, a stud held to the limits of a bearing one until it is said to be "
                          "non-bearing; left out: nothing is bored")
    members: Count = Field(1, description="how many of them")
    hole: Inches | None = Field(None, description="diameter of the hole that is wanted [in]")
    depth: Inches | None = Field(None, description="depth of the member [in]")
    edge: Inches | None = Field(None, description="distance from the edge of the hole to the nearest edge of the member [in]")
    approval: Proof | None = Field(None, description="approval of the maker or of an engineer")
    note: Text = Field("", description="remark")


class Wanted(Item):
    """A run that is to be brought from one cavity to another."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="cavity where it starts")
    to: Id = Field(description="cavity where it ends")
    what: Text = Field("", description="what it carries")


class Framing(Item):
    """The cavities of one structure and the ways between them. Its id is that of the structure."""
    id: Id = Field(description="structure")
    passages: tuple[Passage, ...] = Field(min_length=1, description="ways between cavities")
    wanted: tuple[Wanted, ...] = Field((), description="runs that are to be brought through")
    note: Text = Field("", description="remark")
