"""Estates with loads of one kind by pandapower: one conductor loop, per unit.

pandapower is a power-flow library for balanced three-phase networks. Per unit, a single-phase loop of z ohm at V volts under S is
the same as a balanced line of z ohm per phase at V volts line to line under S: both lose S z / V^2.
"""
from __future__ import annotations

from typing import Any
import warnings

import numpy as np
from radial import Estate

warnings.filterwarnings("ignore", category=FutureWarning)
warnings.filterwarnings("ignore", category=DeprecationWarning)


def loop(e: Estate, kind: str) -> tuple[float, complex, list[complex]]:
    """Volts, ohm of the transformer and ohm of each run, there and back: "line" between the lines, "one" on L1 and neutral,
    "ground" on L1 and the equipment ground (the neutral, on the service conductors)."""
    if kind == "line":
        return 2 * e.volts, 4 * e.primary + 2 * e.secondary, [2 * r.line for r in e.runs]
    back = [r.neutral if kind == "one" else r.ground or r.neutral for r in e.runs]
    return e.volts, e.primary + e.secondary, [r.line + b for r, b in zip(e.runs, back, strict=True)]


C = 1.1
"""The voltage factor of IEC 60909 for the largest fault at low voltage with a tolerance of 10 %."""


def build(e: Estate, kind: str, short: bool = False) -> Any:
    """For load flow an ideal source before the transformer; for short circuits the transformer is the source's own impedance."""
    import pandapower as pp
    volts, transformer, ohms = loop(e, kind)
    kv = volts / 1000
    net = pp.create_empty_network(sn_mva=0.1)
    names = ["", *(r.id for r in e.runs)] + ([] if short else ["source"])
    buses = dict(zip(names, pp.create_buses(net, len(names), vn_kv=kv), strict=True))
    pp.create_ext_grid(net, buses["" if short else "source"], vm_pu=1.0, s_sc_max_mva=C * kv**2 / abs(transformer),
                       rx_max=transformer.real / transformer.imag)
    runs = [(r.start, r.id, z) for r, z in zip(e.runs, ohms, strict=True)] + ([] if short else [("source", "", transformer)])
    z = np.array([r[2] for r in runs])
    pp.create_lines_from_parameters(net, [buses[r[0]] for r in runs], [buses[r[1]] for r in runs], length_km=1.0,
                                    r_ohm_per_km=z.real, x_ohm_per_km=z.imag, c_nf_per_km=0.0, max_i_ka=1.0, endtemp_degree=20.0)
    mva = np.array([x.both if kind == "line" else x.l1 for x in e.loads]) / 1e6
    pp.create_loads(net, [buses[x.node] for x in e.loads], p_mw=mva.real, q_mvar=mva.imag)
    return net


def solve(net: Any) -> None:
    import pandapower as pp
    pp.runpp(net, algorithm="nr", init="flat", tolerance_mva=1e-13, max_iteration=50, numba=False)


def volts(net: Any, e: Estate, kind: str) -> Any:
    """Complex volts of the loop at the end of every run."""
    found = net.res_bus.iloc[1 : 1 + len(e.runs)]
    return found.vm_pu.to_numpy() * np.exp(1j * np.deg2rad(found.va_degree.to_numpy())) * loop(e, kind)[0]


def faults(net: Any) -> Any:
    """A at the end of every run by the short-circuit calculation of IEC 60909; its voltage factor is taken out again."""
    import pandapower.shortcircuit as sc
    sc.calc_sc(net, case="max", lv_tol_percent=10, ip=False, ith=False, inverse_y=True)
    return net.res_bus_sc.iloc[1:].ikss_ka.to_numpy() * 1000 * 3**0.5 / C
