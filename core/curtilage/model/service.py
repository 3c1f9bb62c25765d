"""Where power comes in: the utility's transformer, the lateral, the service gear and its mains."""
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from curtilage.model.base import (
    Count,
    CountOrNone,
    Day,
    Flag,
    Id,
    Item,
    Marker,
    NumberKind,
    PowerFactor,
    Ratio,
    Sets,
    Size,
    Strict,
    Text,
    TradeSize,
    WholeKind,
    Words,
    none_if_blank,
)
from curtilage.units import (
    KVA,
    KW,
    Amps,
    Days,
    FaultAmps,
    Impedance,
    Inches,
    Length,
    LengthOrNone,
    Minutes,
    Percent,
    PrimaryVolts,
    QuantityError,
    RatedC,
    SplitVoltage,
    Starts,
    Volts,
    split_voltage,
)


def _metal(given: object) -> object:
    return {"copper": "cu", "aluminium": "al", "aluminum": "al"}.get(given, given) if isinstance(given, str) else given


def _raceway(given: object) -> object:
    return "aluminium" if given in ("al", "aluminum") else given


Material = Annotated[
    Literal["cu", "al"], BeforeValidator(_metal, json_schema_input_type=Literal["cu", "al", "copper", "aluminium", "aluminum"])]
RacewayKind = Annotated[
    Literal["pvc", "aluminium", "steel"],
    BeforeValidator(_raceway, json_schema_input_type=Literal["pvc", "aluminium", "steel", "aluminum", "al"])]


Condition = Annotated[int, WholeKind(1, 3)]
LoadFactor = Annotated[float, NumberKind(0.02, 1)]


class VoltageKind(Marker):
    """'120/240 V'."""
    def json(self) -> dict[str, Any]:
        return {"type": "string", "pattern": "^\\s*[0-9]{3}/[0-9]{3}\\s*V\\s*$", "examples": ["120/240 V"]}

    def parse(self, given: object) -> SplitVoltage:
        """Volts to neutral and between lines."""
        return given if isinstance(given, SplitVoltage) else split_voltage(given)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        written = core_schema.plain_serializer_function_ser_schema(str, return_schema=core_schema.str_schema(), when_used="json")
        return core_schema.no_info_plain_validator_function(self.parse, serialization=written)


class PhasesKind(Marker):
    """1; a three-phase service is refused with a sentence."""
    def json(self) -> dict[str, Any]:
        return {"const": 1}

    def parse(self, given: object) -> int:
        """The number of phases, 1."""
        if isinstance(given, int) and not isinstance(given, bool) and given == 1:
            return 1
        if given == 3 and not isinstance(given, bool):
            raise QuantityError("3 phases: three-phase services are not worked here, and no result for one would be right",
                                "expected a single-phase three-wire service", "write 1, or design that service by other means")
        raise QuantityError(f"{given!r} is not a number of phases", "allowed: 1")


class FaultLetter(Strict):
    """The utility's answer on available fault current."""
    current: FaultAmps = Field(description="available fault current, line to line [A]")
    line_to_neutral: FaultAmps | None = Field(None, description="available fault current, line to neutral [A]")
    x_over_r: Ratio | None = Field(None, description="ratio of reactance to resistance")
    at: Literal["transformer terminals", "service gear"] = Field("transformer terminals", description="where the figure holds")
    least: FaultAmps | None = Field(None, description="least fault current the utility expects there, line to line [A]")
    date: Day = Field(description="day of the letter")
    reference: Text = Field("", description="number or name of the letter")


class Candidate(Item):
    """Another transformer that the utility might set."""
    id: Id = Field(description="short name")
    rating: KVA = Field(description="nameplate rating [kVA]")
    impedance: Impedance = Field(description="nameplate impedance [%]")
    x_over_r: Ratio = Field(description="ratio of reactance to resistance")


class Letter(Item):
    """One entry of the log of letters on available fault current."""
    id: Id = Field(description="short name")
    asked: Day | None = Field(None, description="day it was asked for")
    received: Day | None = Field(None, description="day it came")
    from_: Text = Field("", alias="from", description="who answered")
    current: FaultAmps | None = Field(None, description="available fault current, line to line [A]")
    line_to_neutral: FaultAmps | None = Field(None, description="available fault current, line to neutral [A]")
    x_over_r: Ratio | None = Field(None, description="ratio of reactance to resistance")
    at: Literal["transformer terminals", "service gear"] = Field("transformer terminals", description="where the figure holds")
    reference: Text = Field("", description="number or name of the letter")
    note: Text = Field("", description="remark")


class Milestone(Item):
    """Something the utility, or somebody for it, must do by a day."""
    id: Id = Field(description="short name")
    what: Words = Field(description="what is to happen")
    due: Day = Field(description="day it is due")
    done: Day | None = Field(None, description="day it happened")
    before: tuple[Id, ...] = Field((), description="steps of construction that wait for it")
    lead: Days = Field(0.0, description="time needed between it and those steps [days]")
    note: Text = Field("", description="remark")


class Transformer(Strict):
    """The utility's transformer; service begins at its secondary terminals."""
    rating: KVA = Field(description="nameplate rating [kVA]")
    impedance: Impedance = Field(description="nameplate impedance [%]")
    x_over_r: Ratio = Field(description="ratio of reactance to resistance")
    primary: FaultAmps | None = Field(None, description="fault current on the primary side [A]; left out: infinite")
    primary_volts: PrimaryVolts | None = Field(None, description="rated voltage of the primary winding [V]")
    primary_x_over_r: Ratio | None = Field(
        None, description="ratio of reactance to resistance on the primary side; left out: common practice")
    fault_letter: Annotated[FaultLetter | None, BeforeValidator(none_if_blank)] = Field(
        None, description="the utility's letter; empty: not received")
    shared: Flag = Field(False, description="whether other customers hang on it")
    candidates: tuple[Candidate, ...] = Field((), description="other transformers to compare it with")


class Lateral(Strict):
    """Service conductors from the transformer to the gear. Sets and size may be left out: they are chosen."""
    length: Length = Field(description="one-way length [ft]")
    sets: Sets | None = Field(None, description="parallel sets; left out: chosen")
    size: Size | None = Field(None, description="conductor size; left out: chosen")
    neutral: Size | None = Field(None, description="neutral size; left out: chosen")
    material: Material = Field(description="conductor material")
    insulation: RatedC = Field(90.0, description="insulation temperature rating [degC]")
    terminals: RatedC = Field(75.0, description="temperature rating of the terminals [degC]")
    raceway: RacewayKind = Field("pvc", description="raceway material")
    trade_size: TradeSize | None = Field(None, description="trade size of each raceway")
    cover: Inches | None = Field(None, description="depth of cover [in]")


class ArcReduction(Strict):
    """How arc energy is reduced at a large main."""
    method: Words = Field(description="method, in words")
    document: Text = Field("", description="where it is documented")


class Gear(Strict):
    """The service equipment."""
    id: Id = Field(description="short name")
    structure: Id = Field(description="structure it stands at")
    interrupting: FaultAmps = Field(description="interrupting or short-circuit rating [A]")
    bus: Amps = Field(description="bus rating [A]")
    compartments: Flag = Field(True, description="whether each main has its own enclosure or compartment")
    barriers: Flag | None = Field(None, description="whether line-side barriers are specified")
    service_equipment: Flag | None = Field(None, description="whether it is marked for use as service equipment")
    surge_protection: Flag | None = Field(None, description="whether a surge protective device stands in or beside it")
    emergency_disconnect: Flag | None = Field(None, description="whether it is the outdoor emergency disconnect")
    location: Text = Field("", description="where it stands")
    depth: Inches | None = Field(None, description="depth of the working space [in]")
    width: Inches | None = Field(None, description="width of the working space [in]")
    height: Inches | None = Field(None, description="height of the working space [in]")
    condition: Condition | None = Field(None, description="what faces it: 1 insulated or nothing, 2 grounded parts, 3 live parts")
    dedicated: Flag | None = Field(None, description="whether the space above it is kept free of foreign systems")
    equipment_width: Inches | None = Field(None, description="width of the equipment itself [in]")
    indoors: Flag | None = Field(None, description="whether it stands in a room; asked of large equipment, with its entrances")
    entrances: Count | None = Field(None, description="entrances to its working space, one at each end where there are two")


class Main(Item):
    """A service disconnect. Its rating may be left out: it is chosen."""
    id: Id = Field(description="short name")
    rating: Amps | None = Field(None, description="rating [A]; left out: chosen")
    adjustable: Flag = Field(False, description="whether the trip is adjustable")
    highest_setting: Amps | None = Field(None, description="highest setting of an adjustable trip [A]")
    arc_reduction: ArcReduction | None = Field(None, description="means of reducing arc energy")
    note: Text = Field("", description="remark")


class Flicker(Strict):
    """What the utility allows for motor starting."""
    limit: Percent | None = Field(None, description="voltage change allowed there [%]")
    starts: Starts | None = Field(None, description="rate of starts the limit is for [starts/h]")
    at: Literal["transformer terminals", "service gear"] = Field("transformer terminals", description="where the limit holds")
    reference: Text = Field("", description="the utility's rule")


class Metering(Strict):
    """How the service is metered."""
    kind: Literal["self-contained", "current transformers"] = Field(description="kind of metering")
    distance: Length | None = Field(None, description="distance from current transformers to meter [ft]")
    cabinet: Text = Field("", description="the cabinet")
    direct_to: Amps | None = Field(None, description="largest service that the utility meters without current transformers [A]")
    farthest: Length | None = Field(None, description="longest way from current transformers to meter that it allows [ft]")
    other_wiring: Flag | None = Field(None, description="whether the customer's own wiring passes through the cabinet")
    reference: Text = Field("", description="the utility's rule")
    note: Text = Field("", description="remark")


class OptionMain(Item):
    """One main of another arrangement."""
    id: Id = Field(description="short name")
    rating: Amps | None = Field(None, description="rating [A]; left out: chosen")
    feeders: tuple[Id, ...] = Field(min_length=1, description="feeders that start at it")


class Option(Item):
    """Another arrangement of the service, to lay beside the one that is drawn."""
    id: Id = Field(description="short name")
    title: Words = Field(description="the arrangement in words")
    mains: tuple[OptionMain, ...] = Field(min_length=1, max_length=6, description="its mains, one to six")
    sets: Sets | None = Field(None, description="parallel sets of the lateral; left out: chosen")
    size: Size | None = Field(None, description="conductor size of the lateral; left out: chosen")
    material: Material | None = Field(None, description="conductor material of the lateral; left out: as drawn")


class Service(Strict):
    """The electrical service of the estate."""
    utility: Words = Field(description="who serves")
    voltage: Annotated[SplitVoltage, VoltageKind()] = Field(description="volts to neutral and between lines [V]")
    phases: Annotated[int, PhasesKind()] = Field(1, description="number of phases; only 1")
    transformer: Transformer = Field(description="the utility's transformer")
    lateral: Lateral = Field(description="service conductors")
    gear: Gear = Field(description="service equipment")
    mains: tuple[Main, ...] = Field(min_length=1, max_length=6, description="service disconnects, one to six")
    service_point: Text = Field("", description="where the utility's work ends")
    metering: Metering | None = Field(None, description="how it is metered")
    flicker: Flicker | None = Field(None, description="the utility's limit for voltage change")
    others: CountOrNone = Field(0, description="further services of the same premises")
    reason: Text = Field("", description="why there is more than one service")
    inside: LengthOrNone | None = Field(None, description="way of the service conductors inside a building, 0 ft: none [ft]")
    encased: Flag | None = Field(None, description="whether that way counts as outside, by 2 in of concrete (Section 230.6)")
    letters: tuple[Letter, ...] = Field((), description="log of letters on available fault current")
    milestones: tuple[Milestone, ...] = Field((), description="what the utility must do, and when")
    options: tuple[Option, ...] = Field((), description="other arrangements of the mains")
    load_factor: LoadFactor | None = Field(None, description="mean load of a year over its peak")
    lowest: Volts | None = Field(None, description="lowest voltage expected at the service, between lines [V]")
    highest: Volts | None = Field(None, description="highest voltage expected at the service, between lines [V]")


class Metered(Strict):
    """What a meter has shown of an existing service."""
    peak: KW | None = Field(None, description="highest demand [kW]")
    interval: Minutes | None = Field(None, description="averaging interval [min]")
    period: Days | None = Field(None, description="length of the record [days]")
    power_factor: PowerFactor | None = Field(None, description="power factor at the peak")
    generation: Flag | None = Field(None, description="whether generation or peak shaving ran during the record")
    main: Id | None = Field(None, description="main that the meter stands at; left out: the whole service")
