"""What must hold within a row of the load list, and between the rows and the rest of the estate."""
from typing import NamedTuple

from curtilage.errors import Problems, listed
from curtilage.model.loads import Load
from curtilage.model.refs import Names, dangling
from curtilage.model.source import Row, Rows
from curtilage.units import SplitVoltage, plain

PANEL_KINDS = ("panel", "gear", "main", "generator", "storage", "solar supply", "temporary service")
REFERENCES: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("structure", ("structure",)), ("panel", PANEL_KINDS), ("manager", ("manager",)), ("group", ("group",)))
NEAR = 0.02                                                    # printed amperes are rounded
MOTOR_TABLE = "Table 430.248"


class Context(NamedTuple):
    """What rows are checked against. `hp` holds the rows of the motor table; None where no table is at hand."""
    known: Names
    volts: SplitVoltage
    hp: tuple[str, ...] | None


def check_loads(found: list[Row], rows: Rows, context: Context, problems: Problems) -> None:
    """Adds what is wrong with the rows to the problems."""
    _twice(found, rows, problems)
    for i, (column, kinds) in enumerate(REFERENCES):
        there = context.known.of(*kinds)
        if not {r.load[_POSITIONS[i]] for r in found} <= there | {""}:
            _dangling(found, rows, column, kinds, context.known, problems)
    volts = {0.0, *context.volts}
    hp = {"", *context.hp} if context.hp is not None else {r.load.hp for r in found}
    for r in found:
        x = r.load
        if (x.volts not in volts or x.hp not in hp or abs(x.va - x.qty * x.unit_va) > NEAR * x.va + 1
                or (x.amperes is not None and abs(x.unit_va - x.volts * x.amperes) > NEAR * x.unit_va + 0.06 * x.volts)
                or (x.volts != x.poles * context.volts.neutral and (x.poles != 0 or x.volts != 0 or not _empty(x)))
                or (x.va == 0 and not _empty(x)) or (x.gfci is False and x.gfci_by)
                or (x.lra and x.fla and x.lra < x.fla)):
            _row(r, rows, context, problems)


def _dangling(found: list[Row], rows: Rows, column: str, kinds: tuple[str, ...], known: Names, problems: Problems) -> None:
    """One message for each name that is not there, at the first row that uses it."""
    there, wrong = known.of(*kinds), dict[str, list[Row]]()
    for r in found:
        given = str(getattr(r.load, column))
        if given and given not in there:
            wrong.setdefault(given, []).append(r)
    for given, users in wrong.items():
        more = len(users) - 1
        also = f" (here and in {more} more row{'s' if more > 1 else ''})" if more else ""
        dangling(rows.where(users[0], column), given, kinds, known, problems, also)


_POSITIONS = tuple(Load._fields.index(column) for column, _ in REFERENCES)


def _empty(x: Load) -> bool:
    """A row that stands for room, raceway or control and draws nothing."""
    return x.category == "none" or x.status == "provision"


def _twice(found: list[Row], rows: Rows, problems: Problems) -> None:
    first: dict[str, Row] = {}
    for r in found:
        if r.load.id in first:
            one = first[r.load.id]
            at = f"line {one.line}" if not one.added else str(one.added.values_at["id"])
            table = rows.table.name if rows.table else ""
            where = (f"{r.added.values_at['id'].precise()} loads.{r.load.id}" if r.added is not None
                     else f"{table}:{r.line} column id")
            problems.add(where, f"the id {r.load.id} stands twice", f"first in {at}", "give one of the rows another id")
        first.setdefault(r.load.id, r)


def _row(r: Row, rows: Rows, context: Context, problems: Problems) -> None:
    _volts(r, rows, context.volts, problems)
    _power(r, rows, problems)
    if r.load.gfci is False and r.load.gfci_by:
        problems.add(rows.where(r, "gfci_by"),
                     f"ground-fault protection by a {r.load.gfci_by}, and the column gfci says there is none", "",
                     "write Y in the column gfci, or leave gfci_by empty")
    if r.load.lra and r.load.fla and r.load.lra < r.load.fla:
        problems.add(rows.where(r, "lra"),
                     f"the locked-rotor current of {plain(r.load.lra)} A is below the full-load current of "
                     f"{plain(r.load.fla)} A (column fla)", "a motor draws more while it starts",
                     "read the nameplate again; the two may be exchanged")
    if context.hp is not None and r.load.hp and r.load.hp not in context.hp:
        problems.add(rows.where(r, "hp"), f"{r.load.hp} hp has no row in {MOTOR_TABLE}", f"rows: {listed(context.hp, 99)}",
                     "write it as the table prints it, or leave it empty and state the nameplate amperes")


def _volts(r: Row, rows: Rows, volts: SplitVoltage, problems: Problems) -> None:
    x, neutral, line = r.load, plain(volts.neutral), plain(volts.line)
    if x.volts == 0 and _empty(x):
        return
    if x.volts not in volts:
        problems.add(rows.where(r, "volts"), f"{plain(x.volts)} V is not a voltage of this service",
                     f"allowed: {neutral} V or {line} V; 0 V for a provision", "")
    elif x.poles == 1 and x.volts == volts.line:
        problems.add(rows.where(r, "poles"), f"1 pole at {line} V: one pole gives {neutral} V", "",
                     f"write 2 poles, or {neutral} V")
    elif x.poles == 2 and x.volts == volts.neutral:
        problems.add(rows.where(r, "poles"), f"2 poles at {neutral} V: two poles give {line} V", "",
                     f"write 1 pole, or {line} V")
    elif x.poles == 3:
        problems.add(rows.where(r, "poles"), "3 poles: three-phase loads are not worked here", "allowed: 1 or 2", "")
    elif x.poles == 0:
        problems.add(rows.where(r, "poles"), f"0 poles at {plain(x.volts)} V", "", "write 1 or 2 poles, or 0 V for a provision")


def _power(r: Row, rows: Rows, problems: Problems) -> None:
    x = r.load
    if x.va == 0 and not _empty(x):
        problems.add(rows.where(r, "va"), "the row has no apparent power", "expected va, unit_va or amperes",
                     "fill one in, or make it status provision or category none")
        return
    if abs(x.va - x.qty * x.unit_va) > NEAR * x.va + 1:
        problems.add(rows.where(r, "va"), f"{plain(x.va)} VA in all is not {x.qty} x {plain(x.unit_va)} VA = "
                     f"{plain(x.qty * x.unit_va)} VA", "qty x unit_va and va must agree", "correct one, or leave one empty")
    if x.amperes is not None and abs(x.unit_va - x.volts * x.amperes) > NEAR * x.unit_va + 0.06 * x.volts:
        problems.add(rows.where(r, "unit_va"), f"{plain(x.unit_va)} VA for one is not {plain(x.volts)} V x {plain(x.amperes)} A "
                     f"= {plain(round(x.volts * x.amperes, 3))} VA", "volts x amperes and unit_va must agree",
                     "correct one, or leave one empty")
