"""One row left out of a load: which rows matter most to a branch, and what each of them adds, told."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from curtilage.calc.added import added
from curtilage.calc.demand.contributions import without
from curtilage.design.sort import HOMES
from curtilage.design.top import Top, branch_rows, top_rows
from curtilage.editions import TellingEdition
from curtilage.errors import refuse
from curtilage.values.given import Given
from curtilage.values.told import Told, item

if TYPE_CHECKING:
    from curtilage.design.design import Design


def matter_most(d: Design, branch: str, most: int = 10) -> tuple[Top, ...]:
    """The rows that matter most to the load of a feeder, a main or the service, by the method chosen for it, largest first."""
    if branch not in d.tree.mains and branch not in d.tree.branches:
        return top_rows(d, most)
    return tuple(sorted(branch_rows(d, branch), key=lambda t: (-t.marginal, t.id))[:most])


def added_tag(row: Top) -> str:
    """The name of what a row adds, where its working stands on a page."""
    return f"without/{row.id}/{row.key}/adds"


def told_named(d: Design, name: str) -> Told:
    """What a row adds, by the name that `added_tag` gives it."""
    _, row, rest = name.split("/", 2)
    return told_added(d, rest.rpartition("/")[0], row)


def told_added(d: Design, key: str, row: str) -> Told:
    """What a row, group or manager adds to the total of one load calculation, with everything behind both totals."""
    tag = f"{key}/total"
    adds: Any = added
    found: Told = adds.told(item(d.told(tag), tag), told_without(d, key, row), place=f"{key} without {row}")
    return found


def told_without(d: Design, key: str, row: str) -> Told:
    """The total of one load calculation with a row left out."""
    ask = d.asks[key]
    less = next((record for name, record in without(ask.record) if name == row), None)
    if less is None or ask.tags or ask.more:
        refuse(f"{key} without {row}", "there is no such row in this calculation")
    method: Any = ask.method
    given = Given(less, ask.path, d.where, None, ask.paths, HOMES)
    found: Told = method.told(given, *ask.besides, TellingEdition(d.ed), place=f"{key} without {row}").total
    return replace(found, symbol="S_without")
