"""Every input of an estate as one flat mapping from path to value, so that two estates can be held side by side."""

from __future__ import annotations

from collections.abc import Iterator
import datetime
from typing import TYPE_CHECKING, Any, get_args

from pydantic import BaseModel

from curtilage.units import Unit

if TYPE_CHECKING:
    from curtilage.model import Estate


def flat(estate: Estate) -> dict[str, Any]:
    """Path -> value. Entries of lists are named by their id ("feeders.GH.size"), load rows too ("loads.L035.va")."""
    out = dict(_walk("", estate))
    for row in estate.loads:
        out.update(
            (f"loads.{row.id}.{name}", _plain(value)) for name, value in zip(row._fields, row, strict=True) if name != "id"
        )
    return out


def _walk(path: str, x: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(x, BaseModel):
        for name in type(x).model_fields:
            if name == "loads_file":
                continue
            yield from _walk(f"{path}.{name.removesuffix('_')}".lstrip("."), getattr(x, name))
    elif isinstance(x, dict):
        for key, value in x.items():
            yield from _walk(f"{path}.{key}", value)
    elif isinstance(x, tuple) and not hasattr(x, "_fields"):
        for i, value in enumerate(x):
            yield from _walk(f"{path}.{getattr(value, 'id', i)}", value)
    else:
        yield path, _plain(x)


def _plain(x: Any) -> Any:
    if isinstance(x, datetime.date):
        return x.isoformat()
    return list(x) if isinstance(x, tuple) else x


def where(estate: Estate, path: str) -> str:
    """The file and line in which an input was written, or the words that it was not and what stands in its place."""
    at = estate.places.get(path) or _above(estate, path)
    return at if stated(estate, path) else f"not stated in {at or 'the estate'}: default of the form"


def _above(estate: Estate, path: str) -> str:
    """Where the nearest part that an input would stand in was written; empty where there is none."""
    while "." in path:
        path = path.rpartition(".")[0]
        if estate.places.get(path):
            return str(estate.places.get(path))
    return ""


def unit_of(estate: Estate, path: str) -> str:
    """The unit in which an input is stored, by the form that holds it; empty for words, counts and foreign paths."""
    from curtilage.model.loads import COLUMNS

    head, *names = path.split(".")
    if head == "loads":
        return COLUMNS[names[-1]].unit if names and names[-1] in COLUMNS else ""
    node: Any = estate
    found = ""
    for name in (head, *names):
        if isinstance(node, BaseModel):
            known = type(node).model_fields
            field = name if name in known else f"{name}_"
            if field not in known:
                return ""
            found = _unit((*known[field].metadata, known[field].annotation))
            node = getattr(node, field)
        elif isinstance(node, tuple):
            node = next((x for x in node if getattr(x, "id", None) == name), None)
        elif isinstance(node, dict):
            node = node.get(name)
    return found


def _unit(kinds: tuple[Any, ...]) -> str:
    """The unit among the markers of a field, or among those of the kinds it is made of."""
    for kind in kinds:
        inner = kind.unit if isinstance(kind, Unit) else _unit((*getattr(kind, "__metadata__", ()), *get_args(kind)))
        if inner:
            return inner
    return ""


def stated(estate: Estate, path: str) -> bool:
    """Whether somebody wrote this input, or the form's default stands in its place."""
    head, *names = path.split(".")
    if head == "loads":
        return True
    node: Any = estate
    for name in (head, *names):
        if node is None:                                   # what it would stand in is not there
            return False
        if isinstance(node, BaseModel):
            field = name if name in type(node).model_fields else f"{name}_"
            if field not in node.model_fields_set:
                return False
            node = getattr(node, field)
        elif isinstance(node, tuple):
            node = next((x for x in node if getattr(x, "id", None) == name), None)
        elif isinstance(node, dict):
            node = node.get(name)
    return True
