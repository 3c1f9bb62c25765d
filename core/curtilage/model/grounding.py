"""Electrodes and bonds, structure by structure. Data for later work."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, Flag, Id, Item, Size, Strict, Text
from curtilage.model.policy import Proof
from curtilage.model.service import Material
from curtilage.units import Length, Ohms


class Electrode(Item):
    """One grounding electrode."""
    id: Id = Field(description="short name")
    kind: Literal["concrete-encased", "rod", "ring", "plate", "water pipe", "structural metal"] = Field(description="kind")
    count: Count = Field(1, description="number of like electrodes")
    length: Length | None = Field(None, description="length in contact with earth or in concrete [ft]")
    resistance: Ohms | None = Field(None, description="measured resistance to earth [ohm]")
    conductor: Size | None = Field(None, description="grounding electrode conductor; left out: chosen")
    material: Material = Field("cu", description="material of the grounding electrode conductor")
    tied: Proof | None = Field(None, description="proof that it was tied before concrete was placed")
    note: Text = Field("", description="remark")


class Grounding(Item):
    """Grounding and bonding at one structure."""
    id: Id = Field(description="the structure's id")
    electrodes: tuple[Electrode, ...] = Field((), description="electrodes present")
    neutral_bond: Flag = Field(False, description="whether neutral and ground are bonded here")
    bonding_jumper: Size | None = Field(None, description="main or system bonding jumper; left out: chosen")
    intersystem: Flag | None = Field(None, description="whether there is an intersystem bonding termination")
    water: Flag | None = Field(None, description="whether metal water piping is bonded")
    gas: Flag | None = Field(None, description="whether gas piping is bonded")
    steel: Flag | None = Field(None, description="whether structural steel is bonded")
    lightning: Flag | None = Field(None, description="whether a lightning protection system is installed")
    lightning_bonded: Flag | None = Field(None, description="whether that system is bonded to the electrodes")
    note: Text = Field("", description="remark")


class GroundingPlan(Strict):
    """Grounding of the whole estate."""
    structures: tuple[Grounding, ...] = Field((), description="grounding, structure by structure")
    note: Text = Field("", description="remark")
