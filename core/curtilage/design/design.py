"""Estate and edition in, design out. Every result is an item that can be run again, told."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.design import stages
from curtilage.design.ask import Ask
from curtilage.design.inputs import flat, unit_of, where
from curtilage.design.sort import HOMES
from curtilage.design.tree import Tree
from curtilage.design.tried import with_values
from curtilage.design.update import reach, with_row
from curtilage.design.way import Step, way
from curtilage.editions import Edition, TellingEdition
from curtilage.errors import CurtilageError, Problem, Problems, listed, nearest, refuse
from curtilage.values.bound import bound
from curtilage.values.check import Check
from curtilage.values.given import Given, units_of
from curtilage.values.lines import Unit
from curtilage.values.told import Told, item

if TYPE_CHECKING:
    from curtilage.design.assumptions import Assumption
    from curtilage.design.decisions import Standing
    from curtilage.model import Estate, Load
    from curtilage.review import Question, Stop


BESIDE = {"volts": "service.voltage", "wye": "service.phases", "two_of_wye": "service.phases"}
"""Where the fields of the record of the system were written."""


STALE = ("tree", "checks", "questions", "stops", "withheld", "assumptions", "decisions", "snapshot", "_telling")
"""What a design finds on demand and an updated one finds again."""


class Number(NamedTuple):
    """One number of a design: its tag, its value and the unit it is in ("" for a ratio, a size or a word)."""

    tag: str
    value: Any
    unit: str
    symbol: str


def local_layer(estate: Estate) -> Path | None:
    """The file of the local amendment that an estate names, in the folder beside it."""
    if not estate.local:
        return None
    return (estate.folder or Path()) / "amendments" / f"{estate.local}.toml"


class Design:
    """The whole design of an estate.

    `items` holds results by key ("feeder/GH", "demand/MH/optional", "circuit/L028"); a number of an item has a tag
    ("feeder/GH/drop"). Nothing is recorded while designing: `tell` runs one item again and `told` gives one number.
    With `swift`, methods are bound to the edition first: for many designs of one process.
    `variant` is the name under which pages show it; who opens a variant says so.
    What is built from the sizes (faults, grounds, raceways, exact voltages...) is worked when somebody looks: `works`.
    """

    variant: str = "base"

    def __init__(self, estate: Estate, edition: Edition | None = None, swift: bool = False) -> None:
        self.estate = estate
        self.ed = edition or Edition.load(estate.edition, local_layer(estate))
        self.volts = estate.service.voltage.line
        self.asks: dict[str, Ask] = {}
        self.items: dict[str, Any] = {}
        self.swift = swift
        self.chosen: dict[str, str] = {}  # feeder, main or service -> the item of its load
        self.by: dict[str, str] = {}  # rows that were changed after loading -> who says so
        self.tried: dict[str, str] = {}  # paths that were changed after loading -> who says so
        self.moved: dict[str, Any] = {}  # ... and to what
        self.late: dict[str, str] = {}  # key of an item that was worked when somebody looked -> "", or why it could not be
        self.ran: dict[str, tuple[str, ...]] = {}  # stages of `works` that have run -> keys of what they made
        self.working = ""  # the stage of `works` that is at work
        self.alone: list[str] = []  # late items that were worked for one feeder only (`design.works.alone`)
        self.known: dict[str, tuple[Ask, Any]] = {}  # late items of the design that this one was made from
        self._told: dict[str, Any] = {}
        self._bound: dict[tuple[Any, str], Callable[..., Any]] = {}  # with `swift`: methods bound to the edition and a view
        self.stages = stages.Stages(self)
        self.stages.run()

    @cached_property
    def tree(self) -> Tree:
        """What hangs under what."""
        return Tree(self.estate)

    # ---------------------------------------------------------------------------------------------- one row changed
    def with_row(self, changed: Load, by: str = "what-if") -> Design:
        """This design after one row of the load list changed; what does not rest on the row is kept."""
        return with_row(self, changed, by)

    @cached_property
    def reach(self) -> tuple[Mapping[str, list[str]], Mapping[str, list[str]]]:
        """Row -> items that hold it, item -> items that rest on it."""
        return reach(self)

    def with_values(self, changes: Mapping[str, Any], by: str = "what-if") -> Design:
        """This design with inputs stated otherwise, {"feeders.GH.length": "320 ft"}; what does not rest on them is kept."""
        return with_values(self, changes, by)

    def twin(self, changed: Load, by: str) -> Design:
        """A copy that shares every item, over an estate with one row replaced."""
        new = self.shared()
        new.by = {**self.by, changed.id: by}
        new.estate = self.estate.model_copy()
        new.estate._loads = tuple(changed if r.id == changed.id else r for r in self.estate.loads)
        new.stages = self.stages.of(new)
        return new

    def shared(self) -> Design:
        """A copy that shares every item but the late ones."""
        new: Design = object.__new__(Design)
        vars(new).update({k: v for k, v in vars(self).items() if k not in STALE} | {"reach": self.reach})
        new.asks = {k: a for k, a in self.asks.items() if k not in self.late}
        new.items = {k: x for k, x in self.items.items() if k not in self.late}
        new.known = self.known | {k: (self.asks[k], self.items[k]) for k, why in self.late.items() if not why}
        new.late, new.ran, new.working, new.alone, new._told = {}, {}, "", [], {}
        return new

    # ---------------------------------------------------------------------------------------------- running items
    def ask(self, key: str, ask: Ask) -> Any:
        """Run one item and keep how it was asked for."""
        self.asks[key] = ask
        method, further = ask.method, self._editions(ask, self.ed)
        if self.swift and ask.view:
            method = self._bound.get((method, ask.view)) or self._bind(ask)
        if ask.more or ask.besides:
            further = (*(m[1] for m in ask.more), *ask.besides, *further)
        try:
            found = method(ask.record, *further)
        except CurtilageError as e:
            raise Problems([Problem(f"{self.where(ask.path)} {ask.path}".strip(), str(e))]) from None
        self.items[key] = found
        return found

    def works(self, kind: str = "") -> None:
        """Work what is built from the sizes, once: faults, grounds, raceways, exact voltages (`design.works`).

        With a kind of item ("fault"), only what items of that kind rest on.
        """
        if kind not in self._early:
            from curtilage.design.works import run

            run(self, kind)

    @cached_property
    def _early(self) -> frozenset[str]:
        """Kinds of the items that a design is made of before anybody looks."""
        return frozenset(key.split("/")[0] for key in self.items if key not in self.late)

    def attempt(self, key: str, ask: Ask) -> Any:
        """Run one late item; where the method refuses, None, and `lacking` keeps its reason for the review."""
        if key in self.known and self.known[key][0] == ask:  # asked just so before one input was changed
            self.asks[key], self.items[key] = self.known[key]
            self.late[key] = ""
            return self.items[key]
        try:
            found = self.ask(key, ask)
        except Problems as e:
            self.asks.pop(key, None)
            self.lack(key, "; ".join(str(p) for p in e.items))
            return None
        self.late[key] = ""
        return found

    def lack(self, key: str, why: str) -> None:
        """Note that a late item has no result, and what is missing or wrong."""
        self.late[key] = why

    @property
    def lacking(self) -> Mapping[str, str]:
        """Late items without a result: key -> why. The review shows them as not evaluated."""
        self.works()
        return {key: why for key, why in self.late.items() if why}

    def _bind(self, ask: Ask) -> Callable[..., Any]:
        bind: Callable[..., Callable[..., Any]] = bound
        method = bind(ask.method, self.ed, None if ask.view == "ed" else self.ed.view(ask.view))
        self._bound[ask.method, ask.view] = method
        return method

    def _editions(self, ask: Ask, ed: Any) -> tuple[Any, ...]:
        if not ask.view:
            return ()
        return (ed if ask.view == "ed" else ed.view(ask.view),)

    @cached_property
    def _telling(self) -> TellingEdition:
        return TellingEdition(self.ed)

    def tell(self, key: str) -> Any:
        """One item run again, told: the same record, each field a `Told`."""
        if key not in self._told:
            if key not in self.asks:
                self.works(key.split("/")[0])
            ask = self.asks[key]
            told: Callable[..., Any] = ask.method.told  # type: ignore[attr-defined]
            more = [self._further(*m) for m in ask.more]
            beside = [Given(b, "service", self.where, None, BESIDE, HOMES) for b in ask.besides]
            self._told[key] = told(self._given(ask), *more, *beside, *self._editions(ask, self._telling), place=key)
        return self._told[key]

    def _given(self, ask: Ask) -> Given:
        put: dict[str, Any] = {}
        for field, tag in ask.tags.items():
            put[field] = (
                self._named(tag)
                if isinstance(tag, str)
                else tuple(self._part(part, ask.path, tag.get(part.id, {})) for part in getattr(ask.record, field))
            )
        home = HOMES.get(type(ask.record).__name__, {})
        paths = {field: p.format(id=ask.record.id) for field, p in home.items() if field} | dict(ask.paths)
        return Given(ask.record, ask.path, self.where, put, paths, HOMES)

    def _further(self, symbol: str, value: Any, unit: str, path: str) -> Told:
        if path.startswith("tag:"):
            return self._named(path.removeprefix("tag:"))
        return Told(symbol, value, unit, "given", place=path, where=self.where(path))

    def _part(self, part: Any, path: str, tags: Mapping[str, str]) -> Given:
        home = HOMES.get(type(part).__name__, {}).get("", f"{path}.{part.id}").format(id=part.id)
        paths = {field: tag.removeprefix("path:") for field, tag in tags.items() if tag.startswith("path:")}
        put = {field: self._named(tag) for field, tag in tags.items() if field not in paths}
        return Given(part, home, self.where, put, paths, HOMES)

    def _named(self, tag: str) -> Told:
        """A number of another item, or a rule of the edition, as an input."""
        if tag.startswith("rule:"):
            rule: Told = getattr(self._telling, tag.removeprefix("rule:"))
            return rule
        return item(self.told(tag), tag)

    # ---------------------------------------------------------------------------------------------- asking for numbers
    def has(self, tag: str) -> bool:
        """Whether there is a number of this tag."""
        key, _, field = tag.rpartition("/")
        if key not in self.items:
            self.works(key.split("/")[0])
        return key in self.items and field in self.items[key]._fields

    def told(self, tag: str) -> Told:
        """One number with everything behind it."""
        key, _, field = tag.rpartition("/")
        if not self.has(tag):
            self.refuse_tag(tag)
        found = getattr(self.tell(key), field)
        if not isinstance(found, Told):
            unit = self.unit(key, field)
            return Told(field, found, unit, "line", place=key)
        return found

    def value(self, tag: str) -> Any:
        """The bare value of one number that is there."""
        key, _, field = tag.rpartition("/")
        if key not in self.items:
            self.works(key.split("/")[0])
        return getattr(self.items[key], field)

    def number(self, tag: str) -> Number:
        """One number by its tag."""
        key, _, field = tag.rpartition("/")
        if not self.has(tag):
            self.refuse_tag(tag)
        return Number(tag, getattr(self.items[key], field), self.unit(key, field), field)

    def unit(self, key: str, field: str) -> str:
        """Unit of one field of an item."""
        unit = units_of(type(self.items[key]))[field]
        return unit.name if isinstance(unit, Unit) else ""

    def tags(self) -> Iterator[str]:
        """Every tag, in the order of design."""
        self.works()
        for key, record in self.items.items():
            for field in record._fields:
                if not isinstance(getattr(record, field), tuple):
                    yield f"{key}/{field}"

    def values(self) -> Mapping[str, Any]:
        """Every number by its tag."""
        return {tag: getattr(self.items[tag.rpartition("/")[0]], tag.rpartition("/")[2]) for tag in self.tags()}

    def refuse_tag(self, tag: str) -> None:
        """One clear error for a tag that does not exist, with those that come near."""
        tags = list(self.tags())
        inside = [t for t in tags if tag and tag in t]
        near = nearest(tag, tags)
        if inside:
            refuse(tag, "this is a part of a tag", f"it stands in {listed(inside, 20)}", "give one of them whole")
        refuse(
            tag,
            "there is no such number in this design",
            f"numbers are named such as {listed(tags[:3])}",
            f"did you mean {near}?" if near else "`curtilage design` prints the tags",
        )

    # ---------------------------------------------------------------------------------------------- the estate behind it
    def where(self, path: str) -> str:
        """The file, line and field in which an input was written."""
        head, _, rest = path.partition(".")
        if self.by and head == "loads" and rest.partition(".")[0] in self.by:
            return self.by[rest.partition(".")[0]]
        return self.tried.get(path) or where(self.estate, path)

    def inputs(self) -> Mapping[str, Any]:
        """Every input by its path."""
        return flat(self.estate) | {"edition": self.ed.name}

    def counted_in(self, name: str) -> str:
        """The unit of a number by its tag, or of an input by its path; empty where there is none."""
        return self.number(name).unit if self.has(name) else unit_of(self.estate, name)

    def limit(self, name: str) -> float:
        """A limit by the policy of the project, or that of common practice: "growth", "assumed_share", "feeder_drop"..."""
        own = getattr(self.estate.policy, name)
        rule = "drop_limit_" + name.removesuffix("_drop") if name.endswith("_drop") else name
        return float(getattr(self.ed, rule) if own is None else own)

    def standing(self, thing: str) -> str:
        """The structure at which a main or a panel stands."""
        return self.estate.structure_of(thing)

    def way(self, panel: str) -> tuple[Step, ...]:
        """Every bus, device and conductor between a panel and the transformer, with what it must carry and what it may."""
        return way(self, panel)

    @property
    def panels(self) -> tuple[str, ...]:
        """Panels in the order of the estate file."""
        return tuple(p.id for p in self.estate.panels)

    @cached_property
    def snapshot(self) -> str:
        """A short name for inputs, edition and package together."""
        from curtilage.design.record import snapshot

        return snapshot(self)

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Every check on this design, loud outcomes first."""
        from curtilage.review import review

        return review(self)

    @cached_property
    def questions(self) -> tuple[Question, ...]:
        """What the authority has to decide."""
        from curtilage.review import questions

        return questions(self.estate, self.checks)

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """What withholds results until somebody answers."""
        from curtilage.review import stops

        return stops(self)

    @cached_property
    def withheld(self) -> frozenset[str]:
        """Items whose numbers are not shown while a stop stands."""
        return frozenset(key for s in self.stops for key in s.withheld)

    @cached_property
    def assumptions(self) -> tuple[Assumption, ...]:
        """Every default, limit of practice and assumed row behind these numbers."""
        from curtilage.design.assumptions import assumptions

        return assumptions(self)

    @cached_property
    def decisions(self) -> tuple[Standing, ...]:
        """The recorded decisions, each held against the numbers of now."""
        from curtilage.design.decisions import decisions

        return decisions(self)

    @property
    def shares(self) -> Mapping[str, float]:
        """Share of the connected load by source of its figures, percent."""
        p = self.items["provenance"]
        return {"nameplate": p.nameplate, "submittal": p.submittal, "assumed": p.assumed}
