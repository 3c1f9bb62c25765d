"""Style sheets as text, for pages that carry everything with them."""
from __future__ import annotations

from importlib.resources import files
import re

NOTEBOOK = "/* in a marimo notebook */"


def sheet(name: str) -> str:
    """A style sheet of this room as it stands in its file."""
    return (files("curtilage.look") / name).read_text(encoding="utf-8")


def for_report() -> str:
    """The look of the pages and what a report adds, without what only a notebook needs, on few bytes."""
    return _short(sheet("page.css").split(NOTEBOOK)[0] + sheet("report.css"))


def for_cells() -> str:
    """The look of tables and workings for a notebook that has no style sheet of ours; pages around it are left alone."""
    return _short(sheet("page.css").split(NOTEBOOK)[0])


def _short(text: str) -> str:
    text = re.sub(r"/\*.*?\*/", "", text, flags=re.S)
    return re.sub(r"\s*([{};])\s*", r"\1", re.sub(r"\s+", " ", text)).strip()
