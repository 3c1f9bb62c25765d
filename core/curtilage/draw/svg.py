"""What every drawing needs: widths of text before it is drawn, escaped text, links to workings, a paper that collects parts."""
from __future__ import annotations

from collections.abc import Iterable
from html import escape
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


def as_text(x: str | Text) -> Text:
    return x if isinstance(x, Text) else Text(x)


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


def text(x: float, y: float, t: str | Text, ink: str, bold: bool = False, anchor: str = "", size: float = 0) -> str:
    """A line of text at its base line, escaped; a tagged one is a link."""
    t = as_text(t)
    extra = ' font-weight="700"' if bold else ""
    extra += f' text-anchor="{anchor}"' if anchor else ""
    extra += f' font-size="{n(size)}"' if size else ""
    body = f'<text x="{n(x)}" y="{n(y)}" fill="{ink}" stroke="none"{extra}>{escape(t.text)}</text>'
    if not t.tag:
        return body
    return f'<a class="k-num" data-tag="{escape(t.tag)}" href="#w/{escape(t.tag)}">{body}</a>'


def sheet(w: float, h: float, title: str, words: str, body: Iterable[str], ink: str, size: float = 12.5,
          kind: str = "k-pic") -> str:
    """A whole drawing: title and description inside for readers who cannot see it."""
    return (f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" viewBox="0 0 {n(w)} {n(h)}" width="{n(w)}" height="{n(h)}" '
            f'role="img" aria-label="{escape(title)}"><title>{escape(title)}</title><desc>{escape(words)}</desc>'
            f'<g fill="none" stroke="{ink}" stroke-width="1.7" color="{ink}" font-family="{FACES}" font-size="{n(size)}">'
            f'{"".join(body)}</g></svg>')
