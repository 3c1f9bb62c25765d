"""Tables and workings as Markdown, for a text file, a letter or a review thread."""
from __future__ import annotations

from collections.abc import Sequence
import re
from typing import TYPE_CHECKING

from curtilage.report import content as c
from curtilage.report import working as w
from curtilage.report.content import Table
from curtilage.report.numbers import label
from curtilage.report.typeset import plain_text
from curtilage.values.told import Told

if TYPE_CHECKING:
    from curtilage.design.design import Design


def safe(text: object) -> str:
    """Text that stays text: signs of Markdown and HTML lose their meaning."""
    return re.sub(r"([\\`*_{}\[\]<>|#~])", r"\\\1", str(text)).replace("\n", " ")


def row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def table(t: Table) -> str:
    """A table with its title; figures to the right."""
    if not t.lines:
        return ""
    lines = [f"### {safe(t.title)}", "", row([safe(col.head) for col in t.columns]),
             row(["---:" if col.numeric else "---" for col in t.columns])]
    lines += [row([safe(cell) for cell in line.cells]) for line in t.lines]
    return "\n".join([*lines, *(["", safe(t.note)] if t.note else []), ""])


def working(told: Sequence[Told], deep: bool = False) -> str:
    """A working with the four columns of a hand calculation."""
    lines = [row(["Symbols", "Numbers", "Result", "Source and status"]), row(["---", "---", "---:", "---"])]
    for r in w.rows(*told, deep=deep):
        left = plain_text(r.symbol) + (f" = {plain_text(r.symbols)}" if r.symbols else "")
        right = "; ".join(t for t in (plain_text(r.numbers), f"number {r.tag}" if r.tag else plain_text(r.words)) if t)
        lines.append(row([safe(left), safe(right), safe(f"{r.shown} {r.unit}".strip()), safe(w.source(r))]))
    return "\n".join(lines) + "\n"


def explain(d: Design, tag: str, deep: bool = False) -> str:
    """The working of one number."""
    n, field = c.num(d, tag), tag.rpartition("/")[2]
    head = f"## {safe(tag)}: {safe(label(field))} {safe(n.shown)} {n.unit}".rstrip()
    return f"{head}\n\n{working([d.told(tag)], deep)}"
