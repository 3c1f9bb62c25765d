"""The random estates as records of the package, and their loads as its array."""
from __future__ import annotations

from typing import Any

from curtilage.calc.network.records import Branch, Source
from curtilage.calc.network.tree import Network
import numpy as np
from radial import Estate, Run


def branch(run: Run) -> Branch:
    """Service conductors bring the fault back on their neutral: it stands in the place of their ground."""
    ground = run.ground or run.neutral
    return Branch(run.id, run.start, run.line.real, run.line.imag, run.neutral.real, run.neutral.imag, ground.real, ground.imag)


def network(e: Estate) -> Network:
    source = Source(e.volts, e.primary.real, e.primary.imag, e.secondary.real, e.secondary.imag)
    return Network(source, [branch(r) for r in e.runs])


def loads(e: Estate, net: Network) -> Any:
    at = {name: i for i, name in enumerate(net.ids)}
    s = np.zeros((len(net.ids), 3), dtype=complex)
    for load in e.loads:
        s[at[load.node]] += load.l1, load.l2, load.both
    return s
