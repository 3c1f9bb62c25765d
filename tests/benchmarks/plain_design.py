"""Every item of a design, written plainly: the records of the design go in, the same numbers must come out."""
from __future__ import annotations

from collections.abc import Callable
from math import ceil
from typing import Any

import plain_conductors as c
import plain_loads as w

Run = Callable[[], Any]


def fullest(units: float, circuits: float) -> float:
    """Units on the fullest circuit; where every unit has as many circuits for itself, its part."""
    return units / circuits if circuits % max(units, 1) == 0 and units else float(ceil(units / circuits))


def written(ask: Any) -> Run | None:
    """The plain calculation of one item, ready to run; None for a method that nobody has written a second time."""
    r, name, view = ask.record, ask.method.__name__, ask.view
    more, beside = [m[1] for m in ask.more], ask.besides
    return {
        "branch_circuit": lambda: c.branch(r, view), "feeder": lambda: c.feeder(r, view), "service": lambda: c.service(r, view),
        "service_main": lambda: c.main(r, *more), "path": lambda: c.path(r),
        "per_circuit": lambda: (r.va / max(r.qty, 1) * fullest(r.qty, r.circuits), r.va / max(r.qty, 1), r.va),
        "motor_circuit": lambda: (w.load(r)[1] * max(1, fullest(r.qty, more[0])), w.load(r)[1], w.load(r)[0]),
        "route": lambda: (sum([s.length + s.rise for s in r.stretches]) + r.slack,),
        "standard": lambda: w.standard(r), "optional": lambda: w.optional(r), "within_whole": lambda: w.within_whole(r),
        "between_methods": lambda: w.between(r),
        "other": lambda: w.other(r), "two_dwellings": lambda: w.two(r, *beside), "together": lambda: w.together(r),
        "dwelling_neutral": lambda: w.dwelling_neutral(r, *beside), "other_neutral": lambda: w.other_neutral(r, *beside),
        "neutral_together": lambda: w.neutral_together(r), "neutral_load": lambda: (r.amperes * r.volts,),
        "growth": lambda: w.growth(r), "shares": lambda: w.shares(r), "structure_peaks": lambda: w.peaks(r),
        "estate_peak": lambda: w.estate_peak(r),
    }.get(name)


def items(design: Any) -> dict[str, Run]:
    """The whole design, item by item in its order; a method without a plain writing runs as it is, so the floor stays fair."""
    def ours(ask: Any) -> Run:
        args = (ask.record, *(m[1] for m in ask.more), *ask.besides, *design._editions(ask, design.ed))
        return lambda: ask.method(*args)
    return {key: written(ask) or ours(ask) for key, ask in design.asks.items()}
