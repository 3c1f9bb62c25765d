"""A sketch of the site: structures and junctions where they stand, trenches between them with their length along the trench."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
import math
from statistics import median
from typing import NamedTuple

from curtilage.draw import svg as s

SIZE, PAD = 13, 90      # px
NEARER = 0.62           # distances from the middle are drawn to this power: far places stand nearer than they are


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


def _beside(a: tuple[float, float], b: tuple[float, float]) -> list[s.Place]:
    """Places for words along a trench: at its middle first, on either side."""
    out = []
    for t in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        x, y = a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t
        out += [(x + 7, y - 5, "start"), (x - 7, y - 5, "end"), (x + 7, y + 14, "start"), (x - 7, y + 14, "end"),
                (x, y - 8, "middle"), (x, y + 17, "middle")]
    return out


def sketch(spots: Sequence[Spot], trenches: Sequence[Trench], title: str, c: Mapping[str, str], wide: float = 1040,
           tall: float = 560) -> str:
    """North is up, directions from the middle are true, distances are not: far places are drawn nearer.

    Trenches are drawn straight and carry their true length, which is what the feeders use.
    """
    if not spots:
        return ""
    spots = _nearer(spots)
    west, south = min(p.east for p in spots), min(p.north for p in spots)
    span = max(max(p.east for p in spots) - west, 1.0), max(max(p.north for p in spots) - south, 1.0)
    scale = min((wide - 2 * PAD) / span[0], (tall - 80) / span[1])
    height, left = span[1] * scale + 80, (wide - span[0] * scale) / 2
    at = {p.id: (left + (p.east - west) * scale, height - 40 - (p.north - south) * scale) for p in spots}
    known = [t for t in trenches if t.start in at and t.end in at]
    room = s.Room((0.0, 0.0, wide, height), [b for t in known for b in s.along(at[t.start], at[t.end])])
    room.words += [(x - 8, y - 8, x + 8, y + 8) for x, y in at.values()]
    body = [_trench(at[t.start], at[t.end], t.power, c) for t in known]
    for p in spots:
        body += _spot(p, at[p.id], room, c)
    for t in known:
        x, y, anchor = room.put(_beside(at[t.start], at[t.end]), t.words, 12)
        body.append(s.text(x, y, t.words, c["ink2"], anchor=anchor, size=12, over=c["ground"]))
    words = "; ".join(f"{t.start} to {t.end}: {t.words}" for t in known)
    return s.sheet(wide, height, title, words, body, c["ink"], SIZE)


def _nearer(spots: Sequence[Spot]) -> list[Spot]:
    """The spots with their distances from the middle shortened, so that one far gate does not crowd all the rest."""
    east, north = median(p.east for p in spots), median(p.north for p in spots)
    out = []
    for p in spots:
        x, y = p.east - east, p.north - north
        r = math.hypot(x, y)
        f = r ** (NEARER - 1) if r > 1 else 1.0
        out.append(p._replace(east=x * f, north=y * f))
    return out


def _trench(a: tuple[float, float], b: tuple[float, float], power: bool, c: Mapping[str, str]) -> str:
    dash = "" if power else ' stroke-dasharray="5 4"'
    return f'<path d="M{s.n(a[0])} {s.n(a[1])}L{s.n(b[0])} {s.n(b[1])}" stroke="{c["strong"]}" stroke-width="2.2"{dash}/>'


def _spot(p: Spot, at: tuple[float, float], room: s.Room, c: Mapping[str, str]) -> list[str]:
    """A structure as a square, a junction as a dot, each with its name where there is room."""
    x, y = at
    mark = f'<circle cx="{s.n(x)}" cy="{s.n(y)}" r="3.5" fill="{c["ink"]}"/>'
    if p.title:
        mark = f'<rect x="{s.n(x - 6)}" y="{s.n(y - 6)}" width="12" height="12" fill="{c["ground"]}"/>'
    name = p.title or p.id
    lx, ly, anchor = room.put(s.around(x, y), name, SIZE)
    return [mark, s.text(lx, ly, name, c["ink"], bold=bool(p.title), anchor=anchor, over=c["ground"])]
