"""The site as a graph: the shortest way along trenches, and the tree of feeders."""
from collections.abc import Iterable, Mapping
import heapq
import math
from typing import NamedTuple, Protocol

from curtilage.errors import CurtilageError, listed, nearest
from curtilage.model.site import SiteGraph


class Route(NamedTuple):
    """A way from one node to another: the trenches in order, and their length with rises [ft]."""
    edges: tuple[str, ...]
    nodes: tuple[str, ...]
    length: float


def shortest(graph: SiteGraph, a: str, b: str, use: str = "power") -> Route:
    """The shortest route from node to node along trenches of that use (`both` counts for power and comm).

    Ties are broken by the names of the trenches, so the answer does not depend on the order in the file.
    Raises `CurtilageError` for an unknown node or where no trench leads on.
    """
    for node in (a, b):
        if node not in graph.nodes:
            close = nearest(node, graph.nodes)
            raise CurtilageError(f"site_graph: there is no node {node!r}; nodes: {listed(graph.nodes, 99)}"
                                 + (f"; did you mean {close}?" if close else ""))
    found = routes(graph, a, use)
    if b in found:
        return found[b]
    raise CurtilageError(f"site_graph: no trench for {use} leads from {a} to {b}; "
                         f"from {a} one comes to {listed(sorted(found.keys() - {a}), 99)}")


def routes(graph: SiteGraph, a: str, use: str = "power") -> dict[str, Route]:
    """The shortest route from one node to every node that can be reached, with ties broken as in `shortest`."""
    return reached((t for t in graph.trenches if t.use in (use, "both")), a)


class Edge(Protocol):
    """Something with a length that leads both ways."""
    @property
    def id(self) -> str: ...
    @property
    def from_(self) -> str: ...
    @property
    def to(self) -> str: ...
    @property
    def length(self) -> float: ...
    @property
    def rise(self) -> float: ...


def reached(edges: Iterable[Edge], a: str) -> dict[str, Route]:
    """The shortest route along some edges from one node to every other that can be reached; ties are broken by names."""
    ways: dict[str, list[tuple[Edge, str]]] = {}
    for e in edges:
        ways.setdefault(e.from_, []).append((e, e.to))
        ways.setdefault(e.to, []).append((e, e.from_))
    queue: list[tuple[float, tuple[str, ...], tuple[str, ...]]] = [(0.0, (), (a,))]
    found: dict[str, Route] = {}
    while queue:
        length, steps, nodes = heapq.heappop(queue)
        here = nodes[-1]
        if here not in found:
            found[here] = Route(steps, nodes, length)
            for e, to in ways.get(here, ()):
                if to not in found:
                    heapq.heappush(queue, (length + e.length + e.rise, (*steps, e.id), (*nodes, to)))
    return found


def crow(graph: SiteGraph, a: str, b: str) -> float | None:
    """The straight distance between two nodes [ft]; None where one has no coordinates."""
    if a not in graph.nodes or b not in graph.nodes:
        return None
    return math.dist(graph.nodes[a], graph.nodes[b])


class Link(Protocol):
    """Something that leads from one thing to another."""
    @property
    def id(self) -> str: ...
    @property
    def from_(self) -> str: ...
    @property
    def to(self) -> str: ...


class Tree(NamedTuple):
    """The feeders as a tree from the mains: who feeds a panel, in an order from the service outwards."""
    feeder_of: Mapping[str, str]               # panel -> feeder
    order: tuple[str, ...]                     # feeders, each after the one that feeds it
    loops: tuple[tuple[str, ...], ...]         # feeders that go round in a ring
    twice: tuple[tuple[str, str, str], ...]    # panel, first feeder, second feeder
    unfed: tuple[str, ...]                     # panels that no main reaches and that stand in no ring


def feeder_tree(roots: Iterable[str], panels: Iterable[str], feeders: Iterable[Link]) -> Tree:
    """The tree of feeders below the mains."""
    feeder_of: dict[str, Link] = {}
    twice = []
    out: dict[str, list[Link]] = {}
    for f in feeders:
        if f.to in feeder_of:
            twice.append((f.to, feeder_of[f.to].id, f.id))
        else:
            feeder_of[f.to] = f
            out.setdefault(f.from_, []).append(f)
    order: list[str] = []
    reached = list(roots)
    for node in reached:                                       # grows while it is walked
        for f in out.get(node, ()):
            order.append(f.id)
            reached.append(f.to)
    known = set(reached)
    rest = [p for p in panels if p not in known]
    loops, ringed = _rings(rest, feeder_of)
    unfed = tuple(p for p in rest if p not in ringed)
    return Tree({p: f.id for p, f in feeder_of.items()}, tuple(order), loops, tuple(twice), unfed)


def _rings(panels: list[str], feeder_of: Mapping[str, Link]) -> tuple[tuple[tuple[str, ...], ...], set[str]]:
    rings: list[tuple[str, ...]] = []
    hung: set[str] = set()                                     # in a ring or below one
    for start in panels:
        trail: list[str] = []
        node = start
        while node in feeder_of and node not in trail and node not in hung:
            trail.append(node)
            node = feeder_of[node].from_
        if node in trail:
            ring = trail[trail.index(node):]
            rings.append(tuple(feeder_of[p].id for p in reversed(ring)))
            hung.update(trail)
        elif node in hung:
            hung.update(trail)
    return tuple(rings), hung
