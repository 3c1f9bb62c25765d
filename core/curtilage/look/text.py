"""Escaping, once: every text argument of a component goes through `e`, unless it was made by a component."""
from __future__ import annotations

from html import escape

MINUS, TIMES, DOT, ROOT = "\u2212", "\u00d7", "\u00b7", "\u221a"
AT_MOST, AT_LEAST, UNEQUAL = "\u2264", "\u2265", "\u2260"


class Markup(str):
    """HTML that a component made; it is not escaped again. A notebook shows it as it looks, marimo and Jupyter alike."""

    __slots__ = ()

    def _repr_html_(self) -> str:
        return str(self)


def e(text: object) -> str:
    """Text of a user's file, made harmless; markup made here passes as it is."""
    return text if isinstance(text, Markup) else escape(str(text))


def number(tag: str, shown: str) -> Markup:
    """A result on a page: a link to its working, which carries its tag."""
    return Markup(f'<a class="k-num" data-tag="{escape(tag)}" href="#w/{escape(tag)}">{escape(shown)}</a>')


def class_of(kind: str) -> str:
    """The style class of an outcome."""
    return kind.replace(" ", "-")
