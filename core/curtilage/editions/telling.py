"""The same attributes, answering with clause and status. Each rule is one node, however often it is read."""
from __future__ import annotations

from typing import Any

from curtilage.editions.edition import Edition, View
from curtilage.editions.layers import Rule
from curtilage.editions.shapes import cite
from curtilage.values.rules import Shape, Telling
from curtilage.values.told import Cite, Told, value


class TellingEdition:
    """Stands in for an `Edition` in told calculation: `ed.unit_load` is a `Told`, tables and ladders give one."""

    def __init__(self, ed: Edition) -> None:
        self._ed = ed
        self._seen: dict[str, Any] = {}
        self._views: dict[str, TellingView] = {}

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in self._seen:
            self._seen[name] = _told(name, self._ed.rule(name), self._ed.raw_shape(name))
        return self._seen[name]

    def view(self, name: Any) -> TellingView:
        """The told twin of `Edition.view`; the name may be told, too."""
        name = value(name)
        if name not in self._views:
            self._views[name] = TellingView(self, self._ed.view(name))
        return self._views[name]


class TellingView:
    """Stands in for a `View`."""

    def __init__(self, telling: TellingEdition, view: View) -> None:
        self._telling, self._view = telling, view
        self._seen: dict[str, Any] = {}
        self.sizes = view.sizes
        self.from_size = _BySize(view.from_size)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        if name not in self._view.aliases:
            return getattr(self._telling, name)
        if name not in self._seen:
            source = self._view.aliases[name]
            self._seen[name] = _told(name, self._view.ed.rule(source), self._view.raw_shape(name))
        return self._seen[name]


def _told(name: str, rule: Rule, shape: Any) -> Told | Telling:
    if not isinstance(shape, Shape):
        note = f"constant; {rule.note}" if rule.note else "constant"
        return Told(name, shape, rule.unit, "rule", cite=Cite(rule.where, rule.status), note=note)
    found: Shape = shape

    def source(*keys: Any) -> Cite:
        column = rule.spec["columns"][f"{keys[1]:g}" if isinstance(keys[1], float | int) else keys[1]] if len(keys) > 1 else ""
        return cite(rule, found.row(*keys), column)
    return Telling(name, found, rule.unit, source, rule.note)


class _BySize(dict[str, tuple[str, ...]]):
    """Candidates from one size up; each remembers which size the search started from."""

    def __getitem__(self, start: Any) -> Any:
        if not isinstance(start, Told):
            return super().__getitem__(start)
        return [Told("s", s, "size", "rule", (start,), note=f"from {start.value} up") for s in super().__getitem__(start.value)]
