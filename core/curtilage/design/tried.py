"""A design after some fields of one feeder were stated otherwise: only what rests on that feeder is computed again."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from curtilage.design.update import follow

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.design.tree import Tree
    from curtilage.model.feeders import Feeder

FIELDS = ("breaker", "sets", "size", "neutral", "egc", "length", "material")
"""Fields of a feeder that reach its own conductors, the ways through it and nothing else among what is sized."""


def with_feeder(d: Design, name: str, changes: Mapping[str, Any], by: str = "what-if") -> Design:
    """The design with some fields of a feeder replaced, {"length": "320 ft", "size": "250", "sets": 1}.

    `by` says in workings where the values came from. Anything but the fields above, and anything that does not read, asks for
    a whole design and gets one, or its error.
    """
    old = next((f for f in d.estate.feeders if f.id == name), None)
    new = _read(old, changes) if old is not None else None
    if new is None or f"feeder/{name}" not in d.items or not set(changes) <= set(FIELDS):
        estate = d.estate.with_({f"feeders.{name}.{field}": x for field, x in changes.items()}, by=by)
        return type(d)(estate, d.ed, d.swift)
    return _again(d, new, {f"feeders.{name}.{field}": by for field in changes})


def _read(old: Feeder, changes: Mapping[str, Any]) -> Feeder | None:
    """The feeder with its new values, read as a file would be; None where they do not read."""
    try:
        said = type(old).model_validate({"id": old.id, "from": old.from_, "to": old.to, **changes})
    except ValidationError:
        return None
    return old.model_copy(update={field: getattr(said, field) for field in changes})


def _again(d: Design, f: Feeder, tried: Mapping[str, str]) -> Design:
    new = d.shared()
    new.tried = {**d.tried, **tried}
    new.estate = d.estate.model_copy(update={"feeders": tuple(f if x.id == f.id else x for x in d.estate.feeders)})
    vars(new)["tree"] = _tree(d.tree, f)
    new.stages = d.stages.of(new)
    new.stages.e, new.stages.ways = new.estate, {}
    if f.length is not None:
        new.items.pop(f"route/{f.id}", None)
        new.asks.pop(f"route/{f.id}", None)
    new.stages.feeder(f.id)
    follow(d, new, {})
    return new


def _tree(tree: Tree, f: Feeder) -> Tree:
    """The tree with one feeder replaced; its rows stay where they are."""
    new = copy(tree)
    new.feeder_of = {**tree.feeder_of, f.to: f}
    new._from = {start: [f if x.id == f.id else x for x in below] for start, below in tree._from.items()}
    new.branches = {**tree.branches, f.id: tree.branches[f.id]._replace(feeder=f)}
    return new
