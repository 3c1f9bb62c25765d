"""What a reader may move of raceways and trenches: which one is looked at, and the trade size that is tried."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.design.works.laid import planned
from curtilage.notebook.frame import asked, marimo

if TYPE_CHECKING:
    from curtilage.design import Design

STANDS = "as it stands"


def raceways(d: Design) -> dict[str, str]:
    """What is offered -> raceway: those that the estate states, in their order."""
    return {f"{p.id}: {p.start} to {p.end}": p.id for p in planned(d) if p.stated is not None}


def raceway_input(d: Design) -> Any:
    """The raceway that is looked at; the first unless the address names another."""
    options, wanted = raceways(d), asked("raceway")
    chosen = next((label for label, name in options.items() if name == wanted), next(iter(options), None))
    return marimo().ui.dropdown(options, value=chosen, label="Raceway", searchable=True)


def size_input(d: Design, name: str) -> Any:
    """Trade size of one raceway, in."""
    d.works("raceway")
    r = d.items.get(f"raceway/{name}")
    p = next((p for p in planned(d) if p.id == name), None)
    if r is None or p is None:
        return marimo().ui.dropdown({STANDS: ""}, value=STANDS, label="Trade size, in")
    sizes = list(getattr(d.ed, f"raceway_inside_{p.kind}"))
    label = f"{STANDS}, {r.size}"
    return marimo().ui.dropdown({label: ""} | {size: size for size in sizes}, value=label, label="Trade size, in")


def trenches(d: Design) -> dict[str, str]:
    """What is offered -> trench."""
    graph = d.estate.site_graph
    return {f"{t.id}: {t.from_} to {t.to}": t.id for t in graph.trenches} if graph is not None else {}


def trench_input(d: Design) -> Any:
    """The trench that is drawn; the one with most ducts unless the address names another."""
    options, wanted = trenches(d), asked("trench")
    d.works("trench")
    full = max(options.values(), key=lambda t: d.items[f"trench/{t}"].needed if f"trench/{t}" in d.items else 0, default="")
    chosen = next((label for label, name in options.items() if name == (wanted or full)), next(iter(options), None))
    return marimo().ui.dropdown(options, value=chosen, label="Trench")


def changes(d: Design, name: str, size: str) -> dict[str, Any]:
    """What the inputs change in the estate, {path: value}."""
    d.works("raceway")
    r = d.items.get(f"raceway/{name}")
    return {f"raceways.{name}.size": size} if size and (r is None or size != r.size) else {}
