"""Bonding jumpers, the ground of parallel feeders, and the one bond of the neutral in every mode of operation."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.neutrals import Neutrals, Proof, proofs
from curtilage.design.works.bonds import derived
from curtilage.review.asked import Asker
from curtilage.review.grounding import NOT_STATED
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 070, 078, 091, 092, 095, 095a."""
    yield from parallel(d, ask)
    if d.estate.sources is not None:
        for p in proofs(d.estate):
            yield loops(ask, p)
    if d.estate.grounding is None:
        for number in ("078", "091", "092", "095"):
            yield ask(number, "estate", "not evaluated", "nothing is stated", NOT_STATED)
        return
    yield from service(d, ask)
    yield from sources(d, ask)
    yield from beyond(d, ask)
    for p in proofs(d.estate):
        yield mode(d, ask, p)


def parallel(d: Design, ask: Asker) -> Iterator[Check]:
    """The equipment ground in each raceway of a feeder of several sets."""
    for f in d.estate.feeders:
        key = f"feeder/{f.id}"
        if key not in d.items or d.items[key].sets <= 1:
            continue
        r = d.items[key]
        laid = f.egc or r.egc
        said = f"{laid} {'stated' if f.egc else 'chosen'} in each of {r.sets:g} raceways; {r.egc_table} for {r.device:g} A"
        yield ask("070", f.id, d.ed.cmil[laid] >= d.ed.cmil[r.egc_table], said, tags=(f"{key}/egc", f"{key}/egc_table"))


def service(d: Design, ask: Asker) -> Iterator[Check]:
    """The main bonding jumper and the neutral that a fault comes back by."""
    key, gear = "bond/service/jumper", d.estate.service.gear
    if key in d.lacking:
        for number in ("091", "092"):
            yield ask(number, "service", "not evaluated", "the jumper is not sized", d.lacking[key])
        return
    r = d.items[key]
    g = next(x for x in d.estate.grounding.structures if x.id == gear.structure)  # type: ignore[union-attr]
    neutral = d.asks[key].record.neutral
    said = f"{r.jumper} {g.jumper_material.capitalize()} {'stated' if g.bonding_jumper else 'chosen'} for {r.area:,.0f} cmil"
    if not g.neutral_bond:
        said = f"neutral and ground are not said to be bonded at {gear.id}"
    elif not r.jumper_ok:
        said += f", at least {r.least}"
    tags = tuple(f"{key}/{f}" for f in ("jumper", "least", "area"))
    yield ask("091", "service", bool(r.jumper_ok) and g.neutral_bond, said + unsaid(*proofs(d.estate)), tags=tags)
    yield supply_side(d, ask)
    yield ask("092", "service", bool(r.neutral_ok), f"{neutral} in each raceway; at least {r.neutral_area:,.0f} cmil",
              tags=(f"{key}/neutral_area", "service/neutral"))


def supply_side(d: Design, ask: Asker) -> Check:
    """Bonding of metal raceways ahead of the service disconnects: needed where they are of metal."""
    key, kind = "bond/service/jumper", d.estate.service.lateral.raceway
    r, tags, on = d.items[key], (f"{key}/each", f"{key}/least"), "supply side"
    if kind == "pvc":
        return ask("091", on, "does not apply", "the raceways of the service conductors are not of metal")
    said = f"raceways of {kind}: a jumper of {r.each} for each, or one of {r.least} for all"
    seen = next((a for a in d.estate.attested if a.check == "091" and a.subject == on), None)
    if seen:
        return ask("091", on, "attested", f"{said}; {seen.statement}; {seen.by}, {seen.date}, {seen.evidence}", tags=tags)
    return ask("091", on, "not evaluated", said, "how they are bonded, and who saw it (attested, check 091)", tags=tags)


def sources(d: Design, ask: Asker) -> Iterator[Check]:
    """The system bonding jumper of each separately derived source."""
    for source in derived(d):
        key = f"bond/{source}/jumper"
        if key in d.lacking:
            yield ask("091", source, "not evaluated", "its neutral is switched: separately derived", d.lacking[key])
            continue
        r = d.items[key]
        said = f"system bonding jumper {r.jumper}" + ("" if r.jumper_ok else f", at least {r.least}")
        said += unsaid(*proofs(d.estate))
        yield ask("091", source, bool(r.jumper_ok), said, tags=(f"{key}/jumper", f"{key}/least"))


def beyond(d: Design, ask: Asker) -> Iterator[Check]:
    """No bond at a structure beyond the service."""
    n, gear = Neutrals(d.estate), d.estate.service.gear
    stated = {g.id for g in d.estate.grounding.structures}  # type: ignore[union-attr]
    home = {p.id: p.structure for p in d.estate.panels}
    for s in d.estate.structures:
        here = [p for p, at in home.items() if at == s.id]
        if not here:
            continue
        bonded = [b.words for b in n.bonds if b.bond.bonded and b.place in here]
        if bonded:
            yield ask("078", s.id, False, f"neutral and ground are bonded again at {', '.join(bonded)}: the neutral current "
                      "divides with the grounding conductor and everything tied to it")
        elif s.id not in stated and s.id != gear.structure:
            yield ask("078", s.id, "not evaluated", "no panel is said to be bonded",
                      f"whether neutral and ground are apart at {s.id}, under grounding")
        else:
            yield ask("078", s.id, True, f"no bond at {', '.join(here)}")


def mode(d: Design, ask: Asker, p: Proof) -> Check:
    """The proof of one mode."""
    key = f"bond/{p.mode}"
    if key in d.lacking:
        return ask("095", p.mode, "not evaluated", islands(p), d.lacking[key])
    r = d.items[key]
    tags = (f"{key}/bonds", f"{key}/islands", f"{key}/fewest", f"{key}/most")
    return ask("095", p.mode, bool(r.ok), islands(p) + unsaid(p), tags=tags)


def unsaid(*found: Proof) -> str:
    """Said beside an outcome that rests on switches of which nobody says whether they break the neutral, and holds either way."""
    count = max((p.both for p in found), default=0)
    if not count or any(p.open for p in found):
        return ""
    return f"; whether the switch breaks the neutral is not stated at {count} panel(s): read both ways, the bonds are the same"


def loops(ask: Asker, p: Proof) -> Check:
    """Check 095a: neutral current has one way back in this mode."""
    if p.unsure:
        return ask("095a", p.mode, "not evaluated", "", "; ".join(p.unsure))
    if not p.rings:
        return ask("095a", p.mode, True, "no closed loop of neutral")
    said = "1 closed loop" if p.rings == 1 else f"{p.rings} closed loops"
    said += f" of neutral, at {', '.join(p.ringed)}: neutral current goes back over both supplies"
    return ask("095a", p.mode, False, said)


def islands(p: Proof) -> str:
    """The islands of one mode in words: what feeds them, where they are bonded."""
    parts = []
    for places, at in zip(p.live, p.bonds, strict=True):
        found = [b.words for b in at if b.bond.bonded]
        count = {0: "no bond", 1: "one bond"}.get(len(found), f"{len(found)} bonds")
        parts.append(f"{count} in the island of {places[0]}" + (f": {', '.join(found)}" if found else ""))
    return "; ".join(parts)
