"""The load letter to the utility: a plain text in Markdown, made of the same numbers as the tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.design.works.flicker import gaps, motors
from curtilage.report.content import Num, material, maybe
from curtilage.report.numbers import shown
from curtilage.report.on_utility import LETTER

if TYPE_CHECKING:
    from curtilage.design import Design


LAST = ("Calculated load and expected peak are two numbers for two uses: the first is a minimum of the code for conductors and "
        "equipment, the second a forecast. This is a design aid, not a signed application.")


def letter(d: Design) -> str:
    """The letter, with what is not known named at its end. Nothing in it is computed here."""
    d.works()
    e = d.estate
    day = f"{e.prepared.date}" if e.prepared.date else "day: to be stated"
    s = d.items["service"]
    mains = ", ".join(f"{d.items[k].rating:g}" for k in (f"main/{m.id}" for m in e.service.mains) if k in d.items)
    parts = [
        f"# Load letter: {e.name}",
        f"To: {e.service.utility}  \nFrom: {e.prepared.by or 'to be stated'}  \n{day}, revision {e.prepared.revision or '-'}",
    ]
    if e.demonstration:
        parts.append("**Demonstration: everything in this letter is invented.**")
    parts += [
        f"We ask for one single-phase service at {e.service.voltage}, with "
        f"{'mains' if len(e.service.mains) > 1 else 'one main'} of {mains} A. "
        f"Service point: {e.service.service_point or 'to be agreed'}.",
        _figures(d),
        f"Service conductors: {s.sets:g} {'sets' if s.sets > 1 else 'set'} of {s.size} {material(d, 'service')}, "
        f"{e.service.lateral.length:g} ft, {s.ampacity:.0f} A.",
        _motors(d),
        _wanted(d),
    ]
    missing = gaps(d)
    if missing:
        parts.append("## Not known yet\n\n" + "\n".join(f"- {x}" for x in missing))
    parts.append(LAST)
    return "\n\n".join(p for p in parts if p) + "\n"


def _figures(d: Design) -> str:
    rows = []
    for field, words in LETTER:
        n = maybe(d, f"letter/{field}")
        if isinstance(n, Num) and (n.value or not field.startswith("motor")):
            rows.append(f"| {words} | {n} {n.unit} |".replace("  ", " "))
    return "\n".join(("| what | figure |", "|---|---|", *rows)) if rows else ""


def _motors(d: Design) -> str:
    rows = []
    for r in motors(d)[:5]:
        key = f"flicker/{r.id}"
        if key in d.items:
            x, often = d.asks[key].record, f"{r.starts:g} an hour" if r.starts else "not stated"
            how = {"soft": "soft starter", "drive": "drive"}.get(r.starter, "across the line")
            change = f"{d.items[key].supply:.2f} %"
            name = f"{r.load}, {r.structure} ({r.id})"
            rows.append(f"| {name} | {r.hp or '-'} | {shown(x.current, 'A')} | {how} | {often} | {change} |")
    if not rows:
        return ""
    head = "| motor | hp | start, A | how | starts | change at the transformer |\n|---|---|---|---|---|---|"
    return "## Largest motors\n\n" + head + "\n" + "\n".join(rows)


def _wanted(d: Design) -> str:
    e, t = d.estate, d.estate.service.transformer
    asks = []
    if t.fault_letter is None:
        asks.append("the available fault current, largest and least, line to line and to neutral, with X/R, and where it holds")
    if e.service.flicker is None or e.service.flicker.limit is None:
        asks.append("the change of voltage that is allowed, and for how many starts")
    if e.service.metering is None or not e.service.metering.reference:
        asks.append("the kind of metering, the cabinet, and the longest way to the meter")
    asks += ["rating, impedance and X/R of the transformer that will be set", "clearances of the pad and the way to it"]
    steps = [f"- {x.what}: {x.date}" for x in e.sequence if x.date and any(x.id in m.before for m in e.service.milestones)]
    day = "\n\n## Days that wait for the utility\n\n" + "\n".join(steps) if steps else ""
    return "## Please tell us\n\n" + "\n".join(f"- {x}" for x in asks) + day
