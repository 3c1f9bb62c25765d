"""Conductors in parallel: whether the raceways that hold the sets are alike, as far as they are stated."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.errors import CurtilageError, listed

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.raceways import Member, Raceway

Way = tuple["Raceway", "Member"]


def sets_of(d: Design, kind: str, of: str) -> list[Way]:
    """The raceways that hold conductors of one feeder, or of the service, each as often as it is laid."""
    found = [(r, m) for r in d.estate.raceways for m in r.members if m.kind == kind and (not of or m.of == of)]
    return [way for way in found for _ in range(way[0].count)]


def length_of(d: Design, r: Raceway) -> float | None:
    """Stated, or along its trenches, or along the route between its ends; None where nobody knows."""
    if r.length is not None:
        return r.length
    graph = d.estate.site_graph
    laid = (r.trench,) if r.trench else r.route
    if graph is not None and laid:
        return sum(t.length + t.rise for t in graph.trenches if t.id in laid)
    ends = [place if graph is not None and place in graph.nodes else d.estate.structure_of(place) for place in (r.from_, r.to)]
    try:
        return float(d.estate.route(*ends).length)
    except CurtilageError:
        return None


def differences(d: Design, kind: str, of: str, sets: float, size: str) -> list[str]:
    """What is not alike in the sets: number, raceway, length, size, insulation, number of conductors (310.10(G)(2))."""
    ways = sets_of(d, kind, of)
    if not ways or sets < 2:
        return []
    out = []
    together = len(ways) == 1
    if not together and len(ways) != sets:
        out.append(f"{len(ways)} raceways for {sets:g} sets")
    lengths = [x for r, _ in ways if (x := length_of(d, r)) is not None]
    if lengths and max(lengths) - min(lengths) > d.ed.parallel_length / 100 * max(lengths):
        out.append("lengths of " + " and ".join(f"{x:,.0f} ft ({r.id})" for x, (r, _) in zip(lengths, ways, strict=False)))
    for what, seen in (
        ("raceways of", {r.kind for r, _ in ways}),
        ("conductors of", {m.size or size for _, m in ways}),
        ("insulation", {m.insulation or "" for _, m in ways}),
        ("counts of conductors", {str(m.count) for _, m in ways}),
    ):
        if len(seen) > 1:
            out.append(f"{what} {listed(sorted(seen), 9).replace(' or ', ' and ')}")
    stated = {m.size for _, m in ways if m.size} - {size}
    if stated and len({m.size or size for _, m in ways}) == 1:
        out.append(f"conductors of {listed(sorted(stated))} in the raceways, {size} in the feeder")
    return out


def described(d: Design, kind: str, of: str) -> str:
    """How the sets lie, for a check that finds nothing wrong."""
    ways = sets_of(d, kind, of)
    if not ways:
        return "designed alike; their raceways are not stated"
    if len(ways) == 1:
        return f"all in raceway {ways[0][0].id}"
    known = [x for r, _ in ways if (x := length_of(d, r)) is not None]
    far = f", {known[0]:,.0f} ft each" if len(known) == len(ways) else ""
    return f"in {', '.join(dict.fromkeys(r.id for r, _ in ways))}, alike{far}"
