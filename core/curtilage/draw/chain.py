"""Fault current against rating down the power path: a disc for what is available, an upright for the rating, a bar between."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.bars import ticks
from curtilage.draw.svg import Words

PITCH, TOP, SIZE, STEP = 25, 8, 13, 12      # px: rows, room above, text, indent of a row


class Place(NamedTuple):
    """One bus or panel: `ka` available (None where it is not known), `rating` in kA or None where none is stated."""

    name: str
    ka: float | None
    rating: float | None
    shown: Words                # what is written beside it
    deep: int = 0
    heavy: bool = False         # on the way that the page is about


def chain(rows: Sequence[Place], title: str, c: Mapping[str, str], wide: float = 1040) -> str:
    """Places in order of the power path, one under the other, on one scale of kA from zero."""
    names = max([s.width(r.name, SIZE) + STEP * r.deep for r in rows] + [0.0]) + 14
    said = max([s.width(s.said(r.shown), SIZE) for r in rows] + [0.0]) + 24
    top = max([max(r.ka or 0.0, r.rating or 0.0) for r in rows] + [1.0])
    scale, foot = (wide - names - said) / top, TOP + PITCH * len(rows)
    body = []
    for t in ticks(top, 8):
        x = names + t * scale
        body.append(f'<path d="M{s.n(x)} {TOP}V{foot}" stroke="{c["rule"]}" stroke-width=".8"/>')
        body.append(s.text(x, foot + 17, f"{t:g}", c["ink"], anchor="middle"))
    body.append(s.text(names, foot + 35, "kA, symmetrical; the larger of line to line and line to neutral", c["ink2"]))
    for i, r in enumerate(rows):
        body += _place(r, TOP + PITCH * (i + 0.5), names, scale, c)
    words = "; ".join(f"{r.name}: {s.said(r.shown)}" for r in rows)
    return s.sheet(wide, foot + 42, title, words, body, c["ink"], SIZE)


def _place(r: Place, y: float, x0: float, scale: float, c: Mapping[str, str]) -> list[str]:
    """One row: name, margin, rating, current, words."""
    bad = r.ka is not None and r.rating is not None and r.ka > r.rating
    colour = c["rust"] if bad else c["ink"]
    parts = [s.text(STEP * r.deep, y + 4, r.name, c["ink"], bold=r.heavy)]
    end = x0 + max(r.ka or 0.0, r.rating or 0.0) * scale
    if r.ka is not None and r.rating is not None:
        a, b = sorted((x0 + r.ka * scale, x0 + r.rating * scale))
        parts.append(f'<path d="M{s.n(a)} {s.n(y)}H{s.n(b)}" stroke="{c["rust"] if bad else c["rule"]}" stroke-width="5"/>')
    if r.rating is not None:
        parts.append(f'<path d="M{s.n(x0 + r.rating * scale)} {s.n(y - 8)}v16" stroke="{c["ink"]}" stroke-width="2.4"/>')
    if r.ka is not None:
        parts.append(disc(x0 + r.ka * scale, y, bad, c))
    return [*parts, s.text(end + 12, y + 4, r.shown, colour, bold=bad or r.heavy, over=c["ground"])]


def disc(x: float, y: float, bad: bool, c: Mapping[str, str]) -> str:
    """A disc for a value that will do, a struck ring for one that will not."""
    if not bad:
        return f'<circle cx="{s.n(x)}" cy="{s.n(y)}" r="4.6" fill="{c["ink"]}" stroke="none"/>'
    return (f'<circle cx="{s.n(x)}" cy="{s.n(y)}" r="5.2" fill="{c["ground"]}" stroke="{c["rust"]}" stroke-width="2"/>'
            f'<path d="M{s.n(x - 3.4)} {s.n(y - 3.4)}l6.8 6.8" stroke="{c["rust"]}" stroke-width="2"/>')
