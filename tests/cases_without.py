"""Told runs for the contract of lines: what rows of the demonstration estate add to the load they stand in."""
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from curtilage.design import Design
from curtilage.design.without import told_added
from curtilage.model import load

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"


def told() -> Iterator[Any]:
    d = Design(load(DEMO))
    yield told_added(d, "demand/MH/optional", "L052")
    yield told_added(d, "demand/M2/other", "EMS-1")
