"""Layers of rules: an edition states only what it changes, and extends another; a local amendment is one more layer.

An edition is a folder of TOML files split by topic. Every top-level key is a rule, but for `views`:

    unit_load = { value = 3.0, unit = "VA/ft2", clause = "220.41", status = "seen once" }

`edition.toml` has the title, what it extends, and the word printed beside rules it takes over unread (`carried`).
"""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
import difflib
from functools import cache, cached_property
import hashlib
from pathlib import Path
import re
import tomllib
from typing import Any

from curtilage.errors import CurtilageError
from curtilage.values.told import TRUST

EDITIONS = Path(__file__).parent.parent / "data" / "editions"
SHAPES = ("value", "tiers", "bands", "ladder", "rows", "grid")
STATUSES = TRUST[1:]
# what belongs to a shape, and goes when a later layer states another shape
OF_SHAPE = (*SHAPES, "key", "column", "columns", "scale", "strip", "below", "without", "rest", "rest_of", "down", "as", "through",
            "cells")
OF_VALUE = ("note", "status", "document")
RESERVED = ("views", "title", "amends")


@dataclass(frozen=True)
class Rule:
    """One rule after all layers: what it says (`spec`), and where the value and the clause were last stated."""
    name: str
    spec: dict[str, Any]
    document: str
    layer: str                      # the layer that stated the value
    carried: str = ""               # what the newest edition says about rules taken over from an older one
    under: Rule | None = None       # what a local layer amends

    @property
    def shape(self) -> str:
        return next(k for k in SHAPES if k in self.spec)

    @property
    def unit(self) -> str:
        return str(self.spec.get("unit", ""))

    @property
    def clause(self) -> str:
        return str(self.spec.get("clause", ""))

    @property
    def status(self) -> str:
        """The status of the rule itself; rows of a table have their own."""
        return str(self.spec.get("status", ""))

    @property
    def note(self) -> str:
        return str(self.spec.get("note", ""))

    @property
    def where(self) -> str:
        """Document and clause, with what is not certain about them in parentheses."""
        doubts = [str(self.spec[k]) for k in ("numbering",) if self.spec.get(k)] + [self.carried] * bool(self.carried)
        return f"{self.document} {self.clause}".strip() + (f" ({', '.join(doubts)})" if doubts else "")


@dataclass
class Layer:
    """One edition's own statements, topic by topic; a topic is parsed when one of its rules is asked for."""
    name: str
    title: str
    base: Layer | None
    topics: dict[str, str]                                  # topic: text
    carried: str = ""
    local: bool = False
    parsed: dict[str, dict[str, Any]] = field(default_factory=dict)

    def topic(self, name: str) -> dict[str, Any]:
        if name not in self.parsed:
            try:
                self.parsed[name] = tomllib.loads(self.topics[name])
            except tomllib.TOMLDecodeError as e:
                raise CurtilageError(f"{self.name}/{name}.toml: not readable as TOML: {e}") from None
        return self.parsed[name]

    def own(self, rule: str) -> dict[str, Any] | None:
        """What this layer itself says about a rule."""
        stated = re.compile(rf"^(?:\[)?{re.escape(rule)}[\]. =]", re.M)
        for name, text in self.topics.items():
            if (self.local or stated.search(text)) and rule in (found := self.topic(name)):
                return dict(found[rule])
        return None

    def chain(self) -> Iterator[Layer]:
        """This layer and those below it, oldest first."""
        if self.base is not None:
            yield from self.base.chain()
        yield self

    @cached_property
    def digest(self) -> str:
        """The state of all rules down to the base, for a frozen record."""
        text = "\0".join(f"{layer.name}\0{k}\0{layer.topics[k]}" for layer in self.chain() for k in sorted(layer.topics))
        return hashlib.sha256(text.encode()).hexdigest()

    def names(self) -> list[str]:
        """Every rule down to the base, in the order of their first statement."""
        return list(dict.fromkeys(rule for layer in self.chain() for topic in layer.topics
                                  for rule in layer.topic(topic) if rule not in RESERVED))

    def views(self) -> dict[str, dict[str, Any]]:
        out: dict[str, dict[str, Any]] = {}
        for layer in self.chain():
            for topic, text in layer.topics.items():
                if "[views" in text:
                    for name, view in layer.topic(topic).get("views", {}).items():
                        out[name] = {**out.get(name, {}), **view}
        return out

    def rule(self, name: str) -> Rule:
        """The rule after all layers."""
        under = self.base.rule(name) if self.base is not None and self.base.states(name) else None
        new = self.own(name)
        if new is None:
            if under is None:
                raise no_rule(self, name)
            return under if self.local else replace(under, document=self._document(under), carried=self._carried(under))
        if under is None or any(k in new for k in SHAPES):
            old = {} if under is None else under.spec
            spec, layer = {**{k: v for k, v in old.items() if k not in (*OF_SHAPE, *OF_VALUE)}, **new}, self.name
        else:
            spec, layer = {**under.spec, **new}, self.name if any(k in new for k in OF_SHAPE) else under.layer
        if "clause" in new and "numbering" not in new:
            spec.pop("numbering", None)
        rule = Rule(name, spec, self.title, layer, under=under if self.local else None)
        return replace(rule, document=self._document(rule), carried=self._carried(rule))

    def states(self, name: str) -> bool:
        """Whether this layer or one below it states the rule."""
        return any(layer.own(name) is not None for layer in self.chain())

    def _document(self, rule: Rule) -> str:
        return str(rule.spec.get("document", self.title))

    def _carried(self, rule: Rule) -> str:
        return "" if rule.layer == self.name or "document" in rule.spec else self.carried


class NoRule(CurtilageError, AttributeError):
    """A rule that no layer states."""


def no_rule(layer: Layer, name: str) -> NoRule:
    near = difflib.get_close_matches(name, layer.names(), 1)
    return NoRule(f"{layer.title}: no rule {name!r}" + (f"; did you mean {near[0]}?" if near else ""))


def editions() -> list[str]:
    """The names of the editions that come with the package, oldest first."""
    found = {p.parent.name: read(p.parent.name) for p in EDITIONS.glob("*/edition.toml")}
    return sorted(found, key=lambda name: len(list(found[name].chain())))


@cache
def read(name: str) -> Layer:
    """The newest layer of an edition of the package."""
    folder = EDITIONS / name
    known = sorted(p.parent.name for p in EDITIONS.glob("*/edition.toml"))
    if name not in known:
        near = [] if re.fullmatch("nec[0-9]{4}", name) else difflib.get_close_matches(name, known, 1)    # a year is no slip
        raise CurtilageError(f"edition: no {name!r}; the editions are {', '.join(known)}" +
                             (f"; did you mean {near[0]}?" if near else ""))
    texts = {p.stem: p.read_text(encoding="utf-8") for p in sorted(folder.glob("*.toml"))}
    head = tomllib.loads(texts.pop("edition"))
    base = read(head["extends"]) if "extends" in head else None
    return Layer(name, head["title"], base, texts, head.get("carried", ""))
