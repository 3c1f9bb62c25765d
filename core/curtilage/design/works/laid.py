"""Which raceways there are: those that the estate states, and one proposed for each set of each supply without any."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.errors import CurtilageError
from curtilage.model.site import SiteGraph

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.estate import Estate
    from curtilage.model.raceways import Raceway

KINDS = {"pvc": "pvc40", "aluminium": "rmc", "steel": "rmc"}
"""Kind of raceway that is proposed for the material of the basis; of the metal ones that with the thicker wall."""
CARRIES = ("service", "feeder")
"""Kinds of member that are the conductors of a supply."""
LATERAL = "lateral"


class Planned(NamedTuple):
    """A raceway of the design. `way` are the trenches it lies in; `why` says what is missing where they are not known."""

    id: str
    kind: str
    use: str
    stated: Raceway | None
    supply: str                  # of a proposed one: the key of the item whose conductors lie in it
    alike: int                   # as many of them lie side by side
    start: str                   # nodes of the site graph, or structures
    end: str
    way: tuple[str, ...]
    buried: bool
    why: str = ""


def supplies(d: Design) -> list[str]:
    """Keys of the service, feeders and alternate feeders whose conductors are sized."""
    feeders = [f"feeder/{f.id}" for f in d.estate.feeders]
    others = [f"alternate/{a.id}" for a in d.estate.sources.alternates] if d.estate.sources else []
    return [key for key in ("service", *feeders, *others) if key in d.items]


def key_of(d: Design, kind: str, name: str | None) -> str:
    """The key of the supply that a member belongs to; empty where it is none."""
    if kind == "service":
        return "service"
    found = next((k for k in (f"feeder/{name}", f"alternate/{name}", f"circuit/{name}") if k in d.items), "")
    return found


def home(e: Estate, name: str) -> str:
    """The structure or node at which something stands."""
    if e.sources is not None:
        s = e.sources
        stands = {x.id: x.structure for some in (s.buses, s.transfers, s.generators, s.storage, s.solar) for x in some}
        if name in stands:
            return stands[name]
    try:
        return e.structure_of(name)
    except KeyError:
        return name


def ends(d: Design, key: str) -> tuple[str, str]:
    """Where the conductors of a supply start and end."""
    e = d.estate
    if key == "service":
        return e.service.gear.structure, e.service.gear.structure
    name = key.partition("/")[2]
    runs = {x.id: (x.from_, x.to) for x in e.feeders} if key.startswith("feeder/") else {}
    if not runs and e.sources is not None:
        runs = {x.id: (x.from_, x.to) for x in e.sources.alternates}
    start, end = runs[name]
    return home(e, start), home(e, end)


def planned(d: Design) -> tuple[Planned, ...]:
    """Every raceway of the design, stated ones first."""
    out = [stated(d, r) for r in d.estate.raceways]
    covered = {key_of(d, m.kind, m.of) for r in d.estate.raceways for m in r.members if m.kind in CARRIES}
    for key in supplies(d):
        if key not in covered:
            out += proposed(d, key)
    return tuple(out)


def way(d: Design, start: str, end: str, use: str) -> tuple[tuple[str, ...], str]:
    """The trenches between two places, or why they are not known."""
    graph = d.estate.site_graph
    if not isinstance(graph, SiteGraph):
        return (), "the site graph, in which its trenches would stand"
    try:
        return d.estate.route(start, end, use).edges, ""
    except CurtilageError as e:
        return (), f"its route: {e}"


def stated(d: Design, r: Raceway) -> Planned:
    """A raceway that the estate states."""
    start, end = home(d.estate, r.from_), home(d.estate, r.to)
    trenches, why = r.route or ((r.trench,) if r.trench else ()), ""
    if not trenches and start != end:
        trenches, why = way(d, start, end, "comm" if r.use == "comm" else "power")
    buried = bool(trenches) or start != end or r.location is not None
    return Planned(r.id, r.kind, r.use, r, "", r.count, start, end, trenches, buried, why)


def proposed(d: Design, key: str) -> list[Planned]:
    """One raceway for each set of a supply."""
    start, end = ends(d, key)
    trenches, why = way(d, start, end, "power") if start != end else ((), "")
    kind, name = KINDS[d.asks[key].view.partition("-")[2]], LATERAL if key == "service" else key.partition("/")[2]
    if any(r.id.rpartition("-")[0] == name for r in d.estate.raceways):
        name = f"{name}-set"     # a stated raceway has that name
    buried = start != end or key == "service"
    return [Planned(f"{name}-{n}", kind, "power", None, key, 1, start, end, trenches, buried, why)
            for n in range(1, int(d.items[key].sets) + 1)]
