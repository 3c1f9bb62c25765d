"""What `curtilage reference PATH...` answers, as text or JSON, with its exit code. It prints nothing itself."""
from __future__ import annotations

from collections.abc import Iterable
import json
from pathlib import Path
from typing import Any

from curtilage.reference.report import Count, Report, Row, count
from curtilage.reference.run import run
from curtilage.reference.text import render
from curtilage.values.told import explain, value

_COUNT = {"type": "object", "additionalProperties": False, "required": list(Count._fields),
          "properties": {k: {"type": "integer", "minimum": 0} for k in Count._fields}}
_TEXT = {"type": "string"}
_ROW = {
    "file": _TEXT, "line": {"type": "integer", "minimum": 0}, "id": _TEXT, "case": _TEXT, "result": _TEXT,
    "status": {"enum": ["printed", "recomputed", "from memory", "constructed"]}, "counts": {"type": "boolean"},
    "printed": _TEXT, "ours": _TEXT, "value": {"type": ["number", "string", "boolean", "null"]}, "unit": _TEXT,
    "difference": _TEXT, "tolerance": _TEXT,
    "outcome": {"enum": ["agrees", "differs", "the source contradicts itself", "not reproduced"]},
    "step": _TEXT, "why": _TEXT, "by_their_path": _TEXT, "duplicates": _TEXT,
    "working": {"type": "array", "items": {"type": "object", "required": ["symbol", "value", "how", "source"],
                                           "additionalProperties": _TEXT}}}
_PROBLEM = {"file": _TEXT, "line": {"type": "integer", "minimum": 0}, "field": _TEXT, "message": _TEXT}


def _object(properties: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "additionalProperties": False, "required": list(properties), "properties": properties}


SCHEMA: dict[str, Any] = {
    "$schema": "https://json-schema.org/draft/2020-12/schema",
    "title": "curtilage reference --json",
    **_object({
        "version": {"const": 1}, "exit_code": {"enum": [0, 1, 2]},
        "published": _COUNT, "second_prints": _COUNT, "not_published": _COUNT,
        "rows": {"type": "array", "items": _object(_ROW)},
        "problems": {"type": "array", "items": _object(_PROBLEM)}})}


def command(paths: Iterable[str | Path], as_json: bool = False, working: bool = False) -> tuple[str, int]:
    """Run reference files and folders; give the text to print and the exit code.

    The code is 0 if every printed answer is reproduced, 1 if one is not, 2 if a file could not be read or run.
    `working` adds the working of each of our numbers; JSON has it always.
    """
    report = run(paths)
    if as_json:
        return json.dumps(as_data(report), indent=1, ensure_ascii=False) + "\n", report.exit_code
    return render(report, working), report.exit_code


def as_data(report: Report) -> dict[str, Any]:
    """The report as plain data that fits SCHEMA."""
    return {
        "version": 1, "exit_code": report.exit_code,
        "published": _count(count(report.published)), "second_prints": _count(count(report.duplicates)),
        "not_published": _count(count(report.unpublished)),
        "rows": [_row(r) for r in report.rows],
        "problems": [p._asdict() for p in report.problems]}


def _count(c: Count) -> dict[str, int]:
    return c._asdict()


def _row(r: Row) -> dict[str, Any]:
    out = {k: getattr(r, k) for k in _ROW if k not in ("value", "unit", "working")}
    told = r.told
    out["value"] = value(told) if told is not None else None
    out["unit"] = told.unit if told is not None else ""
    out["working"] = explain(told) if told is not None else []
    return {k: out[k] for k in _ROW}
