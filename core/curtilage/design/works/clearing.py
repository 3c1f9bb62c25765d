"""Far-end faults against the devices that must clear them."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

from curtilage.calc.fault.clearing import clearing, far_end
from curtilage.calc.fault.records import Device, Far, Point
from curtilage.design.ask import Ask
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder
    from curtilage.model.loads import Load
    from curtilage.model.sources import Alternate
    from curtilage.model.trips import Trip


def stage(d: Design) -> None:
    """Every feeder with its device, then every alternate feeder, then every branch circuit with its breaker."""
    for f in d.estate.feeders:
        if f"feeder/{f.id}" in d.items:
            feeder(d, f)
    for a in d.estate.sources.alternates if d.estate.sources else ():
        if f"alternate/{a.id}" in d.late:
            alternate(d, a)
    for r in d.tree.rows:
        if f"circuit/{r.id}" in d.items and r.length is None:
            d.lack(f"far/{r.id}", f"the length of circuit {r.id} is missing")
        elif f"circuit/{r.id}" in d.items:
            circuit(d, r)


def feeder(d: Design, f: Feeder) -> None:
    """The device of a feeder against a fault to ground at the panel it feeds."""
    run(d, f, f"feeder/{f.id}", f"fault/{f.to}", f"feeders.{f.id}")


def alternate(d: Design, a: Alternate) -> None:
    """The device of an alternate feeder against a fault to ground at its end, while the utility carries the bus before it."""
    run(d, a, f"alternate/{a.id}", f"fault/{a.id}", f"sources.alternates.{a.id}")


def run(d: Design, f: Feeder | Alternate, laid: str, point: str, home: str) -> None:
    """The device of `laid` against the fault to ground at `point`."""
    key = f"clearing/{f.id}"
    if laid not in d.items or point not in d.items:
        d.lack(key, d.late.get(laid) or d.late.get(point) or f"the fault at the end of {f.id} is not known")
        return
    how = tripping(d, f.trip, f"{home}.trip")
    if how is None:
        d.lack(key, rising(home))
        return
    record = Device(f.id, d.items[laid].device, d.items[point].lg, **how.fields, gfci=False, volts=d.volts)
    d.attempt(key, Ask(clearing, record, home, "ed", how.paths, {"rating": f"{laid}/device", "fault": f"{point}/lg", **how.tags}))


def circuit(d: Design, r: Load) -> None:
    """The breaker of a branch circuit against a fault to ground at its far end; a receptacle does not guard the way to it."""
    key, point = f"far/{r.id}", f"fault/{r.panel}"
    if point not in d.items:
        d.lack(key, d.late.get(point) or f"the fault at {r.panel} is not known")
        return
    how = tripping(d, d.estate.basis.branch.trip, "basis.branch.trip")
    if how is None:
        d.lack(key, rising("basis.branch"))
        return
    laid, at = d.items[f"circuit/{r.id}"], d.items[point]
    record = Far(
        r.id,
        laid.device,
        laid.size,
        laid.egc,
        r.length or 0.0,
        at.r_lg,
        at.x_lg,
        d.volts,
        **how.fields,
        gfci=r.gfci_by == "breaker",
    )
    tags = {"rating": f"circuit/{r.id}/device", "size": f"circuit/{r.id}/size", "ground": f"circuit/{r.id}/egc"}
    tags |= {"r_lg": f"{point}/r_lg", "x_lg": f"{point}/x_lg", **how.tags}
    d.attempt(key, Ask(far_end, record, f"loads.{r.id}", d.asks[f"circuit/{r.id}"].view,
                       how.paths | {"gfci": f"loads.{r.id}.gfci_by"}, tags))


class How:
    """When a device trips, and where that was stated."""

    def __init__(self, fields: dict[str, Any], paths: dict[str, str], tags: dict[str, str]) -> None:
        self.fields, self.paths, self.tags = fields, paths, tags


def tripping(d: Design, trip: Trip | None, home: str) -> How | None:
    """What is stated, and the rule of the edition where nothing is; None where the curve rises with the current."""
    paths = {"pickup": f"{home}.instantaneous", "curve": f"{home}.curve", "limit": "policy.clearing", "volts": "service.voltage"}
    tags: dict[str, str] = {}
    stated = [Point(str(i), p.multiple, p.time) for i, p in enumerate(trip.curve)] if trip else []
    points = sorted(stated, key=lambda p: -p.multiple)
    if any(high.time > low.time or high.multiple == low.multiple for high, low in pairwise(points)):
        return None
    tolerance = trip.tolerance if trip else None
    if tolerance is None:
        tolerance, tags["tolerance"] = d.ed.instantaneous_tolerance, "rule:instantaneous_tolerance"
    else:
        paths["tolerance"] = f"{home}.tolerance"
    limit = d.estate.policy.clearing
    if limit is None:
        limit, tags["limit"] = d.ed.clearing_time, "rule:clearing_time"
    fields = {
        "pickup": (trip.instantaneous or 0.0) if trip else 0.0,
        "tolerance": tolerance,
        "curve": tuple(points),
        "limit": limit,
    }
    return How(fields, {k: v for k, v in paths.items() if k not in tags}, tags)


def unstated(d: Design, key: str) -> Any:
    """The clearing `key` as it would be, had nothing been stated of the trip; None where no bound would hold."""
    ask = d.asks[key]
    bare = ask.record._replace(pickup=0.0, curve=(), tolerance=d.ed.instantaneous_tolerance)
    try:
        return ask.method(bare, d.ed if ask.view == "ed" else d.ed.view(ask.view))
    except CurtilageError:
        return None


def rising(home: str) -> str:
    """What is said of a trip curve that no breaker has."""
    return f"the points of {home}.trip.curve rise, or two stand at one multiple; the time must fall as the current grows"
