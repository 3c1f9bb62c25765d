"""What frames a page: the head with its question, cautions, errors in words. marimo is loaded when a page is drawn."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from importlib import import_module
from pathlib import Path
import re
import sys
from typing import TYPE_CHECKING, Any

from curtilage.errors import CurtilageError, Problems
from curtilage.look import components as k
from curtilage.look import style
from curtilage.look.marks import mark
from curtilage.look.text import Markup, e, number
from curtilage.notebook.cases import Case, design, usual_estate
from curtilage.report import content, parts

if TYPE_CHECKING:
    from curtilage.design import Design

def marimo() -> Any:
    """The notebook library; it is optional, so its types are not named here."""
    return import_module("marimo")


def served() -> bool:
    """Whether a page is being served, so that a part can be filled in when a reader opens it."""
    return bool(marimo().running_in_notebook())


def elsewhere() -> bool:
    """Whether another notebook runs this (Jupyter): then pages carry their look with them."""
    return "IPython" in sys.modules and not served() and bool(sys.modules["IPython"].get_ipython())


def notebook_folder() -> Path | None:
    """The folder of the running notebook, where one runs."""
    found = marimo().notebook_dir() if "marimo" in sys.modules else None
    return Path(found) if found else None


def show(*pieces: str) -> Any:
    """Pieces of a page, as an object that a notebook shows. Marks by reference, which a page of its own defines once, are drawn
    where they stand."""
    return marimo().Html(USED.sub(lambda x: mark(x[2].replace("-", " "), int(x[1])), "".join(pieces)))


USED = re.compile(r'<svg class="k-mark" width="(\d+)" height="\d+" aria-hidden="true"><use href="#m-([a-z-]+)"/></svg>')


def asked(name: str, otherwise: str = "") -> str:
    """What the address (?name=...) or the command line (-- --name ...) asks for."""
    for source in _requests():
        found = source.get(name)
        if isinstance(found, str | int | float) and not isinstance(found, bool) and str(found):
            return str(found)
    return otherwise


def estate_asked() -> str:
    """The folder of the estate that the address or the command line asks for, or the usual one, or an empty text."""
    return asked("estate") or usual_estate()


def _requests() -> Iterator[Mapping[str, Any]]:
    """The address and the command line, where a page is served or a notebook runs as a program."""
    mo = marimo()
    try:
        yield mo.query_params()
        yield mo.cli_args()
    except Exception as error:  # the class of it is not public
        if type(error).__name__ != "ContextNotInitializedError":
            raise


# ------------------------------------------------------------------------------------------------------------- errors
def attempt(make: Callable[..., Any], *given: Any) -> Any:
    """What `make` gives. An error of the kit ends the cell with the error in words on a served page, and a notebook that runs
    as a program with its words alone; elsewhere it is raised."""
    try:
        return make(*given)
    except CurtilageError as error:
        if served():
            marimo().stop(True, show(trouble(error)))
        if _is_program():
            raise SystemExit(str(error)) from None
        raise


def _is_program() -> bool:
    """Whether a notebook runs by itself: python notebooks/01_start.py."""
    return bool(re.match(r"[0-9]{2}_\w+\.py$", Path(sys.argv[0]).name))


def opened(case: Case) -> Design:
    """The design of a case, or the error in words in its place."""
    found: Design = attempt(design, case)
    return found


def trouble(error: CurtilageError) -> Markup:
    """An error as a reader wants it: where it stands, what was given, what is expected, how to mend it."""
    items = error.items if isinstance(error, Problems) else []
    rows = "".join(f'<li><b>{e(p.where)}</b> {e("; ".join(t for t in p[1:] if t))}</li>' for p in items)
    said = f"<ul>{rows}</ul>" if rows else f"<p>{e(error)}</p>"
    many = f"{len(items)} things are" if len(items) > 1 else "Something is"
    return Markup(f'<div class="n-trouble" role="alert"><p class="n-trouble-head">{mark("fails", 18)} <b>{many} in the way</b>'
                  f"</p>{said}<p>Nothing below is shown until it is mended. Values tried on the page, the variant and the "
                  "edition count like lines of the file.</p></div>")


# --------------------------------------------------------------------------------------------------------------- head
def head(d: Design, question: str) -> Any:
    """The head of a page: the question first, then what the numbers rest on, and the cautions that stand on every page."""
    shares, missing = content.shares(d), content.not_evaluated(d)
    date = d.estate.prepared.date.isoformat() if d.estate.prepared.date else ""
    stamp = ", ".join(t for t in (d.snapshot, date) if t)
    made = k.sheet_head(d.estate.name, content.variant(d), question, content.edition(d), f"amendments: {content.amendments(d)}",
                        shares, stamp, (), missing)
    linked = made.replace(e(k.share_words(shares)), share_links(d))
    return show(look(), linked, *standing(d))


def share_links(d: Design) -> Markup:
    """"46 % nameplate, 31 % submittal, 23 % assumed", each share a number that opens."""
    words = k.share_words(content.shares(d)).split(", ")
    pairs = (w.rpartition(" % ") for w in words)
    return Markup(", ".join(f"{number(f'provenance/{name}', share)} % {name}" for share, _, name in pairs))


def standing(d: Design) -> Iterable[str]:
    """Cautions of every page."""
    if d.estate.demonstration:
        yield parts.caution("C07")
    yield parts.caution("C01")
    yield parts.caution("C02")
    yield parts.caution("C03", edition=content.edition(d), text=content.amendments(d))
    yield parts.not_looked_at()


def look() -> str:
    """Outside of marimo pages carry their style sheet with them."""
    return f"<style>{style.for_cells()}</style>" if elsewhere() else ""


def section(title: str, *pieces: str) -> Any:
    """A part of a page with its head; left out when it is empty."""
    body = "".join(pieces)
    return show(f'<h2 class="k-h2">{e(title)}</h2>{body}') if body else show("")


def cautions(*refs: str) -> Markup:
    """Some cautions by their numbers, one under the other."""
    return Markup("".join(map(parts.caution, refs)))
