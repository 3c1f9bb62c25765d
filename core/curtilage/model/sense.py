"""What is allowed and still looks wrong, and what cannot be worked although every field is right."""
from curtilage.errors import CurtilageError, Problem, Problems
from curtilage.model.contrary import contradictions
from curtilage.model.estate import Estate
from curtilage.model.graph import crow
from curtilage.model.pulls import TrenchWay
from curtilage.model.site import Trench
from curtilage.model.source import Row, Rows
from curtilage.units import plain

SHORT = 0.6                                                    # of the way along the trenches: common practice
DESCRIBED = 0.1                                                # of a trench, steps against length: common practice


def workable(estate: Estate, problems: Problems) -> None:
    """Adds what keeps the design from being worked: a run without a length, a dwelling without an area."""
    for s in estate.structures:
        if s.occupancy == "dwelling" and s.area is None:
            problems.add(_where(estate, f"structures.{s.id}.area"), "is missing",
                         "a dwelling needs its floor area for the load calculation", "add it, by outside dimensions")
    for f in estate.feeders:
        if f.length is None:
            _needs_route(estate, "feeders", f.id, f.from_, f.to, problems)
    _letters(estate, problems)
    contradictions(estate, problems)


def _letters(estate: Estate, problems: Problems) -> None:
    """A figure of the utility without its day, or that came before it was asked for."""
    for x in estate.service.letters:
        where = f"service.letters.{x.id}"
        if x.current is not None and x.received is None:
            problems.add(_where(estate, where), f"the letter {x.id} has a fault current and no day", "expected the day it came",
                         "add received, or take the figure out")
        elif x.asked and x.received and x.received < x.asked:
            problems.add(_where(estate, f"{where}.received"), f"{x.received} is before {x.asked}, when it was asked for", "",
                         "the two days may be exchanged")


def _where(estate: Estate, path: str) -> str:
    return f"{estate.places[path].precise()} {path}"


def _needs_route(estate: Estate, kind: str, name: str, from_: str, to: str, problems: Problems) -> None:
    a, b = estate.structure_of(from_), estate.structure_of(to)
    where = _where(estate, f"{kind}.{name}.length")
    if a == b:
        problems.add(where, "is missing", f"{from_} and {to} both stand at {a}, so no route gives it", "state the length")
        return
    try:
        estate.route(a, b)
    except CurtilageError as e:
        problems.add(where, "is left out, and the site graph does not give it", str(e), "state the length, or add the trench")


def warnings(estate: Estate, found: list[Row], rows: Rows) -> list[Problem]:
    """What a second pair of eyes would ask about."""
    out = Problems()
    _straight_lines(estate, out)
    _described(estate, out)
    _groups(estate, out)
    _managers(estate, out)
    _places(estate, out)
    _rows(estate, found, rows, out)
    return out.items


def _described(estate: Estate, out: Problems) -> None:
    """The steps along a trench against its length."""
    trenches = {t.id: t for t in estate.site_graph.trenches} if estate.site_graph else {}
    for way in estate.pulls.trenches if estate.pulls else ():
        t = trenches.get(way.id)
        if t is not None and (said := contrary(way, t)):
            out.add(_where(estate, f"pulls.trenches.{way.id}"), said, "the steps describe the whole trench",
                    "correct one of the two")


def contrary(way: TrenchWay, t: Trench) -> str:
    """Both lengths [ft] where straight steps do not come to their trench; bends at its ends are part of it."""
    steps = [s.length for s in way.steps if s.kind == "straight"]
    if None in steps:
        return ""
    length = sum(x for x in steps if x is not None)
    if abs(length - t.length - t.rise) <= DESCRIBED * t.length:
        return ""
    return f"its straight steps come to {plain(round(length, 1))} ft, the trench {t.id} to {plain(t.length)} ft"


def _straight_lines(estate: Estate, out: Problems) -> None:
    graph = estate.site_graph
    if graph is None:
        return
    for t in graph.trenches:
        straight = crow(graph, t.from_, t.to)
        if straight is not None and t.length + t.rise < straight - 0.5:
            out.add(_where(estate, f"site_graph.trenches.{t.id}.length"),
                    f"{plain(t.length)} ft is shorter than the straight line of {plain(round(straight, 1))} ft "
                    f"from {t.from_} to {t.to}", "a trench cannot be shorter", "measure it again, or correct the coordinates")
    for f in estate.feeders:
        if f.length is not None:
            _stated_length(estate, f.id, f.length, estate.structure_of(f.from_), estate.structure_of(f.to), out)


def _stated_length(estate: Estate, name: str, length: float, a: str, b: str, out: Problems) -> None:
    graph, where = estate.site_graph, _where(estate, f"feeders.{name}.length")
    assert graph is not None
    straight = crow(graph, a, b)
    if a != b and straight is not None and length < straight - 0.5:
        out.add(where, f"{plain(length)} ft is shorter than the straight line of {plain(round(straight, 1))} ft from {a} to {b}",
                "a feeder cannot be shorter", "measure along the trench; metres may stand for feet")
        return
    try:
        way = estate.route(a, b).length if a != b else 0.0
    except CurtilageError:
        return
    if length < SHORT * way:
        out.add(where, f"{plain(length)} ft is less than {plain(SHORT)} of the {plain(way)} ft along the trenches "
                f"from {a} to {b}", "a straight line may stand for the trench",
                "measure along the trench; metres may stand for feet")


def _groups(estate: Estate, out: Problems) -> None:
    members = {g.id: [x.id for x in estate.loads if x.group == g.id] for g in estate.groups}
    for g in estate.groups:
        if not g.reason:
            out.add(_where(estate, f"groups.{g.id}.reason"), f"the group {g.id} has no reason",
                    "loads leave a calculation only for a stated reason", "say why they cannot run together")
        n = len(members[g.id])
        if n < 2:
            out.add(_where(estate, f"groups.{g.id}"), f"the group {g.id} has {'one load' if n else 'no loads'}",
                    "expected two or more", "name it in the column group of the load list")


def _managers(estate: Estate, out: Problems) -> None:
    volts = estate.service.voltage.line
    for m in estate.managers:
        held = [x for x in estate.loads if x.manager == m.id]
        total = sum(x.va for x in held) / volts
        if not held:
            out.add(_where(estate, f"managers.{m.id}"), f"the manager {m.id} holds no load", "expected one or more",
                    "name it in the column manager of the load list")
        elif m.set_point > total:
            out.add(_where(estate, f"managers.{m.id}.set_point"),
                    f"{plain(m.set_point)} A is more than the {plain(round(total, 1))} A of its loads together",
                    "a set point above them holds nothing", "lower it, or remove the manager")


def _places(estate: Estate, out: Problems) -> None:
    first: dict[object, str] = {}
    for p in estate.site.places:
        spot = p.at or p.outline or None
        if spot in first and spot is not None:
            out.add(_where(estate, f"site.places.{p.id}"), f"{p.id} stands where {first[spot]} stands", "",
                    "measure one of them again")
        first.setdefault(spot, p.id)


def _rows(estate: Estate, found: list[Row], rows: Rows, out: Problems) -> None:
    home = {p.id: p.structure for p in estate.panels}
    day = estate.prepared.date.isoformat() if estate.prepared.date else "9999"
    for r in found:
        x = r.load
        if home.get(x.panel, x.structure) != x.structure:
            out.add(rows.where(r, "panel"), f"the load counts at {x.structure} and its panel {x.panel} stands at {home[x.panel]}",
                    "", "if that is meant, say so in its note")
        if x.document_date > day:
            out.add(rows.where(r, "document_date"), f"{x.document_date} is later than the design of {day}", "",
                    "correct the date, or the date under prepared")
        if x.mca is not None and x.mocp is not None and x.mca > x.mocp:
            out.add(rows.where(r, "mocp"),
                    f"the largest device of {plain(x.mocp)} A is below the smallest ampacity of {plain(x.mca)} A", "",
                    "read the nameplate again; the two may be exchanged")
