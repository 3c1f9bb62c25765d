"""Fair timing on a busy machine: rounds that alternate between the things compared, medians, garbage out first."""
from __future__ import annotations

from collections.abc import Callable
import gc
from importlib.metadata import version
import os
from pathlib import Path
import platform
from statistics import median
import subprocess
from time import perf_counter
from typing import Any

Call = Callable[[], Any]


def rounds(*calls: Call, n: int = 21, inner: int = 1, warm: bool = True) -> list[float]:
    """Seconds per call of each: the median of n rounds. Each round runs every call once warm, then `inner` times by the clock."""
    times: list[list[float]] = [[] for _ in calls]
    for _ in range(n):
        for kept, call in zip(times, calls, strict=True):
            gc.collect()
            if warm:
                call()
            start = perf_counter()
            for _ in range(inner):
                call()
            kept.append((perf_counter() - start) / inner)
    return [median(t) for t in times]


def process(*command: str | Path, cwd: Path | None = None) -> Call:
    """Run a command in a process of its own, to its end."""
    quiet = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    return lambda: subprocess.run(command, cwd=cwd, check=True, **quiet)      # type: ignore[call-overload]


def machine() -> str:
    """Processor, cores, system and the versions that matter, in one line."""
    name = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.exists():
        name = next((line.split(":")[1].strip() for line in info.read_text().splitlines() if line.startswith("model name")), name)
    packages = ", ".join(f"{p} {version(p)}" for p in ("pydantic", "ruamel.yaml", "pint"))
    return f"{name}, {os.cpu_count()} cores, {platform.system()}; Python {platform.python_version()}; {packages}"
