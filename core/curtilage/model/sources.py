"""Other supplies than the utility: generators, storage, solar, transfer switches, alternate feeders. Data for later work."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Count, Flag, Id, Item, Poles, PowerFactor, Sets, Size, Stage, Strict, Text, none_if_blank
from curtilage.model.policy import Proof
from curtilage.model.trips import Trip
from curtilage.units import KW, Amps, Celsius, FaultAmps, FuelUse, Hours, KWh, Length, Percent, RatedC, Seconds, Sound, Volts

Place = Literal["indoors", "closet", "utility closet", "garage", "detached garage", "outside", "roof", "pad"]


class Generator(Item):
    """An engine generator."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands at")
    rating: KW = Field(description="nameplate power at sea level and standard temperature [kW]")
    fuel: Literal["natural gas", "propane", "diesel"] = Field(description="fuel")
    site_rating: KW | None = Field(None, description="power at the site as stated [kW]; left out: derated by the method")
    power_factor: PowerFactor | None = Field(None, description="rated power factor")
    breaker: Amps | None = Field(None, description="output overcurrent device [A]")
    subtransient: Percent | None = Field(None, description="subtransient reactance, of its own rating [%]")
    transient: Percent | None = Field(None, description="transient reactance, of its own rating [%]")
    fuel_use: FuelUse | None = Field(None, description="gas at full load, per kWh delivered [ft3/kWh]")
    start: Seconds | None = Field(None, description="time from call to load [s]")
    sound: Sound | None = Field(None, description="sound level at the stated distance [dBA]")
    sound_at: Length | None = Field(None, description="distance of the sound level [ft]")
    to_opening: Length | None = Field(None, description="shortest distance to an opening in a wall [ft]")
    to_line: Length | None = Field(None, description="shortest distance to the property line [ft]")
    emergency_stop: Flag | None = Field(None, description="whether there is an outdoor emergency shutdown device")
    neutral_bond: Flag = Field(False, description="whether neutral and frame are bonded in it")
    nameplate: Proof | None = Field(None, description="document of the nameplate")
    note: Text = Field("", description="remark")


class Storage(Item):
    """Battery storage: like units at one place."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands in")
    location: Place = Field(description="kind of place; limits of stored energy depend on it")
    units: Count = Field(description="number of like units")
    energy: KWh = Field(description="rated energy of one unit [kWh]")
    power: KW = Field(description="continuous power of one unit [kW]")
    surge: KW | None = Field(None, description="short-time power of one unit [kW]")
    surge_time: Seconds | None = Field(None, description="how long the short-time power holds [s]")
    usable: Percent | None = Field(None, description="share of the rated energy that may be used [%]")
    efficiency: Percent | None = Field(None, description="round-trip efficiency [%]")
    reserve: Percent | None = Field(None, description="charge at which the generator is called [%]")
    spacing: Length | None = Field(None, description="distance between units and to openings [ft]")
    vehicle_protection: Flag | None = Field(None, description="whether it is protected from vehicles")
    detection: Flag | None = Field(None, description="whether heat or smoke detection is there")
    emergency_stop: Flag | None = Field(None, description="whether there is an emergency shutdown device")
    listed_for_dwellings: Proof | None = Field(None, description="proof that it is marked for use in dwelling units")
    panel: Id | None = Field(None, description="panel it feeds")
    breaker: Amps | None = Field(None, description="output overcurrent device [A]")
    note: Text = Field("", description="remark")


class Solar(Item):
    """A solar supply."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure that carries it")
    power: KW = Field(description="rated alternating-current power [kW]")
    panel: Id = Field(description="panel it feeds")
    breaker: Amps | None = Field(None, description="overcurrent device [A]")
    controlled_to: Amps | None = Field(None, description="current a power control system holds it to [A]")
    status: Literal["base", "future", "provision"] = Field("base", description="whether it is built now")
    note: Text = Field("", description="remark")


class Transfer(Item):
    """A transfer switch or islanding device."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands at")
    normal: Id = Field(description="main, panel, feeder or bus on the normal side")
    alternate: Id = Field(description="source, bus or switch on the alternate side")
    load: Id = Field(description="panel or bus on the load side")
    kind: Literal["automatic", "manual", "island"] = Field(description="how it acts")
    rating: Amps = Field(description="rating [A]")
    breaker: Amps | None = Field(
        None, description="overcurrent device on the normal side [A]; left out: none nearer than the one ahead")
    poles: Poles = Field(description="switched poles")
    neutral_switched: Flag = Field(description="whether the neutral is switched")
    interrupting: FaultAmps | None = Field(None, description="withstand or interrupting rating [A]")
    service_equipment: Flag = Field(False, description="whether it is marked for use as service equipment")
    bonded: Flag = Field(False, description="whether neutral and ground are bonded in it")
    retransfer: Seconds | None = Field(None, description="delay before return to the utility [s]")
    note: Text = Field("", description="remark")


class Bus(Item):
    """A bus of the backed-up system that is not a panel of its own."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands at")
    rating: Amps = Field(description="rating [A]")
    interrupting: FaultAmps | None = Field(None, description="interrupting or short-circuit rating [A]")
    note: Text = Field("", description="remark")


class PanelSwitch(Strict):
    """What keeps the two supplies of a panel from being closed at once."""
    kind: Literal["automatic", "manual", "interlock"] = Field(
        description="a transfer switch, or breakers that hold each other open")
    poles: Poles = Field(description="switched poles")
    rating: Amps | None = Field(None, description="rating [A]; breakers of an interlock have their own")


class Alternate(Item):
    """A feeder of the backed-up system: from a bus to a panel that the utility feeds in normal operation."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="bus, source or switch it starts at")
    to: Id = Field(description="panel or bus it feeds")
    breaker: Amps | None = Field(None, description="overcurrent device [A]")
    trip: Trip | None = Field(None, description="when that device trips; left out: bounded")
    sets: Sets | None = Field(None, description="parallel sets; left out: chosen")
    size: Size | None = Field(None, description="phase conductor; left out: chosen")
    length: Length | None = Field(None, description="one-way length [ft]; left out: by the route")
    ambient: Celsius | None = Field(None, description="ambient temperature along the run [degC]")
    insulation: RatedC | None = Field(None, description="insulation temperature rating [degC]; left out: by the basis")
    tiers: tuple[Literal["T0", "T1", "T2", "T3"], ...] = Field((), description="tiers it carries")
    neutral_switched: Flag | None = Field(
        None, description="whether the switch between it and the normal feeder breaks the neutral; left out: not known")
    switch: PanelSwitch | None = Field(None, description="what keeps it and the normal feeder apart; left out: not known")
    note: Text = Field("", description="remark")


class ShedStage(Item):
    """One stage of load shedding."""
    id: Id = Field(description="short name")
    stage: Stage = Field(description="order of shedding, 1 first")
    when: Text = Field("", description="what starts it")
    holds: Hours | None = Field(None, description="how long it may stay shed [h]")


class Inlet(Item):
    """An inlet for a portable generator."""
    id: Id = Field(description="short name")
    panel: Id = Field(description="panel it feeds")
    rating: Amps = Field(description="rating [A]")
    volts: Volts = Field(240.0, description="voltage between lines [V]")
    interlocked: Flag = Field(description="whether an interlock keeps the two supplies apart")
    generator_bond: Flag | None = Field(
        None, description="whether the portable generator bonds its neutral to its frame; left out: not known")


class Sources(Strict):
    """Everything that can feed the estate besides the utility."""
    generators: tuple[Generator, ...] = Field((), description="engine generators")
    storage: tuple[Storage, ...] = Field((), description="battery storage")
    solar: tuple[Solar, ...] = Field((), description="solar supplies")
    transfers: tuple[Transfer, ...] = Field((), description="transfer switches and islanding devices")
    buses: tuple[Bus, ...] = Field((), description="buses of the backed-up system")
    alternates: tuple[Alternate, ...] = Field((), description="feeders of the backed-up system")
    stages: tuple[ShedStage, ...] = Field((), description="stages of load shedding")
    inlets: tuple[Inlet, ...] = Field((), description="inlets for portable generators")
    signs: Annotated[Proof | None, BeforeValidator(none_if_blank)] = Field(
        None, description="proof of the source directory signs")
