"""Told runs for the contract of lines: every item of the demonstration estate, and the methods that only a question brings in."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from curtilage.calc.later import room
from curtilage.design import Design
from curtilage.editions import Edition, TellingEdition
from curtilage.model import load
from curtilage.values.told import Told

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"


def told() -> Iterator[Any]:
    estate = load(DEMO)
    for edition in ("nec2023", "nec2026"):
        d = Design(estate.model_copy(update={"edition": edition}))
        for key in d.items:
            yield d.tell(key)
    ed = TellingEdition(Edition.load("nec2023"))
    for continuous in (True, False):
        yield room.told(Told("minimum", 96.0, "A", "given"), Told("rating", 200.0, "A", "given"),
                        Told("added", 11500.0, "VA", "given"),
                        Told("volts", 240.0, "V", "given"), Told("continuous", continuous, "yes/no", "given"), ed)
