"""Adapters to the conductor methods: from the keys of a file to the method, and back to named results."""
from typing import Any

from curtilage.calc.conductors.ampacity import ampacity, conditions
from curtilage.calc.conductors.drop import ONE_WAY, THERE_AND_BACK, THREE_PHASE, exact_drop, reactive_factor
from curtilage.calc.conductors.dwelling_rule import dwelling_ampacity
from curtilage.calc.conductors.grounding_conductor import equipment_ground
from curtilage.calc.conductors.parallel import smallest_with, together
from curtilage.calc.conductors.records import CHOOSE, CHOOSE_SIZE, Circuit
from curtilage.calc.conductors.run import carrying_size, need_of
from curtilage.calc.handbook import (
    circular_mil_drop,
    circular_mils,
    drop_over,
    impedance,
    longest,
    part_of,
    size_of_area,
)
from curtilage.errors import CurtilageError
from curtilage.reference.kinds import COUNT, FLAG, NUMBER, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Cite, Told, walk

MATERIALS = {"copper": "cu", "aluminium": "al"}
CIRCUITS = {
    "two-wire": (THERE_AND_BACK, "the current goes out and comes back"),
    "three-phase": (THREE_PHASE, "line to line of a balanced three-phase run"),
    "line to neutral": (ONE_WAY, "one way; the neutral of a balanced run carries nothing")}
ONE = Told("n", 1, "count", "rule", cite=Cite("a single run", "derived"))
OHM_CMIL_PER_FT = "ohm cmil/ft"

# -------------------------------------------------------------------------------------------------------------- keys
_MATERIAL = Key("material", WORDS, "metal of the conductor", "copper", choices=tuple(MATERIALS))
_RACEWAY = Key("raceway", WORDS, "what it lies in", "pvc", choices=("pvc", "aluminium", "steel"))
_SIZE = Key("size", SIZE, "conductor size, as 1/0 or 250")
_LAID = (
    _MATERIAL, _RACEWAY,
    Key("insulation", "degC", "rating of the insulation: 60, 75 or 90 degC", 90.0),
    Key("terminals", "degC", "rating of the terminals: 60 or 75 degC", 75.0),
    Key("ambient", "degC", "ambient temperature", 30.0),
    Key("conductors", COUNT, "current-carrying conductors together", 3))
_CURRENT = Key("current", "A", "load current")
_LENGTH = Key("length", "ft", "length, one way")
_VOLTAGE = Key("voltage", "V", "voltage that the drop is held against", None)
_CIRCUIT = Key("circuit", WORDS, "how the conductors close the loop", "two-wire", choices=tuple(CIRCUITS))
_PF = Key("power_factor", NUMBER, "power factor, lagging")
_K = Key("K", NUMBER, "resistance of a circular-mil foot, in ohm cmil/ft", None, line=OHM_CMIL_PER_FT)
_R = Key("resistance", "ohm/kft", "resistance of one conductor", None)
_X = Key("reactance", "ohm/kft", "reactance of one conductor", None)
_SIZE_OR_NOT = Key("size", SIZE, "conductor size, in place of a resistance", None)
_DROPS = (Result("drop", "V", "voltage drop"), Result("drop_percent", "%", "the same in percent of the voltage"),
          Result("receiving", "V", "voltage at the load"))


def view(run: Run) -> Any:
    """The edition seen for the material and raceway of the file."""
    return run.telling().view(f"{MATERIALS[run.bare.material]}-{run.bare.raceway}")


def loop(run: Run) -> Told:
    """The factor by which the conductors close the loop."""
    k, why = CIRCUITS[run.bare.circuit]
    return Told("k", k, "", "rule", cite=Cite(why, "derived"))


def load_of(continuous: bool, motor: bool) -> Circuit:
    """A circuit of which only the kind of its load is known; nothing else of it is read."""
    return Circuit("given", CHOOSE, CHOOSE, 1.0, continuous, motor, False, CHOOSE, CHOOSE, CHOOSE, CHOOSE_SIZE, 1.0, 30.0, 3,
                   90.0, 75.0, 100.0, CHOOSE_SIZE)


def line_of(told: Told, symbol: str) -> Told:
    """A line of the working by its symbol."""
    found = [n for n in walk(told) if n.symbol == symbol]
    if not found:
        raise CurtilageError(f"the working has no line {symbol} here")
    return found[-1]


def _dropped(drop: Told, g: Any) -> dict[str, Told]:
    if g.voltage is None:
        return {"drop": drop}
    d = part_of.told(drop, g.voltage)
    return {"drop": drop, "drop_percent": d.percent, "receiving": d.left}


# ---------------------------------------------------------------------------------------------------------- ampacity
def _ampacity(g: Any, run: Run) -> dict[str, Told]:
    z = ampacity.told(g.size, g.insulation, g.terminals, g.ambient, g.conductors, view(run))
    return {"base": z.base, "ambient_factor": z.f_t, "bundling_factor": z.f_n, "corrected": z.corrected, "limit": z.limit,
            "ampacity": z.ampacity}


def _conductor_size(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    c = run.record(load_of(b.continuous, b.motor), put={"breaker": g.device})
    m = view(run)
    need = need_of.told(c, g.load, m)
    w = conditions.told(g.insulation, g.terminals, g.ambient, g.conductors, m)
    size = carrying_size.told(c, g.load, need, w, m)
    return {"minimum": need.minimum, "device": need.device.rating, "size": size, "ampacity": together.told(ONE, size, w)}


def _dwelling(g: Any, run: Run) -> dict[str, Told]:
    m = view(run)
    w = conditions.told(g.insulation, g.terminals, g.ambient, g.conductors, m)
    required = dwelling_ampacity.told(g.rating, m)
    size = smallest_with.told(ONE, required, w, m)
    return {"required": required, "size": size, "ampacity": together.told(ONE, size, w),
            "table_size": m.dwelling_service.told(g.rating)}


def _egc(g: Any, run: Run) -> dict[str, Told]:
    ground = equipment_ground.told(g.device, g.original, g.increased, view(run))
    out = {"table": ground.table, "egc": ground.size}
    if any(n.symbol == "A_g" for n in walk(ground.size)):
        out["required"] = line_of(ground.size, "A_g")
    return out


# -------------------------------------------------------------------------------------------------------------- drop
def _resistance(g: Any, run: Run) -> Told | None:
    if g.resistance is not None:
        return g.resistance                                   # type: ignore[no-any-return]
    return view(run).r_dc[g.size] if g.size is not None else None


def _short(g: Any, run: Run) -> dict[str, Told]:
    if g.K is not None:
        area = g.area if g.area is not None else view(run).cmil[g.size] if g.size is not None else None
        if area is None:
            raise CurtilageError("with 'K' give 'size' or 'area'")
        return _dropped(circular_mil_drop.told(loop(run), g.K, g.current, g.length, area), g)
    R = _resistance(g, run)
    if R is None:
        raise CurtilageError("give 'resistance', or 'K' with 'size' or 'area', or 'size'")
    return _dropped(drop_over.told(loop(run), R, g.current, g.length), g)


def _size_for_drop(g: Any, run: Run) -> dict[str, Told]:
    A = circular_mils.told(loop(run), g.K, g.current, g.length, g.limit)
    return {"required": A, "size": size_of_area.told(A, view(run))}


def _length_for_drop(g: Any, run: Run) -> dict[str, Told]:
    return {"length": longest.told(loop(run), g.resistance, g.current, g.limit)}


def _impedance(g: Any, run: Run) -> tuple[Told, Told]:
    if g.resistance is not None and g.reactance is not None:
        return g.resistance, g.reactance
    if g.size is None:
        raise CurtilageError("give 'resistance' and 'reactance', or 'size'")
    m = view(run)
    return m.r[g.size], m.x[g.size]


def _approximate(g: Any, run: Run) -> dict[str, Told]:
    from curtilage.calc.conductors.drop import approximate_drop
    R, X = _impedance(g, run)
    z = impedance.told(R, X, g.power_factor, g.current, g.length)
    q = reactive_factor.told(g.power_factor)
    drop = approximate_drop.told(loop(run), R, X, g.power_factor, q, g.current, g.length)
    return {**_dropped(drop, g), "effective_z": z.effective, "magnitude": z.magnitude}


def _exact(g: Any, run: Run) -> dict[str, Told]:
    R, X = _impedance(g, run)
    q = reactive_factor.told(g.power_factor)
    return _dropped(exact_drop.told(loop(run), R, X, g.power_factor, q, g.current, g.length, g.voltage), g)


_TABLES = (_R, _X, _SIZE_OR_NOT, _MATERIAL, _RACEWAY)
METHODS = (
    Method("ampacity", "Ampacity of one size: factors on the column of the insulation, never above the terminals.",
           (_SIZE, *_LAID),
           (Result("base", "A", "column of the insulation"), Result("ambient_factor", "", "by ambient temperature"),
            Result("bundling_factor", "", "by number of conductors"), Result("corrected", "A", "base by both factors"),
            Result("limit", "A", "column of the terminals"), Result("ampacity", "A", "usable")), _ampacity),
    Method("conductor.size", "Minimum, device and smallest conductor for a load.",
           (Key("load", "A", "load current"), Key("continuous", FLAG, "three hours or more", False),
            Key("motor", FLAG, "a motor, by its full-load current", False),
            Key("device", "A", "device; 0 A: chosen", 0.0), *_LAID),
           (Result("minimum", "A", "with 125 % where it applies"), Result("device", "A", "standard device"),
            Result("size", SIZE, "conductor"), Result("ampacity", "A", "of the conductor")), _conductor_size),
    Method("dwelling.service_conductor", "The 83 % rule for the service or feeder of one dwelling.",
           (Key("rating", "A", "rating of the service"), *_LAID),
           (Result("required", "A", "ampacity asked for"), Result("size", SIZE, "smallest conductor, after factors"),
            Result("ampacity", "A", "of that conductor"),
            Result("table_size", SIZE, "size by the table, where no factor applies")),
           _dwelling),
    Method("egc.upsized", "Equipment grounding conductor, in proportion where the conductors were increased.",
           (Key("device", "A", "overcurrent device"), Key("original", SIZE, "conductor before the increase"),
            Key("increased", SIZE, "conductor that is laid"), _MATERIAL, _RACEWAY),
           (Result("table", SIZE, "by the device alone"), Result("required", "cmil", "area in proportion"),
            Result("egc", SIZE, "grounding conductor")), _egc),
    Method("drop.short", "Voltage drop by resistance alone.",
           (_R, _K, _SIZE_OR_NOT, Key("area", "cmil", "area of the conductor, with K", None), _MATERIAL, _RACEWAY,
            _CURRENT, _LENGTH, _VOLTAGE, _CIRCUIT), _DROPS, _short,
           "Give `resistance`; or `K` with `size` or `area`; or `size` alone, for the direct-current resistance of the tables."),
    Method("drop.size", "Size that keeps a drop, by circular mils.",
           (_K._replace(default=12.9), _CURRENT, _LENGTH, Key("limit", "V", "allowed drop"), _MATERIAL, _RACEWAY, _CIRCUIT),
           (Result("required", "cmil", "area asked for"), Result("size", SIZE, "smallest size with that area")), _size_for_drop),
    Method("drop.length", "Longest run that keeps a drop, by resistance alone.",
           (Key("resistance", "ohm/kft", "resistance of one conductor"), _CURRENT, Key("limit", "V", "allowed drop"), _CIRCUIT),
           (Result("length", "ft", "one way"),), _length_for_drop),
    Method("drop.approximate", "Voltage drop by R cos + X sin.", (*_TABLES, _PF, _CURRENT, _LENGTH, _VOLTAGE, _CIRCUIT),
           (*_DROPS, Result("effective_z", "ohm/kft", "effective impedance at the power factor"),
            Result("magnitude", "V", "current times magnitude of the impedance of one conductor; no drop")), _approximate,
           "Give `resistance` and `reactance`; or `size`, for those of the tables."),
    Method("drop.exact", "Voltage drop with the sending voltage held, for a load of constant current.",
           (*_TABLES, _PF, _CURRENT, _LENGTH, Key("voltage", "V", "sending voltage"), _CIRCUIT), _DROPS, _exact,
           "Give `resistance` and `reactance`; or `size`, for those of the tables."),
)
