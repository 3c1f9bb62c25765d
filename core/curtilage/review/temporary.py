"""Power during construction: protection of people, load and drop, permit and removal, the fallback, and what is left behind."""

from __future__ import annotations

from collections.abc import Iterator
import datetime
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.later import Temporary, TemporaryBoard, TemporaryService
    from curtilage.model.policy import Proof

DONE = ("finish", "built")
"""Status of a structure that is finished work."""


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 059 to 064 and 196."""
    t = d.estate.temporary
    if t is None:
        return
    for s in t.services:
        yield protected(ask, s)
        yield from carries(d, ask, s)
        yield permitted(ask, s, t.final)
        yield attested(ask, "062", s.id, s.pole, "electrode, bracing and height of the pole")
        yield left_behind(d, ask, s, t.final)
    for b in t.boards:
        yield protected(ask, b)
        yield from board(d, ask, b)
        if b.buried:
            yield attested(ask, "064", b.id, b.mapped, "where its feeder lies in the ground")
        else:
            yield ask("064", b.id, "does not apply", "nothing of it lies in the ground")
    if t.services:
        yield fallback(d, ask, t)


def attested(ask: Asker, number: str, subject: str, proof: Proof | None, what: str) -> Check:
    """What only somebody who looked can say."""
    if proof is None or not (proof.by and proof.date and proof.evidence):
        return ask(number, subject, "not evaluated", f"nobody says {what}", f"{what}: who looked, when, and the evidence")
    return ask(number, subject, "attested", f"{what}: {proof.by}, {proof.date}, {proof.evidence}")


def protected(ask: Asker, x: TemporaryService | TemporaryBoard) -> Check:
    """Every receptacle for personnel behind a ground-fault interrupter."""
    number = getattr(x, "receptacles", None)
    some = f"{number} receptacles, " if number else ""
    return ask("059", x.id, x.gfci, f"{some}{'all' if x.gfci else 'not all'} of its receptacles for personnel are protected")


def carries(d: Design, ask: Asker, s: TemporaryService) -> Iterator[Check]:
    """The service against each season."""
    for season in ("winter", "summer"):
        key = f"temporary_service/{s.id}/{season}"
        if key not in d.items:
            why = d.late.get(f"temporary/{s.id}/{season}", "its loads are missing")
            yield ask("060", f"{s.id}, {season}", "not evaluated", f"{s.rating:g} A", why)
            continue
        h, load = d.items[key], d.items[f"temporary/{s.id}/{season}"]
        found = (f"{h.minimum:.0f} A minimum on {h.rating:g} A; {load.heat / 1000:.1f} kVA of it heat and drying, not "
                 f"diversified, {load.tools / 1000:.1f} kVA tools that run at once")
        yield ask("060", f"{s.id}, {season}", bool(h.ok), found, tags=(f"{key}/minimum", f"temporary/{s.id}/{season}/heat"))


def board(d: Design, ask: Asker, b: TemporaryBoard) -> Iterator[Check]:
    """The feeder of a board, and the drop to the working face."""
    key = f"temporary_feeder/{b.id}"
    if key not in d.items:
        yield ask("060", b.id, "not evaluated", "its feeder is not known", d.late.get(key, "its loads are missing"))
    else:
        r = d.items[key]
        ok = bool(r.device_ok and r.carries_ok and r.protected)
        found = f"{r.device:g} A for {r.minimum:.0f} A, conductor {r.size} of {r.ampacity:.0f} A"
        yield ask("060", b.id, ok, found, tags=(f"{key}/device", f"{key}/minimum", f"{key}/ampacity"))
    at = f"face/{b.id}"
    if at not in d.items:
        why = d.late.get(at) or d.late.get(key, "")
        yield ask("060a", b.id, "not evaluated", "the drop to the working face is not known", why)
        return
    f = d.items[at]
    found = (f"{f.total:.2f} % with {f.cord:.2f} % on the cord, {f.volts:.1f} V at the tool; advised at most "
             f"{d.ed.temporary_drop:g} %")
    yield ask("060a", b.id, bool(f.ok), found, tags=(f"{at}/total", f"{at}/cord", f"{at}/volts"))


def permitted(ask: Asker, s: TemporaryService, final: datetime.date | None) -> Check:
    """Permit, day of removal, and no building without approval."""
    wrong = []
    if not s.permit:
        wrong.append("no permit is named")
    if s.until is None:
        wrong.append("no day of removal or conversion is set")
    elif final is not None and s.until > final:
        wrong.append(f"it stays until {s.until}, after the final inspection of {final}")
    approved = s.approval is not None and bool(s.approval.by and s.approval.date)
    if s.feeds and not approved:
        wrong.append(f"it feeds {', '.join(s.feeds)} without approval")
    fed = f"; feeds {', '.join(s.feeds)} by approval" if s.feeds else "; feeds no building"
    return ask("061", s.id, not wrong, "; ".join(wrong) or f"permit {s.permit}, until {s.until}{fed}")


def left_behind(d: Design, ask: Asker, s: TemporaryService, final: datetime.date | None) -> Check:
    """A second supply on finished work, or a service that outlives the final inspection."""
    wrong = []
    for name in s.feeds:
        at = next(x for x in d.estate.structures if x.id == name)
        own = [f.id for f in d.estate.feeders if d.standing(f.to) == name and d.standing(f.from_) != name]
        if own and at.status in DONE:
            wrong.append(f"it still feeds {name}, which is {at.status} and has feeder {own[0]} of its own: two supplies")
    today = d.estate.prepared.date
    if s.energized and s.until is not None and today is not None and today > s.until:
        wrong.append(f"it is energized on {today} and was to go by {s.until}")
    if s.energized and final is not None and today is not None and today > final:
        wrong.append(f"it is energized on {today}, after the final inspection of {final}")
    when = f"to be {'converted to ' + s.converts_to if s.converts_to else 'removed'} by {s.until or 'no day'}"
    if wrong:
        return ask("196", s.id, False, "; ".join([*wrong, when]))
    if s.until is None:
        return ask("196", s.id, "not evaluated", when, "the day of removal or conversion")
    return ask("196", s.id, True, f"feeds no finished building; {when}")


def fallback(d: Design, ask: Asker, t: Temporary) -> Check:
    """The generator of a late utility."""
    key = "fallback/site"
    if t.fallback is None:
        if not t.slip:
            return ask("063", "site", False, "none is stated")
        return ask("063", "site", "not evaluated", f'only in words: "{t.slip}"', "delay, hours, generator and fuel")
    if key not in d.items:
        return ask("063", "site", "not evaluated", "the fallback is not worked", d.late.get(key, ""))
    r, tags = d.items[key], [f"{key}/hours", f"{key}/fuel", f"{key}/loading"]
    found = (f"{r.hours:.0f} h, {r.energy:,.0f} kWh, {r.fuel:,.0f} ft3 of {t.fallback.fuel}; the worst season takes "
             f"{r.loading:.0f} % of the set")
    loud = "sound/fallback"
    if loud not in d.items:
        return ask("063", "site", "not evaluated", found, f"the sound at the line: {d.late.get(loud, '')}", tags=tuple(tags))
    n = d.items[loud]
    found += f"; {n.level:.0f} dBA at the line, " + (f"{n.margin:.0f} below its limit" if n.ok else "too loud")
    return ask("063", "site", bool(r.carries and n.ok), found, tags=(*tags, f"{loud}/level"))
