"""The told chain of fault currents, panel by panel, against all nodes at once: two ways through the same impedances."""
from __future__ import annotations

from functools import cache

from curtilage.calc.network.faults import faults
from curtilage.calc.network.records import Branch, Faults, Source
from curtilage.calc.network.tree import Network
from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.works.network import Fed
import pytest


@cache
def design(variant: str) -> Design:
    d = Design(estate("demo_estate", [variant]))
    d.works("fault")
    return d


def at_once(d: Design, cold: str) -> dict[str, tuple[float, float, float]]:
    """Every node of the network of a design, with conductors warm, or cold as for the largest fault."""
    t = d.items["transformer"]
    source = Source(d.volts / 2, t.r_source + t.r_primary, t.x_source + t.x_primary, t.r_secondary, t.x_secondary)
    branches = []
    for node, key in Fed(d).wire.items():
        w = d.items[key]
        back = "ground" if hasattr(w, "r_ground") else "neutral"
        start = "" if key == "wire/lateral" else Fed(d).start[node]
        branches.append(Branch(node, start, getattr(w, f"r_line{cold}"), w.x_line, getattr(w, f"r_neutral{cold}"), w.x_neutral,
                               getattr(w, f"r_{back}"), getattr(w, f"x_{back}")))
    found: Faults = faults(Network(source, branches))
    return dict(zip((b.id for b in branches), zip(*(x.tolist() for x in found), strict=True), strict=True))


@pytest.mark.parametrize("variant", ["base", "as_found", "R01"])
def test_told_and_vector(variant: str) -> None:
    d = design(variant)
    cold, warm = at_once(d, "_cold"), at_once(d, "")
    assert len(cold) > 15
    for node in cold:
        told = d.items[f"fault/{node}"]
        assert told.ll == pytest.approx(cold[node][0], rel=1e-12, abs=0)
        assert told.ln == pytest.approx(cold[node][1], rel=1e-12, abs=0)
        assert told.ll_least == pytest.approx(warm[node][0], rel=1e-12, abs=0)
        assert told.ln_least == pytest.approx(warm[node][1], rel=1e-12, abs=0)
        assert told.lg == pytest.approx(warm[node][2], rel=1e-12, abs=0)
