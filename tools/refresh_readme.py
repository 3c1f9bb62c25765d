"""Puts the working of one number into README.md as the command prints it, so that the page cannot lag behind.

    python tools/refresh_readme.py
"""

from __future__ import annotations

from pathlib import Path
import re

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.report.text import Paper, explain
from curtilage.store import write_text

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
TAG = "service/drop"
BLOCK = re.compile(r"(<!-- working -->\n```text\n).*?(```\n<!-- end -->)", re.S)


def refreshed(text: str) -> str:
    """The page with the working as it is now."""
    said = explain(Design(estate(ROOT / "demo_estate")), TAG, Paper(100), False).strip() + "\n"
    return BLOCK.sub(lambda m: m[1] + said + m[2], text)


if __name__ == "__main__":
    print(write_text(README, refreshed(README.read_text(encoding="utf-8"))))
