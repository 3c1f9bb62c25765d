"""What every drawing needs: widths of text before it is drawn, escaped text, links to workings, a paper that collects parts."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from html import escape
import math
from typing import NamedTuple

# Advance widths in 1/100 em of the characters 32 to 126, bold: the widest of three faces a reader's machine may choose
# (PT Sans, a Helvetica-like face, DejaVu Sans Condensed), so that an estimate errs on the wide side.
_WIDTHS = ("3242487663918228424248763538354163636363636363636363363676767662997373737567627876345673629076"
           "786778736762747099706766424342765645616556656240656531316031946562656545564465598459595365336576")
FACES = "PT Sans, Segoe UI, Helvetica Neue, Arial, DejaVu Sans Condensed, Liberation Sans, sans-serif"


class Text(NamedTuple):
    """A line of text; with a tag it is the number of a result and opens its working."""

    text: str
    tag: str = ""


Words = str | Text | tuple[Text, ...]
"""A line: plain, a number, or several of them that follow one another."""


def parts(line: Words) -> tuple[Text, ...]:
    """A line as its parts."""
    if isinstance(line, Text):
        return (line,)
    return (Text(line),) if isinstance(line, str) else line


def said(line: Words) -> str:
    """What a line says."""
    return "".join(p.text for p in parts(line))


@lru_cache(maxsize=4096)
def width(s: str, size: float = 12.5) -> float:
    """Upper estimate of the drawn width of one line, px."""
    em = sum(int(_WIDTHS[2 * (ord(ch) - 32) : 2 * (ord(ch) - 32) + 2]) if 32 <= ord(ch) < 127 else 95 for ch in s)
    return em * size / 100


def wrap(s: str, limit: float, size: float = 12.5) -> list[str]:
    """Words of a line put into as many lines as keep to the width; a longer word stands alone."""
    lines = [""]
    for word in s.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width(longer, size) > limit:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines


def n(x: float) -> str:
    """A place on the sheet, short: one decimal, no trailing zero."""
    return f"{x:.1f}".removesuffix(".0")


def _linked(t: Text, inner: str) -> str:
    return f'<a class="k-num" data-tag="{escape(t.tag)}" href="#w/{escape(t.tag)}">{inner}</a>' if t.tag else inner


def text(x: float, y: float, line: Words, ink: str, bold: bool = False, anchor: str = "", size: float = 0,
         over: str = "") -> str:
    """A line of text at its base line, escaped; its numbers are links. `over` is the ground that keeps lines off it."""
    extra = ' font-weight="700"' if bold else ""
    extra += f' text-anchor="{anchor}"' if anchor else ""
    extra += f' font-size="{n(size)}"' if size else ""
    edge = f'stroke="{over}" stroke-width="4" paint-order="stroke"' if over else 'stroke="none"'
    opening = f'<text x="{n(x)}" y="{n(y)}" fill="{ink}" {edge}{extra}>'
    found = parts(line)
    if len(found) == 1:
        return _linked(found[0], f"{opening}{escape(found[0].text)}</text>")
    return f"{opening}{''.join(_linked(p, f'<tspan>{escape(p.text)}</tspan>') for p in found)}</text>"


# ------------------------------------------------------------------------------------------- finding a place for words
Box = tuple[float, float, float, float]


def box(x: float, y: float, words: str, anchor: str = "start", size: float = 12.5) -> Box:
    """The room that a line takes, with its base line at y."""
    w = width(words, size)
    left = x - {"start": 0.0, "middle": w / 2, "end": w}[anchor]
    return left - 2, y - size, left + w + 2, y + 4


def along(a: tuple[float, float], b: tuple[float, float], half: float = 3) -> list[Box]:
    """A straight line as a chain of small boxes, so that words keep off it."""
    steps = max(1, int(math.dist(a, b) / 8))
    return [(x - half, y - half, x + half, y + half) for i in range(steps + 1)
            for x, y in [(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps)]]


def meets(a: Box, taken: Iterable[Box]) -> int:
    """How many of the boxes that are taken this one meets."""
    return sum(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for b in taken)


Place = tuple[float, float, str]
"""A place for a line: x, base line, anchor."""


class Room:
    """What a sheet has room for: lines and marks that words had better keep off, and words that no other may cover."""

    def __init__(self, sheet: Box, lines: Iterable[Box] = ()) -> None:
        self.sheet, self.words = sheet, list[Box]()
        self.lines: dict[tuple[int, int], list[Box]] = {}                 # by the fields of a grid that they touch
        for b in lines:
            for field in _fields(b):
                self.lines.setdefault(field, []).append(b)

    def near(self, b: Box) -> set[Box]:
        """Lines in the fields that a box touches."""
        return {line for field in _fields(b) for line in self.lines.get(field, ())}

    def put(self, options: Sequence[Place], words: str, size: float) -> Place:
        """The best of some places for words, near ones first; its room is taken."""
        def cost(i: int) -> float:
            b, s = box(*options[i][:2], words, options[i][2], size), self.sheet
            off = b[0] < s[0] or b[1] < s[1] or b[2] > s[2] or b[3] > s[3]
            return meets(b, self.near(b)) + 15 * meets(b, self.words) + 50 * off + 0.4 * i
        found = options[min(range(len(options)), key=cost)]
        self.words.append(box(*found[:2], words, found[2], size))
        return found


GRID = 48      # px


def _fields(b: Box) -> list[tuple[int, int]]:
    """The fields of a grid that a box touches."""
    return [(i, j) for i in range(int(b[0] // GRID), int(b[2] // GRID) + 1)
            for j in range(int(b[1] // GRID), int(b[3] // GRID) + 1)]


def around(x: float, y: float) -> list[Place]:
    """Places around a point, near ones first: right, left, above, below, then farther out."""
    near = [(10, 4, "start"), (-10, 4, "end"), (0, -11, "middle"), (0, 21, "middle")]
    for out in (10, 20, 32, 46):
        near += [(out, -out, "start"), (out, out + 8, "start"), (-out, -out, "end"), (-out, out + 8, "end"),
                 (0, -out - 4, "middle"), (0, out + 14, "middle")]
    return [(x + dx, y + dy, anchor) for dx, dy, anchor in near]


def sheet(w: float, h: float, title: str, words: str, body: Iterable[str], ink: str, size: float = 12.5,
          kind: str = "k-pic", least: float = 0) -> str:
    """A whole drawing: title and description inside for readers who cannot see it. It is never shown narrower than `least` px."""
    narrow = f' style="min-width:{n(least)}px"' if least else ""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" viewBox="0 0 {n(w)} {n(h)}" width="{n(w)}" height="{n(h)}" '
            f'role="img" aria-label="{escape(title)}"{narrow}><title>{escape(title)}</title><desc>{escape(words)}</desc>'
            f'<g fill="none" stroke="{ink}" stroke-width="1.7" color="{ink}" font-family="{FACES}" font-size="{n(size)}">'
            f'{"".join(body)}</g></svg>')
