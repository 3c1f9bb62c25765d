"""From a design to the drawing of its grounding: which numbers stand where."""
from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from curtilage.design.works.grounding import supply_of
from curtilage.draw.grounding import APART, HERE, MISSING, WRONG, Pole, Stand, plan
from curtilage.draw.svg import Text, Words
from curtilage.report.content import Num, given, num

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.grounding import Electrode, Grounding


def stands(d: Design) -> tuple[Stand, ...]:
    """The service first, then every other structure whose grounding is stated."""
    plan_ = d.estate.grounding
    d.works("ground")
    d.works("bond")
    gear = d.estate.service.gear.structure
    found = sorted(plan_.structures if plan_ else (), key=lambda g: g.id != gear)
    return tuple(stand(d, g) for g in found)


def stand(d: Design, g: Grounding) -> Stand:
    """One structure."""
    name = next((x.name for x in d.estate.structures if x.id == g.id), "")
    at_service = g.id == d.estate.service.gear.structure
    bonded = g.neutral_bond or any(p.neutral_bond for p in d.estate.panels if p.structure == g.id)
    bond = (HERE if g.neutral_bond else MISSING) if at_service else WRONG if bonded else APART
    jumper: Words = ""
    if at_service and "bond/service/jumper" in d.items:
        jumper = _size(num(d, "bond/service/jumper/jumper"), g.jumper_material)
    return Stand(g.id, name, bond, jumper, "" if at_service else ground(d, g.id), tuple(pole(d, g, e) for e in g.electrodes))


def _size(n: Num, metal: str) -> Words:
    return Text(f"{n.shown} {metal.capitalize()}" if n.shown else "withheld", n.tag)


def ground(d: Design, structure: str) -> Words:
    """The equipment ground of the feeder of a structure."""
    key = supply_of(d, structure)
    if not key:
        return ""
    r, metal = d.items[key], d.asks[key].view.split("-")[0]
    stated = next((f.egc for f in d.estate.feeders if f"feeder/{f.id}" == key), None)
    sets = f"{r.sets:g} x " if r.sets > 1 else ""
    if stated:
        return f"{sets}{stated} {metal.capitalize()}"
    n = num(d, f"{key}/egc")
    return (Text(sets), _size(n, metal)) if sets else _size(n, metal)                         # type: ignore[return-value]


def pole(d: Design, g: Grounding, e: Electrode) -> Pole:
    """One electrode."""
    key = f"ground/{g.id}/{e.id}"
    words: list[Words] = [f"{e.count} x {e.kind}" if e.count > 1 else e.kind]
    words += [" ".join(given(d, e.length, "ft"))] if e.length else []
    if e.resistance is not None:
        words.append(f"{e.resistance:g} ohm measured")
    elif f"{key}/earth" in d.items:
        n = num(d, f"{key}/earth/resistance")
        words.append((Text("about "), Text(f"{n.value:.2g} ohm" if n.shown else "withheld", n.tag)))
    if e.kind == "concrete-encased":
        words.append(f"tied, {e.tied.date}" if e.tied is not None and e.tied.date else "hold point: not seen tied")
    bad = any(k in d.items and not d.items[k].ok for k in (key, f"{key}/contact"))
    conductor = _size(num(d, f"{key}/size"), e.material) if key in d.items else ""
    ids = [x.id for x in g.electrodes]
    through = ids.index(e.through) if e.through in ids else -1
    return Pole(e.kind, e.count, conductor, tuple(words), through, "fails" if bad else "")


def picture(d: Design, colours: Mapping[str, str]) -> str:
    """The drawing; empty where no grounding is stated."""
    found = stands(d)
    return plan(found, f"Grounding and bonding of {d.estate.name}", colours).svg if found else ""
