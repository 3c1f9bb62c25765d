"""Told runs for the contract of lines: every item of the demonstration estate, and the methods that only a question brings in."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from curtilage.calc.later import drop_with, room
from curtilage.calc.metering import Added, New, Shown, added_load, metered_peak
from curtilage.calc.together import NeutralPart, NeutralParts, Whole, neutral_together, within_whole
from curtilage.design import Design
from curtilage.editions import Edition, TellingEdition
from curtilage.model import load
from curtilage.values.given import Given
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
    for more in (0.0, 11500.0):
        run = (("load", 144.5, "A"), ("added", more, "VA"), ("volts", 240.0, "V"), ("sets", 1.0, "count"),
               ("size", "500", "size"), ("length", 410.0, "ft"), ("pf", 0.95, ""), ("most", 3.0, "%"))
        yield drop_with.told(*(Told(*given, "given") for given in run), ed.view("al-pvc"))
    yield metered_peak.told(Given(Shown("metered", 96.0, 0.95), "metered"))
    yield added_load.told(Given(Added("metered", (New("L900", 9600.0), New("L901", 11500.0))), "loads"))
    parts = (NeutralPart("A", 21_000.0, 3000.0), NeutralPart("B", 40_000.0, 0.0))
    for wye, two_of_wye in ((False, False), (True, False), (False, True)):
        yield neutral_together.told(Given(NeutralParts("neutral", parts, 240.0, wye, two_of_wye), "neutral"), ed)
    for whole in (0.0, 20_000.0, 90_000.0):
        yield within_whole.told(Given(Whole("MH-K", 31_000.0, 33_000.0, whole, 240.0), "demand"))
