"""Panels: where they stand, what they are rated for, how many spaces they have."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, CountOrNone, Flag, Id, Item, Sets, Size, Strict, Text
from curtilage.model.service import Condition
from curtilage.units import Amps, FaultAmps, Inches


class Lugs(Strict):
    """What terminals take, and the room to bend conductors into them."""
    smallest: Size | None = Field(None, description="smallest conductor")
    largest: Size | None = Field(None, description="largest conductor")
    sets: Sets = Field(1, description="conductors per pole")
    bending: Inches | None = Field(None, description="space from the terminal to the wall that it faces [in]")
    opposite: Flag = Field(True, description="whether the conductors come through the wall that the terminals face")
    adapter: Size | None = Field(
        None, description="conductor behind a listed reducer or tap box that stands in front of these terminals")


class Panel(Item):
    """A panel or distribution board."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands in")
    rating: Amps | None = Field(None, description="bus rating [A]; left out: chosen")
    main: Amps | None = Field(None, description="main breaker in the panel [A]; left out: main lugs only")
    spaces: CountOrNone | None = Field(None, description="pole spaces")
    interrupting: FaultAmps | None = Field(None, description="interrupting or short-circuit rating [A]")
    series_rated: Flag = Field(False, description="whether the rating is a tested series combination")
    series_evidence: Text = Field("", description="document of the series rating")
    series_with: Text = Field("", description="upstream device of the tested combination")
    location: Text = Field("", description="where it hangs")
    environment: Literal["dry", "damp", "wet", "corrosive"] | None = Field(None, description="conditions at the panel")
    tier: Literal["T0", "T1", "T2", "T3"] | None = Field(None, description="backup tier that the panel is meant for")
    lugs: Lugs | None = Field(None, description="what its main terminals take")
    surge_protection: Flag | None = Field(None, description="whether a surge protective device stands in or beside it")
    neutral_bond: Flag = Field(False, description="whether neutral and ground are bonded in it")
    depth: Inches | None = Field(None, description="depth of the working space [in]")
    width: Inches | None = Field(None, description="width of the working space [in]")
    height: Inches | None = Field(None, description="height of the working space [in]")
    condition: Condition | None = Field(None, description="what faces it: 1 insulated or nothing, 2 grounded parts, 3 live parts")
    dedicated: Flag | None = Field(None, description="whether the space above it is kept free of foreign systems")
    equipment_width: Inches | None = Field(None, description="width of the equipment itself [in]")
    indoors: Flag | None = Field(None, description="whether it stands in a room; asked of large equipment, with its entrances")
    entrances: Count | None = Field(None, description="entrances to its working space, one at each end where there are two")
    controllable: Flag = Field(False, description="whether its breakers can be switched by a controller")
    note: Text = Field("", description="remark")
