"""Feeders, panels, branch circuits and voltage along each path."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.review.parallel import described, differences
from curtilage.review.service import growth
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.feeders import Feeder


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 031, 033, 047, 057, 065 to 069, 085, 098, 110, 111."""
    for f in d.estate.feeders:
        if f"feeder/{f.id}" in d.items:
            yield from feeder(d, ask, f)
    for p in d.estate.panels:
        yield from panel(d, ask, p.id, p.rating, p.main)
    for r in d.tree.rows:
        if f"circuit/{r.id}" in d.items:
            yield from circuit(d, ask, r.id, r.mocp or 0.0, r.length is not None)


def feeder(d: Design, ask: Asker, f: Feeder) -> Iterator[Check]:
    """One feeder."""
    key = f"feeder/{f.id}"
    r = d.items[key]

    def tags(*fields: str) -> tuple[str, ...]:
        return tuple(f"{key}/{name}" for name in fields)

    laid = f"{r.sets} x {r.size}" if r.sets > 1 else r.size
    yield ask(
        "065",
        f.id,
        bool(r.carries_ok),
        f"{laid} carries {r.ampacity:.0f} A, {r.required:.0f} A are required",
        tags=tags("ampacity", "required"),
    )
    if f.dwelling_rule:
        yield ask("066", f.id, bool(r.dwelling_rule), r.dwelling_reason, tags=tags("dwelling_rule"))
    else:
        yield ask("066", f.id, "does not apply", "the reduced conductor is not claimed")
    ok = bool(r.device_ok) and bool(r.protected)
    yield ask(
        "067",
        f.id,
        ok,
        f"{r.device:g} A for a minimum of {r.minimum:.0f} A, on {r.ampacity:.0f} A of conductor",
        tags=tags("device", "minimum", "ampacity"),
    )
    yield ask(
        "068", f.id, bool(r.drop_ok), f"{r.drop:.2f} %, recommended at most {d.limit('feeder_drop'):g} %", tags=tags("drop")
    )
    yield ground(d, ask, f)
    yield parallel(d, ask, f)
    yield ask(
        "031",
        f.id,
        bool(r.neutral_ok),
        f"{r.neutral} for {r.neutral_current:.0f} A" + ("" if r.neutral_ok else f", at least {r.neutral_least}"),
        tags=tags("neutral_current", "neutral", "neutral_least"),
    )
    yield growth(d, ask, f.id)
    yield from length(d, ask, f)


def ground(d: Design, ask: Asker, f: Feeder) -> Check:
    """The ground that is stated against the one that is wanted; a chosen one is the wanted one."""
    r, key = d.items[f"feeder/{f.id}"], f"feeder/{f.id}"
    tags = (f"{key}/egc", f"{key}/egc_table")
    if f.egc is None:
        return ask("069", f.id, True, f"{r.egc} chosen; the table alone asks {r.egc_table}", tags=tags)
    enough = d.ed.cmil[f.egc] >= d.ed.cmil[r.egc]
    return ask("069", f.id, enough, f"{f.egc} stated, {r.egc} wanted; the table alone asks {r.egc_table}", tags=tags)


def parallel(d: Design, ask: Asker, f: Feeder) -> Check:
    """Sets in parallel: large enough, and alike in everything that is stated of their raceways."""
    r = d.items[f"feeder/{f.id}"]
    if r.sets < 2:
        return ask("047", f.id, "does not apply", "one set")
    unlike = differences(d, "feeder", f.id, r.sets, r.size)
    found = "; ".join([f"{r.sets:g} x {r.size}", *(unlike or [described(d, "feeder", f.id)])])
    return ask("047", f.id, bool(r.parallel_ok) and not unlike, found, tags=(f"feeder/{f.id}/sets", f"feeder/{f.id}/size"))


def length(d: Design, ask: Asker, f: Feeder) -> Iterator[Check]:
    """A stated length against the trench, where there is one between two structures."""
    start, end = d.standing(f.from_), d.standing(f.to)
    if start == end or d.estate.site_graph is None:
        return
    way = d.estate.route(start, end)
    if f.length is None:
        yield ask("085", f.id, True, f"{way.length:,.0f} ft along {', '.join(way.edges)}", tags=(f"route/{f.id}/length",))
    else:
        yield ask(
            "085",
            f.id,
            0.95 * way.length <= f.length <= 1.5 * way.length,
            f"{f.length:,.0f} ft stated, {way.length:,.0f} ft along the trenches",
        )


def panel(d: Design, ask: Asker, name: str, rating: float | None, main: float | None) -> Iterator[Check]:
    """Load, device and bus of one panel."""
    f = d.tree.feeder_of.get(name)
    if f is None or f"feeder/{f.id}" not in d.items:
        return
    r = d.items[f"feeder/{f.id}"]
    if rating is None:
        yield ask("098", name, "not evaluated", f"{r.minimum:.0f} A", "the rating of its bus")
    else:
        holds = min(rating, main or rating)
        yield ask(
            "098",
            name,
            r.minimum <= holds and r.device <= rating,
            f"{r.minimum:.0f} A minimum, device {r.device:g} A, bus {rating:g} A",
            tags=(f"feeder/{f.id}/minimum", f"feeder/{f.id}/device"),
        )
    if f"path/{name}" in d.items:
        p = d.items[f"path/{name}"]
        lacking = ", ".join(d.stages.unmeasured(name))
        missing = f"the length of {lacking}" if lacking else ""
        yield ask(
            "068",
            f"{name}, farthest outlet",
            known(bool(p.total_ok), missing),
            f"{p.total:.2f} % over feeders and branch, recommended at most {d.limit('total_drop'):g} %",
            missing if p.total_ok else "",
            tags=(f"path/{name}/total",),
        )
        yield ask(
            "057",
            f"{name}, farthest outlet",
            known(bool(p.outlet_ok), missing),
            f"{p.outlet_volts:.1f} V on a 120 V base",
            missing if p.outlet_ok else "",
            tags=(f"path/{name}/outlet_volts",),
        )


def known(ok: bool, missing: str) -> str | bool:
    """What fails without the missing lengths fails with them; what passes without them is not evaluated."""
    return "not evaluated" if ok and missing else ok


def circuit(d: Design, ask: Asker, row: str, mocp: float, measured: bool) -> Iterator[Check]:
    """One branch circuit: only what fails is said by row, and nameplate limits always."""
    key = f"circuit/{row}"
    r = d.items[key]
    if not (r.device_ok and r.protected and r.carries_ok):
        most = f", at most {r.device_most:g} A" if r.device_most else ""
        yield ask(
            "111" if mocp else "110",
            row,
            False,
            f"device {r.device:g} A, at least {r.device_least:g} A{most}, conductor {r.size}",
            tags=(f"{key}/device", f"{key}/device_least", f"{key}/device_most"),
        )
    elif mocp:
        yield ask(
            "111",
            row,
            True,
            f"device {r.device:g} A, at most {r.device_most:g} A; conductor {r.size} for {r.minimum:g} A",
            tags=(f"{key}/device",),
        )
    if not measured:
        yield ask("068", row, "not evaluated", "the drop on the branch circuit is not known", "the length of the circuit")
    elif not r.drop_ok:
        yield ask(
            "068",
            row,
            False,
            f"{r.drop:.2f} % on the branch circuit, recommended at most {d.limit('branch_drop'):g} %",
            tags=(f"{key}/drop",),
        )
