"""Service equipment, working space, and the rules of buildings that a feeder supplies."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.structures import supplies
from curtilage.model.panels import Panel
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.policy import Attested
    from curtilage.model.service import Gear
    from curtilage.model.site import Structure

IN_PER_FT = 12.0


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 039, 041 to 046 and 048 on the service, 043, 073 to 076 and 079 on buildings, 046 on panels."""
    yield from service(d, ask)
    yield space(d, ask, d.estate.service.gear)
    for p in d.estate.panels:
        yield space(d, ask, p)
    for s in d.estate.structures:
        if s.id != d.estate.service.gear.structure and supplies(d, s.id):
            yield from building(d, ask, s)


def attested(d: Design, number: str, subject: str) -> Attested | None:
    """Somebody's word on a check, for this subject or for all of them."""
    return next((a for a in d.estate.attested if a.check == number and a.subject in ("", subject)), None)


def stated(ask: Asker, number: str, subject: str, yes: bool | None, found: str, missing: str) -> Check:
    """What a field says: yes, no, or nothing."""
    if yes is None:
        return ask(number, subject, "not evaluated", found, missing)
    return ask(number, subject, yes, f"{found}: {'yes' if yes else 'no'}")


def service(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 039, 041 to 045 and 048."""
    e = d.estate.service
    gear = e.gear
    yield from above_next(d, ask)
    yield ask("041", gear.id, "does not apply", f"{e.voltage}, single-phase: no wye above 150 V to ground")
    if e.others < d.ed.services_per_premises:
        yield ask("042", "service", True, "one service")
    elif e.reason:
        yield ask("042", "service", "needs judgement", f"{e.others} more services; reason given: {e.reason}")
    else:
        yield ask("042", "service", False, f"{e.others} more services and no reason")
    dwelling = bool(d.tree.dwellings)
    at_home = gear.structure in d.tree.dwellings
    where = (f", {gear.location}" if gear.location else "") + ("" if at_home else " (dwellings apart from it: check 076)")
    for number, rule, yes, what in (
        ("043", d.ed.service_surge, gear.surge_protection, "surge protective device in or beside the service gear"),
        ("044", d.ed.service_emergency, gear.emergency_disconnect, f"outdoor emergency disconnect at the service gear{where}"),
    ):
        if dwelling and rule:
            yield stated(ask, number, gear.id, yes, what, what)
        else:
            yield ask(number, gear.id, "does not apply", "no dwelling on this service" if rule else "not in this edition")
    yield stated(ask, "045", gear.id, gear.barriers, "line-side barriers specified", "whether line-side barriers are specified")
    yield inside(d, ask)


def above_next(d: Design, ask: Asker) -> Iterator[Check]:
    """Check 039: mains and feeders above the rating up to which the next standard size may be taken."""
    s, limit = d.items["service"], d.ed.next_size_limit
    mains = [(m, d.items[f"main/{m}"].rating, s.ampacity, "service") for m in d.tree.mains if f"main/{m}" in d.items]
    fed = [(f.id, d.items[k].device, d.items[k].ampacity, k) for f in d.estate.feeders if (k := f"feeder/{f.id}") in d.items]
    large = [x for x in (*mains, *fed) if x[1] > limit]
    for name, rating, ampacity, key in large:
        found = f"{rating:g} A on {ampacity:.0f} A of conductors"
        yield ask("039", name, ampacity >= rating, found, tags=(f"{key}/ampacity",))
    if not large:
        yield ask("039", "service", "does not apply", f"no device above {limit:g} A")


def inside(d: Design, ask: Asker) -> Check:
    """Check 048: service conductors inside a building."""
    e = d.estate.service
    if e.inside is None:
        return ask("048", "service", "not evaluated", "", "the length of service conductors inside a building (service.inside)")
    if e.inside == 0:
        return ask("048", "service", True, "no service conductor enters a building ahead of its disconnect")
    said = attested(d, "048", "service")
    if e.encased and said:
        return ask("048", "service", "attested", f"{e.inside:g} ft inside, counted as outside; {said.by}, {said.date}")
    if e.encased:
        missing = f"who saw the {d.ed.service_encased:g} in of concrete (attested, check 048)"
        return ask("048", "service", "not evaluated", f"{e.inside:g} ft inside, said to be encased", missing)
    return ask("048", "service", False, f"{e.inside:g} ft inside a building, unprotected")


def space(d: Design, ask: Asker, thing: Gear | Panel) -> Check:
    """Check 046: working space and dedicated space of one piece of equipment."""
    key = f"space/{thing.id}"
    if key not in d.items:
        return ask("046", thing.id, "not evaluated", "", d.lacking.get(key, "the working space"))
    r = d.items[key]
    found = (
        f"{thing.depth:g} in deep, {thing.width:g} in wide, {thing.height:g} in high; at least {r.depth_least:g}, "
        f"{r.width_least:g} and {r.height_least:g} in at condition {thing.condition}"
    )
    tags = tuple(f"{key}/{name}_least" for name in ("depth", "width", "height"))
    if not r.ok:
        return ask("046", thing.id, False, found, tags=tags)
    yes, said = entrances(d, thing, rated(d, thing))
    if yes is None:
        return ask("046", thing.id, "not evaluated", found, said, tags)
    found += said
    if not yes:
        return ask("046", thing.id, False, found, tags=tags)
    if thing.dedicated is None:
        return ask("046", thing.id, "not evaluated", found, "whether the space above it is kept free (dedicated)", tags)
    found += f"; space above it kept free: {'yes' if thing.dedicated else 'no'}"
    return ask("046", thing.id, thing.dedicated, found, tags=tags)


def rated(d: Design, thing: Gear | Panel) -> float | None:
    """The rating of gear or panel; of a panel without one that of the device ahead of it."""
    if not isinstance(thing, Panel):
        return thing.bus
    f = d.tree.feeder_of.get(thing.id)
    ahead = d.items.get(f"feeder/{f.id}") if f is not None else None
    return thing.rating or thing.main or (ahead.device if ahead is not None else None)


def entrances(d: Design, thing: Gear | Panel, rating: float | None) -> tuple[bool | None, str]:
    """Whether large equipment has its two entrances (110.26(C)(2)), and what is found; None, and what is missing."""
    if rating is None or rating < d.ed.large_equipment:
        return True, ""
    wide = thing.equipment_width
    if wide is None:
        return None, f"the width of {thing.id} itself, rated {rating:g} A (equipment_width)"
    if wide <= d.ed.large_width * IN_PER_FT:
        return True, f"; {wide:g} in wide itself: one entrance does"
    if thing.indoors is None:
        return None, f"whether {thing.id}, {wide:g} in wide and rated {rating:g} A, stands indoors (indoors)"
    if not thing.indoors:
        return True, f"; {wide:g} in wide itself, in the open: the rule of two entrances does not apply, no room to leave"
    if thing.entrances is None:
        return None, f"how many entrances the working space of {thing.id} has (entrances)"
    return thing.entrances > 1, f"; {wide:g} in wide and rated {rating:g} A: {thing.entrances} of 2 entrances"


def building(d: Design, ask: Asker, s: Structure) -> Iterator[Check]:
    """Checks of one building."""
    yield supply(d, ask, s)
    yield disconnect(d, ask, s)
    key = f"disconnect/{s.id}"
    if key in d.items:
        r = d.items[key]
        found = f"{r.rating:g} A; at least {r.least:.0f} A: {r.by_use:g} A by use, {r.current:.0f} A of load"
        yield ask("075", s.id, bool(r.ok), found, tags=(f"{key}/least", f"{key}/current"))
    elif key in d.lacking:
        yield ask("075", s.id, "not evaluated", "", d.lacking[key])
    if s.occupancy == "dwelling":
        yield from dwelling(d, ask, s)
    yield plaque(d, ask, s)


def supply(d: Design, ask: Asker, s: Structure) -> Check:
    """Check 073: how many supplies, and why."""
    found = supplies(d, s.id)
    normal = [x for x in found if x.what == "normal"]
    silent = [x.id for x in found if x.what == "not said"]
    allowed = {"standby": d.ed.supplies_standby, "production": d.ed.supplies_production}
    reasons = ", ".join(f"{x.id} for {x.what}" for x in found if x.what in allowed)
    said = f"{len(normal)} in normal operation ({', '.join(x.id for x in normal)})" + (f"; {reasons}" if reasons else "")
    if silent:
        return ask("073", s.id, False, f"{said}; {', '.join(silent)} for no stated reason")
    if not all(allowed[x.what] for x in found if x.what in allowed):
        return ask("073", s.id, "needs judgement", said)
    if len(normal) <= d.ed.supplies_per_building:
        return ask("073", s.id, True, said)
    return common(d, ask, s, said)


def common(d: Design, ask: Asker, s: Structure, said: str) -> Check:
    """Several feeders in normal operation: only from one piece of equipment, each to one disconnect, all grouped."""
    normal = [x.feeder for x in supplies(d, s.id) if x.what == "normal" and x.feeder]
    mains = {m.id: d.estate.service.gear.id for m in d.estate.service.mains}
    starts = {mains.get(f.from_, f.from_) for f in normal}
    panels = {p.id: p for p in d.estate.panels}
    if len(starts) > 1 or len(normal) > d.ed.supplies_common:
        return ask("073", s.id, False, f"{said}; they start at {', '.join(sorted(starts))}")
    open_ended = [f.to for f in normal if panels[f.to].main is None]
    if open_ended:
        missing = f"the single disconnect of each: the main of {', '.join(open_ended)}"
        return ask("073", s.id, "not evaluated", f"{said}; from {starts.pop()}", missing)
    seen = attested(d, "073", s.id)
    if seen is None:
        missing = "whether their disconnects are grouped (attested)"
        return ask("073", s.id, "not evaluated", f"{said}; from {starts.pop()}", missing)
    return ask("073", s.id, "attested", f"{said}; from {starts.pop()}; {seen.statement}, {seen.by}, {seen.date}")


def disconnect(d: Design, ask: Asker, s: Structure) -> Check:
    """Check 074: a disconnecting means at the building; suitable as service equipment where neutral and ground are bonded."""
    if s.disconnect is None:
        return ask("074", s.id, "not evaluated", "", "where its disconnecting means is (disconnect: outside, inside or none)")
    if s.disconnect == "none":
        return ask("074", s.id, False, "none at the building")
    plan = d.estate.grounding
    bonded = plan is not None and any(g.id == s.id and g.neutral_bond for g in plan.structures)
    seen = attested(d, "074", s.id)
    if bonded and seen is None:
        missing = "whether it is suitable as service equipment, since neutral and ground are bonded there (attested)"
        return ask("074", s.id, "not evaluated", s.disconnect, missing)
    if seen is not None:
        return ask("074", s.id, "attested", f"{s.disconnect}; {seen.statement}, {seen.by}, {seen.date}")
    return ask("074", s.id, True, f"{s.disconnect}, where conductors enter")


def dwelling(d: Design, ask: Asker, s: Structure) -> Iterator[Check]:
    """Checks 043 and 076 on a dwelling that a feeder supplies."""
    if not d.ed.building_emergency:
        yield ask("076", s.id, "does not apply", "not in this edition")
    else:
        what = "outdoor emergency disconnect"
        yield stated(ask, "076", s.id, s.emergency_disconnect, what, f"whether there is an {what}")
    if not d.ed.feeder_surge:
        yield ask("043", s.id, "does not apply", "not in this edition for a feeder")
        return
    for x in supplies(d, s.id):
        if x.what == "normal":
            yield surge(d, ask, s, next(p for p in d.estate.panels if p.id == x.to))


def surge(d: Design, ask: Asker, s: Structure, p: Panel) -> Check:
    """Check 043 on the distribution panel of a dwelling, or on those that hold its branch-circuit devices."""
    held = {r.panel for r in d.tree.rows if r.circuits}
    branch = [q for q in d.estate.panels if q.structure == s.id and q.id in held]
    guarded = [q.id for q in (p, *branch) if q.surge_protection]
    apart = [q.id for q in branch if q.id not in guarded and not (p.surge_protection and q.location == p.location)]
    if not apart:
        return ask("043", s.id, True, f"in or beside {', '.join(dict.fromkeys(guarded))}, where the branch-circuit devices stand")
    without = [q.id for q in dict.fromkeys((p, *branch)) if q.surge_protection is False]
    if without or p.surge_protection:
        said = f"stated: none in or beside {', '.join(without)}" if without else f"one at {p.id}, none stated"
        return ask("043", s.id, False, f"{said}; branch-circuit devices without one stand in {', '.join(apart)}")
    found = f"no surge protective device is stated in or beside {p.id}, nor where branch-circuit devices stand"
    return ask("043", s.id, "not evaluated", found, f"whether a surge protective device stands in or beside {p.id}")


def plaque(d: Design, ask: Asker, s: Structure) -> Check:
    """Check 079: only where there are several supplies, and only somebody who saw it can say so."""
    found = supplies(d, s.id)
    if len(found) < 2:
        return ask("079", s.id, "does not apply", "one supply")
    seen = attested(d, "079", s.id)
    if seen is not None:
        return ask("079", s.id, "attested", f"{seen.statement}; {seen.by}, {seen.date}, {seen.evidence}")
    said = f"{len(found)} supplies: {', '.join(x.id for x in found)}"
    return ask("079", s.id, "not evaluated", said, "who saw the plaque (attested, check 079)")
