"""Bonding jumpers of the service and of other sources; one bond of the neutral in every mode of operation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.calc.grounding.bonds import one_bond_each
from curtilage.calc.grounding.records import Bonding, Island, Mode
from curtilage.calc.grounding.sizing import bonding
from curtilage.design.ask import Ask
from curtilage.design.neutrals import Neutrals, Proof, proofs

if TYPE_CHECKING:
    from curtilage.design.design import Design


def stage(d: Design) -> None:
    """Jumpers, then the proof of every mode; nothing where the grounding is not stated at all."""
    if d.estate.grounding is None:
        return
    service(d)
    for source in derived(d):
        own(d, source)
    for p in proofs(d.estate):
        mode(d, p)


def service(d: Design) -> None:
    """Main bonding jumper, supply-side jumpers and least neutral of the service."""
    s, asked = d.items["service"], d.asks["service"]
    home, key = f"grounding.structures.{d.estate.service.gear.structure}", "bond/service/jumper"
    g = next((x for x in d.estate.grounding.structures if x.id == d.estate.service.gear.structure), None)  # type: ignore[union-attr]
    if g is None:
        d.lack(key, f"the grounding of structure {d.estate.service.gear.structure}, where the service equipment stands")
        return
    tags = {f: f"service/{f}" for f in ("sets", "size", "neutral")}
    paths = {"metal": "service.lateral.material", "material": f"{home}.jumper_material", "jumper": f"{home}.bonding_jumper"}
    record = Bonding("service", s.sets, s.size, d.estate.service.lateral.material, s.neutral, g.jumper_material,
                     g.bonding_jumper or "")
    d.attempt(key, Ask(bonding, record, home, asked.view, paths, tags))


def derived(d: Design) -> tuple[str, ...]:
    """Generators and storage whose neutral a switch breaks: separately derived, with a bond and a jumper of their own."""
    n = Neutrals(d.estate)
    known = {x.id for x in (*d.estate.sources.generators, *d.estate.sources.storage)} if d.estate.sources else set()
    found = dict.fromkeys(n.source_of(t) for t in n.transfers if t.neutral_switched)
    return tuple(s for s in found if s in known)


def own(d: Design, source: str) -> None:
    """System bonding jumper of one separately derived source."""
    key, home = f"bond/{source}/jumper", f"grounding.sources.{source}"
    x = next((c for c in d.estate.grounding.sources if c.id == source), None)  # type: ignore[union-attr]
    if x is None:
        d.lack(key, f"the conductors of {source}, under grounding.sources: a switch breaks its neutral, it is bonded by itself")
        return
    record = Bonding(source, x.sets, x.size, x.metal, x.neutral, x.jumper_material, x.jumper or "")
    d.attempt(key, Ask(bonding, record, home, f"{x.metal}-pvc", {"material": f"{home}.jumper_material"}))


def mode(d: Design, p: Proof) -> None:
    """The islands of one mode, counted."""
    key = f"bond/{p.mode}"
    if p.open:
        d.lack(key, "; ".join(p.open))
        return
    islands = tuple(Island(i[0], tuple(at.bond for at in bonds)) for i, bonds in zip(p.live, p.bonds, strict=True))
    d.attempt(key, Ask(one_bond_each, Mode(p.mode, islands), "grounding"))
