"""Figures behind expectations: each says where it is from, and they agree with one another by plain arithmetic."""
from __future__ import annotations

from collections import Counter
from itertools import pairwise
import math

from curtilage.look.cautions import cautions
from curtilage.tables import PROVENANCE, STATISTICS, figures
import pytest

FIGURES = figures()


def test_every_figure_says_where_it_is_from() -> None:
    assert len(FIGURES) > 60
    for f in FIGURES.values():
        assert f.quantity and f.source and f.provenance in PROVENANCE, f.ref
        assert f.value is not None
    assert Counter(f.provenance for f in FIGURES.values())["invented"] == 1


def test_a_figure_stands_once() -> None:
    text = "".join(p.read_text(encoding="utf-8") for p in STATISTICS.glob("*.toml"))
    heads = [line for line in text.splitlines() if line.startswith("[") and ".value" not in line]
    assert len(heads) == len(set(heads)) == len(FIGURES)


def test_shapes_of_a_day() -> None:
    """DIV-15: shares of a day's energy add up to one. DIV-01: each load reaches its own maximum once, and no hour is above it."""
    for name, hours in FIGURES["DIV-15"].value.items():
        assert len(hours) == 24 and sum(hours) == pytest.approx(1.0, abs=0.006), name
    for name, hours in FIGURES["DIV-01"].value.items():
        assert len(hours) == 24 and max(hours) == 1.0 and min(hours) >= 0, name


def test_diversified_demand_example() -> None:
    """Gonen's example for 6 and 900 homes: 6 x (1.6 + 0.8 + 0.066 + 0.61) = 18.456 kW and 900 x 2.294 = 2,064.6 kW."""
    said = FIGURES["DIV-03"].value
    assert 6 * sum(said["kw_at_6"]) == pytest.approx(said["transformer_max_kw"])
    assert 900 * sum(said["kw_at_900"]) == pytest.approx(said["feeder_max_kw"])
    hours = FIGURES["DIV-01"].value                                     # 4, 5 and 6 p.m., with the factors of DIV-01
    for hour, printed in ((16, "at_4pm"), (17, "at_5pm"), (18, "at_6pm")):
        kinds = ("clothes_dryer", "range", "refrigerator", "lighting_misc")
        total = 6 * sum(kw * hours[k][hour] for kw, k in zip(said["kw_at_6"], kinds, strict=True))
        assert total == pytest.approx(said[printed], rel=1e-4), hour


def test_demand_of_a_group() -> None:
    """Gonen's examples: 6 homes of 9 kW at 0.65 over a diversity factor of 1.1; first home in full, the others diversified."""
    assert 6 * 9 * 0.65 / 1.1 == pytest.approx(FIGURES["DIV-04"].value, abs=0.005)
    said = FIGURES["DIV-13"].value
    assert (10 + 11 * 4.4, 10 + 3 * 6) == (pytest.approx(said["transformer_12_homes_kva"]), said["secondary_4_homes_kva"])
    connected, peak, factor = FIGURES["DIV-06"].value
    assert 4.5 + 8 + 6 + 5 + 2 + 7.5 == connected and peak / connected == pytest.approx(factor, abs=0.0005)


def test_more_loads_never_raise_the_share_of_each() -> None:
    for name, kw in FIGURES["DIV-02"].value.items():
        assert all(b <= a for a, b in pairwise(kw)), name
    kersting = [v for _, v in sorted((int(k), v) for k, v in FIGURES["DIV-07"].value.items())]
    assert all(b > a for a, b in pairwise(kersting))
    for low, high, quick in FIGURES["DIV-11"].value.values():
        assert 0 < low <= quick <= high <= 100


def test_larger_homes_take_more() -> None:
    table = sorted((int(k), v) for k, v in FIGURES["DIV-05"].value.items())
    for column in range(4):                                             # heated by gas, two sizes print the same winter figure
        assert all(b[column] >= a[column] for (_, a), (_, b) in pairwise(table))


def test_coincidence_of_vehicles_is_a_count_of_vehicles() -> None:
    """EV-22: of n cars a whole number charges at once; and the 99th day in a hundred is never below the 95th."""
    for n, (p95, p99) in FIGURES["EV-22"].value.items():
        assert p99 >= p95
        for share in (p95, p99):
            assert int(n) * share == pytest.approx(round(int(n) * share), abs=0.02 * int(n))


def test_plug_in_hours() -> None:
    """EV-10: hours add up to one, and the median of EV-11 (17:20) lies where half of them are reached, to the six minutes that
    rounding to clock hours leaves (17:27)."""
    hours = FIGURES["EV-10"].value
    assert len(hours) == 24 and sum(hours) == pytest.approx(1.0, abs=0.001)
    so_far = sum(hours[:17])
    assert so_far < 0.5 < so_far + hours[17]
    assert 17 + (0.5 - so_far) / hours[17] == pytest.approx(FIGURES["EV-11"].value[2], abs=0.12)


def test_cold_days_take_more_energy() -> None:
    """EV-27, EV-28: a range cut by 41 % is 1.69 times the energy, a consumption figure down by 35.6 % is 1.55 times."""
    assert 1 / (1 + FIGURES["EV-27"].value[0]) == pytest.approx(1.69, abs=0.005)
    assert 1 / (1 + FIGURES["EV-28"].value[0]) == pytest.approx(1.55, abs=0.005)


def test_motor_start_example() -> None:
    """FLK-05: 5 hp through 0.06 ohm at 96 A loses 5.8 V, printed as 6 V."""
    assert 96 * 0.06 == pytest.approx(6, abs=0.5)
    assert "96" in FIGURES["FLK-05"].source


# ---------------------------------------------------------------------------------------------------------------- cautions


def test_cautions_are_whole() -> None:
    found = cautions()
    assert len(found) == 47 and {c.strength for c in found.values()} == {"note", "warning", "stop"}
    assert [ref for ref, c in found.items() if c.strength == "stop"] == ["C15"]
    assert all(c.text.strip() and "**" not in c.text for c in found.values())


def test_places_in_cautions_can_be_filled() -> None:
    from string import Formatter
    places = {ref: [name for _, name, _, _ in Formatter().parse(c.text) if name] for ref, c in cautions().items()}
    assert {ref: names for ref, names in places.items() if names} == {
        "C03": ["edition", "text"], "C04": ["x", "n"], "C05": ["hash", "date"], "C60": ["fields"]}


def test_numbers_are_finite() -> None:
    def numbers(x: object) -> list[float]:
        if isinstance(x, dict):
            return [n for v in x.values() for n in numbers(v)]
        if isinstance(x, list):
            return [n for v in x for n in numbers(v)]
        return [float(x)] if isinstance(x, int | float) else []
    assert all(math.isfinite(n) for f in FIGURES.values() for n in numbers(f.value))
