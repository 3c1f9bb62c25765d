"""An existing service by its recorded demand, with the loads that are marked as future."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.demand.metered import metered
from curtilage.calc.demand.records import Metered
from curtilage.calc.metering import Added, New, Shown, added_load, metered_peak
from curtilage.design.ask import Ask
from curtilage.errors import refuse

if TYPE_CHECKING:
    from curtilage.design.design import Design


def existing(d: Design) -> None:
    """Ask for the room that a metered service leaves. Raises `CurtilageError` where the record does not say enough."""
    m = d.estate.metered
    if m is None or m.peak is None:
        return
    missing = [n for n in ("interval", "period", "power_factor", "generation") if getattr(m, n) is None]
    if missing:
        refuse(
            d.where("metered") or "metered",
            f"the record has a peak and no {', '.join(missing)}",
            "",
            "state them, or take the peak out",
        )
    assert m.power_factor is not None and m.interval is not None and m.period is not None
    peak = d.ask("metered/peak", Ask(metered_peak, Shown("metered", m.peak, m.power_factor), "metered", "")).va
    rows = tuple(
        New(r.id, r.va) for r in d.estate.loads if r.status == "future" and r.category not in ("none", "source", "temporary")
    )
    new = d.ask("metered/added", Ask(added_load, Added("metered", rows), "loads", "")).va
    key, field = (f"main/{m.main}", "rating") if m.main else ("service", "rating")
    record = Metered("metered", peak, m.interval, m.period, bool(m.generation))
    paths = {"own_sources": "metered.generation"}
    more = (
        ("S_new", new, "VA", "tag:metered/added/va"),
        ("I_rated", getattr(d.items[key], field), "A", f"tag:{key}/{field}"),
        ("V", d.volts, "V", "service.voltage"),
    )
    d.ask("metered", Ask(metered, record, "metered", "ed", paths, {"peak": "metered/peak/va"}, more))
