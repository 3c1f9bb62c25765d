"""The stage of calculated loads: every feeder, every main and the service, each by the methods open to it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.demand.neutral import dwelling_neutral, other_neutral
from curtilage.calc.demand.optional import optional
from curtilage.calc.demand.other import other
from curtilage.calc.demand.records import Area, Wiring
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
from curtilage.design.tree import DWELLING, OTHER, PART, Branch
from curtilage.design.two import two

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

VOLTS = {"volts": "service.voltage"}


class Loads:
    """Asks for the load of each branch; `chosen` names the item whose numbers size conductors and devices."""

    def __init__(self, d: Design) -> None:
        self.d, self.e, self.chosen = d, d.estate, d.chosen
        self.structures = {s.id: s for s in self.e.structures}
        self.branches = {**d.tree.branches, **d.tree.mains}
        self.known = Known(d.estate, d.tree.rows)
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
            self.dwelling(b)
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
        self.d.ask(key, Ask(calculation, record, f"demand.{name}", "ed", VOLTS, {}, more))
        self.chosen[name] = key
        return key

    def total(self, name: str) -> float:
        return float(self.d.items[self.chosen[name]].total)

    def dwelling(self, b: Branch) -> None:
        """A whole dwelling: the standard method, the optional one, and the one that was asked for, or the lesser."""
        s = self.structures[b.structures[0]]
        record = Sorter(self.known, b.rows).dwelling(areas(s, self.d.ed))
        a = self.ask(b.id, "standard", standard, record)
        o = self.ask(b.id, "optional", optional, record)
        self.difference(b.id, a, o)
        lesser = self.d.items[o].total < self.d.items[a].total
        self.chosen[b.id] = o if s.method == "optional" or (s.method in (None, "compare") and lesser) else a

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
        homes = sum(self.branches[c].kind == DWELLING for c in b.children if c in self.chosen)
        parts = [(c, self.standard_of(c) if homes > 1 else self.chosen[c]) for c in b.children if c in self.chosen]
        if b.own:
            parts.append((f"{b.id}-own", self.own(b)))
        if homes == 2:
            self.two(b)
        self.together(b.id, parts)

    def own(self, b: Branch) -> str:
        """Rows on the panel itself of a feeder that also feeds further panels."""
        rows = Sorter(self.known, b.own)
        if any(r.structure in self.d.tree.dwellings for r in b.own):
            return self.ask(f"{b.id}-own", "own", standard, rows.dwelling(()))
        return self.ask(f"{b.id}-own", "own", other, rows.other())

    def standard_of(self, name: str) -> str:
        """The standard method of a whole dwelling; of anything else the item that was chosen."""
        key = f"demand/{name}/standard"
        return key if key in self.d.items else self.chosen[name]

    def areas_of(self, b: Branch) -> tuple[Area, ...]:
        return areas(self.structures[b.structures[0]], self.d.ed)

    def two(self, b: Branch) -> None:
        """Two dwellings on one branch: the rule for two beside the sum, in both readings."""
        homes = [self.branches[c] for c in b.children if self.branches[c].kind == DWELLING]
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
            names = [c for c in b.children if f"neutral/{c}" in self.d.items]
            if b.own:
                own = Sorter(self.known, b.own).other()
                self._neutral(f"neutral/{b.id}-own", other_neutral, own, wiring)
                names.append(f"{b.id}-own")
            self.neutral_together(key, names)
        self.neutral_load(b.id)

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
            b = self.branches[m]
            if several and any(self.branches[c].kind == DWELLING for c in b.children):
                parts += [(c, self.standard_of(c)) for c in b.children if c in self.chosen]
                parts += [(f"{m}-own", self.chosen[f"{m}-own"])] if b.own else []
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
