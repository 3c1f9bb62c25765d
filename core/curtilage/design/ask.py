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
