"""An edition as an object: plain numbers as attributes, so that whole designs pay nothing for edition as data."""
from __future__ import annotations

from collections.abc import Mapping
import difflib
from functools import cache
from pathlib import Path
from typing import Any

from curtilage.editions.layers import Layer, Rule, read
from curtilage.editions.local import local_layer
from curtilage.editions.shapes import shape_of
from curtilage.errors import CurtilageError
from curtilage.values.rules import Shape


class Edition:
    """`ed.unit_load` is a float, `ed.general_demand(x)` steps, `ed.cmil["4/0"]` looks up.

    A rule is read from its table at first use and is an ordinary attribute from then on. A name that no layer states
    raises `CurtilageError` with the nearest name.
    """

    def __init__(self, layer: Layer) -> None:
        self.layer, self.name, self.title = layer, layer.name, layer.title
        self._rules: dict[str, Rule] = {}
        self._shapes: dict[str, Any] = {}
        self._views: dict[str, View] = {}
        self.bound: dict[Any, Any] = {}                 # methods bound to this edition

    @classmethod
    def load(cls, name: str, local: Path | str | Mapping[str, Any] | None = None) -> Edition:
        """An edition by name ("nec2023"), with a local amendment on top: a TOML file, or its parsed contents."""
        if local is None:
            return _load(name)
        return Edition(local_layer(read(name), local))

    @property
    def layers(self) -> list[str]:
        """The titles of all layers, newest first."""
        return [layer.title for layer in reversed(list(self.layer.chain()))]

    @property
    def digest(self) -> str:
        """The state of every rule of every layer, for a frozen record. Tables are held by the hashes in their cards."""
        return self.layer.digest

    def rules(self) -> list[str]:
        return self.layer.names()

    def rule(self, name: str) -> Rule:
        """What the layers say about a rule: value or shape, unit, clause, status."""
        if name not in self._rules:
            self._rules[name] = self.layer.rule(name)
        return self._rules[name]

    def raw_shape(self, name: str) -> Any:
        """The constant, or the shape with its `row` and `note`."""
        if name not in self._shapes:
            self._shapes[name] = shape_of(self.rule(name))
        return self._shapes[name]

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        shape = self.raw_shape(name)
        plain = shape.plain() if isinstance(shape, Shape) else shape
        setattr(self, name, plain)
        return plain

    def views(self) -> list[str]:
        """Views of conductors: one material in one kind of raceway. Those of raceways themselves are named "raceway-pvc40"."""
        return [name for name in self.layer.views() if not name.startswith("raceway-")]

    def view(self, name: str) -> View:
        """The rules of one conductor material in one kind of raceway, under common names: `ed.view("al-pvc")`."""
        if name not in self._views:
            views = self.layer.views()
            if name not in views:
                near = difflib.get_close_matches(name, views, 1)
                raise CurtilageError(f"{self.title}: no view {name!r}; the views are {', '.join(views)}" +
                                     (f"; did you mean {near[0]}?" if near else ""))
            self._views[name] = View(self, name, views[name])
        return self._views[name]

    def __repr__(self) -> str:
        return f"Edition({self.name!r})"


class View:
    """An edition seen for one material and raceway. What it does not name itself is read from the edition.

    `sizes` are the conductor sizes in order for which all tables named under `sizes` have a row, and `from_size[s]`
    those from one size up.
    """

    def __init__(self, ed: Edition, name: str, spec: Mapping[str, Any]) -> None:
        self.ed, self.name = ed, name
        self.aliases: dict[str, str] = {k: v for k, v in spec.items() if isinstance(v, str)}
        first, *others = (self.raw_shape(key).rows for key in spec["sizes"])
        self.sizes: tuple[str, ...] = tuple(s for s in first if all(s in rows for rows in others))
        self.from_size: dict[str, tuple[str, ...]] = {s: self.sizes[i:] for i, s in enumerate(self.sizes)}

    def source_name(self, name: str) -> str:
        """The rule of the edition behind a name of this view."""
        return self.aliases.get(name, name)

    def raw_shape(self, name: str) -> Any:
        return self.ed.raw_shape(self.source_name(name))

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_"):
            raise AttributeError(name)
        plain = getattr(self.ed, self.source_name(name))
        setattr(self, name, plain)
        return plain

    def __repr__(self) -> str:
        return f"View({self.ed.name!r}, {self.name!r})"


@cache
def _load(name: str) -> Edition:
    return Edition(read(name))
