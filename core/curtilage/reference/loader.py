"""Reads a reference file. Every problem is noted with its line; nothing is guessed."""
from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path as File
import re
import tomllib
from typing import Any

from curtilage.errors import CurtilageError
from curtilage.reference import arithmetic
from curtilage.reference.example import STATUSES, VERSION, Answer, Case, Example, Step
from curtilage.reference.kinds import Method
from curtilage.reference.places import Path, line_of, lines
from curtilage.reference.printed import Rounding, rounding
from curtilage.reference.problems import Problems, misspelt, unknown

LARGEST = 200_000          # bytes; a worked example is a page, not a book
_WORDS = ("id", "family", "title", "source", "where", "method", "edition")
_WORDS_OPTIONAL = ("source_edition", "seen_at", "duplicates", "notes")
_CASE = ("name", "method", "edition", "given", "path", *STATUSES)
_FILE = ("reference", *_WORDS, *_WORDS_OPTIONAL, "given", "path", "case", *STATUSES)
_STEP = ("step", "is", "unit", "round", "differs", "contradicts", "method", "given", "result")
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}")


def load(path: File, note: Problems, methods: Mapping[str, Method]) -> Example | None:
    """The example in a file, or None when it is no TOML; what is wrong goes into `note`."""
    text = _text(path, note)
    if text is None:
        return None
    try:
        raw = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as e:
        line = re.search(r"at line ([0-9]+)", str(e))
        note.add(int(line[1]) if line else 1, "", f"this is not TOML: {e}")
        return None
    return _Reader(raw, lines(text), note, methods).example()


def _text(path: File, note: Problems) -> str | None:
    try:
        with path.open("rb") as f:
            data = f.read(LARGEST + 1)
    except OSError as e:
        note.add(0, "", f"cannot be read: {(e.strerror or str(e)).lower()}")
        return None
    if len(data) > LARGEST:
        note.add(0, "", f"is larger than {LARGEST:,} bytes; a reference file is one worked example")
        return None
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as e:
        note.add(data[:e.start].count(b"\n") + 1, "", "is not UTF-8 text; save it as UTF-8")
        return None


class _Reader:
    def __init__(self, raw: dict[str, Any], places: dict[Path, int], note: Problems, methods: Mapping[str, Method]):
        self.raw, self.places, self.note, self.methods = raw, places, note, methods

    def bad(self, path: Path, message: str) -> None:
        self.note.add(line_of(self.places, path), _dotted(path), message)

    def example(self) -> Example:
        raw = self.raw
        self.only(raw, _FILE, ())
        if raw.get("reference") != VERSION:
            got = _show(raw.get("reference"))
            self.bad(("reference",), f"write 'reference = {VERSION}' (the version of this format); got {got}")
        words = {k: self.words(raw, k, (), required=k in _WORDS) for k in (*_WORDS, *_WORDS_OPTIONAL)}
        if words["id"] and not _ID.fullmatch(words["id"]):
            self.bad(("id",), f"'{words['id']}' is not an id; use letters, digits, '-', '_' and '.', at most 40")
        cases = self.cases(words)
        keep = {k: v for k, v in words.items() if k not in ("method", "edition")}
        return Example(file=self.note.file, places=self.places, cases=cases, **keep)

    def cases(self, words: Mapping[str, str]) -> tuple[Case, ...]:
        raw = self.raw
        if "case" not in raw:
            return (self.case(raw, "", (), words["method"], words["edition"], {}, {}),)
        for name in (*STATUSES, "path"):
            if name in raw:
                self.bad((name,), f"a file with [[case]] has its answers and paths in the cases; move [{name}] into one")
        given, at = self.given(raw, ())
        out = []
        for i, item in enumerate(self.tables(raw, "case", ())):
            path: Path = ("case", i)
            self.only(item, _CASE, path)
            name = self.words(item, "name", path, required=True)
            method = self.words(item, "method", path) or words["method"]
            edition = self.words(item, "edition", path) or words["edition"]
            out.append(self.case(item, name, path, method, edition, given, at))
        return tuple(out)

    def case(self, raw: Mapping[str, Any], name: str, path: Path, method: str, edition: str,
             given: Mapping[str, Any], at: Mapping[str, Path]) -> Case:
        if method and method not in self.methods:
            where = (*path, "method") if (*path, "method") in self.places else ("method",)
            self.bad(where, unknown("method", method, self.methods))
        mine, mine_at = self.given(raw, path)
        answers = self.answers(raw, path, self.methods.get(method))
        steps = self.steps(raw, path)
        return Case(name, method, edition, {**given, **mine}, {**at, **mine_at}, answers, steps, path)

    def given(self, raw: Mapping[str, Any], path: Path) -> tuple[dict[str, Any], dict[str, Path]]:
        table = raw.get("given", {})
        if not isinstance(table, dict):
            self.bad((*path, "given"), "is a table: [given] and then one line for each input")
            return {}, {}
        return table, {k: (*path, "given", k) for k in table}

    def answers(self, raw: Mapping[str, Any], path: Path, method: Method | None) -> tuple[Answer, ...]:
        out: dict[str, Answer] = {}
        for table, status in STATUSES.items():
            rows = raw.get(table, {})
            if not isinstance(rows, dict):
                self.bad((*path, table), f"is a table: [{table}] and then one line for each answer")
                continue
            for name, text in rows.items():
                at: Path = (*path, table, name)
                if method is not None and method.result(name) is None:
                    self.bad(at, unknown(f"result of {method.name}", name, (r.name for r in method.results)))
                elif not isinstance(text, str):
                    self.bad(at, f"write the answer as text, unit and digits as printed, like \"78 A\"; got {_show(text)}")
                elif name in out:
                    self.bad(at, f"this answer stands in [{table}] and in another table; it has one status")
                else:
                    out[name] = Answer(name, text, status, at)
        if not out and not self.note.found:
            self.bad(path, f"no answers; write at least one in {', '.join(f'[{t}]' for t in STATUSES)}")
        return tuple(out.values())

    def steps(self, raw: Mapping[str, Any], path: Path) -> tuple[Step, ...]:
        return tuple(self.step(item, (*path, "path", i)) for i, item in enumerate(self.tables(raw, "path", path)))

    def step(self, raw: Mapping[str, Any], path: Path) -> Step:
        self.only(raw, _STEP, path)
        words = {k: self.words(raw, k, path, required=k == "step") for k in _STEP if k != "given"}
        method, given = words["method"], raw.get("given", {})
        if method and method not in self.methods:
            self.bad((*path, "method"), unknown("method", method, self.methods))
        if (given or words["result"]) and not (given and words["result"]):
            self.bad(path, "a step that runs a method again needs both 'given' and 'result'")
        if words["is"] and words["result"]:
            self.bad(path, "a step has either 'is' or 'result', not both")
        if words["is"]:
            try:
                arithmetic.names(words["is"])
            except CurtilageError as e:
                self.bad((*path, "is"), str(e))
        if words["contradicts"] and not words["differs"]:
            self.bad(path, "say in 'differs' how the source contradicts itself")
        return Step(words["step"], words["is"], words["unit"], self.rounding(words["round"], path), words["differs"],
                    words["contradicts"], method, given if isinstance(given, dict) else {}, words["result"], path)

    def rounding(self, text: str, path: Path) -> Rounding | None:
        try:
            return rounding(text) if text else None
        except CurtilageError as e:
            self.bad((*path, "round"), str(e))
            return None

    def tables(self, raw: Mapping[str, Any], name: str, path: Path) -> list[dict[str, Any]]:
        items = raw.get(name, [])
        if not isinstance(items, list) or not all(isinstance(i, dict) for i in items):
            self.bad((*path, name), f"is a list of tables: write [[{_dotted((*path, name)) or name}]] above each")
            return []
        return items

    def words(self, raw: Mapping[str, Any], name: str, path: Path, required: bool = False) -> str:
        text = raw.get(name, "")
        if not isinstance(text, str):
            self.bad((*path, name), f"is text in quotes; got {_show(text)}")
            return ""
        allowed = _STEP if "path" in path else _CASE if path else _FILE
        if required and not text.strip() and not misspelt(name, raw, allowed):
            what = "step of a path" if "path" in path else "case" if path else "file"
            self.bad((*path, name) if name in raw else path, f"'{name}' is missing; every {what} has one")
        return text

    def only(self, raw: Mapping[str, Any], allowed: tuple[str, ...], path: Path) -> None:
        for name in raw:
            if name not in allowed:
                self.bad((*path, name), unknown("key", name, allowed))


def _dotted(path: Path) -> str:
    out = ""
    for part in path:
        out += f"[{part}]" if isinstance(part, int) else f".{part}" if out else part
    return out


def _show(x: Any) -> str:
    return "nothing" if x is None else f"'{x}'" if isinstance(x, str) else str(x).lower() if isinstance(x, bool) else str(x)[:60]
