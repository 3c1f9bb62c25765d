"""The working of a number as rows: what it is, in symbols, with numbers put in, the result, and where it comes from.

A working is shallow by default: it stops at numbers of other items, which have a working of their own and are named by
their tag. Candidates that were tried stand in one row with the choice that ended the search.
"""
from __future__ import annotations

import ast
from typing import Any, NamedTuple

from curtilage.report import typeset as t
from curtilage.report.numbers import digits, unit_shown
from curtilage.report.typeset import Formula, Piece, ascii_text, plain_text
from curtilage.values.told import Told, value, walk


class Row(NamedTuple):
    """One line of a working."""

    kind: str                    # given, rule, line, question, choice, number (of another item)
    symbol: Formula
    symbols: Formula             # empty where there is no formula
    numbers: Formula
    words: Formula               # what a rule did, why a line was taken
    shown: str
    unit: str
    source: str                  # clause, table, or the file and line of an input
    status: str                  # how well the source was checked
    tag: str                     # the number of another item that this is
    node: Told


def _candidate(x: Told) -> bool:
    """Whether a node is only the size that a loop is trying."""
    return x.how == "rule" and not x.cite.where and x.note.startswith("from ")


def _search(x: Told) -> Told | None:
    """The test that ended a search, where this line only notes the candidate that passed it."""
    if not isinstance(x.line, ast.Name | ast.Attribute | ast.Subscript):
        return None
    for test in reversed(x.because):
        if test.item and test.value and digits(x.value) == test.item.rsplit(", ", 1)[-1]:
            return test
    return None


def _trials(test: Told) -> Formula:
    """Candidates in the order they were tried, each with its numbers: "10: 35 >= 37.5 fails; 8: 50 >= 37.5"."""
    tried = [test]
    while tried[0].rejected is not None:
        tried.insert(0, tried[0].rejected)
    parts = []
    for x in tried:
        fails = () if x.value else t.word(" fails")
        parts.append((*t.word(f"{x.item or 'before'}: "), *t.numbers(x), *fails))
    return t.join(parts, Piece("word", "; "))


def _reasons(x: Told, but: Told | None) -> Formula:
    """The tests that led to a line, as true statements."""
    said: list[Formula] = []
    for test in x.because:
        if test is not but and test.line is not None:
            lead = t.word(f"{test.item}: ") if test.item else ()
            said.append((*lead, *t.stated(test.line, test.seen, bool(test.value), t.as_symbol)))
    if isinstance(x.line, ast.IfExp):
        said.append(t.stated(x.line.test, x.seen, bool(value(x.seen[t.written(x.line.test)])), t.as_number))
    found = list(dict.fromkeys(said))
    return (*t.word("because "), *t.join(found, Piece("word", " and "))) if found else ()


def _note(x: Told) -> str:
    """What a rule did; that it is a constant goes without saying."""
    return "" if x.note == x.how else x.note.removeprefix("constant").removeprefix("; ")


def _source(x: Told) -> str:
    return x.cite.where or x.where or (x.place if x.how == "given" else "")


def row(x: Told) -> Row:
    """One node as a row."""
    shown, unit = digits(x.value) if x.value != "" else "not stated", unit_shown(x.unit)
    if x.how == "item":
        return Row("number", t.name(x.symbol), (), (), (), shown, unit, "", "", x.place, x)
    if x.how == "test":
        asked = t.symbols(x)
        question = (*t.word(f"{x.item}: "), *asked) if x.item else asked
        numbers = _trials(x) if x.rejected is not None else _unlike(t.numbers(x), shown)
        return Row("question", (*question, Piece("word", "?")), (), numbers, _reasons(x, None), shown, unit, "", "", "", x)
    end = (shown, unit, _source(x), x.cite.status, "", x)
    if x.line is None:
        words = t.join([p for p in (t.word(_note(x)) if _note(x) else (), _reasons(x, None)) if p], Piece("word", "; "))
        return Row("given" if x.how == "given" else "rule", t.name(x.symbol), (), (), words, *end)
    test = _search(x)
    if test is not None:
        first = (*t.word("first with "), *t.symbols(test))
        return Row("choice", t.name(x.symbol), first, _trials(test), _reasons(x, test), *end)
    return Row("line", t.name(x.symbol), t.symbols(x), _unlike(t.numbers(x), shown), _reasons(x, None), *end)


def _unlike(f: Formula, shown: str) -> Formula:
    """Numbers that only repeat the result are left out."""
    return () if plain_text(f) == shown else f


def rows(*told: Told, deep: bool = False) -> list[Row]:
    """The working of one number, or of several that share it: inputs before results, each line once."""
    nodes = list(walk(*told, deep=deep))
    own = {id(x) for x in told}
    answered = {id(test) for x in nodes if (test := _search(x)) is not None}
    out: dict[Any, Row] = {}
    for x in nodes:
        if _candidate(x) or id(x) in answered:
            continue
        r = row(x)
        out.setdefault(id(x) if id(x) in own else r[:10], r)
    return list(out.values())


def fields(record: Any) -> dict[str, Told]:
    """The told numbers of a record by their field; a lone number stands under no name."""
    if isinstance(record, Told):
        return {"": record}
    if isinstance(record, dict):
        return {str(k): v for k, v in record.items() if isinstance(v, Told)}
    return {name: x for name, x in zip(record._fields, record, strict=True) if isinstance(x, Told)}


def how(r: Row, plain: bool = True) -> str:
    """What a row says, in one line of text."""
    text = plain_text if plain else ascii_text
    between = ": " if r.node.unit == "yes/no" else " = "          # a relation has signs of its own
    formula = between.join(text(f) for f in (r.symbols, r.numbers) if f)
    return ", ".join(p for p in (formula, f"number {r.tag}" if r.tag else text(r.words)) if p)


def ascii_words(text: str) -> str:
    """Signs that an old terminal lacks, in words it has."""
    for sign, plain in t.PLAIN.items():
        text = text.replace(sign, plain)
    return text.encode("ascii", "replace").decode("ascii")


def source(r: Row) -> str:
    """Where a row comes from, and how well that was checked."""
    plain = r.status in ("", "verified") or r.source.startswith(r.status)
    return r.source if plain or not r.source else f"{r.source} [{r.status}]"
