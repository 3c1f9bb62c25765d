"""The estate as a whole: what the user wrote, checked, with the place of every value."""
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, Field, PrivateAttr

from curtilage.errors import CurtilageError, Problem, refuse
from curtilage.model.base import Flag, Strict, Text, WholeKind, Words
from curtilage.model.feeders import Feeder
from curtilage.model.framing import Framing
from curtilage.model.gas import Gas
from curtilage.model.graph import Route, Tree, feeder_tree, shortest
from curtilage.model.grounding import GroundingPlan
from curtilage.model.later import Charging, Event, Link, Provision, Temporary, TierGoal
from curtilage.model.loads import COLUMNS, Load
from curtilage.model.panels import Panel
from curtilage.model.policy import Attested, Authority, Basis, Group, Manager, Owner, Policy, Prepared, SharedNeutral
from curtilage.model.pool import Pool
from curtilage.model.pulls import DeviceBox, Pulls
from curtilage.model.raceways import Box, Penetration, Raceway
from curtilage.model.service import Metered, Service
from curtilage.model.site import Site, SiteGraph, Structure
from curtilage.model.source import Places, Source
from curtilage.model.sources import Sources

SCHEMA_VERSION = 1


class Estate(Strict):
    """An estate: what the user wrote, checked. Every quantity is a plain float in the unit its description names."""
    curtilage: Annotated[int, WholeKind(1, SCHEMA_VERSION)] = Field(description="version of this file's schema")
    name: Words = Field(description="name of the estate")
    demonstration: Flag = Field(False, description="whether the estate is invented; every page then says so")
    units: Literal["us", "si"] = Field("us", description="units that pages show: us (ft, degF) or si (m, degC)")
    edition: Words = Field(description="edition of the code in force")
    amendments: Text = Field("", description="local amendments, in words")
    local: Text = Field("", description="name of a local layer, amendments/NAME.toml in the estate's folder")
    prepared: Prepared = Field(default_factory=Prepared, description="who prepared the design")
    authority: Authority = Field(default_factory=Authority, description="the authority having jurisdiction")
    site: Site = Field(description="site conditions")
    owner: Owner | None = Field(None, description="what the owner asked for")
    policy: Policy = Field(default_factory=Policy, description="margins and limits of the project")
    basis: Basis = Field(default_factory=Basis, description="how it is built unless a feeder or load says otherwise")
    service: Service = Field(description="the electrical service")
    structures: tuple[Structure, ...] = Field(min_length=1, description="buildings and yards")
    site_graph: SiteGraph | None = Field(None, description="nodes and trenches")
    panels: tuple[Panel, ...] = Field((), description="panels")
    feeders: tuple[Feeder, ...] = Field((), description="feeders")
    groups: tuple[Group, ...] = Field((), description="loads that cannot run together")
    managers: tuple[Manager, ...] = Field((), description="energy management systems")
    shared_neutrals: tuple[SharedNeutral, ...] = Field((), description="multiwire circuits")
    metered: Metered | None = Field(None, description="measured demand of an existing service")
    grounding: GroundingPlan | None = Field(None, description="electrodes and bonds")
    sources: Sources | None = Field(None, description="generators, storage, transfer")
    tiers: tuple[TierGoal, ...] = Field((), description="what each backup tier must do")
    charging: Charging | None = Field(None, description="vehicles and their energy")
    gas: Gas | None = Field(None, description="fuel gas")
    pool: Pool | None = Field(None, description="pool and spa")
    raceways: tuple[Raceway, ...] = Field((), description="raceways with what lies in them")
    boxes: tuple[Box, ...] = Field((), description="pull and junction boxes")
    pulls: Pulls | None = Field(None, description="how conductors are pulled in")
    device_boxes: tuple[DeviceBox, ...] = Field((), description="boxes for devices")
    penetrations: tuple[Penetration, ...] = Field((), description="holes in the structure")
    framing: tuple[Framing, ...] = Field((), description="where wiring may go in open framing")
    links: tuple[Link, ...] = Field((), description="communication between structures")
    provisions: tuple[Provision, ...] = Field((), description="what is put in for later")
    temporary: Temporary | None = Field(None, description="power during construction")
    sequence: tuple[Event, ...] = Field((), description="steps of construction")
    attested: tuple[Attested, ...] = Field((), description="facts that only a person can know")
    loads_file: Text = Field("", alias="loads", description="the load list, a CSV or XLSX file beside this one")

    _source: Source = PrivateAttr()
    _loads: tuple[Load, ...] = PrivateAttr(default=())
    _warnings: tuple[Problem, ...] = PrivateAttr(default=())

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> "Estate":
        """A copy that works out anew what was kept: places, tree, defaults, loads by their ids. Nothing is validated."""
        new = super().model_copy(update=update, deep=deep)
        for name in _KEPT:
            new.__dict__.pop(name, None)
        return new

    def with_loads(self, loads: Iterable[Load]) -> "Estate":
        """The same estate with other rows, unchecked: for sweeps that change numbers and keep the file as it is."""
        new = self.model_copy()
        new._loads = tuple(loads)
        return new

    @property
    def loads(self) -> tuple[Load, ...]:
        """The rows of the load list."""
        return self._loads

    @property
    def warnings(self) -> tuple[Problem, ...]:
        """What is allowed and still looks wrong."""
        return self._warnings

    @property
    def folder(self) -> Path | None:
        """The folder it was read from; None for an estate from texts."""
        return self._source.folder

    @property
    def source(self) -> Source:
        """What it was made from."""
        return self._source

    @cached_property
    def places(self) -> Places:
        """Where each value was written: `estate.places["loads.L035.va"]`."""
        return Places(self._source)

    @cached_property
    def tree(self) -> Tree:
        """The tree of feeders below the mains."""
        return feeder_tree([m.id for m in self.service.mains], [p.id for p in self.panels], self.feeders)

    @cached_property
    def by_id(self) -> Mapping[str, Load]:
        """The loads by their ids."""
        return {x.id: x for x in self._loads}

    @cached_property
    def defaulted(self) -> tuple[tuple[str, object], ...]:
        """(path, value) of every value that was left out and stands by default. What is None or empty is not one."""
        return (*_defaulted(self, ""), *self._defaulted_cells())

    def route(self, a: str, b: str, use: str = "power") -> Route:
        """The shortest way along trenches between two nodes, with its length [ft]. Raises `CurtilageError`."""
        if self.site_graph is None:
            raise CurtilageError("the estate has no site graph, so no route can be found")
        return shortest(self.site_graph, a, b, use)

    @cached_property
    def _homes(self) -> Mapping[str, str]:
        gear = self.service.gear
        homes = {gear.id: gear.structure} | {m.id: gear.structure for m in self.service.mains}
        homes.update((p.id, p.structure) for p in self.panels)
        return homes

    def structure_of(self, thing: str) -> str:
        """The structure at which a main, the gear or a panel stands. Raises `KeyError`."""
        return self._homes[thing]

    def value(self, path: str) -> Any:
        """The value of a path such as `feeders.GH.breaker`. Raises `CurtilageError` for a path that leads nowhere."""
        node: Any = self
        for name in path.split("."):
            if isinstance(node, tuple) and not hasattr(node, "_fields"):
                node = next((x for x in node if x.id == name), None)
            elif isinstance(node, Mapping):
                node = node.get(name)
            else:
                node = getattr(node, name, None) if hasattr(node, name) else getattr(node, f"{name}_", None)
            if node is None and name != path.rsplit(".", 1)[-1]:
                refuse(path, f"leads nowhere: there is no {name}")
        return node

    def with_(self, overrides: Mapping[str, object] | None = None,
              add: Mapping[str, Sequence[Mapping[str, object]]] | None = None,
              remove: Sequence[str] = (), by: str = "override") -> "Estate":
        """A new estate, checked as a whole, with values set, entries added and entries removed.

        Quantities carry their units: `{"feeders.GH.length": "520 ft", "loads.L035.va": "2760 VA"}`. `by` names the place
        that the changed values then have. Raises `Problems`.
        """
        from curtilage.model.variants import changed

        return changed(self, overrides or {}, add or {}, remove, by)

    def variant(self, name: str) -> "Estate":
        """The estate under the variant of that name in its folder. Raises `Problems`."""
        from curtilage.model.variants import read_variant

        if self.folder is None:
            raise CurtilageError("an estate from texts has no folder, so it has no variants")
        return read_variant(self.folder, name).on(self)

    def _defaulted_cells(self) -> list[tuple[str, object]]:
        rows = self._source.rows
        out: list[tuple[str, object]] = []
        defaults = {h: c.default for h, c in COLUMNS.items() if c.default not in (None, "")}
        heads = rows.table.heads if rows.table else ()
        by_line = dict(zip(rows.table.lines, rows.table.rows, strict=True)) if rows.table else {}
        for x in self._loads:
            line = rows.lines.get(x.id) if not any(m.get("id") == x.id for m in rows.added) else None
            written = {h for h, text in zip(heads, by_line[line], strict=True) if text} if line else {
                h for m in rows.added if m.get("id") == x.id for h, v in m.items() if v not in (None, "")}
            written |= set(rows.changed.get(x.id, ()))
            out.extend((f"loads.{x.id}.{h}", default) for h, default in defaults.items() if h not in written)
        return out


_KEPT = tuple(name for name, x in vars(Estate).items() if isinstance(x, cached_property))


def _defaulted(model: BaseModel, path: str) -> list[tuple[str, object]]:
    out: list[tuple[str, object]] = []
    for name, field in type(model).model_fields.items():
        value = getattr(model, name)
        here = f"{path}.{field.alias or name}".lstrip(".")
        if isinstance(value, BaseModel):
            out.extend(_defaulted(value, here))
        elif isinstance(value, tuple) and value and isinstance(value[0], BaseModel):
            for item in value:
                out.extend(_defaulted(item, f"{here}.{getattr(item, 'id', '')}"))
        elif name not in model.model_fields_set and value not in (None, "", ()):
            out.append((here, value))
    return out
