"""A sketch of the site: structures and junctions where they stand, trenches between them with their length along the trench."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from curtilage.draw import svg as s

SIZE, PAD = 13, 90      # px


class Spot(NamedTuple):
    """A node of the site, `east` and `north` in ft; a structure has a title, a junction has none."""

    id: str
    east: float
    north: float
    title: str = ""


class Trench(NamedTuple):
    """A trench between two spots; `words` stand beside it ("195 ft, 8 ducts")."""

    start: str
    end: str
    words: str
    power: bool = True


Box = tuple[float, float, float, float]
AROUND = ((9, 4, "start"), (-9, 4, "end"), (0, -11, "middle"), (0, 20, "middle"), (9, -9, "start"), (9, 18, "start"),
          (-9, -9, "end"), (-9, 18, "end"))


def _box(x: float, y: float, text: str, anchor: str) -> Box:
    w = s.width(text, SIZE)
    left = x - {"start": 0.0, "middle": w / 2, "end": w}[anchor]
    return left - 2, y - 12, left + w + 2, y + 4


def _meets(a: Box, taken: Sequence[Box]) -> int:
    return sum(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for b in taken)


def _along(a: tuple[float, float], b: tuple[float, float]) -> list[Box]:
    """A trench as a chain of small boxes, so that texts keep off it."""
    steps = 24
    return [(x - 3, y - 3, x + 3, y + 3) for i in range(steps + 1)
            for x, y in [(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps)]]


def _label(x: float, y: float, text: str, taken: list[Box]) -> tuple[float, float, str]:
    """The place around a point where a text meets least of what is there."""
    spots = [(x + dx, y + dy, anchor) for dx, dy, anchor in AROUND]
    best = min(spots, key=lambda p: _meets(_box(p[0], p[1], text, p[2]), taken))
    taken.append(_box(best[0], best[1], text, best[2]))
    return best


def sketch(spots: Sequence[Spot], trenches: Sequence[Trench], title: str, c: Mapping[str, str], wide: float = 1040,
           tall: float = 560) -> str:
    """North is up. Trenches are drawn straight and carry their true length, which is what the feeders use."""
    if not spots:
        return ""
    west, south = min(p.east for p in spots), min(p.north for p in spots)
    span = max(max(p.east for p in spots) - west, 1.0), max(max(p.north for p in spots) - south, 1.0)
    scale = min((wide - 2 * PAD) / span[0], (tall - 80) / span[1])
    height = span[1] * scale + 80
    at = {p.id: (PAD + (p.east - west) * scale, height - 40 - (p.north - south) * scale) for p in spots}
    known = [t for t in trenches if t.start in at and t.end in at]
    taken: list[Box] = [(x - 8, y - 8, x + 8, y + 8) for x, y in at.values()]
    for t in known:
        taken += _along(at[t.start], at[t.end])
    body = []
    for t in known:
        (x1, y1), (x2, y2) = at[t.start], at[t.end]
        dash = "" if t.power else ' stroke-dasharray="5 4"'
        body.append(f'<path d="M{s.n(x1)} {s.n(y1)}L{s.n(x2)} {s.n(y2)}" stroke="{c["strong"]}" stroke-width="2.2"{dash}/>')
    for p in spots:
        x, y = at[p.id]
        if p.title:
            body.append(f'<rect x="{s.n(x - 6)}" y="{s.n(y - 6)}" width="12" height="12" fill="{c["ground"]}"/>')
        else:
            body.append(f'<circle cx="{s.n(x)}" cy="{s.n(y)}" r="3.5" fill="{c["ink"]}"/>')
        lx, ly, anchor = _label(x, y, p.title or p.id, taken)
        body.append(s.text(lx, ly, p.title or p.id, c["ink"], bold=bool(p.title), anchor=anchor))
    for t in known:
        (x1, y1), (x2, y2) = at[t.start], at[t.end]
        lx, ly, anchor = _label((x1 + x2) / 2, (y1 + y2) / 2, t.words, taken)
        body.append(s.text(lx, ly, t.words, c["ink2"], anchor=anchor, size=12))
    words = "; ".join(f"{t.start} to {t.end}: {t.words}" for t in known)
    return s.sheet(wide, height, title, words, body, c["ink"], SIZE)
