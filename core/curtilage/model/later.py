"""What is built for later or only for a time: provisions, temporary power, vehicles, communication. Data for later work."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Count, Day, Flag, Id, Item, Strict, Text, TradeSize, Words, none_if_blank
from curtilage.model.policy import Proof
from curtilage.units import KW, Amps, Hours, KWh, Length


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
    energized: Flag = Field(True, description="whether it is energized")
    note: Text = Field("", description="remark")


class Temporary(Strict):
    """Power during construction."""
    services: tuple[TemporaryService, ...] = Field((), description="temporary services")
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
