"""Electrodes and the conductors that tie them in, structure by structure; their resistance to earth, for information."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.grounding.earth import contact, ring_resistance, rods
from curtilage.calc.grounding.records import Beyond, Contact, Pair, Ring, Rods, Supply
from curtilage.calc.grounding.records import Electrode as Tied
from curtilage.calc.grounding.sizing import electrode_conductor, supply
from curtilage.design.ask import Ask

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.grounding import Electrode, Grounding

NEEDED = {
    "concrete-encased": ("length", "diameter"),
    "rod": ("length", "diameter"),
    "ring": ("length", "wire", "depth"),
    "plate": ("area",),
    "water pipe": ("length",),
    "structural metal": ("length",),
}
"""What has to be known of an electrode before anybody can say whether it counts as one."""


def stage(d: Design) -> None:
    """Every structure whose grounding is stated."""
    for g in d.estate.grounding.structures if d.estate.grounding else ():
        fed = supplied(d, g.id)
        for e in g.electrodes:
            touching(d, g, e)
            earth(d, g, e)
            if fed:
                conductor(d, g, e)


def supply_of(d: Design, structure: str) -> str:
    """The item that feeds a structure: the service, or its largest feeder from another structure; empty if none is sized."""
    if structure == d.estate.service.gear.structure:
        return "service"
    entering = [f"feeder/{f.id}" for f in d.estate.feeders
                if d.standing(f.to) == structure != d.standing(f.from_) and f"feeder/{f.id}" in d.items]
    return max(entering, key=lambda k: d.items[k].sets * d.ed.cmil[d.items[k].size], default="")


def supplied(d: Design, structure: str) -> bool:
    """What the supply of a structure asks of its grounding electrode conductors."""
    key, source = f"ground/{structure}", supply_of(d, structure)
    if not source:
        d.lack(key, f"no feeder of structure {structure} carries load, so its conductors are not sized")
        return False
    r = d.items[source]
    tags = {"sets": f"{source}/sets", "size": f"{source}/size"}
    ask = Ask(supply, Supply(structure, r.sets, r.size), f"grounding.structures.{structure}", d.asks[source].view, {}, tags)
    return d.attempt(key, ask) is not None


def beyond(g: Grounding, e: Electrode) -> list[Electrode]:
    """The electrodes that the conductor of one runs on to, near and far."""
    out: list[Electrode] = []
    reach = [e.id]
    while reach:
        here = reach.pop()
        for x in g.electrodes:
            if x.through == here and x is not e and x not in out:
                out.append(x)
                reach.append(x.id)
    return out


def conductor(d: Design, g: Grounding, e: Electrode) -> None:
    """The conductor of one electrode."""
    key, home = f"ground/{g.id}/{e.id}", f"grounding.structures.{g.id}.electrodes.{e.id}"
    if e.through and not any(x.id == e.through for x in g.electrodes):
        d.lack(key, f"its conductor is said to run over {e.through}, which is no electrode of structure {g.id}")
        return
    far = tuple(Beyond(f"grounding.structures.{g.id}.electrodes.{x.id}", x.kind, x.wire or "") for x in beyond(g, e))
    area = d.items[f"ground/{g.id}"].area
    record = Tied(e.id, e.kind, e.wire or "", e.material, e.conductor or "", area, far)
    view = d.asks[f"ground/{g.id}"].view
    d.attempt(key, Ask(electrode_conductor, record, home, view, {}, {"area": f"ground/{g.id}/area"}))


def touching(d: Design, g: Grounding, e: Electrode) -> None:
    """Whether what lies there counts as an electrode."""
    key, home = f"ground/{g.id}/{e.id}/contact", f"grounding.structures.{g.id}.electrodes.{e.id}"
    wired = e.kind == "concrete-encased" and e.wire is not None
    missing = [n for n in NEEDED[e.kind] if getattr(e, n) is None and not (wired and n == "diameter")]
    if missing:
        d.lack(key, f"the {' and the '.join(missing)} of electrode {e.id} at {g.id}")
        return
    record = Contact(e.id, e.kind, e.length or 0.0, e.diameter or 0.0, e.wire or "", e.depth or 0.0, e.area or 0.0, e.listed)
    d.attempt(key, Ask(contact, record, home))


def earth(d: Design, g: Grounding, e: Electrode) -> None:
    """An estimate of resistance to earth of rods and rings, where soil and sizes are known; information, so nothing is missed."""
    key, home = f"ground/{g.id}/{e.id}/earth", f"grounding.structures.{g.id}.electrodes.{e.id}"
    rho, paths = d.estate.site.resistivity, {"resistivity": "site.resistivity"}
    if rho is None or e.length is None:
        return
    if e.kind == "rod" and e.diameter is not None and (e.count == 1 or e.spacing is not None):
        pairs = tuple(Pair(f"{home}.count", float(j - i)) for i in range(e.count) for j in range(i + 1, e.count))
        record = Rods(e.id, rho, e.length, e.diameter, float(e.count), e.spacing or 0.0, pairs)
        d.attempt(key, Ask(rods, record, home, "ed", paths))
    elif e.kind == "ring" and e.wire is not None and e.depth is not None:
        d.attempt(key, Ask(ring_resistance, Ring(e.id, rho, e.length, e.wire, e.depth), home, "ed", paths))
