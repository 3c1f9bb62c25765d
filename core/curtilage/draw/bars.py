"""Bars: contributions to a load in the order of the method, and the rows that matter most. Lengths are to scale, from zero."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
import math
from typing import NamedTuple

from curtilage.draw import svg as s
from curtilage.draw.svg import Words

PITCH, BAR, TOP, SIZE = 26, 17, 44, 13      # px: rows, bars, room for the title, text


class Step(NamedTuple):
    """One contribution in `kva`: `kind` is add, take (taken away), sum (what stands so far) or gap (an empty line)."""

    name: str
    kva: float
    kind: str
    shown: Words = ""        # what is written beside the bar; a tagged text opens its working


def levelled(*runs: Sequence[Step]) -> list[list[Step]]:
    """Runs of steps made equally long by gaps before their last step, so that their sums stand on one line."""
    most = max(map(len, runs))
    return [[*run[:-1], *[Step("", 0.0, "gap")] * (most - len(run)), *run[-1:]] for run in runs]


def extents(steps: Sequence[Step]) -> list[tuple[float, float]]:
    """From where to where each bar reaches; a sum stands from zero."""
    out, run = [], 0.0
    for step in steps:
        if step.kind == "sum":
            out.append((0.0, run))
        elif step.kind == "gap":
            out.append((run, run))
        else:
            signed = step.kva if step.kind == "add" else -step.kva
            out.append((run, run + signed))
            run += signed
    return out


def reach(*runs: Sequence[Step]) -> float:
    """The highest point of any of these runs."""
    return max((max(a, b) for run in runs for a, b in extents(run)), default=0.0)


def ticks(top: float, most: int = 6) -> list[float]:
    """Round values from zero to the top, at most so many."""
    if top <= 0:
        return [0.0]
    raw = top / (most - 1)
    unit: float = 10.0 ** math.floor(math.log10(raw))
    step = next(m * unit for m in (1, 2, 5, 10) if m * unit >= raw)
    return [i * step for i in range(int(top / step) + 1)]


def _axis(top: float, x0: float, scale: float, y1: float, y2: float, unit: str, c: Mapping[str, str]) -> list[str]:
    parts = []
    for t in ticks(top):
        x = x0 + t * scale
        parts.append(f'<path d="M{s.n(x)} {s.n(y1)}V{s.n(y2)}" stroke="{c["rule"]}" stroke-width=".8"/>')
        parts.append(s.text(x, y2 + 17, f"{t:g}", c["ink"], anchor="middle"))
    return [*parts, s.text(x0, y2 + 35, unit, c["ink2"])]


def _bar(x1: float, x2: float, y: float, kind: str, c: Mapping[str, str]) -> str:
    fill = {"add": c["rule"], "take": c["ground"], "sum": c["ink"]}[kind]
    dash = ' stroke-dasharray="3 2"' if kind == "take" else ""
    return (f'<rect x="{s.n(min(x1, x2))}" y="{s.n(y)}" width="{s.n(max(abs(x2 - x1), 0.8))}" height="{BAR}" fill="{fill}" '
            f'stroke="{c["ink"]}" stroke-width="1.3"{dash}/>')


def margins(*runs: Sequence[Step]) -> tuple[float, float]:
    """Room for the names at the left and the words at the right that serves all these runs."""
    steps = [step for run in runs for step in run]
    return (max([s.width(step.name, SIZE) for step in steps] + [0.0]) + 10,
            max([s.width(s.said(step.shown), SIZE) for step in steps] + [0.0]) + 12)


def waterfall(steps: Sequence[Step], title: str, subtitle: str, top: float, c: Mapping[str, str], wide: float = 520,
              room: tuple[float, float] | None = None) -> str:
    """Contributions in order: filled adds, hollow and dashed takes away, solid is the sum.

    `top` is the end of the scale in kVA; two pictures with one `top`, one width and one `room` have one scale.
    """
    names, said = room or margins(steps)
    scale = (wide - names - said) / (top or 1.0)
    foot = TOP + PITCH * len(steps)
    body = [s.text(names, 14, title, c["ink"], bold=True, size=15), s.text(names, 32, subtitle, c["ink2"])]
    body += _axis(top, names, scale, TOP - 4, foot, "kVA", c)
    words = []
    for i, (step, (a, b)) in enumerate(zip(steps, extents(steps), strict=True)):
        if step.kind == "gap":
            continue
        y, bold = TOP + PITCH * i, step.kind == "sum"
        body.append(_bar(names + a * scale, names + b * scale, y + 3, step.kind, c))
        body.append(s.text(names - 8, y + 16, step.name, c["ink"], bold=bold, anchor="end"))
        body.append(s.text(names + max(a, b) * scale + 7, y + 16, step.shown, c["ink"], bold=bold, over=c["ground"]))
        words.append(f"{step.name}: {s.said(step.shown)}")
    return s.sheet(wide, foot + 42, f"{title}, {subtitle}", "; ".join(words), body, c["ink"], SIZE)


class Share(NamedTuple):
    """One row of a ranking: `size` is its length, `whole` what it would be without the rules that reduce it."""

    name: str
    size: float
    whole: float
    shown: Words = ""


def ranking(rows: Sequence[Share], title: str, unit: str, c: Mapping[str, str], wide: float = 1040) -> str:
    """Rows by what they add: filled is what the calculation loses without the row, hollow is its nameplate."""
    names = max([s.width(r.name, SIZE) for r in rows] + [0.0]) + 10
    said = max([s.width(s.said(r.shown), SIZE) for r in rows] + [0.0]) + 14
    top = max([max(r.size, r.whole) for r in rows] + [0.0])
    scale = (wide - names - said) / (top or 1.0)
    foot = 8 + PITCH * len(rows)
    body = _axis(top, names, scale, 2, foot, unit, c)
    for i, r in enumerate(rows):
        y = 8 + PITCH * i
        body.append(_bar(names, names + r.whole * scale, y + 3, "take", c))
        body.append(_bar(names, names + r.size * scale, y + 3, "add", c))
        body.append(s.text(names - 8, y + 16, r.name, c["ink"], anchor="end"))
        body.append(s.text(names + max(r.size, r.whole) * scale + 7, y + 16, r.shown, c["ink"], over=c["ground"]))
    words = "; ".join(f"{r.name}: {s.said(r.shown)}" for r in rows)
    return s.sheet(wide, foot + 42, title, words, body, c["ink"], SIZE)
