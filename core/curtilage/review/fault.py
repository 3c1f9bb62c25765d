"""Fault currents against the ratings of equipment, and far-end faults against the time in which devices clear them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from curtilage.design.works.clearing import unstated
from curtilage.design.works.faults import TERMINALS, strongest
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.panels import Panel

BY_UTILITY = "; while the utility carries its bus (generator and battery give less: not looked at)"
NO_SHARES = "symmetrical, no contribution of motors, generators or inverters"


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 052 to 055 on the service, 072 on panels, buses and switches, 071 on feeders and circuits, 071a, 203, 204."""
    gear = d.estate.service.gear.id
    yield letter(d, ask)
    yield service(d, ask, gear)
    yield change(d, ask, gear)
    yield marking(d, ask, gear)
    for p in d.estate.panels:
        yield panel(d, ask, p)
    if d.estate.sources:
        for b in d.estate.sources.buses:
            yield rated(d, ask, "072", b.id, b.interrupting)
        for t in d.estate.sources.transfers:
            yield rated(d, ask, "072", t.id, t.interrupting)
    yield from ground_faults(d, ask)
    yield halves(d, ask)
    yield downstream(d, ask, gear)


def kilo(amperes: float) -> str:
    """A fault current in kA."""
    return f"{amperes / 1000:.1f} kA"


def said(f: Any) -> str:
    """The two largest currents at a point, the larger first."""
    both = sorted(((f.ll, "line to line"), (f.ln, "line to neutral")), reverse=True)
    return f"{kilo(both[0][0])} {both[0][1]} ({kilo(both[1][0])} {both[1][1]})"


def letter(d: Design, ask: Asker) -> Check:
    """Check 052: a dated letter, a stated primary current, or the bound of an infinite primary."""
    d.works("fault")
    t, e = d.items.get("transformer"), d.estate.service.transformer
    if t is None:
        return ask("052", "service", "not evaluated", "", d.lacking.get("transformer", "the transformer"))
    tags = (f"fault/{TERMINALS}/ll",)
    if t.stronger:
        found = (f"the letter gives more than {e.rating:g} kVA with {e.impedance:g} % let through from an infinite primary: "
                 "one of the two is wrong")
        return ask("052", "service", "needs judgement", found, tags=tags)
    if e.fault_letter:
        f = e.fault_letter
        named = f" ({f.reference})" if f.reference else ""
        return ask("052", "service", True, f"letter of {f.date:%Y-%m-%d}{named}: {kilo(f.current)} at the {f.at}", tags=tags)
    return ask("052", "service", True, f"no letter yet; {t.basis}: {kilo(d.items[f'fault/{TERMINALS}'].ll)} at the terminals",
               tags=tags)


def service(d: Design, ask: Asker, gear: str) -> Check:
    """Check 053."""
    return rated(d, ask, "053", gear, d.estate.service.gear.interrupting)


def rated(d: Design, ask: Asker, number: str, name: str, rating: float | None) -> Check:
    """The larger of both fault currents at a point against the rating that stands there."""
    d.works("rated")
    by = strongest(d, name)
    key, at = f"fault/{by}", f"rated/{name}"
    if key not in d.items:
        return ask(number, name, "not evaluated", "", d.lacking.get(key, "the fault current there"))
    f = d.items[key]
    found = said(f) if by == name else f"by {by}: {said(f)}"
    tags = (f"{key}/largest", f"{key}/ll", f"{key}/ln")
    if rating is None:
        return ask(number, name, "not evaluated", found, "the interrupting or short-circuit rating", tags)
    r = d.items[at]
    left = f"{kilo(r.left)} left" if r.withstands else f"{kilo(-r.left)} short"
    found = f"{found} against {kilo(rating)}: {left}; {NO_SHARES}"
    c = ask(number, name, bool(r.withstands), found, tags=(f"{at}/left", *tags))
    return c if r.withstands else c._replace(remedy=f"a rating of {kilo(f.largest)} or more: {c.remedy}")


def panel(d: Design, ask: Asker, p: Panel) -> Check:
    """Check 072 on a panel; its branch breakers carry the same rating, or a tested series combination that is documented."""
    c = rated(d, ask, "072", p.id, p.interrupting)
    if not p.series_rated or c.outcome != "passes":
        return c
    found = f"{c.found}; a series rating"
    if not p.series_evidence:
        return c._replace(outcome="not evaluated", found=found, missing="the document of the tested series combination (240.86)")
    upstream = f" behind {p.series_with}" if p.series_with else ""
    found = f"{found}{upstream}, documented in {p.series_evidence}; label by 110.22, motors between the devices by 240.86(C)"
    return c._replace(outcome="attested", found=found)


def change(d: Design, ask: Asker, gear: str) -> Check:
    """Check 054: how far the transformer may change."""
    key = f"margin/{gear}"
    if key not in d.items:
        return ask("054", gear, "not evaluated", "", d.lacking.get(key, "the fault current at the gear"))
    m, t = d.items[key], d.estate.service.transformer
    tags = (f"{key}/impedance_least", f"{key}/rating_most")
    own = kilo(d.estate.service.gear.interrupting)
    if not m.rating_most:
        return ask("054", gear, True, f"{own} hold behind any transformer: the service conductors limit the fault", tags=tags)
    found = (f"{own} hold up to {m.rating_most:.0f} kVA at {t.impedance:g} %, or down to {m.impedance_least:.2f} % at "
             f"{t.rating:g} kVA, with an infinite primary; every change of transformer is to be worked again")
    return ask("054", gear, bool(m.enough <= 1), found, tags=tags)


def marking(d: Design, ask: Asker, gear: str) -> Check:
    """Check 055: dwellings need no marking; the figure is on file here either way."""
    f = d.items.get(f"fault/{gear}")
    if f is None:
        return ask("055", gear, "not evaluated", "", "the fault current at the gear")
    tags = (f"fault/{gear}/largest",)
    if d.tree.dwellings:
        return ask("055", gear, "does not apply", f"a service of dwellings; on file all the same: {said(f)}", tags=tags)
    return ask("055", gear, "not evaluated", said(f), "the marking of the service equipment and its day", tags)


def ground_faults(d: Design, ask: Asker) -> Iterator[Check]:
    """Check 071 on every feeder, 071a on every alternate one, 071 on the branch circuits of every panel together."""
    for f in d.estate.feeders:
        if f"feeder/{f.id}" in d.items:
            yield feeder(d, ask, f.id)
    for a in d.estate.sources.alternates if d.estate.sources else ():
        yield far(d, ask, "071a", f"alternate/{a.id}", f"sources.alternates.{a.id}", bool(a.trip and a.trip.document))
    by_panel: dict[str, list[str]] = {}
    for r in d.tree.rows:
        if f"far/{r.id}" in d.late:
            by_panel.setdefault(r.panel, []).append(r.id)
    for name, rows in by_panel.items():
        yield circuits(d, ask, name, rows)


def feeder(d: Design, ask: Asker, name: str) -> Check:
    """Check 071 on one feeder."""
    f = next(f for f in d.estate.feeders if f.id == name)
    return far(d, ask, "071", f"feeder/{name}", f"feeders.{name}", bool(f.trip and f.trip.document))


def far(d: Design, ask: Asker, number: str, laid: str, home: str, documented: bool) -> Check:
    """A feeder: below 135 % of the device no trip is promised; where the trip decides and is not stated, an input is missing."""
    d.works("clearing")
    name = laid.partition("/")[2]
    key = f"clearing/{name}"
    if key not in d.items:
        return unclear(d, ask, number, name, key)
    c = d.items[key]
    tags = tuple(f"{key}/{field}" for field in ("fault", "multiple", "time", "wanted", "fits"))
    device = d.value(f"{laid}/device")
    found = f"{c.fault:,.0f} A, {c.multiple:.1f} times {device:g} A: at most {lasting(c.time)}, bounded by {c.by}"
    if number == "071a":
        found += BY_UTILITY
    if c.ok and not documented and leans(d, key):
        return ask(number, name, "not evaluated", found, f"the document of the trip of its breaker ({home}.trip.document)", tags)
    if c.ok:
        return ask(number, name, True, found, tags=tags)
    want = f"the instantaneous trip is sure from {c.wanted:,.0f} A (a loop of {c.loop:.3f} ohm), or for {c.fits:.0f} A of device"
    if c.open:
        return ask(number, name, "not evaluated", f"{found}; {want}",
                   f"the instantaneous pick-up or the curve of its breaker ({home}.trip)", tags)
    x = ask(number, name, False, f"{found}; {want}", tags=tags)
    return x._replace(remedy=f"{x.remedy}: {c.wanted:,.0f} A in place of {c.fault:,.0f} A, or at most {c.fits:.0f} A of device")


def leans(d: Design, key: str) -> bool:
    """Whether a clearing time holds only by what is stated of the trip."""
    bare = unstated(d, key)
    return bare is None or not bare.ok


def unclear(d: Design, ask: Asker, number: str, name: str, key: str) -> Check:
    """No bound: the fault is not known, or it is below what any breaker must trip at."""
    why = d.lacking.get(key, "the fault current at its end")
    if "need not trip" in why:
        return ask(number, name, False, why)
    return ask(number, name, "not evaluated", "", why)


def lasting(seconds: float) -> str:
    """A time in words."""
    return f"{seconds:.1f} s" if seconds < 120 else f"{seconds / 60:.0f} min"


def circuits(d: Design, ask: Asker, name: str, rows: list[str]) -> Check:
    """The branch circuits of a panel, by those whose bound is too long."""
    subject = f"{name}, far ends of its circuits"
    known = [r for r in rows if f"far/{r}" in d.items]
    dead = [r for r in rows if r not in known and "need not trip" in d.lacking.get(f"far/{r}", "")]
    other = [r for r in rows if r not in known and r not in dead]
    late = [r for r in known if not d.items[f"far/{r}"].ok]
    failing = dead + [r for r in late if not d.items[f"far/{r}"].open]
    tags = tuple(f"far/{r}/time" for r in (late or known)[:5])
    if failing:
        first = failing[0]
        found = f"{first}: {bound(d, first)}" + (f"; also {', '.join(failing[1:])}" if failing[1:] else "")
        return ask("071", subject, False, found, tags=tags)
    if other:
        missing = "; ".join(dict.fromkeys(d.lacking[f"far/{r}"] for r in other[:4]))
        return ask("071", subject, "not evaluated", "", missing + (f"; and of {len(other) - 4} more" if len(other) > 4 else ""))
    if late:
        found = "; ".join(f"{r}: {bound(d, r)}" for r in late[:4]) + (f"; and {len(late) - 4} more" if len(late) > 4 else "")
        return ask("071", subject, "not evaluated", found, "the trip of branch breakers (basis.branch.trip)", tags)
    worst = max(known, key=lambda r: d.items[f"far/{r}"].time)
    trip = d.estate.basis.branch.trip
    resting = [r for r in known if leans(d, f"far/{r}")] if trip and not trip.document else []
    if resting:
        found = "; ".join(f"{r}: {bound(d, r)}" for r in resting[:4])
        missing = "the document of the branch breakers' trip (basis.branch.trip.document)"
        return ask("071", subject, "not evaluated", found, missing, tags)
    return ask("071", subject, True, f"{len(known)} circuits; the slowest is {worst}: {bound(d, worst)}",
               tags=(f"far/{worst}/time", f"far/{worst}/fault"))


def bound(d: Design, row: str) -> str:
    """What bounds one circuit."""
    if f"far/{row}" not in d.items:
        return d.lacking[f"far/{row}"]
    c = d.items[f"far/{row}"]
    return f"{c.fault:,.0f} A, {c.multiple:.1f} times its breaker, at most {lasting(c.time)} by {c.by}"


def halves(d: Design, ask: Asker) -> Check:
    """Check 203: between the factors of reactance and of resistance; a weak network before it brings the ratio up to 2."""
    key = f"fault/{TERMINALS}"
    if key not in d.items:
        return ask("203", TERMINALS, "not evaluated", "", d.lacking.get("transformer", "the transformer"))
    f, t = d.items[key], d.items["transformer"]
    low = 2 / max(d.ed.half_winding_r, d.ed.half_winding_x)
    infinite = abs(t.r_source) + abs(t.x_source) == 0
    high = 2 / min(d.ed.half_winding_r, d.ed.half_winding_x) if infinite else 2.0
    ratio = f.ln / f.ll
    return ask("203", TERMINALS, low <= ratio <= high,
               f"line to neutral {ratio:.3f} times line to line; between {low:.2f} and {high:.2f} by the windings",
               tags=(f"{key}/ln", f"{key}/ll"))


def downstream(d: Design, ask: Asker, gear: str) -> Check:
    """Check 204: no point has more fault current than the one before it."""
    before = {f.to: (f.from_ if f"fault/{f.from_}" in d.items else gear) for f in d.estate.feeders}
    pairs = [(gear, TERMINALS), *before.items()]
    known = [(a, b) for a, b in pairs if f"fault/{a}" in d.items and f"fault/{b}" in d.items]
    rising = [a for a, b in known for field in ("ll", "ln", "ll_least", "ln_least", "lg")
              if getattr(d.items[f"fault/{a}"], field) > getattr(d.items[f"fault/{b}"], field)]
    if not known:
        return ask("204", "service", "not evaluated", "", d.lacking.get(f"fault/{gear}", "the fault currents"))
    where = f"; it rises at {', '.join(dict.fromkeys(rising))}" if rising else ""
    return ask("204", "service", not rising, f"{len(known)} runs{where}")
