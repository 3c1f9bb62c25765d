"""The JSON of every command: plain content, the same keys in the same order, each number with its tag and unit."""

from __future__ import annotations

from collections.abc import Iterable
import math
from typing import TYPE_CHECKING, Any

from curtilage import __version__
from curtilage.report import works
from curtilage.values.told import Told

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.compare import Cause, Comparison
    from curtilage.design.later import Element
    from curtilage.design.record import Replayed
    from curtilage.report.works import Topic


def value(x: Any) -> Any:
    """A value as JSON has it: no infinity, no told number."""
    if isinstance(x, Told):
        return value(x.value)
    if isinstance(x, float) and not math.isfinite(x):
        return None
    return x if isinstance(x, str | int | float | bool) or x is None else str(x)


def head(d: Design) -> dict[str, Any]:
    """What the numbers rest on."""
    return {
        "curtilage": __version__,
        "estate": d.estate.name,
        "demonstration": d.estate.demonstration,
        "edition": d.ed.name,
        "amendments": d.estate.amendments,
        "snapshot": d.snapshot,
    }


def design(d: Design) -> dict[str, Any]:
    """A whole design. A number that a stop withholds has no value and names the stop."""
    stops = {key: s.number for s in d.stops for key in s.withheld}
    numbers = []
    for tag in d.tags():
        n, stop = d.number(tag), stops.get(tag.rpartition("/")[0])
        numbers.append({"tag": tag, "value": None if stop else value(n.value), "unit": n.unit} | ({"stop": stop} if stop else {}))
    return {
        **head(d),
        "shares": {k: round(v, 6) for k, v in d.shares.items()},
        "chosen": dict(d.chosen),
        "numbers": numbers,
        "checks": [c._asdict() | {"tags": list(c.tags)} for c in d.checks],
        "questions": [q._asdict() | {"subjects": list(q.subjects), "tags": list(q.tags)} for q in d.questions],
        "assumptions": [a._asdict() for a in d.assumptions],
        "stops": [s._asdict() | {"withheld": list(s.withheld)} for s in d.stops],
        "lacking": [{"item": key, "why": why} for key, why in d.lacking.items()],
    }


def topic(d: Design, t: Topic) -> dict[str, Any]:
    """The tables of one topic; a cell is words, or a number with its tag, its value and its unit."""
    stops = {key for s in d.stops for key in s.withheld}

    def cell(x: Any) -> Any:
        if isinstance(x, str):
            return x
        held = x.tag.rpartition("/")[0] in stops
        return {"tag": x.tag, "shown": x.shown, "value": None if held else value(x.value), "unit": x.unit}

    made = [{"title": x.title, "note": x.note, "columns": [c.head for c in x.columns],
             "rows": [[cell(y) for y in line.cells] for line in x.lines]} for x in works.tables(d, t)]
    return {**head(d), "topic": t.name, "title": t.title, "tables": made}


def explain(d: Design, tag: str, deep: bool) -> dict[str, Any]:
    """One number and every line behind it, inputs before results."""
    from curtilage.values.told import explain as lines

    n = d.number(tag)
    return {**head(d), "tag": tag, "value": value(n.value), "unit": n.unit, "lines": lines(d.told(tag), deep)}


def comparison(c: Comparison, causes: Iterable[Cause], sides: tuple[str, str]) -> dict[str, Any]:
    """Two designs side by side."""

    def moved(rows: Iterable[Any], name: str) -> list[dict[str, Any]]:
        return [
            {name: m.name, "before": value(m.before), "after": value(m.after), "unit": m.unit}
            | ({"where": m.where} if m.where else {})
            for m in rows
        ]

    return {
        "a": sides[0],
        "b": sides[1],
        "inputs": moved(c.inputs, "path"),
        "numbers": moved(c.numbers, "tag"),
        "causes": [cause._asdict() for cause in causes],
        "checks": [f._asdict() for f in c.checks],
        "stale": list(c.stale),
        "same": c.same,
    }


def replayed(r: Replayed) -> dict[str, Any]:
    """What became of a record."""
    return {
        "reproduces": r.reproduces,
        "numbers": r.numbers,
        "moved": [{"tag": m.name, "before": value(m.before), "after": value(m.after)} for m in r.moved],
        "package_then": r.package[0],
        "package_now": r.package[1],
        "edition_moved": r.edition_moved,
    }


def later(found: Iterable[Element]) -> list[dict[str, Any]]:
    """Room on the way of a later load."""
    return [
        {
            "element": e.name,
            "tag": e.tag,
            "added": e.room.added,
            "room_before": e.room.before,
            "room_after": e.room.after,
            "fits": bool(e.room.fits),
            "drop_before": e.drop.before if e.drop else None,
            "drop_after": e.drop.after.drop if e.drop else None,
            "drop_most": e.drop.most if e.drop else None,
        }
        for e in found
    ]


__all__ = ["comparison", "design", "explain", "head", "later", "replayed", "topic", "value"]
