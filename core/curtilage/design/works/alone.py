"""What is built from one feeder, without all the others: for a page on which its inputs move, and for trying its sizes.

The same stages do it, each asked for one feeder; what stands before the feeder is taken over from the design that this one was
made from, where nothing before it was changed. As soon as somebody asks for more, the whole stage is worked instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from curtilage.calc.mass import feeder_mass
from curtilage.design.works import boxes, clearing, faults, laid, pulls, raceways, transformer

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.design.works.laid import Planned


def lying(d: Design, name: str) -> tuple[Planned, ...]:
    """The raceways in which the conductors of a feeder lie, stated or proposed."""
    mine = [r for r in d.estate.raceways if any(m.kind == "feeder" and m.of == name for m in r.members)]
    return tuple(laid.stated(d, r) for r in mine) or tuple(laid.proposed(d, f"feeder/{name}"))


def feeder(d: Design, name: str, runs: Sequence[Planned] = ()) -> None:
    """Wire, fault at its panel, clearing, metal, terminals and raceways (`runs`) of one feeder."""
    f = next(f for f in d.estate.feeders if f.id == name)
    before = d.estate.service.gear.id if f.from_ in d.tree.mains else f.from_
    known = set(d.late)
    if "faults" not in d.ran:
        take(d, "transformer", f"fault/{before}")
        if "transformer" not in d.ran:
            transformer.wire(d, name, f"feeder/{name}", f"feeders.{name}", f.egc)
        if "transformer" in d.items and f"fault/{before}" in d.items:
            faults.point(d, f.to, before, f.id, f"panels.{f.to}")
        else:
            d.works("fault")
    if "mass" not in d.ran and f"wire/{name}" in d.items:
        d.attempt(f"mass/{name}", d.asks[f"wire/{name}"]._replace(method=feeder_mass))
    if "clearing" not in d.ran:
        clearing.feeder(d, f)
    if "boxes" not in d.ran:
        boxes.terminals(d, f)
    for p in runs if "raceways" not in d.ran else ():
        fill(d, p)
    claimed = {key for keys in d.ran.values() for key in keys}
    d.alone += [key for key in d.late if key not in known and key not in claimed]


def take(d: Design, *keys: str) -> None:
    """Items of the design that this one was made from, as they are."""
    for key in keys:
        if key not in d.items and key in d.known:
            d.asks[key], d.items[key] = d.known[key]
            d.late[key] = ""


def fill(d: Design, p: Planned) -> None:
    """One raceway, or what it lacks."""
    try:
        raceways.fill(d, f"raceway/{p.id}", p)
    except raceways.Missing as e:
        d.lack(f"raceway/{p.id}", str(e))


def raceway(d: Design, p: Planned) -> None:
    """Fill, jam and pull of one raceway."""
    known = set(d.late)
    if "raceways" not in d.ran:
        fill(d, p)
    if "pulls" not in d.ran:
        pulls.alone(d, p)
    claimed = {key for keys in d.ran.values() for key in keys}
    d.alone += [key for key in d.late if key not in known and key not in claimed]
