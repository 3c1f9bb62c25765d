"""Raceways: what lies in them, how full they are, how deep they lie; the trenches, as tables and cut across."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from curtilage.design.works.laid import Planned, planned
from curtilage.design.works.raceways import ROWS
from curtilage.draw.svg import Text, Words
from curtilage.draw.trench import Cut, Duct, section
from curtilage.report.content import Cell, Column, Line, Num, Table, conductors, given, keys, num, unit_of

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.site import Trench

USES = {"power": "power", "comm": "communication", "spare": "spare", "sleeve": "sleeve"}
ABOVE = {"yard": "open ground", "drive": "the drive", "street": "a street or parking", "slab": "a slab without vehicles",
         "building": "a building", "concrete": "concrete"}


class Drawing(NamedTuple):
    """A drawing with its title; the text alternative is inside it."""

    title: str
    svg: str


def tables(d: Design) -> list[Table]:
    """Raceways, cover, movement, trenches."""
    d.works("raceway")
    d.works("trench")
    return [raceways(d), buried(d), moving(d), trenches(d), supplies(d)]


# --------------------------------------------------------------------------------------------------------------- raceways
def raceways(d: Design) -> Table:
    """The raceway schedule."""
    lines = [raceway(d, p) for p in planned(d) if f"raceway/{p.id}" in d.items]
    columns = (Column("raceway", keep=True), Column("from, to", rank=2), Column("holds"), Column("kind", rank=1),
               Column("trade size", keep=True), Column("filled, %", True), Column("at most, %", True, rank=1),
               Column("next smaller", rank=3), Column("jam ratio", True, rank=2), Column("in bends", True, rank=1))
    return Table("Raceways", columns, tuple(lines),
                 f"A jam ratio from {d.ed.jam_from:g} to {d.ed.jam_to:g} lets three conductors wedge side by side; it is "
                 "information, not a rule. Kinds, insulation and strands are assumptions until the submittal.")


def raceway(d: Design, p: Planned) -> Line:
    """One raceway."""
    key, r = f"raceway/{p.id}", d.items[f"raceway/{p.id}"]
    size = num(d, f"{key}/size")
    chosen = p.stated is None or p.stated.size is None
    shown = f"{p.alike} x {size.shown}" if p.alike > 1 else size.shown
    trade = Num(size.tag, f"{shown}, chosen" if chosen and size.shown else shown, "", size.value)
    below: Cell = num(d, f"{key}/below") if r.wires and r.below != "none" else ""
    if isinstance(below, Num):
        below = Num(f"{key}/below_fill", f"{below.shown}: {num(d, f'{key}/below_fill').shown} %" if below.shown else "", "")
    jam = [num(d, f"{key}/{field}") if r.jam else "" for field in ("jam", "jam_in_bend")]
    filled: list[Cell] = [num(d, f"{key}/fill"), num(d, f"{key}/share")] if r.wires else ["nothing in it", ""]
    kind = "fails" if not r.fill_ok else "over" if not r.jam_ok else ""
    return Line((p.id, f"{p.start} to {p.end}", holds(d, p), p.kind, trade, *filled, below, *jam), key, kind)


def holds(d: Design, p: Planned) -> str:
    """What lies in a raceway, in words."""
    lying = d.items[f"raceway/{p.id}"].lying
    if not lying:
        return USES.get(p.use, p.use) if p.use in ("spare", "sleeve") else f"spare, {USES.get(p.use, p.use)}"
    kinds = {m.id: m.kind for m in p.stated.members} if p.stated is not None else {}
    found: dict[str, int] = {}
    for x in lying:
        what = f"{x.size} {x.material.capitalize()}".strip() if x.size else kinds.get(x.id.partition(".")[0], "cable")
        found[what] = found.get(what, 0) + int(x.count)
    return ", ".join(f"{n} x {what}" for what, n in found.items())


# ------------------------------------------------------------------------------------------------------ cover, movement
def buried(d: Design) -> Table:
    """Cover by trench, or by raceway: the raceway with least to spare stands for those beside it."""
    places: dict[str, list[str]] = {}
    for key in keys(d, "cover"):
        _, name, *trench = key.split("/")
        places.setdefault(trench[0] if trench else name, []).append(key)
    lines = []
    for place, some in places.items():
        key = min(some, key=lambda k: (d.items[k].cover_ok and d.items[k].ribbon_ok, d.items[k].deeper))
        r, asked = d.items[key], d.asks[key].record
        above = asked.location.replace("_", " ")
        ribbon = "wanted and there" if r.ribbon_wanted and r.ribbon_ok else "wanted" if r.ribbon_wanted else ""
        kind = "fails" if not r.cover_ok else "over" if not r.ribbon_ok else ""
        lines.append(Line((place, above, asked.column, f"{len(some)} of them", num(d, f"{key}/cover"), num(d, f"{key}/least"),
                           num(d, f"{key}/deeper"), ribbon), key, kind))
    columns = (Column("trench or raceway", keep=True), Column("row of the table"), Column("raceway", rank=1),
               Column("raceways", rank=2), Column("cover, in", True), Column("at least, in", True),
               Column("to spare, in", True), Column("warning ribbon", rank=1))
    return Table("Cover in the ground", columns, tuple(lines), "Less is asked of some small circuits; that is not taken here.")


def moving(d: Design) -> Table:
    """Plastic raceways in the open."""
    lines = []
    for key in keys(d, "expansion"):
        r, x = d.items[key], d.asks[key].record
        far, unit = given(d, x.length, "ft")
        fitting = "wanted, stated" if r.wanted and x.fitted else "wanted" if r.wanted else "none wanted"
        lines.append(Line((x.id, f"{far} {unit}, stated", num(d, f"{key}/swing"), num(d, f"{key}/change"), fitting), key,
                          "" if r.fitting_ok else "fails"))
    columns = (Column("raceway", keep=True), Column("straight in the open"), Column("swing, K", True), Column("moves, in", True),
               Column("expansion fitting"))
    return Table("Plastic raceways in the open", columns, tuple(lines),
                 f"A fitting is wanted from {d.ed.expansion_from:g} in on.")


# --------------------------------------------------------------------------------------------------------------- trenches
def trenches(d: Design) -> Table:
    """What each trench needs and has."""
    lines = []
    for key in keys(d, "trench"):
        r, name = d.items[key], key.partition("/")[2]
        t = next(t for t in d.estate.site_graph.trenches if t.id == name)     # type: ignore[union-attr]
        bad = not (r.ducts_ok and r.length_ok and r.apart_ok)
        apart: Cell = num(d, f"{key}/parted") if t.separation else ""
        lines.append(Line((name, f"{t.from_} to {t.to}", num(d, f"{key}/length"), num(d, f"{key}/straight") if r.straight else "",
                           num(d, f"{key}/power"), num(d, f"{key}/comm"), num(d, f"{key}/empty"), num(d, f"{key}/ducts"),
                           num(d, f"{key}/left"), apart), key, "fails" if bad else ""))
    feet = unit_of(d, "ft")
    columns = (Column("trench", keep=True), Column("from, to", rank=1), Column(f"length, {feet}", True),
               Column(f"straight, {feet}", True, rank=2), Column("power", True), Column("comm.", True), Column("spare", True),
               Column("ducts", True), Column("left", True), Column("power to comm., in", True, rank=1))
    return Table("Trenches", columns, tuple(lines), "A duct for each raceway that runs there, spares and provisions included.")


def supplies(d: Design) -> Table:
    """The conductors of the alternate feeders, which lie in the same trenches."""
    lines = []
    for key in keys(d, "alternate"):
        r, name = d.items[key], key.partition("/")[2]
        a = next(a for a in d.estate.sources.alternates if a.id == name)      # type: ignore[union-attr]
        far: Cell = num(d, f"run/{name}/length") if f"run/{name}" in d.items else f"{given(d, a.length or 0.0, 'ft')[0]}, stated"
        bad = not (r.device_ok and r.carries_ok and r.protected and r.neutral_ok)
        lines.append(Line((name, f"{a.from_} to {a.to}", num(d, f"{key}/current"), num(d, f"{key}/device"), conductors(d, key),
                           num(d, f"{key}/egc"), far, num(d, f"{key}/drop")), key, "fails" if bad else ""))
    columns = (Column("alternate", keep=True), Column("from, to", rank=1), Column("load, A", True), Column("device, A", True),
               Column("conductors"), Column("ground"), Column(f"length, {unit_of(d, 'ft')}"), Column("drop, %", True))
    return Table("Second supplies", columns, tuple(lines), "Sized as feeders, for the load of the panel that they take over; "
                 "where nobody has calculated that, for the rating of the device.")


def drawings(d: Design, colours: Mapping[str, str]) -> list[Drawing]:
    """Each trench in which something runs, cut across."""
    d.works("trench")
    graph = d.estate.site_graph
    out = []
    for t in graph.trenches if graph is not None else ():
        key = f"trench/{t.id}"
        if key in d.items and d.items[key].needed:
            found = cut(d, t)
            out.append(Drawing(found.title, section(found, colours)))
    for p in planned(d):
        if p.buried and not p.way and f"cover/{p.id}" in d.items and f"raceway/{p.id}" in d.items:
            found = alone(d, p)
            out.append(Drawing(found.title, section(found, colours)))
    return out


def alone(d: Design, p: Planned) -> Cut:
    """A raceway in the ground that lies in no trench of the site graph, with those alike beside it."""
    c, asked = d.items[f"cover/{p.id}"], d.asks[f"cover/{p.id}"].record
    above = next((words for where, words in ABOVE.items() if ROWS[where] == asked.location), asked.location)
    ribbon: Words = ""
    if asked.ribbon:
        ribbon = f"warning ribbon, {asked.ribbon:g} in above the ducts"
    return Cut(f"Raceway {p.id}, at {p.end}" if p.start == p.end else f"Raceway {p.id}, {p.start} to {p.end}", above, c.cover,
               covered(d, f"cover/{p.id}"), None, "", asked.ribbon or None, ribbon,
               tuple(duct(d, p, f"{p.id}.{n}" if p.alike > 1 else p.id, "power") for n in range(1, p.alike + 1)))


def covered(d: Design, key: str) -> Words:
    """Cover and what is asked, each a number that opens."""
    return (_text(num(d, f"{key}/cover"), " cover"), _text(num(d, f"{key}/least"), " at least"))


def cut(d: Design, t: Trench) -> Cut:
    """One trench as the drawing wants it."""
    covers = [k for k in keys(d, "cover") if k.endswith(f"/{t.id}")]
    worst = min(covers, key=lambda k: d.items[k].deeper, default="")
    cover: Words = "cover is not stated"
    if worst:
        cover = covered(d, worst)
    apart: Words = "not stated, drawn as 12 in"
    if t.separation is not None:
        apart = f"{t.separation:g} in of earth"
    ribbon: Words = f"warning ribbon, {t.ribbon:g} in above the ducts" if t.ribbon else ""
    return Cut(f"Trench {t.id}, {t.from_} to {t.to}", ABOVE.get(t.location or "", "what lies above it is not stated"),
               d.items[worst].cover if worst else t.cover, cover, t.separation, apart, t.ribbon, ribbon, ducts(d, t))


def _text(n: Num, after: str) -> Text:
    return Text(f"{n.value:g} {n.unit}{after}" if n.shown else f"[withheld]{after}", n.tag)


def ducts(d: Design, t: Trench) -> tuple[Duct, ...]:
    """The ducts of a trench with their words: what they are for, trade size, fill."""
    record = d.asks[f"trench/{t.id}"].record
    runs = {p.id: p for p in planned(d)}
    later = {v.id: v for v in d.estate.provisions}
    out = []
    for x in (*record.power, *record.comm, *record.spare):
        name = x.id.partition(".")[0]
        p, key = runs.get(name), f"raceway/{name}"
        if p is None:
            v = later[name]
            size = f"{x.size} in, " if x.size else ""
            words: Words = f"{x.id}: {size}{v.serves}"
            out.append(Duct("spare", "comm" if "comm" in (v.use, t.use) else "power", inside(d, x.size), words))
            continue
        side = "comm" if "comm" in (p.use, t.use) else "power"
        out.append(duct(d, p, x.id, side) if key in d.items else Duct(x.use, side, inside(d, x.size), f"{x.id}: not sized"))
    return tuple(out)


def duct(d: Design, p: Planned, name: str, side: str) -> Duct:
    """One raceway of the design as a duct: trade size, use, fill."""
    key, r = f"raceway/{p.id}", d.items[f"raceway/{p.id}"]
    fill = Text(f", {num(d, f'{key}/fill').shown} % filled", f"{key}/fill") if r.wires else Text(", empty")
    use = p.use if r.wires and p.use in ("power", "comm") else "spare"
    return Duct(use, side, r.bore, (Text(f"{name}: {r.size} in", f"{key}/size"), Text(f", {USES.get(p.use, p.use)}"), fill))


def inside(d: Design, size: str) -> float:
    """The inside diameter that a duct is drawn with, where it is no raceway of the design: that of PVC of its trade size."""
    return float(d.ed.raceway_inside_pvc40[size]) if size else 2.0
