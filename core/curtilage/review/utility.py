"""What the utility asks for and answers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.works.flicker import gaps, motors
from curtilage.design.works.letter import behind
from curtilage.design.works.places import key, spots
from curtilage.editions.clearances import Pair, pairs
from curtilage.review.asked import Asker
from curtilage.review.structures import attested
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.loads import Load


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 049 to 051, 052a, 056, 056a, 058, 058b, and the distances of 120a, 147, 149a and 151a."""
    yield from metering(d, ask)
    yield from distances(d, ask)
    yield from flicker(d, ask)
    yield known(d, ask)
    yield from letters(d, ask)
    yield beside(d, ask)
    yield from milestones(d, ask)


def flicker(d: Design, ask: Asker) -> Iterator[Check]:
    """Check 056: the worst start that keeps the limit, each that does not, and each that is not known."""
    good = []
    for r in motors(d):
        key = f"flicker/{r.id}"
        if key not in d.items:
            yield ask("056", r.id, "not evaluated", r.load, d.lacking.get(key, "its starting current"))
            continue
        f = d.items[key]
        if f.ok:
            good.append(r)
        elif f.fails:
            yield ask("056", r.id, False, changes(d, r), tags=(f"{key}/change", f"{key}/limit"))
        else:
            yield ask("056", r.id, "not evaluated", changes(d, r), "how often it starts (starts)", (f"{key}/change",))
    if good:
        worst = max(good, key=lambda r: d.items[f"flicker/{r.id}"].change / d.items[f"flicker/{r.id}"].limit)
        tags = (f"flicker/{worst.id}/change", f"flicker/{worst.id}/limit")
        more = f"; the nearest to its limit of {len(good)}" if len(good) > 1 else ""
        yield ask("056", worst.id, True, changes(d, worst) + more, tags=tags)


def changes(d: Design, r: Load) -> str:
    """What one start does."""
    f, x = d.items[f"flicker/{r.id}"], d.asks[f"flicker/{r.id}"].record
    where = "at the gear" if x.at_gear else "at the transformer"
    often = f"{r.starts:g} starts an hour" if r.starts else "starts an hour not stated"
    most = f" to {f.limit_most:g}" if f.limit_most > f.limit else ""
    does = f"{x.current:.0f} A changes the voltage {where} by {f.change:.2f} %"
    return f"{r.load}: {does}; {often}: {f.limit:g}{most} % by {f.rule}"


def known(d: Design, ask: Asker) -> Check:
    """Check 056a: what the load letter lacks."""
    missing = gaps(d)
    if missing:
        return ask("056a", "load letter", "not evaluated", "", "; ".join(missing))
    x = d.items["letter"]
    said = f"{x.code_kva:.0f} kVA by the code, {x.expected_kva:.0f} kVA expected, largest motor {x.motor_hp:g} hp"
    return ask("056a", "load letter", True, said, tags=("letter/code_kva", "letter/expected_kva", "letter/motor_start"))


def letters(d: Design, ask: Asker) -> Iterator[Check]:
    """Check 052a: the log of letters on fault current against what the design rests on."""
    log = d.estate.service.letters
    if not log:
        return
    came = sorted((x for x in log if x.received and x.current), key=lambda x: (x.received or x.asked, x.id))
    rests = d.estate.service.transformer.fault_letter
    open_ = ", ".join(f"{x.id} of {x.asked}" if x.asked else x.id for x in log if x.received is None)
    waiting = f"; still open: {open_}" if open_ else ""
    if not came:
        basis = f"{rests.current:g} A of {rests.date}" if rests else "a bound"
        yield ask("052a", "service", rests is None, f"no answer yet; the design rests on {basis}{waiting}")
        return
    last = came[-1]
    said = f"{last.id} of {last.received}: {last.current:g} A at the {last.at}"
    same = rests is not None and (rests.current, rests.at) == (last.current, last.at)
    on = f"{rests.current:g} A at the {rests.at}" if rests else "a bound"
    yield ask("052a", "service", same, said + ("" if same else f"; the design rests on {on}") + waiting)


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


def beside(d: Design, ask: Asker) -> Check:
    """Check 058: batteries and solar supplies run beside the utility; only a person can know whether it was asked."""
    s = d.estate.sources
    names = ", ".join(x.id for x in (*s.storage, *(p for p in s.solar if p.status == "base"))) if s else ""
    if not names:
        return ask("058", "service", "does not apply", "no source runs beside the utility")
    seen = attested(d, "058", "service")
    if seen is None:
        return ask("058", "service", "not evaluated", names, "whether the utility was asked (attested, check 058)")
    return ask("058", "service", "attested", f"{names}: {seen.statement}; {seen.by}, {seen.date}, {seen.evidence}")


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
