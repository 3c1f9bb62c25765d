"""What is measured: the whole design beside its yardstick, one change, telling, loading a list, quantities, growth, start-up."""
from __future__ import annotations

import csv
from functools import cache
from math import isclose
from pathlib import Path
import sys
from typing import Any

from curtilage.design import Design
from curtilage.model import Estate, load
from curtilage.model.loads import Load
from curtilage.model.rows import fast, read_csv
from curtilage.values.told import Told, explain_text
from grown import grown
import plain_design
from timing import Call, process

ROOT = Path(__file__).resolve().parent.parent.parent
DEMO = ROOT / "demo_estate"


@cache
def estate() -> Estate:
    return load(DEMO)


@cache
def design() -> Design:
    return Design(estate())


def same(ours: Any, plain: Any) -> bool:
    """Equal words, flags and sizes; numbers equal but for the order in which they were added."""
    if isinstance(ours, tuple):
        return len(ours) == len(plain) and all(map(same, ours, plain))
    if isinstance(ours, float) and not isinstance(plain, bool):
        return isclose(ours, plain, rel_tol=1e-11, abs_tol=1e-9)
    return bool(ours == plain)


# ------------------------------------------------------------------------------------------------------- the whole design


def plainly() -> Call:
    """The same arithmetic, nothing told, records given."""
    runs = list(plain_design.items(design()).values())
    return lambda: [run() for run in runs]


def methods() -> Call:
    """The methods of the package on the same records: what it costs to keep them tellable and the edition as data."""
    d = design()
    calls = [(a.method, (a.record, *(m[1] for m in a.more), *a.besides, *d._editions(a, d.ed))) for a in d.asks.values()]
    return lambda: [f(*args) for f, args in calls]


def whole() -> Call:
    """Rows sorted, records made, every item asked for by name and kept."""
    e = estate()
    return lambda: Design(e)


def swift() -> Call:
    """The same with methods bound to their edition."""
    e = estate()
    return lambda: Design(e, swift=True)


# ------------------------------------------------------------------------------------------------------------- one change


def row(**changed: Any) -> Load:
    r = next(r for r in estate().loads if r.id == "L035")
    return r._replace(**changed)


def longer() -> Call:
    d, r = design(), row()
    changed = row(length=(r.length or 0.0) + 20.0)
    return lambda: d.with_row(changed)


def heavier() -> Call:
    """One row of every tenth, each in a design of its own: `SPREAD` changes in a call."""
    d = design()
    changed = [r._replace(va=r.va + 600.0, unit_va=(r.va + 600.0) / (r.qty or 1), amperes=None) for r in spread()]
    return lambda: [d.with_row(r) for r in changed]


def spread() -> list[Load]:
    """Every tenth row that has a branch circuit and no horsepower: its load can change without its sort of calculation."""
    return [r for r in estate().loads if f"circuit/{r.id}" in design().items and not r.hp and not r.mca][::10]


# ---------------------------------------------------------------------------------------------------------------- telling

ITEM = "feeder/GH"


def item(text: bool = False) -> Call:
    """One item told anew, with its text if wanted; what it takes from other items is told anew with it."""
    e = estate()

    def tell() -> Any:
        d = Design.__new__(Design)
        vars(d).update(vars(design()) | {"_told": {}})
        found = d.tell(ITEM)
        return [explain_text(x, deep=False) for x in found if isinstance(x, Told)] if text else found
    assert e.feeders
    return tell


def everything() -> Call:
    def tell() -> Any:
        d = Design.__new__(Design)
        vars(d).update(vars(design()) | {"_told": {}})
        return [d.tell(key) for key in d.items]
    return tell


# ------------------------------------------------------------------------------------------------------ lists, quantities


@cache
def list_of_300() -> str:
    """300 rows of the demonstration's own list."""
    head, *rows = (DEMO / "loads.csv").read_text(encoding="utf-8").splitlines()
    many = [f"{k}{r}" for k in "ABC" for r in rows][:300]
    return "\n".join([head, *many]) + "\n"


def read_plainly() -> Call:
    text = list_of_300()
    return lambda: list(csv.DictReader(text.splitlines()))


def read_rows() -> Call:
    text = list_of_300()
    assert len(fast(read_csv(text, "loads.csv")) or ()) == 300
    return lambda: fast(read_csv(text, "loads.csv"))


def quantities() -> Call:
    """Five formulas of a branch circuit with quantities in place of numbers, for 300 circuits; and nothing else."""
    import pint
    u = pint.UnitRegistry()
    u.define("kft = 1000 ft")
    d = design()
    runs = [(d.asks[k].record, d.items[k]) for k in d.items if k.startswith("circuit/")]
    m = d.ed.view("cu-pvc")
    given = []
    for c, r in (runs * 2)[:300]:
        given.append((c.va * u.volt * u.ampere, c.volts * u.volt, m.r[r.size] * u.ohm / u.kft, m.x[r.size] * u.ohm / u.kft, c.pf,
                      c.length * u.ft, m.ampacity90[r.size] * u.ampere, m.ampacity75[r.size] * u.ampere, r.size, r.drop))

    def formulas() -> list[Any]:
        out = []
        for va, volts, res, x, pf, length, hot, lugs, _, _ in given:
            amps = (va / volts).to("ampere")
            lost = 2 * (res * pf + x * (1 - pf * pf) ** 0.5) * amps * length
            out.append((amps, 1.25 * amps, min(hot * 0.8, lugs), lost.to("volt"), (lost / volts).to("percent")))
        return out
    assert all(isclose(o[4].magnitude, g[-1], rel_tol=1e-9) for o, g in zip(formulas(), given, strict=True))
    return formulas


# ------------------------------------------------------------------------------------------------------- growth, start-up


def times(n: int) -> Call:
    e = grown(estate(), n)
    return lambda: Design(e)


def start(*words: str) -> Call:
    """Our command from a cold start, without what an installer's launcher adds; no words: Python that does nothing."""
    code = "import sys; from curtilage.__main__ import main; sys.exit(main())" if words else "pass"
    return process(sys.executable, "-c", code, *words)


def launched(*words: str) -> Call:
    """The same through the launcher that the installer wrote (that of older pip imports `re` first)."""
    return process(Path(sys.executable).with_name("curtilage"), *words)
