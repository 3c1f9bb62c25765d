"""Adapters to the load calculations of dwellings: from the keys of a file to the methods, and back to named results."""
from typing import Any

from curtilage.calc.demand.cooking import cooking_load
from curtilage.calc.demand.general import general_load
from curtilage.calc.demand.metered import metered
from curtilage.calc.demand.multifamily import dwelling_connected, multifamily
from curtilage.calc.demand.neutral import dwelling_neutral, neutral_current
from curtilage.calc.demand.optional import existing, optional
from curtilage.calc.demand.records import Alike, Metered
from curtilage.calc.demand.standard import standard
from curtilage.calc.handbook import share, single_phase_current, three_phase_current
from curtilage.reference.kinds import COUNT, FLAG, Key, Method, Run
from curtilage.reference.rows import (
    DWELLING,
    NONLINEAR,
    SYSTEM,
    SYSTEMS,
    VOLTAGE,
    amperes,
    dwelling_record,
    fields,
    rating,
    result_rows,
    system_record,
)
from curtilage.values.told import Told


# --------------------------------------------------------------------------------------------------------- dwellings
def _standard(g: Any, run: Run) -> dict[str, Told]:
    ed = run.telling()
    volts, system = system_record(run)
    d = dwelling_record(run, volts)
    s, general, n = standard.told(d, ed), general_load.told(d, ed), _neutral(d, system, run, ed)
    I = amperes(s.total, d, run)
    return {
        **fields(general, "lighting", general_connected="connected", general="demand"),
        **fields(s, "appliances", "cooking", "dryers", "climate", "motors", "vehicles", "loads", "total", "minimum",
                  motor="largest_motor"),
        **n, "amperes": I, "general_amperes": amperes(general.demand, d, run),
        "rating": rating(I, ed.dwelling_service_least, ed)}


def _neutral(d: Any, system: Any, run: Run, ed: Any) -> dict[str, Told]:
    n = dwelling_neutral.told(d, system, ed)
    if SYSTEMS[run.bare.system][1]:
        before = three_phase_current.told(n.unbalanced, d.volts)
        amperes = neutral_current.told(before, NONLINEAR, system, ed)
    else:
        before, amperes = n.before, n.amperes
    return {"neutral": n.unbalanced, "neutral_cooking": n.cooking, "neutral_dryers": n.dryers, "neutral_before": before,
            "neutral_amperes": amperes}


def _optional(g: Any, run: Run) -> dict[str, Told]:
    ed = run.telling()
    volts, system = system_record(run)
    d = dwelling_record(run, volts)
    s, general = optional.told(d, ed), general_load.told(d, ed)
    return {
        **fields(general, "lighting"),
        **fields(s, "general", "climate", "total", "amperes", "inside", "outside", general_connected="connected"),
        "cooking": _cooking_demand(d, ed), **_neutral(d, system, run, ed),
        "rating": rating(s.amperes, ed.dwelling_service_least, ed)}


def _cooking_demand(d: Any, ed: Any) -> Told:
    """Demand of the cooking units by the table, which the neutral of the optional method takes."""
    return cooking_load.told(d.cooking, ed).used               # type: ignore[no-any-return]


def _existing(g: Any, run: Run) -> dict[str, Told]:
    e = existing.told(dwelling_record(run, run.bare.voltage), g.climate_added, run.telling())
    return fields(e, "connected", "climate", "total", "amperes", "inside", "beside")


def _metered(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    m = run.record(Metered("given", b.peak, b.interval, b.period, b.own_sources, b.seasonal))
    r = metered.told(m, g.added, g.rating, g.voltage, run.telling())
    return fields(r, "existing", "total", "amperes", "available", "permitted", "fits")


def _multifamily(g: Any, run: Run) -> dict[str, Told]:
    ed, b = run.telling(), run.bare
    if g.connected is not None:
        factor = ed.many_factor.told(g.units)
        total = share.told(factor, g.connected)
        I = single_phase_current.told(total, g.voltage)
        return {"connected": g.connected, "factor": factor, "total": total, "amperes": I}
    unit = dwelling_connected.told(dwelling_record(run, b.voltage), ed)
    alike = run.record(Alike("units", unit.value, b.units), put={"connected": unit, "qty": g.units})
    many = multifamily.told((alike,), g.voltage, ed)
    return {"unit_connected": unit, **fields(many, "connected", "factor", "total", "amperes")}


_NEUTRAL = {"neutral": ("VA", "unbalanced load"), "neutral_cooking": ("VA", "cooking in it"),
            "neutral_dryers": ("VA", "dryers in it"), "neutral_before": ("A", "before the reduction above 200 A"),
            "neutral_amperes": ("A", "neutral current")}
METHODS = (
    Method("demand.standard", "One dwelling, or several on one feeder with their lists joined, by the standard method.",
           (*DWELLING, VOLTAGE, SYSTEM),
           result_rows({"lighting": ("VA", "area by unit load"), "general_connected": ("VA", "lighting and circuits"),
                        "general": ("VA", "after the tiers"), "general_amperes": ("A", "the same"),
                        "appliances": ("VA", "demand"), "cooking": ("VA", "demand"), "dryers": ("VA", "demand"),
                        "climate": ("VA", "larger of heating and cooling"), "motors": ("VA", "motors that are no appliance"),
                        "motor": ("VA", "quarter of the largest motor"), "vehicles": ("VA", "vehicle supply"),
                        "loads": ("VA", "everything else"), "total": ("VA", "calculated load"),
                        "minimum": ("VA", "with a quarter of what is continuous"), "amperes": ("A", "calculated load"),
                        "rating": ("A", "next standard rating, not below the least of a dwelling"), **_NEUTRAL}), _standard),
    Method("demand.optional", "One dwelling by the optional method.", (*DWELLING, VOLTAGE, SYSTEM),
           result_rows({"lighting": ("VA", "area by unit load"), "general_connected": ("VA", "nameplates"),
                        "general": ("VA", "after the tiers"), "climate": ("VA", "largest of the six selections"),
                        "cooking": ("kVA", "by the table, for the neutral"), "total": ("VA", "calculated load"),
                        "inside": ("VA", "total with vehicle supply inside the tiers"),
                        "outside": ("VA", "total with vehicle supply beside the tiers"), "amperes": ("A", "calculated load"),
                        "rating": ("A", "next standard rating, not below the least of a dwelling"), **_NEUTRAL}), _optional),
    Method("demand.existing", "An existing dwelling with what is added.",
           (*DWELLING, Key("climate_added", FLAG, "heating or cooling is among what is added", False), VOLTAGE),
           result_rows({"connected": ("VA", "nameplates"), "climate": ("VA", "larger of heating and cooling"),
                        "total": ("VA", "calculated load"), "amperes": ("A", "calculated load"),
                        "inside": ("VA", "heating and cooling inside the tiers"),
                        "beside": ("VA", "heating and cooling beside the tiers")}), _existing),
    Method("demand.metered", "An existing installation by its recorded demand.",
           (Key("peak", "VA", "highest average"), Key("added", "VA", "new load", 0.0),
            Key("rating", "A", "of the service"), VOLTAGE, Key("interval", "min", "of the averages", 15.0),
            Key("period", "days", "of the record", 365.0),
            Key("own_sources", FLAG, "generation or peak shaving on the premises", False),
            Key("seasonal", "VA", "heating or cooling that was not recorded", 0.0)),
           result_rows({"existing": ("VA", "peak with its margin"), "total": ("VA", "with the new load"),
                        "amperes": ("A", "the same"), "available": ("VA", "what the rating leaves"),
                        "permitted": (FLAG, "record of the right kind"),
                        "fits": (FLAG, "within the rating")}), _metered),
    Method("demand.multifamily", "Three or more dwellings by the optional method.",
           (Key("units", COUNT, "alike dwellings"), Key("connected", "VA", "of all together", None), *DWELLING, VOLTAGE),
           result_rows({"unit_connected": ("VA", "of one dwelling"), "connected": ("VA", "of all"), "factor": ("", "by number"),
                        "total": ("VA", "demand"), "amperes": ("A", "demand")}), _multifamily,
           "Give `connected`; or one dwelling by its loads."),
)
