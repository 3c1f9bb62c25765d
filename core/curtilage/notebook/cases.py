"""A case: which estate, which variant, which edition, which values tried in place of the stated ones. Designs are kept per case.

A case is a mapping with the names estate (a folder), variant, edition, set ({path: "value unit"}) and branch (the feeder or
main that a page is about). All but the estate may be left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
import os
from pathlib import Path
from typing import Any

from curtilage import store
from curtilage.design import Design
from curtilage.editions import Edition
from curtilage.editions import editions as known_editions
from curtilage.errors import refuse
from curtilage.model import Estate

Case = Mapping[str, Any]
VARIABLE = "CURTILAGE_ESTATE"
BY = "tried on this page"
KEPT = 32  # designs of the newest cases
Stamp = tuple[tuple[str, int, int], ...]
Tried = tuple[tuple[str, "str | int | None"], ...]


def design(case: Case) -> Design:
    """The design of a case; the same case gives the same object while the files of the estate are as they were.

    Raises `CurtilageError` with everything that is wrong with the estate, the variant or the values tried.
    """
    folder = str(case.get("estate") or default_estate())
    tried = dict(case.get("set") or {}).items()
    wanted = tuple(sorted((str(k), v if v is None or isinstance(v, int) else str(v)) for k, v in tried))
    return _design(folder, _stamp(folder), str(case.get("variant") or "base"), str(case.get("edition") or ""), wanted)


def default_estate() -> str:
    """The folder that the variable CURTILAGE_ESTATE names, or the demonstration estate beside the notebooks."""
    found = usual_estate()
    if not found:
        refuse("estate", "no estate is named and no demo_estate stands beside the notebooks", "",
               f"write the folder of an estate, set {VARIABLE}, or make one with: curtilage new FOLDER")
    return found


def usual_estate() -> str:
    """The same, or an empty text where there is none."""
    named = os.environ.get(VARIABLE, "")
    there = (str(folder) for folder in _likely() if (folder / "estate.yaml").is_file())
    return named or next(there, "")


def _likely() -> Iterator[Path]:
    """Where the demonstration estate may stand, as seen from the notebooks or from the folder one is in."""
    from curtilage.notebook.frame import notebook_folder

    here = notebook_folder()
    if here is not None:
        yield here.parent / "demo_estate"
        yield here / "demo_estate"
    yield Path("demo_estate")
    yield Path("../demo_estate")


def variants(path: str) -> dict[str, str]:
    """What a reader may pick -> name of the variant; the base first. Empty but for the base where the folder has none."""
    return dict(_variants(path, _stamp(path)))


def editions() -> dict[str, str]:
    """Title -> name of every edition that comes with the package."""
    return {Edition.load(name).title: name for name in known_editions()}


@lru_cache(maxsize=KEPT)
def _design(folder: str, stamp: Stamp, variant: str, edition: str, wanted: Tried) -> Design:
    if wanted:
        made = _design(folder, stamp, variant, edition, ()).with_values(dict(wanted), BY)
    else:
        estate = _estate(folder, stamp, variant)
        made = Design(estate.with_({"edition": edition}, by=BY) if edition and edition != estate.edition else estate)
    vars(made)["variant"] = variant
    return made


@lru_cache(maxsize=KEPT)
def _estate(folder: str, stamp: Stamp, variant: str) -> Estate:
    return store.estate(folder, () if variant == "base" else (variant,))


@lru_cache(maxsize=4)
def _variants(path: str, stamp: Stamp) -> tuple[tuple[str, str], ...]:
    found = store.variant_titles(path) if Path(path).is_dir() else []
    return (("base", "base"), *((f"{name}: {title}", name) for name, _, title in found))


def _stamp(folder: str) -> Stamp:
    """Name, time and size of every file of the estate: a file that was saved anew is read anew."""
    home = Path(folder)
    found = sorted(p for part in ("", "variants", "amendments", "decisions") for p in (home / part).glob("*.*"))
    return tuple((str(p), s.st_mtime_ns, s.st_size) for p in found for s in (p.stat(),))
