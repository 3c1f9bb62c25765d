"""Grounding and bonding as a drawing: at each structure the bars of neutral and ground, the tie between them or the gap, the
conductor down to each electrode, and the equipment grounds that join the structures.

Columns stand side by side in rows that keep to the width; every text knows its width before it is drawn, so that none meets
another. What is wrong is said in words and by a mark, and has the colour of what is wrong besides.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.svg import Box, Words
from curtilage.look.marks import MARKS

SIZE, LINE, GAP, SLOT = 12.5, 15, 18, 116      # px: text, pitch of lines, between columns, room of one electrode
BAR, STUB = 34, 10                             # px: half of a bar, from its left end to the equipment ground
TO_N, TO_G, TO_EARTH, DEEP = 42, 84, 136, 44   # px: from the equipment ground down to neutral, ground, earth; depth of symbols
EDGE = 6

HERE, WRONG, APART, MISSING = "here", "wrong", "apart", "missing"
"""How neutral and ground stand at a structure: tied rightly, tied wrongly, apart rightly, apart wrongly."""


WORDS = {WRONG: "bonded again", MISSING: "no bond"}


class Pole(NamedTuple):
    """An electrode, or several alike: `through` is the place in the list of the one that its conductor runs over, or -1."""

    kind: str
    number: int
    conductor: Words
    words: tuple[Words, ...]
    through: int = -1
    flag: str = ""


class Stand(NamedTuple):
    """One structure."""

    title: str
    name: str
    bond: str
    jumper: Words
    ground: Words                   # equipment ground of its feeder; at the service empty
    poles: tuple[Pole, ...]


class Placed(NamedTuple):
    """A drawing as text, and the boxes of its texts."""

    svg: str
    boxes: tuple[tuple[Box, str], ...]


class _Ink:
    """What has been put on the sheet."""

    def __init__(self, colours: Mapping[str, str]) -> None:
        self.c = colours
        self.body: list[str] = []
        self.boxes: list[tuple[Box, str]] = []

    def text(self, x: float, y: float, words: Words, ink: str = "ink", bold: bool = False) -> None:
        said = s.said(words)
        if said:
            self.boxes.append(((x, y - SIZE + 2, x + s.width(said), y + 3), said))
            self.body.append(s.text(x, y, words, self.c[ink], bold))

    def path(self, d: str, ink: str = "ink", wide: float = 1.7, more: str = "") -> None:
        self.body.append(f'<path d="{d}" stroke="{self.c[ink]}" stroke-width="{s.n(wide)}"{more}/>')

    def mark(self, x: float, y: float, kind: str) -> None:
        place = f'x="{s.n(x)}" y="{s.n(y)}" width="13" height="13" viewBox="0 0 16 16"'
        self.body.append(f'<svg {place} stroke="none" color="{self.c["rust"]}">{MARKS[kind]}</svg>')


def width_of(x: Stand) -> float:
    """Room that a column needs."""
    beside = [s.width(s.said(x.ground)) + STUB + 8, 2 * BAR + 12 + s.width(s.said(x.jumper))]
    if x.bond in WORDS:
        beside.append(2 * BAR + 28 + s.width(WORDS[x.bond]))
    slots = [slot(p) for p in x.poles] or [s.width("no electrode") + 24]
    return max(2 * BAR + 44, s.width(x.title) + 20, *beside, sum(slots))


def slot(p: Pole) -> float:
    """Room that an electrode needs: its words, and its conductor's."""
    lines = [s.width(line) for w in p.words for line in _wrapped(w)]
    return max(SLOT, STUB + 16 + s.width(s.said(p.conductor)), *[w + (30 if p.flag else 14) for w in lines])


def _wrapped(w: Words) -> list[str]:
    return s.wrap(w, SLOT, SIZE) if isinstance(w, str) else [s.said(w)]


def plan(stands: Sequence[Stand], title: str, colours: Mapping[str, str], wide: float = 1040) -> Placed:
    """The whole sheet."""
    ink, y = _Ink(colours), 14.0
    rows = _rows(stands, wide - 2 * EDGE)
    wide = max(sum(width_of(x) + GAP for x in row) for row in rows) + 2 * EDGE
    for i, row in enumerate(rows):
        y = _row(ink, row, y, wide, first=i == 0) + 34
    words = "; ".join(_said(x) for x in stands)
    return Placed(s.sheet(wide, y - 16, title, words, ink.body, colours["ink"], SIZE, least=0.75 * wide), tuple(ink.boxes))


def _rows(stands: Sequence[Stand], room: float) -> list[list[Stand]]:
    """Columns in as few rows as keep to the width, and as even as may be."""
    rows: list[list[Stand]] = [[]]
    used = 0.0
    for x in stands:
        w = width_of(x) + GAP
        if rows[-1] and used + w > room:
            rows.append([])
            used = 0.0
        rows[-1].append(x)
        used += w
    each = -(-len(stands) // len(rows))
    even = [list(stands[i:i + each]) for i in range(0, len(stands), each)]
    return even if all(sum(width_of(x) + GAP for x in row) <= room for row in even) else rows


def _said(x: Stand) -> str:
    tied = {HERE: "neutral and ground bonded", WRONG: "neutral and ground bonded where they must not be",
            APART: "neutral and ground apart", MISSING: "neutral and ground not bonded where they must be"}[x.bond]
    electrodes = ", ".join(f"{s.said(p.words[0])} by {s.said(p.conductor) or 'no conductor'}" for p in x.poles)
    return f"{x.title}: {tied}, {electrodes or 'no electrode'}"


def _row(ink: _Ink, row: Sequence[Stand], top: float, wide: float, first: bool) -> float:
    """One row of columns; the lowest line it reaches."""
    names = [s.wrap(x.name, max(width_of(x) - 8, 90), SIZE) for x in row]
    y = top + LINE * max(len(n) for n in names) + 26                     # the equipment ground
    earth, left = y + TO_EARTH, float(EDGE)
    low, ends = earth, []
    for x, lines in zip(row, names, strict=True):
        ink.text(left, top, x.title, bold=True)
        for i, line in enumerate(lines):
            ink.text(left, top + LINE * (i + 1), line, "ink2")
        low = max(low, _column(ink, x, left, y, earth))
        ends.append(left + STUB)
        left += width_of(x) + GAP
    start = ends[0] if first else 0.0
    if len(row) > 1 or not first:
        ink.path(f"M{s.n(start)} {s.n(y)}H{s.n(ends[-1])}", wide=2.4)
    _soil(ink, earth, wide)
    return low


def _soil(ink: _Ink, y: float, wide: float) -> None:
    """The surface of the ground."""
    ticks = "".join(f"M{s.n(x)} {s.n(y)}l-5 6" for x in range(14, int(wide), 22))
    ink.path(f"M0 {s.n(y)}H{s.n(wide)}", "strong", 1.2)
    ink.path(ticks, "rule", 1)


def _column(ink: _Ink, x: Stand, left: float, y: float, earth: float) -> float:
    """One structure: bars, tie, equipment ground, electrodes; the lowest line it reaches."""
    n, g, right = y + TO_N, y + TO_G, left + 2 * BAR
    ink.path(f"M{s.n(left + STUB)} {s.n(y)}V{s.n(g)}", wide=1.7)
    ink.text(left + STUB + 7, y + 17, x.ground, "ink2")
    ink.path(f"M{s.n(left + 26)} {s.n(n)}H{s.n(right)}", wide=4)
    ink.path(f"M{s.n(left)} {s.n(g)}H{s.n(right)}", wide=4)
    ink.text(right + 6, n + 4, "N")
    ink.text(right + 6, g + 4, "G")
    _tie(ink, x, left + 2 * BAR - 12, n, g)
    if not x.poles:
        ink.mark(left, earth + 12, "fails")
        ink.text(left + 18, earth + 23, "no electrode", "rust", bold=True)
        return earth + 26
    low, at = earth, [left]
    for p in x.poles[:-1]:
        at.append(at[-1] + slot(p))
    for p, place in zip(x.poles, at, strict=True):
        low = max(low, _pole(ink, p, place, at, g, earth))
    return low


def _tie(ink: _Ink, x: Stand, at: float, n: float, g: float) -> None:
    """The bond between neutral and ground, or the gap."""
    bad = x.bond in (WRONG, MISSING)
    if x.bond in (HERE, WRONG):
        ink.path(f"M{s.n(at)} {s.n(n)}V{s.n(g)}", "rust" if bad else "ink", 3.4)
    middle = (n + g) / 2 + 4
    if bad:
        ink.mark(at + 22, middle - 11, "fails")
        ink.text(at + 39, middle, WORDS[x.bond], "rust", bold=True)
    elif x.bond == HERE:
        ink.text(at + 22, middle, x.jumper)
    else:
        ink.text(at - 26, middle, "apart", "ink2")


def _pole(ink: _Ink, p: Pole, x: float, at: Sequence[float], g: float, earth: float) -> float:
    """One electrode with its conductor; the lowest line it reaches."""
    down = x + STUB + 12
    if p.through >= 0:
        other = at[p.through] + STUB + 12
        ink.path(f"M{s.n(other)} {s.n(earth - 10)}H{s.n(down)}V{s.n(earth + 8)}")
        ink.text(down + 7, earth - 14, p.conductor)
    else:
        bar = at[0] + 2 * BAR - 8
        away = f"M{s.n(bar)} {s.n(g)}v10H{s.n(down)}" if down > bar else f"M{s.n(down)} {s.n(g)}"
        ink.path(f"{away}V{s.n(earth + 8)}")
        ink.text(down + 7, g + 24, p.conductor)
    _symbol(ink, p, down, earth)
    y = earth + DEEP + 16
    if p.flag:
        ink.mark(x + 4, y - 11, p.flag)
    for i, w in enumerate(p.words):
        for line in _wrapped(w):
            shown = line if isinstance(w, str) else w
            ink.text(x + (20 if p.flag and i == 0 else 4), y, shown, "rust" if p.flag and i == 0 else "ink" if i == 0 else "ink2",
                     bold=i == 0)
            y += LINE
    return y - LINE + 4


def _symbol(ink: _Ink, p: Pole, x: float, earth: float) -> None:
    """The electrode in the ground."""
    y = earth + 8
    if p.kind == "rod":
        shown = min(p.number, 5)
        ink.path(f"M{s.n(x)} {s.n(y)}H{s.n(x + 14 * (shown - 1))}" + "".join(
            f"M{s.n(x + 14 * i)} {s.n(y)}V{s.n(y + 34)}" for i in range(shown)), wide=2.6)
    elif p.kind == "concrete-encased":
        ink.path(f"M{s.n(x - 14)} {s.n(y + 8)}h62v20h-62z", "strong", 1.2)
        dots = "".join(f"M{s.n(x - 9 + 9 * i)} {s.n(y + (13 if i % 2 else 24))}h1.5" for i in range(6))
        ink.path(dots, "strong", 1.5)
        ink.path(f"M{s.n(x)} {s.n(y)}V{s.n(y + 18)}M{s.n(x - 9)} {s.n(y + 18)}h52", wide=2.6)
    elif p.kind == "ring":
        ink.path(f"M{s.n(x)} {s.n(y)}V{s.n(y + 10)}")
        ink.path(f"M{s.n(x - 14)} {s.n(y + 18)}a30 9 0 1 0 60 0a30 9 0 1 0 -60 0z", wide=2.6)
    elif p.kind == "plate":
        ink.path(f"M{s.n(x)} {s.n(y)}V{s.n(y + 22)}")
        ink.path(f"M{s.n(x - 13)} {s.n(y + 25)}h40", wide=6)
    elif p.kind == "water pipe":
        ink.path(f"M{s.n(x)} {s.n(y)}V{s.n(y + 15)}")
        ink.path(f"M{s.n(x - 14)} {s.n(y + 16)}h62M{s.n(x - 14)} {s.n(y + 26)}h62", wide=2)
    else:
        ink.path(f"M{s.n(x)} {s.n(y)}V{s.n(y + 34)}M{s.n(x - 9)} {s.n(y)}h18M{s.n(x - 9)} {s.n(y + 34)}h18", wide=3)
