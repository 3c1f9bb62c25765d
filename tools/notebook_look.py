"""Write what stands beside the notebooks: page.css, their look, and page_head.html, which opens the working of a number.

    python tools/notebook_look.py            # after a change of core/curtilage/look/*.css or core/curtilage/notebook/*.{css,html}

marimo reads the files that an app names beside the notebook; so the notebooks keep their look wherever they are copied. Neither
file asks for anything outside.
"""
from __future__ import annotations

from pathlib import Path
import sys

ROOT = Path(__file__).resolve().parent.parent
BESIDE = ROOT / "notebooks"
HEAD = "/* Made by tools/notebook_look.py from the look of the package. Change it there. */\n"
PARTS = ("look/page.css", "look/report.css", "notebook/notebook.css")
WHOLE_PAGE = ("main", "html ", "body ", "a ", "h2 ", "h3 ", "p ", ".r-skip", ".r-foot", ".r-mark", "/*")     # of a report alone


def text() -> str:
    """The whole style sheet."""
    core = ROOT / "core" / "curtilage"
    page, report, notebook = ((core / p).read_text(encoding="utf-8") for p in PARTS)
    return HEAD + page + shared(report) + notebook


def files() -> dict[Path, str]:
    """File -> its text."""
    head = (ROOT / "core" / "curtilage" / "notebook" / "head.html").read_text(encoding="utf-8")
    return {BESIDE / "page.css": text(), BESIDE / "page_head.html": head}


def shared(report: str) -> str:
    """The lines of the report's style sheet that its tables and workings need; rules for a whole page are left out."""
    lines = report.split("@media")[0].splitlines()
    return "\n".join(line for line in lines if line and not line.startswith(WHOLE_PAGE)) + "\n"


if __name__ == "__main__":
    for path, made in files().items():
        path.write_text(made, encoding="utf-8")
        sys.stdout.write(f"{path.relative_to(ROOT)}: {len(made)} bytes\n")
