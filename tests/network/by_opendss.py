"""The same estates by OpenDSS: a centre-tapped transformer of three windings, lines of three conductors, constant power.

OpenDSS is a power-flow program of EPRI, used by way of opendssdirect.py, in the tests alone. Its source is given an explicit
impedance and its transformer no shunt, because what it takes by itself is not nothing.
"""
from __future__ import annotations

from typing import Any

import numpy as np
import opendssdirect as dss
from radial import Estate

PRIMARY = 7200.0


def share(e: Estate) -> complex:
    """A tenth of the common impedance stands in the source, on the primary side; ohm at a half winding."""
    return 0.1 * e.primary


def build(e: Estate, tolerance: float = 1e-11) -> None:
    """The circuit in OpenDSS's own words."""
    base = e.volts**2 / (e.kva * 1000)
    source = share(e) * (PRIMARY / e.volts) ** 2
    p, s = (e.primary - share(e)) / base * 100, e.secondary / base * 100
    kv, r, x = PRIMARY / 1000, source.real, source.imag
    run = dss.Text.Command
    run("clear")
    run("set defaultbasefrequency=60")
    run(f"new circuit.e phases=1 bus1=src.1 basekv={kv!r} pu=1 angle=0 r1={r!r} x1={x!r} r0={r!r} x0={x!r}")
    half = e.volts / 1000
    run(f"new transformer.t phases=1 windings=3 xhl={(p + s).imag!r} xht={(p + s).imag!r} xlt={(2 * s).imag!r} "
        f"%noloadloss=0 %imag=0 ppm_antifloat=0 "
        f"wdg=1 bus=src.1.0 kv={kv!r} kva={e.kva!r} %r={p.real!r} "
        f"wdg=2 bus=term.1.0 kv={half!r} kva={e.kva!r} %r={s.real!r} "
        f"wdg=3 bus=term.0.2 kv={half!r} kva={e.kva!r} %r={s.real!r}")
    for b in e.runs:
        r3 = f"({b.line.real!r} | 0 {b.line.real!r} | 0 0 {b.neutral.real!r})"
        x3 = f"({b.line.imag!r} | 0 {b.line.imag!r} | 0 0 {b.neutral.imag!r})"
        start = f"{b.start}.1.2.3" if b.start else "term.1.2.0"
        run(f"new line.{b.id} phases=3 bus1={start} bus2={b.id}.1.2.3 length=1 units=none "
            f"rmatrix={r3} xmatrix={x3} cmatrix=(0 | 0 0 | 0 0 0)")
    for i, load in enumerate(e.loads):
        for s_, nodes, volts in ((load.l1, "1.3", half), (load.l2, "3.2", half), (load.both, "1.2", 2 * half)):
            if s_:
                run(f"new load.d{i}_{nodes.replace('.', '')} phases=1 conn=wye bus1={load.node}.{nodes} kv={volts!r} "
                    f"kw={s_.real / 1000!r} kvar={s_.imag / 1000!r} model=1 vminpu=0.05 vmaxpu=3")
    run(f"set mode=snapshot controlmode=off tolerance={tolerance!r} maxiterations=200")


def set_loads(e: Estate) -> None:
    """Every load's kW and kvar, as a change of scenario sets them."""
    values = iter([s for load in e.loads for s in (load.l1, load.l2, load.both) if s])
    i = dss.Loads.First()
    while i:
        s = next(values)
        dss.Loads.kW(s.real / 1000)
        dss.Loads.kvar(s.imag / 1000)
        i = dss.Loads.Next()


def solve() -> None:
    dss.Solution.Solve()
    assert dss.Solution.Converged(), "OpenDSS did not converge"


def volts(e: Estate) -> Any:
    """Complex volts L1 to neutral and L2 to neutral at the end of every run."""
    all_volts = dict(zip(dss.Circuit.AllNodeNames(), np.array(dss.Circuit.AllBusVolts()).view(complex), strict=True))
    v = np.array([[all_volts[f"{b.id.lower()}.{k}"] for k in (1, 2, 3)] for b in e.runs])
    return np.column_stack((v[:, 0] - v[:, 2], v[:, 1] - v[:, 2]))


def study() -> None:
    """Its fault study, after a solution; with loads in the circuit it would take them along as impedances."""
    dss.Text.Command("set mode=faultstudy")
    dss.Solution.Solve()


def faults(e: Estate) -> Any:
    """A between the lines and from L1 to neutral at the end of every run, from the impedance matrix of each bus."""
    solve()
    study()
    out = []
    for r in e.runs:
        dss.Circuit.SetActiveBus(r.id)
        z = np.array(dss.Bus.ZscMatrix()).view(complex).reshape(3, 3)
        v = np.array(dss.Bus.Voc()).view(complex)
        out.append([abs((v[i] - v[j]) / (z[i, i] + z[j, j] - z[i, j] - z[j, i])) for i, j in ((0, 1), (0, 2))])
    return np.array(out)
