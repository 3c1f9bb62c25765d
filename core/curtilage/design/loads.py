"""The stage of calculated loads: every feeder, every main and the service, each by the methods open to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.calc.demand.neutral import dwelling_neutral, other_neutral
from curtilage.calc.demand.optional import optional
from curtilage.calc.demand.other import other
from curtilage.calc.demand.records import Area, Dwelling, Wiring
from curtilage.calc.demand.results import Peak
from curtilage.calc.demand.standard import standard
from curtilage.calc.together import (
    Carried,
    Estate,
    NeutralPart,
    NeutralParts,
    Part,
    Parts,
    Results,
    StructurePeaks,
    Whole,
    between_methods,
    estate_peak,
    neutral_load,
    neutral_together,
    structure_peaks,
    together,
    within_whole,
)
from curtilage.design.areas import areas
from curtilage.design.ask import Ask
from curtilage.design.sort import Known, Sorter
from curtilage.design.tree import DWELLING, OTHER, PART, SEVERAL, Branch
from curtilage.design.two import two

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

VOLTS = {"volts": "service.voltage"}
DEMAND = {**VOLTS, "vehicles_apart": "policy.vehicle_supply"}


class Home(NamedTuple):
    """One dwelling as a branch carries it: with its floor area."""

    structure: str
    branch: str
    rows: tuple[Load, ...]
    entire: bool  # no row of the dwelling hangs anywhere else


class Loads:
    """Asks for the load of each branch; `chosen` names the item whose numbers size conductors and devices."""

    def __init__(self, d: Design) -> None:
        self.d, self.e, self.chosen = d, d.estate, d.chosen
        self.structures = {s.id: s for s in self.e.structures}
        self.branches = {**d.tree.branches, **d.tree.mains}
        self.known = Known(d.estate, d.tree.rows)
        self.houses: dict[str, Home] = {}  # name in the items -> the dwelling that is worked there by both methods
        self.parts: dict[str, list[str]] = {}  # branch of several structures -> names of what is added there
        self.homes: dict[tuple[str, ...], list[str]] = {}  # dwelling -> branches that carry the whole of it
        for b in self.branches.values():
            if b.kind == DWELLING:
                self.homes.setdefault(b.structures, []).append(b.id)

    def all(self) -> None:
        """Whole dwellings first, since their parts ask for the whole; then from the far end inwards, mains last."""
        loaded = [b for b in self.branches.values() if b.rows]
        for b in sorted(loaded, key=lambda b: (b.feeder is None, b.kind != DWELLING)):
            if b.feeder is None and len(b.children) == 1 and not b.own:
                self.chosen[b.id] = self.chosen[b.children[0]]  # a main with one feeder carries the load of that feeder
                continue
            self.branch(b)
            self.neutral(b)

    def branch(self, b: Branch) -> None:
        """One feeder or main."""
        if b.kind == DWELLING:
            self.dwelling(b.id, Home(b.structures[0], b.id, b.rows, b.entire))
        elif b.kind == PART:
            self.part(b)
        elif b.kind == OTHER:
            self.ask(b.id, "other", other, Sorter(self.known, b.rows).other())
        else:
            self.several(b)

    def part(self, b: Branch) -> None:
        """A feeder inside a dwelling: the standard method on its rows, and no more than the whole."""
        rows = self.ask(b.id, "rows", standard, Sorter(self.known, b.rows).dwelling(()))
        whole = next((c for c in self.homes.get(b.structures, ()) if c in self.chosen), "")
        found = self.d.items[rows]
        record = Whole(b.id, found.total, found.minimum, self.total(whole) if whole else 0.0, self.d.volts)
        tags = {"total": f"{rows}/total", "minimum": f"{rows}/minimum"}
        if whole:
            tags["whole"] = f"{self.chosen[whole]}/total"
        self.chosen[b.id] = f"demand/{b.id}/part"
        self.d.ask(self.chosen[b.id], Ask(within_whole, record, f"demand.{b.id}", "", VOLTS, tags))

    def ask(self, name: str, method: str, calculation: Any, record: Any, more: tuple[tuple[str, Any, str, str], ...] = ()) -> str:
        key = f"demand/{name}/{method}"
        self.d.ask(key, Ask(calculation, record, f"demand.{name}", "ed", DEMAND, {}, more))
        self.chosen[name] = key
        return key

    def total(self, name: str) -> float:
        return float(self.d.items[self.chosen[name]].total)

    def dwelling(self, name: str, home: Home) -> None:
        """A whole dwelling: the standard method, the optional one, and the one that was asked for, or the lesser."""
        self.houses[name] = home
        record = Sorter(self.known, home.rows).dwelling(areas(self.structures[home.structure], self.d.ed))
        a = self.ask(name, "standard", standard, record)
        o = self.ask(name, "optional", optional, record)
        self.difference(name, a, o)
        self.chosen[name] = o if self.by_optional(name, self.d) else a

    def by_optional(self, name: str, d: Design) -> bool:
        """Whether the optional method is used: the whole load hangs there, and it was asked for or is the lesser (220.82(A))."""
        method = self.structures[self.houses[name].structure].method
        lesser: bool = d.items[f"demand/{name}/optional"].total < d.items[f"demand/{name}/standard"].total
        return self.houses[name].entire and (method == "optional" or (method in (None, "compare") and lesser))

    def difference(self, name: str, a: str, o: str) -> None:
        """What the optional method changes against the standard one."""
        x, y = self.d.items[a], self.d.items[o]
        tags = {f: f"{a}/{f}" for f in ("total", "climate", "minimum")}
        tags |= {f"optional_{f}": f"{o}/{f}" for f in ("total", "climate", "minimum")} | {
            f: f"{o}/{f}" for f in ("connected", "general")
        }
        record = Results(name, x.total, x.climate, x.minimum, y.total, y.climate, y.minimum, y.connected, y.general, self.d.volts)
        self.d.ask(f"demand/{name}/difference", Ask(between_methods, record, f"demand.{name}", "", VOLTS, tags))

    def several(self, b: Branch) -> None:
        """Structures side by side: loads added. With two dwellings or more each counts by the standard method."""
        below = [self.branches[c] for c in b.children if c in self.chosen]
        mine = [s for s in b.carries if not any(s in c.carries for c in below)]
        rows, branches = self.gathered(b, mine)
        names = [c.id for c in branches]
        for i, s in enumerate(mine):
            name = f"{b.id}-own" if i == 0 else f"{b.id}-{s}-own"
            self.dwelling(name, Home(s, b.id, tuple(r for r in rows if r.structure == s), b.entire))
            names.append(name)
        names += self.own(b, [r for r in rows if r.structure not in mine], bool(mine))
        self.parts[b.id] = names
        leaves = [x for n in names for x in self.leaves(n)]
        homes = [n for n in leaves if n in self.houses]
        if len(homes) == 2:
            self.two(b, homes)
        several = len(homes) > 1
        self.together(b.id, [(n, self.standard_of(n)) for n in leaves] if several else [(n, self.chosen[n]) for n in names])

    def gathered(self, b: Branch, mine: list[str]) -> tuple[list[Load], list[Branch]]:
        """What a branch works itself, and the branches that it adds, when it carries the floor area of the dwellings `mine`.

        Feeders to parts of those dwellings are inside them; outbuildings behind such a feeder are added by themselves.
        """
        rows = list(b.own)
        branches: list[Branch] = []
        for c in (self.branches[c] for c in b.children if c in self.chosen):
            if c.kind == PART and c.structures[0] in mine:
                rows += c.rows
            elif c.kind == SEVERAL and any(self.d.tree.at_home(r) and r.structure in mine for r in c.rows):
                more, further = self.gathered(c, mine)
                rows, branches = rows + more, branches + further
            else:
                branches.append(c)
        return rows, branches

    def own(self, b: Branch, rows: list[Load], beside: bool) -> list[str]:
        """Rows on the panel itself of a feeder that also feeds further panels: those of a part of a dwelling, and the others.

        `beside`: a dwelling is worked there, and has the name.
        """
        part = [r for r in rows if self.d.tree.at_home(r)]
        rest = [r for r in rows if not self.d.tree.at_home(r)]
        names = []
        if part:
            name = f"{b.id}-part" if beside else f"{b.id}-own"
            names.append(name)
            self.ask(name, "own", standard, Sorter(self.known, part).dwelling(()))
        if rest:
            name = f"{b.id}-rest" if beside or part else f"{b.id}-own"
            names.append(name)
            self.ask(name, "own", other, Sorter(self.known, rest).other())
        return names

    def leaves(self, name: str) -> list[str]:
        """What the load of a branch is added up from, sums taken apart."""
        b = self.branches.get(name)
        if b is not None and b.feeder is None and len(b.children) == 1 and not b.own:
            return self.leaves(b.children[0])
        return [x for n in self.parts[name] for x in self.leaves(n)] if name in self.parts else [name]

    def standard_of(self, name: str) -> str:
        """The standard method of a whole dwelling; of anything else the item that was chosen."""
        key = f"demand/{name}/standard"
        return key if key in self.d.items else self.chosen[name]

    def areas_of(self, h: Home) -> tuple[Area, ...]:
        return areas(self.structures[h.structure], self.d.ed)

    def two(self, b: Branch, names: list[str]) -> None:
        """Two dwellings on one branch: the rule for two beside the sum, in both readings."""
        homes = [self.houses[n] for n in names]
        joined = Sorter(self.known, [r for h in homes for r in h.rows]).dwelling(
            tuple(a for h in homes for a in self.areas_of(h))
        )
        units = tuple(Sorter(self.known, h.rows).dwelling(self.areas_of(h)) for h in homes)
        two(self.d, b.id, joined, units)

    def together(self, name: str, parts: list[tuple[str, str]]) -> str:
        """The sum of some items as the load of a branch."""
        items = self.d.items
        record = Parts(name, tuple(Part(n, items[key].total, items[key].minimum) for n, key in parts), self.d.volts)
        tags = {"parts": {n: {"total": f"{key}/total", "minimum": f"{key}/minimum"} for n, key in parts}}
        key = f"demand/{name}/sum"
        self.d.ask(key, Ask(together, record, f"demand.{name}", "", VOLTS, tags))
        self.chosen[name] = key
        return key

    # ------------------------------------------------------------------------------------------------------ neutrals
    def neutral(self, b: Branch) -> None:
        """The neutral of one branch."""
        key, wiring = f"neutral/{b.id}", Wiring(self.d.volts)
        if b.kind in (DWELLING, PART):
            self._neutral(key, dwelling_neutral, self.sorted(b.id, "standard" if b.kind == DWELLING else "rows"), wiring)
        elif b.kind == OTHER:
            self._neutral(key, other_neutral, self.sorted(b.id, "other"), wiring)
        else:
            for name in self.parts[b.id]:
                if f"neutral/{name}" not in self.d.items:
                    self.neutral_of(name)
            self.neutral_together(key, self.parts[b.id])
        self.neutral_load(b.id)

    def neutral_of(self, name: str) -> None:
        """The neutral of what a branch works itself, from the rows as they were sorted for its load."""
        record = self.d.asks[self.chosen[name]].record
        calculation = dwelling_neutral if isinstance(record, Dwelling) else other_neutral
        self._neutral(f"neutral/{name}", calculation, record, Wiring(self.d.volts))

    def sorted(self, name: str, method: str) -> Any:
        """The rows of a branch as they were sorted for its load."""
        return self.d.asks[f"demand/{name}/{method}"].record

    def _neutral(self, key: str, calculation: Any, record: Any, wiring: Wiring) -> None:
        self.d.ask(key, Ask(calculation, record, key.replace("/", "."), "ed", VOLTS, {}, (), (wiring,)))

    def neutral_together(self, key: str, names: list[str]) -> None:
        items = self.d.items
        parts = tuple(NeutralPart(n, items[f"neutral/{n}"].unbalanced, items[f"neutral/{n}"].nonlinear) for n in names)
        tags = {"parts": {n: {f: f"neutral/{n}/{f}" for f in ("unbalanced", "nonlinear")} for n in names}}
        self.d.ask(
            key,
            Ask(
                neutral_together,
                NeutralParts(key, parts, self.d.volts, False, False),
                key.replace("/", "."),
                "ed",
                {**VOLTS, "wye": "service.phases", "two_of_wye": "service.phases"},
                tags,
            ),
        )

    def neutral_load(self, name: str) -> None:
        carried = Carried(name, self.d.items[f"neutral/{name}"].amperes, self.d.volts)
        self.d.ask(
            f"neutral_load/{name}",
            Ask(neutral_load, carried, f"neutral.{name}", "", VOLTS, {"amperes": f"neutral/{name}/amperes"}),
        )

    # ------------------------------------------------------------------------------------------------------- service
    def service(self, mains: tuple[str, ...]) -> None:
        """All mains together. A service with more than one dwelling on it takes each by the standard method."""
        several = len(self.d.tree.dwellings) > 1
        parts: list[tuple[str, str]] = []
        for m in mains:
            leaves = self.leaves(m)
            if several and any(n in self.houses for n in leaves):
                parts += [(n, self.standard_of(n)) for n in leaves]
            else:
                parts.append((m, self.chosen[m]))
        self.together("service", parts)
        neutrals = [m if f"neutral/{m}" in self.d.items else self.branches[m].children[0] for m in mains]
        self.neutral_together("neutral/service", neutrals)
        self.neutral_load("service")

    def expected(self) -> None:
        """The expected peak of the whole estate: what the utility asks for, and never a load for conductors."""
        by: dict[str, list[Load]] = {}
        for r in self.d.tree.rows:
            by.setdefault(r.structure, []).append(r)
        names = tuple(by)
        for name in names:
            self.d.ask(f"expected/{name}", Ask(structure_peaks, Sorter(self.known, by[name]).kinds(name), "loads"))
        bands = {"low": "_low", "typical": "", "high": "_high"}
        peaks = {b: tuple(self._peak(name, end) for name in names) for b, end in bands.items()}
        tags = {b: {n: {f: f"expected/{n}/{f}{end}" for f in Peak._fields[1:]} for n in names} for b, end in bands.items()}
        self.d.ask("expected", Ask(estate_peak, Estate("estate", **peaks), "loads", "ed", {}, tags))

    def _peak(self, name: str, end: str) -> Peak:
        found: StructurePeaks = self.d.items[f"expected/{name}"]
        return Peak(name, *(getattr(found, f"{f}{end}") for f in Peak._fields[1:]))
