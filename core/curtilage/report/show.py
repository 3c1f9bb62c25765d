"""How objects of the kit show themselves in a notebook: a design, a told number, checks. Plain HTML with its own look."""
from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from curtilage.look import style
from curtilage.look.components import results as results_of
from curtilage.look.marks import definitions
from curtilage.look.text import Markup
from curtilage.report import content, html, loads, parts, results
from curtilage.report.working import fields

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.values.check import Check
    from curtilage.values.told import Told


def alone(body: str) -> Markup:
    """A piece of a page that carries the look with it, for a notebook that has no style sheet of ours."""
    return Markup(f'<div class="k-alone"><style>{style.for_cells()}</style>{definitions()}{body}</div>')


def told(x: Told) -> Markup:
    """One told number: its working, down to the numbers of other items."""
    rows = parts.working_rows({"": x})
    return alone(f'<table class="k-table k-worktable">{parts.HEAD}<tbody>{rows}</tbody></table>')


def record(x: object) -> Markup:
    """A told record: the working of all its numbers, each line once."""
    return alone(f'<table class="k-table k-worktable">{parts.HEAD}<tbody>{parts.working_rows(fields(x))}</tbody></table>')


def checks(found: Iterable[Check]) -> Markup:
    """Checks as a table, loud outcomes first."""
    return alone(parts.checks(found))


def design(d: Design) -> Markup:
    """A design at a glance: its first results, what needs a person, its loads."""
    need, _ = content.loud(d)
    loud = parts.checks(need) if need else ""
    return alone(results_of(results.first(d)) + loud + parts.table(loads.summary(d)))


def attach() -> None:
    """Let a design and a told number show themselves wherever they end a cell, in Jupyter and in marimo alike."""
    from curtilage.design.design import Design as Kind
    from curtilage.values.told import Told as Number
    setattr(Kind, "_repr_html_", lambda d: str(design(d)))          # noqa: B010  the class below does not know of pages
    setattr(Number, "_repr_html_", lambda x: str(told(x)))          # noqa: B010


# ------------------------------------------------------------------------------------------------- pieces of a notebook
def working(d: Design, tag: str) -> Markup:
    """The working of one number, opened."""
    return Markup(html.fragment(d, tag))


def table(made: content.Table) -> Markup:
    """One of the tables of the report."""
    return Markup(parts.table(made))
