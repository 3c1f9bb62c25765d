"""Adapters to the methods of raceways: fill, counts, jam, cover, movement."""
from typing import Any

from curtilage.calc.raceways.cover import cover
from curtilage.calc.raceways.expansion import expansion
from curtilage.calc.raceways.fill import count_alike, jam, mean_diameter, raceway
from curtilage.calc.raceways.records import Buried, Exposed, Lying, Raceway, Wire
from curtilage.reference.kinds import FLAG, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Told

KINDS = ("emt", "imc", "rmc", "fmc", "lfmc", "lfnc-a", "lfnc-b", "pvc40", "pvc80", "hdpe")
INSULATIONS = ("thwn-2", "xhhw-2", "rhw-2", "rhw-2 uncovered", "bare")
NOTHING_KNOWN = 0.0

_KIND = Key("kind", WORDS, "type of raceway", choices=KINDS)
_INSULATION = Key("insulation", WORDS, "insulation; THHN has the sizes of THWN-2", "thwn-2", choices=INSULATIONS)
_COMPACT = Key("compact", FLAG, "whether strands are compact", False)
_WIRE = (Key("size", SIZE, "conductor size", None), _INSULATION, _COMPACT,
         Key("diameter", "in", "outside diameter of a cable, in place of a size", None))


def _view(run: Run) -> Any:
    return run.telling().view(f"raceway-{run.bare.kind}")


def _wire(n: int, bare: Any, told: Any, run: Run) -> Any:
    """One row as a record whose leaves know the line of the file."""
    record = Wire(f"{n}", 1, bare.size or "", bare.insulation, bare.compact, bare.diameter or NOTHING_KNOWN, 0, "")
    put = {k: getattr(told, k) for k in ("size", "insulation", "compact", "diameter") if getattr(told, k) is not None}
    return run.record(record, f"given.conductors[{n}]", put)


def _fill(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    wires = tuple(_wire(n, x, t, run) for n, (x, t) in enumerate(zip(b.conductors, g.conductors, strict=True), 1))
    put = {"wires": wires} | {name: told for name, told in (("size", g.trade), ("length", g.length)) if told is not None}
    r = raceway.told(run.record(Raceway("given", b.trade or "", b.length or NOTHING_KNOWN, ()), "given", put), _view(run))
    return {"conductors": r.conductors, "trade": r.least, "smaller": r.below, "share": r.share, "fill": r.fill, "whole": r.whole,
            "jam": r.jam, "jam_in_bend": r.jam_in_bend}


def _count(g: Any, run: Run) -> dict[str, Told]:
    m = _view(run)
    tables = {"thwn-2": m.conductor_area_thhn, "xhhw-2": m.conductor_area_xhhw, "rhw-2": m.conductor_area_rhw_covered,
              "rhw-2 uncovered": m.conductor_area_rhw, "bare": m.bare_area}
    return {"most": count_alike.told(g.trade, tables[run.bare.insulation][g.size], m)}


def _jam(g: Any, run: Run) -> dict[str, Told]:
    """The three largest of the diameters that are listed; a list of one mean diameter, three times, gives the averaged form."""
    lying = tuple(run.record(Lying(f"{n}", 1, "", "", d, NOTHING_KNOWN, NOTHING_KNOWN), "given", {"diameter": t})
                  for n, (d, t) in enumerate(zip(run.bare.diameters, g.diameters, strict=True), 1))
    n = Told("n", len(lying), "count", "given", place="given.diameters", where=run.where("given.diameters"))
    j = jam.told(n, mean_diameter.told(lying, n), g.inside, _view(run))
    return {"ratio": j.ratio, "in_bend": j.in_bend, "clear": j.ok}


def _cover(g: Any, run: Run) -> dict[str, Told]:
    record = Buried("given", run.bare.what, run.bare.location, NOTHING_KNOWN, False, NOTHING_KNOWN)
    found = cover.told(run.record(record, "given", {"column": g.what, "location": g.location}), run.telling())
    return {"least": found.least}


def _expansion(g: Any, run: Run) -> dict[str, Told]:
    record = Exposed("given", run.bare.length, run.bare.warmest, NOTHING_KNOWN, run.bare.coldest, False)
    put = {"length": g.length, "warmest": g.warmest, "coldest": g.coldest}
    found = expansion.told(run.record(record, "given", put), run.telling())
    return {"change": found.change, "fitting": found.wanted}


METHODS = (
    Method("raceway.fill", "Fill of a raceway with mixed conductors, and the smallest trade size that holds them.",
           (_KIND, Key("conductors", "", "what lies in it", many=True, row=_WIRE),
            Key("trade", SIZE, "trade size, to know its fill", None, like='"1-1/4"'),
            Key("length", "ft", "length; at most 2 ft it is a nipple", None)),
           (Result("conductors", "in2", "area of all conductors"), Result("trade", SIZE, "smallest trade size that holds them"),
            Result("smaller", SIZE, "the next smaller one, which does not"), Result("share", "%", "that may be filled"),
            Result("fill", "%", "of the trade size that is stated or chosen"), Result("whole", "in2", "its cross-section"),
            Result("jam", "", "inside diameter over the mean of the three largest"),
            Result("jam_in_bend", "", "the same with the raceway wider in the bend")), _fill),
    Method("raceway.count", "Largest number of alike conductors in a raceway, with the rounding of note 7.",
           (_KIND, Key("trade", SIZE, "trade size", like='"1-1/4"'), Key("size", SIZE, "conductor size"), _INSULATION),
           (Result("most", "count", "conductors"),), _count),
    Method("raceway.jam", "Jam ratio from an inside diameter and the diameters of the conductors.",
           (Key("inside", "in", "inside diameter of the raceway"), Key("diameters", "in", "of each conductor", many=True),
            _KIND._replace(default="pvc40")),
           (Result("ratio", "", "over the mean of the three largest"),
            Result("in_bend", "", "with the raceway wider in the bend"),
            Result("clear", FLAG, "whether they cannot jam")), _jam),
    Method("raceway.cover", "Least cover of a raceway or cable in the ground.",
           (Key("what", WORDS, "what lies there", choices=("direct", "metal", "nonmetallic", "120 V 20 A GFCI", "30 V")),
            Key("location", WORDS, "row of the table", "other",
                choices=("other", "trench_under_2in_concrete", "under_building", "under_4in_slab_no_vehicles",
                         "streets_driveways_parking", "dwelling_driveways", "airport_runways"))),
           (Result("least", "in", "cover"),), _cover),
    Method("raceway.expansion", "Change of length of a straight run of rigid PVC.",
           (Key("length", "ft", "length of the run"), Key("warmest", "degC", "warmest it will be"),
            Key("coldest", "degC", "coldest it will be")),
           (Result("change", "in", "change of length"), Result("fitting", FLAG, "whether a fitting is wanted")), _expansion),
)
