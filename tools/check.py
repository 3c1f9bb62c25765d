"""Everything that must hold before a change goes in: style, types, notebooks, tests with coverage, printed examples.

    python tools/check.py                  # all steps; ends with one line for each
    python tools/check.py style types      # some of them
    python tools/check.py tests -- -x -k demand      # what follows -- goes to pytest

Every step runs, also after one has failed, so that one round shows all there is to mend. The exit code is 1 if any failed.
"""
from __future__ import annotations

from collections.abc import Iterator
import os
from pathlib import Path
import subprocess
import sys
import time

ROOT = Path(__file__).resolve().parent.parent
FLOOR = 88                                     # per cent of branches and lines; a floor to notice a fall, not a target
WORKERS = str(min(os.cpu_count() or 1, 4))
Command = list[str | Path]


def python(*words: str | Path) -> Command:
    return [sys.executable, "-m", *words]


def style(_: list[str]) -> Iterator[Command]:
    yield python("ruff", "check", ROOT)


def types(_: list[str]) -> Iterator[Command]:
    yield python("mypy")


def notebooks(_: list[str]) -> Iterator[Command]:
    books = sorted((ROOT / "notebooks").glob("[0-9]*.py"))
    if books:
        yield python("marimo", "check", "--strict", *books)


def tests(more: list[str]) -> Iterator[Command]:
    whole = [] if more else ["--cov", f"--cov-fail-under={FLOOR}", "--cov-report=term", "--durations=12"]
    yield python("pytest", "-q", "-rs", "-n", WORKERS, "--dist", "loadfile", *whole, *more)


def examples(_: list[str]) -> Iterator[Command]:
    books = sorted((ROOT / "reference_checks").rglob("*.ipynb"))
    if books:
        yield python("pytest", "-q", "-p", "no:cacheprovider", "--nbval", "--nbval-current-env", *books)


STEPS = {f.__name__: f for f in (style, types, notebooks, examples, tests)}


def run(name: str, more: list[str]) -> str:
    """The step's one line: passed, failed or nothing to do, and how long it took."""
    start, failed, ran = time.perf_counter(), False, False
    for command in STEPS[name](more):
        shown = " ".join(str(w).replace(f"{ROOT}{os.sep}", "") for w in command[1:])
        print(f"\n+ python {shown}", flush=True)
        failed |= subprocess.run(command, cwd=ROOT, stdin=subprocess.DEVNULL).returncode != 0
        ran = True
    outcome = "FAILED" if failed else "passed" if ran else "nothing to do"
    return f"{name:<10} {outcome:<13} {time.perf_counter() - start:6.1f} s"


def main(words: list[str]) -> int:
    more = words[words.index("--") + 1:] if "--" in words else []
    names = words[:words.index("--")] if "--" in words else words
    unknown = [n for n in names if n not in STEPS]
    if unknown:
        print(f"no step {', '.join(unknown)}; the steps are {', '.join(STEPS)}")
        return 2
    lines = [run(name, more) for name in names or STEPS]
    print("\n" + "\n".join(lines), flush=True)
    return int(any("FAILED" in line for line in lines))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
