"""Floor area of a dwelling as an edition counts it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.demand.records import Area

if TYPE_CHECKING:
    from curtilage.editions import Edition
    from curtilage.model.site import FloorArea, Structure


def areas(s: Structure, ed: Edition) -> tuple[Area, ...]:
    """The stated area of a structure, which holds its finished parts, and the parts beside it that the edition counts, too."""
    beside = [Area(f"{s.id}.areas.{a.id}", a.area) for a in s.areas if a.counted is None and counts(a, ed)]
    return (Area(s.id, s.area or 0.0), *beside)


def counts(a: FloorArea, ed: Edition) -> bool:
    """Whether an edition counts a part of a dwelling: garages by their year, open porches never, the unfinished if adaptable."""
    if a.kind == "garage":
        return bool(ed.garage_counts) and a.adaptable
    return a.kind == "unfinished" and a.adaptable
