"""What the utility asks for and answers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.letter import behind
from curtilage.design.works.places import key, spots
from curtilage.editions.clearances import Pair, pairs
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 049 to 051, 058b, and the distances of 120a, 147, 149a and 151a."""
    yield from metering(d, ask)
    yield from distances(d, ask)
    yield from milestones(d, ask)


def metering(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 049 and 050."""
    m = d.estate.service.metering
    if m is None or "metering" not in d.items:
        yield ask("049", "service", "not evaluated", "", d.lacking.get("metering", "how the service is metered"))
        return
    r = d.items["metering"]
    rule = m.reference or "usual figure, not the utility's own"
    said = f"{m.kind}; above {r.limit:g} A by current transformers, {d.items['service'].rating:g} A of mains ({rule})"
    yield ask("049", "service", bool(r.kind_ok), said, tags=("metering/limit", "metering/kind"))
    if m.kind == "self-contained":
        yield ask("050", "service", "does not apply", "no current transformers")
        return
    said = f"{m.distance:g} ft, at most {r.farthest:g} ft"
    if not r.distance_ok:
        yield ask("050", "service", False, said, tags=("metering/farthest",))
    elif m.other_wiring is None:
        missing = "whether the customer's own wiring passes through the cabinet (other_wiring)"
        yield ask("050", "service", "not evaluated", said, missing, ("metering/farthest",))
    else:
        said += f"; other wiring in the cabinet: {'yes' if m.other_wiring else 'no'}"
        yield ask("050", "service", not m.other_wiring, said, tags=("metering/farthest",))


def distances(d: Design, ask: Asker) -> Iterator[Check]:
    """Of each thing the nearest of every kind it must keep away from, each one too near, and what could not be measured."""
    things = spots(d)
    for p in pairs():
        for a in (s for s in things if s.kind == p.a):
            names = [key(p, a.id), *(key(p, a.id, b.id) for b in things if b.kind == p.b)]
            for name in names:
                if name in d.lacking:
                    yield ask(p.check, name.removeprefix("distance/"), "not evaluated", "", d.lacking[name])
            found = [n for n in names if n in d.items]
            bad = [n for n in found if not d.items[n].ok]
            for name in bad if not p.near or len(bad) == len(found) else ():
                yield distance(d, ask, p, name, "")
            if (found and not bad) or (p.near and len(bad) < len(found)):
                nearest = min(found, key=lambda n: d.items[n].distance)
                yield distance(d, ask, p, nearest, f", the nearest of {len(found)}" if len(found) > 1 else "")


def distance(d: Design, ask: Asker, p: Pair, name: str, which: str) -> Check:
    """One measured distance."""
    r, rule = d.items[name], d.ed.rule(p.rule)
    less = f", {-r.spare:.1f} ft too {'far' if p.near else 'near'}" if not r.ok else ""
    by = f"{rule.document}, {rule.clause}; {rule.status}"
    said = f"{r.distance:.1f} ft{which}{less}; at {'most' if p.near else 'least'} {r.wanted:g} ft ({by})"
    return ask(p.check, name.removeprefix("distance/"), bool(r.ok), said, tags=(f"{name}/distance",))


def milestones(d: Design, ask: Asker) -> Iterator[Check]:
    """Check 058b: what is past due without an entry, and what it moves."""
    for m in d.estate.service.milestones:
        key = f"milestone/{m.id}"
        if m.done is not None:
            yield ask("058b", m.id, True, f"{m.what}: due {m.due}, came {m.done}")
        elif key not in d.items:
            yield ask("058b", m.id, "not evaluated", m.what, d.lacking.get(key, "the day of the design"))
        else:
            r = d.items[key]
            said = f"{m.what}: due {m.due}" + (f", {r.late:.0f} days ago without an entry" if r.late else ", still open")
            if r.slip:
                said += f"; {', '.join(behind(d, m))} move by {r.slip:.0f} days"
            yield ask("058b", m.id, not r.late and not r.slip, said, tags=(f"{key}/slip",))
