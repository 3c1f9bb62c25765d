"""The results that a page opens with: a number, its outcome, its limit and margin, its clause and how well that was checked."""
from __future__ import annotations

from typing import TYPE_CHECKING

from curtilage.look.components import Result
from curtilage.report import content as c
from curtilage.report import loads
from curtilage.report.content import Num
from curtilage.values.told import TRUST, Told, walk

if TYPE_CHECKING:
    from curtilage.design.design import Design


ADVICE = "210.19, 215.2, informational notes"
"""Where the code recommends limits of voltage drop; it does not require them."""


def status(told: Told) -> str:
    """The least-checked source behind a number, down to the numbers of other items."""
    return max((x.cite.status for x in walk(told, deep=False)), key=TRUST.index)


def result(d: Design, tag: str, name: str, outcome: str, where: str, limit: Num | None = None, sense: str = "max",
            standing: str = "code", detail: str = "", limit_words: str = "", told: bool = True) -> Result:
    """One result. Without `told` it does not say how well its sources were checked: that takes its whole working."""
    n = c.num(d, tag)
    value = float(n.value) if isinstance(n.value, int | float) and not isinstance(n.value, bool) else None
    limit = limit if limit is not None and limit.shown else None          # a limit may be withheld too
    most = float(limit.value) if limit is not None else None
    words = limit_words or (f"{limit.shown} {limit.unit}" if limit is not None else "")
    if not n.shown:
        outcome, detail = "not evaluated", "withheld by a stop"
    checked = status(d.told(tag)) if told else ""
    return Result(name, n.shown, n.unit, outcome, where, standing, checked, value, most, sense, words, detail, tag=tag)


def first(d: Design) -> list[Result]:
    """Mains, service conductors, the worst feeder and the worst outlet."""
    out = []
    for key in c.keys(d, "main"):
        ok = "passes" if d.items[key].rating_ok else "fails"
        out.append(result(d, f"{key}/minimum", f"Main {key.split('/')[1]}, minimum rating", ok, _clause(d, "036"),
                           c.num(d, f"{key}/rating"), detail="load with what counts as continuous in it at 125 %"))
    if "service" in d.items:
        s = d.items["service"]
        ok = "passes" if s.carries_ok and s.protected and s.parallel_ok else "fails"
        out.append(result(d, "service/required", "Service conductors, ampacity asked for", ok, _clause(d, "038"),
                           c.num(d, "service/ampacity"), detail=str(s.rule)))
        least = c.num(d, "service/ampacity") if s.minimum <= s.ampacity else None      # before factors: 230.42(A)(1)
        out.append(result(d, "service/minimum", "Service conductors, minimum with 125 %", ok, _clause(d, "065"), least,
                           detail="load with what counts as continuous in it at 125 %"))
    out += _worst_feeder(d)
    paths = c.keys(d, "path")
    if paths:
        key = max(paths, key=lambda k: float(d.items[k].total))
        r = d.items[key]
        ok = "passes" if r.total_ok else "fails"
        limit = d.asks[key].record.total_limit
        out.append(result(d, f"{key}/total", f"Largest drop to an outlet, panel {key.split('/')[1]}", ok, ADVICE,
                           Num("", f"{limit:g}", "%", limit), standing="practice", detail="a recommendation, kept as policy"))
    return out


def _worst_feeder(d: Design) -> list[Result]:
    found = c.keys(d, "feeder")
    if not found:
        return []
    key = max(found, key=lambda k: float(d.items[k].drop))
    limit = d.asks[key].record.drop_limit
    ok = "passes" if d.items[key].drop_ok else "fails"
    return [result(d, f"{key}/drop", f"Largest drop of a feeder, {key.split('/')[1]}", ok, ADVICE,
                    Num("", f"{limit:g}", "%", limit), standing="practice", detail="a recommendation, kept as policy")]


def _clause(d: Design, number: str) -> str:
    """The clause of a check, as the review names it in this edition."""
    return next((check.clause for check in d.checks if check.number == number), "")


OTHERS = {"service": "service conductors", "expected": "the whole estate", "provenance": "rows by the source of their figures"}


def title(d: Design, key: str) -> str:
    """What an item is about, in words."""
    kind, _, rest = key.partition("/")
    if kind in ("circuit", "each"):
        row = next((r for r in d.estate.loads if r.id == rest), None)
        return f"{row.load}, panel {row.panel}" if row is not None else ""
    if kind == "demand":
        name, _, method = rest.partition("/")
        return f"{c.branch_title(d, name)}: {loads.METHODS.get(method, method)}"
    if kind == "path":
        return c.panel_structure(d, rest)
    if kind in ("feeder", "neutral", "neutral_load", "route", "main", "growth"):
        return c.branch_title(d, rest)
    return OTHERS.get(kind, "") or _place(d, rest.split("/")[0])


def _place(d: Design, name: str) -> str:
    """What a name stands for: a feeder, a row of the load list, a panel, a structure; nothing where it is none of these."""
    if any(f.id == name for f in d.estate.feeders):
        return c.feeder_title(d, name)
    row = next((r for r in d.estate.loads if r.id == name), None)
    if row is not None:
        return f"{row.load}, panel {row.panel}"
    return c.panel_structure(d, name) or next((s.name for s in d.estate.structures if s.id == name), "")
