"""What hangs under what: mains, feeders, panels and the load rows behind each of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
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

    `kind`: the whole of one dwelling and nothing else ("dwelling"), a part of one ("part"), no dwelling at all
    ("other"), or more than that ("several").
    """

    id: str
    kind: str
    feeder: Feeder | None  # None for a main
    rows: tuple[Load, ...]
    structures: tuple[str, ...]
    children: tuple[str, ...]  # feeders that start at this main, or at the panel of this feeder
    own: tuple[Load, ...]  # rows on the panel itself


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
        found = Branch(name, self._kind(rows, structures), feeder, rows, structures, tuple(f.id for f in children), own)
        if feeder is not None:
            self.branches[name] = found
        return found

    def _kind(self, rows: tuple[Load, ...], structures: tuple[str, ...]) -> str:
        homes = [s for s in structures if s in self.dwellings]
        if not homes:
            return OTHER
        if len(structures) > 1:
            return SEVERAL
        return DWELLING if len(rows) == self._of_structure[structures[0]] else PART

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
