"""What hangs under what: mains, feeders, panels and the load rows behind each of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from curtilage.model.estate import Estate
    from curtilage.model.feeders import Feeder
    from curtilage.model.loads import Load

NEVER = ("source", "temporary", "none")
"""Categories of rows that are no load: sources of power, temporary installations, provisions and controls."""
DWELLING, PART, OTHER, SEVERAL = "dwelling", "part", "other", "several"


class Branch(NamedTuple):
    """A main or feeder with everything under it.

    `kind`: one dwelling and nothing else ("dwelling"), a part of one ("part"), no dwelling ("other": a row of a dwelling
    that hangs away from it is a load like any other there), or more than that ("several").
    """

    id: str
    kind: str
    feeder: Feeder | None  # None for a main
    rows: tuple[Load, ...]
    structures: tuple[str, ...]
    children: tuple[str, ...]  # feeders that start at this main, or at the panel of this feeder
    own: tuple[Load, ...]  # rows on the panel itself
    carries: tuple[str, ...]  # dwellings whose floor area is this branch's to carry
    entire: bool  # no row of those dwellings hangs anywhere else


def counted(rows: Iterable[Load]) -> Iterator[Load]:
    """Rows that are load now: of the base, and neither a source nor temporary nor a provision."""
    return (r for r in rows if r.status == "base" and r.category not in NEVER)


class Tree:
    """The branches of an estate, feeders deepest first and mains last."""

    def __init__(self, estate: Estate) -> None:
        self.dwellings = {s.id for s in estate.structures if s.occupancy == "dwelling"}
        self.rows = tuple(counted(estate.loads))
        self._of_panel: dict[str, list[Load]] = {}
        self._of_structure: dict[str, int] = {}
        for r in self.rows:
            self._of_panel.setdefault(r.panel, []).append(r)
            self._of_structure[r.structure] = self._of_structure.get(r.structure, 0) + 1
        self._from: dict[str, list[Feeder]] = {}
        for f in estate.feeders:
            self._from.setdefault(f.from_, []).append(f)
        self.feeder_of = {f.to: f for f in estate.feeders}
        self.house = self._house({p.id: p.structure for p in estate.panels}, {m.id for m in estate.service.mains})
        self.branches: dict[str, Branch] = {}
        self.mains: dict[str, Branch] = {}
        for m in estate.service.mains:
            self.mains[m.id] = self._branch(m.id, m.id, None)

    def _branch(self, name: str, start: str, feeder: Feeder | None) -> Branch:
        children = self._from.get(start, [])
        below = [self._branch(f.id, f.to, f) for f in children]
        own = tuple(self._of_panel.get(start, ()))
        rows = (*own, *(r for b in below for r in b.rows))
        structures = tuple(dict.fromkeys(r.structure for r in rows))
        carries, entire = self._carried(rows)
        kind = self._kind(rows, structures, carries)
        found = Branch(name, kind, feeder, rows, structures, tuple(f.id for f in children), own, carries, entire)
        if feeder is not None:
            self.branches[name] = found
        return found

    def _house(self, stands: Mapping[str, str], mains: set[str]) -> dict[str, frozenset[str]]:
        """Dwelling -> its rows on panels that stand in it, all of its rows where it has no such panel.

        The branch that carries these carries the floor area. Where they are split between mains, the main with most of
        their volt-amperes has it. `stands`: panel -> structure.
        """
        top = {panel: way[0].from_ if (way := self.way(panel)) else panel for panel in self._of_panel}
        fed: dict[str, list[Load]] = {s: [] for s in self.dwellings}
        for r in self.rows:
            if r.structure in fed and top[r.panel] in mains:
                fed[r.structure].append(r)
        out = {}
        for s, rows in fed.items():
            rows = [r for r in rows if stands.get(r.panel) == s] or rows
            most: dict[str, float] = {}
            for r in rows:
                most[top[r.panel]] = most.get(top[r.panel], 0.0) + r.va
            main = max(most, key=most.__getitem__, default="")
            out[s] = frozenset(r.id for r in rows if top[r.panel] == main)
        return out

    def _carried(self, rows: tuple[Load, ...]) -> tuple[tuple[str, ...], bool]:
        here: dict[str, set[str]] = {}
        for r in rows:
            here.setdefault(r.structure, set()).add(r.id)
        carries = tuple(s for s, ids in here.items() if self.house.get(s) and self.house[s] <= ids)
        return carries, all(len(here[s]) == self._of_structure[s] for s in carries)

    def _kind(self, rows: tuple[Load, ...], structures: tuple[str, ...], carries: tuple[str, ...]) -> str:
        if not any(s in self.dwellings for s in structures):
            return OTHER
        if len(structures) == 1:
            return DWELLING if carries else PART
        return SEVERAL if any(self.at_home(r) for r in rows) else OTHER

    def at_home(self, r: Load) -> bool:
        """Whether a row belongs to what carries the floor area of its dwelling."""
        return r.id in self.house.get(r.structure, ())

    def way(self, panel: str) -> tuple[Feeder, ...]:
        """The feeders from the service to a panel, in the order of the current."""
        out: list[Feeder] = []
        f = self.feeder_of.get(panel)
        while f is not None and f not in out:
            out.append(f)
            f = self.feeder_of.get(f.from_)
        return tuple(reversed(out))

    def main_of(self, panel: str) -> str:
        """The main that feeds a panel, or an empty text."""
        way = self.way(panel)
        return way[0].from_ if way and way[0].from_ in self.mains else ""
