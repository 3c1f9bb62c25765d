"""What is built for later or only for a time: provisions, temporary power, vehicles, communication. Data for later work."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Count, Day, Flag, Id, Item, Size, Strict, Text, TradeSize, Words, none_if_blank
from curtilage.model.policy import Proof
from curtilage.model.service import Material
from curtilage.units import KW, VA, Amps, Days, FuelUse, Hours, KWh, Length, Percent, Sound, Volts


class Provision(Item):
    """Something put in now for a later use, or declined in writing."""
    id: Id = Field(description="short name")
    kind: Literal["raceway", "sleeve", "space", "pad", "inlet", "circuit", "tee", "conductor", "other"] = Field(
        description="what it is")
    serves: Words = Field(description="the later use")
    structure: Id | None = Field(None, description="structure it is in")
    from_: Id | None = Field(None, alias="from", description="structure, panel or node at one end")
    to: Id | None = Field(None, description="structure, panel or node at the other end")
    count: Count = Field(1, description="number")
    size: TradeSize | None = Field(None, description="trade size [in]")
    use: Literal["power", "comm", "gas", "water"] | None = Field(None, description="what it will carry")
    length: Length | None = Field(None, description="length [ft]")
    load: Id | None = Field(None, description="load row that counts it")
    capped: Flag | None = Field(None, description="whether ends are capped and labelled")
    declined: Proof | None = Field(None, description="who declined it, and when")
    decide_by: Day | None = Field(None, description="last day to put it in")
    note: Text = Field("", description="remark")


class TemporaryService(Item):
    """A temporary service."""
    id: Id = Field(description="short name")
    at: Id = Field(description="structure or node")
    rating: Amps = Field(description="rating [A]")
    boards: Count = Field(1, description="satellite boards")
    gfci: Flag = Field(description="whether all receptacles for personnel are protected")
    permit: Text = Field("", description="permit")
    since: Day | None = Field(None, description="first day")
    until: Day | None = Field(None, description="day of removal or conversion")
    feeds: tuple[Id, ...] = Field((), description="structures it feeds")
    approval: Proof | None = Field(None, description="approval to feed a building from it")
    pole: Proof | None = Field(None, description="proof of electrode, bracing and height of the pole, as the utility asks")
    converts_to: Text = Field("", description="what it becomes; empty: it is removed")
    energized: Flag = Field(True, description="whether it is energized")
    note: Text = Field("", description="remark")


class TemporaryBoard(Item):
    """A satellite board at a working face, fed from a temporary service."""
    id: Id = Field(description="short name")
    service: Id = Field(description="temporary service that feeds it")
    at: Id = Field(description="structure or node")
    breaker: Amps | None = Field(None, description="overcurrent device of its feeder [A]; left out: chosen")
    size: Size | None = Field(None, description="conductor of its feeder; left out: chosen")
    material: Material | None = Field(None, description="conductor material; left out: by the basis of feeders")
    length: Length | None = Field(None, description="one-way length [ft]; left out: by the route through the site graph")
    receptacles: Count | None = Field(None, description="receptacles of 125 V on it")
    gfci: Flag = Field(description="whether all of its receptacles for personnel are protected")
    cord: Length | None = Field(None, description="longest cord from it to the working face [ft]")
    cord_size: Size = Field("12", description="conductor of that cord, copper")
    buried: Flag = Field(False, description="whether its feeder lies in the ground")
    mapped: Proof | None = Field(None, description="record of a buried route: drawing and photographs with dimensions")
    until: Day | None = Field(None, description="day of removal; left out: that of its service")


class TemporaryLoad(Item):
    """Load on a board or on a temporary service, in one season or all year."""
    id: Id = Field(description="short name")
    on: Id = Field(description="board or temporary service that carries it")
    what: Words = Field(description="what it is")
    kind: Literal["tool", "heater", "drying", "pump", "lighting", "trailer", "other"] = Field(
        description="tools are diversified, heaters and drying never are")
    va: VA = Field(description="apparent power of one [VA]")
    count: Count = Field(1, description="number of them")
    volts: Volts = Field(120.0, description="voltage [V]")
    season: Literal["all", "winter", "summer"] = Field("all", description="when it runs")
    continuous: Flag = Field(False, description="whether it runs three hours or more; heaters and drying always do")


class TemporaryFallback(Strict):
    """What carries the site if the utility is late: a portable generator."""
    delay: Days = Field(description="delay to be carried [days]")
    hours: Hours = Field(description="hours a week that it runs [h]")
    generator: KW = Field(description="rating of the set at the site [kW]")
    fuel: Literal["natural gas", "propane", "diesel", "gasoline"] = Field(description="fuel")
    mean: Percent = Field(50.0, description="mean load while it runs, of its rating [%]")
    fuel_use: FuelUse | None = Field(None, description="gas at full load, per kWh delivered [ft3/kWh]; left out: by the rule")
    sound: Sound | None = Field(None, description="sound level at the stated distance [dBA]")
    sound_at: Length | None = Field(None, description="distance of the sound level [ft]")
    boundary: Id | None = Field(None, description="property line that is nearest to it")
    to_line: Length | None = Field(None, description="its distance to that line [ft]")


class Temporary(Strict):
    """Power during construction."""
    services: tuple[TemporaryService, ...] = Field((), description="temporary services")
    boards: tuple[TemporaryBoard, ...] = Field((), description="satellite boards")
    loads: tuple[TemporaryLoad, ...] = Field((), description="loads by season")
    fallback: TemporaryFallback | None = Field(None, description="what carries the site if the utility is late")
    tools_share: Percent | None = Field(None, description="share of the tools that run at once [%]; left out: common practice")
    final: Day | None = Field(None, description="day of the final inspection")
    slip: Text = Field("", description="plan if the utility is late")
    note: Text = Field("", description="remark")


class Vehicle(Item):
    """A vehicle that charges here."""
    id: Id = Field(description="short name")
    supply: Id = Field(description="load row of its supply")
    energy: KWh = Field(description="energy needed in a night [kWh]")
    arrives: Text = Field("", description="hour of arrival")
    leaves: Text = Field("", description="hour of departure")
    least: Amps | None = Field(None, description="least charging current [A]")
    most: KW | None = Field(None, description="most that the vehicle takes [kW]")


class Charging(Strict):
    """Vehicles and their energy."""
    vehicles: tuple[Vehicle, ...] = Field((), description="vehicles")
    note: Text = Field("", description="remark")


class Link(Item):
    """A communication link between structures."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="structure at one end")
    to: Id = Field(description="structure at the other end")
    medium: Literal["fiber", "copper", "coaxial", "wireless"] = Field(description="medium")
    protected: Flag | None = Field(None, description="whether primary protectors are fitted")
    raceway: Id | None = Field(None, description="raceway it lies in")


class TierGoal(Item):
    """What a backup tier must do."""
    id: Literal["T0", "T1", "T2", "T3"] = Field(description="tier")
    meaning: Words = Field(description="meaning in words")
    hours: Hours | None = Field(None, description="time it must be carried [h]")


class Event(Item):
    """A step of construction with its day."""
    id: Id = Field(description="short name")
    what: Words = Field(description="what happens")
    date: Annotated[Day | None, BeforeValidator(none_if_blank)] = Field(None, description="day")
    after: tuple[Id, ...] = Field((), description="events that come before")
    hold: Flag = Field(False, description="whether work stops until somebody has looked")
