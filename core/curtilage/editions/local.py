"""A local amendment: one more layer of rules, in the user's folder, checked strictly before it is used.

    title = "Larkspur County ordinance 7 (invented)"
    amends = "nec2023"

    [unit_load]
    value = 3.5
    clause = "section 4"
    status = "verified"

A rule that is one value states `value`; one of tiers states `tiers`; one read from a table states the `cells` that
differ, by the key of the row (`cells = { "4-6" = 75 }`); a ladder of sizes states the sizes it goes `without`.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
import json
from pathlib import Path
import tomllib
from typing import Any

from curtilage.editions.layers import STATUSES, Layer, Rule
from curtilage.editions.shapes import row_names
from curtilage.errors import Problems, listed, nearest, refuse

STATES = {"value": "value", "tiers": "tiers", "bands": "cells", "rows": "cells", "ladder": "without"}
ALSO = ("clause", "status", "unit", "note")


def local_layer(base: Layer, local: Path | str | Mapping[str, Any]) -> Layer:
    """The amendment as a layer on `base`. Everything that is wrong with it is told at once."""
    if isinstance(local, Mapping):
        where, stem, said = "amendment", "local", dict(local)
        text = json.dumps(said, sort_keys=True, default=str)
    else:
        path = Path(local)
        where, stem, text = path.name, path.stem, _text(path)
        said = _parsed(text, where)
    problems = Problems()
    _heads(said, base, where, problems)
    for name, spec in said.items():
        if name not in ("title", "amends"):
            _rule(base, name, spec, f"{where}: {name}", problems)
    problems.stop()
    return Layer(f"{base.name}+{stem}", said["title"], base, {"local": text}, local=True, parsed={"local": said})


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        refuse(path.name, "cannot be read", "an amendment is a text file in TOML", "check the name and the folder")


def _parsed(text: str, where: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as e:
        refuse(where, f"not readable as TOML: {e}")


def _heads(said: Mapping[str, Any], base: Layer, where: str, problems: Problems) -> None:
    if not isinstance(said.get("title"), str) or not said["title"].strip():
        problems.add(f"{where}: title", "missing", "the document that amends, as it is cited", 'write title = "..."')
    if said.get("amends") != base.name:
        given = f"given {said['amends']!r}" if "amends" in said else "missing"
        problems.add(f"{where}: amends", given, f"the edition in force is {base.name}",
                     f'write amends = "{base.name}", or choose the other edition')


def _rule(base: Layer, name: str, spec: Any, where: str, problems: Problems) -> None:
    if not base.states(name):
        problems.add(where, f"{base.title} has no such rule", mend=_meant(name, base.names()))
        return
    rule = base.rule(name)
    if not isinstance(spec, Mapping):
        problems.add(where, f"given {spec!r}", f"a table with {STATES.get(rule.shape, 'value')}, clause and status")
        return
    if rule.shape not in STATES:
        problems.add(where, "cannot be amended", "only values, tiers, bands, rows and ladders can")
        return
    wanted = STATES[rule.shape]
    for key in spec:
        if key not in (wanted, *ALSO):
            problems.add(f"{where}.{key}", "unknown key", f"allowed are {listed((wanted, *ALSO))}", _meant(key, (wanted, *ALSO)))
    if wanted not in spec:
        problems.add(where, f"states no {wanted}", f"this rule is {_KIND[rule.shape]}, so an amendment states its {wanted}")
    else:
        _CHECK[wanted](rule, spec[wanted], f"{where}.{wanted}", problems)
    _source(rule, spec, where, problems)


def _source(rule: Rule, spec: Mapping[str, Any], where: str, problems: Problems) -> None:
    if not isinstance(spec.get("clause"), str) or not spec["clause"].strip():
        problems.add(f"{where}.clause", "missing", "the clause of the amending document", 'write clause = "..."')
    if spec.get("status") not in STATUSES:
        given = f"given {spec['status']!r}" if "status" in spec else "missing"
        problems.add(f"{where}.status", given, f"allowed are {listed(STATUSES)}")
    if "unit" in spec and spec["unit"] != rule.unit:
        problems.add(f"{where}.unit", f"given {spec['unit']!r}", f"this rule is in {rule.unit or 'no unit'}", "convert the value")


def _meant(word: str, known: Iterable[str]) -> str:
    near = nearest(word, known)
    return f"did you mean {near}?" if near else ""


def _kind(x: Any) -> str:
    return "yes or no" if isinstance(x, bool) else "a number" if isinstance(x, int | float) else "text"


def _value(rule: Rule, x: Any, where: str, problems: Problems) -> None:
    if isinstance(x, list | dict) or _kind(x) != _kind(rule.spec["value"]):
        problems.add(where, f"given {x!r}", f"{_kind(rule.spec['value'])} in {rule.unit}".removesuffix(" in "))


def _tiers(rule: Rule, x: Any, where: str, problems: Problems) -> None:
    pairs = isinstance(x, list) and all(
        isinstance(p, list) and len(p) == 2 and all(isinstance(n, int | float) for n in p) for p in x)
    if not pairs or not x or any(b[0] <= a[0] for a, b in pairwise(x)):
        problems.add(where, f"given {x!r}", "rising pairs of limit and factor", "for example tiers = [[3000, 1.0], [inf, 0.35]]")


def _cells(rule: Rule, x: Any, where: str, problems: Problems) -> None:
    if not isinstance(x, Mapping) or not x:
        problems.add(where, f"given {x!r}", "rows and their values", 'for example { "4/0" = 205 }')
        return
    known = row_names(rule)
    for key, cell in x.items():
        if key not in known:
            problems.add(f"{where}.{key}", "the table has no such row", f"its rows are {listed(known)}", _meant(str(key), known))
        if isinstance(cell, bool) or isinstance(cell, str) != (rule.unit == "size"):
            wanted = "a conductor size in quotes" if rule.unit == "size" else "a number as the table prints it"
            problems.add(f"{where}.{key}", f"given {cell!r}", wanted)


def _without(rule: Rule, x: Any, where: str, problems: Problems) -> None:
    known = {float(k) for k in row_names(rule)}
    if not isinstance(x, list) or any(isinstance(n, bool) or not isinstance(n, int | float) or float(n) not in known for n in x):
        problems.add(where, f"given {x!r}", "a list of sizes that the ladder has")


_KIND = {"value": "one value", "tiers": "tiers", "bands": "read from a table of bands", "rows": "read from a table",
         "ladder": "a ladder of sizes"}
_CHECK = {"value": _value, "tiers": _tiers, "cells": _cells, "without": _without}
