"""Find a Chromium for the tests that look at pages, or bring one through the system's packages.

    python tools/browser.py       # says what it found or did; never fails: tests without a browser are skipped and listed
"""
from __future__ import annotations

import os
from pathlib import Path
import shutil
import subprocess
import sys

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
PLACES = ("/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
          "/Applications/Chromium.app/Contents/MacOS/Chromium",
          "C:/Program Files/Google/Chrome/Application/chrome.exe",
          "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe")
PACKAGES = ("chromium", "fonts-dejavu-core")
BY_HAND = ("no Chromium found: the browser tests will be skipped, and listed at the end.\n"
           "Install one to run them (Debian, Ubuntu: apt-get install chromium; macOS: brew install --cask chromium),\n"
           "or say where it is: CHROMIUM=/path/to/chromium")


def find() -> str | None:
    """The browser's executable: the CHROMIUM variable, the usual names on PATH, the usual places."""
    given = os.environ.get("CHROMIUM")
    if given:
        return given if Path(given).exists() else None
    on_path = (shutil.which(name) for name in NAMES)
    return next((p for p in on_path if p), None) or next((p for p in PLACES if Path(p).exists()), None)


def as_root() -> list[str] | None:
    """The words to put before a command that needs root: none, sudo without a question, or not possible."""
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        return []
    sudo = shutil.which("sudo")
    if sudo and subprocess.run([sudo, "-n", "true"], capture_output=True, stdin=subprocess.DEVNULL).returncode == 0:
        return [sudo, "-n"]
    return None


def install() -> None:
    root = as_root()
    if root is None or not shutil.which("apt-get"):
        return
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    if root:
        root = [*root, "--preserve-env=DEBIAN_FRONTEND"]
    update = [*root, "apt-get", "-qq", "update"]
    fetch = [*root, "apt-get", "-qq", "-y", "-o", "Acquire::Retries=3", "install", "--no-install-recommends", *PACKAGES]
    for command in (update, fetch):
        print("+", *command, flush=True)
        done = subprocess.run(command, env=quiet, stdin=subprocess.DEVNULL, capture_output=True, text=True)
        if done.returncode:
            print((done.stdout + done.stderr).strip()[-2000:], flush=True)


def main() -> None:
    if not find():
        install()
    print(f"browser: {find() or BY_HAND}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
