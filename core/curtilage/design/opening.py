"""Opening an estate: its folder, variants on it, another edition, other values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from curtilage.model import load, read_variant
from curtilage.model.variants import changed

if TYPE_CHECKING:
    from curtilage.model import Estate


def estate(
    path: str | Path,
    variants: Sequence[str] = (),
    edition: str | None = None,
    changes: Mapping[str, object] | None = None,
    by: str = "what-if",
) -> Estate:
    """An estate from its folder, with variants applied in order, then single values, then another edition.

    `changes` map a path to a value with its unit, as a file would state it: {"structures.MH.area": "9200 ft2"}; `by`
    says in messages and workings where they came from. Raises `CurtilageError` with everything that is wrong.
    """
    found = load(path)
    folder = found.folder or Path(path)
    for name in variants:
        if name and name != "base":
            found = read_variant(folder, name).on(found)
    wanted = dict(changes or {}) | ({"edition": edition} if edition else {})
    return changed(found, wanted, {}, (), by) if wanted else found
