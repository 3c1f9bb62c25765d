"""Electrodes and bonds, structure by structure, and the other sources whose neutral is grounded apart."""
from typing import Literal

from pydantic import Field

from curtilage.model.base import Count, Flag, Id, Item, Sets, Size, Strict, Text
from curtilage.model.policy import Proof
from curtilage.model.service import Material
from curtilage.units import Area, Inches, Length, Ohms

ElectrodeKind = Literal["concrete-encased", "rod", "ring", "plate", "water pipe", "structural metal"]
MetalSystem = Literal["water", "gas", "steel"]


class Electrode(Item):
    """One grounding electrode, or several alike."""
    id: Id = Field(description="short name")
    kind: ElectrodeKind = Field(description="kind")
    count: Count = Field(1, description="number of like electrodes")
    length: Length | None = Field(None, description="length in contact with earth or in concrete [ft]; of a ring: around")
    diameter: Inches | None = Field(None, description="diameter of rod, pipe or reinforcing bar [in]")
    wire: Size | None = Field(None, description="bare copper wire that a ring or a concrete-encased electrode is made of")
    depth: Length | None = Field(None, description="depth of a ring below ground [ft]")
    area: Area | None = Field(None, description="surface of a plate that touches earth [ft2]")
    spacing: Length | None = Field(None, description="distance between neighbours of several like rods [ft]")
    listed: Flag = Field(False, description="whether a rod is listed, and so may be thinner")
    resistance: Ohms | None = Field(None, description="measured resistance to earth [ohm]")
    measured: Proof | None = Field(None, description="record of that measurement")
    conductor: Size | None = Field(None, description="grounding electrode conductor; left out: chosen")
    material: Material = Field("cu", description="material of the grounding electrode conductor")
    through: Id | None = Field(
        None, description="electrode of the same structure that its conductor runs over; left out: straight from the disconnect")
    pour: Id | None = Field(None, description="event of the sequence at which its concrete is placed")
    tied: Proof | None = Field(None, description="proof that it was tied before concrete was placed")
    note: Text = Field("", description="remark")


class Grounding(Item):
    """Grounding and bonding at one structure."""
    id: Id = Field(description="the structure's id")
    electrodes: tuple[Electrode, ...] = Field((), description="electrodes present")
    neutral_bond: Flag = Field(False, description="whether neutral and ground are bonded here")
    bonding_jumper: Size | None = Field(None, description="main bonding jumper at the service; left out: chosen")
    jumper_material: Material = Field("cu", description="material of the main bonding jumper")
    intersystem: Flag | None = Field(None, description="whether there is an intersystem bonding termination")
    metal: tuple[MetalSystem, ...] | None = Field(
        None, description="metal systems in the structure: water, gas, steel; an empty list says there are none")
    water: Flag | None = Field(None, description="whether metal water piping is bonded")
    gas: Flag | None = Field(None, description="whether gas piping is bonded")
    steel: Flag | None = Field(None, description="whether structural steel is bonded")
    lightning: Flag | None = Field(
        None, description="whether a lightning protection system is installed; left out: as said for the whole estate")
    lightning_bonded: Flag | None = Field(None, description="whether that system is bonded to the electrodes")
    note: Text = Field("", description="remark")


class SourceConductors(Item):
    """Conductors of a source whose neutral a switch breaks: its own bonding jumper goes by them."""
    id: Id = Field(description="generator or storage")
    sets: Sets = Field(1, description="parallel sets")
    size: Size = Field(description="ungrounded conductor of one set")
    neutral: Size = Field(description="neutral of one set")
    metal: Material = Field("cu", description="material of these conductors")
    jumper: Size | None = Field(None, description="system bonding jumper; left out: chosen")
    jumper_material: Material = Field("cu", description="material of the system bonding jumper")


class GroundingPlan(Strict):
    """Grounding of the whole estate."""
    structures: tuple[Grounding, ...] = Field((), description="grounding, structure by structure")
    sources: tuple[SourceConductors, ...] = Field((), description="conductors of sources that are grounded by themselves")
    lightning: Flag | None = Field(None, description="whether any structure has a lightning protection system")
    note: Text = Field("", description="remark")
