"""What is built from the sizes: worked when somebody looks, so that a changed load does not pay for it.

Each module has `stage(d)`, which sorts inputs into records and asks for late items (`d.attempt`); it computes nothing itself.
The order is that of the list: a stage may read what stands before it. Asking for one kind of item ("fault/MH-DP/ll") runs the
stage that makes it and those it needs, not the others; so a page pays for what it shows.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.design.works import (
    alternatives,
    arrangement,
    bonds,
    boxes,
    clearing,
    faults,
    framing,
    grounding,
    letter,
    mass,
    motors,
    network,
    pulls,
    raceways,
    supplies,
    temporary,
    transformer,
    trenches,
)

if TYPE_CHECKING:
    from curtilage.design.design import Design


class Work(NamedTuple):
    """One stage: its name, what runs it, the kinds of the items it makes, the stages whose items it reads."""

    name: str
    stage: Callable[[Design], None]
    kinds: tuple[str, ...]
    needs: tuple[str, ...] = ()


WORKS = (
    Work("supplies", supplies.stage, ("alternate", "run", "bound")),
    Work("transformer", transformer.stage, ("transformer", "wire"), ("supplies",)),
    Work("mass", mass.stage, ("mass",), ("transformer",)),
    Work("faults", faults.stage, ("fault", "margin", "rated"), ("transformer",)),
    Work("clearing", clearing.stage, ("clearing", "far"), ("transformer", "faults")),
    Work("network", network.stage, ("network", "loading", "legs", "current"), ("transformer",)),
    Work("outlets", network.outlets, ("outlet",), ("network",)),
    Work("motors", motors.stage, ("motor", "locked", "start", "dip", "branch_wire", "motor_feeder"), ("transformer",)),
    Work("letter", letter.stage, ("letter", "candidate", "candidate_supply", "flicker", "metering", "milestone",
         "distance"), ("transformer", "faults", "motors")),
    Work("grounding", grounding.stage, ("ground",)),
    Work("bonds", bonds.stage, ("bond",), ("grounding",)),
    Work("raceways", raceways.stage, ("raceway", "cover", "expansion", "way"), ("supplies",)),
    Work("pulls", pulls.stage, ("pull",), ("raceways",)),
    Work("boxes", boxes.stage, ("box", "lug"), ("raceways",)),
    Work("trenches", trenches.stage, ("trench",), ("raceways",)),
    Work("framing", framing.stage, ("framing",)),
    Work("alternatives", alternatives.stage, ("alternative", "option", "long", "local"),
         ("transformer", "faults", "clearing", "mass")),
    Work("arrangement", arrangement.stage, ("arrangement", "disconnect", "space"), ("transformer", "faults")),
    Work("temporary", temporary.stage,
         ("temporary", "temporary_service", "temporary_route", "temporary_feeder", "face", "fallback", "sound")),
)
"""In the order in which they are worked."""


@cache
def _needed(kind: str) -> tuple[Work, ...]:
    """The stages that one kind of item rests on, in order, its own last; all of them for a kind that none claims."""
    last = next((w for w in WORKS if kind in w.kinds), None)
    if last is None:
        return WORKS
    wanted = {last.name}
    for w in reversed(WORKS):
        if w.name in wanted:
            wanted.update(w.needs)
    return tuple(w for w in WORKS if w.name in wanted)


def run(d: Design, kind: str = "") -> None:
    """The stages behind one kind of item, or every stage; each at most once.

    Inside a stage only those before it are run, so nothing goes in a circle.
    """
    names = [w.name for w in WORKS]
    border = names.index(d.working) if d.working else len(names)
    for w in _needed(kind) if kind else WORKS:
        if w.name not in d.ran and names.index(w.name) < border:
            d.ran[w.name] = ()
            for key in [key for key in d.alone if key.split("/")[0] in w.kinds]:  # worked for one feeder; here comes the whole
                d.alone.remove(key)
                for held in (d.late, d.asks, d.items):
                    held.pop(key, None)
            before, known, d.working = d.working, set(d.late), w.name
            try:
                w.stage(d)
            finally:
                d.working = before
            inner = {key for keys in d.ran.values() for key in keys}
            d.ran[w.name] = tuple(key for key in d.late if key not in known and key not in inner)
    if not d.working and len(d.ran) == len(WORKS):
        _put_in_order(d)


def _put_in_order(d: Design) -> None:
    """Items in the order of the list, whichever of them somebody asked for first."""
    order = [key for w in WORKS for key in d.ran[w.name]]
    if list(d.late) != order:
        every: tuple[dict[str, Any], ...] = (d.late, d.asks, d.items)
        for held in every:
            held.update({key: held.pop(key) for key in order if key in held})
