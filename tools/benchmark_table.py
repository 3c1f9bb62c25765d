"""Print the table of README's performance section: what is measured, beside what, how many times.

    python tools/benchmark_table.py [--quick] [--readme]

Rounds alternate between the things compared, medians are taken, results are checked to be equal first. Times depend on the
machine and on what else it does; the ratios hold. `--quick` leaves out the estate a thousand times over; `--readme` puts
the table into README.md.
"""
from __future__ import annotations

from math import log
from pathlib import Path
import sys

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "tests" / "benchmarks"), str(ROOT / "tests" / "network")]

import measured  # noqa: E402
import measured_network as exact  # noqa: E402
import plain_design  # noqa: E402
from timing import machine, rounds  # noqa: E402

LINES: list[str] = []


def say(text: str) -> None:
    LINES.append(text)
    print(text, flush=True)


def line(what: str, ours: float, beside: str, theirs: float, ratio: str = "") -> None:
    """One row; a small ratio is shown as a share."""
    r = ours / theirs
    shown = ratio or (f"{r:.2f}" if r >= 0.1 else f"1/{theirs / ours:.0f}")
    say(f"| {what} | {spoken(ours)} | {beside} | {spoken(theirs)} | {shown} |")


def spoken(seconds: float) -> str:
    return f"{seconds:.2f} s" if seconds >= 1 else f"{seconds * 1e3:.3g} ms" if seconds >= 1e-3 else f"{seconds * 1e6:.0f} us"


def check() -> None:
    d = measured.design()
    wrong = [key for key, run in plain_design.items(d).items() if not measured.same(d.items[key], run())]
    if wrong:
        sys.exit(f"the yardstick and the design differ, so there is nothing to compare: {wrong[:5]}")


def designs() -> None:
    plain, methods, whole, swift, pint = rounds(measured.plainly(), measured.methods(), measured.whole(), measured.swift(),
                                                measured.quantities(), n=15)
    line("whole design, every number tellable", whole, "the same arithmetic written plainly", plain)
    line("... its methods alone, on the same records", methods, "the same arithmetic written plainly", plain)
    line("... with methods bound to their edition", swift, "the same arithmetic written plainly", plain)
    line("whole design", whole, "five formulas of 300 branch circuits with pint quantities", pint)
    longer, heavier, full = rounds(measured.longer(), measured.heavier(), measured.whole(), n=15)
    line("one circuit longer", longer, "whole design", full, f"{100 * longer / full:.1f} %")
    heavier /= len(measured.spread())
    line("one load larger (mean of rows all over the list)", heavier, "whole design", full, f"{100 * heavier / full:.1f} %")
    item, text, every = rounds(measured.item(), measured.item(True), measured.everything(), n=5)
    line("one feeder told, with what it rests on", item, "whole design", full)
    line("... and put into words", text, "whole design", full)
    line("every item told", every, "whole design", full)


def lists() -> None:
    rows, plain = rounds(measured.read_rows(), measured.read_plainly(), n=41)
    line("300 loads from CSV, units and limits checked", rows, "csv.DictReader on the same text", plain)


def starts() -> None:
    empty, version, launched, design = rounds(measured.start(), measured.start("--version"), measured.launched("--version"),
                                              measured.start("design", str(measured.DEMO)), n=11, warm=False)
    line("`curtilage --version`, cold", version, "`python -c pass`", empty)
    line("... through the installer's launcher", launched, "`python -c pass`", empty)
    line("`curtilage design demo_estate`, cold, printed", design, "`python -c pass`", empty)


def growth(largest: int) -> None:
    sizes = [n for n in (1, 10, 100, 1000) if n <= largest]
    seconds = [rounds(measured.times(n), n=max(1, 7 - 2 * i), warm=i < 2)[0] for i, n in enumerate(sizes)]
    last = log(seconds[-1] / seconds[-2]) / log(sizes[-1] / sizes[-2])
    many = ", ".join(f"{n}: {spoken(s)}" for n, s in zip(sizes, seconds, strict=True))
    say(f"| the estate n times over | {many} | | | exponent of the last tenfold {last:.2f} |")


def network(largest: int) -> None:
    """The exact network beside two general power-flow programs; ours says how many times faster."""
    apart = exact.same_voltages()
    if apart > 1e-9:
        sys.exit(f"our voltages and those of OpenDSS differ by {apart:.1e}, so there is nothing to compare")
    one, rough, tight, loose, setting = rounds(exact.ours(), exact.ours(1e-8), exact.opendss(1e-11), exact.opendss(1e-8),
                                               exact.opendss(1e-8, False), n=15, inner=20)
    faster("exact voltages of 322 buses, to 1e-11", one, "OpenDSS, loads set and solved to 1e-11", tight)
    faster("...", one, "OpenDSS, solved to 1e-8, without setting", loose - setting)
    faster("... to 1e-8", rough, "OpenDSS, solved to 1e-8, without setting", loose - setting)
    many = rounds(exact.many(10_000), n=3, warm=False)[0] / 10_000
    faster("... each of 10,000 scenarios", many, "OpenDSS, loads set and solved to 1e-11", tight)
    ours, theirs, pandapower = rounds(exact.our_faults(), exact.their_faults(), exact.pandapower_faults(), n=7, inner=3)
    faster("three kinds of fault at 322 buses", ours, "OpenDSS, fault study", theirs)
    faster("...", ours, "pandapower, IEC 60909, one kind", pandapower)
    exact.by_opendss.build(exact.made())
    looked, solved, flow = rounds(exact.looked_at(), exact.opendss(1e-8), exact.pandapower_flow(), n=5)
    line("whole design with exact voltages and faults, tellable", looked, "OpenDSS, 322 buses set and solved to 1e-8", solved)
    line("...", looked, "pandapower, one power flow of 322 buses", flow)
    sizes = [n for n in (1, 10, 100) if n <= largest]
    seconds = [rounds(exact.times(n), n=5)[0] for n in sizes]
    last = log(seconds[-1] / seconds[-2]) / log(sizes[-1] / sizes[-2])
    grew = ", ".join(f"{320 * n + 2:,} buses: {spoken(s)}" for n, s in zip(sizes, seconds, strict=True))
    say(f"| exact voltages, the network n times over | {grew} | | | exponent of the last tenfold {last:.2f} |")
    say(f"| largest difference of those voltages from OpenDSS | {apart:.1e} | | | |")


def faster(what: str, ours: float, beside: str, theirs: float) -> None:
    line(what, ours, beside, theirs, f"{theirs / ours:.3g} times faster")


def main() -> None:
    check()
    d = measured.design()
    circuits = sum(key.startswith("circuit/") for key in d.items)
    feeders = sum(key.startswith("feeder/") for key in d.items)
    say(f"{machine()}. Demonstration estate: {len(measured.estate().loads)} loads, {circuits} branch circuits, {feeders} "
        f"feeders, {len(d.items)} items,\n{len(list(d.tags()))} numbers. Processor time, medians of alternating rounds.\n")
    say("| what | time | beside | time | ratio |\n|---|---|---|---|---|")
    designs()
    lists()
    starts()
    growth(100 if "--quick" in sys.argv else 1000)
    network(100)
    if "--readme" in sys.argv:
        put(ROOT / "README.md")


def put(page: Path) -> None:
    """Between the two marks of the page."""
    text = page.read_text(encoding="utf-8")
    before, rest = text.split("<!-- performance -->")
    _, after = rest.split("<!-- end performance -->")
    page.write_text(f"{before}<!-- performance -->\n{chr(10).join(LINES)}\n<!-- end performance -->{after}", encoding="utf-8")


if __name__ == "__main__":
    main()
