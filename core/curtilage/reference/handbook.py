"""Adapters to the forms of handbooks and textbooks, and to the rules of an edition as they stand."""
from typing import Any

from curtilage.calc.handbook import (
    ambient_equation,
    constant_drop,
    diversified,
    diversity,
    open_line,
    open_neutral,
    resistance_factor,
    resistance_of,
    sending,
    single_phase_current,
    start_dip,
    sum_of_drops,
    three_phase_current,
    transformer_drop,
    wire,
)
from curtilage.errors import CurtilageError
from curtilage.reference.conductors import MATERIALS
from curtilage.reference.kinds import COUNT, NUMBER, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.rules import Shape, Tiers
from curtilage.values.told import Cite, Told

GAUGES = {"1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3}
NAUGHT = Told("r", 0.0, "ohm", "rule", cite=Cite("conductors without resistance", "derived"))

_K = Key("K", NUMBER, "drop constant, per unit for ten thousand ampere-feet", like="0.0136")
_CURRENT, _LENGTH = Key("current", "A", "load current"), Key("length", "ft", "length, one way")
_TRANSFORMER = (Key("load", "kVA", "load"), Key("rating", "kVA", "rating of the transformer"),
                Key("R", NUMBER, "resistance, per unit", like="0.0107"), Key("X", NUMBER, "reactance, per unit", like="0.0139"),
                Key("power_factor", NUMBER, "power factor, lagging"))


# --------------------------------------------------------------------------------------------------------- secondaries
def _per_unit(g: Any, run: Run) -> dict[str, Told]:
    return {"drop": constant_drop.told(g.K, g.current, g.length)}


def _transformer(g: Any, run: Run) -> dict[str, Told]:
    return {"drop": transformer_drop.told(g.load, g.rating, g.R, g.X, g.power_factor)}


def _secondary(g: Any, run: Run) -> dict[str, Told]:
    first = transformer_drop.told(g.load, g.rating, g.R, g.X, g.power_factor)
    runs = tuple(constant_drop.told(r.K, r.current, r.length) for r in g.runs)
    return {"transformer": first, "total": sum_of_drops.told((first, *runs))}


def _start_dip(g: Any, run: Run) -> dict[str, Told]:
    return {"dip": start_dip.told(g.start, g.voltage, g.fault, g.base)}


def _current(g: Any, run: Run) -> dict[str, Told]:
    current = three_phase_current if run.bare.circuit == "three-phase" else single_phase_current
    return {"current": current.told(g.rating, g.voltage)}


# ------------------------------------------------------------------------------------------------------ open neutral
def _load_resistance(resistance: Told | None, power: Told | None, voltage: Told, side: str) -> Told:
    if resistance is not None:
        return resistance
    if power is None:
        raise CurtilageError(f"give 'resistance_{side}' or 'power_{side}'")
    return resistance_of.told(power, voltage, place=side)           # type: ignore[no-any-return]


def _open_neutral(g: Any, run: Run) -> dict[str, Told]:
    a = _load_resistance(g.resistance_a, g.power_a, g.voltage, "a")
    b = _load_resistance(g.resistance_b, g.power_b, g.voltage, "b")
    r = g.conductor if g.conductor is not None else NAUGHT
    e = sending.told(g.voltage, g.voltage, a, b, r)
    both = open_neutral.told(e.volts_a, e.volts_b, a, b, r)
    only_a, only_b = open_line.told(e.volts_a, a, r), open_line.told(e.volts_b, b, r)
    return {"sending_a": e.volts_a, "sending_b": e.volts_b,
            "current": both.current, "volts_a": both.volts_a, "volts_b": both.volts_b,
            "current_a_alone": only_a.current, "volts_a_alone": only_a.volts,
            "current_b_alone": only_b.current, "volts_b_alone": only_b.volts}


# ------------------------------------------------------------------------------------------------------------ tables
def _wire(g: Any, run: Run) -> dict[str, Told]:
    size = run.bare.size
    if size not in GAUGES and not (size.isascii() and size.isdigit() and 1 <= int(size) <= 40):
        raise CurtilageError(f"'{size}' is no gauge number; allowed: 40 to 1, 1/0, 2/0, 3/0, 4/0")
    n = Told("n", GAUGES.get(size, int(size) if size.isdigit() else 0), "count", "rule", (g.size,), Cite("ASTM B258", "derived"))
    w = wire.told(n)
    return {"diameter": w.diameter, "area": w.area}


def _temperature(g: Any, run: Run) -> dict[str, Told]:
    alpha = g.alpha if g.alpha is not None else run.telling().view(f"{MATERIALS[run.bare.material]}-pvc").alpha
    return {"factor": resistance_factor.told(alpha, g.temperature)}


def _ambient(g: Any, run: Run) -> dict[str, Told]:
    ed = run.telling()
    tables = {60.0: "ambient_factor60", 75.0: "ambient_factor75", 90.0: "ambient_factor90"}
    if run.bare.insulation not in tables:
        raise CurtilageError("insulation is 60, 75 or 90 degC")
    return {"factor": ambient_equation.told(g.insulation, g.ambient),
            "table": getattr(ed, tables[run.bare.insulation]).told(g.ambient)}


# --------------------------------------------------------------------------------------------------------- diversity
def _diversified(g: Any, run: Run) -> dict[str, Told]:
    return {"diversified": diversified.told(g.connected, g.customers, g.demand_factor, g.diversity_factor)}


def _diversity(g: Any, run: Run) -> dict[str, Told]:
    d = diversity.told(g.peaks, g.system_peak)
    return {"sum": d.sum, "diversity_factor": d.diversity_factor, "coincidence_factor": d.coincidence_factor,
            "load_diversity": d.load_diversity}


# ------------------------------------------------------------------------------------------------- rules as they stand
def _rule(g: Any, run: Run) -> dict[str, Told]:
    name, ed = run.bare.rule, run.edition
    rule, shape = ed.rule(name), ed.raw_shape(name)
    cite = Cite(rule.where, rule.status)
    out = {"clause": Told("clause", rule.clause, "text", "rule", cite=cite)}
    if not isinstance(shape, Shape):
        out["value"] = getattr(run.telling(), name)
    elif isinstance(shape, Tiers):
        for n, (limit, factor) in enumerate(shape.steps[:3], 1):
            out[f"tier{n}_limit"] = Told(f"tier {n} up to", limit, rule.unit, "rule", cite=cite)
            out[f"tier{n}_factor"] = Told(f"tier {n}", 100 * factor, "%", "rule", cite=cite)
    if g.at is not None and isinstance(shape, Shape):
        out["value"] = getattr(run.telling(), name).told(g.at)
    return {k: v for k, v in out.items() if k == "clause" or v.value != float("inf")}


METHODS = (
    Method("transformer.current", "Full-load current of a transformer or a load.",
           (Key("rating", "VA", "rating"), Key("voltage", "V", "line to line for three phases"),
            Key("circuit", WORDS, "two-wire or three-phase", "two-wire", choices=("two-wire", "three-phase"))),
           (Result("current", "A", "full load"),), _current),
    Method("drop.per_unit", "Drop of a secondary by its tabulated constant.", (_K, _CURRENT, _LENGTH),
           (Result("drop", "", "per unit"),), _per_unit),
    Method("drop.transformer", "Drop in a transformer.", _TRANSFORMER, (Result("drop", "", "per unit"),), _transformer),
    Method("drop.secondary", "Drop in a transformer and the runs behind it.",
           (*_TRANSFORMER, Key("runs", "", "runs in series", many=True, row=(_K, _CURRENT, _LENGTH))),
           (Result("transformer", "", "per unit"), Result("total", "", "per unit, all in series")), _secondary),
    Method("drop.start_dip", "Dip when a load starts on a three-phase system of known fault current.",
           (Key("start", "kVA", "starting power"), Key("voltage", "kV", "line to line"),
            Key("fault", "A", "three-phase fault current"), Key("base", "V", "voltage on which the dip is stated", 120.0)),
           (Result("dip", "V", "dip of the base voltage"),), _start_dip),
    Method("open_neutral", "Two loads on three wires when the neutral or a line opens.",
           (Key("voltage", "V", "at each load before"), Key("power_a", "W", "load on side a", None),
            Key("power_b", "W", "load on side b", None), Key("resistance_a", "ohm", "load on side a", None),
            Key("resistance_b", "ohm", "load on side b", None), Key("conductor", "ohm", "resistance of each conductor", None)),
           (Result("sending_a", "V", "at the sending end"), Result("sending_b", "V", "at the sending end"),
            Result("current", "A", "with the neutral open"), Result("volts_a", "V", "with the neutral open"),
            Result("volts_b", "V", "with the neutral open"), Result("current_a_alone", "A", "with line b open"),
            Result("volts_a_alone", "V", "with line b open"), Result("current_b_alone", "A", "with line a open"),
            Result("volts_b_alone", "V", "with line a open")), _open_neutral),
    Method("wire.diameter", "Diameter and area of a wire of the American gauge.", (Key("size", SIZE, "gauge number"),),
           (Result("diameter", "in", "of the round wire"), Result("area", "cmil", "its area")), _wire),
    Method("resistance.temperature", "Factor on a resistance at 75 degC for another temperature.",
           (Key("alpha", NUMBER, "temperature coefficient at 75 degC, per degC", None, line="1/degC"),
            Key("material", WORDS, "without alpha: that of the tables for this metal", "copper", choices=("copper", "aluminium")),
            Key("temperature", "degC", "of the conductor")), (Result("factor", "", "on the resistance"),), _temperature),
    Method("ambient.equation", "Correction for ambient temperature, by equation and by table.",
           (Key("insulation", "degC", "rating of the insulation: 60, 75 or 90 degC"),
            Key("ambient", "degC", "ambient temperature")),
           (Result("factor", "", "by the equation"), Result("table", "", "by the table of the edition")), _ambient),
    Method("diversity.of_alike", "Peak of alike customers together, by demand and diversity factor.",
           (Key("customers", COUNT, "how many"), Key("connected", "kVA", "connected load of each"),
            Key("demand_factor", NUMBER, "peak of one over its connected load", like="0.65"),
            Key("diversity_factor", NUMBER, "sum of the peaks over the peak of all", like="1.1")),
           (Result("diversified", "kVA", "peak of all together"),), _diversified),
    Method("diversity", "Diversity and coincidence of several peaks.",
           (Key("peaks", "kVA", "each peak by itself", many=True), Key("system_peak", "kVA", "peak of all together")),
           (Result("sum", "kVA", "sum of the peaks"), Result("diversity_factor", "", "sum over system peak"),
            Result("coincidence_factor", "", "system peak over sum"), Result("load_diversity", "kVA", "sum less system peak")),
           _diversity),
    Method("edition.rule", "A rule of an edition as it stands: its value, its first tiers, its clause.",
           (Key("rule", WORDS, "name of the rule in the data of the edition", like='"unit_load"'),
            Key("at", NUMBER, "value to look up, for a table", None)),
           (Result("value", "", "constant, or answer of the table"), Result("clause", WORDS, "where it stands"),
            Result("tier1_limit", "VA", "end of the first tier"), Result("tier1_factor", "%", "of the first tier"),
            Result("tier2_limit", "VA", "end of the second tier"), Result("tier2_factor", "%", "of the second tier"),
            Result("tier3_limit", "VA", "end of the third tier"), Result("tier3_factor", "%", "of the third tier")), _rule,
           "Write a value with the unit of the rule."),
)
