"""Pulls, boxes, terminals and framing: tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.report.content import Cell, Column, Line, Table, keys, num, unit_of

if TYPE_CHECKING:
    from curtilage.design import Design


def tables(d: Design) -> list[Table]:
    """Pulls with conductors, empty ways, pull boxes, device boxes, terminals, holes, ways through framing."""
    d.works()
    return [pulls(d), empty(d), pull_boxes(d), device_boxes(d), lugs(d), holes(d), passages(d)]


def pulls(d: Design) -> Table:
    """Everything that is pulled in, with its worst stretch."""
    lines = []
    for key in keys(d, "pull"):
        r = d.items[key]
        if not hasattr(r, "tension"):
            continue
        good = bool(r.bends_ok and r.tension_ok and r.pressure_ok)
        word = "can be pulled" if good else "to be judged" if r.bends_ok and r.usual_ok else "too much"
        lines.append(Line((key.split("/", 1)[1], num(d, f"{key}/length"), num(d, f"{key}/stretches"), num(d, f"{key}/bends"),
                           num(d, f"{key}/weight"), num(d, f"{key}/lie"), num(d, f"{key}/there"), num(d, f"{key}/back"),
                           num(d, f"{key}/tension"), better(r), num(d, f"{key}/allowed"), num(d, f"{key}/pressure"), word),
                          f"{key}/tension", "" if good else "over"))
    ft, lb, per = unit_of(d, "ft"), unit_of(d, "lb"), unit_of(d, "lb/ft")
    columns = (Column("raceway"), Column(f"length, {ft}", True, rank=2), Column("stretches", True), Column("bends, deg", True),
               Column(f"weight, {per}", True, rank=2), Column("lies", rank=3), Column(f"with the feeder, {lb}", True),
               Column(f"against it, {lb}", True), Column(f"from the better end, {lb}", True), Column("better end"),
               Column(f"allowed, {lb}", True), Column(f"in a bend, pulled from there, {per}", True, rank=1), Column("pull"))
    return Table("Pulls", columns, tuple(lines),
                 "The worst stretch between pull points. Each stretch is fed at its better end; the pressure in a bend is that "
                 "of this way. Start and end are those of the feeder. An estimate: friction and weights are those of practice, "
                 "and the rope is watched all the same.")


def better(r: Any) -> str:
    """The end at which the conductors are fed where the tension is lower, of the stretch that asks most."""
    n, worst = max(enumerate(r.parts, 1), key=lambda x: float(x[1].tension))
    end = "start" if worst.there <= worst.back else "end"
    return f"fed at its {end}" if len(r.parts) == 1 else f"stretch {n}, fed at its {end}"


def empty(d: Design) -> Table:
    """Raceways in which nothing with a known weight is pulled."""
    lines = []
    for key in keys(d, "pull"):
        r = d.items[key]
        if not hasattr(r, "tension"):
            numbers = [num(d, f"{key}/{field}") for field in ("length", "stretches", "bends")]
            cells: tuple[Cell, ...] = (key.split("/", 1)[1], *numbers)
            lines.append(Line(cells, f"{key}/bends", "" if r.bends_ok else "fails"))
    columns = (Column("raceway"), Column(f"length, {unit_of(d, 'ft')}", True), Column("stretches", True),
               Column("bends, deg", True))
    return Table("Raceways without a pull", columns, tuple(lines), "Nothing is pulled in now, or its weight is not known.")


def pull_boxes(d: Design) -> Table:
    """Pull boxes and handholes: what they measure and must measure; "-" where nothing is asked."""
    described = {b.id for b in d.estate.boxes if b.entries}
    lines = []
    for key in keys(d, "box"):
        r, b = d.items[key], d.asks[key].record
        if hasattr(r, "length_least"):
            word = "the fill decides" if not r.applies else "large enough" if r.ok else "too small"
            fields = ("length_least", "width_least", "depth_least", "apart_least")
            asked: list[Cell] = [num(d, f"{key}/{field}") if getattr(r, field) else "-" for field in fields]
            entries = "as described" if b.id in described else "not described: taken as a straight pull"
            lines.append(Line((b.id, f"{b.length:g} x {b.width:g} x {b.depth:g} in", entries, *asked, word), key,
                              "" if r.ok else "fails"))
    inch = unit_of(d, "in")
    columns = (Column("box"), Column("inside"), Column("entries"),
               Column(f"length at least, {inch}", True), Column(f"width at least, {inch}", True),
               Column(f"depth at least, {inch}", True, rank=1), Column(f"entries apart, {inch}", True), Column("box is"))
    return Table("Pull boxes and handholes", columns, tuple(lines), "A dash: nothing is asked of it.")


def device_boxes(d: Design) -> Table:
    """Boxes of devices: what is in them."""
    alike = {b.id: b for b in d.estate.device_boxes}
    lines = []
    for key in keys(d, "box"):
        r, b = d.items[key], d.asks[key].record
        if hasattr(r, "box_fill"):
            fields = ("wire_fill", "devices", "grounds", "box_fill", "volume", "depth_least")
            cells: tuple[Cell, ...] = (b.id, f"{alike[b.id].count} alike", *(num(d, f"{key}/{field}") for field in fields),
                     f"{b.depth:g} in" if b.depth else "not stated")
            lines.append(Line(cells, f"{key}/box_fill", "" if r.fill_ok else "fails"))
    vol, inch = unit_of(d, "in3"), unit_of(d, "in")
    columns = (Column("box"), Column("how many"), Column(f"wires, {vol}", True), Column(f"devices, {vol}", True),
               Column(f"grounds, {vol}", True, rank=1), Column(f"all, {vol}", True), Column(f"box, {vol}", True),
               Column(f"depth at least, {inch}", True), Column("depth"))
    return Table("Boxes of devices", columns, tuple(lines))


def lugs(d: Design) -> Table:
    """Terminals at both ends of each feeder."""
    lines = []
    for key in keys(d, "lug"):
        r, ends = d.items[key], d.asks[key].record.ends
        cells: list[Cell] = [_end(t, x) for t, x in zip(ends, r.ends, strict=True)]
        size = num(d, f"feeder/{key.split('/', 1)[1]}/size")
        lines.append(Line((key.split("/", 1)[1], size, *cells, num(d, f"{key}/space_least"), "fits" if r.ok else "does not fit"),
                          f"{key}/ok", "" if r.ok else "fails"))
    columns = (Column("feeder"), Column("conductor"), Column("terminals of its device"), Column("terminals of its panel"),
               Column(f"bending space wanted, {unit_of(d, 'in')}", True), Column("conductor"))
    return Table("Terminals", columns, tuple(lines), "Space for conductors that are not compact; compact ones may have less.")


def _end(t: object, x: object) -> str:
    takes = f"{t.smallest} to {t.largest}" + (f", {t.holds:g} each" if t.holds > 1 else "")  # type: ignore[attr-defined]
    return f"{takes}; {x.lands} behind a reducer" if t.adapter != "none" else takes  # type: ignore[attr-defined]


def holes(d: Design) -> Table:
    """Holes and notches in sawn members."""
    lines = []
    for key in keys(d, "framing"):
        r, h = d.items[key], d.asks[key].record
        if hasattr(r, "hole_most"):
            cut = f"hole {h.hole:g} in" if h.hole else f"notch {h.notch:g} in"
            fields = ("hole_most" if h.hole else "notch_most", "edge_least", "nail_least")
            word = "as allowed" if r.ok else "plate wanted" if r.wood_ok else "too much"
            numbers = [num(d, f"{key}/{field}") for field in fields]
            cells: tuple[Cell, ...] = (key.split("/", 1)[1], f"{h.member}, {h.depth:g} in", cut, *numbers, word)
            lines.append(Line(cells, key, "" if r.ok else "fails"))
    inch = unit_of(d, "in")
    columns = (Column("at"), Column("member"), Column("cut"), Column(f"at most, {inch}", True),
               Column(f"edge at least, {inch}", True), Column(f"without a plate, {inch}", True, rank=1), Column("cut is"))
    return Table("Holes in framing", columns, tuple(lines),
                 "Sawn lumber only. Engineered members are never bored by these limits.")


def passages(d: Design) -> Table:
    """Ways through open framing."""
    lines = []
    for key in keys(d, "framing"):
        if hasattr(d.items[key], "shortest"):
            legs = ", ".join(s.id.rpartition(".")[2] for s in d.asks[key].record.legs)
            numbers = [num(d, f"{key}/{field}") for field in ("length", "shortest", "more")]
            cells: tuple[Cell, ...] = (key.split("/", 1)[1], legs, *numbers)
            lines.append(Line(cells, f"{key}/length"))
    ft = unit_of(d, "ft")
    columns = (Column("run"), Column("by"), Column(f"length, {ft}", True), Column(f"if all could be bored, {ft}", True),
               Column(f"longer by, {ft}", True))
    return Table("Ways through framing", columns, tuple(lines))
