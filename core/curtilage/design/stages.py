"""The stages of a design, in order. A stage sorts what it needs into records and asks; it computes nothing itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from copy import copy
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.calc.conductors import records as k
from curtilage.calc.conductors.feeder import feeder
from curtilage.calc.conductors.path import path
from curtilage.calc.conductors.run import branch_circuit
from curtilage.calc.conductors.service import service, service_main
from curtilage.calc.growth import Place, growth
from curtilage.calc.provenance import Connected, Sources, shares
from curtilage.calc.route import Stretch, Way, route
from curtilage.calc.share import Each, Shared, motor_circuit, per_circuit
from curtilage.design.ask import Ask
from curtilage.design.loads import Loads
from curtilage.design.metered import existing
from curtilage.design.sort import row
from curtilage.errors import Problems, refuse
from curtilage.model.graph import Route, routes

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder
    from curtilage.model.loads import Load
    from curtilage.model.site import Structure

CORDS = ("receptacle", "small_appliance", "laundry")
"""Categories whose circuits supply several receptacles for cord-connected portable loads (240.4(B)(1))."""


def first(*options: tuple[str, Any]) -> tuple[str, Any]:
    """The first (path, value) that was stated; the last one is always there."""
    return next((o for o in options if o[1] is not None), options[-1])


def each(stage: Callable[[Any], None], things: Iterable[Any]) -> None:
    """One stage over many things: what cannot be designed is told all at once."""
    problems = Problems()
    for x in things:
        try:
            stage(x)
        except Problems as e:
            problems.items.extend(e.items)
    problems.stop()


def is_motor(r: Load) -> bool:
    """Whether a row is worked as a motor branch circuit (Article 430).

    All motors and all horsepower, but for other equipment whose nameplate states its minimum circuit ampacity (440.4(B)).
    """
    return r.category == "motor" or (bool(r.hp) and not r.mca)


class Laid(NamedTuple):
    """How branch circuits lie in one structure, and where that was stated."""

    ambient: float
    limit: float
    paths: dict[str, str]
    tags: dict[str, Any]


class Stages:
    """One run over one estate."""

    def __init__(self, d: Design) -> None:
        self.d, self.e = d, d.estate
        self.loads = Loads(d)
        self.structures = {s.id: s for s in self.e.structures}
        self.panel_at = {p.id: p.structure for p in self.e.panels}
        self.trenches = {t.id: t for t in self.e.site_graph.trenches} if self.e.site_graph else {}
        self.volts = d.volts
        self.at: dict[str, Laid] = {}
        self.branch_view = f"{self.e.basis.branch.material}-{self.e.basis.branch.raceway}"
        self.routes: dict[str, dict[str, Route]] = {}  # node -> the way to every other node
        self.ways: dict[str, tuple[Feeder, ...]] = {}
        self.on_panel: dict[str, list[str]] = {}
        for r in d.tree.rows:
            if r.circuits:
                self.on_panel.setdefault(r.panel, []).append(r.id)

    def of(self, d: Design) -> Stages:
        """The same stages for a design that shares this one's estate but for some rows."""
        new = copy(self)
        new.d = d
        return new

    def run(self) -> None:
        """All stages: branch circuits, loads, feeders, mains, service, margins, voltage along each path, expected peak."""
        each(self.circuit, [r for r in self.d.tree.rows if r.circuits])
        self.loads.all()
        each(self.feeder, [b.id for b in self.d.tree.branches.values() if b.rows])
        self.service()
        for panel in self.on_panel:
            self.path(panel)
        self.margins()
        self.provenance()
        existing(self.d)
        self.loads.expected()

    def limit(self, name: str) -> tuple[str, float]:
        """A limit of the project, or that of common practice: (tag or path, value)."""
        own = getattr(self.e.policy, name)
        if own is not None:
            return f"policy.{name}", own
        rule = "drop_limit_" + name.removesuffix("_drop")
        return f"rule:{rule}", getattr(self.d.ed, rule)

    def circuit(self, r: Load) -> None:
        """One branch circuit of a row; alike circuits of one row are one item."""
        key, basis = f"circuit/{r.id}", self.e.basis.branch
        motor = is_motor(r)
        tags: dict[str, Any] = {}
        fullest = self.fullest(r, motor)
        if fullest is not None:
            tags["va"] = f"each/{r.id}/va"
            if motor:
                tags["motor_va"] = f"each/{r.id}/one"
        at = self.laid(self.structures[r.structure])
        record = k.Circuit(
            r.id,
            r.va if fullest is None else fullest.va,
            r.volts,
            r.pf,
            r.continuous,
            motor,
            r.category in CORDS,
            r.mca or 0.0,
            r.mocp or 0.0,
            r.breaker or 0.0,
            k.CHOOSE_SIZE,
            r.length or 0.0,
            at.ambient,
            basis.conductors,
            basis.insulation,
            basis.terminals,
            at.limit,
            self.e.basis.feeder.largest_size,
            fullest.one if fullest is not None and motor else 0.0,
        )
        self.d.ask(key, Ask(branch_circuit, record, f"loads.{r.id}", self.branch_view, at.paths, tags | at.tags))

    def fullest(self, r: Load, motor: bool) -> Each | None:
        """What the fullest circuit of a row carries; None where the one circuit of the row carries it as it is stated."""
        key, home = f"each/{r.id}", f"loads.{r.id}"
        if motor and r.hp:
            more = (("n", float(r.circuits), "count", f"{home}.circuits"),)
            paths = {"flc_row": f"{home}.hp", "motor": f"{home}.category", "neutral": f"{home}.poles"}
            found: Each = self.d.ask(key, Ask(motor_circuit, row(r)._replace(flc_row=r.hp), home, "ed", paths, {}, more))
            return found
        if r.circuits != 1 or (motor and r.qty > 1):
            shared: Each = self.d.ask(key, Ask(per_circuit, Shared(r.id, r.va, float(r.qty), float(r.circuits)), home, ""))
            return shared
        return None

    def laid(self, at: Structure) -> Laid:
        """How branch circuits lie in a structure, found once: numbers, and where they come from."""
        if at.id not in self.at:
            ambient = first((f"structures.{at.id}.ambient", at.ambient), ("site.ambient", self.e.site.ambient))
            origin, limit = self.limit("branch_drop")
            tags: dict[str, Any] = {}
            paths = {
                "ambient": ambient[0],
                "ccc": "basis.branch.conductors",
                "insulation": "basis.branch.insulation",
                "terminals": "basis.branch.terminals",
                "largest": "basis.feeder.largest_size",
            }
            _put(origin, "drop_limit", paths, tags)
            self.at[at.id] = Laid(ambient[1], limit, paths, tags)
        return self.at[at.id]

    def length(self, f: Feeder, tags: dict[str, Any], paths: dict[str, str]) -> float:
        """Stated, or along the route through the site graph."""
        if f.length is not None:
            return f.length
        start = self.panel_at.get(f.from_, self.e.service.gear.structure)
        end = self.panel_at[f.to]
        if start not in self.routes and self.e.site_graph:
            self.routes[start] = routes(self.e.site_graph, start)
        way = self.routes.get(start, {}).get(end) or self.e.route(start, end)  # the estate says why there is none
        key = f"route/{f.id}"
        stretches = tuple(Stretch(t.id, t.length, t.rise) for t in map(self.trenches.__getitem__, way.edges))
        self.d.ask(key, Ask(route, Way(f.id, stretches, self.e.basis.slack), f"feeders.{f.id}", "", {"slack": "basis.slack"}))
        tags["length"] = f"{key}/length"
        return float(self.d.items[key].length)

    def feeder(self, name: str) -> None:
        """One feeder, from its calculated load to its conductors."""
        b = self.d.tree.branches[name]
        f, basis, home = b.feeder, self.e.basis.feeder, f"feeders.{name}"
        assert f is not None
        if f.size is not None and f.sets is None:
            where = f"{self.d.where(f'{home}.size')} {home}.size"
            refuse(
                where,
                f"{f.size} is stated and the number of sets is not",
                "",
                "write sets: 1, or leave the size out to have it chosen",
            )
        load = self.loads.chosen[name]
        tags: dict[str, Any] = {"va": f"{load}/total", "minimum_va": f"{load}/minimum", "neutral_va": f"neutral_load/{name}/va"}
        paths = {
            "volts": "service.voltage",
            "whole_dwelling": f"{home}.to",
            "three_wire": "service.voltage",
            "take_83": f"{home}.dwelling_rule",
            "most_sets": f"{home}.sets",
        }
        own = {
            field: first((f"{home}.{field}", getattr(f, field)), (f"basis.feeder.{field}", getattr(basis, field)))
            for field in ("insulation", "terminals", "material", "raceway")
        }
        pf = first((f"{home}.power_factor", f.power_factor), ("basis.feeder.power_factor", basis.power_factor))
        neutral = first((f"{home}.neutral_rule", f.neutral_rule), ("basis.feeder.neutral", basis.neutral))
        ambient = first((f"{home}.ambient", f.ambient), ("site.ambient", self.e.site.ambient))
        limit = self.limit("feeder_drop")
        paths |= {field: p for field, (p, _) in own.items()} | {
            "pf": pf[0],
            "full_neutral": neutral[0],
            "ambient": ambient[0],
            "ccc": f"{home}.conductors",
            "largest": "basis.feeder.largest_size",
            "neutral": f"{home}.neutral",
        }
        _put(limit[0], "drop_limit", paths, tags)
        record = k.Feeder(
            name,
            self._number(tags["va"]),
            self._number(tags["minimum_va"]),
            self._number(tags["neutral_va"]),
            self.volts,
            pf[1],
            f.breaker or 0.0,
            f.sets or 0,
            f.size or "",
            self.length(f, tags, paths),
            ambient[1],
            f.conductors or 2,
            own["insulation"][1],
            own["terminals"][1],
            True,
            b.kind == "dwelling" and b.entire,
            bool(f.dwelling_rule),
            neutral[1] == "full",
            limit[1],
            basis.largest_size,
            MOST_SETS,
            f.neutral or "",
        )
        self.d.ask(f"feeder/{name}", Ask(feeder, record, home, f"{own['material'][1]}-{own['raceway'][1]}", paths, tags))

    def _number(self, tag: str) -> float:
        key, _, field = tag.rpartition("/")
        return float(getattr(self.d.items[key], field))

    def mains(self) -> tuple[tuple[k.Main, ...], dict[str, dict[str, str]]]:
        """Every main that carries load: their records, and the tags that those were taken from."""
        records, tags = [], {}
        volts = (("V", self.volts, "V", "service.voltage"),)
        for m in self.e.service.mains:
            load = self.loads.chosen.get(m.id)
            if load is not None:
                taken = {"va": f"{load}/total", "minimum_va": f"{load}/minimum"}
                record = k.Main(m.id, self._number(taken["va"]), self._number(taken["minimum_va"]), m.rating or 0.0)
                self.d.ask(f"main/{m.id}", Ask(service_main, record, f"service.mains.{m.id}", "ed", {}, taken, volts))
                records.append(record)
                tags[m.id] = taken
        return tuple(records), tags

    def service(self) -> None:
        """Mains, then the conductors from the transformer to them."""
        d, basis, lateral, home = self.d, self.e.basis.feeder, self.e.service.lateral, "service.lateral"
        mains, parts = self.mains()
        self.loads.service(tuple(parts))
        load = self.loads.chosen["service"]
        asked: dict[str, Any] = {
            "va": f"{load}/total",
            "minimum_va": f"{load}/minimum",
            "neutral_va": "neutral_load/service/va",
            "mains": parts,
        }
        paths = {
            "volts": "service.voltage",
            "pf": "basis.feeder.power_factor",
            "ambient": "site.ambient",
            "terminals": "basis.feeder.terminals",
            "dwelling": "structures",
            "whole_dwelling": "structures",
            "take_83": home,
            "full_neutral": "basis.feeder.neutral",
            "largest": "basis.feeder.largest_size",
            "most_sets": f"{home}.sets",
            "ccc": home,
            "neutral": f"{home}.neutral",
        }
        limit = self.limit("feeder_drop")
        _put(limit[0], "drop_limit", paths, asked)
        whole = k.Service(
            "service",
            mains,
            self._number(asked["va"]),
            self._number(asked["minimum_va"]),
            self._number(asked["neutral_va"]),
            self.volts,
            basis.power_factor,
            lateral.sets or 0,
            lateral.size or "",
            lateral.length,
            self.e.site.ambient,
            2,
            lateral.insulation,
            basis.terminals,
            bool(d.tree.dwellings),
            False,
            False,
            basis.neutral == "full",
            limit[1],
            basis.largest_size,
            MOST_SETS,
            lateral.neutral or "",
        )
        d.ask("service", Ask(service, whole, home, f"{lateral.material}-{lateral.raceway}", paths, asked))

    def margins(self) -> None:
        """Room for growth at every main and feeder, under the policy of the project or common practice."""
        own = self.e.policy.growth
        wanted, origin = (own, "policy.growth") if own is not None else (self.d.ed.growth, "rule:growth")
        places = [(f"main/{m}", m, "rating") for m in self.d.tree.mains] + [
            (f"feeder/{f}", f, "device") for f in self.d.tree.branches
        ]
        for key, name, rating in places:
            if key not in self.d.items:
                continue
            r = self.d.items[key]
            tags: dict[str, Any] = {"current": f"{key}/current", "minimum": f"{key}/minimum", "rating": f"{key}/{rating}"}
            paths: dict[str, str] = {}
            _put(origin, "wanted", paths, tags)
            self.d.ask(
                f"growth/{name}",
                Ask(
                    growth, Place(name, r.current, r.minimum, getattr(r, rating), wanted), key.replace("/", "."), "", paths, tags
                ),
            )

    def provenance(self) -> None:
        """Shares of the connected load by the source of its figures."""
        by: dict[str, list[Connected]] = {"nameplate": [], "submittal": [], "assumed": []}
        for r in self.d.tree.rows:
            by[r.source or "assumed"].append(Connected(r.id, r.va))
        self.d.ask(
            "provenance",
            Ask(shares, Sources("estate", *(tuple(by[k]) for k in ("nameplate", "submittal", "assumed"))), "loads", ""),
        )

    def unmeasured(self, panel: str) -> list[str]:
        """Rows on a panel whose branch circuit has no stated length: their drop is not known."""
        on = set(self.on_panel.get(panel, ()))
        return [r.id for r in self.d.tree.rows if r.id in on and r.length is None]

    def way(self, panel: str) -> tuple[Feeder, ...]:
        """The feeders to a panel, found once."""
        if panel not in self.ways:
            self.ways[panel] = self.d.tree.way(panel)
        return self.ways[panel]

    def path(self, panel: str) -> None:
        """Voltage from the transformer to the farthest outlet of a panel."""
        d, way = self.d, self.way(panel)
        tags: dict[str, Any] = {"lateral": "service/drop", "feeders": {f.id: {"drop": f"feeder/{f.id}/drop"} for f in way}}
        paths: dict[str, str] = {"source": "service.voltage"}
        branch = 0.0
        if panel in self.on_panel:
            worst = max(self.on_panel[panel], key=lambda r: d.items[f"circuit/{r}"].drop)
            branch, tags["branch"] = d.items[f"circuit/{worst}"].drop, f"circuit/{worst}/drop"
        limits = [self.limit(n) for n in ("feeder_drop", "branch_drop", "total_drop")]
        for name, (p, _) in zip(("feeder_limit", "branch_limit", "total_limit"), limits, strict=True):
            _put(p, name, paths, tags)
        segments = tuple(k.Segment(f.id, d.items[f"feeder/{f.id}"].drop) for f in way)
        record = k.Path(panel, self.e.service.voltage.neutral, d.items["service"].drop, segments, branch, *(v for _, v in limits))
        d.ask(f"path/{panel}", Ask(path, record, f"panels.{panel}", "ed", paths, tags))


MOST_SETS = 8
"""Sets in parallel that are tried before the run is refused (common practice: more is a duct bank of its own design)."""


def _put(origin: str, field: str, paths: dict[str, str], tags: dict[str, Any]) -> None:
    if origin.startswith("rule:"):
        tags[field] = origin
    else:
        paths[field] = origin
