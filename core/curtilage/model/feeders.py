"""Feeders between mains and panels. What is stated is checked; what is left out is chosen."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Flag, Id, Item, PowerFactor, Sets, Size, Text, TradeSize, Wires
from curtilage.model.panels import Lugs
from curtilage.model.service import Material, RacewayKind
from curtilage.model.trips import Trip
from curtilage.units import Amps, Celsius, Inches, Length, RatedC


class Feeder(Item):
    """A feeder from a main or panel to a panel."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="main or panel it starts at")
    to: Id = Field(description="panel it feeds")
    breaker: Amps | None = Field(None, description="overcurrent device [A]; left out: chosen")
    trip: Trip | None = Field(None, description="when that device trips; left out: bounded")
    sets: Sets | None = Field(None, description="parallel sets; left out: chosen")
    size: Size | None = Field(None, description="phase conductor; left out: chosen")
    neutral: Size | None = Field(None, description="neutral conductor; left out: by the basis")
    egc: Size | None = Field(None, description="equipment grounding conductor; left out: chosen")
    egc_insulated: Flag | None = Field(None, description="whether the equipment grounding conductor is insulated")
    length: Length | None = Field(None, description="one-way length [ft]; left out: by the route through the site graph")
    material: Material | None = Field(None, description="conductor material; left out: by the basis")
    insulation: RatedC | None = Field(None, description="insulation temperature rating [degC]; left out: by the basis")
    terminals: RatedC | None = Field(None, description="terminal temperature rating [degC]; left out: by the basis")
    raceway: RacewayKind | None = Field(None, description="raceway material; left out: by the basis")
    trade_size: TradeSize | None = Field(None, description="trade size of each raceway")
    conductors: Wires | None = Field(None, description="current-carrying conductors in one raceway; left out: of one set")
    ambient: Celsius | None = Field(None, description="ambient temperature along the run [degC]; left out: that of site or soil")
    power_factor: PowerFactor | None = Field(None, description="power factor for voltage drop; left out: by the basis")
    dwelling_rule: Flag | None = Field(
        None, description="whether the reduced conductor of a whole dwelling is claimed (Section 310.12); left out: not used")
    neutral_rule: Literal["full", "calculated"] | None = Field(None, description="neutral rule; left out: by the basis")
    location: Text = Field("", description="where its overcurrent device stands")
    lugs: Lugs | None = Field(None, description="what the terminals of its overcurrent device take")
    cover: Inches | None = Field(None, description="depth of cover [in]")
    use: Literal["normal", "essential", "standby", "source"] = Field("normal", description="what the feeder is for")
    note: Text = Field("", description="remark")
