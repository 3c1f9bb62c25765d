"""Electrodes, the conductors that tie them in, and what else has to be bonded at a structure."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.grounding import Electrode, Grounding
    from curtilage.model.policy import Proof
    from curtilage.model.site import Structure

NOT_STATED = "the grounding of the estate, section grounding"
POURED = ("slab", "framing", "rough-in", "finish", "built")
"""How far a structure is built when the concrete of its footing has been placed."""
DRIVEN = ("rod", "plate")
BURIED = ("rod", "plate", "ring", "concrete-encased")
EARTHED = {"water": ("water pipe", "10 ft or more of metal water pipe in the earth (250.52(A)(1))"),
           "steel": ("structural metal", "structural metal in the earth (250.52(A)(2))")}
"""Metal systems that are electrodes where they reach the earth: the electrode's kind, and what to look for."""
SYSTEMS = {"water": "metal water pipe", "gas": "gas pipe", "steel": "structural steel"}


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 077, 088, 089, 090, 093, 094, 096, 097."""
    plan = d.estate.grounding
    if plan is None:
        for number in ("077", "088", "094"):
            yield ask(number, "estate", "not evaluated", "nothing is stated", NOT_STATED)
        return
    stated = {g.id: g for g in plan.structures}
    for s in d.estate.structures:
        yield from electrode(d, ask, s, stated.get(s.id))
        if (g := stated.get(s.id)) is not None:
            for e in g.electrodes:
                yield made(d, ask, g, e)
                if e.kind == "concrete-encased":
                    yield hold(d, ask, s, e)
                yield conductor(d, ask, g, e)
            yield from second(d, ask, g)
            yield from metal(d, ask, g)
            yield from in_ground(d, ask, g)
            yield lightning(d, ask, g)
        yield from intersystem(d, ask, s, g)
    yield from tubing(d, ask)


# -------------------------------------------------------------------------------------------------------------- electrodes
def electrode(d: Design, ask: Asker, s: Structure, g: Grounding | None) -> Iterator[Check]:
    """Whether there is one, and whether all that are there are used."""
    own = any(p.structure == s.id for p in d.estate.panels) or s.id == d.estate.service.gear.structure
    from_afar = sum(r.circuits for r in d.tree.rows if r.structure == s.id)
    if not own and from_afar <= 1:
        yield ask("077", s.id, "does not apply", "one branch circuit at most, from another structure")
        return
    if g is None:
        yield ask("077", s.id, "not evaluated", "nothing is stated", f"the electrodes of structure {s.id}, under grounding")
        return
    what = ", ".join(kinds(e) for e in g.electrodes)
    yield ask("077", s.id, bool(g.electrodes), what or "no electrode", tags=tags(d, f"ground/{s.id}/copper"))
    if not g.electrodes or any(e.kind == "concrete-encased" for e in g.electrodes):
        return
    seen = next((a for a in d.estate.attested if a.check == "088" and a.subject == s.id), None)
    if seen is not None:
        yield ask("088", s.id, "attested", f"{seen.statement}; {seen.by}, {seen.date}, {seen.evidence}")
    else:
        yield ask("088", s.id, "not evaluated", f"{what}; no electrode in concrete",
                  f"whether the footing of {s.id} holds {d.ed.encased_length:g} ft of bar, which then has to be used "
                  "(attested, check 088)")


def kinds(e: Electrode) -> str:
    """An electrode in words."""
    return f"{e.count} x {e.kind}" if e.count > 1 else e.kind


def made(d: Design, ask: Asker, g: Grounding, e: Electrode) -> Check:
    """Whether what lies there counts as an electrode."""
    key, subject = f"ground/{g.id}/{e.id}/contact", f"{g.id}, {e.id}"
    if key in d.lacking:
        return ask("088", subject, "not evaluated", kinds(e), d.lacking[key])
    r = d.items[key]
    short = [w for w, ok in (("too short or too small", r.long_enough), ("too thin", r.thick_enough),
                             ("not deep enough", r.deep_enough)) if not ok]
    measure = ", ".join(x for x in (
        f"{e.length:g} ft" if e.length else "", f"{e.diameter:g} in" if e.diameter else "", f"wire {e.wire}" if e.wire else "",
        f"{e.depth:g} ft deep" if e.depth else "", f"{e.area:g} ft2" if e.area else "") if x)
    said = f"{kinds(e)}: {measure}" + (f"; {' and '.join(short)}" if short else "")
    return ask("088", subject, bool(r.ok), said, tags=(f"{key}/ok",))


def hold(d: Design, ask: Asker, s: Structure, e: Electrode) -> Check:
    """Steel in concrete: somebody saw it tied before the pour, or the pour is still to come, or it was missed."""
    subject = f"{s.id}, {e.id}: tied before the pour"
    event = next((x for x in d.estate.sequence if x.id == e.pour), None)
    day = event.date if event is not None else None
    if complete(e.tied):
        assert e.tied is not None
        if day is not None and e.tied.date is not None and e.tied.date > day:
            return ask("088", subject, False, f"seen on {e.tied.date}, after the pour of {day}")
        return ask("088", subject, "attested", f"{e.tied.by}, {e.tied.date}, {e.tied.evidence}")
    now = d.estate.prepared.date
    if s.status in POURED:
        return ask("088", subject, False, f"{s.id} stands at {s.status}: concrete was placed, and no proof says the bar was tied")
    if day is not None and now is not None and day <= now:
        return ask("088", subject, False, f"the pour of {day} has passed, and no proof says the bar was tied")
    when = f"; the pour is on {day}" if day is not None else ""
    return ask("088", subject, "not evaluated", f"a hold point{when}",
               "who saw the bar tied, when, and the evidence (tied), before concrete is placed")


def complete(p: Proof | None) -> bool:
    """Who, when and evidence are all there."""
    return p is not None and bool(p.by and p.date and p.evidence)


def conductor(d: Design, ask: Asker, g: Grounding, e: Electrode) -> Check:
    """The grounding electrode conductor of one electrode."""
    key, subject = f"ground/{g.id}/{e.id}", f"{g.id}, {e.id}"
    why = d.lacking.get(key) or d.lacking.get(f"ground/{g.id}")
    if why:
        return ask("090", subject, "not evaluated", kinds(e), why)
    r, metal = d.items[key], e.material.capitalize()
    chosen = "stated" if e.conductor else "chosen"
    said = f"{r.size} {metal} {chosen}" + ("" if r.ok else f", at least {r.least}")
    if d.ed.cmil[r.size] < d.ed.cmil[d.ed.gec_rod]:
        said += f"; smaller than {d.ed.gec_rod}, it runs in a raceway or armor (250.64(B))"
    good: bool | str = bool(r.ok)
    if good and e.material == "al" and e.kind in BURIED:
        said += "; outdoors aluminium ends 18 in above earth at least, and bare it touches neither earth nor masonry (250.64(A))"
        good = "needs judgement"
    return ask("090", subject, good, said, tags=(f"{key}/size", f"{key}/least", f"ground/{g.id}/area"))


def second(d: Design, ask: Asker, g: Grounding) -> Iterator[Check]:
    """A second electrode beside a rod, a plate or a water pipe, or a measured resistance."""
    weak = [e for e in g.electrodes if e.kind in (*DRIVEN, "water pipe")]
    if not weak:
        return
    strong = [e for e in g.electrodes if e not in weak]
    apart = [t for e in weak for t in tags(d, f"ground/{g.id}/{e.id}/earth/resistance")]
    estimate = "".join(f"; estimate {d.value(t):.0f} ohm in this soil, for information" for t in apart[:1])
    driven = [e for e in weak if e.kind in DRIVEN]
    many = sum(e.count for e in driven)
    measured = [e for e in driven if e.resistance is not None]
    low = any(e.resistance <= d.ed.rod_resistance for e in measured if e.resistance is not None)
    said = ", ".join(kinds(e) for e in g.electrodes) + "".join(f"; measured {e.resistance:g} ohm" for e in measured) + estimate
    if driven and not strong and len(driven) < len(weak):
        said += "; a water pipe is no second electrode of a rod, and the rod beside it has to do by itself (250.53(A)(2), (D)(2))"
    if strong:
        yield ask("089", g.id, True, said, tags=tuple(apart))
    elif not driven:
        yield ask("089", g.id, False, f"{said}: a water pipe alone", tags=tuple(apart))
    elif many > 1:
        yield spaced(d, ask, g, driven, said, tuple(apart))
    elif low and complete(measured[0].measured):
        yield ask("089", g.id, "attested", f"{said}; {measured[0].measured.by}, {measured[0].measured.date}",  # type: ignore[union-attr]
                  tags=tuple(apart))
    elif low:
        yield ask("089", g.id, "not evaluated", said, "who measured it, when, and the record (measured)", tags=tuple(apart))
    else:
        yield ask("089", g.id, False, f"{said}: one alone, and not shown to be at most {d.ed.rod_resistance:g} ohm",
                  tags=tuple(apart))


def spaced(d: Design, ask: Asker, g: Grounding, driven: list[Electrode], said: str, apart: tuple[str, ...]) -> Check:
    """Several rods count as such from a distance up."""
    near = [e for e in driven if e.count > 1 and e.spacing is None]
    if near and len(driven) == 1:
        return ask("089", g.id, "not evaluated", said, f"the spacing of {near[0].id} at {g.id}", tags=apart)
    close = [e for e in driven if e.spacing is not None and e.spacing < d.ed.rods_apart]
    if close:
        said += f"; {close[0].spacing:g} ft apart, at least {d.ed.rods_apart:g} ft"
    return ask("089", g.id, not close, said, tags=apart)


# -------------------------------------------------------------------------------------------------------------- other bonds
def metal(d: Design, ask: Asker, g: Grounding) -> Iterator[Check]:
    """Metal water pipe, gas pipe and structural steel."""
    there = set(g.metal or ()) | {n for n in SYSTEMS if getattr(g, n) is not None}
    if d.estate.gas and any(a.structure == g.id for a in d.estate.gas.appliances):
        there.add("gas")
    for name in (n for n in SYSTEMS if n in there):
        done = getattr(g, name)
        subject = f"{g.id}, {SYSTEMS[name]}"
        if done is None:
            yield ask("094", subject, "not evaluated", "it is there", f"whether {SYSTEMS[name]} at {g.id} is bonded ({name})")
        else:
            yield ask("094", subject, bool(done), f"{'bonded' if done else 'not bonded'}{jumper(d, g.id, name)}",
                      tags=tags(d, f"ground/{g.id}/copper") if name != "gas" else ())
    if g.metal is None:
        yield ask("094", g.id, "not evaluated", f"known: {', '.join(sorted(there)) or 'nothing'}",
                  f"which metal systems structure {g.id} has (metal; an empty list where there is none)")
    elif not there:
        yield ask("094", g.id, "does not apply", "no metal water pipe, gas pipe or structural steel")


def in_ground(d: Design, ask: Asker, g: Grounding) -> Iterator[Check]:
    """Metal water pipe and structural steel that reach the earth are electrodes, and have to be used (250.50)."""
    for name, (kind, what) in EARTHED.items():
        if name not in (g.metal or ()) and getattr(g, name) is None:
            continue
        subject = f"{g.id}, {name} in the ground"
        seen = next((a for a in d.estate.attested if a.check == "088" and a.subject == subject), None)
        if used := [e.id for e in g.electrodes if e.kind == kind]:
            yield ask("088", subject, True, f"{kind} {', '.join(used)} is among the electrodes")
        elif seen is not None:
            yield ask("088", subject, "attested", f"{seen.statement}; {seen.by}, {seen.date}, {seen.evidence}")
        else:
            yield ask("088", subject, "not evaluated", f"{SYSTEMS[name]} is there, and no electrode of this kind",
                      f"whether {g.id} has {what}, which then has to be used (250.50): an electrode, or attested, check 088, "
                      f"subject {subject}")


def jumper(d: Design, structure: str, system: str) -> str:
    """What its bonding jumper goes by: the supply for water pipe and steel, the circuit that may energise it for gas."""
    key = f"ground/{structure}"
    if system == "gas":
        return "; its jumper goes by the circuit that may energise it (250.122)"
    return f"; its jumper is {d.items[key].copper} Cu or {d.items[key].aluminium} Al at least" if key in d.items else ""


def lightning(d: Design, ask: Asker, g: Grounding) -> Check:
    """A lightning protection system, if there is one."""
    has = g.lightning if g.lightning is not None else d.estate.grounding.lightning  # type: ignore[union-attr]
    if has is None:
        return ask("097", g.id, "not evaluated", "nothing is stated", "whether a lightning protection system is installed")
    if not has:
        return ask("097", g.id, "does not apply", "no lightning protection system")
    if g.lightning_bonded is None:
        return ask("097", g.id, "not evaluated", "a system is installed", "whether it is bonded to the electrodes")
    return ask("097", g.id, bool(g.lightning_bonded), "bonded" if g.lightning_bonded else "not bonded to the electrodes")


def intersystem(d: Design, ask: Asker, s: Structure, g: Grounding | None) -> Iterator[Check]:
    """A termination for communication at every structure that has any."""
    linked = [x.id for x in d.estate.links if s.id in (x.from_, x.to)]
    laid = [r.id for r in d.estate.raceways if r.use == "comm" and s.id in (r.from_, r.to)]
    found = ", ".join((*linked, *laid))
    if g is not None and g.intersystem:
        yield ask("093", s.id, True, f"a termination is there; communication: {found or 'none stated'}")
    elif not found:
        yield ask("093", s.id, "does not apply", "no communication is stated to come in")
    elif g is None or g.intersystem is None:
        yield ask("093", s.id, "not evaluated", found, f"whether {s.id} has an intersystem bonding termination (intersystem)")
    else:
        yield ask("093", s.id, False, f"communication comes in: {found}; no termination")


def tubing(d: Design, ask: Asker) -> Iterator[Check]:
    """Corrugated gas tubing: its bond is a matter of the fuel gas code."""
    gas = d.estate.gas
    for run in gas.runs if gas else ():
        if run.material == "corrugated":
            seen = next((a for a in d.estate.attested if a.check == "096" and a.subject == run.id), None)
            if seen:
                yield ask("096", run.id, "attested", f"{seen.statement}; {seen.by}, {seen.date}, {seen.evidence}")
            else:
                yield ask("096", run.id, "not evaluated", "corrugated tubing",
                          "how it is bonded, and who saw it (attested, check 096)")
    if gas and not any(r.material == "corrugated" for r in gas.runs):
        pipes = sorted({r.material for r in gas.runs})
        yield ask("096", "gas", "does not apply", f"no corrugated tubing is stated; pipes: {', '.join(pipes) or 'none'}")


def tags(d: Design, *names: str) -> tuple[str, ...]:
    """The tags of numbers that are there."""
    return tuple(t for t in names if d.has(t))
