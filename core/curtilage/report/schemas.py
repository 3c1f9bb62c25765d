"""JSON Schemas of what the commands print with --json, and of the files that people write."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from curtilage.errors import did_you_mean, listed, refuse

DIALECT = "https://json-schema.org/draft/2020-12/schema"
TEXT: dict[str, Any] = {"type": "string"}
VALUE: dict[str, Any] = {"type": ["number", "string", "boolean", "null"]}
WORDS: dict[str, Any] = {"type": "array", "items": TEXT}


def record(title: str, /, **fields: Any) -> dict[str, Any]:
    """An object with just these keys; a key that ends in _ may be missing."""
    needed = [k for k in fields if not k.endswith("_")]
    return {
        "title": title,
        "type": "object",
        "properties": {k.rstrip("_"): v for k, v in fields.items()},
        "required": needed,
        "additionalProperties": False,
    }


def rows(title: str, /, **fields: Any) -> dict[str, Any]:
    """A list of such objects."""
    return {"type": "array", "items": record(title, **fields)}


HEAD: dict[str, Any] = {
    "curtilage": TEXT,
    "estate": TEXT,
    "demonstration": {"type": "boolean"},
    "edition": TEXT,
    "amendments": TEXT,
    "snapshot": TEXT,
}
CHECK: dict[str, Any] = {
    "number": TEXT,
    "subject": TEXT,
    "question": TEXT,
    "outcome": {"enum": ["fails", "not evaluated", "needs judgement", "attested", "passes", "does not apply"]},
    "severity": {"type": "integer", "minimum": 1, "maximum": 4},
    "standing": {"enum": ["code", "practice", "utility or local", "interpretation"]},
    "clause": TEXT,
    "found": TEXT,
    "missing": TEXT,
    "remedy": TEXT,
    "tags": WORDS,
}
MOVED: dict[str, Any] = {"before": VALUE, "after": VALUE, "unit": TEXT, "where_": TEXT}


def design() -> dict[str, Any]:
    """Of `curtilage design --json`."""
    return record(
        "design",
        **HEAD,
        shares={"type": "object", "additionalProperties": {"type": "number"}},
        chosen={"type": "object", "additionalProperties": TEXT},
        numbers=rows("number", tag=TEXT, value=VALUE, unit=TEXT, stop_=TEXT),
        checks=rows("check", **CHECK),
        questions=rows("question", number=TEXT, subjects=WORDS, text=TEXT, readings=TEXT, clause=TEXT, tags=WORDS, answer=TEXT),
        assumptions=rows("assumption", what=TEXT, value=TEXT, source=TEXT, review=TEXT),
        stops=rows("stop", number=TEXT, caution=TEXT, text=TEXT, answer=TEXT, withheld=WORDS),
        lacking=rows("item without a result", item=TEXT, why=TEXT),
    )


def show() -> dict[str, Any]:
    """Of `curtilage show --json`: the tables of one topic; a cell is words, or a number with its tag."""
    number = record("number", tag=TEXT, shown=TEXT, value=VALUE, unit=TEXT)
    line: dict[str, Any] = {"type": "array", "items": {"oneOf": [TEXT, number]}}
    tables = rows("table", title=TEXT, note=TEXT, columns=WORDS, rows={"type": "array", "items": line})
    return record("show", **HEAD, topic=TEXT, title=TEXT, tables=tables)


def explain() -> dict[str, Any]:
    """Of `curtilage explain --json`."""
    lines = rows("line", symbol=TEXT, value=TEXT, how=TEXT, source=TEXT)
    return record("explain", **HEAD, tag=TEXT, value=VALUE, unit=TEXT, lines=lines)


def compare() -> dict[str, Any]:
    """Of `curtilage compare --json` and of `curtilage replay --set ... --json`."""
    flipped = rows("flipped check", number=TEXT, subject=TEXT, question=TEXT, before=TEXT, after=TEXT)
    return record(
        "comparison",
        a=TEXT,
        b=TEXT,
        inputs=rows("input that changed", path=TEXT, **MOVED),
        numbers=rows("number that moved", tag=TEXT, **MOVED),
        causes=rows("cause", symbol=TEXT, before=TEXT, after=TEXT, why=TEXT),
        checks=flipped,
        stale=WORDS,
        same={"type": "integer", "minimum": 0},
    )


def replay() -> dict[str, Any]:
    """Of `curtilage replay --json`."""
    moved = rows("number that moved", tag=TEXT, before=VALUE, after=VALUE)
    yes: dict[str, Any] = {"type": "boolean"}
    count: dict[str, Any] = {"type": "integer", "minimum": 0}
    return record("replay", reproduces=yes, numbers=count, moved=moved, package_then=TEXT, package_now=TEXT, edition_moved=yes)


def later() -> dict[str, Any]:
    """Of `curtilage later --json`: what stands on the way, least room first. Rooms in A, drops in %."""
    number: dict[str, Any] = {"type": "number"}
    maybe: dict[str, Any] = {"type": ["number", "null"]}
    yes: dict[str, Any] = {"type": "boolean"}
    rooms = {"added": number, "room_before": number, "room_after": number, "fits": yes}
    return rows("element", element=TEXT, tag=TEXT, **rooms, drop_before=maybe, drop_after=maybe, drop_most=maybe)


def variants() -> dict[str, Any]:
    """Of `curtilage variants --json`."""
    return rows("variant", name=TEXT, kind=TEXT, title=TEXT)


def edition() -> dict[str, Any]:
    """Of `curtilage edition changes --json`."""
    kind: dict[str, Any] = {"enum": ["value", "clause", "shape", "new", "gone"]}
    sides = {"before": TEXT, "after": TEXT, "clause_before": TEXT, "clause_after": TEXT}
    return rows("change", what=TEXT, **sides, status=TEXT, kind=kind, note=TEXT)


def frozen() -> dict[str, Any]:
    """Of the file that `curtilage freeze` writes."""
    file = {"oneOf": [record("text file", text=TEXT), record("other file", base64=TEXT)]}
    return record(
        "record",
        record={"type": "integer", "minimum": 1},
        package=TEXT,
        python=TEXT,
        date=TEXT,
        estate=TEXT,
        edition=TEXT,
        edition_fingerprint=TEXT,
        variants=WORDS,
        snapshot=TEXT,
        files={"type": "object", "additionalProperties": file},
        inputs={"type": "object"},
        values={"type": "object", "additionalProperties": VALUE},
        checks={"type": "array", "items": {"type": "array"}},
        hash=TEXT,
    )


def schema(name: str) -> dict[str, Any]:
    """A schema by its name. Raises `CurtilageError` for a name that is none."""
    made: dict[str, Callable[[], dict[str, Any]]] = {
        "design": design,
        "explain": explain,
        "show": show,
        "compare": compare,
        "replay": replay,
        "later": later,
        "variants": variants,
        "edition": edition,
        "record": frozen,
    }
    if name in made:
        return {"$schema": DIALECT, **made[name]()}
    from curtilage.model import schema as model
    from curtilage.reference.command import SCHEMA

    files: dict[str, Callable[[], dict[str, Any]]] = {
        "estate": model.estate_schema,
        "variant": model.variant_schema,
        "reference": lambda: SCHEMA,
    }
    if name not in files:
        known = [*files, *made]
        refuse(name, "there is no such schema", f"known: {listed(known)}", did_you_mean(name, known))
    return dict(files[name]())
