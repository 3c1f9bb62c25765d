"""A design after one row of the load list changed: only what rests on that row is computed again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from curtilage.calc.demand.records import Row
from curtilage.calc.provenance import Connected
from curtilage.design.ask import Ask
from curtilage.design.sort import row as as_row

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.loads import Load

CIRCUIT = ("length", "mca", "mocp", "breaker")
"""Columns that reach the branch circuit of a row and nothing else."""
LOAD = ("unit_va", "va", "amperes", "pf", "continuous", "hp", "qty", *CIRCUIT)
"""Columns that change numbers and leave every row where it stands in its calculation."""


def reach(d: Design) -> tuple[Mapping[str, list[str]], Mapping[str, list[str]]]:
    """Row -> items that hold it; item -> items that rest on it. Found once for a design and those updated from it."""
    rows: dict[str, list[str]] = {}
    rests: dict[str, list[str]] = {}
    for key, ask in d.asks.items():
        if key in d.late:  # worked anew when somebody looks
            continue
        for name in _rows_in(ask.record):
            rows.setdefault(name, []).append(key)
        for tag in _tags_in(ask):
            rests.setdefault(tag.rpartition("/")[0], []).append(key)
    return rows, rests


def _rows_in(record: Any) -> list[str]:
    """Ids of the rows of the load list inside a record, however deep."""
    if isinstance(record, Row | Connected):
        return [record.id]
    out: list[str] = []
    for x in record:
        if isinstance(x, tuple):
            inside = (x,) if hasattr(x, "_fields") else x
            out += [name for part in inside if isinstance(part, tuple) for name in _rows_in(part)]
    return out


def _tags_in(ask: Ask) -> list[str]:
    out = [path.removeprefix("tag:") for *_, path in ask.more if path.startswith("tag:")]
    for tag in ask.tags.values():
        out += [tag] if isinstance(tag, str) else [t for part in tag.values() for t in part.values()]
    return [t for t in out if not t.startswith("rule:")]


def swapped(record: Any, name: str, new: Any) -> Any:
    """A record with one row inside replaced; what does not hold the row is the same object."""
    if isinstance(record, type(new)):
        return new if record.id == name else record
    put = {}
    for field, x in zip(record._fields, record, strict=True):
        if type(x) is tuple:
            after = [swapped(part, name, new) if isinstance(part, tuple) else part for part in x]
            if any(y is not part for y, part in zip(after, x, strict=True)):
                put[field] = tuple(after)
        elif isinstance(x, tuple):
            inside = swapped(x, name, new)
            if inside is not x:
                put[field] = inside
    return record._replace(**put) if put else record


def with_row(d: Design, changed: Load, by: str = "what-if") -> Design:
    """The design with one row of the load list replaced by another of the same id.

    `by` says in workings where the new values came from. A row that moves (panel, category, group, manager, voltage), or
    a choice of method that would turn, asks for a whole design and gets one.
    """
    old = next(r for r in d.estate.loads if r.id == changed.id)
    moved = {f for f, a, b in zip(old._fields, old, changed, strict=True) if a != b}
    new = d.twin(changed, by)
    if not moved <= set(LOAD) or old.id not in d.reach[0]:
        return type(d)(new.estate, d.ed, d.swift)
    todo: dict[str, Ask] = {}
    if f"circuit/{changed.id}" in d.asks:
        new.stages.circuit(changed)
        new.stages.path(changed.panel)
    if not moved <= set(CIRCUIT):
        for key in d.reach[0][changed.id]:
            if key == f"each/{changed.id}":  # asked with the branch circuit
                continue
            part: Any = Connected(changed.id, changed.va) if key == "provenance" else as_row(changed)
            todo[key] = d.asks[key]._replace(record=swapped(d.asks[key].record, changed.id, part))
    follow(d, new, todo)
    if any(new.items[key] != d.items[key] and turned(new, key) for key in todo if key.endswith("/optional")):
        return type(d)(new.estate, d.ed, d.swift)
    return new


def follow(old: Design, new: Design, todo: dict[str, Ask]) -> None:
    """Run what has to be asked again, and whatever rests on a number that moved, in the order of design."""
    moved = {key for key in new.items if new.items[key] is not old.items.get(key)}
    waiting = set(todo) | {k for key in moved for k in old.reach[1].get(key, ())} - moved
    for key in old.asks:
        if key in waiting and key not in old.late:
            found = new.ask(key, refreshed(new, todo.get(key, new.asks[key])))
            if found != old.items[key]:
                waiting.update(old.reach[1].get(key, ()))


def refreshed(d: Design, ask: Ask) -> Ask:
    """The same question, with the numbers of other items as they are now."""
    put: dict[str, Any] = {}
    for field, tag in ask.tags.items():
        if isinstance(tag, str):
            if not tag.startswith("rule:"):
                put[field] = d.value(tag)
        else:
            put[field] = tuple(
                part._replace(**{f: d.value(t) for f, t in tag.get(part.id, {}).items()}) for part in getattr(ask.record, field)
            )
    more = tuple((s, d.value(p.removeprefix("tag:")) if p.startswith("tag:") else x, u, p) for s, x, u, p in ask.more)
    return ask._replace(record=ask.record._replace(**put), more=more)


def turned(d: Design, optional: str) -> bool:
    """Whether the lesser method of a dwelling is now the other one, where the estate leaves the choice open."""
    name = optional.split("/")[1]
    return d.stages.loads.by_optional(name, d) != d.chosen[name].endswith("/optional")
