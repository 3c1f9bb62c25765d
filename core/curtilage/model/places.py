"""From a path such as `feeders.GH.breaker` to the line of the file that says it."""
from collections.abc import Iterator
from typing import Any, NamedTuple


class Place(NamedTuple):
    """A place in a file; `column` is the position in the line, `head` the name of a column of a table."""
    file: str
    line: int
    column: int = 0
    head: str = ""

    def __str__(self) -> str:
        if self.head:
            return f"{self.file}:{self.line} column {self.head}"
        return f"{self.file}:{self.line}" if self.line else self.file

    def precise(self) -> str:
        """With the position in the line, for an error message."""
        return str(self) if self.head or not self.column else f"{self.file}:{self.line}:{self.column}"


class Map(dict[str, Any]):
    """A group of keys as read, with the place of each key and each value."""
    __slots__ = ("keys_at", "values_at")

    def __init__(self) -> None:
        super().__init__()
        self.keys_at: dict[str, Place] = {}
        self.values_at: dict[str, Place] = {}

    def put(self, key: str, value: Any, key_at: Place, value_at: Place) -> None:
        """Set a key with its places."""
        self[key] = value
        self.keys_at[key] = key_at
        self.values_at[key] = value_at

    def twin(self) -> "Map":
        """A copy of this level only."""
        new = Map()
        new.update(self)
        new.keys_at, new.values_at = dict(self.keys_at), dict(self.values_at)
        return new


class Seq(list[Any]):
    """A list as read, with the place of each entry."""
    __slots__ = ("at",)

    def __init__(self) -> None:
        super().__init__()
        self.at: list[Place] = []

    def put(self, value: Any, at: Place) -> None:
        """Append an entry with its place."""
        self.append(value)
        self.at.append(at)

    def twin(self) -> "Seq":
        """A copy of this level only."""
        new = Seq()
        new.extend(self)
        new.at = list(self.at)
        return new


def placed(value: Any, at: Place) -> Any:
    """A value from Python or from a file as a tree in which everything has a place."""
    if isinstance(value, Map | Seq):
        return value
    if isinstance(value, dict):
        group = Map()
        for k, v in value.items():
            group.put(str(k), placed(v, at), at, at)
        return group
    if isinstance(value, list | tuple):
        row = Seq()
        for v in value:
            row.put(placed(v, at), at)
        return row
    return value


def id_of(item: Any) -> str:
    """The id of an entry, or an empty text."""
    found = item.get("id") if isinstance(item, dict) else None
    return str(found) if isinstance(found, str | int) else ""


def index_of(items: list[Any], name: str) -> int:
    """Position of the entry with that id, or -1; where entries have no id, a number counts from 0."""
    for i, item in enumerate(items):
        if id_of(item) == name:
            return i
    if name.isascii() and name.isdigit() and int(name) < len(items) and not id_of(items[int(name)]):
        return int(name)
    return -1


def key_of(name: str) -> str:
    """A name of a path as the key in a file: `from_` in Python is `from` there."""
    return name.removesuffix("_")


def locate(tree: Any, path: str, top: Place) -> Place | None:
    """The place of a value, or of the nearest group that would hold it. None if the path leads nowhere."""
    node, at = tree, top
    for name in path.split("."):
        if isinstance(node, Map):
            key = name if name in node else key_of(name)
            if key not in node:
                return at
            node, at = node[key], node.values_at[key]
        elif isinstance(node, Seq):
            i = index_of(node, name)
            if i < 0:
                return None
            node, at = node[i], node.at[i]
        else:
            return None
    return at


def readable(tree: Any, loc: tuple[Any, ...]) -> tuple[str, Any]:
    """A validator's location as a path of names, with ids in place of positions, and the node that holds its last step."""
    names: list[str] = []
    node = holder = tree
    for step in loc:
        holder = node
        if isinstance(step, int) and isinstance(node, list) and step < len(node):
            node = node[step]
            names.append(id_of(node) or str(step))
        else:
            names.append(str(step))
            node = node.get(step) if isinstance(node, dict) else None
    return ".".join(names), holder


class Found(NamedTuple):
    """A value of the tree with its path and place."""
    path: str
    value: Any
    at: Place


def each(tree: Any, pattern: str) -> Iterator[Found]:
    """Every value that a pattern such as `sources.storage[].panel` leads to; what is not there is passed over."""
    found = [Found("", tree, Place("", 0))]
    for step in pattern.split("."):
        key, many = step.removesuffix("[]"), step.endswith("[]")
        inner = [Found(f"{f.path}.{key}".lstrip("."), f.value[key], f.value.values_at[key])
                 for f in found if isinstance(f.value, Map) and key in f.value]
        found = [Found(f"{g.path}.{id_of(item) or i}", item, g.value.at[i])
                 for g in inner if isinstance(g.value, Seq) for i, item in enumerate(g.value)] if many else inner
    yield from found
