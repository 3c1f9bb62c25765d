"""Voltages on the exact solution, and whether the legs add up to the feeders."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design

WITHIN = 0.02
"""What the legs of the panels and the current of their feeder may differ by."""
SUBJECT = "network"


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 057b, 057c and 202."""
    why = d.lacking.get(SUBJECT, "")
    if why:
        collapsed = "collapse" in why
        yield ask("057b", SUBJECT, False if collapsed else "not evaluated", why, "" if collapsed else why)
    elif SUBJECT in d.items:
        for p in d.estate.panels:
            yield panel(d, ask, p.id)
            yield from outlets(d, ask, p.id)
        for f in d.estate.feeders:
            if f"loading/{f.id}" in d.items:
                yield legs(d, ask, f.id)


def panel(d: Design, ask: Asker, name: str) -> Check:
    """Both legs of one panel, on a base of 120 V."""
    key = f"network/{name}"
    if key not in d.items:
        return ask("057b", name, "does not apply", "no feeder with a load leads there in normal operation")
    v, least, most = d.items[key], d.ed.utilization_least, d.ed.utilization_most
    ok = all(least <= volts <= most for volts in (v.volts_a, v.volts_b))
    found = f"L1 {v.volts_a:.1f} V, L2 {v.volts_b:.1f} V, between them {v.volts_ab:.1f} V; {least:g} to {most:g} V to neutral"
    return ask("057b", name, ok, found, tags=(f"{key}/volts_a", f"{key}/volts_b", f"{key}/volts_ab"))


def outlets(d: Design, ask: Asker, name: str) -> Iterator[Check]:
    """The lowest voltage at the far end of the branch circuits of one panel, and each circuit that leaves the range."""
    at = f"{name}, branch circuits"
    missing = d.stages.unmeasured(name)
    rows = [r for r in d.stages.on_panel.get(name, ()) if r not in missing and f"outlet/{r}" in d.late]
    for r in (r for r in rows if f"outlet/{r}" not in d.items):
        yield ask("057c", r, False, d.late[f"outlet/{r}"])
    found = sorted((d.items[f"outlet/{r}"].on_base, r) for r in rows if f"outlet/{r}" in d.items)
    for volts, r in found:
        o, tags = d.items[f"outlet/{r}"], (f"outlet/{r}/on_base", f"outlet/{r}/on_other")
        if not o.in_range:
            said = f"{volts:.1f} V on a base of 120 V on the leg that is lower, {o.on_other:.1f} V on the other one"
            yield ask("057c", r, "needs judgement" if o.in_range_other else False, said, tags=tags)
    if missing:
        yield ask("057c", at, "not evaluated", "not every length is known", f"the length of {', '.join(missing)}")
    elif found and d.items[f"outlet/{found[0][1]}"].in_range:
        volts, r = found[0]
        yield ask("057c", at, True, f"at least {volts:.1f} V on a base of 120 V, at {r}", tags=(f"outlet/{r}/on_base",))


def legs(d: Design, ask: Asker, feeder: str) -> Check:
    """The part of the connected load that the legs draw, against the calculated current of the feeder."""
    r, f = d.items[f"loading/{feeder}"], d.items[f"feeder/{feeder}"]
    amperes = r.part * r.connected / d.volts
    good = abs(amperes - f.current) <= WITHIN * f.current
    tags = (f"loading/{feeder}/connected", f"loading/{feeder}/part", f"feeder/{feeder}/current")
    return ask("202", feeder, good, f"{amperes:.1f} A on the legs of its panels, {f.current:.1f} A calculated", tags=tags)
