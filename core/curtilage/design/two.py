"""Two dwellings on one feeder or main, by the rule for two: the standard method beside two readings of three units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.demand.multifamily import two_dwellings
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.calc.demand.records import Dwelling
    from curtilage.design.design import Design


def two(d: Design, name: str, both: Dwelling, units: tuple[Dwelling, ...]) -> None:
    """Ask for the comparison; it sizes nothing, since its reading is disputed."""
    first, second = units
    d.ask(
        f"demand/{name}/two",
        Ask(two_dwellings, first, f"demand.{name}", "ed", {"volts": "service.voltage"}, {}, (), (second, both)),
    )
