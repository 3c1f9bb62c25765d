"""A design with some values stated otherwise: only what rests on them is computed again, where that is known; else all of it."""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from functools import cache
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import BaseModel, TypeAdapter, ValidationError

from curtilage.design.update import follow

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.design.tree import Tree
    from curtilage.model import Estate
    from curtilage.model.feeders import Feeder

FEEDER = ("breaker", "sets", "size", "neutral", "egc", "length", "material")
"""Fields of a feeder that reach its own conductors and the ways through it, and nothing else among what is sized."""
LATERAL = ("length", "sets", "size", "neutral", "material")
"""Fields of the service conductors that reach these, and the ways through them."""
LATE = (("service", "transformer"), ("service", "flicker"), ("service", "metering"), ("raceways",), ("boxes",), ("penetrations",),
        ("temporary",), ("grounding",))
"""Parts of the estate that nothing that is sized rests on: only what is built from the sizes."""


def with_values(d: Design, changes: Mapping[str, Any], by: str = "what-if") -> Design:
    """The design with inputs stated otherwise, {"feeders.GH.length": "320 ft", "service.transformer.rating": "167 kVA"}.

    `by` says in workings where the values came from. Paths of one feeder, of the lateral and of what only late items read take
    the short way; any other path, and any value that does not read, asks for a whole design and gets one, or its error.
    """
    again = {_reaches(path) for path in changes}
    known = "" not in again and all(f"feeder/{name}" in d.items for name in again - {"late", "service"})
    estate = _estate(d.estate, changes) if known else None
    if estate is None:
        return type(d)(d.estate.with_({**d.moved, **changes}, by=by), d.ed, d.swift)
    new = _again(d, estate, again - {"late"}, {**d.tried, **dict.fromkeys(changes, by)})
    new.moved = {**d.moved, **changes}
    return new


def _reaches(path: str) -> str:
    """What is sized anew for a path: a feeder by its name, "service", "late" for nothing, "" where everything is."""
    names = path.split(".")
    if len(names) == 3 and names[0] == "feeders" and names[2] in FEEDER:
        return names[1]
    if len(names) == 3 and names[:2] == ["service", "lateral"] and names[2] in LATERAL:
        return "service"
    return "late" if any(tuple(names[:len(part)]) == part for part in LATE) else ""


# ------------------------------------------------------------------------------------------------------- one value of an estate
def _estate(estate: Estate, changes: Mapping[str, Any]) -> Estate | None:
    """The estate with values replaced, each read as a file would be; None where one does not read or leads nowhere."""
    try:
        for path, value in changes.items():
            estate = _put(estate, path.split("."), value)
    except (ValidationError, LookupError):
        return None
    return estate


def _put(node: Any, names: list[str], value: Any) -> Any:
    """A copy of a model, or of a tuple of models, with one value replaced; what does not lie on the way is shared."""
    head, *rest = names
    if isinstance(node, tuple):
        at = next((i for i, x in enumerate(node) if getattr(x, "id", None) == head), None)
        if at is None or not rest:
            raise LookupError(head)
        return (*node[:at], _put(node[at], rest, value), *node[at + 1:])
    if not isinstance(node, BaseModel):
        raise LookupError(head)
    field = head if head in type(node).model_fields else f"{head}_"
    if field not in type(node).model_fields:
        raise LookupError(head)
    new = _put(getattr(node, field), rest, value) if rest else _reader(type(node), field).validate_python(value)
    return node.model_copy(update={field: new})


@cache
def _reader(model: type[BaseModel], field: str) -> TypeAdapter[Any]:
    """What reads one field of a model, with all its limits."""
    info = model.model_fields[field]
    kind: Any = Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
    return TypeAdapter(kind)


# ----------------------------------------------------------------------------------------------------------- what rests on it
def _again(d: Design, estate: Estate, sized: set[str], tried: Mapping[str, str]) -> Design:
    new = d.shared()
    new.tried, new.estate = dict(tried), estate
    new.stages = d.stages.of(new)
    new.stages.e, new.stages.ways = estate, {}
    feeders = [f for f in estate.feeders if f.id in sized]
    vars(new)["tree"] = _tree(d.tree, feeders)
    for f in feeders:
        if f.length is not None:
            new.items.pop(f"route/{f.id}", None)
            new.asks.pop(f"route/{f.id}", None)
        new.stages.feeder(f.id)
    if "service" in sized:
        new.stages.service()
    follow(d, new, {})
    return new


def _tree(tree: Tree, feeders: list[Feeder]) -> Tree:
    """The tree with some feeders replaced; its rows stay where they are."""
    new = copy(tree)
    for f in feeders:
        new.feeder_of = {**new.feeder_of, f.to: f}
        new._from = {start: [f if x.id == f.id else x for x in below] for start, below in new._from.items()}
        new.branches = {**new.branches, f.id: new.branches[f.id]._replace(feeder=f)}
    return new
