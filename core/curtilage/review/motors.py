"""Motors and their start, receptacles against their device, and other ways of feeding a long run."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.design.stages import CORDS
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.loads import Load


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 067a, 068a, 086, 110a, 111a."""
    for r in d.tree.rows:
        if f"motor/{r.id}" in d.late:
            yield devices(d, ask, r)
        if f"start/{r.id}" in d.late:
            yield starting(d, ask, r)
        if r.category in CORDS and r.circuits:
            yield from receptacles(d, ask, r)
    for f in d.estate.feeders:
        if f"motor_feeder/{f.id}" in d.items:
            key, device = f"motor_feeder/{f.id}", d.items[f"feeder/{f.id}"].device
            most = d.items[key].most
            tags = (f"{key}/most", f"feeder/{f.id}/device")
            yield ask("067a", f.id, device <= most, f"{device:g} A, at most {most:g} A", tags=tags)
        if f"long/{f.id}" in d.items and d.items[f"long/{f.id}"].offered:
            yield alternatives(d, ask, f.id)


def alternatives(d: Design, ask: Asker, f: str) -> Check:
    """Whether other ways of feeding a long, light run were weighed, and one of them chosen in writing."""
    ways = [k.rpartition("/")[2] for k in d.late if k.startswith(f"alternative/{f}/")]
    good = [w for w in ways if f"alternative/{f}/{w}" in d.items and d.items[f"alternative/{f}/{w}"].ok]
    written = next((s for s in d.decisions if any(f"feeder/{f}/" in c for c in s.decision.criteria)), None)
    found = f"{len(ways)} ways weighed, {len(good)} hold ({', '.join(good) or 'none'})"
    tags = (f"long/{f}/product", f"feeder/{f}/ampacity_margin")
    if written is not None:
        options = len(written.decision.options)
        return ask("086", f, options >= 2, f"{found}; decision {written.name} over {options} options", tags=tags)
    return ask("086", f, "needs judgement", f"{found}; no decision names the feeder", tags=tags)


def devices(d: Design, ask: Asker, r: Load) -> Check:
    """The short-circuit device of one motor of the tables, and the setting of its overload."""
    key, circuit = f"motor/{r.id}", d.items[f"circuit/{r.id}"]
    if key not in d.items:
        return ask("111a", r.id, "not evaluated", "the tables do not have this motor", d.late[key])
    m, device = d.items[key], circuit.device
    tags = [f"circuit/{r.id}/device", f"{key}/breaker"]
    alone = r.mca is None and r.qty <= r.circuits
    if r.mca is not None:
        found, ok = f"{device:g} A by the nameplate of the whole", True
    elif not alone:
        most = circuit.device_most
        found, ok = f"{device:g} A for several motors on one circuit, at most {most:g} A", device <= most
        tags = [f"circuit/{r.id}/device", f"circuit/{r.id}/device_most"]
    else:
        found, ok = f"{device:g} A breaker, {m.breaker:g} A by the table", device <= m.breaker_most
    if not ok:
        return ask("111a", r.id, False, found if not alone else f"{found}, {m.breaker_most:g} A at most", tags=tuple(tags))
    if alone and device > m.breaker:
        return ask("111a", r.id, "needs judgement", f"{found}; {m.breaker_most:g} A only if it does not start on that",
                   tags=(*tags, f"{key}/breaker_most"))
    if not r.fla:
        return ask("111a", r.id, "not evaluated", found, "the full-load current of the nameplate (fla)", tags=tuple(tags))
    set_to = f"overload {m.overload:.1f} A on {r.fla:g} A of the nameplate, {m.overload_most:.1f} A if it does not start"
    return ask("111a", r.id, True, f"{found}; {set_to}", tags=(*tags, f"{key}/overload", f"{key}/overload_most"))


def starting(d: Design, ask: Asker, r: Load) -> Check:
    """The dip at the motor against the policy, and at its panel against what neighbours bear."""
    key = f"start/{r.id}"
    if key not in d.items:
        return ask("068a", r.id, "not evaluated", "what its start does to the voltage is not known", d.late[key])
    s, limit, beside = d.items[key], d.limit("starting_dip"), d.ed.neighbour_dip
    found = (f"{s.dip:.1f} % at its terminals, at most {limit:g} %; {s.board:.1f} % at panel {r.panel}, at most {beside:g} %; "
             f"{s.gear:.1f} % at the gear")
    return ask("068a", r.id, bool(s.ok) and s.board <= beside, found, tags=(f"{key}/dip", f"{key}/board", f"{key}/gear"))


def receptacles(d: Design, ask: Asker, r: Load) -> Iterator[Check]:
    """Circuits of general receptacles behind more than 20 A: only what is loud is said."""
    key = f"circuit/{r.id}"
    device, most = d.items[key].device, d.ed.receptacle_device
    if r.poles != 1 or device <= most:
        return
    found = f"{device:g} A ahead of {r.load.lower()}; receptacles of 15 and 20 A stand behind {most:g} A at most"
    several = r.qty > r.circuits or r.category != "receptacle"
    yield ask("110a", r.id, False if several else "needs judgement", found, tags=(f"{key}/device",))
