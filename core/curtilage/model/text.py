"""Bytes to text, and YAML text to groups, lists and plain values that know their places. Nothing else is ever built."""
from pathlib import Path
import re
from typing import Any

from curtilage.errors import Problems, refuse
from curtilage.model import quick
from curtilage.model.places import Map, Place, Seq

LARGEST_YAML = 1_000_000
LARGEST_TABLE = 10_000_000
DEEPEST = 12


def read_bytes(path: Path, name: str, largest: int) -> bytes:
    """The bytes of one file. A missing, unreadable, too large or vanished file is refused in a sentence."""
    try:
        with path.open("rb") as f:
            size = f.seek(0, 2)
            if size > largest:
                refuse(name, f"the file has {size / 1e6:.0f} MB", f"allowed: up to {largest // 1_000_000} MB",
                       "is it the right file?")
            f.seek(0)
            data = f.read(largest + 1)
    except FileNotFoundError:
        refuse(name, "there is no such file", f"looked in {path.parent.name or path.parent}")
    except IsADirectoryError:
        refuse(name, "is a folder, not a file")
    except PermissionError:
        refuse(name, "may not be read", "", "change its permissions")
    except OSError as e:
        refuse(name, f"could not be read to the end ({e.strerror or e})", "", "try again when the file is whole")
    if len(data) != size:
        refuse(name, "changed while it was read", "", "try again when it is whole")
    return data


def decode(data: bytes, name: str) -> str:
    """UTF-8 with or without a byte-order mark, or UTF-16 with one; anything else is refused, not guessed."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            refuse(name, "begins like UTF-16 and is not", "expected UTF-8", "save it as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as e:
        line = data.count(b"\n", 0, e.start) + 1
        seen = data[e.start:e.start + 1].decode("cp1252", "replace")
        refuse(f"{name}:{line}", f"the byte 0x{data[e.start]:02x} is not UTF-8 (Western European encodings read it as {seen!r})",
               "expected UTF-8", "save the file as UTF-8")
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        refuse(f"{name}:{line}", "holds a zero byte: it is not text, or UTF-16 without its mark", "expected UTF-8",
               "save the file as UTF-8")
    return text


def yaml_of(path: Path, name: str) -> Map:
    """The tree of one YAML file, called `name` in messages and places. Raises `Problems`."""
    return parse_yaml(decode(read_bytes(path, name, LARGEST_YAML), name), name)


_INT = re.compile(r"[-+]?[0-9]{1,18}")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]{1,3})?")
_NAN = re.compile(r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)")
_WORDS: dict[str, Any] = {"": None, "~": None, "null": None, "Null": None, "NULL": None, "true": True, "True": True, "TRUE": True,
                          "false": False, "False": False, "FALSE": False}


def scalar(text: str) -> Any:
    """A plain scalar by the core schema of YAML 1.2: null, true, false, a number, or the text itself."""
    if text in _WORDS:
        return _WORDS[text]
    if text[0] in "0123456789+-.":
        if _INT.fullmatch(text):
            return int(text)
        if _FLOAT.fullmatch(text):
            return float(text)
        if _NAN.fullmatch(text):
            return float(text.replace(".", "", 1))
    return text


def parse_yaml(text: str, name: str) -> Map:
    """The top group of a YAML text. Aliases, tags, second documents, duplicate keys and deep nesting are refused."""
    try:
        return quick.read(text, name, scalar, DEEPEST)
    except quick.Unplain:
        return parse_fully(text, name)


_MENDS = {
    "\\t": "indent with spaces, not tabs",
    "mapping values": "put a text that holds a colon in quotation marks",
    "could not find expected ':'": "write a key, a colon, a blank and a value",
    "expected <block end>": "look for a quotation mark or bracket that is not closed, or an indent that does not fit",
    "expected ',' or": "look for a bracket or brace that is not closed, or a comma that is missing",
    "quoted scalar": "look for a quotation mark that is not closed",
}


_DEEPER = "this line stands deeper than the line above allows: begin it under the first letter of its neighbours"


def _first_colon(before: str) -> bool:
    """Whether a colon is the first of its line, so that a key stands there, and not a second colon within a text."""
    return ":" not in before and re.match(r"\s+\S", before) is not None


def parse_fully(text: str, name: str) -> Map:
    """The same by the complete reader, which also words the complaints."""
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    builder = Builder(name)
    try:
        for event in YAML(typ="safe", pure=True).parse(text):
            builder.take(event)
    except MarkedYAMLError as e:
        mark = e.problem_mark or e.context_mark
        where = f"{name}:{mark.line + 1}:{mark.column + 1}" if mark else name
        said = str(e.problem or e.context)
        mend = next((mend for part, mend in _MENDS.items() if part in said), "")
        if "mapping values" in said and mark and _first_colon(text.splitlines()[mark.line][:mark.column]):
            mend = _DEEPER
        refuse(where, f"this is not YAML: {said}", "", mend)
    except YAMLError as e:
        refuse(name, f"this is not YAML: {str(e).splitlines()[0]}")
    return builder.result()


class Builder:
    """Builds the tree from parser events, without recursion."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.stack: list[tuple[Map | Seq, str | None, Place]] = []      # container, key waiting for a value, its place
        self.top: Any = None
        self.documents = 0
        self.problems = Problems()

    def take(self, event: Any) -> None:
        """One event of the parser."""
        kind = type(event).__name__
        at = Place(self.name, event.start_mark.line + 1, event.start_mark.column + 1)
        if kind == "DocumentStartEvent":
            self.documents += 1
            if self.documents > 1:
                refuse(at.precise(), "a second document begins here", "expected one document", "remove the line ---")
        elif kind == "AliasEvent":
            refuse(at.precise(), f"the alias *{event.anchor} stands here, and aliases are not read", "", "write the value out")
        elif kind == "ScalarEvent":
            self._refuse_tag(event, at)
            self._value(scalar(event.value) if event.style is None or event.style == "" else event.value, at, event.value)
        elif kind in ("MappingStartEvent", "SequenceStartEvent"):
            self._refuse_tag(event, at)
            self._open(Map() if kind == "MappingStartEvent" else Seq(), at)
        elif kind in ("MappingEndEvent", "SequenceEndEvent"):
            self.stack.pop()

    def _refuse_tag(self, event: Any, at: Place) -> None:
        if event.anchor is not None:
            refuse(at.precise(), f"the anchor &{event.anchor} stands here, and anchors are not read", "", "write the value out")
        tag = getattr(event, "tag", None)
        if tag is not None:
            said = str(tag).replace("tag:yaml.org,2002:", "!!")[:60]
            refuse(at.precise(), f"the tag {said} stands here, and tags are not read", "", "write the plain value")

    def _open(self, container: Map | Seq, at: Place) -> None:
        if len(self.stack) >= DEEPEST:
            refuse(at.precise(), f"is nested deeper than {DEEPEST} levels")
        self._value(container, at, None)
        self.stack.append((container, None, at))

    def _value(self, value: Any, at: Place, key: str | None) -> None:
        if not self.stack:
            self.top = value
            return
        container, waiting, key_at = self.stack[-1]
        if isinstance(container, Seq):
            container.put(value, at)
        elif waiting is None:
            if key is None:
                refuse(at.precise(), "a group or list stands where a key is expected")
            if key in container:
                self.problems.add(at.precise(), f"the key {key!r} stands twice in this group",
                                  f"first in line {container.keys_at[key].line}", "remove one of them")
            self.stack[-1] = (container, key, at)
        else:
            container.put(waiting, value, key_at, key_at if key == "" and value is None else at)
            self.stack[-1] = (container, None, at)

    def result(self) -> Map:
        """The finished tree; raises what was found wrong."""
        self.problems.stop()
        if self.top is None:
            refuse(self.name, "the file is empty", "expected an estate", "begin with the line 'curtilage: 1'")
        if not isinstance(self.top, Map):
            refuse(f"{self.name}:1", "the file does not begin with a key", "expected keys such as 'name:' and 'service:'")
        return self.top
