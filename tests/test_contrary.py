"""What contradicts itself is an input error, or holds a result back with both values named."""
from __future__ import annotations

from pathlib import Path

from curtilage.design import Design
from curtilage.errors import Problems
from curtilage.model import Estate, from_text, load
import pytest
from small_estate import ESTATE, LOADS

FOLDER = Path(__file__).parent.parent / "demo_estate"


@pytest.fixture(scope="module")
def demo() -> Estate:
    return load(FOLDER)


def test_a_pull_is_not_worked_where_steps_and_trench_disagree(demo: Estate) -> None:
    """The straight steps of trench t3 come to its 195 ft; with 60 ft less in them no tension may be given."""
    d = Design(demo.with_({"pulls.trenches.t3.steps.c.length": "20 ft"}))
    held = [c for c in d.checks if c.number == "162" and "195 ft" in str(c.missing)]
    assert held and all(c.outcome == "not evaluated" and "trench t3" in str(c.missing) for c in held)
    for c in held:
        assert not d.has(f"pull/{c.subject}/tension")


def test_lugs_hold_no_range_that_is_reversed(demo: Estate) -> None:
    panel = demo.panels[0].id
    with pytest.raises(Problems, match="smallest 2/0 is larger than largest 8"):
        demo.with_({f"panels.{panel}.lugs": {"smallest": "2/0", "largest": "8"}})


def test_temporary_power_ends_after_it_begins(demo: Estate) -> None:
    assert demo.temporary is not None
    at = f"temporary.services.{demo.temporary.services[0].id}"
    with pytest.raises(Problems, match="2025-05-01 is before since, 2026-10-01"):
        demo.with_({f"{at}.since": "2026-10-01", f"{at}.until": "2025-05-01"})


def test_a_passage_leads_elsewhere(demo: Estate) -> None:
    f = demo.framing[0]
    q = f.passages[0]
    with pytest.raises(Problems, match=f"leads from {q.from_} to itself"):
        demo.with_({f"framing.{f.id}.passages.{q.id}.to": q.from_})


def test_a_motor_draws_more_while_it_starts(demo: Estate) -> None:
    row = next(x for x in demo.loads if x.lra and x.lra > 20)
    with pytest.raises(Problems, match="locked-rotor current of 6 A is below the full-load current of 13 A"):
        demo.with_({f"loads.{row.id}.fla": "13 A", f"loads.{row.id}.lra": "6 A"})


def test_a_trench_that_stands_twice_is_told_once() -> None:
    """The second trench takes the id of the first, so the missing second id must not be told as well."""
    text = ESTATE.replace("{id: t3,", "{id: t2,").replace(
        "loads: loads.csv", "raceways: [{id: R, from: SY, to: GH, kind: pvc40, route: [t3]}]\nloads: loads.csv")
    with pytest.raises(Problems) as e:
        from_text(text, LOADS)
    assert len(e.value) == 1 and "the id t2 stands twice" in str(e.value)
