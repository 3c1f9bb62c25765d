"""Voltage along the way from the transformer: true distance along the trench, so that a slope is volts per foot."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
import math
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.bars import ticks
from curtilage.draw.svg import Text

LEFT, TOP, HIGH, SIZE = 44, 26, 300, 13     # px


class Stop(NamedTuple):
    """A place on the way: `ft` from the transformer, `volts` on the base of the picture."""

    name: str
    ft: float
    volts: float


class Way(NamedTuple):
    """One way through the estate; the heavy one is the one that the picture is about."""

    stops: Sequence[Stop]
    end: str | Text              # what is written at its end
    heavy: bool = False


def _spread(wanted: Sequence[float], gap: float, lowest: float) -> list[float]:
    """Places for labels, near where they are wanted, in the same order, at least a gap apart and not below the lowest."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    at = [0.0] * len(wanted)
    last = -math.inf
    for i in order:
        last = at[i] = max(wanted[i], last + gap)
    floor = lowest
    for i in reversed(order):
        at[i] = min(at[i], floor)
        floor = at[i] - gap
    return at


def path(ways: Sequence[Way], limits: Sequence[tuple[float, str]], title: str, c: Mapping[str, str], wide: float = 1040) -> str:
    """Ways as lines that fall with distance; `limits` (volts, words) are dotted. The scale does not start at zero and says so."""
    said = max([s.width(s.as_text(w.end).text, SIZE) for w in ways] + [0.0]) + 34
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
    for ft in ticks(far, 9):
        body.append(f'<path d="M{s.n(LEFT + ft * across)} {foot}v5" stroke="{c["strong"]}" stroke-width="1"/>')
        body.append(s.text(LEFT + ft * across, foot + 19, f"{ft:,.0f}", c["ink"], anchor="middle"))
    body.append(s.text(LEFT, foot + 37, "ft from the transformer, along the trench", c["ink2"]))
    for limit, words in limits:
        y = TOP + (high - limit) * down
        body.append(f'<path d="M{LEFT} {s.n(y)}H{s.n(right)}" stroke="{c["ink"]}" stroke-width="1.4" stroke-dasharray="2 3"/>')
        body.append(s.text(LEFT + 6, y + 14, words, c["ink2"], size=12))
    ends = _spread([place(w.stops[-1])[1] for w in ways], 15, foot - 4)
    for w, y in zip(ways, ends, strict=True):
        body += _way(w, [place(p) for p in w.stops], right, y, c)
    said_of = "; ".join(f"{w.stops[-1].name} at {w.stops[-1].ft:,.0f} ft: {s.as_text(w.end).text}" for w in ways)
    return s.sheet(wide, foot + 44, title, said_of, body, c["ink"], SIZE)


def _way(w: Way, at: Sequence[tuple[float, float]], right: float, label: float, c: Mapping[str, str]) -> list[str]:
    colour, line = (c["ink"], "2.4") if w.heavy else (c["strong"], "1.3")
    points = "L".join(f"{s.n(x)} {s.n(y)}" for x, y in at)
    x, y = at[-1]
    parts = [f'<path d="M{points}" stroke="{colour}" stroke-width="{line}"/>']
    r = "3.6" if w.heavy else "2.4"
    parts += [f'<circle cx="{s.n(a)}" cy="{s.n(b)}" r="{r}" fill="{colour}" stroke="none"/>' for a, b in at]
    parts.append(f'<path d="M{s.n(x + 5)} {s.n(y)}L{s.n(right + 14)} {s.n(label)}h8" stroke="{c["rule"]}" stroke-width="1"/>')
    parts.append(s.text(right + 26, label + 4, w.end, c["ink"], bold=w.heavy))
    return parts
