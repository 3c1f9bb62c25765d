"""What the models found wrong, in words: each with its place, what was given, what is allowed and the nearest name."""
from typing import Any, get_args

from pydantic import BaseModel

from curtilage.errors import Problems, listed, nearest
from curtilage.model.places import Map, Place, Seq, locate, readable
from curtilage.units import QuantityError, shown

_LISTS = {"tuple_type": "a list", "list_type": "a list", "dict_type": "a group of keys", "model_type": "a group of keys",
          "model_attributes_type": "a group of keys"}


def complain(errors: list[Any], tree: Map, top: Place, model: type[BaseModel], problems: Problems) -> None:
    """Adds each error of a validation to the problems."""
    for e in errors:
        loc = tuple(step for step in e["loc"] if step != "[key]" and not _is_wrapper(step))
        path, holder = readable(tree, loc)
        at = _place(tree, loc, holder, e["type"], top)
        problems.add(f"{at.precise()} {path}".rstrip(), *_words(e, loc, holder, model))


def _is_wrapper(step: object) -> bool:
    return isinstance(step, str) and step.startswith("function-")


def _place(tree: Map, loc: tuple[Any, ...], holder: Any, kind: str, top: Place) -> Place:
    last = loc[-1] if loc else ""
    if isinstance(holder, Map) and last in holder:
        return holder.keys_at[last] if kind == "extra_forbidden" else holder.values_at[last]
    if isinstance(holder, Seq) and isinstance(last, int) and last < len(holder):
        return holder.at[last]
    path, _ = readable(tree, loc[:-1])
    return (locate(tree, path, top) if path else None) or top


def _words(e: Any, loc: tuple[Any, ...], holder: Any, model: type[BaseModel]) -> tuple[str, str, str]:
    kind, given = e["type"], e.get("input")
    error = (e.get("ctx") or {}).get("error")
    if isinstance(error, QuantityError):
        return error.given, error.expected, error.mend
    if kind == "extra_forbidden":
        return _unknown_key(loc, holder, model)
    if kind == "missing":
        owner = owner_of(model, loc[:-1])
        field = next((f for n, f in (owner.model_fields if owner else {}).items() if (f.alias or n) == loc[-1]), None)
        return "is missing", f"expected {field.description}" if field and field.description else "", "add it"
    if kind in ("literal_error", "enum"):
        choices = [str(x) for x in _choices(e)]
        close = nearest(str(given), choices)
        return f"{shown(given)} is not known here", f"allowed: {listed(choices, 99)}", f"did you mean {close}?" if close else ""
    if kind in _LISTS:
        return f"{_thing(given)} stands here", f"expected {_LISTS[kind]}", ""
    if kind == "too_short":
        return "the list is too short", f"expected at least {e['ctx']['min_length']}", ""
    if kind == "too_long":
        return f"the list has {e['ctx']['actual_length']} entries", f"allowed: up to {e['ctx']['max_length']}", ""
    return str(e["msg"]), "", ""


def _thing(given: object) -> str:
    if isinstance(given, dict):
        return "a group of keys"
    if isinstance(given, list | tuple):
        return "a list"
    return "nothing" if given is None else shown(given)


def _choices(e: Any) -> list[str]:
    text = str(e["ctx"]["expected"])
    return [part.strip("'") for part in text.replace(" or ", ", ").split(", ")]


def _unknown_key(loc: tuple[Any, ...], holder: Any, model: type[BaseModel]) -> tuple[str, str, str]:
    owner = owner_of(model, loc[:-1])
    names = keys_of(owner) if owner else []
    close = nearest(str(loc[-1]), [n for n in names if not (isinstance(holder, dict) and n in holder)] or names)
    return (f"there is no key {shown(str(loc[-1]))} here", f"known keys: {listed(names, 99)}" if not close else "",
            f"did you mean {close}?" if close else "")


def keys_of(model: type[BaseModel]) -> list[str]:
    """The keys a group may have, as they are written."""
    return [f.alias or n for n, f in model.model_fields.items()]


def owner_of(model: type[BaseModel], loc: tuple[Any, ...]) -> type[BaseModel] | None:
    """The model that a location leads to."""
    owner: type[BaseModel] | None = model
    for step in loc:
        if isinstance(step, int):
            continue
        field = next((f for n, f in (owner.model_fields if owner else {}).items() if (f.alias or n) == step or n == step), None)
        owner = _model_in(field.annotation) if field else None
    return owner


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((m for m in map(_model_in, get_args(annotation)) if m is not None), None)
