"""A frozen record: inputs, edition, package, results and a hash. Opened years later it reproduces, or says what does not."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
import hashlib
import json
from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage import __version__
from curtilage.design.compare import Moved, Side, compare
from curtilage.errors import refuse
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design.design import Design

FORM = 1
"""Version of the form of a record. A newer one is refused; an older one is read."""


def canonical(x: Any) -> str:
    """One text for one content: sorted keys, no spaces, every digit of a float."""
    return json.dumps(x, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def digest(x: Any) -> str:
    """SHA-256 of the canonical text, as hexadecimal digits."""
    return hashlib.sha256(canonical(x).encode()).hexdigest()


def snapshot(d: Design) -> str:
    """A short name for the inputs, the edition with its tables, and the package that made these numbers."""
    return digest([d.inputs(), d.ed.digest, __version__])[:12]


def record(d: Design, files: Mapping[str, bytes], variants: Sequence[str], date: str, python: str) -> dict[str, Any]:
    """The content of a record. `files` are all files of the estate by name, as they were read; `date` is ISO 8601."""
    body = {
        "record": FORM,
        "package": __version__,
        "python": python,
        "date": date,
        "estate": d.estate.name,
        "edition": d.ed.name,
        "edition_fingerprint": d.ed.digest,
        "variants": list(variants),
        "snapshot": snapshot(d),
        "files": {name: _packed(raw) for name, raw in sorted(files.items())},
        "inputs": dict(d.inputs()),
        "values": dict(d.values()),
        "checks": [list(c[:8]) for c in d.checks],
    }
    return {**body, "hash": digest(body)}


def _packed(raw: bytes) -> dict[str, str]:
    try:
        return {"text": raw.decode("utf-8")}
    except UnicodeDecodeError:
        return {"base64": base64.b64encode(raw).decode("ascii")}


def unpacked(content: Mapping[str, Any]) -> dict[str, bytes]:
    """The files of a record, as they were when it was frozen."""
    return {name: f["text"].encode() if "text" in f else base64.b64decode(f["base64"]) for name, f in content["files"].items()}


def opened(text: str, name: str) -> dict[str, Any]:
    """Read a record and hold it against its own hash.

    Raises a CurtilageError that names the file if it is no record, is newer than this package, or was altered.
    """
    try:
        content = json.loads(text)
    except (ValueError, RecursionError):
        refuse(name, "this is not a frozen record: it is not JSON", "a file that `curtilage freeze` wrote")
    if not isinstance(content, dict) or not isinstance(content.get("record"), int) or "files" not in content:
        refuse(name, "this is not a frozen record", "a file that `curtilage freeze` wrote")
    if content["record"] > FORM:
        refuse(
            name,
            f"form {content['record']} of a record is newer than curtilage {__version__} reads",
            f"form {FORM} or older",
            "install a newer curtilage",
        )
    body = {k: v for k, v in content.items() if k != "hash"}
    if digest(body) != content.get("hash"):
        refuse(
            name,
            "the record was altered after it was frozen: its content does not give its hash",
            mend="ask for the file as it was sent",
        )
    return content


class Frozen(NamedTuple):
    """The results of a record, in the form that `compare` takes."""

    content: dict[str, Any]

    def inputs(self) -> Mapping[str, Any]:
        """Inputs by path."""
        return _mapping(self.content["inputs"])

    def values(self) -> Mapping[str, Any]:
        """Numbers by tag."""
        return _mapping(self.content["values"])

    def where(self, path: str) -> str:
        """A record does not know lines; the path stands for itself."""
        return path

    def counted_in(self, name: str) -> str:
        """Nor does it know units."""
        return ""

    @property
    def checks(self) -> tuple[Check, ...]:
        """The checks as they came out."""
        return tuple(Check(*row) for row in self.content["checks"])


def _mapping(x: Any) -> Mapping[str, Any]:
    return x if isinstance(x, Mapping) else {}


class Replayed(NamedTuple):
    """What became of a record when its inputs were designed again."""

    reproduces: bool
    numbers: int
    moved: tuple[Moved, ...]
    package: tuple[str, str]  # then, now
    edition_moved: bool  # the rules and tables of the edition are not the ones of then


def replayed(content: dict[str, Any], again: Design) -> Replayed:
    """Hold a record against a new design of the same files: every number must come out again, bit for bit."""
    then: Side = Frozen(content)
    c = compare(then, again)
    return Replayed(
        not c.numbers and not c.checks,
        len(then.values()),
        c.numbers,
        (content["package"], __version__),
        content["edition_fingerprint"] != again.ed.digest,
    )
