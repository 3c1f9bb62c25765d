"""Input records whose fields answer told: each field is one node that knows its path and its place in a file."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from curtilage.values.lines import Unit
from curtilage.values.told import Told

Where = Callable[[str], str]


def nowhere(path: str) -> str:
    """For inputs that were not written in any file."""
    return ""


class Given:
    """A record (a NamedTuple annotated with units of lines) seen told.

    A field is told with its path, which is the path of the record ("loads.L035") and its name unless `paths` gives
    another; `where` turns a path into the file and line it was written in. `put` holds fields that come from somewhere
    else, such as numbers of other items. A field without a unit is passed on as it is; a tuple of records becomes a
    tuple of told records, each under the path of the tuple ("loads", by `paths`) and its own id.
    """

    def __init__(self, record: Any, path: str, where: Where = nowhere, put: Mapping[str, Any] | None = None,
                 paths: Mapping[str, str] | None = None):
        self._record, self._path, self._where, self._paths = record, path, where, paths or {}
        self._seen: dict[str, Any] = dict(put or {})
        self._units = type(record).__annotations__

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in self._seen:
            self._seen[name] = self._tell(name, getattr(self._record, name))
        return self._seen[name]

    def _tell(self, name: str, x: Any) -> Any:
        unit = self._units.get(name)
        path = self._paths.get(name) or f"{self._path}.{name}"
        if isinstance(unit, Unit):
            return Told(name, x, unit.name, "given", place=path, where=self._where(path))
        if isinstance(x, tuple) and x and hasattr(x[0], "_fields"):
            prefix = self._paths.get(name, self._path)
            return tuple(Given(i, f"{prefix}.{i.id}", self._where) for i in x)
        if hasattr(x, "_fields"):
            return Given(x, path, self._where)
        return x
