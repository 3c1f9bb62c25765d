"""What an estate was made from: the tree of its file, the rows of its load list, and what variants changed in either."""
from collections.abc import Mapping
from functools import cached_property
from itertools import repeat
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple

from curtilage.errors import Problems, nearest
from curtilage.model.loads import COLUMNS, Load
from curtilage.model.places import Map, Place, id_of, locate
from curtilage.model.rows import Table, fast

Cell = tuple[Any, Place]


class Row(NamedTuple):
    """A load with where it stands: a line of the table, or a group added by a variant."""
    load: Load
    line: int
    added: Map | None


class Rows:
    """The load list: a table, cells changed in it, rows added to it and rows taken away."""

    def __init__(self, table: Table | None = None, changed: dict[str, dict[str, Cell]] | None = None,
                 added: tuple[Map, ...] = (), gone: frozenset[str] = frozenset(), parsed: list[Row] | None = None) -> None:
        self.table, self.changed, self.added, self.gone, self._parsed = table, changed or {}, added, gone, parsed

    def but(self, changed: dict[str, dict[str, Cell]], added: tuple[Map, ...], gone: frozenset[str]) -> "Rows":
        """The same table with other changes; what was parsed is kept."""
        return Rows(self.table, changed, added, gone, self._parsed)

    @cached_property
    def lines(self) -> dict[str, int]:
        """Line of each row of the table by its id."""
        if self.table is None or "id" not in self.table.heads:
            return {}
        i = self.table.heads.index("id")
        return {row[i].strip(): line for row, line in zip(self.table.rows, self.table.lines, strict=True)}

    def has(self, name: str) -> bool:
        """Whether there is a row of that id."""
        return (name in self.lines and name not in self.gone) or any(id_of(m) == name for m in self.added)

    def names(self) -> list[str]:
        """The ids of all rows."""
        return [n for n in self.lines if n not in self.gone] + [id_of(m) for m in self.added]

    def place(self, name: str, column: str) -> Place:
        """Where a cell stands. Raises `KeyError` for a row that is not there."""
        if column in self.changed.get(name, ()):
            return self.changed[name][column][1]
        for m in self.added:
            if id_of(m) == name:
                return m.values_at.get(column, next(iter(m.keys_at.values())))
        if self.table is None or name in self.gone:
            raise KeyError(name)
        return Place(self.table.name, self.lines[name], 0, column)

    def where(self, row: Row, column: str) -> str:
        """Where a cell of a row stands, with the id of the row, for a message."""
        name = row.load.id
        if row.added is not None or column in self.changed.get(name, ()):
            return f"{self.place(name, column).precise()} loads.{name}.{column}"
        assert self.table is not None
        return f"{self.table.name}:{row.line} column {column} ({name})"

    def read(self, problems: Problems) -> list[Row]:
        """All rows, with what cannot be read added to the problems."""
        if self._parsed is None:
            self._parsed = self._table_rows(problems)
        found = self._parsed
        if self.gone or self.changed:
            found = [self._changed_row(r, problems) if r.load.id in self.changed else r for r in found
                     if r.load.id not in self.gone]
        return [*found, *self._added(problems)] if self.added else found

    def _added(self, problems: Problems) -> list[Row]:
        from curtilage.model.cells import one

        found: list[Row] = []
        for m in self.added:
            for key in m:
                if key not in COLUMNS:
                    close = nearest(key, COLUMNS)
                    problems.add(f"{m.keys_at[key].precise()} loads.{id_of(m)}.{key}", f"there is no column {key!r}", "",
                                 f"did you mean {close}?" if close else "")
            at = next(iter(m.keys_at.values()), Place("", 0))
            load = one({k: (v, None, f"{m.values_at[k].precise()} loads.{id_of(m)}.{k}") for k, v in m.items()},
                       f"{at.precise()} loads.{id_of(m)}", problems)
            if load:
                found.append(Row(load, 0, m))
        return found

    def _table_rows(self, problems: Problems) -> list[Row]:
        t = self.table
        if t is None:
            return []
        quick = fast(t)
        if quick is not None:
            return list(map(Row._make, zip(quick, t.lines, repeat(None, len(quick)), strict=True)))
        return self.one_by_one(t, problems)

    @staticmethod
    def one_by_one(t: Table, problems: Problems) -> list[Row]:
        """The rows of a table, each cell looked at alone, with what cannot be read added to the problems."""
        from curtilage.model.cells import one

        i = t.heads.index("id")
        found = []
        for row, line in zip(t.rows, t.lines, strict=True):
            name = f" ({row[i].strip()})" if row[i].strip() else ""
            cells = {h: (text, f, f"{t.name}:{line} column {h}{name}")
                     for h, text, f in zip(t.heads, row, t.factors, strict=True)}
            load = one(cells, f"{t.name}:{line}{name}", problems)
            if load:
                found.append(Row(load, line, None))
        return found

    def _changed_row(self, row: Row, problems: Problems) -> Row:
        from curtilage.model.cells import one

        t, name = self.table, row.load.id
        assert t is not None
        raw = next(r for r, line in zip(t.rows, t.lines, strict=True) if line == row.line)
        cells: dict[str, tuple[Any, Any, str]] = {h: (text, f, f"{t.name}:{row.line} column {h} ({name})")
                                                  for h, text, f in zip(t.heads, raw, t.factors, strict=True)}
        for column, (value, at) in self.changed[name].items():
            cells[column] = (value, None, f"{at.precise()} loads.{name}.{column}")
        load = one(cells, f"{t.name}:{row.line} ({name})", problems)
        return row._replace(load=load) if load else row


class Source(NamedTuple):
    """Everything an estate is built from."""
    tree: Map
    top: Place
    rows: Rows
    folder: Path | None
    digests: Mapping[str, str] = MappingProxyType({})          # file -> SHA-256 of its bytes when it was read


class Places:
    """Where each value of an estate was written: `estate.places["feeders.GH.breaker"]`."""

    def __init__(self, source: Source) -> None:
        self._source = source

    def __getitem__(self, path: str) -> Place:
        """The place of a path. A value that was left out has the place of its group. Raises `KeyError` for a foreign path."""
        head, _, rest = path.partition(".")
        if head == "loads" and rest:
            name, _, column = rest.partition(".")
            return self._source.rows.place(name, column or "id")
        found = locate(self._source.tree, path, self._source.top)
        if found is None:
            raise KeyError(path)
        return found

    def get(self, path: str) -> str:
        """The place as text, `loads.csv:36 column va` or `estate.yaml:120`; an empty text for a foreign path."""
        try:
            return str(self[path])
        except KeyError:
            return ""
