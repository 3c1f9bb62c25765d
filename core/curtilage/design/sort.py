"""Load rows sorted into the records of the load calculations. Nothing is computed here, so nothing needs telling."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

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
    Volt_amperes,
    Welder,
)
from curtilage.design.tree import counted
from curtilage.editions.shapes import number

if TYPE_CHECKING:
    from curtilage.model.estate import Estate
    from curtilage.model.loads import Load

HOMES = {
    "Row": {"": "loads.{id}", "flc_row": "loads.{id}.hp", "motor": "loads.{id}.category", "neutral": "loads.{id}.poles"},
    "Circuits": {"": "loads.{id}"},
    "Welder": {"": "loads.{id}"},
    "Site": {"": "loads.{id}", "receptacle": "loads.{id}.breaker"},
    "HeatPump": {"": "loads.{id}"},
    "Connected": {"": "loads.{id}"},
    "New": {"": "loads.{id}"},
    "Main": {"": "service.mains.{id}"},
    "Stretch": {"": "site_graph.trenches.{id}"},
    "Area": {"": "structures.{id}"},
    "Group": {"": "groups.{id}", "reasoned": "groups.{id}.reason"},
    "Manager": {"": "managers.{id}", "volts": "service.voltage", "vehicles_only": "managers.{id}.members"},
}
"""Where the fields of the sorted records were written, for told calculation."""
WHOLE_DUTY = 100.0
"""Duty cycle of a welder whose nameplate states none, percent."""
MOVES = ("motor", "heat_pump", "cooling", "air_handler")
"""Categories whose rows are motors, or driven by one, when the largest motor is looked for."""
Pick = Callable[[str], tuple[Row, ...]]


def row(r: Load) -> Row:
    """One row of the load list, as the load calculations take it."""
    turns = r.category in MOVES or bool(r.hp)
    return Row(
        r.id,
        r.va,
        float(r.qty),
        r.volts,
        number(r.hp) if r.hp else 0.0,
        r.hp if r.category == "motor" else "",
        turns,
        r.continuous,
        r.poles == 1 or r.category in ("cooking", "dryer"),
        0.0,
        r.pf,
    )


class Sorter:
    """Sorts the rows of one branch; groups and managers take their members out of the lists.

    A manager holds its members together. On a branch that does not have all of them it limits nothing by itself, so
    there its members count as what they are.
    """

    def __init__(self, estate: Estate, rows: Iterable[Load]) -> None:
        self.estate, self.rows = estate, tuple(rows)
        here = {r.id for r in self.rows}
        elsewhere = {r.manager for r in counted(estate.loads) if r.manager and r.id not in here}
        self.managing = {m.id for m in estate.managers if m.id not in elsewhere}
        self.groups_known = {g.id: g for g in estate.groups if g.applied}
        self.volts = estate.service.voltage.line

    def pick(self, *categories: str, hp: bool | None = None) -> tuple[Row, ...]:
        """Rows of some categories that stand neither in a group nor with a manager; with or without horsepower."""
        return tuple(
            row(r)
            for r in self.rows
            if r.category in categories
            and r.group not in self.groups_known
            and r.manager not in self.managing
            and (hp is None or bool(r.hp) == hp)
        )

    def circuits(self, category: str) -> tuple[Circuits, ...]:
        return tuple(Circuits(r.id, float(r.circuits)) for r in self.rows if r.category == category)

    def groups(self, appliances: bool | None = None) -> tuple[Group, ...]:
        out = []
        for g in self.groups_known.values():
            members = [r for r in self.rows if r.group == g.id]
            alike = bool(members) and all(r.category == "appliance" for r in members)
            if members and (appliances is None or alike == appliances):
                out.append(Group(g.id, bool(g.reason), tuple(map(row, members))))
        return tuple(out)

    def managers(self) -> tuple[Manager, ...]:
        out = []
        for m in self.estate.managers:
            if m.id not in self.managing:
                continue
            members = [r for r in self.rows if r.manager == m.id and r.group not in self.groups_known]
            if members:
                out.append(
                    Manager(
                        m.id,
                        m.set_point,
                        self.volts,
                        _proved(m.listed),
                        _proved(m.fail_safe),
                        _proved(m.locked),
                        all(r.category == "vehicle" for r in members),
                        tuple(map(row, members)),
                    )
                )
        return tuple(out)

    def climate(self) -> Climate:
        return Climate(
            tuple(HeatPump(r.id, r) for r in self.pick("heat_pump")),
            self.pick("supplementary_heat"),
            self.pick("cooling"),
            self.pick("heat"),
            self.pick("zone_heat"),
            (),
            self.pick("air_handler"),
        )

    def dwelling(self, areas: tuple[Area, ...]) -> Dwelling:
        """A whole dwelling with its floor areas, or with none a part of one by its listed rows."""
        return Dwelling(
            self.volts,
            areas,
            () if areas else self.pick("general", "lighting", "receptacle"),
            self.circuits("small_appliance"),
            self.circuits("laundry"),
            self.pick("appliance"),
            self.groups(True),
            self.pick("cooking"),
            self.pick("dryer"),
            self.climate(),
            (*self.pick("motor"), *self.pick(*SUNDRY, hp=True)),
            self.pick("vehicle"),
            self.managers(),
            self.pick(*SUNDRY, "welder", "rv", hp=False),
            self.groups(False),
        )

    def other(self) -> Other:
        """A structure that is no dwelling."""
        return Other(
            self.volts,
            self.pick("lighting", "general"),
            self.pick("receptacle"),
            self.pick(*SUNDRY, "appliance", "small_appliance", "laundry", "cooking", "dryer", hp=False),
            self.climate(),
            (*self.pick("motor"), *self.pick(*SUNDRY, "appliance", hp=True)),
            self.pick("vehicle"),
            self.managers(),
            self.groups(),
            tuple(Welder(r.id, r.va, WHOLE_DUTY, volts=r.volts) for r in self.rows if r.category == "welder" and not r.group),
            tuple(
                Site(r.id, r.breaker or 0.0, float(r.qty))
                for r in self.rows
                if r.category == "rv" and r.manager not in self.managing
            ),
        )

    def kinds(self, name: str) -> Kinds:
        """Rows by kind, for the expected peak. Groups are taken apart: the model has its own coincidence."""
        free = [r for r in self.rows if r.manager not in self.managing]

        def some(test: Callable[[Load], bool]) -> tuple[Row, ...]:
            return tuple(row(r) for r in free if test(r))

        return Kinds(
            name,
            lighting=some(_is_lighting),
            small=some(_is_small),
            motors=some(
                lambda r: (
                    r.category in ("motor", "air_handler", "welder")
                    or (r.category in ("pool", "spa", "appliance") and bool(r.hp))
                )
            ),
            heaters=some(lambda r: r.category in ("cooking", "dryer") or _heats_water(r)),
            winter=some(lambda r: r.category in ("supplementary_heat", "zone_heat", "heat")),
            winter_pumps=some(lambda r: r.category == "heat_pump"),
            summer=some(lambda r: r.category in ("heat_pump", "cooling")),
            vehicles=some(lambda r: r.category == "vehicle"),
            managers=self.managers(),
            constant=some(lambda r: r.category == "technology" or (r.category in ("pool", "spa") and not r.hp)),
        )


def _is_lighting(r: Load) -> bool:
    return r.category in ("lighting", "outdoor_lighting") or (r.category == "general" and "light" in r.kind)


def _heats_water(r: Load) -> bool:
    return r.category == "appliance" and "water" in r.kind and not r.hp


def _is_small(r: Load) -> bool:
    plain = (r.category == "general" and "light" not in r.kind) or r.category in (
        "receptacle",
        "small_appliance",
        "laundry",
        "rv",
    )
    return plain or (r.category == "appliance" and not r.hp and "water" not in r.kind)


SUNDRY = ("pool", "spa", "outdoor_lighting", "technology")
"""Categories that count at nameplate, with a motor among the motors."""


def _proved(proof: object) -> bool:
    return bool(getattr(proof, "by", "") and getattr(proof, "date", None))


def parts(values: Iterable[tuple[str, float]]) -> tuple[Volt_amperes, ...]:
    """Parts of a sum."""
    return tuple(Volt_amperes(name, va) for name, va in values)
