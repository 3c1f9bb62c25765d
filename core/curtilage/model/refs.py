"""What refers to what, checked on the file as written, so that a wrong reference is told beside everything else."""
from collections.abc import Mapping
from typing import Any, NamedTuple

from curtilage.errors import Problems, did_you_mean, listed
from curtilage.model.graph import feeder_tree
from curtilage.model.places import Found, Map, Place, Seq, each, id_of
from curtilage.units import shown

NAMED = {
    "structure": "structures[].id", "panel": "panels[].id", "main": "service.mains[].id", "gear": "service.gear.id",
    "feeder": "feeders[].id", "group": "groups[].id", "manager": "managers[].id", "trench": "site_graph.trenches[].id",
    "generator": "sources.generators[].id", "storage": "sources.storage[].id", "solar supply": "sources.solar[].id",
    "transfer switch": "sources.transfers[].id", "bus": "sources.buses[].id", "alternate": "sources.alternates[].id",
    "gas appliance": "gas.appliances[].id", "gas run": "gas.runs[].id", "basin": "pool.basins[].id", "raceway": "raceways[].id",
    "electrode": "grounding.structures[].electrodes[].id",
    "box": "boxes[].id", "event": "sequence[].id", "temporary service": "temporary.services[].id",
    "temporary board": "temporary.boards[].id", "boundary": "site.boundaries[].id",
}
"""Kind of thing -> where its ids stand."""

SUPPLIES = ("main", "panel", "feeder", "bus", "transfer switch", "generator", "storage", "solar supply", "gear")

REFERS: dict[str, tuple[str, ...]] = {
    "service.gear.structure": ("structure",), "service.options[].mains[].feeders[]": ("feeder",),
    "service.milestones[].before[]": ("event",), "site.places[].of": ("structure", "gear", "generator", "storage"),
    "metered.main": ("main",), "panels[].structure": ("structure",),
    "feeders[].from": ("main", "panel"), "feeders[].to": ("panel",),
    "site_graph.trenches[].from": ("node",), "site_graph.trenches[].to": ("node",),
    "managers[].at": ("structure", "panel", "feeder", "main"), "shared_neutrals[].loads[]": ("load",),
    "grounding.structures[].id": ("structure",), "grounding.structures[].electrodes[].through": ("electrode",),
    "grounding.structures[].electrodes[].pour": ("event",), "grounding.sources[].id": ("generator", "storage"),
    "sources.generators[].structure": ("structure",), "sources.storage[].structure": ("structure",),
    "sources.storage[].panel": ("panel", "bus"), "sources.solar[].structure": ("structure",),
    "sources.solar[].panel": ("panel", "bus"),
    "sources.transfers[].structure": ("structure",), "sources.transfers[].normal": SUPPLIES,
    "sources.transfers[].alternate": SUPPLIES, "sources.transfers[].load": ("panel", "bus"),
    "sources.buses[].structure": ("structure",), "sources.alternates[].from": SUPPLIES,
    "sources.alternates[].to": ("panel", "bus", "transfer switch"), "sources.inlets[].panel": ("panel", "bus"),
    "gas.meter.structure": ("structure",), "gas.appliances[].structure": ("structure",),
    "gas.appliances[].source": ("generator",),
    "gas.runs[].from": ("gas meter", "gas run"), "gas.runs[].to": ("gas run", "gas appliance"),
    "pool.structure": ("structure",), "pool.panel": ("panel",), "pool.items[].basin": ("basin",), "pool.items[].load": ("load",),
    "raceways[].from": ("structure", "panel", "node", "gear"), "raceways[].to": ("structure", "panel", "node", "gear"),
    "raceways[].trench": ("trench",), "raceways[].route[]": ("trench",),
    "raceways[].members[].of": ("feeder", "load", "alternate"),
    "boxes[].at": ("structure", "node", "trench"), "boxes[].raceways[]": ("raceway", "feeder", "alternate"),
    "penetrations[].structure": ("structure",),
    "boxes[].entries[].raceway": ("raceway", "feeder", "alternate"), "pulls.trenches[].id": ("trench",),
    "pulls.runs[].of[]": ("raceway", "feeder", "alternate", "gear"),
    "pulls.trenches[].steps[].at": ("box", "node", "structure", "panel", "gear"),
    "pulls.runs[].steps[].at": ("box", "node", "structure", "panel", "gear"),
    "device_boxes[].structure": ("structure",), "framing[].id": ("structure",),
    "links[].from": ("structure",), "links[].to": ("structure",), "links[].raceway": ("raceway",),
    "provisions[].structure": ("structure",), "provisions[].from": ("structure", "panel", "node", "gear"),
    "provisions[].to": ("structure", "panel", "node", "gear"), "provisions[].load": ("load",),
    "temporary.services[].at": ("structure", "node"), "temporary.services[].feeds[]": ("structure",),
    "temporary.boards[].service": ("temporary service",), "temporary.boards[].at": ("structure", "node"),
    "temporary.loads[].on": ("temporary board", "temporary service"), "temporary.fallback.boundary": ("boundary",),
    "charging.vehicles[].supply": ("load",), "sequence[].after[]": ("event",),
}
"""Where an id of something else stands -> the kinds of thing it may name."""

APART = (("main", "panel", "gear", "bus", "transfer switch", "generator", "storage", "solar supply"),
         ("gas run", "gas appliance"), ("temporary service", "temporary board"))
"""Kinds that share one space of names, because a reference may name any of them."""


class Names(NamedTuple):
    """Kind of thing -> id -> place."""
    kinds: Mapping[str, Mapping[str, Place]]

    def of(self, *kinds: str) -> frozenset[str]:
        """The ids of some kinds."""
        return frozenset(name for kind in kinds for name in self.kinds.get(kind, ()))


def names(tree: Map, loads: Mapping[str, Place]) -> Names:
    """Every id of the file by its kind."""
    kinds: dict[str, dict[str, Place]] = {k: {str(f.value): f.at for f in each(tree, p)} for k, p in NAMED.items()}
    graph = tree.get("site_graph")
    nodes = graph.get("nodes") if isinstance(graph, Map) else None
    kinds["node"] = dict(nodes.keys_at) if isinstance(nodes, Map) else {}
    kinds["load"] = dict(loads)
    kinds["gas meter"] = {"meter": Place("", 0)}
    return Names(kinds)


def check(tree: Map, known: Names, problems: Problems) -> None:
    """Adds duplicate ids, dangling references and faults of the feeder tree to the problems."""
    before = len(problems.items)
    _twice(tree, "", problems)
    twice = {p.where.rpartition(" ")[2] for p in problems.items[before:]}
    _apart(known, problems)
    for pattern, kinds in REFERS.items():
        if any(NAMED.get(k, "").removesuffix("[].id") in twice for k in kinds):
            continue                                           # the name that is missing may be that of one of the two
        for found in each(tree, pattern):
            if isinstance(found.value, str) and found.value not in known.of(*kinds):
                dangling(f"{found.at.precise()} {found.path}", found.value, kinds, known, problems)
    _feeders(tree, known, problems)


def dangling(where: str, given: str, kinds: tuple[str, ...], known: Names, problems: Problems, also: str = "") -> None:
    """A reference to something that is not there; `also` says where else."""
    there = sorted(known.of(*kinds))
    few = len(kinds) <= 3
    said = f"there is no {listed(kinds)}" if few else "nothing that fits here is called"
    problems.add(where, f"{said} {shown(given)}{also}",
                 f"known: {listed(there, 20)}" if there else f"the estate has no {listed(kinds, 99)}", did_you_mean(given, there))


def _twice(node: Any, path: str, problems: Problems) -> None:
    if isinstance(node, Map):
        for key, value in node.items():
            _twice(value, f"{path}.{key}".lstrip("."), problems)
    elif isinstance(node, Seq):
        first: dict[str, Place] = {}
        for item, at in zip(node, node.at, strict=True):
            name = id_of(item)
            if name and name in first:
                problems.add(f"{at.precise()} {path}", f"the id {name} stands twice", f"first at {first[name]}",
                             "give one of the two another id")
            elif name:
                first[name] = at
            _twice(item, f"{path}.{name}", problems)


def _apart(known: Names, problems: Problems) -> None:
    for kinds in APART:
        seen: dict[str, tuple[str, Place]] = {}
        for kind in kinds:
            for name, at in known.kinds.get(kind, {}).items():
                if name in seen:
                    problems.add(at.precise(), f"the {kind} {name} has the id of a {seen[name][0]}", f"first at {seen[name][1]}",
                                 "give it another id, since feeders may name either")
                seen.setdefault(name, (kind, at))


class Wire(NamedTuple):
    """A feeder as far as the tree is concerned."""
    id: str
    from_: str
    to: str


def _feeders(tree: Map, known: Names, problems: Problems) -> None:
    found = {f.path.removeprefix("feeders."): f for f in each(tree, "feeders[]")}
    wires = [Wire(name, str(f.value.get("from")), str(f.value.get("to")))
             for name, f in found.items() if isinstance(f.value, Map)]
    t = feeder_tree(known.of("main"), known.kinds["panel"], wires)

    def at(name: str, key: str) -> str:
        f: Found = found[name]
        return f"{f.value.values_at.get(key, f.at).precise()} feeders.{name}.{key}"

    for ring in t.loops:
        way = " -> ".join([*ring, ring[0]])
        problems.add(at(ring[0], "from"), f"the feeders go round in a ring: {way}", "every panel must lead back to a main",
                     "feed one of them from a main or from a panel outside the ring")
    for panel, one, two in t.twice:
        problems.add(at(two, "to"), f"the panel {panel} is fed twice, by {one} and by {two}",
                     "expected one feeder in normal operation", "put the other supply under sources.alternates")
    ends = known.of("main", "panel")
    if all(w.from_ in ends and w.to in ends for w in wires):   # else the wrong end has its message, and this would follow from it
        _unfed(tree, known, t.unfed, wires, problems)


def _unfed(tree: Map, known: Names, unfed: tuple[str, ...], wires: list[Wire], problems: Problems) -> None:
    alternates = {str(f.value) for f in each(tree, "sources.alternates[].to")} | {
        str(f.value) for f in each(tree, "sources.transfers[].load")}
    for panel in unfed:
        if panel not in alternates:
            problems.add(f"{known.kinds['panel'][panel].precise()} panels.{panel}", f"no feeder reaches the panel {panel}",
                         "every panel needs a way back to a main", "add a feeder to it")
    home = {str(f.value.get("id")): str(f.value.get("structure")) for f in each(tree, "panels[]") if isinstance(f.value, Map)}
    reached = {home.get(w.to) for w in wires}                  # a structure in a ring has had its message
    reached.update(str(f.value) for f in each(tree, "service.gear.structure"))
    with_panel = set(home.values())
    for name, at in known.kinds["structure"].items():
        if name not in reached and name not in with_panel:
            problems.add(f"{at.precise()} structures.{name}", f"no feeder reaches the structure {name}",
                         "every structure needs a panel with a feeder", "add a panel in it and a feeder to that panel")
