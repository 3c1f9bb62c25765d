"""Tables are CSV; a card beside each one says what it is, where it stands, who read it, and how far each cell was checked.

    table = Table.load("nec_310_16_ampacity")
    table.column("cu75")                     # texts, in the order of the rows
    table.status(3, "cu75")                  # "verified"

The card holds the hash of the data. A changed cell is refused until `stamp` has been run, which is done after the
change was checked against the source: `python tools/stamp_tables.py`.
"""
from __future__ import annotations

from collections import Counter
import csv
from functools import cache, cached_property
import hashlib
from pathlib import Path
import re
import tomllib
from typing import Any, NamedTuple

from curtilage.errors import CurtilageError

TABLES = Path(__file__).parent / "data" / "tables"
STATISTICS = TABLES.parent / "statistics"
LETTERS = {"v": "verified", "s": "seen once", "d": "derived", "c": "common practice", "m": "from memory", "x": "doubtful"}
_HASH = re.compile(r'^sha256 = "([0-9a-f]*)"$', re.M)


class Table:
    """One table: `heads` (names of the columns), `rows` (texts), and what its card says."""

    def __init__(self, path: Path) -> None:
        self.path, self.name = path, path.stem
        try:
            data = path.read_bytes()
            self.text = path.with_suffix(".toml").read_text(encoding="utf-8")
        except FileNotFoundError as e:
            raise CurtilageError(f"table {self.name}: {Path(e.filename).name} is missing in {path.parent.name}/; "
                                 f"a table needs both {path.name} and a card {self.name}.toml") from None
        self.digest = hashlib.sha256(data).hexdigest()
        if self.digest != _stamped(self.text):
            raise CurtilageError(f"table {self.name}: {path.name} changed after it was checked; check the changed cells against "
                                 f"{self.card.get('source', 'the source')}, then run tools/stamp_tables.py")
        self.heads, *self.rows = list(csv.reader(data.decode("utf-8").splitlines()))
        self._index = {head: i for i, head in enumerate(self.heads)}

    @classmethod
    def load(cls, name: str) -> Table:
        """A table of the package by its name."""
        return _load(TABLES / f"{name}.csv")

    @cached_property
    def card(self) -> dict[str, Any]:
        return tomllib.loads(self.text)

    def column(self, head: str) -> list[str]:
        """The texts of one column, row by row."""
        if head not in self._index:
            raise CurtilageError(f"table {self.name}: no column {head!r}; its columns are {', '.join(self.heads)}")
        i = self._index[head]
        return [row[i] for row in self.rows]

    def unit(self, head: str) -> str:
        return str(self.card["units"][head])

    @cached_property
    def _cells(self) -> list[str]:
        return [line.split()[-1] for line in self.card["cells"].splitlines()]

    def status(self, row: int, head: str) -> str:
        """How far one cell was checked."""
        if "status_column" in self.card:
            return self.rows[row][self._index[self.card["status_column"]]]
        return LETTERS.get(self._cells[row][self.card["columns"].index(head)], "")

    def counts(self) -> Counter[str]:
        """How many cells (rows, where a row has one status) have which status; empty cells are left out."""
        if "status_column" in self.card:
            return Counter(self.column(self.card["status_column"]))
        return Counter(LETTERS[letter] for line in self._cells for letter in line if letter in LETTERS)


@cache
def _load(path: Path) -> Table:
    return Table(path)


def _stamped(card: str) -> str:
    found = _HASH.search(card)
    return found.group(1) if found else ""


def names() -> list[str]:
    """Every table of the package."""
    return sorted(p.stem for p in TABLES.glob("*.csv"))


PROVENANCE = ("published", "derived", "from memory", "invented")


class Figure(NamedTuple):
    """One published or derived figure behind an expectation; never behind a code load."""
    ref: str
    quantity: str
    value: Any
    unit: str
    source: str
    provenance: str                 # published, derived, from memory or invented
    confidence: str = ""
    note: str = ""
    use: str = ""
    seen: str = ""                  # the page on which it was read
    read_in: str = ""               # where the source itself was not seen


@cache
def figures() -> dict[str, Figure]:
    """Every figure of `data/statistics` by its number: diversity, vehicles, voltage."""
    out: dict[str, Figure] = {}
    for path in sorted(STATISTICS.glob("*.toml")):
        for ref, said in tomllib.loads(path.read_text(encoding="utf-8")).items():
            out[ref] = Figure(ref, **said)
    return out


def stamp(folder: Path = TABLES) -> dict[str, str]:
    """New text for every card in a folder whose table changed, by path; the caller writes it."""
    out = {}
    for data in sorted(folder.glob("*.csv")):
        card = data.with_suffix(".toml")
        text = card.read_text(encoding="utf-8")
        digest = hashlib.sha256(data.read_bytes()).hexdigest()
        if _stamped(text) != digest:
            out[str(card)] = _HASH.sub(f'sha256 = "{digest}"', text)
    return out
