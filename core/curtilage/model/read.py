"""From a folder to a checked estate: the YAML file, the load list, and everything that refers from one to the other."""

from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from pydantic import PrivateAttr, ValidationError

from curtilage.errors import Problem, Problems, refuse
from curtilage.model import text as texts
from curtilage.model.complaints import complain
from curtilage.model.estate import EstateFile
from curtilage.model.graph import Route, Tree, feeder_tree, shortest
from curtilage.model.loads import Load
from curtilage.model.places import Map, Place, locate
from curtilage.model.rows import Table, fast, read_csv, slow

ESTATE = "estate.yaml"


class Places:
    """Where each value of an estate was written."""

    def __init__(self, tree: Map, top: Place, table: Table | None) -> None:
        self.tree, self.top, self.table = tree, top, table

    @cached_property
    def _lines(self) -> dict[str, int]:
        if self.table is None:
            return {}
        i = self.table.heads.index("id")
        return {row[i]: line for row, line in zip(self.table.rows, self.table.lines, strict=True)}

    def __getitem__(self, path: str) -> Place:
        """The place of a path such as `feeders.GH.breaker` or `loads.L035.va`. Raises `KeyError` for a foreign path."""
        head, _, rest = path.partition(".")
        if head == "loads" and self.table is not None and rest:
            name, _, column = rest.partition(".")
            return Place(self.table.name, self._lines[name], 0, column)
        found = locate(self.tree, path, self.top)
        if found is None:
            raise KeyError(path)
        return found

    def get(self, path: str) -> str:
        """The place as text, or an empty text for a foreign path."""
        try:
            return str(self[path])
        except KeyError:
            return ""


class Estate(EstateFile):
    """An estate as loaded: the file's content, its loads, and where each value was written."""
    _loads: tuple[Load, ...] = PrivateAttr(default=())
    _places: Places = PrivateAttr()
    _warnings: tuple[Problem, ...] = PrivateAttr(default=())
    _folder: Path | None = PrivateAttr(default=None)

    @property
    def loads(self) -> tuple[Load, ...]:
        """The rows of the load list."""
        return self._loads

    @property
    def places(self) -> Places:
        """Where each value was written."""
        return self._places

    @property
    def warnings(self) -> tuple[Problem, ...]:
        """What is allowed and still looks wrong."""
        return self._warnings

    @property
    def folder(self) -> Path | None:
        """The folder it was read from."""
        return self._folder

    @cached_property
    def tree(self) -> Tree:
        """The tree of feeders."""
        return feeder_tree([m.id for m in self.service.mains], [p.id for p in self.panels], self.feeders)

    def route(self, a: str, b: str, use: str = "power") -> Route:
        """The shortest way along trenches between two nodes, with its length [ft]. Raises `CurtilageError`."""
        if self.site_graph is None:
            refuse("site_graph", "the estate has no site graph, so no route can be found", "", "state the length")
        return shortest(self.site_graph, a, b, use)

    def structure_of(self, thing: str) -> str:
        """The structure at which a main, the gear or a panel stands. Raises `KeyError`."""
        gear = self.service.gear
        if thing == gear.id or thing in {m.id for m in self.service.mains}:
            return gear.structure
        return {p.id: p.structure for p in self.panels}[thing]


class Sheet(NamedTuple):
    """A load list as text with the name of its file."""
    text: str
    name: str


def load(path: str | Path) -> Estate:
    """An estate from its folder, or from the estate file itself. Raises `Problems` with everything that is wrong."""
    path = Path(path)
    file = path / ESTATE if path.is_dir() else path
    tree = texts.parse_yaml(texts.decode(texts.read_bytes(file, file.name, texts.LARGEST_YAML), file.name), file.name)
    name = tree.get("loads")
    table = None
    if isinstance(name, str) and name:
        data = texts.read_bytes(file.parent / name, name, texts.LARGEST_TABLE)
        table = read_csv(texts.decode(data, name), name)
    return build(tree, Place(file.name, 1), table, file.parent)


def from_text(estate: str, loads: str = "") -> Estate:
    """An estate from texts in hand, as if they were estate.yaml and loads.csv."""
    tree = texts.parse_yaml(estate, ESTATE)
    return build(tree, Place(ESTATE, 1), read_csv(loads, "loads.csv") if loads else None, None)


def build(tree: Map, top: Place, table: Table | None, folder: Path | None) -> Estate:
    """A checked estate from what was read."""
    problems = Problems()
    estate: Estate | None = None
    try:
        estate = Estate.model_validate(tree)
    except ValidationError as e:
        complain(e.errors(include_url=False), tree, top, EstateFile, problems)
    rows: list[Load] = []
    if table is not None:
        quick = fast(table)
        rows = slow(table, problems) if quick is None else quick
    problems.stop()
    assert estate is not None
    estate._loads, estate._places, estate._folder = tuple(rows), Places(tree, top, table), folder
    return estate



