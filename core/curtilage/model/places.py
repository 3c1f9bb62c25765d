"""From a path such as `feeders.GH.breaker` to the line of the file that says it."""
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


def index_of(items: list[Any], name: str) -> int:
    """Position of the entry with that id, or -1; a plain number counts from 0 where entries have no id."""
    for i, item in enumerate(items):
        if isinstance(item, dict) and item.get("id") == name:
            return i
    if name.isascii() and name.isdigit() and int(name) < len(items) and not (isinstance(items[int(name)], dict) and "id" in items[int(name)]):
        return int(name)
    return -1


def locate(tree: Any, path: str, top: Place) -> Place | None:
    """The place that a path leads to: the value itself, or the nearest group that would hold it. None if the path is foreign."""
    node, at = tree, top
    for name in path.split("."):
        if isinstance(node, Map):
            if name not in node:
                return at
            node, at = node[name], node.values_at[name]
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
    node = tree
    holder = tree
    for step in loc:
        holder = node
        if isinstance(step, int) and isinstance(node, list) and step < len(node):
            node = node[step]
            names.append(str(node["id"]) if isinstance(node, dict) and isinstance(node.get("id"), str | int) else str(step))
        else:
            names.append(str(step))
            node = node.get(step) if isinstance(node, dict) else None
    return ".".join(names), holder
