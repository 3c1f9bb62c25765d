"""One feeder in every size: a row for each, a column for each criterion with its limit, so that one sees what a size gives up."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.bars import ticks
from curtilage.draw.chain import disc
from curtilage.draw.svg import Words

PITCH, TOP, SIZE, GAP = 27, 44, 13, 26      # px: rows, room above the first, text, between columns


class Cell(NamedTuple):
    """A value of one size; None where it has none, and then `shown` says why in a word or two."""

    value: float | None
    shown: Words
    bad: bool = False


class Criterion(NamedTuple):
    """A column: title with its unit, the limit if it has one, and on which side of it is good ("max": at most)."""

    title: str
    limit: float | None
    limit_words: str
    cells: Sequence[Cell]       # one for each size


def trade_off(sizes: Sequence[str], chosen: str, columns: Sequence[Criterion], title: str, c: Mapping[str, str],
              wide: float = 1040) -> str:
    """Sizes down the side, the chosen one washed and bold; values as discs, those that will not do as struck rings."""
    names = max([s.width(name, SIZE) for name in sizes] + [0.0]) + 14
    room = (wide - names - GAP * (len(columns) - 1)) / max(len(columns), 1)
    foot = TOP + PITCH * len(sizes)
    body = []
    for i, name in enumerate(sizes):
        y = TOP + PITCH * i
        if name == chosen:
            body.append(f'<rect x="0" y="{s.n(y + 1)}" width="{s.n(wide)}" height="{PITCH - 2}" fill="{c["iris_wash"]}" '
                        'stroke="none"/>')
            body.append(f'<path d="M1.5 {s.n(y + 1)}v{PITCH - 2}" stroke="{c["ink"]}" stroke-width="3"/>')
        body.append(s.text(names - 8, y + PITCH / 2 + 4, name, c["ink"], bold=name == chosen, anchor="end"))
    for i, column in enumerate(columns):
        body += _column(column, names + i * (room + GAP), room, [name == chosen for name in sizes], c)
    words = "; ".join(f"{name}: " + ", ".join(f"{k.title} {s.said(k.cells[i].shown)}" for k in columns)
                      for i, name in enumerate(sizes))
    return s.sheet(wide, foot + 28, title, words, body, c["ink"], SIZE)


def _column(k: Criterion, x0: float, room: float, chosen: Sequence[bool], c: Mapping[str, str]) -> list[str]:
    said = max([s.width(s.said(cell.shown), SIZE) for cell in k.cells] + [0.0]) + 8
    across = room - said - 8
    values = [cell.value for cell in k.cells if cell.value is not None]
    top = max([*values, k.limit or 0.0]) * 1.06 or 1.0
    foot = TOP + PITCH * len(k.cells)
    parts = [s.text(x0, 13, k.title, c["ink2"])]
    for t in ticks(top, 4):
        x = x0 + t / top * across
        parts.append(f'<path d="M{s.n(x)} {TOP}V{foot}" stroke="{c["rule"]}" stroke-width=".8"/>')
        parts.append(s.text(x, foot + 17, f"{t:,g}", c["ink"], anchor="middle", size=12))
    if k.limit is not None and k.limit <= top:
        x = x0 + k.limit / top * across
        parts.append(f'<path d="M{s.n(x)} {TOP - 6}V{foot}" stroke="{c["ink"]}" stroke-width="2"/>')
        left = max(x0, min(x - s.width(k.limit_words, 12) / 2, x0 + room - s.width(k.limit_words, 12)))
        parts.append(s.text(left, TOP - 11, k.limit_words, c["ink"], bold=True, size=12))
    for i, cell in enumerate(k.cells):
        y = TOP + PITCH * (i + 0.5)
        if cell.value is not None:
            x = x0 + cell.value / top * across
            parts.append(f'<path d="M{s.n(x0)} {s.n(y)}H{s.n(x)}" stroke="{c["strong"]}" stroke-width="1.2"/>')
            parts.append(disc(x, y, cell.bad, c))
        colour = c["rust"] if cell.bad else c["ink"] if cell.value is not None else c["ink2"]
        parts.append(s.text(x0 + room, y + 4, cell.shown, colour, bold=cell.bad or chosen[i], anchor="end", over=""))
    return parts
