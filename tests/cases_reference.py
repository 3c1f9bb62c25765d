"""Told runs from the published examples: the contract of told lines is held against every method that they run."""
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from curtilage.reference import run

FOLDER = Path(__file__).resolve().parent.parent / "reference_checks"


def told() -> Iterator[Any]:
    for row in run([FOLDER]).rows:
        if row.told is not None:
            yield row.told
