"""Motors: their circuits and the dip when they start: tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.report.content import Column, Line, Table, keys, maybe, num

if TYPE_CHECKING:
    from curtilage.design import Design


def tables(d: Design) -> list[Table]:
    """Devices of the motors, what a start does, and feeders of motors only; nothing where there are none."""
    return [t for t in (devices(d), starts(d), neighbours(d), feeders(d)) if t.lines]


def named(d: Design, key: str) -> tuple[str, str]:
    """Row and load of an item."""
    name = key.partition("/")[2]
    return name, next((r.load for r in d.tree.rows if r.id == name), "")


def devices(d: Design) -> Table:
    """One line for each motor of the tables."""
    lines = []
    for key in keys(d, "motor"):
        row, load = named(d, key)
        lines.append(Line((row, load, num(d, f"{key}/table"), num(d, f"{key}/conductor"), num(d, f"circuit/{row}/device"),
                           num(d, f"{key}/breaker"), num(d, f"{key}/dual"), num(d, f"{key}/fuse"), num(d, f"{key}/instant"),
                           num(d, f"{key}/overload") if d.items[key].overload else "no nameplate current"), f"{key}/table"))
    columns = (Column("motor"), Column("load", rank=1), Column("table, A", True), Column("conductor, A", True),
               Column("its device, A", True), Column("breaker at most, A", True),
               Column("dual-element fuse at most, A", True, rank=2), Column("fuse at most, A", True, rank=2),
               Column("instantaneous, A", True, rank=3), Column("overload, A", True))
    return Table("Motors", columns, tuple(lines),
                 "Breaker and fuses: the largest of Table 430.52, next size up; larger only if the motor does not start on it. "
                 "An instantaneous trip is a setting, and only part of a listed combination. "
                 "Conductors rest on the table's current, the overload on the nameplate's.")


def starts(d: Design) -> Table:
    """One line for each motor that starts on the line or through a soft starter."""
    panels = {r.id: r.panel for r in d.tree.rows}
    lines = []
    for key in keys(d, "start"):
        row, load = named(d, key)
        r = d.items[key]
        beside = r.board > d.ed.neighbour_dip
        says = "within the policy" if r.ok else "over the policy"
        if beside:
            says = f"motor: {'within' if r.ok else 'over'}; neighbours on {panels[row]}: over"
        lines.append(Line((row, load, maybe(d, f"locked/{row}/high"), num(d, f"{key}/current"), num(d, f"{key}/dip"),
                           num(d, f"{key}/volts"), num(d, f"{key}/board"), num(d, f"{key}/gear"),
                           says), f"{key}/dip", "" if r.ok and not beside else "over"))
    columns = (Column("motor"), Column("load", rank=1), Column("locked rotor, A", True), Column("flows, A", True),
               Column("dip at the motor, %", True), Column("left there, V", True, rank=2), Column("at its panel, %", True),
               Column("at the gear, %", True), Column("dip"))
    return Table("Voltage while a motor starts", columns, tuple(lines),
                 f"The change that lamps show; all other load is left out. Neighbours: at its panel at most "
                 f"{d.ed.neighbour_dip:g} %. A policy of the project, not a rule of the code. "
                 "Motors on drives start without inrush and are not listed.")


def neighbours(d: Design) -> Table:
    """What each panel feels most: the start whose dip is largest where its way and the motor's part."""
    started = [k.partition("/")[2] for k in keys(d, "start")]
    rows = {r.id: r for r in d.tree.rows}
    lines = []
    for p in d.estate.panels:
        mine = [f.id for f in d.stages.way(p.id)]
        felt = {r: f"dip/{r}/{parting(mine, [f.id for f in d.stages.way(rows[r].panel)])}" for r in started}
        known = {r: k for r, k in felt.items() if k in d.items}
        if not known or not mine:
            continue
        worst = max(known, key=lambda r: float(d.items[known[r]].dip))
        over = d.items[known[worst]].dip > d.ed.neighbour_dip
        lines.append(Line((p.id, f"{worst}: {rows[worst].load}", rows[worst].panel, num(d, f"{known[worst]}/dip")),
                          f"{known[worst]}/dip", "over" if over else ""))
    columns = (Column("panel"), Column("start that it feels most"), Column("on panel", rank=1), Column("dip there, %", True))
    return Table("Starts that the neighbours feel", columns, tuple(lines),
                 "Taken where the ways of the panel and of the motor part. Lamps show a few percent.")


def parting(mine: list[str], other: list[str]) -> str:
    """The last stretch that two ways share."""
    last = "lateral"
    for a, b in zip(mine, other, strict=False):
        if a != b:
            break
        last = a
    return last


def feeders(d: Design) -> Table:
    """Feeders that carry motors only."""
    lines = [Line((key.partition("/")[2], num(d, f"{key}/conductor"), num(d, f"{key}/most"),
                   num(d, f"feeder/{key.partition('/')[2]}/device")), f"{key}/most") for key in keys(d, "motor_feeder")]
    columns = (Column("feeder"), Column("ampacity at least, A", True), Column("device at most, A", True),
               Column("its device, A", True))
    return Table("Feeders of motors only", columns, tuple(lines), "430.24 and 430.62.")
