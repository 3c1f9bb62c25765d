"""In which line of a TOML file a key stands. The values are read by tomllib, which keeps no lines."""
from __future__ import annotations

import re

Path = tuple[str | int, ...]

_KEY = r"""(?:[A-Za-z0-9_-]+|"[^"]*"|'[^']*')"""
_DOTTED = rf"{_KEY}(?:\s*\.\s*{_KEY})*"
_HEAD = re.compile(rf"\s*(\[\[?)\s*({_DOTTED})\s*\]\]?\s*(?:#.*)?")
_PAIR = re.compile(rf"\s*({_DOTTED})\s*=(.*)")
_STRING = re.compile(r'''"""(?:.|\n)*?"""|\'\'\'(?:.|\n)*?\'\'\'|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|\#[^\n]*''')


def lines(text: str) -> dict[Path, int]:
    """The line of every table and key; keys inside an inline table or a list have the line of the key outside."""
    bare = _STRING.sub(_blank, text)
    out: dict[Path, int] = {}
    table: Path = ()
    counts: dict[Path, int] = {}
    depth = 0
    for number, (line, plain) in enumerate(zip(text.split("\n"), bare.split("\n"), strict=True), 1):
        if depth == 0 and plain.strip():
            head, pair = _HEAD.fullmatch(line), _PAIR.match(line)
            if head:
                table = _table(_keys(head[2]), head[1] == "[[", counts)
                out.setdefault(table, number)
                continue
            if pair:
                out.setdefault(table + _keys(pair[1]), number)
        depth = max(0, depth + sum(plain.count(c) for c in "[{") - sum(plain.count(c) for c in "]}"))
    return out


def line_of(places: dict[Path, int], path: Path) -> int:
    """The line of a path, or of the nearest thing around it."""
    while path and path not in places:
        path = path[:-1]
    return places.get(path, 1 if not path else 0)


def _blank(m: re.Match[str]) -> str:
    return re.sub(r"[^\n]", " ", m[0])


def _keys(dotted: str) -> Path:
    return tuple(k.strip("\"'") for k in re.findall(_KEY, dotted))


def _table(keys: Path, many: bool, counts: dict[Path, int]) -> Path:
    """The full path of a table: behind each array of tables stands the index of its last item."""
    if many:
        counts[keys] = counts.get(keys, -1) + 1
        for inner in [k for k in counts if len(k) > len(keys) and k[:len(keys)] == keys]:
            del counts[inner]
    path: Path = ()
    for i in range(1, len(keys) + 1):
        path += (keys[i - 1],)
        if keys[:i] in counts:
            path += (counts[keys[:i]],)
    return path
