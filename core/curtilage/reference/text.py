"""The report as plain text: printed, ours, difference, in columns of fixed width."""
from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from curtilage.reference.example import Example
from curtilage.reference.report import Count, Report, Row, count
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
    cells = [(_name(r), _printed(r), r.ours, r.difference, r.tolerance, r.verdict) for r in rows]
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


def _count(c: Count) -> str:
    fail = f", {c.fail} NOT REPRODUCED" if c.fail else ", none not reproduced"
    return f"{c.answers}: {c.agree} agree to their digits, {c.differ} by the source's own path{fail}"


def _files(report: Report, rows: tuple[Row, ...], working: bool) -> Iterator[str]:
    for example in report.examples:
        mine = [r for r in rows if r.file == example.file]
        if mine:
            yield from _file(example, mine, working)
            yield ""


def _file(example: Example, rows: list[Row], working: bool) -> Iterator[str]:
    yield f"{example.id}  {example.title}"
    yield from wrap(f"{example.source}; {example.where}", WIDTH, initial_indent="  ", subsequent_indent="  ")
    yield f"  run with {', '.join(dict.fromkeys(f'{c.method}, {c.edition}' for c in example.cases))}"
    if example.duplicates:
        yield f"  second print of {example.duplicates}"
    lines = table(rows)
    yield f"    {lines[0]}"
    for row, line in zip(rows, lines[1:], strict=True):
        yield f"    {line}"
        yield from wrap(_why(row), WIDTH, initial_indent="        ", subsequent_indent="        ") if _why(row) else []
        if working and row.told is not None:
            yield from (f"        | {line}" for line in explain_text(row.told).split("\n"))


def _why(row: Row) -> str:
    path = f" (their path: {row.by_their_path})" if row.by_their_path and row.outcome != "agrees" else ""
    return f"{row.why}{path}"


def _name(row: Row) -> str:
    return f"{row.case}: {row.result}" if row.case else row.result


def _printed(row: Row) -> str:
    return row.printed if row.status == "printed" else f"[{row.printed}]"
