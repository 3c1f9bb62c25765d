"""The cautions by number: strength, words, and the stops. Each stands where the wrong use would happen."""
from __future__ import annotations

from functools import cache
from importlib.resources import files
import tomllib
from typing import NamedTuple


class Caution(NamedTuple):
    """One caution. `strength` is note, warning or stop; `text` may hold {places} to be filled."""

    ref: str
    strength: str
    text: str


@cache
def cautions() -> dict[str, Caution]:
    """Every caution by its number."""
    file = files("curtilage") / "data" / "cautions.toml"
    found = tomllib.loads(file.read_text(encoding="utf-8"))
    return {ref: Caution(ref, c["strength"], c["text"]) for ref, c in found["cautions"].items()}


def text(ref: str, **filled: object) -> str:
    """The words of a caution, with its places filled."""
    return cautions()[ref].text.format(**filled)
