"""Input records whose fields answer told: each field is one node that knows its path and its place in a file."""
from __future__ import annotations

from collections.abc import Callable, Mapping
import sys
from typing import Any, ForwardRef

from curtilage.values.lines import Unit
from curtilage.values.told import Told

Where = Callable[[str], str]
Homes = Mapping[str, Mapping[str, str]]
"""Class of a nested record -> field -> path, with `{id}` for its id; the field "" gives the path of the record itself."""


def nowhere(path: str) -> str:
    """For inputs that were not written in any file."""
    return ""


_UNITS: dict[type, dict[str, Any]] = {}


def units_of(record: type) -> dict[str, Any]:
    """Field -> unit of a record, also where its module has postponed annotations."""
    if record not in _UNITS:
        names = vars(sys.modules[record.__module__])
        _UNITS[record] = {k: eval(a.__forward_arg__, names) if isinstance(a, ForwardRef) else a
                          for k, a in record.__annotations__.items()}
    return _UNITS[record]


class Given:
    """A record (a NamedTuple annotated with units of lines) seen told.

    A field is told with its path: the path of the record ("loads.L035") and its name, unless `paths` gives another.
    `where` turns a path into the file and line it was written in. `put` holds fields that come from somewhere else,
    such as numbers of other items. A field without a unit is passed on as it is; records inside become told records,
    each at the home of its class.
    """

    def __init__(self, record: Any, path: str, where: Where = nowhere, put: Mapping[str, Any] | None = None,
                 paths: Mapping[str, str] | None = None, homes: Homes | None = None):
        self._record, self._path, self._where = record, path, where
        self._paths, self._homes = paths or {}, homes or {}
        self._seen: dict[str, Any] = dict(put or {})
        self._units = units_of(type(record))

    def __str__(self) -> str:
        return str(getattr(self._record, "id", type(self._record).__name__))

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
        if type(x) is tuple:
            return tuple(self._inside(i, f"{path}.{i.id}") if hasattr(i, "_fields") else i for i in x)
        return self._inside(x, path) if hasattr(x, "_fields") else x

    def _inside(self, record: Any, path: str) -> Given:
        home = self._homes.get(type(record).__name__, {})
        paths = {field: p.format(id=getattr(record, "id", "")) for field, p in home.items()}
        return Given(record, paths.pop("", path), self._where, None, paths, self._homes)
