"""Raceways and trenches: fill, jam, cover, seals, expansion, ducts, what may lie together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.laid import CARRIES, Planned, home, key_of, planned
from curtilage.design.works.raceways import CABLES, PVC, stated_size
from curtilage.errors import listed
from curtilage.model.graph import routes
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.raceways import Raceway

NO_RIBBON = ("; no warning ribbon {:g} in above the service conductors of {}: some read the rule for all service conductors in "
             "the ground, others for those buried without a raceway")
POWER = (*CARRIES, "branch")
"""Members that are conductors of power and light."""


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 081 to 083a, 161 to 161d, 164, 165, 172, and 085 on trenches."""
    runs = planned(d)
    for p in runs:
        yield from filled(d, ask, p)
    yield from shared(d, ask)
    yield from together(d, ask)
    yield from agreeing(d, ask)
    yield from covers(d, ask)
    yield from seals(d, ask, runs)
    yield from expansions(d, ask, runs)
    yield from freezing(d, ask, runs)
    yield from trenches(d, ask)
    yield from communication(d, ask, runs)


# ------------------------------------------------------------------------------------------------------------------- fill
def filled(d: Design, ask: Asker, p: Planned) -> Iterator[Check]:
    """Fill and jam of one raceway."""
    key = f"raceway/{p.id}"
    if key not in d.items:
        yield ask("161", p.id, "not evaluated", "its fill is not known", d.lacking.get(key, "what lies in it"))
        return
    r = d.items[key]
    if not r.wires:
        yield ask("161", p.id, "does not apply", f"nothing lies in it yet; {r.room:.2f} in2 may be filled", tags=(f"{key}/room",))
        return
    chosen = p.stated is None or p.stated.size is None
    rejected = f"; {r.below} would be filled to {r.below_fill:.1f} %" if r.below != "none" else ""
    why = f", at least {r.least}" if not r.fill_ok else rejected if chosen or r.size == r.least else f"; {r.least} would do"
    said = f"{r.size} {p.kind}{' (chosen)' if chosen else ''}: {r.fill:.1f} % of at most {r.share:.0f} %{why}"
    yield ask("161", p.id, bool(r.fill_ok), said, tags=(f"{key}/fill", f"{key}/share", f"{key}/least"))
    if r.jam:
        said = f"ratio {r.jam:.2f}, in bends {r.jam_in_bend:.2f}; three can wedge from {d.ed.jam_from:g} to {d.ed.jam_to:g}"
        yield ask("161a", p.id, bool(r.jam_ok), said, tags=(f"{key}/jam", f"{key}/jam_in_bend"))
    yield from bundled(d, ask, p, float(r.carrying))


def bundled(d: Design, ask: Asker, p: Planned, carrying: float) -> Iterator[Check]:
    """Conductors that count, against the number that the ampacity of each supply in the raceway was found for."""
    members = p.stated.members if p.stated is not None else ()
    supplies = {key_of(d, m.kind, m.of) for m in members if m.kind in POWER} if p.stated is not None else {p.supply}
    for key in sorted(k for k in supplies if k):
        taken = float(d.asks[key].record.ccc)
        said = f"{carrying:.0f} lie in it, the ampacity of {key.partition('/')[2] or key} was found for {taken:.0f}"
        yield ask("161b", p.id, carrying <= taken, said, tags=(f"raceway/{p.id}/carrying",))


# ------------------------------------------------------------------------------------------------- what may lie together
def shared(d: Design, ask: Asker) -> Iterator[Check]:
    """Power and cables of other systems in one raceway or one box."""
    for r in d.estate.raceways:
        power = [m.id for m in r.members if m.kind in POWER]
        cables = {kind: [m.id for m in r.members if m.kind == kind] for kind in CABLES}
        found = "; ".join(f"{kind}: {listed(ids)}" for kind, ids in cables.items() if ids)
        if not r.members:
            continue
        if not (power and found):
            yield ask("164", r.id, True, f"{found or 'power alone'}" if not power else "power alone")
            continue
        glass = not any(ids for kind, ids in cables.items() if kind != "fiber")
        outcome: bool | str = "needs judgement" if glass else False
        more = "; only a cable of glass without metal may lie with power" if glass else ""
        yield ask("164", r.id, outcome, f"power: {listed(power)}; {found}, in one raceway{more}")
    use = {r.id: r.use for r in d.estate.raceways}
    for b in d.estate.boxes:
        entering = {*b.raceways, *(x.raceway for x in b.entries if x.raceway)}
        uses = {use[name]: name for name in sorted(entering) if use.get(name) in ("power", "comm")}
        if len(uses) > 1:
            said = f"power ({uses['power']}) and communication ({uses['comm']}) enter it; a barrier is not stated"
            yield ask("164", b.id, "needs judgement", said)


def together(d: Design, ask: Asker) -> Iterator[Check]:
    """Lines, neutral and ground of each set of a supply in the same raceway, and as many raceways as sets."""
    holds: dict[str, float] = {}
    for r in d.estate.raceways:
        for m in r.members:
            key = key_of(d, m.kind, m.of) if m.kind in CARRIES else ""
            if key:
                holds[key] = holds.get(key, 0) + r.count * m.count / 3
                yield together_in(ask, r, m.id, m.of or "the service", m.count, key == "service" or grounded(r, m.of))
    for key, sets in holds.items():
        wanted, name = d.items[key].sets, key.partition("/")[2] or key
        said = f"{sets:g} sets of three lie in stated raceways, {wanted:g} are laid"
        yield ask("165", name, sets == wanted, said, tags=(f"{key}/sets",))


MATERIALS = {"pvc": ("pvc40", "pvc80", "hdpe", "lfnc-a", "lfnc-b"), "steel": ("emt", "imc", "rmc", "fmc", "lfmc"),
             "aluminium": ("emt", "rmc", "fmc")}
"""Material of a raceway as feeders state it -> the kinds that are made of it."""


def agreeing(d: Design, ask: Asker) -> Iterator[Check]:
    """A stated raceway against the supply in it: where they lead, material, conductor size, trade size."""
    for r in d.estate.raceways:
        for m in r.members:
            key = key_of(d, m.kind, m.of) if m.kind in CARRIES else ""
            if not key:
                continue
            worked, wanted, lacks = d.asks[key].view.partition("-")[2], d.items[key], []
            if r.kind not in MATERIALS[worked]:
                lacks.append(f"{r.kind} is stated, resistance and reactance were taken in {worked}")
            if m.size is not None and m.size != wanted.size:
                lacks.append(f"{m.size} lies in it, {wanted.size} is calculated")
            lacks += elsewhere(d, r, key)
            trade = stated_size(d, key)
            if trade and r.size is not None and trade != r.size:
                lacks.append(f"trade size {r.size} here, {trade} there")
            said = "; ".join(lacks) or f"{r.kind}, {m.size or wanted.size}: as calculated"
            yield ask("161d", r.id, not lacks, said, tags=(f"{key}/size",))


def elsewhere(d: Design, r: Raceway, key: str) -> list[str]:
    """In words, a structure at which a raceway ends and to which its supply does not come; empty where there is none."""
    kind, _, name = key.partition("/")
    e = d.estate
    others = e.sources.alternates if e.sources is not None else ()
    f = next((x for x in (e.feeders if kind == "feeder" else others if kind == "alternate" else ()) if x.id == name), None)
    if f is None:
        return []
    ends = home(e, f.from_), home(e, f.to)
    graph = e.site_graph
    passed = routes(graph, ends[0])[ends[1]].nodes if graph and ends[1] in routes(graph, ends[0]) else ends
    structures = {s.id for s in e.structures}
    wrong = [x for x in (home(e, r.from_), home(e, r.to)) if x in structures and x not in (*ends, *passed)]
    return [f"it ends at {x}, and {kind} {name} leads from {ends[0]} to {ends[1]}" for x in wrong]


def grounded(r: Raceway, of: str | None) -> bool:
    """Whether the equipment ground of a supply lies with it; a metal raceway is one itself (250.118)."""
    return r.kind in ("emt", "imc", "rmc") or any(m.kind == "ground" and m.of == of for m in r.members)


def together_in(ask: Asker, r: Raceway, member: str, of: str, count: int, ground: bool) -> Check:
    """One supply in one raceway."""
    lacks = [] if count % 3 == 0 else [f"{count} conductors are no sets of two lines and a neutral"]
    lacks += [] if ground else ["no equipment ground lies with them"]
    said = "; ".join(lacks) or f"{count} conductors and what grounds them, together"
    return ask("165", r.id, not lacks, f"{member}, of {of}: {said}")


# ------------------------------------------------------------------------------------------------------ cover and sealing
def covers(d: Design, ask: Asker) -> Iterator[Check]:
    """Cover by trench, or by raceway where one lies in no trench of the graph."""
    d.works()
    places: dict[str, list[str]] = {}
    for key in d.late:
        if key.startswith("cover/"):
            _, name, *trench = key.split("/")
            places.setdefault(trench[0] if trench else name, []).append(key)
    for place, keys in places.items():
        missing = next((d.late[k] for k in keys if d.late[k]), "")
        found = {k: d.items[k] for k in keys if k in d.items}
        if missing:
            yield ask("081", place, "not evaluated", f"{len(keys)} raceways", missing)
            continue
        worst = min(found, key=lambda k: (found[k].cover_ok and found[k].ribbon_ok, found[k].deeper))
        c = found[worst]
        shallow = [k.split("/")[1] for k, x in found.items() if not x.cover_ok]
        bare = [k.split("/")[1] for k, x in found.items() if not x.ribbon_ok]
        said = f"{c.cover:g} in over {len(keys)} raceway{'s' * (len(keys) > 1)}, {c.least:g} in asked ({worst.split('/')[1]})"
        said += f"; too shallow: {listed(shallow, 6)}" if shallow else ""
        said += NO_RIBBON.format(d.ed.ribbon_above, listed(bare, 6)) if bare else ""
        outcome: bool | str = False if shallow else "needs judgement" if bare else True
        yield ask("081", place, outcome, said, tags=(f"{worst}/cover", f"{worst}/least"))


def seals(d: Design, ask: Asker, runs: Iterable[Planned]) -> Iterator[Check]:
    """Raceways from the ground, by the structure at which they come out."""
    ends: dict[str, list[Planned]] = {}
    structures = {s.id for s in d.estate.structures}
    for p in runs:
        if p.buried:
            for place in sorted({p.start, p.end} & structures):
                ends.setdefault(place, []).append(p)
    for place, some in ends.items():
        def named(state: bool | None, some: list[Planned] = some) -> list[str]:
            return [p.id for p in some if (p.stated.sealed if p.stated is not None else None) is state]
        left, unknown = named(False), named(None)
        if left:
            yield ask("082", place, False, f"not sealed: {listed(left, 6)}")
        elif unknown:
            yield ask("082", place, "not evaluated", f"{len(some)} raceways come out of the ground here",
                      f"whether the ends of {listed(unknown, 6)} are sealed")
        else:
            yield ask("082", place, True, f"{len(some)} raceways from the ground, stated as sealed")


def expansions(d: Design, ask: Asker, runs: Iterable[Planned]) -> Iterator[Check]:
    """Plastic raceways in the open."""
    unknown = []
    for p in runs:
        key = f"expansion/{p.id}"
        if p.kind not in PVC:
            continue
        if p.stated is None or p.stated.exposed is None:
            unknown += [p.id] if p.buried else []
        elif p.stated.exposed == 0:
            continue
        elif key in d.items:
            x = d.items[key]
            fitted = "a fitting is stated" if p.stated.expansion else "no fitting"
            said = f"{x.change:.2f} in over {x.swing * 1.8:.0f} degF; {fitted}"
            yield ask("083", p.id, bool(x.fitting_ok), said, tags=(f"{key}/change", f"{key}/wanted"))
        elif key in d.lacking:
            yield ask("083", p.id, "not evaluated", "its movement is not known", d.lacking[key])
    if unknown:
        yield ask("083", "raceways", "not evaluated", f"{len(unknown)} plastic raceways come out of the ground",
                  f"the longest straight run in the open of {listed(unknown, 6)} (exposed)")


def freezing(d: Design, ask: Asker, runs: Iterable[Planned]) -> Iterator[Check]:
    """Risers of raceways that lie in the frost, by the structure at which they rise."""
    frost = d.estate.site.frost
    rising = [p for p in runs if p.buried]
    if not rising:
        return
    if frost is None:
        said = f"{len(rising)} raceways lie in the ground"
        yield ask("083a", "site", "not evaluated", said, "the frost depth of the site (frost)")
        return
    ends: dict[str, list[Planned]] = {}
    structures = {s.id for s in d.estate.structures}
    for p in rising:
        shallow = [k for k in d.late if k.startswith(f"cover/{p.id}/") or k == f"cover/{p.id}"]
        if any(k in d.items and d.items[k].cover < frost for k in shallow):
            for place in sorted({p.start, p.end} & structures):
                ends.setdefault(place, []).append(p)
    for place, some in ends.items():
        stiff = [p.id for p in some if p.stated is None or not p.stated.expansion]
        said = f"{len(some)} raceways lie higher than the frost, {frost:g} in"
        said += f"; no fitting is stated for {listed(stiff, 6)}" if stiff else "; fittings are stated"
        yield ask("083a", place, "needs judgement" if stiff else True, said)
    if not ends and any(k.startswith("cover/") for k in d.items):
        yield ask("083a", "site", True, f"no raceway with a known cover lies higher than the frost, {frost:g} in")


# --------------------------------------------------------------------------------------------------------------- trenches
def trenches(d: Design, ask: Asker) -> Iterator[Check]:
    """Ducts and length of each trench."""
    for t in d.estate.site_graph.trenches if d.estate.site_graph else ():
        key = f"trench/{t.id}"
        if key not in d.items:
            continue
        r = d.items[key]
        said = f"{r.power:g} for power, {r.comm:g} for communication, {r.empty:g} spare; {r.ducts:g} stated"
        yield ask("161c", t.id, bool(r.ducts_ok), said, tags=(f"{key}/needed", f"{key}/ducts"))
        if r.straight:
            said = f"{t.length + t.rise:,.0f} ft, {r.straight:,.0f} ft in a straight line between its ends"
            yield ask("085", t.id, bool(r.length_ok), said, tags=(f"{key}/straight", f"{key}/beyond"))
        if r.apart and t.separation is None:
            yield ask("172", t.id, "not evaluated", "power and communication lie in it",
                      f"the earth between power ducts and communication ducts in trench {t.id} (separation)")
        elif r.apart:
            said = f"{t.separation:g} in between power and communication, {r.apart:g} in by common practice"
            yield ask("172", t.id, bool(r.apart_ok), said, tags=(f"{key}/apart",))


def communication(d: Design, ask: Asker, runs: Iterable[Planned]) -> Iterator[Check]:
    """Raceways for communication to each structure that a cable link reaches, and a spare one."""
    linked = {end for k in d.estate.links if k.medium != "wireless" for end in (k.from_, k.to)}
    mine = [p for p in runs if p.use == "comm"]
    for s in d.estate.structures:
        if s.id not in linked:
            continue
        own = [p.id for p in mine if s.id in (p.start, p.end) and p.stated is not None and p.stated.members]
        spare = [p.id for p in mine if s.id in (p.start, p.end) and p.stated is not None and not p.stated.members]
        spare += [v.id for v in d.estate.provisions if v.use == "comm" and s.id in (v.from_, v.to)]
        lacks = ([] if own else ["none for communication"]) + ([] if spare else ["no spare for communication"])
        said = f"communication: {listed(own) if own else 'none'}; spare: {listed(spare) if spare else 'none'}"
        yield ask("172", s.id, not lacks, said)
