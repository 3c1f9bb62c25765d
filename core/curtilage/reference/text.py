"""The report as plain text: printed, ours, difference, in columns of fixed width."""
from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from curtilage.errors import CurtilageError
from curtilage.reference.compare import answer_name
from curtilage.reference.example import Example
from curtilage.reference.problems import unknown
from curtilage.reference.report import DIFFERS, FAILS, Count, Report, Row, count
from curtilage.values.told import explain_text

WIDTH = 110
_HEADS = ("answer", "printed", "ours", "difference", "tolerance", "")
_RIGHT = (1, 2, 3, 4)


def render(report: Report, working: bool = False) -> str:
    """Every file with its rows, under heads by what the answers are worth; then the count, then what could not be run.

    With `working` each row is followed by the working of our number.
    """
    parts = [
        ("READ IN PRINT", report.published),
        ("READ IN PRINT, second print of a record counted above", report.duplicates),
        ("NOT READ IN PRINT: recomputed, recalled or constructed; these are no published checks and are not counted as such",
         report.unpublished)]
    out: list[str] = []
    for head, rows in parts:
        if rows:
            out += [head, "=" * len(head), *_files(report, rows, working)]
    out += summary(report)
    if report.problems:
        out += ["", "could not be read or run:", *(f"  {p}" for p in report.problems)]
    return "\n".join(out) + "\n"


def table(rows: Iterable[Row]) -> list[str]:
    """The rows of one file as lines of text."""
    cells = [(answer_name(r.case, r.result), _printed(r), r.ours, r.difference, r.tolerance, r.verdict) for r in rows]
    wide = [max(len(c[i]) for c in (_HEADS, *cells)) for i in range(len(_HEADS))]
    return ["  ".join(x.rjust(w) if i in _RIGHT else x.ljust(w) for i, (x, w) in enumerate(zip(c, wide, strict=True))).rstrip()
            for c in (_HEADS, *cells)]


def summary(report: Report) -> list[str]:
    """The count, honest about what counts."""
    out = [f"published answers   {_count(count(report.published))}"]
    if report.duplicates:
        out.append(f"second prints       {_count(count(report.duplicates))} (not counted again)")
    for status in ("recomputed", "from memory", "constructed"):
        rows = [r for r in report.unpublished if r.status == status]
        if rows:
            out.append(f"{status:<20}{_count(count(rows))} (no published checks)")
    return out


def one(report: Report, id: str) -> str:
    """One example: its source, its rows, and apart from them what was not read in print."""
    example = next((e for e in report.examples if e.id == id), None)
    if example is None:
        raise CurtilageError(unknown("example", id, (e.id for e in report.examples)))
    mine = [r for r in report.rows if r.file == example.file]
    parts = [("", [r for r in mine if r.status == "printed"]), ("not read in print:", [r for r in mine if r.status != "printed"])]
    out = _head(example)
    for head, rows in parts:
        if rows:
            out += [f"  {head}"] * bool(head) + _lines(rows, False)
    return "\n".join(out)


def working(report: Report, id: str, result: str, case: str = "") -> str:
    """The working of one of our numbers, down to the lines of the file and the clauses."""
    for r in report.rows:
        if (r.id, r.result, r.case) == (id, result, case) and r.told is not None:
            return explain_text(r.told)
    raise CurtilageError(unknown("answer", f"{id} {case} {result}", (f"{r.id} {r.case} {r.result}" for r in report.rows)))


def _count(c: Count) -> str:
    fail = f", {c.fail} NOT REPRODUCED" if c.fail else ", none not reproduced"
    itself = f", {c.contradict} where the source contradicts itself" if c.contradict else ""
    return f"{c.answers}: {c.agree} agree to their digits, {c.differ} by the source's own path{itself}{fail}"


def _files(report: Report, rows: tuple[Row, ...], working: bool) -> Iterator[str]:
    for example in report.examples:
        mine = [r for r in rows if r.file == example.file]
        if mine:
            yield from (*_head(example), *_lines(mine, working), "")


def _head(example: Example) -> list[str]:
    source = "; ".join(part for part in (example.source, example.source_edition, example.where) if part)
    out = [f"{example.id}  {example.title}", *wrap(source, WIDTH, initial_indent="  ", subsequent_indent="  ")]
    out.append(f"  run with {'; '.join(dict.fromkeys(f'{c.method}, {c.edition}' for c in example.cases))}")
    return out + [f"  second print of {example.duplicates}"] * bool(example.duplicates)


def _lines(rows: list[Row], working: bool) -> list[str]:
    first, *lines = table(rows)
    out = [f"    {first}"]
    for row, line in zip(rows, lines, strict=True):
        out.append(f"    {line}")
        why = _why(row)
        out += wrap(why, WIDTH, initial_indent="        ", subsequent_indent="        ") if why else []
        if working and row.told is not None:
            out += [f"        | {step}" for step in explain_text(row.told).split("\n")]
    return out


def _why(row: Row) -> str:
    path = f" (their path: {row.by_their_path})" if row.by_their_path and row.outcome in (DIFFERS, FAILS) else ""
    return f"{row.why}{path}"


def _printed(row: Row) -> str:
    return row.printed if row.status == "printed" else f"[{row.printed}]"
