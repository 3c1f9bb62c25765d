"""Load rows sorted into the records of the load calculations. Nothing is computed here, so nothing needs telling."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from functools import cache
from itertools import chain
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
from curtilage.editions.shapes import number

if TYPE_CHECKING:
    from curtilage.model.estate import Estate
    from curtilage.model.loads import Load

HOMES = {
    "Row": {"": "loads.{id}", "flc_row": "loads.{id}.hp", "motor": "loads.{id}.category", "neutral": "loads.{id}.poles"},
    "Circuit": {"motor": "loads.{id}.category", "cords": "loads.{id}.category"},
    "Circuits": {"": "loads.{id}"},
    "Welder": {"": "loads.{id}"},
    "Site": {"": "loads.{id}", "receptacle": "loads.{id}.breaker"},
    "HeatPump": {"": "loads.{id}"},
    "Connected": {"": "loads.{id}"},
    "New": {"": "loads.{id}"},
    "Main": {"": "service.mains.{id}"},
    "Stretch": {"": "site_graph.trenches.{id}"},
    "PullStep": {"": "{id}", "bend": "{id}.kind"},
    "Leg": {"": "framing.{id}"},
    "BoxEntry": {"trade": "{id}"},
    "BoxPair": {"": "boxes.{id}", "one": "boxes.{id}.raceway", "other": "boxes.{id}.to"},
    "BoxCable": {"": "device_boxes.{id}"},
    "BoxYoke": {"": "device_boxes.{id}"},
    "Terminal": {"": "{id}", "holds": "{id}.sets", "wires": "{id}.sets"},
    "PulledCable": {"": "raceways.{id}"},
    "Area": {"": "structures.{id}"},
    "Group": {"": "groups.{id}", "reasoned": "groups.{id}.reason"},
    "Beyond": {"": "{id}"},
    "Pair": {"steps": "{id}"},
    "Bond": {"bonded": "{id}"},
    "OnLegs": {"": "loads.{id}", "on_1": "loads.{id}.poles", "on_2": "loads.{id}.poles", "across": "loads.{id}.volts"},
    "Manager": {"": "managers.{id}", "volts": "service.voltage", "vehicles_only": "managers.{id}", "floor": "managers.{id}"},
}
"""Where the fields of the sorted records were written, for told calculation."""
WHOLE_DUTY = 100.0
"""Duty cycle of a welder whose nameplate states none, percent."""
MOVES = ("motor", "heat_pump", "cooling", "air_handler")
"""Categories whose rows are motors, or driven by one, when the largest motor is looked for."""


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


class Known:
    """What sorting must know of a whole estate, found once: groups in force, managers, how many rows each manager holds."""

    def __init__(self, estate: Estate, rows: Iterable[Load]) -> None:
        self.volts = estate.service.voltage.line
        self.groups = {g.id: g for g in estate.groups if g.applied}
        self.managers = {m.id: m for m in estate.managers}
        self.vehicles_apart = estate.policy.vehicle_supply == "outside"
        self.members = Counter(r.manager for r in rows if r.manager)
        self._rows: dict[str, tuple[Load, Row]] = {}

    def row(self, r: Load) -> Row:
        """The record of a row, made once."""
        found = self._rows.get(r.id)
        if found is None or found[0] is not r:
            found = self._rows[r.id] = r, row(r)
        return found[1]


class Sorter:
    """Sorts the rows of one branch; groups and managers take their members out of the lists.

    A manager holds its members together. On a branch that does not have all of them it limits nothing by itself, so
    there its members count as what they are.
    """

    def __init__(self, known: Known, rows: Iterable[Load]) -> None:
        self.known, self.rows, self.volts = known, tuple(rows), known.volts
        here = Counter(r.manager for r in self.rows if r.manager)
        managing = {m for m, n in here.items() if m in known.managers and n == known.members[m]}
        self.grouped: dict[str, list[Load]] = {}
        self.managed: dict[str, list[Load]] = {}
        self.unmanaged: list[Load] = []
        self.free: dict[tuple[str, bool], list[tuple[int, Load]]] = {}
        for i, r in enumerate(self.rows):
            if r.manager not in managing:
                self.unmanaged.append(r)
            if r.group in known.groups:
                self.grouped.setdefault(r.group, []).append(r)
            elif r.manager in managing:
                self.managed.setdefault(r.manager, []).append(r)
            else:
                self.free.setdefault((r.category, bool(r.hp)), []).append((i, r))

    def pick(self, *categories: str, hp: bool | None = None) -> tuple[Row, ...]:
        """Rows of some categories that stand neither in a group nor with a manager; with or without horsepower."""
        sorts = (False, True) if hp is None else (hp,)
        lists = [x for c in categories for h in sorts if (x := self.free.get((c, h)))]
        found = lists[0] if len(lists) == 1 else sorted(chain.from_iterable(lists))
        return tuple([self.known.row(r) for _, r in found])

    def circuits(self, category: str) -> tuple[Circuits, ...]:
        return tuple(Circuits(r.id, float(r.circuits)) for r in self.rows if r.category == category)

    def groups(self, appliances: bool | None = None) -> tuple[Group, ...]:
        out = []
        for name in sorted(self.grouped, key=list(self.known.groups).index):
            members = self.grouped[name]
            if appliances is None or all(r.category == "appliance" for r in members) == appliances:
                out.append(Group(name, bool(self.known.groups[name].reason), tuple(map(self.known.row, members))))
        return tuple(out)

    def managers(self) -> tuple[Manager, ...]:
        out = []
        for name in sorted(self.managed, key=list(self.known.managers).index):
            m, members = self.known.managers[name], self.managed[name]
            proofs = _proved(m.listed), _proved(m.fail_safe), _proved(m.locked)
            vehicles = all(r.category == "vehicle" for r in members)
            out.append(Manager(name, m.set_point, self.volts, *proofs, vehicles, tuple(map(self.known.row, members))))
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
            self.known.vehicles_apart,
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
            tuple(Site(r.id, r.breaker or 0.0, float(r.qty)) for r in self.unmanaged if r.category == "rv"),
        )

    def kinds(self, name: str) -> Kinds:
        """Rows by kind, for the expected peak. Groups are taken apart: the model has its own coincidence."""
        found: dict[str, list[Row]] = {}
        for r in self.unmanaged:
            for kind in kinds_of(r.category, r.kind, bool(r.hp)):
                found.setdefault(kind, []).append(self.known.row(r))
        return Kinds(name, managers=self.managers(), **{kind: tuple(rows) for kind, rows in found.items()})


@cache
def kinds_of(category: str, kind: str, hp: bool) -> tuple[str, ...]:
    """The kinds of load, for the expected peak, that a row belongs to."""
    general, appliance, wet = category == "general", category == "appliance", category in ("pool", "spa")
    light, water = "light" in kind, "water" in kind
    small = category in ("receptacle", "small_appliance", "laundry", "rv")
    is_of = {
        "lighting": category in ("lighting", "outdoor_lighting") or (general and light),
        "small": small or (general and not light) or (appliance and not hp and not water),
        "motors": category in ("motor", "air_handler", "welder") or ((wet or appliance) and hp),
        "heaters": category in ("cooking", "dryer") or (appliance and water and not hp),
        "winter": category in ("supplementary_heat", "zone_heat", "heat"),
        "winter_pumps": category == "heat_pump",
        "summer": category in ("heat_pump", "cooling"),
        "vehicles": category == "vehicle",
        "constant": category == "technology" or (wet and not hp),
    }
    return tuple(name for name, yes in is_of.items() if yes)


SUNDRY = ("pool", "spa", "outdoor_lighting", "technology")
"""Categories that count at nameplate, with a motor among the motors."""


def _proved(proof: object) -> bool:
    return bool(getattr(proof, "by", "") and getattr(proof, "date", None))


def parts(values: Iterable[tuple[str, float]]) -> tuple[Volt_amperes, ...]:
    """Parts of a sum."""
    return tuple(Volt_amperes(name, va) for name, va in values)
