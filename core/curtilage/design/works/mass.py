"""How much metal lies in each feeder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.mass import feeder_mass

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Every feeder whose wires are known, asked with the same record."""
    for f in d.estate.feeders:
        key = f"wire/{f.id}"
        if key in d.items:
            d.attempt(f"mass/{f.id}", d.asks[key]._replace(method=feeder_mass))
