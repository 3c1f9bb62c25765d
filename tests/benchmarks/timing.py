"""Fair timing on a busy machine: rounds that alternate between the things compared, medians, garbage out first.

What is timed is processor time, of this process and of those it started and waited for, so that other work on the machine
does not count; where a system cannot say that, the clock on the wall.
"""
from __future__ import annotations

from collections.abc import Callable
import gc
from importlib.metadata import version
import os
from pathlib import Path
import platform
from statistics import median
import subprocess
from time import perf_counter, process_time
from typing import Any

Call = Callable[[], Any]


def used() -> float:
    """Seconds of processor time so far."""
    try:
        import resource
    except ImportError:
        return perf_counter()
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return process_time() + children.ru_utime + children.ru_stime


def rounds(*calls: Call, n: int = 21, inner: int = 1, warm: bool = True) -> list[float]:
    """Seconds per call of each: the median of n rounds. Each round runs every call once warm, then `inner` times by the clock."""
    times: list[list[float]] = [[] for _ in calls]
    for _ in range(n):
        for kept, call in zip(times, calls, strict=True):
            gc.collect()
            if warm:
                call()
            start = used()
            for _ in range(inner):
                call()
            kept.append((used() - start) / inner)
    return [median(t) for t in times]


def process(*command: str | Path, cwd: Path | None = None) -> Call:
    """Run a command in a process of its own, to its end; Python keeps what it compiled, as it does for its users."""
    quiet = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    quiet["env"] = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}      # type: ignore[assignment]
    return lambda: subprocess.run(command, cwd=cwd, check=True, **quiet)      # type: ignore[call-overload]


def machine() -> str:
    """Processor, cores, system and the versions that matter, in one line."""
    name = platform.processor() or platform.machine()
    info = Path("/proc/cpuinfo")
    if info.exists():
        name = next((line.split(":")[1].strip() for line in info.read_text().splitlines() if line.startswith("model name")), name)
    beside = ("pydantic", "ruamel.yaml", "pint", "numpy", "opendssdirect.py", "pandapower")
    packages = ", ".join(f"{p} {version(p)}" for p in beside)
    return f"{name}, {os.cpu_count()} cores, {platform.system()}; Python {platform.python_version()}; {packages}"
