"""Power during construction: its load by season, its boards, the fallback, and what must go, with the day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.look import cautions
from curtilage.report.content import Column, Line, Table, conductors, keys, maybe, num, unit_of
from curtilage.report.numbers import label

if TYPE_CHECKING:
    from curtilage.design import Design


def tables(d: Design) -> list[Table]:
    """Nothing where no temporary power is stated."""
    if d.estate.temporary is None:
        return []
    return [t for t in (seasons(d), boards(d), fallback(d), removal(d)) if t.lines]


def seasons(d: Design) -> Table:
    """Services and boards, season by season."""
    lines = []
    for key in keys(d, "temporary"):
        place, season = key.split("/")[1:]
        at = f"temporary_service/{place}/{season}"
        short = at in d.items and not d.items[at].ok
        numbers = (num(d, f"{key}/{x}") for x in ("connected", "heat", "tools", "others", "va", "minimum"))
        lines.append(Line((place, season, *numbers, maybe(d, f"{at}/rating")), f"{key}/minimum",
                          "over" if short else ""))
    columns = (Column("at"), Column("season"), Column("connected, VA", True), Column("heat and drying, VA", True),
               Column("tools at once, VA", True), Column("others, VA", True, rank=1), Column("load, VA", True),
               Column("min., A", True), Column("rating, A", True))
    return Table("Temporary power by season", columns, tuple(lines),
                 f"{cautions.text('C24')} Heaters and drying count whole and at 125 %; the share of tools is common practice.")


def boards(d: Design) -> Table:
    """Boards, their feeders and the working faces."""
    by_id = {b.id: b for b in d.estate.temporary.boards} if d.estate.temporary else {}
    lines = []
    for key in keys(d, "temporary_feeder"):
        b, at = by_id[key.partition("/")[2]], f"face/{key.partition('/')[2]}"
        far = at in d.items and not d.items[at].ok
        lines.append(Line((b.id, f"{b.service} to {b.at}", num(d, f"{key}/device"), conductors(d, key),
                           maybe(d, f"temporary_route/{b.id}/length"), num(d, f"{key}/drop"), maybe(d, f"{at}/cord"),
                           maybe(d, f"{at}/total"), maybe(d, f"{at}/volts"), "yes" if b.gfci else "no"),
                          f"{key}/drop", "over" if far else ""))
    columns = (Column("board"), Column("from, to", rank=1), Column("device, A", True), Column("conductors"),
               Column(f"length, {unit_of(d, 'ft')}", True), Column("feeder, %", True), Column("cord, %", True),
               Column("at the tool, %", True), Column("at the tool, V", True), Column("GFCI"))
    return Table("Boards and working faces", columns, tuple(lines), "Drops are advice of notes, not rules.")


def fallback(d: Design) -> Table:
    """The generator of a late utility."""
    fields = ("hours", "energy", "flow", "fuel", "heat", "gallons", "loading")
    tags = [*(f"fallback/site/{x}" for x in fields), "sound/fallback/level"]
    lines = tuple(Line((WORDS.get(n.tag.rpartition("/")[2]) or label(n.tag.rpartition("/")[2]), n, n.unit), n.tag)
                  for tag in tags if d.has(tag) and (d.value(tag) or "gallons" not in tag) for n in (num(d, tag),))
    return Table("If the utility is late", (Column("what"), Column("number", True), Column("unit")), lines,
                 f"{cautions.text('C18')} Gas by the median of home sets; the data sheet of the set goes before it.")


WORDS = {"hours": "hours that the set runs", "energy": "energy", "flow": "fuel in an hour", "fuel": "fuel in all",
         "heat": "its heat", "gallons": "as liquid propane",
         "loading": "worst season, of the rating", "level": "sound at the property line"}


def removal(d: Design) -> Table:
    """What must be removed or converted, by its day."""
    t = d.estate.temporary
    assert t is not None
    until = {s.id: s.until for s in t.services}
    found = [(s.until, s.id, f"temporary service at {s.at}", s.converts_to) for s in t.services]
    ground = ", its feeder in the ground: cut, marked on the drawing, or drawn out"
    found += [(b.until or until.get(b.service), b.id, f"board at {b.at}{ground if b.buried else ''}", "") for b in t.boards]
    found += [(until.get(r.panel), r.id, r.load, "") for r in d.estate.loads if r.status == "temporary"]
    lines = [Line((name, what, str(day) if day else "no day is set", f"convert to {becomes}" if becomes else "remove"))
             for day, name, what, becomes in sorted(found, key=lambda x: (x[0] is None, x[0] or 0, x[1]))]
    if t.final is not None:
        lines.append(Line(("", "final inspection", str(t.final), "nothing temporary is left"), "", "total"))
    columns = (Column("what"), Column("in words"), Column("day"), Column("to do"))
    return Table("To be removed or converted", columns, tuple(lines), "590.3(D): at once when the construction is complete.")
