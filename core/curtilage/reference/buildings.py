"""Adapters to the load calculations of everything but dwellings, and to their parts: lines, cooking, neutral."""
from typing import Any

from curtilage.calc.conductors.run import need_of
from curtilage.calc.demand.cooking import cooking_load, cooking_three_phase
from curtilage.calc.demand.farm import farm_building, farm_total
from curtilage.calc.demand.motors import conductor_current
from curtilage.calc.demand.neutral import neutral_current
from curtilage.calc.demand.other import other
from curtilage.calc.demand.records import Amperes, FarmLoad, Other, Row, Site, Wiring
from curtilage.calc.demand.welders import rv_park, rv_site
from curtilage.calc.handbook import largest_current, share, single_phase_current, three_phase_current
from curtilage.errors import CurtilageError
from curtilage.reference.conductors import line_of, load_of
from curtilage.reference.kinds import COUNT, FLAG, REQUIRED, WORDS, Key, Method, Run
from curtilage.reference.rows import NO_FLOOR, NONLINEAR, SYSTEM, SYSTEMS, VOLTAGE, fields, rating, result_rows, row_records, rows
from curtilage.values.told import Cite, Told

ONE_SITE = Told("qty", 1.0, "count", "rule", cite=Cite("one site of the park", "derived"))


# ------------------------------------------------------------------------------------------------------------ others
def _store(g: Any, run: Run) -> dict[str, Told]:
    b, ed = run.bare, run.telling()
    yokes = (Row("receptacles", 0.0, b.receptacles),) if b.receptacles else ()
    d = run.record(Other(b.voltage, row_records("lighting", b.lighting), yokes, row_records("loads", b.loads),
                         motors=row_records("motors", b.motors)))
    s = other.told(d, ed)
    return {**fields(s, "lighting", "receptacles", "loads", "total", "amperes", "continuous", "minimum", "minimum_amperes",
                      motor="largest_motor"), "rating": rating(s.minimum_amperes, NO_FLOOR, ed)}


def _farm(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    load = run.record(FarmLoad("given", b.together, b.largest_motor, b.load), put={"all": g.load})
    return {"demand": farm_building.told(load, run.telling())}


def _farm_total(g: Any, run: Run) -> dict[str, Told]:
    loads = tuple(run.record(Amperes(f"loads[{n}]", x.value), put={"amperes": x}) for n, x in enumerate(g.loads, 1))
    return fields(farm_total.told(loads, g.dwelling, run.telling()), "other", "total")


def _rv_park(g: Any, run: Run) -> dict[str, Told]:
    ed, b = run.telling(), run.bare
    sites = run.record(Site("sites", b.receptacle, b.sites), put={"receptacle": g.receptacle, "qty": g.sites})
    one = run.record(Site("sites", b.receptacle), put={"receptacle": g.receptacle, "qty": ONE_SITE})
    factor = ed.rv_factor.told(g.sites)
    return {"factor": factor, "per_site": share.told(factor, rv_site.told(one, ed)), "total": rv_park.told((sites,), ed)}


def _load_current(g: Any, run: Run) -> dict[str, Told]:
    I = (three_phase_current if run.bare.circuit == "three-phase" else single_phase_current).told(g.power, g.voltage)
    need = need_of.told(run.record(load_of(run.bare.continuous, False)), I, run.telling().view("cu-pvc"))
    return {"current": I, "minimum": need.minimum, "device": need.device.rating}


def _line(rows: Any, name: str, run: Run) -> tuple[Any, ...]:
    out = []
    for n, r in enumerate(rows, 1):
        if r.current is None and (r.power is None or r.voltage is None):
            raise CurtilageError(f"{name}, item {n}: give 'current', or 'power' and 'voltage'")
        I = r.current if r.current is not None else single_phase_current.told(r.power, r.voltage, place=f"{name}[{n}]")
        record = Amperes(f"{name}[{n}]", I.value, r.motor.value)
        out.append(run.record(record, f"given.{name}[{n}]", {"amperes": I, "motor": r.motor}))
    return tuple(out)


def _line_currents(g: Any, run: Run) -> dict[str, Told]:
    ed, out = run.telling(), {}
    for name in ("line_a", "line_b", "neutral"):
        if getattr(g, name):
            out[name] = conductor_current.told(_line(getattr(g, name), name, run), ed, place=name)
    lines = tuple(out[n] for n in ("line_a", "line_b") if n in out)
    if not lines:
        raise CurtilageError("give 'line_a' or 'line_b'")
    return {**out, "rating": rating(largest_current.told(lines), NO_FLOOR, ed)}


# ----------------------------------------------------------------------------------------------- cooking and neutral
def _cooking(g: Any, run: Run) -> dict[str, Told]:
    rows = tuple(run.record(r, f"given.{r.id}") for r in row_records("ranges", run.bare.ranges))
    k = cooking_load.told(rows, run.telling())
    return {"demand": k.used, **fields(k, "column_c", "by_columns", "together")}


def _cooking_three_phase(g: Any, run: Run) -> dict[str, Told]:
    d = cooking_three_phase.told(g.ranges, g.rating, run.telling())
    return {"counted": line_of(d, "n_read"), "table": line_of(d, "D_read"), "demand": d}


def _neutral_reduction(g: Any, run: Run) -> dict[str, Told]:
    volts, wye, two = SYSTEMS[run.bare.system]
    w = run.record(Wiring(volts, wye, two))
    if g.load is None and g.power is None:
        raise CurtilageError("give 'load' in A, or 'power'")
    I = g.load if g.load is not None else (three_phase_current if wye else single_phase_current).told(g.power, w.volts)
    nonlinear = g.nonlinear if g.nonlinear is not None else NONLINEAR
    return {"before": I, "neutral": neutral_current.told(I, nonlinear, w, run.telling())}


def _line_key(name: str, of: str) -> Key:
    return Key(name, "A", f"loads of {of}", (), True, row=(
        Key("current", "A", "in amperes", None), Key("power", "VA", "or in VA", None),
        Key("voltage", "V", "and at so many volts", None),
        Key("motor", FLAG, "a motor", False)))


METHODS = (
    Method("demand.store", "A building that is no dwelling.",
           (rows("lighting", "lighting, show windows, signs"), Key("receptacles", COUNT, "yokes", 0),
            rows("loads", "other loads"), rows("motors", "motors"), VOLTAGE),
           result_rows({"lighting": ("VA", "connected"), "receptacles": ("VA", "demand"), "loads": ("VA", "other loads"),
                        "motor": ("VA", "quarter of the largest motor"), "total": ("VA", "calculated load"),
                        "amperes": ("A", "calculated load"), "continuous": ("VA", "part that is continuous"),
                        "minimum": ("VA", "with a quarter of the continuous part"), "minimum_amperes": ("A", "the same"),
                        "rating": ("A", "next standard rating for the minimum")}), _store),
    Method("demand.farm", "A farm building.",
           (Key("load", "A", "all loads, at 240 V"), Key("together", "A", "those that run together"),
            Key("largest_motor", "A", "full-load current", 0.0)), result_rows({"demand": ("A", "demand")}), _farm),
    Method("demand.farm_total", "All farm loads on one feeder or service.",
           (Key("loads", "A", "each building", many=True), Key("dwelling", "A", "the farm dwelling", 0.0)),
           result_rows({"other": ("A", "all but the dwelling"), "total": ("A", "with the dwelling")}), _farm_total),
    Method("demand.rv_park", "A park of recreational-vehicle sites.",
           (Key("sites", COUNT, "how many"), Key("receptacle", "A", "at each site: 20, 30 or 50 A", 30.0)),
           result_rows({"factor": ("", "by number"), "per_site": ("VA", "demand of one"),
                        "total": ("VA", "demand of all")}), _rv_park),
    Method("load.current", "Current of a load, with 125 % where it is continuous, and the device.",
           (Key("power", "VA", "load"), Key("voltage", "V", "line to line for three phases"),
            Key("continuous", FLAG, "three hours or more", False),
            Key("circuit", WORDS, "two-wire or three-phase", "two-wire", choices=("two-wire", "three-phase"))),
           result_rows({"current": ("A", "load"), "minimum": ("A", "with 125 % where it applies"),
                        "device": ("A", "standard rating")}), _load_current),
    Method("line.currents", "Currents of the conductors of a feeder, line by line, with a quarter of the largest motor on each.",
           (_line_key("line_a", "line A"), _line_key("line_b", "line B"), _line_key("neutral", "the neutral")),
           result_rows({"line_a": ("A", "line A"), "line_b": ("A", "line B"), "neutral": ("A", "neutral"),
                        "rating": ("A", "next standard rating for the larger line")}), _line_currents),
    Method("cooking.demand", "Household cooking by the table of demand loads.",
           (rows("ranges", "cooking units")._replace(default=REQUIRED),),
           result_rows({"demand": ("kVA", "the least that the table permits"), "column_c": ("kVA", "every unit in column C"),
                        "by_columns": ("kVA", "small units in A and B, each column counted by itself"),
                        "together": ("kVA", "small units of A and B counted together")}), _cooking),
    Method("cooking.three_phase", "Alike single-phase ranges on a three-phase feeder.",
           (Key("ranges", COUNT, "how many"), Key("rating", "kVA", "of one")),
           result_rows({"counted": ("count", "ranges that are read in the table"), "table": ("kVA", "value of the table"),
                        "demand": ("kVA", "three-phase equivalent")}), _cooking_three_phase),
    Method("neutral.reduction", "Neutral current after the reduction above 200 A.",
           (Key("load", "A", "unbalanced load", None), Key("power", "VA", "or in VA", None),
            Key("nonlinear", "A", "nonlinear part of it", None), SYSTEM),
           result_rows({"before": ("A", "unbalanced load"), "neutral": ("A", "after the reduction")}), _neutral_reduction),
)
