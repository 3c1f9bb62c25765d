"""A trench cut across: ducts where they lie, cover, the earth between power and communication, the ribbon, and what each duct is.

Drawn to scale but for the gaps between ducts of one side, which nobody states. Power has a heavy ring, communication a dashed
one, an empty duct a thin one with a stroke through it; every duct has a number, and its words stand beside the cut.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
import math
from typing import NamedTuple

from curtilage.draw import svg as s

FEW, LARGE, SMALL = 10, 9.0, 7.5     # up to how many ducts an inch is drawn large, px; else small
TIGHT = 8.5             # px; a number does not go into a smaller ring
GAP, EDGE = 1.7, 4.0    # inches between ducts of one side, and to the wall of the trench
WALL = 0.12             # thickness of a duct over its inside diameter
NOMINAL, APART = 24.0, 12.0     # inches drawn where nothing is stated; said to be so
TOP, LEFT, SIZE, ROW = 78.0, 150.0, 13.0, 19.0
KEY = "Heavy ring: power. Dashed ring: communication. Thin ring: empty. To scale but for the gaps between ducts of one side."


class Duct(NamedTuple):
    """One duct: `use` is power, comm or spare; `side` the one it lies on; `inside` its inside diameter, in."""

    use: str
    side: str
    inside: float
    words: s.Words


class Cut(NamedTuple):
    """One trench: lengths in inches, or None where they are not stated, each with its words."""

    title: str
    above: str                   # what lies above it
    cover: float | None
    cover_words: s.Words
    apart: float | None
    apart_words: s.Words
    ribbon: float | None
    ribbon_words: s.Words
    ducts: tuple[Duct, ...]


class Spot(NamedTuple):
    """A duct on the sheet: its number, its middle and radius, px."""

    n: int
    duct: Duct
    x: float
    y: float
    r: float


def _side(ducts: Sequence[tuple[int, Duct]], left: float, floor: float, inch: float) -> tuple[list[Spot], float, float]:
    """Ducts of one side, the largest below, in rows on the floor of the trench; right edge and top of them, px."""
    across = max(1, math.ceil(math.sqrt(1.7 * len(ducts))))
    rows = [ducts[i:i + across] for i in range(0, len(ducts), across)]
    spots, right, y = [], left, floor
    for row in rows:
        tall = max(_radius(d, inch) for _, d in row)
        x = left
        for n, d in row:
            r = _radius(d, inch)
            spots.append(Spot(n, d, x + r, y - r, r))
            x += 2 * r + GAP * inch
        right, y = max(right, x - GAP * inch), y - 2 * tall - GAP * inch
    return spots, right, y + GAP * inch if rows else floor


def _radius(d: Duct, inch: float) -> float:
    return max(d.inside * (1 + WALL) / 2, 0.75) * inch


def section(cut: Cut, c: Mapping[str, str], wide: float = 1040) -> str:
    """The cut with its dimensions on the left and what lies in each duct on the right."""
    order = [d for side in ("power", "comm") for d in sorted((x for x in cut.ducts if x.side == side), key=lambda x: -x.inside)]
    inch = LARGE if len(order) <= FEW else SMALL
    cover, apart = (cut.cover or NOMINAL) * inch, (cut.apart or APART) * inch
    numbered = list(enumerate(order, 1))
    sides = [[(n, d) for n, d in numbered if d.side == side] for side in ("power", "comm")]
    tops = [_side(some, 0.0, 0.0, inch)[2] for some in sides if some]
    floor = TOP + cover - min(tops, default=-3 * inch)
    power, right, _ = _side(sides[0], LEFT + EDGE * inch, floor, inch)
    start = right + apart if sides[0] else LEFT + EDGE * inch
    comm, end, _ = _side(sides[1], start, floor, inch) if sides[1] else ([], right, floor)
    wall, deep = max(end + EDGE * inch, LEFT + 12 * inch), floor + EDGE * inch
    tall = max(deep + 62, TOP + ROW * (len(order) + 1) + 40)
    body = [*_earth(cut, wall, deep, c), *_cover(cut, TOP + cover, wall, c)]
    if power and comm:
        body += _apart(cut, right, start, deep, c)
    for spot in (*power, *comm):
        body += _duct(spot, c)
    if cut.ribbon:
        body += _ribbon(cut, TOP + cover - cut.ribbon * inch, wall, c)
    body += _list(numbered, wall + 64, c)
    body.append(s.text(LEFT, tall - 12, KEY, c["ink2"], size=12))
    return s.sheet(wide, tall, cut.title, words(cut, order), body, c["ink"], SIZE)


def _earth(cut: Cut, wall: float, deep: float, c: Mapping[str, str]) -> list[str]:
    """Surface, walls and floor of the trench."""
    out = [s.text(LEFT, 26, cut.title, c["ink"], bold=True, size=15), s.text(LEFT, TOP - 12, cut.above, c["ink2"], size=12)]
    out.append(f'<path d="M{s.n(LEFT - 46)} {s.n(TOP)}H{s.n(wall + 30)}" stroke="{c["ink"]}" stroke-width="2.4"/>')
    ticks = "".join(f"M{s.n(x)} {s.n(TOP)}l-7 9" for x in range(int(LEFT) - 38, int(wall) + 30, 16))
    out.append(f'<path d="{ticks}" stroke="{c["strong"]}" stroke-width="1"/>')
    out.append(f'<path d="M{s.n(LEFT)} {s.n(TOP)}V{s.n(deep)}H{s.n(wall)}V{s.n(TOP)}" stroke="{c["strong"]}" '
               f'stroke-width="1.4" stroke-dasharray="8 4"/>')
    return out


def _measure(x: float, a: float, b: float, c: Mapping[str, str], upright: bool = True) -> str:
    """A dimension line with its strokes at both ends."""
    if upright:
        return (f'<path d="M{s.n(x)} {s.n(a)}V{s.n(b)}M{s.n(x - 5)} {s.n(a)}h10M{s.n(x - 5)} {s.n(b)}h10" '
                f'stroke="{c["ink"]}" stroke-width="1.2"/>')
    return (f'<path d="M{s.n(a)} {s.n(x)}H{s.n(b)}M{s.n(a)} {s.n(x - 5)}v10M{s.n(b)} {s.n(x - 5)}v10" '
            f'stroke="{c["ink"]}" stroke-width="1.2"/>')


def _cover(cut: Cut, low: float, wall: float, c: Mapping[str, str]) -> list[str]:
    """Cover: from the surface to the top of the highest duct."""
    x = LEFT - 26
    lines = _lines(cut.cover_words, 110)
    mid = (TOP + low) / 2 - ROW * (len(lines) - 1) / 2
    out = [_measure(x, TOP, low, c)]
    out.append(f'<path d="M{s.n(x)} {s.n(low)}H{s.n(wall)}" stroke="{c["rule"]}" stroke-width="1" stroke-dasharray="2 4"/>')
    return out + [s.text(x - 12, mid + i * ROW, line, c["ink"], anchor="end", size=12.5) for i, line in enumerate(lines)]


def _lines(words: s.Words, limit: float) -> list[s.Words]:
    """Words in lines; a number with its tag keeps a line of its own."""
    out: list[s.Words] = []
    for part in s.parts(words):
        out += [part] if part.tag else list(s.wrap(part.text, limit))
    return out


def _apart(cut: Cut, a: float, b: float, deep: float, c: Mapping[str, str]) -> list[str]:
    """Earth between the two sides, under the ducts."""
    y = deep - 10
    return [_measure(y, a, b, c, upright=False),
            s.text((a + b) / 2, y + 28, cut.apart_words, c["ink"], anchor="middle", size=12.5)]


def _ribbon(cut: Cut, y: float, wall: float, c: Mapping[str, str]) -> list[str]:
    """The warning ribbon, dash and dot."""
    return [f'<path d="M{s.n(LEFT + 10)} {s.n(y)}H{s.n(wall - 10)}" stroke="{c["ink"]}" stroke-width="3" '
            f'stroke-dasharray="14 4 3 4"/>', s.text(LEFT + 12, y - 7, cut.ribbon_words, c["ink"], size=12.5, over=c["ground"])]


def _duct(p: Spot, c: Mapping[str, str]) -> list[str]:
    """One duct: its use by its ring, its number inside."""
    ring = {"power": 'stroke-width="2.6"', "comm": 'stroke-width="1.7" stroke-dasharray="4 2.6"', "spare": 'stroke-width="1"'}
    at = f'cx="{s.n(p.x)}" cy="{s.n(p.y)}" r="{s.n(p.r)}"'
    out = [f'<circle {at} fill="{c["ground"]}" stroke="{c["ink"]}" {ring[p.duct.use]}/>']
    if p.duct.use == "spare":
        k = p.r * 0.7071
        out.append(f'<path d="M{s.n(p.x - k)} {s.n(p.y + k)}L{s.n(p.x + k)} {s.n(p.y - k)}" stroke="{c["strong"]}" '
                   f'stroke-width="0.8"/>')
    if p.r < TIGHT:
        return [*out, s.text(p.x, p.y - p.r - 2.5, str(p.n), c["ink"], anchor="middle", size=9)]
    size = min(12.5, p.r * (1.1 if p.n < 10 else 0.95))
    over = c["ground"] if p.duct.use == "spare" and p.r > 9 else ""
    bold = p.duct.use != "spare"
    return [*out, s.text(p.x, p.y + size * 0.36, str(p.n), c["ink"], bold=bold, anchor="middle", size=size, over=over)]


def _list(ducts: Sequence[tuple[int, Duct]], x: float, c: Mapping[str, str]) -> list[str]:
    """What each number is, in the order of the numbers."""
    out = []
    for i, (n, d) in enumerate(ducts):
        y = TOP + 6 + i * ROW
        out += [s.text(x, y, str(n), c["ink"], bold=True, anchor="end", size=12.5),
                s.text(x + 10, y, d.words, c["ink"], size=12.5)]
    return out


def words(cut: Cut, order: Sequence[Duct]) -> str:
    """The cut in sentences, for readers who cannot see it."""
    parts = [f"{cut.title}, under {cut.above}.", f"{s.said(cut.cover_words)}."]
    if cut.ribbon:
        parts.append(f"{s.said(cut.ribbon_words)}.")
    if {d.side for d in order} == {"power", "comm"}:
        parts.append(f"Between power and communication: {s.said(cut.apart_words)}.")
    parts += [f"Duct {n}: {s.said(d.words)}." for n, d in enumerate(order, 1)]
    return " ".join(parts)
