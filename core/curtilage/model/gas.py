"""Fuel gas. Data for later work."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, Id, Item, Ratio, Strict, Text
from curtilage.units import MBH, GasFlow, HeatValue, Length, Pressure


class Appliance(Item):
    """A gas appliance, or several alike."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands at")
    name: Text = Field("", description="name in words")
    input: MBH | None = Field(None, description="heat input of one [MBH]; left out for a generator: from its fuel use")
    count: Count = Field(1, description="number of like appliances")
    source: Id | None = Field(None, description="generator it stands for")
    pressure: Pressure | None = Field(None, description="pressure needed at the appliance [psi]")
    tier: Literal["T0", "T1", "T2", "T3"] | None = Field(None, description="whether it runs in an outage, and in which tier")


class GasRun(Item):
    """A length of pipe."""
    id: Id = Field(description="short name")
    from_: Id = Field(alias="from", description="meter, run or node it starts at")
    to: Id = Field(description="run, node or appliance it feeds")
    length: Length = Field(description="length [ft]")
    size: Text = Field("", description="pipe size as its table names it; left out: chosen")
    material: Literal["steel", "copper", "polyethylene", "corrugated"] = Field("steel", description="pipe material")
    pressure: Pressure | None = Field(None, description="inlet pressure [psi]")
    drop: Pressure | None = Field(None, description="pressure drop allowed [psi]")


class GasMeter(Strict):
    """The meter of the gas utility."""
    capacity: GasFlow = Field(description="capacity of the meter class [ft3/h]")
    pressure: Pressure = Field(description="delivery pressure [psi]")
    structure: Id | None = Field(None, description="structure it stands at")
    reference: Text = Field("", description="letter or record")


class Gas(Strict):
    """Fuel gas of the estate."""
    utility: Text = Field("", description="who serves")
    heating_value: HeatValue = Field(description="heating value at the site [Btu/ft3]")
    specific_gravity: Ratio | None = Field(None, description="specific gravity, air = 1")
    meter: GasMeter | None = Field(None, description="the meter")
    appliances: tuple[Appliance, ...] = Field((), description="appliances")
    runs: tuple[GasRun, ...] = Field((), description="pipes")
    note: Text = Field("", description="remark")
