"""What each row contributes: how much a calculated load falls when the row is left out."""
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple


class Contribution(NamedTuple):
    """One row (or group, or manager) and what leaving it out takes off."""
    id: str
    marginal: float


def without(record: Any) -> Iterator[tuple[str, Any]]:
    """Every record that is `record` with one row left out, with the id of that row; records inside it are gone through too."""
    for name, field in zip(record._fields, record, strict=True):
        if hasattr(field, "_fields"):
            for row, less in without(field):
                yield row, record._replace(**{name: less})
        elif isinstance(field, tuple):
            for i, x in enumerate(field):
                yield x.id, record._replace(**{name: field[:i] + field[i + 1:]})


def contributions(load: Callable[[Any], float], record: Any) -> tuple[Contribution, ...]:
    """Marginal load of every row of a record, largest first: the load with all rows less the load without this one.

    `load` gives the number asked about, for example `lambda d: standard(d, ed).total`; results are in its unit. Marginal
    loads do not add up to the load: tiers, tables and the larger season make each row's worth depend on the others, and a
    row hidden behind a larger one is worth nothing. A row can even be worth less than nothing (the fourth appliance brings
    the factor for all four).
    """
    whole = load(record)
    found = (Contribution(row, whole - load(less)) for row, less in without(record))
    return tuple(sorted(found, key=lambda c: (-c.marginal, c.id)))
