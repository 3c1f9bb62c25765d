"""Told runs of temporary power."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.temporary.fallback import fallback, heat_value, sound_at
from curtilage.calc.temporary.load import (
    all_of,
    continuous_of,
    face,
    heat_of,
    held,
    neutral_of,
    season_load,
    tool_of,
    tools_of,
)
from curtilage.calc.temporary.records import Carried, Face, Fallback, Held, Part, Season, Sound
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

PARTS = (Part("saws", 1440.0, 6.0, 120.0, "tool", False), Part("heat", 4000.0, 2.0, 240.0, "heater", False),
         Part("dry", 900.0, 3.0, 120.0, "drying", False), Part("pump", 1200.0, 1.0, 120.0, "pump", True))
SEASON = Season("TB", 240.0, 0.5, PARTS)
FALLBACK = Fallback("site", 70.0, 40.0, 30.0, 50.0, (Carried("TMP", 24_180.0),), "natural gas", 0.0, 0.0)
FACE = Face("TB", 2.97, 1440.0, 120.0, 0.95, 75.0, "10", 5.0)
SOUND = Sound("set", 95.0, 23.0, 328.0, 75.0)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    yield season_load.told(Given(SEASON, "temporary"), ed)
    V = Told("V", 240.0, "V", "given")
    for p in PARTS:
        x = Given(p, f"temporary.loads.{p.id}")
        for f in (all_of, heat_of, tools_of, tool_of, continuous_of):
            yield f.told(x)
        yield neutral_of.told(x, V)
    yield held.told(Given(Held("TMP", 119.2, 200.0), "temporary.services.TMP"))
    yield face.told(Given(FACE, "temporary.boards.TB"), ed.view("cu-pvc"))
    for x in (FALLBACK, FALLBACK._replace(heating=830.0, use=13.0), FALLBACK._replace(fuel="propane")):
        yield fallback.told(Given(x, "temporary.fallback"), ed)
        yield heat_value.told(Given(x, "temporary.fallback"), ed)
    yield sound_at.told(Given(SOUND, "temporary.fallback"))
