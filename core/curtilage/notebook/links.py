"""Where to go from a page: the notebooks that stand beside it, on the same estate, variant and edition."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
import re
from typing import Any
from urllib.parse import urlencode

from curtilage.look.text import Markup, e
from curtilage.notebook.cases import Case
from curtilage.notebook.frame import marimo, notebook_folder, served

TITLE = re.compile(r'app_title="([^"]+)"')
CARRIED = ("estate", "variant", "edition", "branch", "feeder")
"""What a link takes along from the page it stands on. Values tried on a page stay there."""


def books(folder: Path | None) -> dict[str, str]:
    """Name -> question of every notebook in a folder, in order."""
    found = sorted(folder.glob("[0-9][0-9]_*.py")) if folder is not None else []
    titles = ((p.stem, TITLE.search(p.read_text(encoding="utf-8"))) for p in found)
    return {name: title[1] for name, title in titles if title is not None}


def ways(case: Case, here: str) -> Markup:
    """The other notebooks and their questions; links where one server offers them all."""
    there = {name: title for name, title in books(notebook_folder()).items() if name != here}
    linked = served() and bool(marimo().query_params().get("file"))
    rows = "".join(f'<li>{_way(name, title, case, linked)}<span class="k-steps">{e(name)}</span></li>'
                   for name, title in there.items())
    how = "" if linked else ('<p class="k-steps">This page is served alone. <code>make notebooks</code> serves all of them, and '
                             "these lines become links.</p>")
    return Markup(f'<ul class="n-ways">{rows}</ul>{how}' if there else "")


def _way(name: str, title: str, case: Case, linked: bool) -> str:
    return f'<a href="?{e(address(name, case))}">{e(title)}</a>' if linked else e(title)


def address(book: str, case: Mapping[str, Any]) -> str:
    """The query that opens a notebook on a case."""
    return urlencode({"file": f"{book}.py"} | {n: str(case[n]) for n in CARRIED if case.get(n)})
