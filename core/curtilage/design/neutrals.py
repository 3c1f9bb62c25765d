"""The neutrals of an estate as a graph: what each source and each position of the switches ties, and where the bonds are.

A mode of operation is the utility alone, or one further source or several of them on. Everything is built from the inputs alone,
so that a proof does not wait for a design.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.grounding.neutrals import Tie, islands, ringed, rings
from curtilage.calc.grounding.records import Bond

if TYPE_CHECKING:
    from curtilage.model import Estate
    from curtilage.model.sources import Alternate, Transfer

UTILITY, TOGETHER = "utility", "-and-"
LINES = 2
"""Ungrounded conductors of a single-phase three-wire supply: a switch with more poles breaks the neutral, too."""
MOST = 4
"""Further sources that are combined with one another in every way; of more, each alone and all together."""


class At(NamedTuple):
    """A bond as stated: the place in the graph, the input that says so, words for a reader."""

    place: str
    bond: Bond
    words: str


class Proof(NamedTuple):
    """One mode: the islands that have a source, with their bonds, and the steps that lead there.

    `open` names inputs that are not known and would change the result; `rings` counts closed loops of neutral, `ringed` are the
    panels whose two supplies close them, `unsure` what is not known and would change that count. `both` counts second supplies
    of which nobody says whether their switch breaks the neutral, where the bonds are the same either way.
    """

    mode: str
    live: tuple[tuple[str, ...], ...]
    bonds: tuple[tuple[At, ...], ...]
    steps: tuple[str, ...]
    open: tuple[str, ...]
    rings: int
    ringed: tuple[str, ...]
    unsure: tuple[str, ...] = ()
    both: int = 0


class Neutrals:
    """Places, ties and bonds of one estate."""

    def __init__(self, estate: Estate) -> None:
        self.e, self.gear = estate, estate.service.gear
        self.mains = [m.id for m in estate.service.mains]
        s = estate.sources
        self.transfers = s.transfers if s else ()
        self.by_load = {t.load: t for t in self.transfers}
        self.by_id = {t.id: t for t in self.transfers}
        further = [*s.generators, *s.storage, *s.solar, *s.buses, *s.transfers] if s else []
        self.places = [UTILITY, self.gear.id, *self.mains, *(p.id for p in estate.panels), *(x.id for x in further)]
        self.inlets = {i.id: i for i in s.inlets} if s else {}
        self.alternates: tuple[Alternate, ...] = s.alternates if s else ()
        fed = [*(f.to for f in estate.feeders), *(a.to for a in self.alternates), *(t.load for t in self.transfers)]
        self.twice = {p for p in fed if fed.count(p) > 1}
        self.bonds = tuple(self._bonds())

    # ------------------------------------------------------------------------------------------------------------ bonds
    def _bonds(self) -> Iterator[At]:
        """Every place where neutral and ground may be tied, with what is stated of it."""
        e, s = self.e, self.e.sources
        for p in e.panels:
            yield At(p.id, Bond(f"panels.{p.id}.neutral_bond", p.neutral_bond), f"panel {p.id}")
        for g in s.generators if s else ():
            yield At(g.id, Bond(f"sources.generators.{g.id}.neutral_bond", g.neutral_bond), f"generator {g.id}")
        for t in self.transfers:
            yield At(t.id, Bond(f"sources.transfers.{t.id}.bonded", t.bonded), f"switch {t.id}")
        inside = {p.structure for p in e.panels if p.neutral_bond}
        for x in e.grounding.structures if e.grounding else ():
            path = f"grounding.structures.{x.id}.neutral_bond"
            if x.id == self.gear.structure:
                yield At(self.gear.id, Bond(path, x.neutral_bond), f"service equipment {self.gear.id}")
            elif x.id not in inside and (entry := self.entry(x.id)):
                yield At(entry, Bond(path, x.neutral_bond), f"structure {x.id}, at {entry}")

    def unsaid(self) -> tuple[str, ...]:
        """What a proof cannot do without: whether a structure is bonded, and what a switch breaks where it is told twice."""
        stated = {x.id for x in self.e.grounding.structures} if self.e.grounding else set()
        there = dict.fromkeys((self.gear.structure, *(p.structure for p in self.e.panels)))
        at = tuple(f"whether neutral and ground are bonded at {x}, under grounding" for x in there if x not in stated)
        return at + self.contradicted()

    def contradicted(self) -> tuple[str, ...]:
        """Switches whose poles say another thing of the neutral than the words beside them."""
        return tuple(
            f"which is so at {t.id}: {t.poles} switched poles, or the neutral {'' if t.neutral_switched else 'not '}switched"
            for t in self.transfers if t.neutral_switched != (t.poles > LINES))

    def entry(self, structure: str) -> str:
        """The panel that feeders from elsewhere come in at; where there is none, the first panel of the structure."""
        home = {p.id: p.structure for p in self.e.panels}
        for f in self.e.feeders:
            if home.get(f.to) == structure != home.get(f.from_, self.gear.structure):
                return f.to
        return next((p for p, at in home.items() if at == structure), "")

    # ------------------------------------------------------------------------------------------------------------ modes
    def source_of(self, t: Transfer) -> str:
        """The source behind the alternate side of a switch, through buses and other switches."""
        seen, at = {t.id}, t.alternate
        while (up := self.by_load.get(at) or self.by_id.get(at)) is not None and up.id not in seen:
            seen.add(up.id)
            at = up.alternate
        return at

    def modes(self) -> dict[str, tuple[str, ...]]:
        """Name of a mode -> the sources that are on beside the utility."""
        sources = list(dict.fromkeys(self.source_of(t) for t in self.transfers))
        if len(sources) <= MOST:
            sets = [c for n in range(1, len(sources) + 1) for c in combinations(sources, n)]
        else:
            sets = [*((x,) for x in sources), tuple(sources)]
        return {UTILITY: (), **{TOGETHER.join(c): c for c in sets}, **{i: (i,) for i in self.inlets}}

    def backed(self, place: str, on: tuple[str, ...]) -> bool:
        """Whether a bus or switch is fed by one of the sources that are on."""
        seen: set[str] = set()
        while place not in seen:
            seen.add(place)
            t = self.by_load.get(place) or self.by_id.get(place)
            if t is None:
                return place in on
            if self.source_of(t) in on:
                return True
            place = t.normal
        return False

    # ------------------------------------------------------------------------------------------------------------- ties
    def ties(self, on: tuple[str, ...], unknown: bool) -> Iterator[Tie]:
        """Every neutral conductor and pole, closed or open in this mode; `unknown` is how what is not stated is taken."""
        yield Tie(UTILITY, self.gear.id, True, f"the service neutral ties the utility to {self.gear.id}")
        for m in self.mains:
            yield Tie(self.gear.id, m, True)
        yield from self._feeders(on, unknown)
        for t in self.transfers:
            yield from self._switch(t, self.source_of(t) in on)
        s = self.e.sources
        if s is None:
            return
        for st in s.storage:
            if st.panel:
                yield Tie(st.id, st.panel, True, f"{st.id} shares the neutral of {st.panel}")
        for so in s.solar:
            yield Tie(so.id, so.panel, True, f"{so.id} shares the neutral of {so.panel}")
        for i in s.inlets:
            if i.id in on:
                yield Tie(i.id, i.panel, True, f"the cord ties the neutral of the portable generator to {i.panel}")

    def _feeders(self, on: tuple[str, ...], unknown: bool) -> Iterator[Tie]:
        away = {a.to: a for a in self.alternates if self.breaks(a, unknown)}
        for f in self.e.feeders:
            t = self.by_load.get(f.to)
            if t is not None and t.normal in (f.id, f.from_):
                continue                                   # the switch stands in this feeder, and is tied by itself
            other = away.get(f.to)
            gone = other is not None and self.backed(other.from_, on)
            yield Tie(f.from_, f.to, not gone)
        for a in self.alternates:
            yield Tie(self.place(a.from_), self.place(a.to), not self.breaks(a, unknown) or self.backed(a.from_, on))

    def breaks(self, a: Alternate, unknown: bool) -> bool:
        """Whether the switch at a panel breaks the neutral, with a reading for what nobody has said; one supply has no switch."""
        return unknown and a.to in self.twice if a.neutral_switched is None else a.neutral_switched

    def _panels(self, on: tuple[str, ...], unknown: bool) -> Iterator[str]:
        """Steps: on which side the switches stand that break the neutral at a panel, and where both supplies stay tied."""
        broken = [a for a in self.alternates if self.breaks(a, unknown)]
        second = [a for a in broken if self.backed(a.from_, on)]
        for word, here in (("first", [a for a in broken if a not in second]), ("second", second)):
            if here:
                yield (f"switches at panels that break the neutral, on the {word} supply: {', '.join(a.to for a in here)}; the "
                       "neutral of the other one is open there")
        both = [a.to for a in self.alternates if a not in broken and a.to in self.twice]
        if both:
            yield f"panels tied to both of their supplies, since no switch breaks the neutral: {', '.join(both)}"

    def place(self, name: str) -> str:
        """The node of the graph that an id stands for; a feeder stands for the place where it begins."""
        feeder = next((f for f in self.e.feeders if f.id == name), None)
        return name if name in self.places or feeder is None else feeder.from_

    def _switch(self, t: Transfer, over: bool) -> Iterator[Tie]:
        """The poles of one switch: both sides where it breaks no neutral, the side it stands on where it does."""
        yield Tie(t.id, t.load, True)
        own = self.own_run(t)
        if not t.neutral_switched:
            why = f"{t.id} breaks no neutral: {t.load} stays tied to {t.normal} and to {t.alternate}, whichever side it is on"
            yield Tie(t.id, self.place(t.normal), True, why)
            if not own:
                yield Tie(t.id, self.place(t.alternate), True)
            return
        for name, other, here in (("normal", t.normal, not over), ("alternate", t.alternate, over)):
            if own and name == "alternate":
                continue
            word = "tied to" if here else "broken from"
            yield Tie(t.id, self.place(other), here, f"{t.id} switches the neutral: {t.load} is {word} {other}, its {name} side")

    def own_run(self, t: Transfer) -> bool:
        """Whether an islanding device's storage stands on its load side already, by a panel and runs that are stated."""
        s = self.e.sources
        at = next((x.panel for x in (s.storage if s else ()) if x.id == t.alternate and t.kind == "island"), None)
        above = {**{f.to: f.from_ for f in self.e.feeders}, **{a.to: a.from_ for a in self.alternates}}
        seen: set[str | None] = set()
        while at and at != t.load and at not in seen:
            seen.add(at)
            at = above.get(at)
        return at == t.load

    # ------------------------------------------------------------------------------------------------------------ proof
    def proof(self, mode: str, on: tuple[str, ...]) -> Proof:
        """The proof of one mode, and whether what is not stated could change it."""
        first, second = (self._read(mode, on, unknown) for unknown in (False, True))
        missing = [*self.unsaid(), *(f"whether the portable generator at inlet {i} bonds its neutral to its frame"
                   for i in on if i in self.inlets and self.inlets[i].generator_bond is None)]
        unsaid = [a for a in self.alternates if a.neutral_switched is None and a.to in self.twice]
        switches = [f"whether the switch at {a.to} ({a.id}) breaks the neutral" for a in unsaid]
        unsure = (*self.contradicted(), *(switches if first.rings != second.rings else ()))
        if counts(first) != counts(second):
            missing += switches
        elif unsaid:
            both = (f"second supplies of which nobody says whether their switch breaks the neutral: {len(unsaid)}; "
                    "read both ways, the bonds are the same")
            before, told = first.steps[:-len(first.live)], first.steps[-len(first.live):]
            first = first._replace(steps=(*before, both, *told), both=len(unsaid))
        return first._replace(open=tuple(missing), unsure=unsure)

    def _read(self, mode: str, on: tuple[str, ...], unknown: bool) -> Proof:
        ties = tuple(self.ties(on, unknown))
        places = [*self.places, *(i for i in on if i in self.inlets)]
        sources = {UTILITY, *on}
        live = tuple(i for i in islands(places, ties) if sources & set(i))
        portable = tuple(At(i, Bond(f"sources.inlets.{i}.generator_bond", bool(x.generator_bond)), f"portable generator at {i}")
                         for i in on if (x := self.inlets.get(i)))
        bonds = tuple(tuple(b for b in (*self.bonds, *portable) if b.place in i) for i in live)
        stand = ", ".join(f"{t.id} at {'alternate' if self.source_of(t) in on else 'normal'}" for t in self.transfers)
        steps = ((f"switches: {stand}",) if stand else ()) + tuple(
            t.why for t in ties if t.why and (t.a in self.by_id or UTILITY in (t.a, t.b) or not t.closed or t.a in self.inlets))
        steps += tuple(self._panels(on, unknown))
        told = tuple(f"island of {', '.join(x for x in i if x in sources)}: {len(i)} places, bonded at "
                     f"{', '.join(b.words for b in at if b.bond.bonded) or 'no place'}"
                     for i, at in zip(live, bonds, strict=True))
        double = {x for i in live for t in ringed(i, ties) for x in (t.a, t.b)}
        at = tuple(a.to for a in self.alternates if a.to in double) or tuple(x for x in places if x in double)
        return Proof(mode, live, bonds, (*steps, *told), (), sum(rings(i, ties) for i in live), at)


def counts(p: Proof) -> list[int]:
    """Bonds of each island."""
    return [sum(b.bond.bonded for b in at) for at in p.bonds]


def proofs(estate: Estate) -> tuple[Proof, ...]:
    """One proof for every mode; kept with the estate while what it rests on is the same."""
    rests = (estate.grounding, estate.sources, estate.panels, estate.service.mains, estate.service.gear)
    tree = tuple((f.id, f.from_, f.to) for f in estate.feeders)
    kept = vars(estate).get("_proofs")
    if kept is None or kept[1] != tree or any(a is not b for a, b in zip(kept[0], rests, strict=True)):
        n = Neutrals(estate)
        kept = (rests, tree, tuple(n.proof(mode, on) for mode, on in n.modes().items()))
        vars(estate)["_proofs"] = kept
    found: tuple[Proof, ...] = kept[2]
    return found
