"""What tests share: a served notebook, a browser page that may not leave this machine, and a loud list of what was not run."""
from __future__ import annotations

from collections.abc import Callable, Iterator
import os
from pathlib import Path
import socket
import subprocess
import sys
import time
from typing import Any
import urllib.request

from browser import find
from hypothesis import settings
import pytest

ROOT = Path(__file__).resolve().parent.parent
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]
HERE = ("http://127.0.0.1", "ws://127.0.0.1", "data:", "blob:", "about:", "file:")
NOT_RUN = "no Chromium on this machine"

settings.register_profile("steady", deadline=None, derandomize=True, print_blob=True)      # the same cases every time
settings.load_profile("steady")


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Headless Chromium. Where there is none the test is skipped and listed; in CI it fails, since CI can install one."""
    found = find()
    if not found:
        refuse = pytest.fail if os.environ.get("CI") else pytest.skip
        refuse(f"{NOT_RUN}; python tools/browser.py says how to get one")
    from playwright.sync_api import sync_playwright
    with sync_playwright() as p:
        b = p.chromium.launch(executable_path=found, args=FLAGS)
        yield b
        b.close()


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    """A page; the test fails if anything on it asks for something outside this machine."""
    p = browser.new_page(viewport={"width": 1280, "height": 1600})
    p.set_default_timeout(30_000)
    outside: list[str] = []
    p.on("request", lambda r: None if r.url.startswith(HERE) else outside.append(r.url))
    yield p
    p.close()
    assert not outside, f"the page asked for {outside}"


def free_port() -> int:
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return int(s.getsockname()[1])


def wait_until_up(server: subprocess.Popen[bytes], url: str, log: Path) -> None:
    for _ in range(600):
        if server.poll() is not None:
            raise RuntimeError(f"the notebook server ended: {log.read_text(encoding='utf-8')}")
        try:
            urllib.request.urlopen(f"{url}/health", timeout=1)
            return
        except OSError:
            time.sleep(0.1)
    raise RuntimeError(f"the notebook server did not answer: {log.read_text(encoding='utf-8')}")


@pytest.fixture(scope="module")
def serve(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[..., str]]:
    """serve("01_start", "--estate", "demo_estate", cwd=folder) gives the address of a notebook served in run mode."""
    servers: list[subprocess.Popen[bytes]] = []

    def start(notebook: str, *words: str, cwd: Path = ROOT, **env: str) -> str:
        port, log = free_port(), tmp_path_factory.mktemp("served") / "log"
        url = f"http://127.0.0.1:{port}"
        command = [sys.executable, "-m", "marimo", "-q", "run", str(ROOT / "notebooks" / f"{notebook}.py"), "--headless",
                   "--no-token", "--host", "127.0.0.1", "--port", str(port), *(["--", *words] if words else [])]
        with log.open("wb") as f:
            servers.append(subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=f, stderr=subprocess.STDOUT, cwd=cwd,
                                            env={**os.environ, "PYTHONUNBUFFERED": "1", **env}))
        wait_until_up(servers[-1], url, log)
        return url

    yield start
    for s in servers:
        s.terminate()
        try:
            s.wait(10)
        except subprocess.TimeoutExpired:
            s.kill()


def pytest_terminal_summary(terminalreporter: Any) -> None:
    skipped = terminalreporter.stats.get("skipped", [])
    missed = sorted({r.nodeid for r in skipped if NOT_RUN in str(r.longrepr)})
    if missed:
        terminalreporter.section("NOT RUN: no browser", sep="!", red=True, bold=True)
        for name in missed:
            terminalreporter.line(f"  {name}")
        terminalreporter.line("These tests look at pages in Chromium. python tools/browser.py says how to get one.")
