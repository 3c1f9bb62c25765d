"""Things on the site that keep distances: which pairs are measured, and by which rule."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.utility.distances import Apart, Gap, separation
from curtilage.design.ask import Ask
from curtilage.editions.clearances import Pair, pairs

if TYPE_CHECKING:
    from curtilage.design.design import Design

XY = tuple[float, float]


class Spot(NamedTuple):
    """Something with a place: its corners in order, and where they were written. Without corners its place is not known."""

    id: str
    kind: str
    corners: tuple[XY, ...]
    closed: bool
    path: str


def spots(d: Design) -> tuple[Spot, ...]:
    """What is located, and what should be and is not: gear, transformer, generators, storage, gas meter; pool edges."""
    e = d.estate
    found = [
        Spot(p.id, p.kind, p.outline or ((p.at,) if p.at else ()), p.closed and bool(p.outline), f"site.places.{p.id}")
        for p in e.site.places
    ]
    have = {(p.kind, p.of) for p in e.site.places}
    kinds = {p.kind for p in e.site.places}
    wanted = [("gear", e.service.gear.id)] + ([("transformer", "transformer")] if "transformer" not in kinds else [])
    if e.sources:
        wanted += [("generator", g.id) for g in e.sources.generators] + [("storage", s.id) for s in e.sources.storage]
    if e.gas and e.gas.meter and "gas meter" not in kinds:
        wanted.append(("gas meter", "gas meter"))
    found += [Spot(name, kind, (), False, "site.places") for kind, name in wanted if (kind, name) not in have]
    found += [Spot(b.id, "pool edge", b.edge or (), True, f"pool.basins.{b.id}") for b in e.pool.basins] if e.pool else []
    return tuple(found)


def stage(d: Design) -> None:
    """Every pair of things that a rule keeps apart or together."""
    things = spots(d)
    for p in pairs():
        some, others = [s for s in things if s.kind == p.a], [s for s in things if s.kind == p.b]
        for a in some:
            if not others and p.b == "opening":
                thing = f"no {p.b} is located" if a.corners else f"the coordinates of {a.id}, and of the openings near it"
                d.lack(key(p, a.id), f"{thing} (site.places)")
            for b in others:
                measure(d, p, a, b)


def key(p: Pair, a: str, b: str = "") -> str:
    """Key of the distance of two things; without the second, of one thing from whatever is of that kind."""
    return f"distance/{a}/{b or p.b}".replace(" ", "-")


def measure(d: Design, p: Pair, a: Spot, b: Spot) -> None:
    """One distance."""
    name = key(p, a.id, b.id)
    nowhere = [s.id for s in (a, b) if not s.corners]
    if nowhere:
        d.lack(name, f"the coordinates of {' and '.join(nowhere)} (site.places)")
        return
    gaps = tuple(Gap(f"{i}", *c, *s, *t) for i, (c, s, t) in enumerate(corners_and_edges(a, b)))
    rule = f"rule:{p.rule}"
    record = Apart(name.removeprefix("distance/"), getattr(d.ed, p.rule), p.near, overlap(a, b), gaps)
    paths = {"gaps": a.path, "overlap": b.path, "at_most": "site.places"}
    d.attempt(name, Ask(separation, record, a.path, "", paths, {"wanted": rule}))


def edges(s: Spot) -> list[tuple[XY, XY]]:
    """The edges of an outline; of a point the point itself."""
    c = s.corners
    if len(c) == 1:
        return [(c[0], c[0])]
    around = list(pairwise(c))
    return [*around, (c[-1], c[0])] if s.closed and len(c) > 2 else around


def corners_and_edges(a: Spot, b: Spot) -> Iterator[tuple[XY, XY, XY]]:
    """Every corner of each against every edge of the other."""
    for one, other in ((a, b), (b, a)):
        if len(one.corners) == 1 == len(other.corners) and one is b:
            continue
        for c in one.corners:
            for s, t in edges(other):
                yield c, s, t


def overlap(a: Spot, b: Spot) -> bool:
    """Whether two outlines cross, or one lies in the other."""
    if any(cross(e, f) for e in edges(a) for f in edges(b)):
        return True
    return any(inside(one.corners[0], other) for one, other in ((a, b), (b, a)))


def turn(p: XY, q: XY, r: XY) -> float:
    """Positive where r lies left of the way from p to q."""
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def cross(e: tuple[XY, XY], f: tuple[XY, XY]) -> bool:
    """Whether two edges cross inside both."""
    return turn(*e, f[0]) * turn(*e, f[1]) < 0 and turn(*f, e[0]) * turn(*f, e[1]) < 0


def inside(p: XY, s: Spot) -> bool:
    """Whether a point lies in a closed outline: edges crossed by a ray to the east are odd in number."""
    if not s.closed:
        return False
    odd = False
    for (x1, y1), (x2, y2) in edges(s):
        if (y1 > p[1]) != (y2 > p[1]) and p[0] < x1 + (p[1] - y1) * (x2 - x1) / (y2 - y1):
            odd = not odd
    return odd
