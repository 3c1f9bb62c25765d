"""Variants: short files of overrides on a base. The result is checked as a whole; changed values point at the variant."""
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from pydantic import Field

from curtilage.errors import Problems, did_you_mean, listed, refuse
from curtilage.model import text as texts
from curtilage.model.base import Strict, Text, Words
from curtilage.model.estate import Estate
from curtilage.model.loads import COLUMNS
from curtilage.model.places import Map, Place, Seq, id_of, index_of, key_of, placed
from curtilage.model.shape import shaped
from curtilage.model.source import Cell, Rows, Source
from curtilage.units import shown

FOLDER = "variants"


class VariantFile(Strict):
    """A variant as written."""
    title: Words = Field(description="name in words")
    why: Text = Field("", description="reason")
    kind: Text = Field("", description="sort of variant: option, planted, replay, future")
    checks: tuple[Words, ...] = Field((), description="numbers of the checks it is about")
    expect: Text = Field("", description="what it should show")
    set_: dict[str, Any] = Field(default_factory=dict, alias="set", description="path -> value, with its unit")
    add: dict[str, tuple[dict[str, Any], ...]] = Field(default_factory=dict, description="list -> entries to add")
    remove: tuple[Words, ...] = Field((), description="paths of entries or keys to remove")


class Variant(NamedTuple):
    """A variant that was read, with the places of its lines."""
    name: str
    file: VariantFile
    tree: Map

    def on(self, base: Estate) -> Estate:
        """The base with this variant's changes. Raises `Problems`."""
        return _apply(base, self.tree)


def variants(folder: str | Path) -> list[str]:
    """The names of the variants in an estate's folder."""
    return sorted(p.stem for p in (Path(folder) / FOLDER).glob("*.yaml"))


def read_variant(folder: str | Path, name: str) -> Variant:
    """The variant of that name in an estate's folder. Raises `Problems`."""
    file = Path(folder) / FOLDER / f"{name}.yaml"
    there = variants(folder)
    if name not in there:
        refuse(f"{FOLDER}/{name}.yaml", f"there is no variant {shown(name)}", f"known: {listed(there, 99)}" if there else
               f"the folder {FOLDER}/ has none", did_you_mean(name, there))
    shown_as = f"{FOLDER}/{name}.yaml"
    return from_tree(name, texts.yaml_of(file, shown_as), shown_as)


def from_tree(name: str, tree: Map, file: str) -> Variant:
    """A variant from its tree. Raises `Problems`."""
    problems = Problems()
    made = shaped(VariantFile, tree, Place(file, 1), problems)
    problems.stop()
    assert made is not None
    return Variant(name, made, tree)


def changed(base: Estate, overrides: Mapping[str, object], add: Mapping[str, Sequence[Mapping[str, object]]],
            remove: Sequence[str], by: str) -> Estate:
    """An estate with changes from Python."""
    return _apply(base, placed({"set": dict(overrides), "add": dict(add), "remove": list(remove)}, Place(by, 0)))


def _apply(base: Estate, change: Map) -> Estate:
    from curtilage.model.read import build

    edit = Edit(base.source)
    for path in change.get("remove") or ():
        edit.remove(str(path), _at(change, "remove", path))
    sets = change.get("set") or Map()
    for path, value in sets.items():
        edit.set(path, value, sets.keys_at[path], sets.values_at[path])
    adds = change.get("add") or Map()
    for name, items in adds.items():
        for item, at in zip(items, items.at, strict=True):
            edit.add(name, item, adds.keys_at[name], at)
    edit.problems.stop()
    return build(edit.source(), like=base if edit.tree is base.source.tree else None)


def _at(change: Map, key: str, value: object) -> Place:
    row = change[key]
    return row.at[row.index(value)] if isinstance(row, Seq) else change.keys_at[key]


class Edit:
    """Changes on copies of what an estate was made from; only the levels on the way to a change are copied."""

    def __init__(self, base: Source) -> None:
        self.base, self.tree, self.problems = base, base.tree, Problems()
        self.cells: dict[str, dict[str, Cell]] = {k: dict(v) for k, v in base.rows.changed.items()}
        self.rows: list[Map] = list(base.rows.added)
        self.gone: set[str] = set(base.rows.gone)
        self._mine: set[int] = set()
        self._keep: list[Any] = []                             # so that an id() is not used again

    def source(self) -> Source:
        """What the changed estate is made from."""
        return self.base._replace(tree=self.tree, rows=self.base.rows.but(self.cells, tuple(self.rows), frozenset(self.gone)))

    def _rows(self) -> Rows:
        return self.base.rows.but(self.cells, tuple(self.rows), frozenset(self.gone))

    def _own(self, node: Any) -> Any:
        """The node itself if this edit made it, or a copy."""
        if id(node) in self._mine:
            return node
        twin = node.twin()
        self._mine.add(id(twin))
        self._keep.append(twin)
        return twin

    def _descend(self, path: str, steps: list[str], key_at: Place, make: bool) -> Any:
        """The group or list that holds the last step of a path, copied all the way; None with a problem if there is none."""
        self.tree = self._own(self.tree)
        node: Any = self.tree
        walked: list[str] = []
        for step in steps:
            key, inner = self._child(node, step)
            if inner is None and make and isinstance(node, Map) and key is None:
                inner = Map()
                node.put(step, inner, key_at, key_at)
                key = step
            if not isinstance(inner, Map | Seq):
                self._lost(path, walked, step, node, key_at)
                return None
            twin = self._own(inner)
            node[key] = twin
            node = twin
            walked.append(step)
        return node

    @staticmethod
    def _child(node: Any, step: str) -> tuple[Any, Any]:
        if isinstance(node, Map):
            key = step if step in node else key_of(step)
            return (key, node[key]) if key in node and node[key] is not None else (None, None)
        i = index_of(node, step)
        return (i, node[i]) if i >= 0 else (None, None)

    def _lost(self, path: str, walked: list[str], step: str, node: Any, at: Place) -> None:
        names = list(node) if isinstance(node, Map) else [id_of(item) for item in node]
        here = ".".join(walked) or "the estate"
        self.problems.add(f"{at.precise()} {path}".strip(), f"there is no {shown(step)} in {here}",
                          f"known: {listed([n for n in names if n], 20)}" if any(names) else "", did_you_mean(step, names))

    def set(self, path: str, value: Any, key_at: Place, value_at: Place) -> None:
        """Sets one value."""
        steps = path.split(".")
        if steps[0] == "loads" and len(steps) > 1:
            self._set_cell(path, steps, value, key_at, value_at)
            return
        node = self._descend(path, steps[:-1], key_at, make=True)
        if isinstance(node, Map):
            key = steps[-1] if steps[-1] in node else key_of(steps[-1])
            node.put(key, value, key_at, value_at)
        elif isinstance(node, Seq):
            i = index_of(node, steps[-1])
            if i < 0:
                self._lost(path, steps[:-1], steps[-1], node, key_at)
            else:
                node[i] = value
                node.at[i] = value_at

    def _set_cell(self, path: str, steps: list[str], value: Any, key_at: Place, value_at: Place) -> None:
        where = f"{key_at.precise()} {path}"
        if len(steps) != 3:
            self.problems.add(where, "is not the path of a cell", "expected loads, the id of a row and a column",
                              "write for example loads.L035.va")
            return
        _, name, column = steps
        rows = self._rows()
        if not rows.has(name):
            self.problems.add(where, f"the load list has no row {shown(name)}", "", did_you_mean(name, rows.names()))
        elif column not in COLUMNS:
            self.problems.add(where, f"there is no column {shown(column)}", "",
                              did_you_mean(column, COLUMNS) or f"columns are: {listed(COLUMNS, 99)}")
        elif column == "id":
            self.problems.add(where, "an id cannot be overridden", "", "remove the row and add another")
        else:
            for i, m in enumerate(self.rows):
                if id_of(m) == name:
                    self.rows[i] = m.twin()
                    self.rows[i].put(column, value, key_at, value_at)
                    return
            self.cells.setdefault(name, {})[column] = (value, value_at)

    def add(self, name: str, item: Any, key_at: Place, at: Place) -> None:
        """Adds one entry to a list such as `feeders`, `site_graph.trenches` or `loads`."""
        where = f"{at.precise()} add.{name}"
        if not isinstance(item, Map):
            self.problems.add(where, "an entry to add must be a group of keys")
            return
        if name == "loads":
            self.rows.append(item)
            return
        steps = name.split(".")
        node = self._descend(name, steps[:-1], key_at, make=True)
        if not isinstance(node, Map):
            return
        row = node.get(steps[-1])
        twin = self._own(row) if isinstance(row, Seq) else Seq()
        self._mine.add(id(twin))
        self._keep.append(twin)
        twin.put(item, at)
        node.put(steps[-1], twin, node.keys_at.get(steps[-1], key_at), node.values_at.get(steps[-1], at))

    def remove(self, path: str, at: Place) -> None:
        """Removes an entry or a key."""
        steps = path.split(".")
        if steps[0] == "loads" and len(steps) == 2:
            self._remove_row(path, steps[1], at)
            return
        node = self._descend(path, steps[:-1], at, make=False)
        if node is None:
            return
        key, _ = self._child(node, steps[-1])
        if key is None:
            self._lost(path, steps[:-1], steps[-1], node, at)
        else:
            del node[key]
            if isinstance(node, Seq):
                del node.at[key]

    def _remove_row(self, path: str, name: str, at: Place) -> None:
        rows = self._rows()
        if not rows.has(name):
            self.problems.add(f"{at.precise()} {path}", f"the load list has no row {shown(name)}", "",
                              did_you_mean(name, rows.names()))
            return
        self.rows = [m for m in self.rows if id_of(m) != name]
        self.cells.pop(name, None)
        if name in rows.lines:
            self.gone.add(name)
