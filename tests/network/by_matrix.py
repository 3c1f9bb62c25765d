"""The same estates by nodal analysis: every conductor's potential an unknown, Kirchhoff's current law at each, one dense matrix.

L1, L2, neutral and equipment ground are four conductors; neutral and ground meet at the gear and nowhere else. The transformer is
written by its three windings: ampere-turns balance, and each winding has its own impedance. No tree, no sums along a way.
"""
from __future__ import annotations

from typing import Any

import numpy as np
from radial import Estate

L1, L2, N, G = range(4)


class Matrix:
    """The inverse, the potentials without load, and where each conductor stands in them."""

    def __init__(self, e: Estate) -> None:
        self.e, self.place = e, {}
        for b in ("term", *(r.id for r in e.runs)):
            for k in (L1, L2, N, G):
                self.place[b, k] = len(self.place)
        n = len(self.place)
        a = np.zeros((n + 2, n + 2), dtype=complex)                    # and the currents of the two half windings
        self.source = np.zeros(n + 2, dtype=complex)
        for r in e.runs:
            for k, z in ((L1, r.line), (L2, r.line), (N, r.neutral), (G, r.ground)):
                if z:
                    i, j = self.place[r.start or "term", k], self.place[r.id, k]
                    for p, q, y in ((i, i, 1), (j, j, 1), (i, j, -1), (j, i, -1)):
                        a[p, q] += y / z
        self.tie(a, self.place["term", N], None)                       # the neutral of the transformer is the reference
        self.tie(a, self.place["term", G], None)
        self.tie(a, self.place["GEAR", G], self.place["GEAR", N])      # the main bonding jumper
        i1, i2 = n, n + 1                                              # out of L1, out of L2
        a[self.place["term", L1], i1] -= 1
        a[self.place["term", L2], i2] -= 1
        zp, zs = e.primary, e.secondary
        a[i1, [self.place["term", L1], i1, i2]] = 1, zp + zs, -zp      # V1 = E - zp (i1 - i2) - zs i1
        a[i2, [self.place["term", L2], i1, i2]] = 1, -zp, zp + zs      # V2 = -E + zp (i1 - i2) - zs i2
        self.source[[i1, i2]] = e.volts, -e.volts
        self.inverse = np.linalg.inv(a)
        self.alone = self.inverse @ self.source

    def tie(self, a: Any, node: int, to: int | None) -> None:
        """Potential of a node held to that of another; its own current law goes over to the other."""
        if to is not None:
            a[to] += a[node]
        a[node] = 0
        a[node, node] = 1
        if to is not None:
            a[node, to] = -1

    def volts_under(self, volts: Any) -> Any:
        """Volts L1 and L2 to neutral at every node, when the loads draw what they draw at `volts`."""
        drawn = self.source.copy()
        at = {r.id: v for r, v in zip(self.e.runs, volts, strict=True)}
        for load in self.e.loads:
            v1, v2 = at[load.node]
            for s, v, out, back in ((load.l1, v1, L1, N), (load.l2, v2, L2, N), (load.both, v1 - v2, L1, L2)):
                i = np.conj(s / v)
                drawn[self.place[load.node, out]] -= i
                drawn[self.place[load.node, back]] += i
        x = self.inverse @ drawn
        rows = [[x[self.place[r.id, k]] - x[self.place[r.id, N]] for k in (L1, L2)] for r in self.e.runs]
        return np.array(rows)

    def fault(self, node: str, one: int, two: int) -> float:
        """Bolted fault between two conductors: the voltage without load over the impedance that is seen there."""
        p, q = self.place[node, one], self.place[node, two]
        if (node, two) == ("GEAR", G):
            q = self.place[node, N]
        seen = self.inverse[p, p] - self.inverse[p, q] - self.inverse[q, p] + self.inverse[q, q]
        return float(abs((self.alone[p] - self.alone[q]) / seen))
