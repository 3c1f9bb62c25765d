"""Voltage along the way from the transformer: true distance along the trench, so that a slope is volts per foot."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
import math
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.bars import ticks
from curtilage.draw.svg import Words

LEFT, TOP, HIGH, SIZE = 44, 26, 300, 13     # px
BASE = 120.0                                # V, line to neutral: what the picture is drawn on


class Stop(NamedTuple):
    """A place on the way: `ft` from the transformer, `volts` on the base of the picture."""

    name: str
    ft: float
    volts: float


class Scale(NamedTuple):
    """The unit of distance on the axis, and how much of it one foot is."""

    unit: str = "ft"
    foot: float = 1.0


FEET = Scale()


class Way(NamedTuple):
    """One way through the estate; the heavy one is the one that the picture is about."""

    stops: Sequence[Stop]
    end: Words                   # what is written at its end
    heavy: bool = False


def path(ways: Sequence[Way], limits: Sequence[tuple[float, str]], title: str, c: Mapping[str, str], scale: Scale = FEET,
         wide: float = 1040) -> str:
    """Ways as lines that fall with distance; `limits` (volts, words) are dotted. The scale does not start at zero and says so."""
    said = max([s.width(s.said(w.end), SIZE) for w in ways] + [0.0]) + 16
    far = max([p.ft for w in ways for p in w.stops] + [1.0])
    volts = [p.volts for w in ways for p in w.stops] + [v for v, _ in limits]
    high, low = math.ceil(max([*volts, 120.0])), math.floor(min([*volts, 119.0]) - 0.3)
    across, down = (wide - LEFT - said) / far, HIGH / (high - low)

    def place(p: Stop) -> tuple[float, float]:
        return LEFT + p.ft * across, TOP + (high - p.volts) * down

    body = [s.text(0, 13, "V, line to neutral, on a base of 120 V; the scale does not start at zero", c["ink2"])]
    right, foot = LEFT + far * across, TOP + HIGH
    step = max(1, math.ceil((high - low) / 8))
    for v in range(low, high + 1, step):
        y = TOP + (high - v) * down
        body.append(f'<path d="M{LEFT} {s.n(y)}H{s.n(right)}" stroke="{c["rule"]}" stroke-width=".8"/>')
        body.append(s.text(LEFT - 8, y + 4, str(v), c["ink"], anchor="end"))
    for far_off in ticks(far * scale.foot, 9):
        x = LEFT + far_off / scale.foot * across
        body.append(f'<path d="M{s.n(x)} {foot}v5" stroke="{c["strong"]}" stroke-width="1"/>')
        body.append(s.text(x, foot + 19, f"{far_off:,.0f}", c["ink"], anchor="middle"))
    body.append(s.text(LEFT, foot + 37, f"{scale.unit} from the transformer, along the trench", c["ink2"]))
    for limit, words in limits:
        y = TOP + (high - limit) * down
        body.append(f'<path d="M{LEFT} {s.n(y)}H{s.n(right)}" stroke="{c["ink"]}" stroke-width="1.4" stroke-dasharray="2 3"/>')
        body.append(s.text(LEFT + 6, y + 14, words, c["ink2"], size=12, over=c["ground"]))
    room = s.Room((LEFT, 0.0, wide, foot), [b for w in ways for a, z in pairwise(w.stops) for b in s.along(place(a), place(z))])
    room.words += [s.box(LEFT + 6, TOP + (high - limit) * down + 14, words, size=12) for limit, words in limits]
    for w in sorted(ways, key=lambda w: w.heavy):
        body += _way(w, [place(p) for p in w.stops], room, c)
    said_of = "; ".join(f"{w.stops[-1].name} at {w.stops[-1].ft * scale.foot:,.0f} {scale.unit}: {s.said(w.end)}" for w in ways)
    return s.sheet(wide, foot + 44, title, said_of, body, c["ink"], SIZE)


def _way(w: Way, at: Sequence[tuple[float, float]], room: s.Room, c: Mapping[str, str]) -> list[str]:
    """One way, its places as dots, and at its end its name where there is room."""
    colour, line, r = (c["ink"], "2.4", "3.6") if w.heavy else (c["strong"], "1.3", "2.4")
    points = "L".join(f"{s.n(x)} {s.n(y)}" for x, y in at)
    parts = [f'<path d="M{points}" stroke="{colour}" stroke-width="{line}"/>']
    parts += [f'<circle cx="{s.n(a)}" cy="{s.n(b)}" r="{r}" fill="{colour}" stroke="none"/>' for a, b in at]
    x, y, anchor = room.put(s.around(*at[-1]), s.said(w.end), SIZE)
    return [*parts, s.text(x, y, w.end, c["ink"], bold=w.heavy, anchor=anchor, over=c["ground"])]
