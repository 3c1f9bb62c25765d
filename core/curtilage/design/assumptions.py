"""The register of assumptions: every default that stands in a result, every limit taken from practice, every assumed row."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from pydantic import BaseModel

if TYPE_CHECKING:
    from curtilage.design.design import Design

IN_USE = ("basis", "policy", "service", "site", "feeders")
"""Parts of the estate whose defaults reach a result of this design."""

WORDS = ("use",)
"""Fields that say what a thing is for and change no number."""


class Assumption(NamedTuple):
    """One thing that nobody stated, what stands in its place, and on whose word."""

    what: str
    value: str
    source: str
    review: str = ""


def assumptions(d: Design) -> tuple[Assumption, ...]:
    """Defaults of the form, limits of common practice, and rows whose figures are assumed or rest on no named document."""
    return (*_limits(d), *_defaults(d), *_readings(d), *_network(d), *_rows(d))


def _limits(d: Design) -> Iterator[Assumption]:
    """Limits that the project did not set."""
    drops = ((f"{n}_drop", f"drop_limit_{n}") for n in ("feeder", "branch", "total"))
    for name, rule in (*drops, ("growth", "growth"), ("assumed_share", "assumed_share")):
        if getattr(d.estate.policy, name) is None:
            r = d.ed.rule(rule)
            yield Assumption(
                f"policy.{name}", f"{getattr(d.ed, rule):g} {r.unit}", f"{r.where} [{r.status}]", "state it under policy"
            )


def _defaults(d: Design) -> Iterator[Assumption]:
    """Fields with a default that nobody wrote."""
    for name in IN_USE:
        yield from _walk(name, getattr(d.estate, name))


def _walk(path: str, x: Any) -> Iterator[Assumption]:
    if isinstance(x, BaseModel):
        for name, info in type(x).model_fields.items():
            value = getattr(x, name)
            if isinstance(value, BaseModel | tuple):
                yield from _walk(f"{path}.{name.rstrip('_')}", value)
            elif name not in x.model_fields_set and value not in (None, "", False, ()) and name not in WORDS:
                unit = (info.description or "").rpartition("[")[2].rstrip("]") if "[" in (info.description or "") else ""
                of = unit or ("in number" if isinstance(value, int) else "as a ratio")
                shown = f"{value:g} {of}" if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
                yield Assumption(
                    f"{path}.{name.rstrip('_')}", shown, "default of the form: " + (info.description or "").split(" [")[0]
                )
    elif isinstance(x, tuple):
        for i, item in enumerate(x):
            yield from _walk(f"{path}.{getattr(item, 'id', i)}", item)


def _readings(d: Design) -> Iterator[Assumption]:
    """What a feeder takes where the estate is silent."""
    silent = [f.id for f in d.estate.feeders if f.conductors is None]
    if silent:
        yield Assumption(
            "feeders.conductors",
            "2 current-carrying conductors in each raceway",
            "310.15(E): the neutral of a single-phase three-wire feeder carries the unbalance only and is not counted",
            "state conductors where a raceway holds more",
        )
    if d.estate.site.soil is not None:
        yield Assumption(
            "feeders.ambient",
            f"{d.estate.site.ambient:.1f} degC",
            "the ambient of the site stands for the run, though the soil may be cooler",
        )


def _network(d: Design) -> Iterator[Assumption]:
    """What the exact voltages take of the load: no row says its leg yet, and no calculation says what runs together."""
    yield Assumption(
        "network.legs",
        "120 V circuits take L1 and L2 in turn, panel by panel in the order of the names of rows",
        "common practice: poles are not assigned yet",
        "assign poles, then look at the voltages of both legs again",
    )
    yield Assumption(
        "network.load",
        "every row behind a feeder of the service draws the same part of its connected load, so that the feeder carries its "
        "calculated load; all of these feeders at once, the load of a panel drawn at the panel",
        "common practice: on the safe side for the service conductors and the transformer",
    )


def _rows(d: Design) -> Iterator[Assumption]:
    """Rows of the load list that rest on no document, largest first; then those that claim one and do not name it."""
    for r in sorted((r for r in d.tree.rows if r.source in ("", "assumed")), key=lambda r: (-r.va, r.id)):
        yield Assumption(
            f"loads.{r.id}", f"{r.load}, {r.va:,.0f} VA", "assumed" if r.source else "source not stated", "ask for the nameplate"
        )
    for r in sorted((r for r in d.tree.rows if r.source not in ("", "assumed") and not r.document), key=lambda r: (-r.va, r.id)):
        yield Assumption(
            f"loads.{r.id}", f"{r.load}, {r.va:,.0f} VA", f"{r.source}, but no document is named", "name the document"
        )
