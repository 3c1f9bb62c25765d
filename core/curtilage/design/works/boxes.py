"""Pull boxes, boxes of devices, terminals."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.boxes.device_box import device_box
from curtilage.calc.boxes.pull_box import pull_box
from curtilage.calc.boxes.records import BoxCable, BoxEntry, BoxPair, BoxRow, BoxYoke, DeviceBox, PullBox
from curtilage.calc.terminals.lugs import lug
from curtilage.calc.terminals.records import Lug, Terminal
from curtilage.design.ask import Ask
from curtilage.design.works.laid import CARRIES, planned
from curtilage.editions.shapes import number
from curtilage.errors import CurtilageError, listed

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder
    from curtilage.model.panels import Lugs
    from curtilage.model.pulls import DeviceBox as Stated
    from curtilage.model.pulls import Entry
    from curtilage.model.raceways import Box

OPPOSITE = {"north": "south", "south": "north", "east": "west", "west": "east"}
LONG, WIDE = ("east", "west"), ("north", "south")
"""Walls between which the length lies, and the width."""
WORDS = ("one", "two", "three", "four", "five")
"""Conductors on one terminal, as the columns of the tables of bending space are named."""
NO_ADAPTER = "none"


class Missing(CurtilageError):
    """An input that a box or a terminal needs and the estate does not state."""


def stage(d: Design) -> None:
    """Every box, and both ends of every feeder."""
    named = _named(d) if d.estate.boxes else {}
    for b in d.estate.boxes:
        _attempt(d, f"box/{b.id}", _pull_box, b, named)
    for x in d.estate.device_boxes:
        _attempt(d, f"box/{x.id}", _device_box, x)
    for f in d.estate.feeders:
        if f"feeder/{f.id}" in d.items:
            terminals(d, f)


def terminals(d: Design, f: Feeder) -> None:
    """Both ends of one feeder."""
    _attempt(d, f"lug/{f.id}", _lug, f)


def _attempt(d: Design, key: str, make: Any, *x: Any) -> None:
    try:
        d.attempt(key, make(d, *x))
    except Missing as e:
        d.lack(key, str(e))


# -------------------------------------------------------------------------------------------------------------- pull boxes
def _pull_box(d: Design, b: Box, named: dict[str, str]) -> Ask:
    """A pull box by its entries, or by the raceways that it names."""
    entries = {e.id: e for e in b.entries} or _plain(b)
    if not entries:
        raise Missing(f"the raceways that enter box {b.id} are missing")
    sizes = {name: _entry(d, b, e, named) for name, e in entries.items()}
    straight: dict[bool, list[BoxEntry]] = {True: [], False: []}
    turning: set[tuple[str, int]] = set()
    pairs: list[BoxPair] = []
    reached = {e.to for e in entries.values()}
    for name, e in entries.items():
        if e.to is not None and e.to not in entries:
            raise Missing(f"box {b.id}: entry {name} leads to {e.to}, which is no entry of it; its entries are {listed(entries)}")
        far = entries[e.to] if e.to is not None else None
        if far is not None and far.wall == OPPOSITE.get(e.wall):
            straight[e.wall in LONG] += [sizes[name], sizes[far.id]]
        elif far is not None or name not in reached:
            turning.add((e.wall, e.row))
            if far is not None:
                turning.add((far.wall, far.row))
                pairs.append(_pair(b, e, sizes[name].trade, sizes[far.id].trade))
    rows = [(wall, BoxRow(f"{wall} row {row}", tuple(sizes[n] for n, e in entries.items() if (e.wall, e.row) == (wall, row))))
            for wall, row in sorted(turning)]
    long, wide = (tuple(r for wall, r in rows if wall in walls) for walls in (LONG, WIDE))
    largest, tags = _largest(d, b, named)
    back = any(e.wall == "back" for e in entries.values())
    record = PullBox(b.id, b.length, b.width, b.depth, largest, tuple(straight[True]), tuple(straight[False]),
                     long, wide, tuple(pairs), back)
    at = f"boxes.{b.id}"
    return Ask(pull_box, record, at, "ed", {"back": f"{at}.entries" if b.entries else f"{at}.raceways"}, tags)


def _plain(b: Box) -> dict[str, Any]:
    """Entries where only raceways are named: all are pulled straight through the length."""
    from curtilage.model.pulls import Entry

    if b.raceways and not b.straight:
        raise Missing(f"box {b.id}: where raceways enter and where their conductors leave is missing; describe its entries")
    out: dict[str, Entry] = {}
    for name in b.raceways:
        out[name] = Entry(id=name, raceway=name, wall="west", to=f"{name}-out")
        out[f"{name}-out"] = Entry(id=f"{name}-out", raceway=name, wall="east")
    return out


def _entry(d: Design, b: Box, e: Entry, named: dict[str, str]) -> BoxEntry:
    """The trade size of an entry as a number; its id is the place where the size was written."""
    if e.size is not None:
        return BoxEntry(f"boxes.{b.id}.entries.{e.id}.size", number(e.size))
    key = named.get(e.raceway or "", "")
    if key not in d.items:
        raise Missing(f"box {b.id}: the trade size of entry {e.id} is missing")
    name = key.removeprefix("raceway/")
    stated = any(r.id == name for r in d.estate.raceways)
    return BoxEntry(f"raceways.{name}.size" if stated else d.asks[key].path, number(str(d.items[key].size)))


def _named(d: Design) -> dict[str, str]:
    """Names of raceways, and of feeders for the first raceway that holds their conductors -> key of the raceway."""
    out: dict[str, str] = {}
    for p in planned(d):
        members = p.stated.members if p.stated is not None else ()
        for name in (p.id, p.supply.partition("/")[2], *(m.of for m in members if m.kind in CARRIES)):
            if name:
                out.setdefault(name, f"raceway/{p.id}")
    return out


def _pair(b: Box, e: Entry, one: float, other: float) -> BoxPair:
    if e.apart is None:
        raise Missing(f"box {b.id}: the distance between the entries {e.id} and {e.to} is missing")
    return BoxPair(f"{b.id}.entries.{e.id}", one, other, e.apart)


def _largest(d: Design, b: Box, named: dict[str, str]) -> tuple[str, dict[str, str]]:
    """The largest conductor in a box: as stated, or of what lies in its raceways."""
    if b.largest is not None:
        return b.largest, {}
    names = [*b.raceways, *(e.raceway for e in b.entries if e.raceway)]
    found: list[tuple[float, str, str]] = []
    for name in dict.fromkeys(names):
        asked = d.asks.get(named.get(name, ""))
        for w in asked.record.wires if asked else ():
            if w.size:
                tag = asked.tags.get("wires", {}).get(w.id, {}).get("size", "") if asked else ""
                found.append((d.ed.cmil[w.size], w.size, tag))
    if not found:
        raise Missing(f"the largest conductor in box {b.id} is missing")
    _, size, tag = max(found)
    return size, {"largest": tag} if tag else {}


# ------------------------------------------------------------------------------------------------------------ device boxes
def _device_box(d: Design, b: Stated) -> Ask:
    """A box of devices: what enters it and what is in it."""
    at = f"device_boxes.{b.id}"
    if b.volume is None and not b.standard:
        raise Missing(f"the volume of box {b.id}, or the name of a standard box, is missing")
    if not b.cables:
        raise Missing(f"what enters box {b.id} is missing")
    cables = tuple(BoxCable(f"{b.id}.cables.{c.id}", c.size, c.wires, c.count, c.ground) for c in b.cables)
    yokes = tuple(BoxYoke(f"{b.id}.yokes.{y.id}", y.size, y.gangs, y.depth or 0.0) for y in b.yokes)
    record = DeviceBox(b.id, b.volume or 0.0, b.standard, b.depth or 0.0, cables, yokes, b.clamps, b.fittings, b.blocks)
    return Ask(device_box, record, at, "ed")


def unmeasured(b: Stated) -> str:
    """What is missing to hold the depth of a device box against its devices."""
    if b.depth is None:
        return f"the depth of box {b.id}"
    names = [y.id for y in b.yokes if y.depth is None]
    return f"how far {listed(names)} reach{'' if len(names) > 1 else 'es'} into box {b.id}" if names else ""


# --------------------------------------------------------------------------------------------------------------- terminals
def _lug(d: Design, f: Feeder) -> Ask:
    """The terminals at both ends of a feeder."""
    key, panel = f"feeder/{f.id}", next(p for p in d.estate.panels if p.id == f.to)
    ends = []
    both = (("of its device", f"feeders.{f.id}.lugs", f.lugs), (f"of panel {f.to}", f"panels.{f.to}.lugs", panel.lugs))
    for what, at, lugs in both:
        if lugs is None or lugs.smallest is None or lugs.largest is None:
            raise Missing(f"the range of the terminals {what} is missing ({at})")
        if lugs.bending is None:
            raise Missing(f"the bending space at the terminals {what} is missing ({at})")
        ends.append(_end(d, key, at, lugs))
    tags = {"device": f"{key}/device", "ends": {t.id: {"size": f"{key}/size", "sets": f"{key}/sets"} for t in ends}}
    return Ask(lug, Lug(f.id, d.items[key].device, tuple(ends)), f"feeders.{f.id}.lugs", d.asks[key].view, {}, tags)


def _end(d: Design, key: str, at: str, lugs: Lugs) -> Terminal:
    r = d.items[key]
    on = 1 if lugs.adapter else int(r.sets)
    return Terminal(at, r.size, r.sets, str(lugs.smallest), str(lugs.largest), lugs.sets, lugs.adapter or NO_ADAPTER,
                    WORDS[min(on, len(WORDS)) - 1], float(lugs.bending or 0.0), lugs.opposite)
