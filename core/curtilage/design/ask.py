"""One item of a design: which method is run on which record, and where each field of the record comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple


class Ask(NamedTuple):
    """A method, its input record and the origin of its fields.

    `path` is the home of the record in the estate; `paths` name the home of single fields that came from elsewhere;
    `tags` name the numbers of other items that fields were taken from (for a tuple of parts: id -> field -> tag, or "path:" and
    the home of the field).
    `view` is the view of the edition that the method reads ("al-pvc"), "ed" for the edition itself, "" for neither.
    """

    method: Callable[..., Any]
    record: Any
    path: str
    view: str = "ed"
    paths: Mapping[str, str] = {}
    tags: Mapping[str, Any] = {}
    more: tuple[tuple[str, Any, str, str], ...] = ()  # (symbol, value, unit, path) of further arguments behind the record
    besides: tuple[Any, ...] = ()  # records that stand beside the first one; constants of the system


def rests_on(ask: Ask) -> list[str]:
    """The numbers of other items that one item was asked with, by their tags."""
    out = [path.removeprefix("tag:") for *_, path in ask.more if path.startswith("tag:")]
    for tag in ask.tags.values():
        out += [tag] if isinstance(tag, str) else [t for part in tag.values() for t in part.values()]
    return [t for t in out if "/" in t and not t.startswith(("rule:", "path:"))]
