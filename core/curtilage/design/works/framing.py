"""Holes and notches in framing, and ways around members that must not be bored."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.calc.framing.holes import hole
from curtilage.calc.framing.passage import passage
from curtilage.calc.framing.records import Hole, Leg, Passage
from curtilage.design.ask import Ask
from curtilage.errors import listed

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model import framing as m
    from curtilage.model.raceways import Penetration

LIMITS = {"stud": "bearing stud", "bearing stud": "bearing stud", "non-bearing stud": "stud", "joist": "joist",
          "rafter": "rafter"}
"""Members with limits for holes and notches, and the row of limits of each; a stud of unknown bearing counts as bearing."""
SAWN = tuple(LIMITS)
ROUNDING = 1e-6
"""What two stated measures may differ by [in]."""
ENGINEERED = ("beam", "lvl", "i-joist", "truss", "glulam", "steel")
"""Members that are bored by their maker's tables or an engineer's word alone; a beam is taken for one."""


class Way(NamedTuple):
    """A run through framing: the passages of the allowed way, those of the shortest one, and what the shortest would bore."""

    allowed: tuple[m.Passage, ...]
    shortest: tuple[m.Passage, ...]
    forbidden: tuple[m.Passage, ...]
    why: str = ""


def stage(d: Design) -> None:
    """Every hole in a sawn member, and every run that is wanted through framing."""
    for p in d.estate.penetrations:
        if p.member in SAWN:
            _hole(d, p)
    for f in d.estate.framing:
        for q in f.passages:
            if q.crosses in SAWN:
                _bored(d, f, q)
        for w in f.wanted:
            _passage(d, f, w)


def stopped(p: Penetration) -> bool:
    """Whether a hole or notch is in an engineered member, and nobody who may has allowed it."""
    return p.member in ENGINEERED and p.approval is None


def forbidden(d: Design, f: m.Framing, q: m.Passage) -> bool:
    """Whether a passage bores an engineered member that nobody who may has allowed, or a sawn one beyond its limits.

    A sawn member whose hole is not known well enough to be held against the limits counts as closed until it is.
    """
    if q.crosses in SAWN:
        key = f"framing/{f.id}-{q.id}"
        return key not in d.items or not d.items[key].wood_ok
    return q.crosses in ENGINEERED and q.approval is None


def _bored(d: Design, f: m.Framing, q: m.Passage) -> None:
    """The hole that a passage needs in sawn members."""
    key, at = f"framing/{f.id}-{q.id}", f"framing.{f.id}.passages.{q.id}"
    if q.hole is None or q.depth is None or q.edge is None:
        d.lack(key, f"the hole, its distance from the edge, or the depth of the {q.crosses} is missing at passage {q.id}")
        return
    if why := impossible(q.depth, q.hole, q.edge):
        d.lack(key, f"passage {q.id}: {why}")
        return
    record = Hole(q.id, LIMITS[str(q.crosses)], q.depth, q.hole, 0.0, q.edge, False, False, True)
    d.attempt(key, Ask(hole, record, at, "ed", {"member": f"{at}.crosses"}))


def _hole(d: Design, p: Penetration) -> None:
    """One hole or notch in a sawn member."""
    key, at = f"framing/{p.id}", f"penetrations.{p.id}"
    if p.depth is None:
        d.lack(key, f"the depth of the {p.member} at {p.id} is missing")
    elif p.hole is None and p.notch is None:
        d.lack(key, f"the diameter of the hole or the depth of the notch at {p.id} is missing")
    elif p.hole is not None and p.edge is None:
        d.lack(key, f"the distance from the hole to the edge of the {p.member} at {p.id} is missing")
    elif p.notch is not None and p.member in ("joist", "rafter") and p.middle_third is None:
        d.lack(key, f"whether the notch {p.id} lies in the middle third of the span is missing")
    elif p.hole is not None and p.edge is not None and (why := impossible(p.depth, p.hole, p.edge)):
        d.lack(key, f"{p.id}: {why}")
    else:
        limits = LIMITS[p.member]
        member = f"{limits} doubled" if p.doubled and limits == "bearing stud" else limits
        middle = p.member in ("joist", "rafter") and bool(p.middle_third)
        guarded = p.conduit or bool(p.plate)
        record = Hole(p.id, member, p.depth, p.hole or 0.0, p.notch or 0.0, p.edge or 0.0, p.at_end, middle, guarded)
        paths = {"member": f"{at}.member", "middle": f"{at}.middle_third",
                 "guarded": f"{at}.conduit" if p.conduit else f"{at}.plate"}
        d.attempt(key, Ask(hole, record, at, "ed", paths))


def impossible(depth: float, hole: float, edge: float) -> str:
    """What speaks against a stated edge [in]: a hole leaves half of the rest of the depth on its nearer side, at most."""
    most = (depth - hole) / 2
    if edge <= most + ROUNDING:
        return ""
    if most < 0:
        return f"a hole of {hole:g} in does not go into a member of {depth:g} in"
    return (f"a hole of {hole:g} in in a member of {depth:g} in leaves {most:.4g} in at most on its nearer side, and "
            f"{edge:g} in to the edge is stated: one of the three measures is wrong")


def found(d: Design, f: m.Framing, w: m.Wanted) -> Way:
    """The shortest way that bores nothing it must not, beside the shortest of all."""
    from curtilage.model.graph import reached

    by = {q.id: q for q in f.passages}
    every = reached(f.passages, w.from_)
    allowed = reached((q for q in f.passages if not forbidden(d, f, q)), w.from_)
    if w.to not in every:
        return Way((), (), (), f"no passage of the framing of {f.id} leads from {w.from_} to {w.to}")
    shortest = tuple(by[name] for name in every[w.to].edges)
    bored = tuple(q for q in shortest if forbidden(d, f, q))
    if w.to not in allowed:
        members = listed([f"{q.members} {q.crosses} ({q.id})" for q in bored])
        return Way((), shortest, bored,
                   f"every way from {w.from_} to {w.to} bores what must not be bored: {members}; it needs a soffit, a chase or a "
                   "path in the slab, or the maker's or an engineer's approval")
    return Way(tuple(by[name] for name in allowed[w.to].edges), shortest, bored)


def _passage(d: Design, f: m.Framing, w: m.Wanted) -> None:
    """One run from cavity to cavity."""
    key, way = f"framing/{f.id}-{w.id}", found(d, f, w)
    if way.why:
        d.lack(key, way.why)
        return
    legs, shortest = (tuple(Leg(f"{f.id}.passages.{q.id}", q.length, q.rise) for q in some)
                      for some in (way.allowed, way.shortest))
    d.attempt(key, Ask(passage, Passage(f"{f.id}-{w.id}", legs, shortest), f"framing.{f.id}", ""))
