"""Other arrangements of the service, each a whole design of its own: worked when somebody asks, because that takes a while."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.calc.utility.arrangement import Laid_out, arrangement
from curtilage.design.ask import Ask
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.service import Option
    from curtilage.values.check import Check

DRAWN = "drawn"
"""The arrangement of the design itself."""


class Laid(NamedTuple):
    """One arrangement: a design of its own with the item `arrangement/NAME`, or why it cannot be worked.

    `failed`: checks that fail or were not evaluated in it and not in the design as drawn.
    """

    name: str
    title: str
    design: Design | None
    why: str
    failed: tuple[Check, ...]

    @property
    def key(self) -> str:
        """The key of its figures in its design."""
        return f"arrangement/{self.name}"


def arrangements(d: Design) -> Iterator[Laid]:
    """The design as drawn, then every option of `service.options`, one after another."""
    bad = ("fails", "not evaluated")
    drawn = {(c.number, c.subject) for c in d.checks if c.outcome in bad}
    yield laid(type(d)(d.estate, d.ed, d.swift), DRAWN, "as drawn", ())
    for o in d.estate.service.options:
        try:
            new = redesigned(d, o)
        except CurtilageError as e:
            yield Laid(o.id, o.title, None, str(e), ())
            continue
        failed = tuple(c for c in new.checks if c.outcome in bad and (c.number, c.subject) not in drawn)
        yield laid(new, o.id, o.title, failed)


def redesigned(d: Design, o: Option) -> Design:
    """A whole design of the same estate with the mains of an option. Raises `CurtilageError`."""
    missing = {f.id for f in d.estate.feeders if f.from_ in {m.id for m in d.estate.service.mains}}
    for m in o.mains:
        missing -= set(m.feeders)
    if missing:
        names = ", ".join(sorted(missing))
        raise CurtilageError(f"service.options.{o.id}: {names} would hang on no main; name every feeder of the mains")
    mains = [{"id": m.id} | ({"rating": f"{m.rating:g} A"} if m.rating else {}) for m in o.mains]
    sets: dict[str, Any] = {"service.mains": mains} | {f"feeders.{f}.from": m.id for m in o.mains for f in m.feeders}
    if o.material:
        sets["service.lateral.material"] = o.material
    lateral, remove = d.estate.service.lateral, []
    for field, value in (("sets", o.sets), ("size", o.size)):
        if value is not None:
            sets[f"service.lateral.{field}"] = value
        elif getattr(lateral, field) is not None:
            remove.append(f"service.lateral.{field}")
    estate = d.estate.with_(sets, remove=remove, by=f"option {o.id}")
    return type(d)(estate, d.ed, d.swift)


def laid(d: Design, name: str, title: str, failed: tuple[Check, ...]) -> Laid:
    """The figures of one arrangement, asked for in its own design."""
    key = f"arrangement/{name}"
    why = lacks(d)
    if why:
        return Laid(name, title, None, why, failed)
    s, mains = d.items["service"], d.estate.service.mains
    tags = {"sets": "service/sets", "size": "service/size", "neutral": "service/neutral", "r_line": "wire/lateral/r_line"}
    tags |= {"ampacity": "service/ampacity", "current": "service/current", "expected": "expected/kva", "rating": "service/rating"}
    paths = {"length": "service.lateral.length", "volts": "service.voltage", "load_factor": "service.load_factor"}
    paths |= {"mains": "service.mains", "largest": "service.mains"}
    largest = max(max(d.items[f"main/{m.id}"].rating, m.highest_setting or 0.0) for m in mains if f"main/{m.id}" in d.items)
    record = Laid_out(
        name,
        s.sets,
        s.size,
        s.neutral,
        d.estate.service.lateral.length,
        d.items["wire/lateral"].r_line,
        s.ampacity,
        s.current,
        d.volts,
        d.items["expected"].kva,
        d.estate.service.load_factor or 0.0,
        float(len(mains)),
        s.rating,
        largest,
    )
    found = d.attempt(key, Ask(arrangement, record, "service.lateral", d.asks["service"].view, paths, tags))
    return Laid(name, title, d if found is not None else None, d.late.get(key, ""), failed)


def lacks(d: Design) -> str:
    """What is missing for the figures."""
    d.works()
    if d.estate.service.load_factor is None:
        return "the load factor of the service (service.load_factor)"
    missing = [k for k in ("wire/lateral", "expected") if k not in d.items]
    return d.late.get(missing[0], f"{missing[0]} is not known") if missing else ""
