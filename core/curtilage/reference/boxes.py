"""Adapters to the methods of boxes, terminals, pulls and framing."""
from typing import Any

from curtilage.calc.boxes.device_box import device_box
from curtilage.calc.boxes.pull_box import apart_least, row_least, straight_least
from curtilage.calc.boxes.records import BoxCable, BoxEntry, BoxYoke, DeviceBox
from curtilage.calc.framing.holes import hole
from curtilage.calc.framing.records import Hole
from curtilage.calc.pulling.tension import bend, least_radius, straight
from curtilage.calc.terminals.lugs import bending_space
from curtilage.reference.kinds import COUNT, FLAG, NUMBER, SIZE, WORDS, Key, Method, Result, Run
from curtilage.values.told import Cite, Told

NOTHING_KNOWN = 0.0
ENOUGH = 1000.0                  # a volume that nothing asks about here
ALONE = Told("k", 1.0, "", "rule", cite=Cite("the whole tension presses, as for one conductor or all taken together", "derived"))


def _fill(g: Any, run: Run) -> dict[str, Told]:
    b = run.bare
    cables = tuple(
        run.record(BoxCable(f"{n}", x.size, x.wires, 1, x.ground), f"given.cables[{n}]",
                   {"size": t.size, "wires": t.wires, "ground": t.ground})
        for n, (x, t) in enumerate(zip(b.cables, g.cables, strict=True), 1))
    yokes = tuple(
        run.record(BoxYoke(f"{n}", x.size, x.gangs, NOTHING_KNOWN), f"given.yokes[{n}]", {"size": t.size, "gangs": t.gangs})
        for n, (x, t) in enumerate(zip(b.yokes, g.yokes, strict=True), 1))
    record = DeviceBox("given", ENOUGH, "", NOTHING_KNOWN, (), (), b.clamps, b.fittings, b.blocks)
    put = {"cables": cables, "yokes": yokes, "clamps": g.clamps, "fittings": g.fittings, "blocks": g.blocks}
    r = device_box.told(run.record(record, "given", put), run.telling())
    return {"wires": r.wire_fill, "devices": r.devices, "clamps": r.clamps, "grounds": r.grounds, "fill": r.box_fill}


def _box(g: Any, run: Run) -> dict[str, Told]:
    b, ed, out = run.bare, run.telling(), {}
    if b.straight is not None:
        out["straight"] = straight_least.told(g.straight, ed)
    if b.row:
        entries = tuple(run.record(BoxEntry(f"{n}", d), "given", {"trade": t})
                        for n, (d, t) in enumerate(zip(b.row, g.row, strict=True), 1))
        out["turning"] = row_least.told(entries, ed)
    if b.between:
        out["apart"] = apart_least.told(g.between[0], g.between[-1], ed)
    return out


def _bending(g: Any, run: Run) -> dict[str, Told]:
    return {"space": bending_space.told(g.size, g.wires, g.opposite, run.telling().view("cu-pvc"))}


def _radius(g: Any, run: Run) -> dict[str, Told]:
    return {"radius": least_radius.told(g.tension, g.pressure, ALONE)}


def _tension(g: Any, run: Run) -> dict[str, Told]:
    on = straight.told(g.feed, g.length, g.rise, g.weight, g.factor, g.friction)
    return {"straight": on, "tension": bend.told(on, g.angle, g.factor, g.friction)}


def _hole(g: Any, run: Run) -> dict[str, Told]:
    none = NOTHING_KNOWN
    record = Hole("given", run.bare.member, run.bare.depth, none, none, none, run.bare.at_end, False, True)
    put = {"member": g.member, "depth": g.depth, "at_end": g.at_end}
    r = hole.told(run.record(record, "given", put), run.telling())
    return {"hole": r.hole_most, "notch": r.notch_most, "edge": r.edge_least}


_CABLE = (Key("size", SIZE, "size of its conductors"), Key("wires", COUNT, "insulated conductors in each", 2),
          Key("ground", FLAG, "whether each brings a ground", True))
_YOKE = (Key("size", SIZE, "largest conductor on it"), Key("gangs", COUNT, "widths of a single device", 1))

METHODS = (
    Method("box.fill", "Volume that is taken in a device box.",
           (Key("cables", "", "what enters", many=True, row=_CABLE), Key("yokes", "", "devices", (), many=True, row=_YOKE),
            Key("clamps", FLAG, "whether there are clamps inside", False),
            Key("fittings", COUNT, "kinds of support fittings", 0), Key("blocks", COUNT, "terminal blocks", 0)),
           (Result("wires", "in3", "insulated conductors"), Result("devices", "in3", "devices"),
            Result("clamps", "in3", "clamps"), Result("grounds", "in3", "grounds"),
            Result("fill", "in3", "all together")), _fill),
    Method("box.pull", "Dimensions of a pull box, each by the rule for its kind of pull.",
           (Key("straight", "in", "trade size of the largest raceway pulled straight", None),
            Key("row", "in", "trade sizes in a row of which one at least turns, comes back or ends", (), many=True),
            Key("between", "in", "trade sizes of two entries of one conductor", (), many=True)),
           (Result("straight", "in", "least length for the straight pull"),
            Result("turning", "in", "least distance to the wall opposite the row"),
            Result("apart", "in", "least distance between the two entries")), _box),
    Method("terminal.bending", "Space to bend conductors into a terminal.",
           (Key("size", SIZE, "conductor size"),
            Key("wires", WORDS, "conductors on the terminal", "one", choices=("one", "two", "three", "four", "five")),
            Key("opposite", FLAG, "whether they come through the wall that the terminal faces", True)),
           (Result("space", "in", "bending space"),), _bending),
    Method("pull.radius", "Least radius of a bend for a tension and an allowed pressure, where all the tension presses.",
           (Key("tension", "lb", "tension that comes out of the bend"), Key("pressure", "lb/ft", "pressure allowed")),
           (Result("radius", "ft", "to the inside of the bend"),), _radius),
    Method("pull.tension", "Tension behind a straight step and a bend that follows it.",
           (Key("weight", "lb/ft", "weight of what is pulled"), Key("length", "ft", "length of the straight step"),
            Key("friction", NUMBER, "coefficient of friction"), Key("factor", NUMBER, "weight correction factor", 1.0),
            Key("feed", "lb", "tension at the feeding end", 0.0), Key("rise", "ft", "climb of the straight step", 0.0),
            Key("angle", "deg", "angle of the bend", 0.0)),
           (Result("straight", "lb", "behind the straight step"), Result("tension", "lb", "behind the bend")), _tension),
    Method("framing.limits", "Largest hole and notch in a sawn member.",
           (Key("member", WORDS, "kind of member", choices=("stud", "bearing stud", "bearing stud doubled", "joist", "rafter")),
            Key("depth", "in", "its depth"), Key("at_end", FLAG, "whether the notch is at its end", False)),
           (Result("hole", "in", "largest hole"), Result("notch", "in", "deepest notch"),
            Result("edge", "in", "wood left between hole and edge")), _hole),
)
