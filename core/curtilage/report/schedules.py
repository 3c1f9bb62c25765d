"""Schedules: service and mains, room for growth, feeders, voltage along each way, branch circuits."""
from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import (
    Cell,
    Column,
    Line,
    Num,
    Table,
    branch_title,
    conductors,
    in_hand,
    keys,
    length,
    maybe,
    num,
    ordered,
    panel_structure,
    unit_of,
)
from curtilage.report.numbers import label

if TYPE_CHECKING:
    from curtilage.design import Design


def mains(d: Design) -> Table:
    """Mains: load against rating."""
    lines = []
    for key in keys(d, "main"):
        name = key.split("/", 1)[1]
        kind = "" if d.items[key].rating_ok else "fails"
        lines.append(Line((name, branch_title(d, name).partition(": ")[2], num(d, f"{key}/current"), num(d, f"{key}/minimum"),
                           num(d, f"{key}/rating"), in_hand(num(d, f"{key}/spare"))), f"{key}/spare", kind))
    columns = (Column("main"), Column("feeds", rank=2), Column("load, A", True), Column("min., A", True),
               Column("rating, A", True), Column("of the rating"))
    return Table("Mains", columns, tuple(lines))


def service(d: Design) -> Table:
    """The service conductors, field by field."""
    fields = ("current", "minimum", "rating", "required", "ampacity", "size", "neutral", "drop", "volts_far", "rule")
    lines = []
    for field in fields:
        n = maybe(d, f"service/{field}")
        if isinstance(n, Num):
            cell = conductors(d, "service") if field == "size" else neutral(d, "service") if field == "neutral" else n
            lines.append(Line(("conductors" if field == "size" else label(field), cell, n.unit), n.tag))
    return Table("Service conductors", (Column("what"), Column("number", True), Column("unit")), tuple(lines))


def growth(d: Design, short: bool = False) -> Table:
    """Room that is left, against the policy of the project; in short only mains and what has too little."""
    lines, fine = [], 0
    deep = dict(ordered(d))
    for name in deep:
        key = f"growth/{name}"
        if key not in d.items:
            continue
        ok = bool(d.items[key].ok)
        if short and ok and deep[name]:
            fine += 1
            continue
        lines.append(Line((name, num(d, f"{key}/spare_minimum"), num(d, f"{key}/spare"), num(d, f"{key}/spare_amperes"),
                           "as the policy asks" if ok else "less than the policy asks"), f"{key}/spare_minimum",
                          "" if ok else "over", 0 if short else deep[name]))
    columns = (Column("at"), Column("spare over minimum, %", True), Column("over load, %", True), Column("spare, A", True),
               Column("policy of the project"))
    rest = f" {fine} more have as much as the policy asks." if fine else ""
    return Table("Room for growth", columns, tuple(lines), f"A policy of the project, never a rule of the code.{rest}")


def feeders(d: Design) -> Table:
    """The feeder schedule, from the service outward."""
    by_id = {f.id: f for f in d.estate.feeders}
    lines = []
    for name, depth in ordered(d):
        key = f"feeder/{name}"
        if key not in d.items:
            continue
        r, f = d.items[key], by_id[name]
        grounded = f.egc is None or d.ed.cmil[f.egc] >= d.ed.cmil[r.egc]
        bad = not (r.device_ok and r.carries_ok and r.protected and r.parallel_ok and r.neutral_ok and grounded)
        lines.append(Line((
            name, f"{f.from_} to {f.to}", num(d, f"{key}/current"), num(d, f"{key}/minimum"), num(d, f"{key}/device"),
            conductors(d, key), ground(d, name, f.egc), neutral(d, key), length(d, name), num(d, f"{key}/drop"),
            in_hand(num(d, f"{key}/device_margin")),
        ), key, "fails" if bad else "", depth - 1))
    columns = (Column("feeder"), Column("from, to", rank=1), Column("load, A", True), Column("min., A", True),
               Column("device, A", True), Column("conductors"), Column("ground"), Column("neutral", rank=3),
               Column(f"length, {unit_of(d, 'ft')}", True, rank=2), Column("drop, %", True),
               Column("device over minimum", rank=1))
    return Table("Feeders", columns, tuple(lines), "Sizes in AWG or kcmil; ground and neutral are those of each raceway.")


def ground(d: Design, name: str, stated: str | None) -> Cell:
    """The equipment ground of a feeder: what is stated, and what is wanted where that is larger."""
    wanted = num(d, f"feeder/{name}/egc")
    if stated is None or not wanted.shown:
        return wanted
    short = d.ed.cmil[stated] < d.ed.cmil[wanted.value]
    return Num(wanted.tag, f"{stated}, wants {wanted.shown}" if short else stated, "", stated)


def neutral(d: Design, key: str) -> Cell:
    """The neutral that is laid, and what is wanted where that is larger."""
    laid, r = num(d, f"{key}/neutral"), d.items[key]
    if r.neutral_ok or not laid.shown:
        return laid
    return Num(laid.tag, f"{laid.shown}, wants {num(d, f'{key}/neutral_least').shown}", laid.unit, laid.value)


def paths(d: Design) -> Table:
    """Voltage from the transformer to the farthest outlet of each panel."""
    lines = []
    for key in keys(d, "path"):
        panel, r = key.split("/", 1)[1], d.items[key]
        inside = bool(r.feeders_ok and r.branch_ok and r.total_ok)
        unknown = inside and bool(d.stages.unmeasured(panel))
        word = "not evaluated: a length is missing" if unknown else "within the advice" if inside else "over the advice"
        lines.append(Line((panel, panel_structure(d, panel), num(d, f"{key}/service_volts"), num(d, f"{key}/feeders"),
                           num(d, f"{key}/total"), num(d, f"{key}/from_transformer"), num(d, f"{key}/outlet_volts"),
                           word), f"{key}/total", "" if inside and not unknown else "over"))
    columns = (Column("panel"), Column("stands in", rank=3), Column("service, V", True, rank=2), Column("feeders, %", True),
               Column("with branch, %", True), Column("with service, %", True, rank=1), Column("outlet, V", True), Column("drop"))
    return Table("Voltage to the farthest outlet of each panel", columns, tuple(lines),
                 "V on a base of 120 V. The limits are recommendations of notes, kept here as policy of the project.")


def circuits(d: Design) -> list[Table]:
    """Branch circuits by panel."""
    rows = {r.id: r for r in d.estate.loads}
    by: dict[str, list[Line]] = {}
    own: dict[str, list[str]] = {}
    for key in keys(d, "circuit"):
        name, r = key.split("/", 1)[1], d.items[key]
        row = rows[name]
        uneven = row.circuits > 1 and row.qty > row.circuits and row.qty % row.circuits
        many = f"{row.circuits}, the fullest: " if uneven else f"{row.circuits} alike: " if row.circuits > 1 else ""
        bad = not (r.device_ok and r.carries_ok and r.protected)
        by.setdefault(row.panel, []).append(Line((
            name, f"{many}{row.load}", num(d, f"{key}/current"), num(d, f"{key}/device"),
            f"{row.poles}", conductors(d, key), num(d, f"{key}/egc"),
            "no length" if row.length is None else num(d, f"{key}/drop")), key, "fails" if bad else ""))
        if r.device_most and r.device > r.ampacity:
            own.setdefault(row.panel, []).append(name)
    columns = (Column("circuit"), Column("load"), Column("load, A", True), Column("device, A", True), Column("poles", True),
               Column("conductors"), Column("ground"), Column("drop, %", True))
    return [Table(f"{panel}, {panel_structure(d, panel)}", columns, tuple(lines), by_own_rule(own.get(panel, [])))
            for panel, lines in by.items()]


def by_own_rule(names: list[str]) -> str:
    """Why a device may be larger than the ampacity of its conductor."""
    if not names:
        return ""
    return (f"{', '.join(names)}: the device is larger than the ampacity of the conductor, as 240.4(G) allows for motors "
            "(430.52: short circuits; overload protection guards the conductor) and for equipment with a nameplate (440.22).")
