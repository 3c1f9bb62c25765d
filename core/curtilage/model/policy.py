"""What the people of the project decided: margins, bases of design, method readings, energy management, groups."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Day, Flag, Id, Item, PowerFactor, Size, Strict, Text, Wires, Words, none_if_blank
from curtilage.model.service import Material, RacewayKind
from curtilage.model.trips import Trip
from curtilage.units import Amps, Drop, Growth, Hours, LengthOrNone, Percent, RatedC, Seconds


class Prepared(Strict):
    """Who prepared the design, and when."""
    by: Text = Field("", description="name of the preparer")
    date: Day | None = Field(None, description="day of the design")
    revision: Text = Field("", description="revision")
    license: Text = Field("", description="licence or seal of the preparer")


class Answer(Item):
    """A question put to the authority, and what came back."""
    id: Id = Field(description="short name of the question")
    check: Text = Field("", description="number of the check that it answers")
    question: Text = Field("", description="the question in words")
    asked: Day | None = Field(None, description="day it was asked")
    answer: Literal["accepted", "rejected", "pending"] = Field("pending", description="the answer")
    date: Day | None = Field(None, description="day of the answer")
    reference: Text = Field("", description="letter or record")


class Authority(Strict):
    """The authority having jurisdiction and its local rules."""
    name: Text = Field("", description="name of the authority")
    signature_above: Annotated[Amps | None, BeforeValidator(none_if_blank)] = Field(
        None, description="service rating above which a seal is asked for [A]; empty: unknown")
    reviewer: Text = Field("", description="who reviews")
    answers: tuple[Answer, ...] = Field((), description="questions and answers")


class Policy(Strict):
    """Margins and limits of this project; what is left out follows the edition's practice data."""
    growth: Growth | None = Field(None, description="margin kept at every main, feeder and panel [%]")
    assumed_share: Percent | None = Field(None, description="share of connected load that may rest on assumptions [%]")
    feeder_drop: Drop | None = Field(None, description="voltage drop allowed on a feeder [%]")
    branch_drop: Drop | None = Field(None, description="voltage drop allowed on a branch circuit [%]")
    total_drop: Drop | None = Field(None, description="voltage drop allowed from service to outlet [%]")
    sensitive_drop: Drop | None = Field(None, description="voltage drop allowed to sensitive electronics [%]")
    spare_spaces: Percent | None = Field(None, description="share of panel spaces kept free [%]")
    leg_imbalance: Percent | None = Field(None, description="difference between legs allowed, of their average [%]")
    clearing: Seconds | None = Field(None, description="longest time a far-end fault may take to clear [s]")
    source_loading: Percent | None = Field(None, description="share of a derated generator that may be used [%]")
    starting_dip: Percent | None = Field(None, description="voltage dip allowed when a motor starts [%]")
    vehicle_supply: Literal["inside", "outside"] | None = Field(
        None, description="whether vehicle supply stands inside the optional method's reduced part; left out: both shown")


class FeederBasis(Strict):
    """How feeders are built unless one says otherwise."""
    material: Material = Field("al", description="conductor material")
    insulation: RatedC = Field(90.0, description="insulation temperature rating [degC]")
    terminals: RatedC = Field(75.0, description="temperature rating of the terminals [degC]")
    raceway: RacewayKind = Field("pvc", description="raceway material")
    wire: Literal["thwn-2", "xhhw-2", "rhw-2"] | None = Field(None, description="insulation type; left out: common practice")
    compact: Flag = Field(False, description="whether strands are compact")
    power_factor: PowerFactor = Field(0.95, description="power factor used for voltage drop")
    neutral: Literal["full", "calculated"] = Field("full", description="neutral as large as the phases, or as calculated")
    largest_size: Size = Field("600", description="largest conductor that is chosen before another set is added")


class BranchBasis(Strict):
    """How branch circuits are built unless one says otherwise."""
    material: Material = Field("cu", description="conductor material")
    insulation: RatedC = Field(90.0, description="insulation temperature rating [degC]")
    terminals: RatedC = Field(60.0, description="temperature rating of the terminals [degC]")
    raceway: RacewayKind = Field("pvc", description="raceway material")
    conductors: Wires = Field(3, description="current-carrying conductors in the raceway")
    trip: Trip | None = Field(None, description="when the breakers of branch circuits trip; left out: bounded")


class Basis(Strict):
    """How the estate is built unless a feeder or load says otherwise."""
    feeder: FeederBasis = Field(default_factory=FeederBasis, description="feeders")
    branch: BranchBasis = Field(default_factory=BranchBasis, description="branch circuits")
    slack: LengthOrNone = Field(0.0, description="length added at the ends of every run [ft]")


class Group(Item):
    """Loads that cannot run together; only the largest counts, and the reason must be stated."""
    id: Id = Field(description="short name; loads name it in their column group")
    reason: Text = Field("", description="why they cannot run together")
    evidence: Text = Field("", description="interlock, drawing or behaviour that shows it")
    applied: Flag = Field(True, description="whether the reduction is taken")


class Proof(Strict):
    """Somebody's word for a fact that no calculation can find."""
    by: Text = Field("", description="who")
    date: Annotated[Day | None, BeforeValidator(none_if_blank)] = Field(None, description="when")
    evidence: Text = Field("", description="document, photograph or record")


class Manager(Item):
    """An energy management system: its set point takes the place of the loads it controls."""
    id: Id = Field(description="short name; loads name it in their column manager")
    at: Id = Field(description="structure, panel, feeder or main where it acts")
    set_point: Amps = Field(description="current it holds its loads to, at the line voltage [A]")
    listed: Proof | None = Field(None, description="proof that the equipment is listed for the use")
    fail_safe: Proof | None = Field(None, description="proof that it fails to the safe side")
    locked: Proof | None = Field(None, description="proof that the set point is locked")
    recorded: Proof | None = Field(None, description="record of the set point on drawing and label")
    note: Text = Field("", description="remark")


class SharedNeutral(Item):
    """A multiwire circuit: loads that share one neutral."""
    id: Id = Field(description="short name")
    loads: tuple[Id, ...] = Field(min_length=2, max_length=3, description="ids of the loads")
    tied: Flag | None = Field(None, description="whether their breakers open together")
    grouped: Flag | None = Field(None, description="whether neutral and phases are grouped in the panel")


class Owner(Strict):
    """What the owner asked for."""
    outage: Hours | None = Field(None, description="longest outage to be carried [h]")
    on_storage: Hours | None = Field(None, description="time to be carried by storage alone [h]")
    cars_ready: Text = Field("", description="hour by which cars are charged")
    later: Text = Field("", description="what the owner foresees")
    quiet: Text = Field("", description="what the owner asks on noise")


class Attested(Item):
    """A fact that only a person can know: check, who, when, evidence."""
    id: Id = Field(description="short name")
    check: Words = Field(description="number of the check it answers")
    subject: Text = Field("", description="structure, panel or feeder it is about")
    by: Words = Field(description="who attests it")
    date: Day = Field(description="when")
    evidence: Text = Field("", description="document, photograph or record")
    statement: Words = Field(description="what is attested, in words")
