"""Adapters to the methods of grounding and bonding."""
from typing import Any

from curtilage.calc.conductors.records import CHOOSE_SIZE
from curtilage.calc.grounding.earth import four_probe, ring_resistance, rod_resistance, rods
from curtilage.calc.grounding.records import Beyond, Bonding, Electrode, Pair, Ring, Rods
from curtilage.calc.grounding.sizing import bonding, electrode_conductor
from curtilage.reference.conductors import MATERIALS
from curtilage.reference.kinds import COUNT, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Told

KINDS = ("rod", "plate", "concrete-encased", "ring", "water pipe", "structural metal")
OHM_M = "ohm m"

_SUPPLY = Key("material", WORDS, "metal of the conductors that supply", "copper", choices=tuple(MATERIALS))
_OWN = Key("conductor", WORDS, "metal of the grounding conductor or jumper", "copper", choices=tuple(MATERIALS))
_SETS = Key("sets", COUNT, "conductors in parallel, one set in each raceway", 1)
_SIZE = Key("size", SIZE, "ungrounded conductor of one set")
_SOIL = Key("resistivity", "ohm-m", "resistivity of the soil", line=OHM_M)
_LENGTH = Key("length", "ft", "length in the earth; of a ring, around")


def _view(run: Run) -> Any:
    return run.telling().view(f"{MATERIALS[run.bare.material]}-pvc")


def _bonding(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    record = Bonding("given", float(b.sets), b.size, MATERIALS[b.material], b.size, MATERIALS[b.conductor], CHOOSE_SIZE)
    r = bonding.told(run.record(record, put={"sets": g.sets, "size": g.size}), _view(run))
    return {"area": r.area, "jumper": r.least, "each": r.each, "neutral_area": r.neutral_area}


def _electrode(g: Any, run: Run) -> dict[str, Told]:
    b, m = run.bare, _view(run)
    beyond = (Beyond("given.onward", b.onward, CHOOSE_SIZE),) if b.onward != "nothing" else ()
    record = Electrode("given", b.kind, b.wire or CHOOSE_SIZE, MATERIALS[b.conductor], CHOOSE_SIZE, 0.0, beyond)
    supplying = Bonding("given", float(b.sets), b.size, MATERIALS[b.material], b.size, MATERIALS[b.conductor], CHOOSE_SIZE)
    area = bonding.told(run.record(supplying, put={"sets": g.sets, "size": g.size}), m).area
    r = electrode_conductor.told(run.record(record, put={"area": area, "kind": g.kind}), m)
    return {"area": area, "size": r.size}


def _rod(g: Any, run: Run) -> dict[str, Told]:
    if run.bare.count == 1:
        return {"resistance": rod_resistance.told(g.resistivity, g.length, g.diameter)}
    n = run.bare.count
    pairs = tuple(Pair("given.count", float(j - i)) for i in range(n) for j in range(i + 1, n))
    record = Rods("given", 1.0, 1.0, 1.0, float(n), 0.0, pairs)
    put = {name: getattr(g, name) for name in ("resistivity", "length", "diameter", "count", "spacing")}
    return {"resistance": rods.told(run.record(record, put=put), run.telling()).resistance}


def _ring(g: Any, run: Run) -> dict[str, Told]:
    put = {name: getattr(g, name) for name in ("resistivity", "length", "depth", "wire")}
    record = Ring("given", 1.0, 1.0, run.bare.wire, 1.0)
    return {"resistance": ring_resistance.told(run.record(record, put=put), run.telling()).resistance}


def _probe(g: Any, run: Run) -> dict[str, Told]:
    return {"resistivity": four_probe.told(g.spacing, g.resistance)}


METHODS = (
    Method("bonding.jumper", "Main, system and supply-side bonding jumpers by the conductors that supply.",
           (_SIZE, _SETS, _SUPPLY, _OWN),
           (Result("area", "cmil", "all sets together"),
            Result("jumper", SIZE, "main or system jumper, or one common to all raceways"),
            Result("each", SIZE, "supply-side jumper of each raceway"),
            Result("neutral_area", "cmil", "least neutral in each raceway")), _bonding),
    Method("electrode.conductor", "Grounding electrode conductor of one electrode.",
           (Key("kind", WORDS, "kind of electrode", choices=KINDS), Key("wire", SIZE, "wire of a ring", None),
            Key("onward", WORDS, "kind of electrode that the conductor runs on to", "nothing", choices=("nothing", *KINDS)),
            _SIZE, _SETS, _SUPPLY, _OWN),
           (Result("area", "cmil", "of the supply, all sets together"), Result("size", SIZE, "conductor")), _electrode),
    Method("earth.rods", "Resistance to earth of one rod, or of several in a row.",
           (_SOIL, _LENGTH, Key("diameter", "in", "diameter of a rod"), Key("count", COUNT, "rods", 1),
            Key("spacing", "ft", "distance between neighbours", 0.0)),
           (Result("resistance", "ohm", "of all together"),), _rod),
    Method("earth.ring", "Resistance to earth of a ring of bare wire.",
           (_SOIL, _LENGTH, Key("depth", "ft", "depth below ground"), Key("wire", SIZE, "bare wire")),
           (Result("resistance", "ohm", "of the ring"),), _ring),
    Method("earth.four_probe", "Resistivity of soil from four probes in a line.",
           (Key("spacing", "ft", "distance between neighbours"), Key("resistance", "ohm", "what the instrument shows")),
           (Result("resistivity", OHM_M, "of the soil"),), _probe),
)
