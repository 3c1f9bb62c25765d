"""Draws the pictures of the demonstration estate that stand in the repository: run it after the estate or the drawing changed.

    python tools/draw_demo.py
"""

from __future__ import annotations

from pathlib import Path

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.look.theme import LIGHT
from curtilage.report.drawings import one_line_svg
from curtilage.report.pictures import faults_svg
from curtilage.store import write_text

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"


def drawings() -> dict[str, str]:
    """File name -> content."""
    d = Design(estate(DEMO))
    return {"one_line.svg": one_line_svg(d, LIGHT) + "\n", "fault_currents.svg": faults_svg(d, LIGHT) + "\n"}


if __name__ == "__main__":
    for name, content in drawings().items():
        print(write_text(DEMO / "drawings" / name, content))
