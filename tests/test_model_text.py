"""Two readers of YAML: the quick one gives what the complete one gives, with the same places, or gives up."""
from __future__ import annotations

from pathlib import Path
from typing import Any

from curtilage.errors import CurtilageError
from curtilage.model import quick
from curtilage.model import text as texts
from curtilage.model.places import Map, Seq
from hypothesis import given
from hypothesis import strategies as st
import pytest
from small_estate import ESTATE

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"
FILES = sorted(DEMO.rglob("*.yaml"))


def differences(a: Any, b: Any, path: str = "") -> list[str]:
    """Where two trees differ, in values, in types or in places."""
    if type(a) is not type(b):
        return [f"{path}: {a!r} and {b!r}"]
    if isinstance(a, Map):
        if list(a) != list(b) or a.keys_at != b.keys_at or a.values_at != b.values_at:
            return [f"{path}: {list(a)} and {list(b)}, or their places"]
        return [d for k in a for d in differences(a[k], b[k], f"{path}.{k}")]
    if isinstance(a, Seq):
        if len(a) != len(b) or a.at != b.at:
            return [f"{path}: {a.at} and {b.at}"]
        return [d for i in range(len(a)) for d in differences(a[i], b[i], f"{path}.{i}")]
    return [] if a == b or a != a else [f"{path}: {a!r} and {b!r}"]


def quickly(text: str) -> Map | None:
    try:
        return quick.read(text, "f", texts.scalar, texts.DEEPEST)
    except quick.Unplain:
        return None


def hold_against(text: str) -> bool:
    """Whether the quick reader took the text; what it made of it must be what the complete one makes of it."""
    tree = quickly(text)
    if tree is None:
        return False
    assert differences(tree, texts.parse_fully(text, "f")) == []
    return True


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_the_files_of_the_demonstration_estate(path: Path) -> None:
    assert hold_against(path.read_text(encoding="utf-8")), "the demonstration estate should be read quickly"


PLAIN = [
    "a: 1\nb:\n  - x\n  - {c: d, e: [1, 2,\n    3]}\nf: \"q # x\"  # c\ng: >\n  one\n  two\nh: |-\n  l1\n  l2\ni:\nj: ~\n",
    "a:\n- 1\n- b: c\n  d: e\n-   f: g\n    h: i\nk: -3 ft\nl: a:b c#d\n", "a: [[0 ft, 0 ft], [44 ft, 0 ft]]\nb: {}\nc: []\n",
    "a: {b: \"x\", c: y z, d: 12:30, e: \"\"}\n\"b.c\": 1\n'd': 2\n", "a: {b: c # com\n  , d: e}\n", "a: x#y\nb: x #y\n",
    "a: \n  # c\n  b: 1\n\n# e\nc: 2", "a: {b: c,}\n", "a: [a, b, ]\n", "a: b\n\n\n", "a: 3 %\nb: 100%\n", "a: # c\n  - 1\n",
    "a: b #\n", "a: é ü\n", "a: 10:30\nb: [10:30, x:y]\n", "a : 1\n", "a: http://x/y\n", "a: >\n  x\n", 
    "a: true\nb: False\nc: no\n",
    "a: 1.5\nb: .5\nc: 1e3\nd: .nan\ne: -.inf\nf: 012\ng: 0x1F\nh: 1_000\ni: 2026-11-24\nj: +1\nk: 1.\n",
    "a: 1\r\nb:\r\n  c: 2\r\n",
]
LEFT = [
    "a: b\n  c\n", "a: \"x\n  y\"\n", "a: [b: c]\n", "a: {b, c}\n", "a: |\n  x\n\n  y\n", "a: {b: -}\n", "a: [b,\nc]\n",
    "a: {\n  b: 1,\n  c: 2\n}\n", "a: {\"b\":1}\n", "a: {b: }\n", "a: \"x\\ty\"\n", "a: 'it''s'\n", "a: |+\n  x\n", "? a\n: b\n",
    "a: >\n  x\n   y\n  z\n", "%YAML 1.2\n---\na: 1\n", "a:\n  -\n  - 1\n", "\ufeffa: 1\n",
]
WRONG = [
    "a: &x 1\nb: *x\n", "- a\n- b\n", "a: b: c\n", "a:\n  b: 1\n c: 2\n", "a: {b: c d: e}\n", "a: {b: c}d\n", "a: \"x\"y\n", 
    "a: [,]\n", "a: >\n  x\n b: 1\n", "a: - b\n", "- - a\n", "a: @x\n", "a:#c\n", "x: {a: 1, a: 2}\n",
    "a: 1\na: 2\n", "a: [1, 2\n", "a: {b: 1\n",
    "a: 'x\n", "a: !t x\n", "a: `x`\n", "a: [x]]\n", "a:\n\tb: 1\n", "", "# only a remark\n", "a", "a: %x\n", "a: }\n",
    "a: 1\n---\nb: 2\n", "a: b\n# c\n  d\n", "a: " + "[" * 40 + "]" * 40,
]


@pytest.mark.parametrize("text", PLAIN)
def test_what_the_quick_reader_takes(text: str) -> None:
    assert hold_against(text)


@pytest.mark.parametrize("text", LEFT)
def test_what_it_leaves_to_the_complete_one(text: str) -> None:
    assert quickly(text) is None and isinstance(texts.parse_yaml(text, "f"), Map)


@pytest.mark.parametrize("text", WRONG)
def test_what_neither_takes(text: str) -> None:
    assert quickly(text) is None
    with pytest.raises(CurtilageError):
        texts.parse_yaml(text, "f")


WORDS = st.sampled_from([
    "185 ft", "3 %", "x y", "120/240 V", "yes", "", "a: b", "a #b", "c#d", "- x", "-3", "12:30", "[a", "b]", "{", "'", '"', "# n",
    "1", "1.5", "null", "é", "a,b", "&a", "*b", "!c", "|", ">", "%", "@", "?", ":", "x:", "~", "a\\b"])
WRAPPED = st.builds(lambda w, q: f"{q}{w}{q}", WORDS, st.sampled_from(["", '"', "'"]))
FLOW = st.recursive(WRAPPED, lambda x: st.one_of(
    st.lists(x, max_size=3).map(lambda v: f"[{', '.join(v)}]"),
    st.dictionaries(st.sampled_from("abc"), x, max_size=3).map(
        lambda d: "{" + ", ".join(f"{k}: {v}" for k, v in d.items()) + "}")), max_leaves=6)


@st.composite
def blocks(draw: st.DrawFn, depth: int = 0) -> list[str]:
    """Lines of a group or list, sometimes with remarks, blank lines and odd indents."""
    out: list[str] = []
    group = depth == 0 or draw(st.booleans())
    keys = st.lists(st.sampled_from(["a", "b", "c.d", "e f"]), min_size=1, max_size=3, unique=draw(st.integers(0, 9)) > 0)
    for key in draw(keys):
        head = f"{key}:" if group else "-"
        if depth < 3 and draw(st.booleans()):
            pad = draw(st.sampled_from(["  ", "  ", "    ", "" if group else " "]))
            inner = [pad + line for line in draw(blocks(depth + 1))]
            if not group and draw(st.booleans()):
                inner[0] = f"- {inner[0].lstrip(' ')}"
                out.extend([inner[0], *inner[1:]])
            else:
                out.extend([head, *inner])
        else:
            out.append(f"{head} {draw(FLOW)}{draw(st.sampled_from(['', '', '  # remark', ' ', '#x']))}")
        out.extend(draw(st.sampled_from([[], [], [], ["# remark"], [""], ["   # remark"]])))
    return out


@given(blocks())
def test_whatever_the_quick_reader_takes_it_reads_right(lines: list[str]) -> None:
    text = "\n".join(lines) + "\n"
    if not hold_against(text):
        try:
            assert isinstance(texts.parse_yaml(text, "f"), Map)
        except CurtilageError as e:
            assert "f:" in str(e)


@given(st.integers(0, len(ESTATE)), st.sampled_from(list(" \n\t:#-,[]{}'\"&*!|>%@?x1\\é")) | st.just(""), st.integers(0, 3))
def test_a_slip_of_the_finger_is_never_read_wrong(at: int, typed: str, deleted: int) -> None:
    hold_against(ESTATE[:at] + typed + ESTATE[at + deleted:])


@given(st.text(st.characters(codec="utf-8"), max_size=60))
def test_any_text_gives_a_tree_or_a_sentence(text: str) -> None:
    hold_against(text)
    try:
        texts.parse_yaml(text, "f")
    except CurtilageError as e:
        assert str(e)
