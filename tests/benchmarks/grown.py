"""An estate n times over: every structure, panel, feeder, main, trench and load n times, on one service."""
from __future__ import annotations

from typing import Any

from curtilage.model import Estate


def grown(estate: Estate, n: int) -> Estate:
    """The same gear and n times the lateral, with n copies of all that hangs on them; a copy is not checked again."""
    gear, lateral = estate.service.gear.structure, estate.service.lateral

    def named(name: str, k: int) -> str:
        return f"{name}_{k}" if name and k else name

    def placed(name: str, k: int) -> str:
        return name if name == gear else named(name, k)

    def copy(x: Any, k: int, *things: str, at: tuple[str, ...] = ()) -> Any:
        update = {f: named(getattr(x, f), k) for f in ("id", *things)} | {f: placed(getattr(x, f), k) for f in at}
        return x.model_copy(update=update)

    copies = range(n)
    graph = estate.site_graph
    if graph is not None:
        graph = graph.model_copy(update={
            "nodes": {placed(name, k): place for k in copies for name, place in graph.nodes.items()},
            "trenches": tuple(copy(t, k, at=("from_", "to")) for k in copies for t in graph.trenches)})
    service = estate.service.model_copy(update={
        "lateral": lateral.model_copy(update={"sets": (lateral.sets or 1) * n}),
        "mains": tuple(copy(m, k) for k in copies for m in estate.service.mains)})
    new = estate.model_copy(update={
        "service": service, "site_graph": graph,
        "structures": tuple(copy(s, k) for k in copies for s in estate.structures if not k or s.id != gear),
        "panels": tuple(copy(p, k, at=("structure",)) for k in copies for p in estate.panels),
        "feeders": tuple(copy(f, k, "from_", "to") for k in copies for f in estate.feeders),
        "groups": tuple(copy(g, k) for k in copies for g in estate.groups),
        "managers": tuple(copy(m, k, "at") for k in copies for m in estate.managers)})
    new._loads = tuple(r._replace(id=named(r.id, k), structure=placed(r.structure, k), panel=named(r.panel, k),
                                  manager=named(r.manager, k), group=named(r.group, k)) for k in copies for r in estate.loads)
    return new
