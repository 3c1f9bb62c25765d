"""The network of an estate: what is assumed of its load, that told numbers are solved ones, that a collapse is no number."""
from __future__ import annotations

from functools import cache
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.works.network import LINE, on_legs
from curtilage.report import on_network
import pytest
from small_estate import small

VARIANTS = ("base", "as_found", "R15")


@cache
def design(variant: str) -> Design:
    d = Design(estate("demo_estate", [variant]))
    d.works("network")
    return d


def items(d: Design, kind: str) -> dict[str, Any]:
    return {key.split("/", 1)[1]: x for key, x in d.items.items() if key.startswith(f"{kind}/")}


@pytest.mark.parametrize("variant", VARIANTS)
def test_the_told_voltages_are_those_that_were_solved(variant: str) -> None:
    d = design(variant)
    for name, at in items(d, "network").items():
        asked = d.asks[f"network/{name}"].record
        assert at.solved and abs(at.volts_a - asked.settled_1) < 1e-9 and abs(at.volts_b - asked.settled_2) < 1e-9, name
    assert set(items(d, "network")) == {"transformer", d.estate.service.gear.id} | {f.to for f in d.estate.feeders if
                                        f"feeder/{f.id}" in d.items}


@pytest.mark.parametrize("variant", VARIANTS)
def test_every_feeder_of_the_service_carries_its_calculated_load(variant: str) -> None:
    """Volt-amperes added as the code adds them; and every row is somewhere, once."""
    d = design(variant)
    for feeder, x in items(d, "loading").items():
        assert x.part * x.connected == pytest.approx(d.value(f"{d.chosen[feeder]}/total"))
    rows = [r for key in d.items if key.startswith("legs/") for r in d.asks[key].record.rows]
    assert len({r.id for r in rows}) == len(rows) and all(r.on_1 + r.on_2 + r.across == 1 for r in rows)
    assert {r.id for r in rows} == {r.id for r in d.tree.rows if r.va}


@pytest.mark.parametrize("variant", VARIANTS)
def test_energy_in_is_load_and_loss(variant: str) -> None:
    """What the ideal source gives at its voltage: 120 V times the currents of the two halves in phase with it."""
    d = design(variant)
    i = d.items[f"current/{d.estate.service.gear.id}"]
    given = d.volts / 2 * (i.i_1re - i.i_2re)
    assert d.items["network"].load + d.items["network"].lost == pytest.approx(given, rel=1e-9)


@pytest.mark.parametrize("variant", VARIANTS)
def test_voltage_falls_outward_between_the_lines(variant: str) -> None:
    """A leg may rise on a light run when the neutral carries the other one's current; between the lines nothing rises."""
    d = design(variant)
    for f in d.estate.feeders:
        if f"network/{f.to}" in d.items:
            start = f.from_ if f"network/{f.from_}" in d.items else d.estate.service.gear.id
            assert d.items[f"network/{f.to}"].volts_ab <= d.items[f"network/{start}"].volts_ab


def test_circuits_of_120_volts_take_the_legs_in_turn() -> None:
    d, turns = design("base"), dict[str, int]()
    rows = {r.id: r for r in d.tree.rows}
    leg: dict[str, int] = {}
    for r in rows.values():
        on = on_legs(r, turns)
        if r.volts >= LINE:
            assert (on.on_1, on.on_2, on.across) == (0, 0, 1)
        elif r.poles == 1:
            n, legs = max(r.circuits, 1), [0, 0]
            for _ in range(n):
                legs[leg.get(r.panel, 0)] += 1
                leg[r.panel] = 1 - leg.get(r.panel, 0)
            assert (on.on_1, on.on_2) == (legs[0] / n, legs[1] / n), r.id


def test_the_review_of_the_base() -> None:
    d = design("base")
    outcomes = {c.outcome for c in d.checks if c.number in ("057b", "202")}
    assert outcomes == {"passes", "does not apply"}
    dark = [c for c in d.checks if (c.number, c.outcome) == ("057b", "does not apply")]
    assert [c.subject for c in dark] == ["CG-2"]
    judged = [c for c in d.checks if c.number == "057c" and c.outcome != "passes"]
    assert {c.outcome for c in judged} == {"needs judgement"} and all("on the other one" in c.found for c in judged)


def test_the_tables_show_every_node() -> None:
    d = design("base")
    nodes, outlets, whole = on_network.tables(d)
    assert {line.cells[0] for line in nodes.lines} == set(items(d, "network"))
    assert len(outlets.lines) == len({d.asks[f"outlet/{r}"].record.id for r in items(d, "outlet")} & {
        str(line.cells[1]) for line in outlets.lines})
    assert len(whole.lines) == 6


def two_houses(*changes: tuple[str, str]) -> Design:
    return Design(small(('breaker: 200 A, size: "4/0"', 'breaker: 200 A, sets: 1, size: "4/0"'), *changes))


def test_a_small_estate_by_hand() -> None:
    """One loop, balanced: the guest house draws 9,600 VA at 240 V; its voltage solves V = E - Z conj(S / V) by the quadratic."""
    d = two_houses()
    d.works("network")
    t, wire, line = d.items["transformer"], d.items["wire/GH"], d.items["wire/lateral"]
    gear, here = d.items["network/MSB"], d.items["network/GH-1"]
    s = complex(d.items["legs/GH-1"].p_12, d.items["legs/GH-1"].q_12)
    z, e = complex(wire.r_line, wire.x_line) * 2, gear.volts_ab
    b = 1 - 2 * (z * s.conjugate()).real / e**2
    v = e * ((b + (b * b - 4 * abs(z * s) ** 2 / e**4) ** 0.5) / 2) ** 0.5
    assert here.volts_ab == pytest.approx(v, rel=1e-9) and s.real > 9000
    assert here.neutral == pytest.approx(0, abs=1e-9)
    assert gear.volts_ab < 240 and t.r_primary > 0 and line.r_line > 0


def test_a_collapse_is_told_and_is_no_number() -> None:
    d = two_houses(("lateral: {length: 60 ft, material: al}",
                    'lateral: {length: 9000 ft, sets: 1, size: "4/0", material: al}'))
    d.works("network")
    assert "network" not in d.items and not items(d, "network")
    assert "voltage collapse" in d.lacking["network"] and "voltage collapse" in d.lacking["network/GH-1"]
    failed = [c for c in d.checks if c.number == "057b"]
    assert [c.outcome for c in failed] == ["fails"] and "voltage collapse" in failed[0].found
    (table,) = on_network.tables(d)
    assert "voltage collapse" in str(table.lines[0].cells[0])


def test_a_missing_length_leaves_the_outlets_of_its_panel_open() -> None:
    d = two_houses(("0.8,N,1/2,20,30", "0.8,N,1/2,20,"))
    found = {c.subject: c for c in d.checks if c.number == "057c"}
    assert found["MH-2, branch circuits"].outcome == "not evaluated" and "L5" in found["MH-2, branch circuits"].missing
    assert found["GH-1, branch circuits"].outcome == "passes"
