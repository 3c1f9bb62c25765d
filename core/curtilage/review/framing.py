"""Holes and notches in framing, ways around engineered members; and pulls, boxes, terminals beside them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.framing import ENGINEERED, SAWN, found
from curtilage.errors import listed
from curtilage.review import boxes
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.framing import Framing, Wanted
    from curtilage.model.raceways import Penetration


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 166 to 169, and those of boxes."""
    yield from boxes.checks(d, ask)
    if boxes.dwells(d) and not d.estate.penetrations:
        yield from unstated(d, ask)
    for p in d.estate.penetrations:
        if p.member in SAWN:
            yield from sawn(d, ask, p)
        elif p.member in ENGINEERED:
            yield engineered(ask, p)
        yield sealed(ask, p)
    for f in d.estate.framing:
        for w in f.wanted:
            yield way(d, ask, f, w)


def unstated(d: Design, ask: Asker) -> Iterator[Check]:
    """Where an estate has dwellings and states no hole at all, that is said: an empty list is no answer."""
    asked = ("166", "167", "169") if any(f.wanted for f in d.estate.framing) else ("166", "167", "168", "169")
    for number in asked:
        yield ask(number, "estate", "not evaluated", "no hole or notch is stated, so none was looked at",
                  "the holes and notches in framing (penetrations)")


def sawn(d: Design, ask: Asker, p: Penetration) -> Iterator[Check]:
    """A hole or notch in a sawn member: the wood, and the wiring in it."""
    key = f"framing/{p.id}"
    if key not in d.items:
        for number in ("166", "167"):
            yield ask(number, p.id, "not evaluated", f"{p.member} in {p.structure}", d.late.get(key, ""))
        return
    r = d.items[key]
    cut = []
    kind = "stud, taken for a bearing one (IRC R602.6) as it is not said to be non-bearing," if p.member == "stud" else p.member
    if p.hole:
        cut.append(f"hole {p.hole:g} in, at most {r.hole_most:.3g} in, {p.edge:g} in from the edge, at least {r.edge_least:g} in")
    cut += [f"notch {p.notch:g} in, at most {r.notch_most:.3g} in"] if p.notch else []
    yield ask("167", p.id, bool(r.wood_ok), f"{kind} of {p.depth:g} in: {'; '.join(cut)}",
              tags=(f"{key}/hole_most", f"{key}/notch_most", f"{key}/edge_least"))
    guard = "guarded by a plate" if p.plate else "a raceway that needs no plate" if p.conduit else "no plate is stated"
    said = f"{p.edge:g} in from the edge, {r.nail_least:g} in without a plate; {guard}" if p.hole else f"a notch; {guard}"
    yield ask("166", p.id, bool(r.nail_ok), said, tags=(f"{key}/nail_least",))


def engineered(ask: Asker, p: Penetration) -> Check:
    """A hole in an engineered member: never by a rule of thumb."""
    cut = f"{p.hole:g} in hole" if p.hole else f"{p.notch:g} in notch" if p.notch else "a cut"
    if p.approval is None:
        said = f"{cut} in an engineered member ({p.member}) of {p.structure}; nobody who may has allowed it"
        return ask("168", p.id, False, said, "the approval of its maker or of an engineer")
    return ask("168", p.id, "attested", f"{cut} in {p.member}; {p.approval.by}, {p.approval.date}, {p.approval.evidence}")


def sealed(ask: Asker, p: Penetration) -> Check:
    """Firestop of a rated assembly, fireblock between storeys."""
    if not p.fire_rated and not p.between_floors:
        return ask("169", p.id, "does not apply", "no rated assembly, and no way between storeys is opened")
    what = "a fire-rated assembly" if p.fire_rated else "a way between storeys"
    if p.sealed is None:
        return ask("169", p.id, "not evaluated", f"it opens {what}", f"whether the opening {p.id} is sealed")
    return ask("169", p.id, p.sealed, f"it opens {what}; stated as {'sealed' if p.sealed else 'open'}")


def way(d: Design, ask: Asker, f: Framing, w: Wanted) -> Check:
    """A run through open framing: around what must not be bored."""
    key, name, x = f"framing/{f.id}-{w.id}", f"{f.id}-{w.id}", found(d, f, w)
    bored = listed([f"{q.members} {q.crosses} ({q.id})" for q in x.forbidden])
    if key not in d.items:
        return ask("168", name, False, d.late.get(key, x.why))
    r = d.items[key]
    along = ", ".join(q.id for q in x.allowed)
    approved = [q for q in x.allowed if q.crosses in ENGINEERED]
    said = f"{r.length:,.0f} ft by {along}"
    if x.forbidden:
        said += f"; {r.shortest:,.0f} ft would bore {bored}"
    if approved:
        return ask("168", name, "attested", f"{said}; approved: {listed([q.id for q in approved])}", tags=(f"{key}/length",))
    return ask("168", name, True, said, tags=(f"{key}/length", f"{key}/shortest", f"{key}/more"))
