"""From what a rule says to the shape that answers: constants, tiers, and tables read as bands, ladders, rows or grids."""
from __future__ import annotations

from collections.abc import Callable
from math import inf, nextafter
import re
from typing import Any

from curtilage.editions.layers import Rule
from curtilage.tables import Table
from curtilage.values.rules import Bands, Formula, Grid, Label, Ladder, Rows, Shape, Tiers
from curtilage.values.told import TRUST, Cite

FORMULA = re.compile(r"(-?[\d.]+)([+-])([\d.]*)\(?n(?:-([\d.]+)\))?")
RANKS = {"largest": 1.0, "second": 2.0, "third": 3.0, "remaining": inf}


def shape_of(rule: Rule) -> Any:
    """The constant or the shape that a rule describes."""
    if rule.shape == "value":
        return rule.spec["value"]
    return _READ[rule.shape](rule, label_of(rule))


def label_of(rule: Rule) -> Label:
    spec = rule.spec
    keyed = _from_table(rule) and "key" in spec
    unit = "cmil" if spec.get("as") == "cmil" else _table(rule).unit(spec["key"]) if keyed else rule.unit
    return Label(rule.name, rule.where, unit, str(spec.get("advice", "")))


def _from_table(rule: Rule) -> bool:
    return rule.shape != "value" and isinstance(rule.spec[rule.shape], str)


def _table(rule: Rule) -> Table:
    return Table.load(rule.spec[rule.shape])


def used(rule: Rule) -> list[int]:
    """The rows of the table that the rule reads, by their number in the table."""
    table, spec = _table(rule), rule.spec
    without = {str(x) for x in spec.get("without", ())}
    columns = spec["columns"].values() if "columns" in spec else [spec["column"]]
    texts = [table.column(c) for c in columns]
    keys = table.column(spec["key"]) if "key" in spec else texts[0]
    return [i for i, key in enumerate(keys) if key not in without and any(t[i] for t in texts)]


def row_names(rule: Rule) -> list[str]:
    """The rows that a rule reads, by the names they have in look-ups and in the table."""
    spec = rule.spec
    texts = _table(rule).column(spec.get("key", spec["column"]))
    keys = [texts[i] for i in used(rule)]
    return list(dict.fromkeys([*(str(_keyed(rule)(k)) for k in keys), *keys]))


def cite(rule: Rule, row: int | None, column: str = "") -> Cite:
    """Document, clause and status of the cell that answered; the worse of cell and rule where the rule states one, too."""
    if not _from_table(rule):
        return Cite(rule.where, rule.status)
    if row is None:
        return Cite(rule.where, worse(rule.status, str(_table(rule).card["status"])))
    rows = used(rule)
    at = rows[min(max(row - ("below" in rule.spec), 0), len(rows) - 1)]
    if rule.under is not None and not ("without" in rule.spec or _amended(rule, at)):
        return cite(rule.under, row, column)
    if rule.under is not None:
        return Cite(rule.where, rule.status)
    return Cite(rule.where, worse(rule.status, _table(rule).status(at, column or rule.spec["column"])))


def _amended(rule: Rule, row: int) -> bool:
    key = _table(rule).column(rule.spec["key"])[row]
    return any(k in rule.spec.get("cells", {}) for k in (key, _keyed(rule)(key)))


def _texts(rule: Rule) -> list[str]:
    """The cells of the rule's column, with what a local layer states in their place."""
    texts = list(_table(rule).column(rule.spec["column"]))
    cells = {str(k): f"{v:g}" if isinstance(v, int | float) else str(v) for k, v in rule.spec.get("cells", {}).items()}
    if not cells:
        return texts
    key, keys = _keyed(rule), _table(rule).column(rule.spec["key"])
    return [cells.get(k, cells.get(str(key(k)), text)) for k, text in zip(keys, texts, strict=True)]


def worse(a: str, b: str) -> str:
    """The less trusted of two statuses."""
    return max(a, b, key=TRUST.index)


def _numbers(rule: Rule) -> Callable[[str], Any]:
    scale = float(rule.spec.get("scale", 1.0))
    per = 1 / scale if scale < 1 else 1.0

    def read(text: str) -> Any:
        if rule.unit == "size":
            return text
        found = FORMULA.fullmatch(text)
        if found:
            a, sign, b, c = found.groups()
            return Formula(float(a), float(f"{sign}{b or 1}"), float(c or 0), text)
        return float(text) / per if scale < 1 else float(text) * scale
    return read


def upper(text: str) -> float:
    """The upper end of a band as printed: "26-30", "<=10", "61+", ">120000", "20"."""
    if text in RANKS:
        return RANKS[text]
    if text.endswith("+") or text.startswith((">", "over")) or text in ("", "remainder"):
        return inf
    return number(text.removeprefix("<=").split("-")[-1])


def number(text: str) -> float:
    """A number as printed in a table, with its fraction: "7-1/2" is 7.5."""
    whole, _, part = text.rpartition("-") if "/" in text else (text, "", "")
    if not part:
        return float(whole)
    above, below = part.split("/")
    return float(whole or 0) + float(above) / float(below)


def _low(first: str, count: bool) -> float:
    """The last value below the first band."""
    if first.startswith("<="):
        return -inf
    if first in RANKS:
        return nextafter(1.0, -inf)
    low = float(first.split("-")[0])
    return nextafter(low, -inf) if count or "-" in first else 0.0


def _bands(rule: Rule, label: Label) -> Shape:
    table, spec, read = _table(rule), rule.spec, _numbers(rule)
    rows, keys, cells = used(rule), table.column(spec["key"]), _texts(rule)
    limits = [_limit(rule, keys[i]) for i in rows]
    values = [read(cells[i]) for i in rows]
    count = table.unit(spec["key"]) == "count"
    low = 0.0 if spec.get("as") == "cmil" else _low(keys[rows[0]], count)
    if "below" in spec:
        limits, values = [float(keys[rows[0]].split("-")[0]) - 1, *limits], [spec["below"], *values]
        low = nextafter(1.0, -inf) if count else -inf
    per = 1 / float(spec["scale"]) if spec.get("scale", 1) < 1 else 1.0
    return Bands(limits, values, label, low, per)


def _limit(rule: Rule, text: str) -> float:
    """The upper end of a band, for conductor sizes as an area in circular mils."""
    if rule.spec.get("as") != "cmil":
        return upper(text)
    if not text or text.startswith("over"):
        return inf
    name, key, column = rule.spec["through"]
    areas = dict(zip(Table.load(name).column(key), Table.load(name).column(column), strict=True))
    return float(areas[text]) if text in areas else 1000 * float(text)


def _ladder(rule: Rule, label: Label) -> Shape:
    column = _table(rule).column(rule.spec["column"])
    without = {str(x) for x in rule.spec.get("without", ())}
    sizes = [float(x) for x in column if x and x not in without]
    return Ladder(sizes, label._replace(unit=rule.unit), bool(rule.spec.get("down")))


def _keyed(rule: Rule) -> Callable[[str], Any]:
    strip = rule.spec.get("strip", "")
    numeric = rule.spec.get("as") == "number"
    return lambda text: number(text) if numeric else text.removesuffix(strip)


def _rows(rule: Rule, label: Label) -> Shape:
    table, spec, read, key = _table(rule), rule.spec, _numbers(rule), _keyed(rule)
    keys, cells = table.column(spec["key"]), _texts(rule)
    found = {key(keys[i]): read(cells[i]) for i in used(rule)}
    others = Table.load(spec["rest_of"][0]).column(spec["rest_of"][1]) if "rest_of" in spec else ()
    return Rows(found, label, spec.get("rest"), others)


def _grid(rule: Rule, label: Label) -> Shape:
    table, spec, read, key = _table(rule), rule.spec, _numbers(rule), _keyed(rule)
    keys = table.column(spec["key"])
    columns = {(float(head) if spec.get("as") == "number" else head): table.column(c) for head, c in spec["columns"].items()}
    return Grid({key(keys[i]): {head: read(texts[i]) for head, texts in columns.items() if texts[i]} for i in used(rule)}, label)


def _tiers(rule: Rule, label: Label) -> Shape:
    if not _from_table(rule):
        return Tiers(rule.spec["tiers"], label._replace(unit=rule.unit))
    table, spec, read = _table(rule), rule.spec, _numbers(rule)
    keys, cells = table.column(spec["key"]), _texts(rule)
    steps: list[tuple[float, float]] = []
    for i in used(rule):
        width = re.fullmatch(r"(first|next)([\d.]+)\w*", keys[i])
        before = steps[-1][0] if steps else 0.0
        steps.append((before + float(width.group(2)) if width else upper(keys[i]), read(cells[i])))
    return Tiers(steps, label)


_READ: dict[str, Callable[[Rule, Label], Shape]] = {
    "tiers": _tiers, "bands": _bands, "ladder": _ladder, "rows": _rows, "grid": _grid}
