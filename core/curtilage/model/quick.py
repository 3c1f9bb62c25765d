"""A quick reader for the plain part of YAML that hand-written files use; ten times as fast as the complete one.

It reads block and flow groups and lists, plain and quoted words on one line, simple block texts, and comments. Whatever else it
meets, or might misread, it gives up (`Unplain`), and the complete reader takes the file: that one also words the complaints.
A test holds the two against each other.
"""
import re
from typing import Any

from curtilage.model.places import Map, Place, Seq

_KEY = re.compile(r"""(?:"([^"\\\n]*)"|'([^'\n]*)'|([A-Za-z0-9_](?:[A-Za-z0-9_./ -]*[A-Za-z0-9_./-])?)) *:(?= |\n|$)""")
_QUOTED = re.compile(r"""(?:"([^"\\\n]*)"|'([^'\n]*)')""")
_PLAIN = re.compile(r"(?:[^\s,\[\]{}#&*!|>'\"%@`?:\-]|[-?:](?=[^\s,\[\]{}]))(?:[^\n#:]|(?<=[^ ])#|:(?=[^ \n]))*")
_FLOW_PLAIN = re.compile(r"(?:[^\s,\[\]{}#&*!|>'\"%@`?:\-]|[-](?=[^\s,\[\]{}]))(?:[^\n#:,\[\]{}]|(?<=[^ ])#|:(?=[^ \n,\[\]{}]))*")
_REST = re.compile(r" *(?: #[^\n]*|#[^\n]*)?(?=\n|$)")
_GAP = re.compile(r"(?:[ \n]+|(?<=[ \n])#[^\n]*)*")
_FOREIGN = re.compile("[\t\r\x00-\x08\x0b-\x1f\x7f\x85\xa0\u2028\u2029\ufeff]|^(?:---|\\.\\.\\.|%)", re.M)


class Unplain(Exception):
    """The text holds something that this reader leaves to the complete one."""


def read(text: str, name: str, resolve: Any, deepest: int) -> Map:
    """The top group of a YAML text. Raises `Unplain`."""
    text = text.replace("\r\n", "\n")
    if _FOREIGN.search(text):
        raise Unplain
    reader = _Reader(text, name, resolve, deepest)
    node = reader.block(0, 0)
    if reader.i < len(reader.lines) or not isinstance(node, Map):
        raise Unplain
    return node


class _Reader:
    def __init__(self, text: str, name: str, resolve: Any, deepest: int) -> None:
        self.text, self.name, self.resolve, self.deepest = text, name, resolve, deepest
        self.lines: list[tuple[int, int, int]] = []            # number, indent, offset of the first character
        self.raw = text.split("\n")
        offset = 0
        for number, line in enumerate(self.raw, 1):
            bare = line.lstrip(" ")
            if bare and bare[0] != "#":
                indent = len(line) - len(bare)
                self.lines.append((number, indent, offset + indent))
            offset += len(line) + 1
        self.i = 0
        if not self.lines:
            raise Unplain

    def indent(self) -> int:
        """Indent of the line at hand; -1 after the last."""
        return self.lines[self.i][1] if self.i < len(self.lines) else -1

    def at(self, pos: int) -> Place:
        """Place of a position in the line at hand."""
        number, indent, offset = self.lines[self.i]
        return Place(self.name, number, pos - offset + indent + 1)

    def block(self, n: int, depth: int) -> Map | Seq:
        """A group or list of which every line has the indent n."""
        if self.indent() != n or depth > self.deepest:
            raise Unplain
        return self.items(n, depth) if self._dash() else self.group(n, depth)

    def _dash(self) -> bool:
        pos = self.lines[self.i][2]
        return self.text[pos] == "-" and self.text[pos + 1:pos + 2] in (" ", "\n", "")

    def group(self, n: int, depth: int) -> Map:
        """Keys with values."""
        out = Map()
        while self.indent() == n and not self._dash():
            pos = self.lines[self.i][2]
            key_at = self.at(pos)
            match = _KEY.match(self.text, pos)
            if match is None:
                raise Unplain
            key = next(k for k in match.groups() if k is not None)
            if key in out:
                raise Unplain
            value, value_at = self.value(match.end(), n, depth, key_at)
            out.put(key, value, key_at, value_at)
        return out

    def items(self, n: int, depth: int) -> Seq:
        """Entries behind dashes."""
        out = Seq()
        while self.indent() == n and self._dash():
            number, _, pos = self.lines[self.i]
            inner = pos + 1
            while self.text[inner:inner + 1] == " ":
                inner += 1
            if _KEY.match(self.text, inner):                   # a group begins behind the dash
                at = self.at(inner)
                self.lines[self.i] = (number, n + inner - pos, inner)
                if depth + 1 > self.deepest:
                    raise Unplain
                out.put(self.group(n + inner - pos, depth + 1), at)
            else:
                value, at = self.value(pos + 1, n, depth, None)
                out.put(value, at)
        return out

    def value(self, pos: int, n: int, depth: int, key_at: Place | None) -> tuple[Any, Place]:
        """What stands behind a colon or dash, and all lines that belong to it. Behind a dash there is no key."""
        after = pos
        while self.text[pos:pos + 1] == " ":
            pos += 1
        c = self.text[pos:pos + 1]
        if c in ("\n", "", "#"):
            if c == "#" and pos == after:
                raise Unplain
            return self._below(n, depth, key_at)
        at = self.at(pos)
        out: Any
        if c in "[{":
            out, end = self.flow(pos, depth + 1)
            self._end(end)
        elif c in "\"'":
            match = _QUOTED.match(self.text, pos)
            if match is None:
                raise Unplain
            out = match[1] if match[1] is not None else match[2]
            self._end(match.end())
        elif c in "|>":
            return self._block_text(pos, n), at
        else:
            match = _PLAIN.match(self.text, pos)
            if match is None:
                raise Unplain
            out = self.resolve(match[0].rstrip(" "))
            self._end(match.end())
        self.i += 1
        if self.indent() > n:
            raise Unplain                                      # words that go on in the next line
        return out, at

    def _end(self, pos: int) -> None:
        """Nothing but a comment may follow."""
        match = _REST.match(self.text, pos)
        if match is None or (match[0].startswith("#") and self.text[pos - 1] != " "):
            raise Unplain

    def _below(self, n: int, depth: int, key_at: Place | None) -> tuple[Any, Place]:
        """What stands in the lines below: a deeper group or list, a list at the same indent, or nothing."""
        self.i += 1
        deeper = self.indent()
        if deeper > n or (deeper == n and key_at is not None and self._dash()):
            at = self.at(self.lines[self.i][2])
            return self.block(deeper, depth + 1), at
        if key_at is None:
            raise Unplain
        return None, key_at

    def _block_text(self, pos: int, n: int) -> str:
        """A text behind | or >, if all of its lines have one indent and none is blank."""
        end = self.text.find("\n", pos)
        sign = self.text[pos:end if end >= 0 else None]
        number = self.lines[self.i][0]
        raw, last = self.raw, number
        while last < len(raw) and raw[last].startswith(" " * (n + 1)) and raw[last].strip(" "):
            last += 1
        found = raw[number:last]
        whole = last < len(raw) and (raw[last] != "" or last == len(raw) - 1)
        if sign not in ("|", "|-", ">", ">-") or not found or not whole:
            raise Unplain
        deep = len(found[0]) - len(found[0].lstrip(" "))
        if any(line[:deep].strip(" ") or line[deep] == " " or line[-1] == " " for line in found):
            raise Unplain
        while self.i < len(self.lines) and self.lines[self.i][0] <= number + len(found):
            self.i += 1
        if self.indent() > n:
            raise Unplain
        text = ("\n" if sign[0] == "|" else " ").join(line[deep:] for line in found)
        return text if sign.endswith("-") else f"{text}\n"

    def _gap(self, pos: int) -> int:
        """The next position that is neither blank nor comment; moves on to its line."""
        match = _GAP.match(self.text, pos)
        assert match is not None
        end = match.end()
        if "\n" in match[0]:
            while self.i + 1 < len(self.lines) and self.lines[self.i + 1][2] <= end:
                self.i += 1
            if not self.lines[self.i][2] <= end:
                raise Unplain
        return end

    def flow(self, pos: int, depth: int) -> tuple[Map | Seq, int]:
        """A group in braces or a list in brackets, and the position behind it."""
        if depth > self.deepest:
            raise Unplain
        start = self.i
        group = self.text[pos] == "{"
        out: Map | Seq = Map() if group else Seq()
        close = "}" if group else "]"
        pos = self._gap(pos + 1)
        while self.text[pos:pos + 1] != close:
            pos = self._flow_entry(out, pos, depth)
            pos = self._gap(pos)
            c = self.text[pos:pos + 1]
            if c == ",":
                pos = self._gap(pos + 1)
            elif c != close:
                raise Unplain
        if any(self.lines[j][1] <= self.lines[start][1] for j in range(start + 1, self.i + 1)):
            raise Unplain                                      # the complete reader is particular about this
        return out, pos + 1

    def _flow_entry(self, out: Map | Seq, pos: int, depth: int) -> int:
        if isinstance(out, Seq):
            at = self.at(pos)
            value, pos = self._flow_value(pos, depth)
            out.put(value, at)
            return pos
        match = _KEY.match(self.text, pos)
        if match is None:
            raise Unplain
        key_at = self.at(pos)
        key = next(k for k in match.groups() if k is not None)
        pos = self._gap(match.end())
        at = self.at(pos)
        if key in out:
            raise Unplain
        value, pos = self._flow_value(pos, depth)
        out.put(key, value, key_at, at)
        return pos

    def _flow_value(self, pos: int, depth: int) -> tuple[Any, int]:
        c = self.text[pos:pos + 1]
        if c in ("[", "{"):
            return self.flow(pos, depth + 1)
        match = _QUOTED.match(self.text, pos)
        if match:
            return (match[1] if match[1] is not None else match[2]), match.end()
        match = _FLOW_PLAIN.match(self.text, pos)
        if match is None or _KEY.match(self.text, pos):
            raise Unplain
        if self.text[match.end():match.end() + 1] == ":":
            raise Unplain
        words = match[0].rstrip(" ")
        return self.resolve(words), pos + len(words)
