"""From a moved input to the changed page, in Chromium, beside the same page with its calculation replaced by a constant.

    python tests/benchmarks/page_speed.py [ROUNDS]

Each notebook is served as it is, and a second time with every cell behind the moved input replaced by a saved piece of page: two
saved states that take turns. What is timed is the way from the pressed key to the last change of what a reader sees. Rounds of
both take turns; the figure is the ratio of the medians.
"""

from __future__ import annotations

from collections.abc import Iterator
import contextlib
import importlib.util
import json
import os
from pathlib import Path
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from typing import Any
import urllib.request

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "tools")]
DEMO = str(ROOT / "demo_estate")
LAST = "The working of every number on this page"
BOOKS: dict[str, tuple[tuple[str, ...], str, str, tuple[dict[str, Any], dict[str, Any]]]] = {
    "04_feeders": (("answer", "kept", "sizes", "volts", "faults", "fields", "review", "moved"), "length", "feeder/EG/drop", (
        {"feeder": "EG", "set": {}}, {"feeder": "EG", "set": {"feeders.EG.length": "1250 ft"}})),
    "03_service_entrance": (("answer", "chain", "mains", "review", "moved"), "impedance", "fault/MSB/largest", (
        {"set": {}}, {"set": {"service.transformer.impedance": "2.3 %"}})),
}
"""Notebook -> pieces behind the input, the input, a number that moves, two cases."""
MOVED = """tag => new Promise(done => {
  const read = () => (document.querySelector(`.k-value a[data-tag="${tag}"]`) || {}).textContent, before = read();
  const t0 = performance.now(); let last = 0;
  const o = new MutationObserver(() => { if (last || read() !== before) last = performance.now(); });
  o.observe(document.body, {subtree: true, childList: true, characterData: true});
  const poll = () => { const now = performance.now();
    if ((last && now - last > 400) || now - t0 > 15000) { o.disconnect(); done(last ? last - t0 : -1); }
    else setTimeout(poll, 20); };
  poll(); })"""


def pieces(book: str) -> list[dict[str, str]]:
    """What the cells behind the input show in both cases."""
    from curtilage import notebook as nb

    names, _, _, cases = BOOKS[book]
    spec = importlib.util.spec_from_file_location(book, ROOT / "notebooks" / f"{book}.py")
    assert spec is not None and spec.loader is not None
    out = []
    for case in cases:
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        whole = {"estate": DEMO, "variant": "base", "edition": "", **case}
        _, defs = module.app.run(defs={"case": whole, "stated": nb.opened({**whole, "set": {}})})
        out.append({n: defs[n].text for n in names if n in defs})
    return out


def constant(book: str, folder: Path) -> Path:
    """The same notebook with those cells replaced by saved pieces."""
    names, control, _, _ = BOOKS[book]
    saved = pieces(book)
    (folder / "saved.json").write_text(json.dumps(saved), encoding="utf-8")
    text = (ROOT / "notebooks" / f"{book}.py").read_text(encoding="utf-8")
    cells = re.split(r"(?=^@app\.cell)", text, flags=re.M)
    out = []
    for cell in cells:
        returned = re.search(r"return \(?([\w, ]+?),?\)?$", cell, re.M)
        given = {n.strip() for n in returned[1].split(",")} if returned else set()
        mine = [n for n in names if n in given]
        if mine:
            name = mine[0]
            body = f"    {name} = mo.Html(SAVED[int(round({control}.value * 10)) // STEP % 2][{name!r}])\n    {name}\n"
            extra = "".join(f"    {n} = None\n" for n in sorted(given - {name}))
            gives = ", ".join(sorted(given))
            cell = f"@app.cell(hide_code=True)\ndef _(SAVED, STEP, {control}, mo):\n{extra}{body}    return {gives},\n\n\n"
        out.append(cell)
    step = 100 if control == "length" else 1
    load = (f"@app.cell\ndef _():\n    import json\n    SAVED = json.load(open({str(folder / 'saved.json')!r}))\n"
            f"    STEP = {step}\n    return SAVED, STEP\n\n\n")
    made = "".join(out[:1]) + load + "".join(out[1:])
    for name in ("page.css", "page_head.html"):
        (folder / name).write_bytes((ROOT / "notebooks" / name).read_bytes())
    path = folder / f"{book}.py"
    path.write_text(made, encoding="utf-8")
    return path


@contextlib.contextmanager
def served(path: Path) -> Iterator[str]:
    """The address of a notebook that is served."""
    from conftest import free_port

    url = f"http://127.0.0.1:{(port := free_port())}"
    env = {**os.environ, "CURTILAGE_ESTATE": DEMO, "OPENBLAS_NUM_THREADS": "1"}
    command = [sys.executable, "-m", "marimo", "-q", "run", str(path), "--headless", "--no-token", "--host", "127.0.0.1",
               "--port", str(port)]
    server = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=env)
    try:
        for _ in range(600):
            with contextlib.suppress(OSError):
                urllib.request.urlopen(f"{url}/health", timeout=1)
                break
            time.sleep(0.1)
        yield url
    finally:
        server.terminate()
        server.wait(10)


def measure(book: str, rounds: int) -> tuple[float, float]:
    """Medians, ms: the page as it is, and with a constant in place of its calculation."""
    from browser import find
    from conftest import FLAGS
    from playwright.sync_api import sync_playwright

    _, control, tag, _ = BOOKS[book]
    nth = 0 if control == "length" else 1
    with tempfile.TemporaryDirectory() as t, served(ROOT / "notebooks" / f"{book}.py") as real, served(
            constant(book, Path(t))) as floor, sync_playwright() as p:
        browser = p.chromium.launch(executable_path=find(), args=FLAGS)
        pages = [browser.new_page(viewport={"width": 1280, "height": 1600}) for _ in range(2)]
        for page, url in zip(pages, (real, floor), strict=True):
            page.goto(f"{url}/?feeder=EG")
            page.get_by_role("heading", name=LAST).wait_for(timeout=120_000)
            page.wait_for_timeout(2000)
        took: list[list[float]] = [[], []]
        for i in range(rounds):
            for page, into in zip(pages, took, strict=True):
                page.bring_to_front()
                slider = page.get_by_role("slider").nth(nth)
                slider.focus()
                page.evaluate(f"tag => {{ window.__moved = ({MOVED})(tag); return 1; }}", tag)
                slider.press("ArrowRight" if i % 2 == 0 else "ArrowLeft")
                into.append(page.evaluate("() => window.__moved"))
        browser.close()
    good = [[x for x in t if x > 0] for t in took]
    return statistics.median(good[0]), statistics.median(good[1])


if __name__ == "__main__":
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 12
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}, {rounds} rounds")
    for book in BOOKS:
        real, floor = measure(book, rounds)
        print(f"{book}: {real:.0f} ms, with a constant {floor:.0f} ms, ratio {real / floor:.2f}")
