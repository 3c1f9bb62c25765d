"""Printed against ours. A row agrees to its digits, or the source's own path reproduces them and says where it differs."""
from __future__ import annotations

from decimal import Decimal

from curtilage.errors import CurtilageError
from curtilage.reference import printed
from curtilage.reference.engine import Calculation
from curtilage.reference.example import Answer, Case, Example
from curtilage.reference.kinds import FLAG, SIZE
from curtilage.reference.path import Stepped, Steps
from curtilage.reference.problems import Problems
from curtilage.reference.quantities import convert
from curtilage.reference.report import AGREES, CONTRADICTS, DIFFERS, FAILS, Row
from curtilage.values.told import Told

_TEXT = ("text", SIZE, FLAG)               # units of results that are no numbers


def case_rows(example: Example, case: Case, ours: Calculation, steps: Steps, note: Problems) -> list[Row]:
    """One row for each answer of a case."""
    rows = []
    for answer in case.answers:
        try:
            rows.append(_row(example, case, answer, ours, steps.get(answer.name)))
        except CurtilageError as e:
            note.add(example.line(answer.path), ".".join(map(str, answer.path)), str(e))
    return rows


def _row(example: Example, case: Case, answer: Answer, ours: Calculation, stepped: Stepped | None) -> Row:
    told = ours.results.get(answer.name)
    if told is None:
        raise CurtilageError(f"{ours.method.name} gives no '{answer.name}' for these inputs")
    compare = _text if told.unit in _TEXT else _number
    shown, difference, tolerance, agrees, theirs, reproduced = compare(answer, told, stepped)
    differs = stepped.differs if stepped is not None and reproduced and not agrees else ()
    outcome = AGREES if agrees else DIFFERS if differs else FAILS
    why = _why(stepped, reproduced) if outcome == FAILS else "; ".join(s.differs for s in differs)
    step = ", ".join(s.name for s in differs)
    return Row(example.file, example.id, case.name, answer.name, answer.status, answer.text, shown, difference, tolerance,
               outcome, step, why, theirs, example.line(answer.path), told, example.duplicates)


def _why(stepped: Stepped | None, reproduced: bool) -> str:
    if stepped is None:
        return ""
    if not reproduced:
        return "the path of the file does not lead to the printed figure"
    return "no step of the path says in 'differs' what the source does otherwise"


def _text(answer: Answer, told: Told, stepped: Stepped | None) -> tuple[str, str, str, bool, str, bool]:
    shown = ("yes" if told.value else "no") if told.unit == FLAG else str(told.value)
    mine, theirs = (printed.size(x) if told.unit == SIZE else x.strip() for x in (shown, answer.text))
    return shown, "", "", mine == theirs, "", False


def _number(answer: Answer, told: Told, stepped: Stepped | None) -> tuple[str, str, str, bool, str, bool]:
    p = printed.read(answer.text)
    if p.unit == "" and told.unit not in ("", "count"):
        raise CurtilageError(f"'{answer.text}' has no unit; write for example '{answer.text} {told.unit}'")
    x = convert(float(told.value), told.unit, p.unit)
    theirs = convert(stepped.value, stepped.unit, p.unit) if stepped is not None else None
    digits = max(0, -int(p.number.as_tuple().exponent)) + 2
    shown = f"{plain(x, digits)} {p.unit}".strip()
    path = f"{plain(theirs, digits)} {p.unit}".strip() if theirs is not None else ""
    return (shown, plain(x - float(p.number), digits), plain(float(p.half), digits), p.fits(x), path,
            theirs is not None and p.fits(theirs))


def plain(x: float, digits: int) -> str:
    """A number with at most so many decimals, without trailing zeros and without a negative zero."""
    text = f"{Decimal(repr(x)):.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def against_itself(row: Row, steps: Steps, agreed: set[str]) -> Row:
    """No path leads to the figure, but the source prints another one that speaks against it, and that one is reproduced.

    `agreed` holds the reproduced answers of the file as "case: answer"; a name without a case is of the same case.
    """
    stepped = steps.get(row.result)
    if row.outcome != FAILS or stepped is None or not stepped.step.contradicts:
        return row
    named = stepped.step.contradicts
    if not agreed & {named, answer_name(row.case, named)}:
        return row._replace(why=f"the answer that it contradicts, '{named}', is not there or not reproduced")
    return row._replace(outcome=CONTRADICTS, step=row.result, why=stepped.step.differs)


def answer_name(case: str, result: str) -> str:
    """'14 AWG: drop', or 'drop' where a file has no cases."""
    return f"{case}: {result}" if case else result
