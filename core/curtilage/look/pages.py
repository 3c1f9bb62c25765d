"""What every notebook page does first: the head, the theme for the reader's light or dark, a picture with its words.

marimo is loaded when a page is drawn. Outside a running notebook everything still gives HTML that shows itself.
"""
from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from importlib import import_module
from importlib.util import find_spec
from typing import Any

from curtilage.look import components as k
from curtilage.look import theme
from curtilage.look.cautions import cautions
from curtilage.look.tables import figure_words
from curtilage.look.text import Markup


def mode() -> str:
    """The reader's light or dark; light where nobody says."""
    if find_spec("marimo") is None:
        return "light"
    mo: Any = import_module("marimo")
    return "dark" if mo.app_meta().theme == "dark" else "light"


def show(markup: str) -> Any:
    """HTML made by components, as an object that a notebook shows."""
    return import_module("marimo").Html(str(markup))


def caution(ref: str, **filled: object) -> Markup:
    """One caution by its number ("C30"), with its places filled."""
    found = cautions()[ref]
    return k.caution(found.strength, found.text.format(**filled), ref)


def standing(d: Any) -> Markup:
    """The cautions that stand on every page of this design."""
    first = caution("C07") if d.estate.demonstration else Markup("")
    return Markup(first + caution("C01"))


def head(d: Any, question: str, snapshot: str = "", stale: Sequence[str] = ()) -> Markup:
    """Sheet head of a page on a design, with the warnings that stand on every page; switches the chart theme on."""
    if find_spec("altair") is not None:
        theme.enable(mode())
    e = d.estate
    missing = sum(c.outcome == "not evaluated" for c in d.checks)
    date = e.prepared.date.isoformat() if e.prepared.date else ""
    stamp = ", ".join(t for t in (snapshot, date) if t)
    named = getattr(d, "variant", "")
    variant = named if isinstance(named, str) and named else "base"
    amended = f"amendments: {e.amendments or 'none stated'}"
    made = k.sheet_head(e.name, variant, question, d.ed.title, amended, d.shares, stamp, stale, missing)
    return Markup(made + standing(d))


def picture(chart: Any, number: str, says: str, rows: Sequence[Mapping[str, object]] = (), numeric: Collection[str] = ()) -> Any:
    """A chart, or a drawing as SVG text, with its sentence and its numbers."""
    mo: Any = import_module("marimo")
    drawn = mo.Html(f'<div class="k-draw">{chart}</div>') if isinstance(chart, str) else chart
    return mo.vstack([drawn, mo.Html(figure_words(number, says, rows, numeric))], gap=0.25)
