"""Mains and service conductors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.review.parallel import described, differences
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 031, 033, 036 to 040, 047, 058a, 065, 098 on the service."""
    s, e = d.items["service"], d.estate.service
    for m in e.mains:
        if f"main/{m.id}" not in d.items:
            continue
        r = d.items[f"main/{m.id}"]
        yield ask("036", m.id, bool(r.rating_ok), f"{r.rating:g} A for {r.minimum:.0f} A minimum", tags=(f"main/{m.id}/minimum",))
        yield growth(d, ask, m.id)
        if r.rating >= d.ed.arc_energy_from or (m.highest_setting or 0.0) >= d.ed.arc_energy_from:
            how = m.arc_reduction
            yield ask("040", m.id, "attested" if how else False, f"{r.rating:g} A; {how.method if how else 'no means is named'}")
        else:
            yield ask("040", m.id, "does not apply", f"{r.rating:g} A, below {d.ed.arc_energy_from:,.0f} A")
    yield ask(
        "036", "service", bool(s.rating_ok), f"{s.rating:g} A of mains; at least {s.rating_least:g} A", tags=("service/rating",)
    )
    ok = bool(s.mains_ok) and e.gear.compartments
    yield ask(
        "037",
        "service",
        ok,
        f"{s.mains:g} mains, {'each in its compartment' if e.gear.compartments else 'not each in its own compartment'}",
    )
    yield ask(
        "038",
        "service",
        bool(s.protected),
        f"{s.ampacity:.0f} A of conductors for {s.current:.0f} A of load; {s.rule}",
        tags=("service/ampacity", "service/current"),
    )
    unlike = differences(d, "service", "", s.sets, s.size)
    found = "; ".join([f"{s.sets:g} sets of {s.size}", *(unlike or [described(d, "service", "")])])
    yield ask("047", "service", bool(s.parallel_ok) and not unlike, found, tags=("service/sets", "service/size"))
    yield ask(
        "065",
        "service",
        bool(s.carries_ok),
        f"{s.ampacity:.0f} A for {s.required:.0f} A",
        tags=("service/ampacity", "service/required"),
    )
    yield ask(
        "031",
        "service",
        bool(s.neutral_ok),
        f"{s.neutral} for {s.neutral_current:.0f} A" + ("" if s.neutral_ok else f", at least {s.neutral_least}"),
        tags=("service/neutral_current", "service/neutral_least"),
    )
    yield gear(d, ask)
    yield transformer(d, ask)


def gear(d: Design, ask: Asker) -> Check:
    """The bus of the service gear against its mains and the minimum (408.30, 408.36).

    One main must not exceed the bus. Where several together do, what they may carry is the listing's to say.
    """
    s, bus = d.items["service"], d.estate.service.gear.bus
    largest = max(d.items[f"main/{m}"].rating for m in d.tree.mains if f"main/{m}" in d.items)
    good: bool | str = s.minimum <= bus and largest <= bus
    if good and s.rating > bus:
        good = "needs judgement"
    found = f"bus {bus:g} A, {s.minimum:.0f} A minimum, largest main {largest:g} A, {s.rating:g} A of mains together"
    return ask("098", d.estate.service.gear.id, good, found, tags=("service/minimum", "service/rating"))


def transformer(d: Design, ask: Asker) -> Check:
    """A stated transformer below the calculated load or the high expected peak: the utility's to answer."""
    tags = tuple(t for t in (f"{d.chosen['service']}/total", "expected/high_kva") if d.has(t))
    load, rating = d.value(tags[0]) / 1000, d.estate.service.transformer.rating
    high = d.value(tags[1]) if len(tags) > 1 else 0.0
    peak = f", expected peak up to {high:.0f} kVA" if high else ""
    below = rating < max(load, high)
    said = f"{rating:g} kVA stated; calculated load {load:.0f} kVA{peak}"
    return ask("058a", "transformer", "needs judgement" if below else "does not apply", said, tags=tags)


def growth(d: Design, ask: Asker, name: str) -> Check:
    """What is left at a device, against the policy."""
    g = d.items[f"growth/{name}"]
    return ask(
        "033",
        name,
        bool(g.ok),
        f"{g.spare_minimum:.1f} % left over the minimum ampacity ({g.spare:.1f} % over the load); policy {d.limit('growth'):g} %",
        tags=(f"growth/{name}/spare_minimum", f"growth/{name}/spare"),
    )
