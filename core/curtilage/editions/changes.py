"""What moved between two editions, rule by rule and row by row."""
from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import Any, NamedTuple

from curtilage.editions.edition import Edition
from curtilage.editions.layers import Rule
from curtilage.editions.shapes import cite
from curtilage.tables import Table
from curtilage.values.rules import Bands, Formula, Grid, Ladder, Rows, Shape, Tiers


class Change(NamedTuple):
    """One difference. `kind` is value (a number or a row of a table), clause (numbering only), shape (another kind of
    rule), new, or gone. `status` says how far the later side was checked, `note` what is not certain about it."""
    what: str
    before: str
    after: str
    clause_before: str
    clause_after: str
    status: str
    kind: str
    note: str = ""


def changes(a: Edition, b: Edition) -> list[Change]:
    """Every rule that differs from edition `a` to edition `b`, in the order in which the editions state them."""
    first, then = a.rules(), b.rules()
    out: list[Change] = []
    for name in dict.fromkeys([*first, *then]):
        if name not in then:
            out.append(_one(name, a.rule(name), None, "gone"))
        elif name not in first:
            out.append(_one(name, None, b.rule(name), "new"))
        else:
            out.extend(_between(name, a, b))
    return out


def _between(name: str, a: Edition, b: Edition) -> Iterator[Change]:
    before, after = a.rule(name), b.rule(name)
    if before.shape != after.shape:
        yield _one(name, before, after, "shape")
        return
    rows = list(_rows(a, b, name))
    yield from rows
    if not rows and before.clause != after.clause:
        yield _one(name, before, after, "clause")


def _one(what: str, before: Rule | None, after: Rule | None, kind: str) -> Change:
    said = after or before
    assert said is not None
    numbering = str(said.spec.get("numbering", ""))
    status = "from memory" if kind == "clause" and numbering else said.status or _worst(said)
    now = "unchanged" if kind == "clause" else _text(after)
    return Change(what, _text(before), now, before.clause if before else "", after.clause if after else "", status, kind,
                  "; ".join(filter(None, (numbering, said.note))))


def _worst(rule: Rule) -> str:
    return cite(rule, None).status


def _text(rule: Rule | None) -> str:
    """The rule in a few words."""
    if rule is None:
        return "-"
    if rule.shape == "value":
        return _amount(rule.spec["value"], rule.unit)
    if isinstance(rule.spec[rule.shape], str):
        return str(Table.load(rule.spec[rule.shape]).card["title"])
    return ", ".join(f"{_share(factor)} {'above' if limit == inf else f'up to {limit:g}'}"
                     for limit, factor in rule.spec[rule.shape])


def _share(factor: float) -> str:
    """A factor of tiers, which stands for itself and not for an amount in the unit of what it is applied to."""
    return f"{100 * factor:g} %"


def _amount(x: Any, unit: str) -> str:
    if isinstance(x, bool):
        return "yes" if x else "no"
    if x == "":
        return "none"
    shown = x.text if isinstance(x, Formula) else f"{x:g}" if isinstance(x, int | float) else str(x)
    return shown if unit in ("", "size", "count", "text", "yes/no") else f"{shown} {unit}"


def _rows(a: Edition, b: Edition, name: str) -> Iterator[Change]:
    before, after = a.rule(name), b.rule(name)
    old, new = _cells(a.raw_shape(name)), _cells(b.raw_shape(name))
    for key in [*old, *(k for k in new if k not in old)]:
        x, y = old.get(key), new.get(key)
        if x == y:
            continue
        what = name if key is None else f"{name}[{key}]"
        status = cite(after, _row(b.raw_shape(name), key)).status if y is not None else after.status or _worst(after)
        yield Change(what, _cell(x, before), _cell(y, after), before.clause, after.clause, status, "value",
                     "; ".join(filter(None, (str(after.spec.get("numbering", "")), after.note))))


def _cell(x: Any, rule: Rule) -> str:
    if x is None:
        return "-"
    return _share(x) if rule.shape == "tiers" else _amount(x, rule.unit)


def _cells(shape: Any) -> dict[Any, Any]:
    """Every cell of a shape by its key; a constant has one, without a key."""
    if isinstance(shape, Rows):
        return dict(shape.own)
    if isinstance(shape, Ladder):
        return {f"{s:g}": s for s in shape.sizes}
    if isinstance(shape, Bands):
        return {_limit(u): v for u, v in zip(shape.limits[1:], shape.cells, strict=True)}
    if isinstance(shape, Tiers):
        return {_limit(u): f for u, f in shape.steps}
    if isinstance(shape, Grid):
        return {f"{row}, {column}": v for row, cells in shape.rows.items() for column, v in cells.items()}
    return {None: shape}


def _limit(x: float) -> str:
    return "above" if x == inf else f"to {x:g}"


def _row(shape: Any, key: Any) -> int | None:
    if not isinstance(shape, Shape) or isinstance(shape, Grid):
        return None
    return list(_cells(shape)).index(key)
