"""Electrodes, grounding conductors, bonding jumpers, and the neutral bonds by mode: tables."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from curtilage.design.neutrals import proofs
from curtilage.report.content import Cell, Column, Line, Num, Table, given, maybe, num
from curtilage.report.grounding_picture import picture
from curtilage.report.on_raceways import Drawing

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.grounding import Electrode, Grounding


def tables(d: Design) -> list[Table]:
    """Electrodes by structure, jumpers, bonds by mode, the steps of each proof."""
    if d.estate.grounding is None:
        return []
    d.works("ground")
    d.works("bond")
    return [electrodes(d), jumpers(d), modes(d), *steps(d)]


def drawings(d: Design, colours: Mapping[str, str]) -> list[Drawing]:
    """Bars, ties and electrodes of every structure."""
    found = picture(d, colours)
    return [Drawing("Grounding and bonding", found)] if found else []


def electrodes(d: Design) -> Table:
    """The electrode schedule."""
    names = {s.id: s.name for s in d.estate.structures}
    lines = []
    for g in d.estate.grounding.structures if d.estate.grounding else ():
        for e in g.electrodes:
            lines.append(electrode(d, names.get(g.id, g.id), g, e))
        if not g.electrodes:
            lines.append(Line((g.id, names.get(g.id, ""), "no electrode", "", "", "", "", "", ""), f"ground/{g.id}", "fails"))
    columns = (Column("at", keep=True), Column("structure", rank=3), Column("electrode"), Column("measures", rank=1),
               Column("supply, cmil", True, rank=2), Column("conductor"), Column("at least", rank=1),
               Column("resistance, ohm"), Column("proof"))
    return Table("Electrodes and their conductors", columns, tuple(lines),
                 "A resistance in brackets is an estimate for even soil, for information: nothing rests on it. Step and touch "
                 "voltage are not assessed.")


def electrode(d: Design, name: str, g: Grounding, e: Electrode) -> Line:
    """One electrode."""
    key = f"ground/{g.id}/{e.id}"
    bad = (key in d.items and not d.items[key].ok) or (f"{key}/contact" in d.items and not d.items[f"{key}/contact"].ok)
    what = f"{e.count} x {e.kind}" if e.count > 1 else e.kind
    tied = f"{e.tied.by}, {e.tied.date}, {e.tied.evidence}" if e.tied is not None else ""
    proof = tied or ("hold point: none yet" if e.kind == "concrete-encased" else "")
    return Line((g.id, name, what, measures(d, e), maybe(d, f"ground/{g.id}/area"), wire(d, f"{key}/size", e.material),
                 wire(d, f"{key}/least", e.material), resistance(d, f"{key}/earth/resistance", e), proof), key,
                "fails" if bad else "")


def measures(d: Design, e: Electrode) -> str:
    """What is stated of an electrode."""
    found = [" ".join(given(d, e.length, "ft"))] if e.length else []
    found += [f"{e.diameter:g} in"] if e.diameter else []
    found += [f"wire {e.wire}"] if e.wire else []
    found += [f"{' '.join(given(d, e.depth, 'ft'))} deep"] if e.depth else []
    found += [" ".join(given(d, e.area, "ft2"))] if e.area else []
    found += [f"{' '.join(given(d, e.spacing, 'ft'))} apart"] if e.spacing else []
    return ", ".join(found)


def wire(d: Design, tag: str, metal: str) -> Cell:
    """A size with its metal."""
    n = maybe(d, tag)
    return Num(n.tag, f"{n.shown} {metal.capitalize()}" if n.shown else "", "", n.value) if isinstance(n, Num) else n


def resistance(d: Design, tag: str, e: Electrode) -> Cell:
    """Measured, or the estimate in brackets."""
    if e.resistance is not None:
        return f"{e.resistance:g} measured"
    n = maybe(d, tag)
    return Num(n.tag, f"({n.value:.3g})" if n.shown else "", n.unit, n.value) if isinstance(n, Num) else n


def jumpers(d: Design) -> Table:
    """Main and system bonding jumpers."""
    lines = []
    for key in (k for k in d.items if k.startswith("bond/") and k.endswith("/jumper")):
        r, x = d.items[key], d.asks[key].record
        lines.append(Line((x.id, num(d, f"{key}/area"), wire(d, f"{key}/jumper", x.material), wire(d, f"{key}/least", x.material),
                           wire(d, f"{key}/each", x.material), num(d, f"{key}/neutral_area")), key,
                          "" if r.jumper_ok and r.neutral_ok else "fails"))
    columns = (Column("of", keep=True), Column("ungrounded, cmil", True, rank=2), Column("main or system jumper"),
               Column("at least", rank=1), Column("supply-side, each raceway"),
               Column("neutral in each, cmil at least", True, rank=2))
    return Table("Bonding jumpers", columns, tuple(lines),
                 "One supply-side jumper common to all raceways is as large as the main or system jumper. Raceways that are not "
                 "of metal need none.")


def modes(d: Design) -> Table:
    """Bonds of the neutral, mode by mode."""
    lines = []
    for p in proofs(d.estate):
        key = f"bond/{p.mode}"
        if key not in d.items:
            lines.append(Line((p.mode, "", "", "", "not evaluated"), key, "over"))
            continue
        ok = bool(d.items[key].ok)
        where = ", ".join(b.words for at in p.bonds for b in at if b.bond.bonded) or "nowhere"
        lines.append(Line((p.mode, num(d, f"{key}/islands"), num(d, f"{key}/bonds"), where,
                           "one bond each" if ok else "not one bond each"), key, "" if ok else "fails"))
    columns = (Column("mode", keep=True), Column("islands", True), Column("bonds", True), Column("bonded at"), Column("proof"))
    return Table("Bonds of the neutral by mode of operation", columns, tuple(lines),
                 "An island is what neutral conductors join. The utility's own bond at its transformer is not counted.")


def steps(d: Design) -> list[Table]:
    """What each switch ties in each mode, and where the bond is: the steps of the proofs, told once where they are the same."""
    lines: list[Line] = []
    seen: set[str] = set()
    for p in proofs(d.estate):
        for i, step in enumerate(p.steps, 1):
            if step not in seen or step.startswith("island"):
                lines.append(Line((p.mode, str(i), step), f"bond/{p.mode}"))
            seen.add(step)
        ring = (f"closed loops of neutral: {p.rings}, at {', '.join(p.ringed)}; a panel with two supplies and an unbroken "
                "neutral sends its neutral current back over both") if p.rings else ""
        if ring and ring not in seen:
            lines.append(Line((p.mode, "", ring), f"bond/{p.mode}"))
        seen.add(ring)
    columns = (Column("mode", keep=True), Column("step", rank=1), Column("what is tied"))
    return [Table("Steps of the proof", columns, tuple(lines), "A step that an earlier mode has taken is not told again.")]
