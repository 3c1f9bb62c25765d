"""Told runs of pulls, boxes, terminals and framing: one for every way that each is treated."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.boxes.device_box import device_box, ground_fill, yoke_depth
from curtilage.calc.boxes.pull_box import apart_least, dimension_least, pull_box, row_least, straight_least
from curtilage.calc.boxes.records import BoxCable, BoxEntry, BoxPair, BoxRow, BoxYoke, DeviceBox, PullBox
from curtilage.calc.framing.holes import hole
from curtilage.calc.framing.passage import passage
from curtilage.calc.framing.records import Hole, Leg, Passage
from curtilage.calc.pulling.load import wire_tension, wire_weight
from curtilage.calc.pulling.records import EmptyWay, Pull, PulledCable, PullStep, PullStretch
from curtilage.calc.pulling.run import empty_way, pull, wide_enough
from curtilage.calc.pulling.tension import least_radius, level_bend
from curtilage.calc.raceways.records import Wire
from curtilage.calc.terminals.lugs import lug
from curtilage.calc.terminals.records import Lug, Terminal
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

LINE = Wire("line", 2, "500", "xhhw-2", False, 0.0, 2, "al")
NEUTRAL = Wire("neutral", 1, "500", "xhhw-2", False, 0.0, 0, "al")
GROUND = Wire("ground", 1, "1/0", "bare", False, 0.0, 0, "al")
FIBER = PulledCable("fiber", 2, 0.42, 0.06, 600.0)


def straight(name: str, length: float, rise: float = 0.0, back: bool = False) -> PullStep:
    return PullStep(name, False, length, rise, back, 0.0, 0.0)


def turn(name: str, angle: float, radius: float = 36.0) -> PullStep:
    return PullStep(name, True, 0.0, 0.0, False, angle, radius)


def stretch(name: str, *steps: PullStep) -> PullStretch:
    return PullStretch(name, steps, steps[::-1])


STRETCHES = (stretch("one", straight("a", 120.0, 6.0), turn("b", 90.0), straight("c", 60.0, 4.0, True), turn("d", 90.0, 0.0)),
             stretch("two", turn("e", 45.0), straight("f", 40.0, -3.0)))
PULL = Pull("R", "3", (LINE, NEUTRAL), (GROUND,), (), STRETCHES, 0.35, 20.0, False)
PULL_BOX = PullBox("B", 36.0, 30.0, 12.0, "500", (BoxEntry("a", 3.0),), (BoxEntry("b", 2.0),),
                   (BoxRow("west row 1", (BoxEntry("c", 3.0), BoxEntry("d", 2.0))),),
                   (BoxRow("north row 1", (BoxEntry("c", 3.0),)),),
                   (BoxPair("c to e", 3.0, 2.0, 20.0),), True)
DEVICE_BOX = DeviceBox("D", 44.0, "", 3.5, (BoxCable("in", "12", 2, 3, True), BoxCable("leg", "14", 3, 2, True),
                                            BoxCable("loose", "12", 1, 1, False)),
                       (BoxYoke("one", "12", 1, 1.75), BoxYoke("two", "14", 1, 0.5)), True, 1, 1)
HERE = Terminal("panels.P.lugs", "500", 1, "4", "600", 1, "none", "one", 16.0, True)
LUG = Lug("F", 200.0, (HERE, HERE._replace(id="feeders.F.lugs", adapter="250", largest="300", bending=10.0)))
HOLE = Hole("N", "stud", 5.5, 2.0, 0.0, 1.75, False, False, False)


def pulls() -> Iterator[Pull]:
    p = PULL
    yield p
    yield p._replace(grip=True, grounds=())
    yield p._replace(lines=(LINE._replace(material="cu", insulation="thwn-2", count=1),), grounds=(), size="1-1/2")
    yield p._replace(lines=(LINE._replace(size="2"),), grounds=(), size="1-1/4")
    yield p._replace(lines=(LINE._replace(size="2", count=3),), grounds=(), size="1-1/4")
    yield p._replace(lines=(LINE._replace(size="1", count=3),), grounds=(), size="1")
    yield p._replace(lines=(), grounds=(), cables=(FIBER,), size="2", feed=0.0)
    yield p._replace(stretches=(stretch("down", straight("a", 30.0, -25.0), turn("b", 90.0)),))


def parts(ed: Any, m: Any) -> Iterator[Any]:
    """Methods whose results are only named where they are called."""
    trade, each = Told("trade", 3.0, "in", "given"), Told("each", 0.7, "in2", "given")
    box = Given(PULL_BOX, "boxes.B")
    yield straight_least.told(trade, ed)
    yield apart_least.told(trade, trade, ed)
    yield row_least.told(box.rows_long[0].entries, ed)
    yield dimension_least.told(box.straight_long, box.rows_long, ed)
    yield ground_fill.told(Given(DEVICE_BOX, "device_boxes.D").cables, ed)
    yield yoke_depth.told(Given(DEVICE_BOX.yokes[0], "device_boxes.D"), ed)
    yield least_radius.told(Told("T", 3600.0, "lb", "given"), Told("P", 1200.0, "lb/ft", "given"), Told("k", 1.0, "", "given"))
    yield wide_enough.told(Given(PULL, "raceways.R").stretches, Told("R_least", 13.0, "in", "given"))
    yield wire_weight.told(Given(LINE, "raceways.R"), each, m)
    yield wire_tension.told(Given(LINE, "raceways.R"), m)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    m, al = ed.view("raceway-pvc40"), ed.view("al-pvc")
    yield from parts(ed, m)
    for p in pulls():
        yield pull.told(Given(p, "raceways.R"), m)
    yield empty_way.told(Given(EmptyWay("R", "3", STRETCHES), "raceways.R"), m)
    yield level_bend.told(*(Told(n, x, unit, "given") for n, x, unit in (
        ("T_in", 100.0, "lb"), ("angle", 90.0, "deg"), ("R", 3.0, "ft"), ("W", 2.0, "lb/ft"), ("w", 1.2, ""), ("f", 0.4, ""))))
    for b in (PULL_BOX, PULL_BOX._replace(largest="8"), PULL_BOX._replace(back=False, pairs=()),
              PULL_BOX._replace(pairs=(BoxPair("c to e", 3.0, 2.0, 12.0),))):
        yield pull_box.told(Given(b, "boxes.B"), ed)
    for x in (DEVICE_BOX, DEVICE_BOX._replace(volume=0.0, standard="4x2-1/8_square", clamps=False)):
        yield device_box.told(Given(x, "device_boxes.D"), ed)
    side = HERE._replace(opposite=False, sets=2, holds=2, wires="two")
    for f in (LUG, LUG._replace(ends=(side, HERE._replace(size="10", smallest="14")))):
        yield lug.told(Given(f, "feeders.F"), al)
    for h in (HOLE, HOLE._replace(hole=0.0, notch=1.0, edge=0.0, at_end=True),
              HOLE._replace(member="joist", notch=0.5, middle=True),
              HOLE._replace(member="rafter", depth=9.25, edge=1.0, guarded=True)):
        yield hole.told(Given(h, "penetrations.N"), ed)
    legs = (Leg("PP.passages.a", 12.0, 8.0), Leg("PP.passages.b", 30.0, 0.0))
    yield passage.told(Given(Passage("P", legs, legs[:1]), "framing.PP"))
