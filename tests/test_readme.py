"""The page that a newcomer reads first shows what the commands print today."""

from __future__ import annotations

from pathlib import Path
import re
import sys

import pytest

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tools"))
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_explained_number_is_what_the_command_prints() -> None:
    from refresh_readme import refreshed

    assert refreshed(README) == README, "run tools/refresh_readme.py"


def test_the_picture_is_what_is_drawn() -> None:
    from draw_demo import drawings

    for name, content in drawings().items():
        stored = (ROOT / "demo_estate" / "drawings" / name).read_text(encoding="utf-8")
        assert stored == content, "run tools/draw_demo.py"


def test_the_python_lines_give_what_they_say() -> None:
    """The drop is Table 9 by hand: 2 x (0.043 x 0.95 + 0.039 x sqrt(1 - 0.95^2)) x 138 x 0.41."""
    block = re.search(r"```python\n(.*?)```", README, re.S)
    assert block
    lines = [line[4:] for line in block[1].splitlines() if line.startswith(">>> ")]
    space: dict[str, object] = {}
    exec(lines[0], space)
    got = eval(lines[1], space)
    said = next(line for line in block[1].splitlines() if not line.startswith(">>>"))
    assert str(got).startswith(said.rstrip("."))
    assert got == pytest.approx(2 * (0.043 * 0.95 + 0.039 * (1 - 0.95**2) ** 0.5) * 138 * 0.41)


def test_every_command_is_in_the_table() -> None:
    from curtilage.cli import parser

    commands = next(a for a in parser()._actions if a.dest == "command").choices
    assert commands
    for name in commands:
        assert f"curtilage {name}" in README, name


def test_every_notebook_is_listed_with_its_question() -> None:
    from curtilage.notebook.links import books

    for name, question in books(ROOT / "notebooks").items():
        assert f"| `{name}` | {question} |" in README
