"""Random records for the load calculations: whole volt-amperes, few units, every flag."""
from __future__ import annotations

from typing import Any

from curtilage.calc.demand.records import (
    Area,
    Circuits,
    Climate,
    Dwelling,
    Group,
    HeatPump,
    Kinds,
    Manager,
    Other,
    Row,
    Site,
    Welder,
)
from hypothesis import strategies as st

EDITIONS = st.sampled_from(("nec2020", "nec2023", "nec2026"))
POWER = st.integers(50, 20_000).map(float)
LABELS = ("1/6", "1/4", "1/3", "1/2", "3/4", "1", "1-1/2", "2", "3", "5", "7-1/2", "10")


@st.composite
def row(draw: Any, va: Any = POWER, units: int = 3, table: bool = False) -> Row:
    """A row of the load list; with `table`, now and then a motor from the tables."""
    label = draw(st.sampled_from(("", "", *LABELS))) if table else ""
    yes = st.booleans()
    return Row(draw(st.sampled_from("abcdefgh")), draw(va), float(draw(st.integers(1, units))),
               draw(st.sampled_from((120.0, 208.0, 240.0))), draw(st.sampled_from((0.0, 0.125, 0.25, 0.5, 3.0))), label,
               bool(label) or draw(yes), draw(yes), draw(yes), draw(st.sampled_from((0.0, 0.3, 1.0))),
               draw(st.sampled_from((0.7, 0.9, 1.0))))


def rows(most: int = 4, **how: Any) -> Any:
    return st.lists(row(**how), max_size=most).map(tuple)


COOKING = rows(5, va=st.sampled_from([1000.0, 1750.0, 1751.0, 2400.0, 3499.0, 3500.0, 5100.0, 8750.0, 8751.0, 11_000.0, 12_000.0,
                                      12_499.0, 12_500.0, 13_500.0, 18_000.0, 27_000.0]), units=1)
GROUPS = st.lists(st.builds(Group, st.sampled_from("gh"), st.booleans(), rows(3, table=True)), max_size=2).map(tuple)
MANAGERS = st.lists(st.builds(Manager, st.sampled_from("mn"), st.integers(1, 200).map(float), st.just(240.0), st.booleans(),
                              st.booleans(), st.booleans(), st.booleans(), rows(3), st.sampled_from((0.0, 3000.0))),
                    max_size=2).map(tuple)
PUMPS = st.lists(st.builds(HeatPump, st.sampled_from("pq"), row(), rows(1)), max_size=2).map(tuple)
CLIMATES = st.builds(Climate, PUMPS, rows(2), rows(2), rows(2), rows(2, units=5), rows(1), rows(2))
CIRCUITS = st.lists(st.builds(Circuits, st.sampled_from("st"), st.integers(1, 6).map(float)), max_size=2).map(tuple)
AREAS = st.lists(st.builds(Area, st.sampled_from("uv"), st.integers(1, 45_000).map(float)), max_size=2).map(tuple)
DWELLINGS = st.builds(
    Dwelling, volts=st.just(240.0), areas=AREAS, general=rows(2), small_appliance=CIRCUITS, laundry=CIRCUITS,
    appliances=rows(5, table=True), appliance_groups=GROUPS, cooking=COOKING, dryers=rows(2, units=6), climate=CLIMATES,
    motors=rows(3, table=True), vehicles=rows(2), managers=MANAGERS, loads=rows(3), groups=GROUPS, vehicles_apart=st.booleans())
WELDERS = st.lists(st.builds(Welder, st.sampled_from("wx"), POWER, st.integers(1, 100).map(float), st.just(240.0), st.booleans(),
                             st.sampled_from((0.0, 0.0, 20.0))), max_size=6).map(tuple)
SITES = st.lists(st.builds(Site, st.just("s"), st.sampled_from((20.0, 30.0, 50.0)), st.integers(1, 3).map(float)),
                 max_size=2).map(tuple)
OTHERS = st.builds(Other, volts=st.just(240.0), lighting=rows(3), receptacles=rows(3, units=60), loads=rows(3, table=True),
                   climate=CLIMATES, motors=rows(3, table=True), vehicles=rows(2), managers=MANAGERS, groups=GROUPS,
                   welders=WELDERS, rv=SITES)
KINDS = st.builds(Kinds, st.sampled_from("kl"), rows(2), rows(2), rows(2), rows(2), rows(2), rows(2), rows(2), rows(2), rows(2),
                  MANAGERS, rows(2))
