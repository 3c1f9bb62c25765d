"""Told runs of the load calculations, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.demand.appliances import appliance_load, group_continuous
from curtilage.calc.demand.climate import climate_load, six_cases
from curtilage.calc.demand.cooking import column_c, cooking_branch, cooking_load, cooking_three_phase, small_columns
from curtilage.calc.demand.expected import expected
from curtilage.calc.demand.farm import farm_building, farm_total
from curtilage.calc.demand.metered import metered
from curtilage.calc.demand.motors import conductor_current
from curtilage.calc.demand.multifamily import dwelling_connected, multifamily, two_dwellings
from curtilage.calc.demand.neutral import dwelling_neutral, neutral_current, other_neutral
from curtilage.calc.demand.optional import existing, larger_season, optional, optional_open
from curtilage.calc.demand.other import continuous_climate, other
from curtilage.calc.demand.part import part, sum_of
from curtilage.calc.demand.records import (
    Alike,
    Amperes,
    Area,
    Circuits,
    Climate,
    Dwelling,
    FarmLoad,
    Group,
    HeatPump,
    Kinds,
    Manager,
    Metered,
    Other,
    Row,
    Site,
    Volt_amperes,
    Welder,
    Wiring,
)
from curtilage.calc.demand.standard import standard
from curtilage.calc.demand.vehicles import managed_load
from curtilage.calc.demand.welders import rv_park
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

OVEN, STRIP = Row("oven", 3000.0, neutral=True), Row("strip", 6000.0, continuous=True)
PUMP = Row("pump", 5000.0, motor=True)
SPA = (Row("steam", 9000.0), Row("sauna", 8000.0))

CLIMATE = Climate(
    heat_pumps=(HeatPump("hp", PUMP), HeatPump("hp2", Row("pump2", 4000.0, motor=True), (Row("locked", 7000.0),))),
    supplementary=(STRIP,), cooling=(Row("split", 1500.0, motor=True),), heat=(Row("wall", 1500.0, 2.0, neutral=True),),
    zone_heat=(Row("floor", 5250.0, 5.0, 120.0, neutral=True, nonlinear=0.2),), storage=(Row("brick", 800.0),),
    always=(Row("blower", 620.0, hp=0.5, motor=True, neutral=True),))

HOUSE = Dwelling(
    areas=(Area("up", 2000.0), Area("down", 1400.0)), small_appliance=(Circuits("sa", 3.0),), laundry=(Circuits("la", 1.0),),
    appliances=(Row("dishwasher", 2760.0, 2.0, 120.0, neutral=True), Row("heater", 4500.0), Row("pump", 700.0, motor=True),
                Row("disposer", 980.0, 1.0, 120.0, 0.75, "", True, neutral=True),
                Row("fan", 240.0, 2.0, 120.0, 0.05, "", True, neutral=True)),
    appliance_groups=(Group("spa", True, SPA), Group("either", False, (Row("a", 1200.0), Row("b", 300.0, neutral=True))),
                      Group("small", True, (Row("c", 300.0), Row("d", 200.0, neutral=True)))),
    cooking=(Row("cooktop", 11_100.0), Row("double", 8600.0), OVEN, Row("warmer", 600.0), Row("second", 2000.0)),
    dryers=(Row("dryer", 5600.0), Row("small dryer", 3000.0)), climate=CLIMATE,
    motors=(Row("lift", 5300.0, motor=True), Row("well", 0.0, 1.0, 240.0, 5.0, "5", True),
            Row("jet", 0.0, 2.0, 120.0, 0.5, "1/2", True, neutral=True), Row("gate", 0.0, 1.0, 208.0, 0.75, "3/4", True)),
    vehicles=(Row("car", 9600.0), Row("plug", 1440.0, 1.0, 120.0, neutral=True)),
    managers=(Manager("ems", 40.0, 240.0, True, True, True, True, (Row("b1", 11_520.0), Row("b2", 11_520.0))),),
    loads=(Row("rack", 4800.0, 4.0, 120.0, neutral=True, nonlinear=1.0), Row("heat pump pool", 7200.0, motor=True)),
    groups=(Group("one", True, (Row("saw", 0.0, 1.0, 240.0, 3.0, "3", True), Row("planer", 3000.0, motor=True, neutral=True))),))

PLAIN = Dwelling(areas=(Area("all", 1500.0),), small_appliance=(Circuits("sa", 2.0),), laundry=(Circuits("la", 1.0),),
                 climate=Climate(cooling=(Row("ac", 9000.0, motor=True),), heat=(Row("furnace", 3000.0),),
                                 zone_heat=(Row("bath", 1000.0),)))

SHOP = Other(
    lighting=(Row("bays", 2400.0, 4.0, 120.0, continuous=True, neutral=True, nonlinear=0.5),),
    receptacles=(Row("bench", 4320.0, 24.0, 120.0, neutral=True), Row("strip", 18_000.0, 30.0, 120.0, neutral=True)),
    loads=(Row("charger", 1200.0, 1.0, 120.0, continuous=True, neutral=True), Row("door", 1800.0, 2.0, 120.0, 0.75, "", True,
                                                                               neutral=True)),
    climate=CLIMATE, motors=(Row("dust", 0.0, 1.0, 240.0, 5.0, "5", True, True),),
    vehicles=(Row("car", 4800.0),),
    managers=(Manager("held", 20.0, 240.0, True, True, False, True, (Row("c1", 7200.0),)),
              Manager("mixed", 10.0, 240.0, True, True, True, False, (Row("heater", 5000.0),), 3000.0)),
    groups=(Group("one", True, (Row("saw", 0.0, 1.0, 240.0, 5.0, "5", True), Row("weld", 9600.0, continuous=True))),
            Group("no reason", False, (Row("x", 100.0, neutral=True), Row("y", 200.0)))),
    welders=(Welder("w1", 9600.0, 40.0), Welder("w2", 8000.0, 100.0, with_motor=True), Welder("w3", 7000.0, 60.0, effective=20.0),
             Welder("w4", 6000.0, 20.0), Welder("w5", 5000.0, 35.0)),
    rv=(Site("s30", 30.0), Site("s20", 20.0, 2.0), Site("s50", 50.0)))

KINDS = Kinds(
    "MH", lighting=(Row("lights", 6000.0),), small=(Row("outlets", 9000.0, pf=0.95),), motors=(Row("lift", 5300.0, pf=0.8),),
    heaters=(Row("range", 9800.0),), refrigeration=(Row("cold", 2000.0, pf=0.9),), winter=(Row("floor", 5250.0),),
    winter_pumps=(Row("hp", 7900.0, pf=0.92),), summer=(Row("hp", 7900.0, pf=0.92), Row("wine", 1900.0, pf=0.85)),
    vehicles=(Row("car", 9600.0, pf=0.99),), constant=(Row("rack", 4800.0, pf=0.95),),
    managers=(Manager("ems", 100.0, 240.0, True, True, True, True, (Row("a", 19_200.0), Row("b", 19_200.0))),))


def num(name: str, x: Any, unit: str) -> Told:
    return Told(name, x, unit, "given")


def seen(x: Any) -> Any:
    """A record, or a tuple of records, with told fields."""
    if hasattr(x, "_fields"):
        return Given(x, getattr(x, "id", "d"))
    return tuple(Given(i, i.id) for i in x)


def two(d: Dwelling, e: Dwelling) -> Dwelling:
    """Two dwellings with their lists joined."""
    joined = {k: getattr(d, k) + getattr(e, k) for k in d._fields if k not in ("volts", "climate", "vehicles_apart")}
    return d._replace(climate=Climate(*(a + b for a, b in zip(d.climate, e.climate, strict=True))), **joined)


def told() -> Iterator[Any]:
    for name in ("nec2020", "nec2023", "nec2026"):
        ed = TellingEdition(Edition.load(name))
        yield from dwellings(ed)
        yield from others(ed)


def dwellings(ed: TellingEdition) -> Iterator[Any]:
    for d in (HOUSE, PLAIN, Dwelling(), HOUSE._replace(climate=PLAIN.climate, dryers=HOUSE.dryers * 3)):
        yield standard.told(seen(d), ed)
        yield optional.told(seen(d), ed)
        yield optional.told(seen(d._replace(vehicles_apart=True)), ed)
        yield dwelling_neutral.told(seen(d), seen(Wiring()), ed)
        for added in (True, False):
            yield existing.told(seen(d), num("climate_added", added, "yes/no"), ed)
    yield appliance_load.told(seen(HOUSE), ed)
    yield optional_open.told(num("dwellings", 1.0, "count"), num("whole", True, "yes/no"), num("lines", 2.0, "count"),
                             num("ampacity", 200.0, "A"), ed)
    for climate in (CLIMATE, PLAIN.climate, CLIMATE._replace(supplementary=(), heat_pumps=CLIMATE.heat_pumps[:1])):
        yield climate_load.told(seen(climate), ed)
        yield six_cases.told(seen(climate), ed)
    yield cooking_load.told(seen(HOUSE.cooking), ed)
    yield cooking_load.told(seen((Row("r", 60_000.0, 5.0), Row("o", 80_000.0, 40.0))), ed)
    yield column_c.told(num("n", 3.0, "count"), num("K_sum", 40.0, "kVA"), ed)
    yield small_columns.told(num("K_a", 4.8, "kVA"), num("K_b", 7.2, "kVA"), num("n_a", 2.0, "count"),
                             num("n_b", 1.0, "count"), ed)
    yield cooking_branch.told(seen(Row("top", 7200.0)), seen((Row("o", 4800.0, 2.0),)), ed)
    yield cooking_three_phase.told(num("n", 20.0, "count"), num("P", 12.0, "kVA"), ed)
    for d in (HOUSE, PLAIN):
        yield dwelling_connected.told(seen(d), ed)
        yield larger_season.told(seen(d.climate), ed)
    yield dwelling_neutral.told(seen(HOUSE), seen(Wiring(208.0, True)), ed)
    yield two_dwellings.told(seen(HOUSE), seen(PLAIN), seen(two(HOUSE, PLAIN)), ed)
    yield multifamily.told(seen((Alike("a", 22_000.0, 20.0),)), num("volts", 240.0, "V"), ed)
    panel = HOUSE._replace(areas=(), general=(Row("lights", 1800.0), Row("outlets", 5000.0)))
    for whole in (0.0, 50_000.0):
        yield part.told(seen(panel), num("S_whole", whole, "VA"), ed)


def others(ed: TellingEdition) -> Iterator[Any]:
    for d in (SHOP, Other(), SHOP._replace(climate=PLAIN.climate)):
        yield other.told(seen(d), ed)
        yield other_neutral.told(seen(d), seen(Wiring()), ed)
    yield other_neutral.told(seen(SHOP), seen(Wiring(208.0, True)), ed)
    yield continuous_climate.told(seen(CLIMATE))
    for g in SHOP.groups:
        yield group_continuous.told(seen(g))
    for held in SHOP.managers:
        yield managed_load.told(seen(held), ed)
    yield neutral_current.told(num("I", 600.0, "A"), num("I_n", 100.0, "A"), seen(Wiring(208.0, False, True)), ed)
    yield sum_of.told(seen((Volt_amperes("a", 1000.0), Volt_amperes("b", 2000.0))), num("volts", 240.0, "V"))
    for record in (Metered("m", 96_000.0, 15.0, 365.0, True), Metered("m", 9600.0, 15.0, 30.0, False, 5000.0)):
        yield metered.told(seen(record), num("S_new", 9600.0, "VA"), num("rating", 200.0, "A"), num("volts", 240.0, "V"), ed)
    yield farm_building.told(seen(FarmLoad("barn", 65.0, 17.0, 185.0)), ed)
    yield farm_total.told(seen(tuple(Amperes(f"b{x}", float(x)) for x in (30, 80, 20, 50))), num("I_dwelling", 120.0, "A"), ed)
    yield rv_park.told(seen((Site("s", 30.0, 20.0),)), ed)
    yield conductor_current.told(seen((Amperes("base", 78.0), Amperes("ac", 12.0, True))), ed)
    yield expected.told(seen((KINDS, Kinds("GH"))), ed)
