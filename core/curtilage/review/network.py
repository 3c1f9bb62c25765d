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
    """Checks 057b and 202."""
    why = d.lacking.get(SUBJECT, "")
    if why:
        collapsed = "collapse" in why
        yield ask("057b", SUBJECT, False if collapsed else "not evaluated", why, "" if collapsed else why)
    elif SUBJECT in d.items:
        for p in d.estate.panels:
            yield panel(d, ask, p.id)
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


def legs(d: Design, ask: Asker, feeder: str) -> Check:
    """The part of the connected load that the legs draw, against the calculated current of the feeder."""
    r, f = d.items[f"loading/{feeder}"], d.items[f"feeder/{feeder}"]
    amperes = r.part * r.connected / d.volts
    good = abs(amperes - f.current) <= WITHIN * f.current
    tags = (f"loading/{feeder}/connected", f"loading/{feeder}/part", f"feeder/{feeder}/current")
    return ask("202", feeder, good, f"{amperes:.1f} A on the legs of its panels, {f.current:.1f} A calculated", tags=tags)
