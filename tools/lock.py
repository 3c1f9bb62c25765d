"""Renew requirements.lock from pyproject.toml: every package, for every platform, with hashes and without addresses.

    python tools/lock.py [--upgrade]       # needs uv: python -m pip install uv
"""
from __future__ import annotations

from pathlib import Path
import shutil
import subprocess
import sys

ROOT = Path(__file__).resolve().parent.parent
HOW = ("pip", "compile", "pyproject.toml", "--extra", "dev", "--generate-hashes", "--universal", "--python-version", "3.11",
       "--no-header", "--no-annotate", "--quiet", "-o", "requirements.lock")


def uv() -> list[str]:
    found = shutil.which("uv")
    if found:
        return [found]
    here = subprocess.run([sys.executable, "-m", "uv", "--version"], capture_output=True)
    if here.returncode:
        sys.exit("renewing the lock needs uv: python -m pip install uv")
    return [sys.executable, "-m", "uv"]


def main() -> None:
    subprocess.run([*uv(), *HOW, *sys.argv[1:]], cwd=ROOT, check=True)
    text = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    if "://" in text or "--index" in text:
        sys.exit("requirements.lock names an address; it must name packages and hashes only")


if __name__ == "__main__":
    main()
