"""What a method of the reference room is: its keys, its results, and the adapter that runs it."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given, Where
from curtilage.values.told import Told

REQUIRED = object()
COUNT, NUMBER, WORDS, SIZE, FLAG = "count", "number", "words", "size", "yes/no"      # what is not a quantity


class Key(NamedTuple):
    """One key of [given]. `unit` is a unit ('VA', 'ft') or one of count, number, words, size, yes/no.

    A key with `many` takes a list; of quantities, of rows { rating = ..., qty = ... }, or of rows with the keys of `row`.
    """
    name: str
    unit: str
    about: str
    default: Any = REQUIRED
    many: bool = False
    choices: tuple[str, ...] = ()
    row: tuple[Key, ...] = ()
    line: str = ""                # the unit of lines of a bare number, where it has one: K in ohm cmil/ft
    like: str = ""                # how a value is written, where the kind alone does not show it

    @property
    def told(self) -> str:
        """The unit in which a calculation line sees the value."""
        return self.line or {NUMBER: "", WORDS: "text"}.get(self.unit, self.unit)


class Result(NamedTuple):
    """One named result; `unit` as for lines of a method, or words, size, yes/no."""
    name: str
    unit: str
    about: str


class Run(NamedTuple):
    """What an adapter is given beside the told values: the bare values, the edition, the place of each key."""
    bare: Any
    edition: Edition
    where: Where

    def telling(self) -> TellingEdition:
        """The edition in the form that answers told."""
        return TellingEdition(self.edition)

    def record(self, record: Any, name: str = "given", put: Mapping[str, Any] | None = None) -> Any:
        """A record of a method seen told: its leaves know the file and line."""
        return Given(record, name, self.where, put)


Adapter = Callable[[Any, Run], Mapping[str, Told]]          # (told values by key, run) -> results by name


class Method(NamedTuple):
    """A public name, what it does, what it takes, what it gives."""
    name: str
    about: str
    keys: tuple[Key, ...]
    results: tuple[Result, ...]
    adapter: Adapter
    notes: str = ""               # for the list in the README

    def result(self, name: str) -> Result | None:
        return next((r for r in self.results if r.name == name), None)
