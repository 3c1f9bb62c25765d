"""What the adapters to the load calculations share: keys of rows, records, systems."""
from collections.abc import Mapping
from typing import Any

from curtilage.calc.conductors.protection import device
from curtilage.calc.demand.records import Area, Circuits, Climate, Dwelling, HeatPump, Row, Wiring
from curtilage.calc.handbook import single_phase_current, three_phase_current
from curtilage.reference.kinds import COUNT, FLAG, WORDS, Key, Result, Run
from curtilage.values.told import Cite, Told

SYSTEMS = {          # system -> volts between lines, wye, two lines of a wye
    "120/240 V": (240.0, False, False), "208Y/120 V": (208.0, True, False), "two lines of 208Y/120 V": (208.0, False, True)}
NO_DEVICE = Told("stated", 0.0, "A", "rule", cite=Cite("no device is stated", "derived"))
NO_FLOOR = Told("floor", 0.0, "A", "rule", cite=Cite("no least device", "derived"))
NONLINEAR = Told("nonlinear", 0.0, "A", "rule", cite=Cite("no nonlinear load is stated", "derived"))


# -------------------------------------------------------------------------------------------------------------- keys
_ROW = (Key("rating", "VA", "nameplate of one"), Key("qty", COUNT, "how many", 1),
        Key("motor", FLAG, "counts when the largest motor is looked for", False),
        Key("neutral", FLAG, "returns current through the neutral", False),
        Key("continuous", FLAG, "three hours or more", False))
VOLTAGE = Key("voltage", "V", "between the lines", 240.0)
SYSTEM = Key("system", WORDS, "system of the feeder", "120/240 V", choices=tuple(SYSTEMS))


def rows(name: str, about: str) -> Key:
    return Key(name, "VA", about, (), True, row=_ROW)


_GENERAL = (Key("area", "ft2", "floor area as the Code counts it", 0.0), Key("small_appliance_circuits", COUNT, "circuits", 0),
            Key("laundry_circuits", COUNT, "circuits", 0))
_LOADS = (rows("appliances", "fastened in place"), rows("cooking", "household cooking units"), rows("dryers", "clothes dryers"),
          rows("motors", "motors that are no appliance"), rows("vehicles", "vehicle supply"),
          rows("loads", "everything else, at nameplate"))
_CLIMATE = (rows("cooling", "air conditioning that is no heat pump"), rows("heat_pumps", "compressors of heat pumps"),
            rows("supplementary", "electric heat that runs with the compressors"), rows("heating", "central electric heat"),
            rows("zone_heat", "separately controlled heating units, a row or a quantity for each"),
            rows("storage", "thermal storage heat"), rows("air_handlers", "what runs in heating and in cooling"))
DWELLING = (*_GENERAL, *_LOADS, *_CLIMATE)


# ----------------------------------------------------------------------------------------------------------- records
def row_records(name: str, rows: Any) -> tuple[Row, ...]:
    return tuple(Row(f"{name}[{n}]", r.rating, motor=r.motor, neutral=r.neutral, continuous=r.continuous)
                 for n, r in enumerate(rows, 1))


def _climate(b: Any) -> Climate:
    named = {name: row_records(name, getattr(b, name)) for name in
             ("supplementary", "cooling", "heating", "zone_heat", "storage", "air_handlers", "heat_pumps")}
    pumps = tuple(HeatPump(x.id, x) for x in named["heat_pumps"])
    return Climate(pumps, named["supplementary"], named["cooling"], named["heating"],
                   named["zone_heat"], named["storage"], named["air_handlers"])


def dwelling_record(run: Run, volts: float) -> Any:
    b = run.bare
    record = Dwelling(
        volts, (Area("area", b.area),), (), (Circuits("small_appliance_circuits", b.small_appliance_circuits),),
        (Circuits("laundry_circuits", b.laundry_circuits),), row_records("appliances", b.appliances), (),
        row_records("cooking", b.cooking), row_records("dryers", b.dryers), _climate(b), row_records("motors", b.motors),
        row_records("vehicles", b.vehicles), (), row_records("loads", b.loads))
    return run.record(record)


def system_record(run: Run) -> tuple[float, Any]:
    volts, wye, two = SYSTEMS[run.bare.system]
    volts = run.bare.voltage if hasattr(run.bare, "voltage") and not wye and not two else volts
    return volts, run.record(Wiring(volts, wye, two))


def fields(record: Any, *names: str, **others: str) -> dict[str, Told]:
    return {**{n: getattr(record, n) for n in names}, **{n: getattr(record, field) for n, field in others.items()}}


def rating(I: Told, floor: Told, ed: Any) -> Told:
    return device.told(I, NO_DEVICE, floor, ed).rating         # type: ignore[no-any-return]


def amperes(S: Told, record: Any, run: Run) -> Told:
    """Of a load on the system of the file."""
    three = SYSTEMS[run.bare.system][1]
    return (three_phase_current if three else single_phase_current).told(S, record.volts)      # type: ignore[no-any-return]


def result_rows(table: Mapping[str, tuple[str, str]]) -> tuple[Result, ...]:
    return tuple(Result(name, unit, about) for name, (unit, about) in table.items())
