"""Areas, circuits, methods, groups, management, two dwellings, totals."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from curtilage.design.areas import counts
from curtilage.design.stages import is_motor
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.loads import Home
    from curtilage.model.site import Structure

NEAR = 0.01
"""Share of a floor area by which the sum of its parts may differ: areas are measured and rounded."""


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 011 to 034, 129a, 207, 208."""
    for s in d.estate.structures:
        if s.occupancy == "dwelling":
            yield from dwelling(d, ask, s)
            yield from strays(d, ask, s)
        elif s.provisions is not None:
            yield likeness(ask, s)
    for name, home in d.stages.loads.houses.items():
        yield from methods(d, ask, name, home)
    yield from motors(d, ask)
    yield table_current(d, ask)
    yield from groups(d, ask)
    yield from managers(d, ask)
    yield from two(d, ask)
    yield totals(d, ask)
    yield from peak(d, ask)
    yield from control(d, ask)


def dwelling(d: Design, ask: Asker, s: Structure) -> Iterator[Check]:
    """Floor area, required circuits, unit load, heating against cooling of one dwelling."""
    yield floor_area(d, ask, s)
    kitchen = [r for r in d.tree.rows if r.structure == s.id and r.category == "small_appliance"]
    small = sum(r.circuits for r in kitchen if r.poles == 1)
    double = sum(r.circuits for r in kitchen if r.poles != 1)
    laundry = sum(r.circuits for r in d.tree.rows if r.structure == s.id and r.category == "laundry")
    yield ask(
        "012",
        s.id,
        small >= d.ed.small_appliance_least and laundry >= d.ed.laundry_least,
        f"{small} small-appliance, {laundry} laundry" + (f"; {double} of two poles do not count" if double else ""),
    )
    if s.unit_load is not None:
        yield ask(
            "013",
            s.id,
            s.unit_load == d.ed.unit_load,
            f"{s.unit_load:g} VA/ft2 calculated, {d.ed.unit_load:g} in {d.ed.title}",
        )
    yield seasons(d, ask, s)


def seasons(d: Design, ask: Asker, s: Structure) -> Check:
    """Heating against cooling of one dwelling, and its kinds of heating where the optional method is used (220.82(C))."""
    if s.heating_and_cooling == "both":
        return ask("018", s.id, False, "heating and cooling are both to be counted")
    for name in counted_at(d, s):
        o = d.items[f"demand/{name}/optional"]
        if o.climate_judgement and d.chosen[name].endswith("optional"):
            said = f"several kinds of heating: the largest selection alone {amperes(o.total, d)}, all that can run at once "
            tags = (f"demand/{name}/optional/total", f"demand/{name}/optional/together")
            return ask("018", s.id, "needs judgement", f"{said}{amperes(o.together, d)}", tags=tags)
    return ask("018", s.id, True, "the larger of the two, and what always runs")


def floor_area(d: Design, ask: Asker, s: Structure) -> Check:
    """Floor area of one dwelling: whether a branch counts it, whether its parts agree with it and with the edition."""
    wrong = [a for a in s.areas if a.counted is not None and a.kind != "finished" and a.counted != counts(a, d.ed)]
    inside = [a for a in s.areas if a.counted or (a.counted is None and a.kind == "finished")]
    held, stated = sum(a.area for a in inside), s.area or 0.0
    if not counted_at(d, s):
        return ask("011", s.id, False, f"{stated:,.0f} ft2 stated, counted in no branch: no load of {s.id} hangs on a main")
    if wrong:
        words = ("left out, should count", "counted, should not be")
        said = (f"{a.id}: {a.area:,.0f} ft2 ({a.kind}) is {words[bool(a.counted)]}" for a in wrong)
        return ask("011", s.id, False, "; ".join(said))
    if inside and abs(held - stated) > NEAR * max(held, stated):
        names = ", ".join(a.id for a in inside)
        found = f"area states {stated:,.0f} ft2, its parts ({names}) give {held:,.0f} ft2; {stated:,.0f} counts"
        return ask("011", s.id, False, found)
    if not s.areas:
        return ask("011", s.id, "not evaluated", f"{stated:,.0f} ft2 stated", "which parts the area holds (areas)")
    return ask("011", s.id, True, "; ".join(f"{a.id} {a.area:,.0f} ft2 {a.kind}" for a in s.areas))


def counted_at(d: Design, s: Structure) -> list[str]:
    """Where the floor area of a dwelling counts among what the service is added up from."""
    houses = d.stages.loads.houses
    leaves = [n for m in d.tree.mains for n in d.stages.loads.leaves(m)]
    return [n for n in leaves if n in houses and houses[n].structure == s.id]


def strays(d: Design, ask: Asker, s: Structure) -> Iterator[Check]:
    """Rows of a dwelling that hang on another panel and are worked there, outside the load that holds its floor area."""
    home = {r.id for n in counted_at(d, s) for r in d.stages.loads.houses[n].rows}
    away = [r for r in d.tree.rows if r.structure == s.id and r.id not in home]
    if home and away:
        rows = ", ".join(f"{r.id} on panel {r.panel}" for r in away[:8])
        said = f"{rows}: counted there as a load like any other; the floor area of {s.id} counts at {counted_at(d, s)[0]}"
        yield ask("034", s.id, "needs judgement", said)


def likeness(ask: Asker, s: Structure) -> Check:
    """Sleeping, sanitation and permanent cooking together make a dwelling unit, whatever it is called."""
    p = s.provisions
    assert p is not None
    have = [
        w
        for w, yes in (("sleeping", p.sleeping), ("sanitation", p.sanitation), ("permanent cooking", p.cooking == "permanent"))
        if yes
    ]
    said = f"provisions: {', '.join(have) or 'none of sleeping, sanitation, permanent cooking'}; declared {s.occupancy}"
    if len(have) == 3 or p.cooking == "permanent":
        return ask("129a", s.id, "needs judgement", said)
    return ask("129a", s.id, "does not apply", said)


def methods(d: Design, ask: Asker, name: str, home: Home) -> Iterator[Check]:
    """The optional method: whether it is open, where vehicle supply stands, and whether it is the smaller one."""
    o, a = d.items[f"demand/{name}/optional"], d.items[f"demand/{name}/standard"]
    tags = (f"demand/{name}/optional/total", f"demand/{name}/standard/total")
    used = d.chosen[name].endswith("optional")
    yield from opened(d, ask, name, home, used)
    if o.judgement:
        answer: str = d.estate.policy.vehicle_supply or ""
        if answer == "inside" and d.ed.optional_vehicles_apart:
            answer = f"inside, which {d.ed.title} does not follow"
        said = f"inside the reduced part {amperes(o.inside, d)}, beside it {amperes(o.outside, d)}"
        both = (f"demand/{name}/optional/inside", f"demand/{name}/optional/outside")
        yield ask(
            "022",
            name,
            "needs judgement" if used else "does not apply",
            said + (f"; policy: {answer}" if answer else "") + ("" if used else "; the standard method is used"),
            tags=both,
        )
    if home.entire:
        yield ask("207", name, o.total <= a.total, f"optional {amperes(o.total, d)}, standard {amperes(a.total, d)}", tags=tags)


def opened(d: Design, ask: Asker, name: str, home: Home, used: bool) -> Iterator[Check]:
    """Whether the optional method is open to a dwelling (220.82(A)), and why it is not used where it was asked for.

    Other structures behind the same conductors are a reading: the optional method for the dwelling, and the others added
    at their own load, which is never less than pooling them under it.
    """
    main = home.branch in d.tree.mains
    number = f"main/{home.branch}/rating" if main else f"feeder/{home.branch}/device"
    rating, tag = d.value(number), (number,)
    feeder = f"the whole load of {home.structure} on one three-wire {'main' if main else 'feeder'} of {rating:g} A"
    beside = sorted({r.structure for r in (d.tree.mains if main else d.tree.branches)[home.branch].rows} - {home.structure})
    if used and beside and rating >= d.ed.optional_least:
        others = f"; behind it also {', '.join(beside)}, added at their own load beside the optional method: a reading"
        yield ask("020", name, "needs judgement", feeder + others, tags=tag)
    elif used:
        yield ask("020", name, rating >= d.ed.optional_least, feeder, tags=tag)
    elif not home.entire:
        said = f"not used: {home.branch} does not carry the whole load of {home.structure}; the standard method is"
        asked_for = next(s.method for s in d.estate.structures if s.id == home.structure) == "optional"
        yield ask("020", name, "needs judgement" if asked_for else "does not apply", said, tags=tag)


def amperes(va: float, d: Design) -> str:
    """A load as current between the lines."""
    return f"{va / d.volts:.0f} A"


def motors(d: Design, ask: Asker) -> Iterator[Check]:
    """Where a reading of the largest motor would give another load."""
    for key, record in d.items.items():
        if key.startswith("demand/") and getattr(record, "other_reading", None) is not None and record.judgement:
            yield ask(
                "023",
                key.split("/")[1],
                "needs judgement",
                f"{amperes(record.total, d)} or {amperes(record.other_reading, d)}",
                tags=(f"{key}/total", f"{key}/other_reading"),
            )


def table_current(d: Design, ask: Asker) -> Check:
    """Rows of motors whose VA is not that of the table."""
    rows = [r for r in d.tree.rows if r.hp and is_motor(r) and f"each/{r.id}" in d.items]
    other = [(r, d.items[f"each/{r.id}"].row) for r in rows]
    wrong = [f"{r.id} states {r.va:,.0f} VA, the table gives {va:,.0f}" for r, va in other if abs(r.va - va) > 0.01 * va]
    if not rows:
        return ask("024", "estate", "does not apply", "no motors by horsepower")
    return ask(
        "024",
        "estate",
        not wrong,
        "; ".join(wrong) or f"{len(rows)} rows of motors",
        tags=tuple(f"each/{r.id}/row" for r in rows[:6]),
    )


def groups(d: Design, ask: Asker) -> Iterator[Check]:
    """Groups of loads that cannot run together."""
    for g in d.estate.groups:
        members = [r.id for r in d.tree.rows if r.group == g.id]
        if not members or not g.applied:
            yield ask("025", g.id, "does not apply", "no members" if not members else "the reduction is not taken")
        elif g.reason:
            yield ask("025", g.id, True if g.evidence else "attested", f"{g.reason}" + (f"; {g.evidence}" if g.evidence else ""))
        else:
            yield ask("025", g.id, "needs judgement", f"{', '.join(members)} are grouped without a reason; all of them count")


def managers(d: Design, ask: Asker) -> Iterator[Check]:
    """Proofs of energy management."""
    for m in d.estate.managers:
        proofs: dict[str, Any] = {"listed": m.listed, "fails to the safe side": m.fail_safe, "locked": m.locked}
        missing = [w for w, p in proofs.items() if p is None or not (p.by and p.date)]
        if missing:
            yield ask("026", m.id, False, f"set point {m.set_point:g} A; no proof that it is {', '.join(missing)}")
        else:
            yield ask(
                "026",
                m.id,
                "attested",
                f"set point {m.set_point:g} A; " + "; ".join(f"{w}: {p.by}, {p.date}" for w, p in proofs.items()),
            )
        if m.recorded and m.recorded.by:
            yield ask("027", m.id, "attested", f"{m.recorded.by}, {m.recorded.date}; {m.recorded.evidence}")
        else:
            yield ask("027", m.id, "not evaluated", f"set point {m.set_point:g} A", "a record of the set point")


def two(d: Design, ask: Asker) -> Iterator[Check]:
    """Mains that carry two dwellings or more."""
    for name in d.tree.mains:
        key = f"demand/{name}/two"
        if key in d.items:
            t = d.items[key]
            yield ask(
                "028",
                name,
                "needs judgement",
                f"standard method {amperes(t.standard, d)}; three units read from both together "
                f"{amperes(t.by_sum, d)}, from the larger one {amperes(t.by_larger, d)}",
                tags=tuple(f"{key}/{f}" for f in ("standard", "by_sum", "by_larger")),
            )


def totals(d: Design, ask: Asker) -> Check:
    """Rows that no main reaches."""
    reached = {r.id for b in d.tree.mains.values() for r in b.rows}
    lost = [r.id for r in d.tree.rows if r.id not in reached]
    if lost:
        return ask("034", "estate", False, f"{len(lost)} rows are on no main: {', '.join(lost[:8])}")
    return ask("034", "estate", True, f"{len(reached)} rows, each on one main")


def peak(d: Design, ask: Asker) -> Iterator[Check]:
    """Calculated load against expected peak."""
    if "expected" not in d.items or "demand/service/sum" not in d.items:
        return
    ratio = d.items["demand/service/sum"].total / 1000 / d.items["expected"].kva
    yield ask(
        "208",
        "service",
        d.ed.peak_ratio_low <= ratio <= d.ed.peak_ratio_high or "needs judgement",
        f"{ratio:.1f} times the expected peak; usually {d.ed.peak_ratio_low:g} to {d.ed.peak_ratio_high:g}",
        tags=("demand/service/sum/total", "expected/kva"),
    )


def control(d: Design, ask: Asker) -> Iterator[Check]:
    """Circuits that switch something in another structure: whether they are a second supply is not the kit's to say."""
    for r in d.estate.loads:
        if r.kind == "control" and r.status == "base":
            if r.volts:
                alternatives = "low-voltage or wireless control, or one source on both ends with the neutral in the same run"
                yield ask("080", r.id, "needs judgement", f"{r.load}, {r.volts:g} V; alternatives: {alternatives}")
            else:
                yield ask("080", r.id, "does not apply", f"{r.load}: no line voltage between the structures")
