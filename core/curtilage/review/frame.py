"""Edition, signature, sources of the figures, recorded decisions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 001, 002, 004, 035."""
    e = d.estate
    if e.amendments or e.local:
        yield ask("001", "estate", True, f"{d.ed.title}; amendments: {e.amendments or e.local}")
    else:
        yield ask("001", "estate", "not evaluated", f"{d.ed.title}", "whether the place amends the code")
    yield signature(d, ask)
    yield from decided(d, ask)
    p = d.items["provenance"]
    tags = ("provenance/assumed",)
    yield ask(
        "004",
        "estate",
        p.assumed <= d.limit("assumed_share"),
        f"{p.assumed:.1f} % of connected load is assumed; policy at most {d.limit('assumed_share'):g} %",
        tags=tags,
    )


def signature(d: Design, ask: Asker) -> Check:
    """Who may sign, by the threshold that the authority stated."""
    a, largest = (
        d.estate.authority,
        max((d.items[f"main/{m}"].rating for m in d.tree.mains if f"main/{m}" in d.items), default=0.0),
    )
    if a.signature_above is None:
        return ask(
            "002",
            "estate",
            "not evaluated",
            f"largest main {largest:g} A",
            "the rating above which the authority asks for a seal",
        )
    said = f"largest main {largest:g} A; a seal is asked for above {a.signature_above:g} A"
    if largest <= a.signature_above:
        return ask("002", "estate", True, said)
    if d.estate.prepared.license:
        return ask("002", "estate", "attested", f"{said}; {d.estate.prepared.by}, {d.estate.prepared.license}")
    return ask("002", "estate", False, f"{said}; no licence of the preparer is stated")


def decided(d: Design, ask: Asker) -> Iterator[Check]:
    """Recorded decisions whose criteria no longer hold, and those that have none."""
    for s in d.decisions:
        said = f"{s.decision.question} {s.decision.chosen}"
        if s.outcome == "broken":
            broken = "; ".join(f"{c.text}: {c.value:.4g}" for c in s.criteria if c.outcome == "broken")
            yield ask("035", s.name, False, f"{said}: {broken}", tags=tuple(c.tag for c in s.criteria if d.has(c.tag)))
        elif s.outcome == "holds":
            yield ask(
                "035",
                s.name,
                True,
                f"{said}: {len(s.criteria)} criteria hold",
                tags=tuple(c.tag for c in s.criteria if d.has(c.tag)),
            )
        else:
            yield ask("035", s.name, "attested", f"{said}; {s.decision.by}, {s.decision.date}; no criterion on the numbers")
