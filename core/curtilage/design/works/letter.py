"""What the utility asks for and answers: metering, distances, dates; load, motors, flicker and transformers beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.utility.distances import Owed, Wait, slip
from curtilage.calc.utility.metering import Meter, metering
from curtilage.design.ask import Ask
from curtilage.design.works import flicker, places

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.later import Event
    from curtilage.model.service import Milestone


def stage(d: Design) -> None:
    """Metering, distances, dates; flicker, transformers, letter."""
    meter(d)
    places.stage(d)
    for m in d.estate.service.milestones:
        if m.done is None:
            milestone(d, m)
    flicker.stage(d)


def meter(d: Design) -> None:
    """The kind of metering."""
    m = d.estate.service.metering
    if m is None:
        d.lack("metering", "how the service is metered (service.metering)")
        return
    if m.kind != "self-contained" and m.distance is None:
        d.lack("metering", "the way from the current transformers to the meter (service.metering.distance)")
        return
    record = Meter("metering", d.items["service"].rating, m.kind, m.distance or 0.0, m.direct_to or 0.0, m.farthest or 0.0)
    d.attempt("metering", Ask(metering, record, "service.metering", "ed", {}, {"rating": "service/rating"}))


def waiting(d: Design, m: Milestone) -> tuple[Event, ...]:
    """The steps of construction that wait for a milestone."""
    return tuple(e for e in d.estate.sequence if e.id in m.before)


def behind(d: Design, m: Milestone) -> tuple[str, ...]:
    """Those and all that come after them, by the sequence."""
    found = [e.id for e in waiting(d, m)]
    for name in found:  # grows while it is read
        found += [e.id for e in d.estate.sequence if name in e.after and e.id not in found]
    return tuple(found)


def milestone(d: Design, m: Milestone) -> None:
    """What an open date of the utility costs, counted from the day of the design."""
    today = d.estate.prepared.date
    if today is None:
        d.lack(f"milestone/{m.id}", "the day of the design (prepared.date)")
        return
    waits = tuple(Wait(e.id, float((e.date - today).days)) for e in waiting(d, m) if e.date is not None)
    silent = [e.id for e in waiting(d, m) if e.date is None]
    if silent:
        d.lack(f"milestone/{m.id}", f"the day of {', '.join(silent)} (sequence)")
        return
    record = Owed(m.id, float((m.due - today).days), m.lead, waits)
    d.attempt(f"milestone/{m.id}", Ask(slip, record, f"service.milestones.{m.id}", "", {"waits": "sequence"}))
