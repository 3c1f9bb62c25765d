"""A radial network laid out for work on whole arrays: nodes in ranks from the transformer outward, siblings side by side.

Sum and difference. With conductors L1 and L2 alike, V1 - V2 depends on I1 - I2 alone and V1 + V2 on I1 + I2 alone, through
conductors (Z_line and Z_line + 2 Z_neutral) and through the centre-tapped transformer (2 Z_primary + Z_secondary and
Z_secondary). So each branch has two impedances and the two halves of the network never meet; the explicit conductors come
back by adding and subtracting. Not for: L1 and L2 of different sizes, mutual impedance between conductors, loops.
"""
from collections.abc import Sequence
from itertools import count
from math import isfinite

from curtilage.calc.network.records import Array, Branch, Source
from curtilage.errors import refuse


class Rank:
    """The nodes that lie equally many branches away: a slice, the parent of each, and where each family begins."""

    __slots__ = ("heads", "nodes", "parents", "starts")

    def __init__(self, nodes: slice, parents: Array, heads: Array, starts: Array) -> None:
        self.nodes, self.parents, self.heads, self.starts = nodes, parents, heads, starts


class Network:
    """A source and the branches behind it. Row 0 of the inner arrays is the terminals of the transformer.

    `place`: position of a branch as given -> its row. `z`: (2, rows) ohm, of difference and sum; `loops`: (rows, 3) ohm, of
    faults line to line, line to neutral and line to ground.
    """

    def __init__(self, source: Source, branches: Sequence[Branch]) -> None:
        import numpy as np
        self.source = source
        self.ids = tuple(b.id for b in branches)
        order, parents, sizes = ordered(branches)
        self.place = np.empty(len(order), dtype=np.intp)
        self.place[order] = np.arange(1, len(order) + 1)
        ohms = np.array([b[2:8] for b in branches], dtype=float).reshape(-1, 6)
        if not (np.isfinite(ohms).all() and (ohms >= 0).all()):
            bad = next(b for b in branches if not all(isfinite(x) and x >= 0 for x in b[2:8]))
            refuse(bad.id, f"an impedance of {list(bad[2:8])} ohm", "each part is a number, not below 0")
        self.line, self.neutral, self.ground = ohms.view(complex).T          # in the order given
        line, neutral = self.line[order], self.neutral[order]
        primary = complex(source.r_primary, source.x_primary)
        secondary = complex(source.r_secondary, source.x_secondary)
        self.primary, self.secondary = primary, secondary
        self.z = np.empty((2, len(order) + 1), dtype=complex)
        self.z[:, 0] = 2 * primary + secondary, secondary
        self.z[0, 1:] = line
        self.z[1, 1:] = line + 2 * neutral
        self.loops = np.empty((len(order) + 1, 3), dtype=complex)
        self.loops[0] = 2 * primary + secondary, primary + secondary, primary + secondary
        returns = np.where(self.ground == 0, np.inf, self.ground)[order]
        self.loops[1:] = np.stack((line, line + neutral, line + returns), axis=1)
        self.parents = np.array([-1, *parents], dtype=np.intp)
        self.is_leaf = np.ones(len(order) + 1, dtype=bool)
        self.is_leaf[self.parents[1:]] = False
        self.ranks = tuple(self._ranks(sizes))
        self.plans: dict[bytes, object] = {}

    def _ranks(self, sizes: list[int]) -> list[Rank]:
        import numpy as np
        out, start = [], 1
        for size in sizes:
            nodes = slice(start, start + size)
            parents = self.parents[nodes]
            first = np.flatnonzero(np.diff(parents, prepend=-1))
            out.append(Rank(nodes, parents, parents[first], first))
            start += size
        return out

    def row(self, node: str) -> int:
        """Position of a node in the arrays of results."""
        return self.ids.index(node)


def ordered(branches: Sequence[Branch]) -> tuple[list[int], list[int], list[int]]:
    """Positions of the branches rank by rank, the row of the parent of each, and how many are in each rank.

    Errors: two branches to one node; a node that hangs on nothing, or on itself.
    """
    children: dict[str, list[int]] = {}
    seen: set[str] = set()
    for i, b in enumerate(branches):
        if b.id in seen or not b.id:
            refuse(b.id or "a branch", "two branches end there" if b.id else "it has no name", "a radial network")
        seen.add(b.id)
        children.setdefault(b.start, []).append(i)
    order, parents, sizes = [], [], []
    rank = [(0, "")]
    rows = count(1)
    while rank:
        below = []
        for row, name in rank:
            for i in children.get(name, ()):
                order.append(i)
                parents.append(row)
                below.append((next(rows), branches[i].id))
        if below:
            sizes.append(len(below))
        rank = below
    if len(order) < len(branches):
        lost = sorted(seen - {branches[i].id for i in order})
        refuse(lost[0], "no way leads there from the transformer", "every branch starts at the terminals or at another node")
    return order, parents, sizes


def gathered(net: Network, currents: Array) -> Array:
    """Kirchhoff's current law: what enters each node, from what is drawn at each; (2, rows, ...) A, changed in place."""
    import numpy as np
    for rank in reversed(net.ranks):
        currents[:, rank.heads] += np.add.reduceat(currents[:, rank.nodes], rank.starts, axis=1)
    return currents


def spread(net: Network, currents: Array) -> Array:
    """Kirchhoff's voltage law: difference and sum of the voltages at each node; (2, rows, ...) V."""
    import numpy as np
    z = net.z.reshape(net.z.shape + (1,) * (currents.ndim - 2))
    volts = np.multiply(z, currents)
    np.negative(volts, out=volts)
    volts[0, 0] += 2 * net.source.volts
    for rank in net.ranks:
        volts[:, rank.nodes] += volts[:, rank.parents]
    return volts


def both(x: Array) -> Array:
    """The two conductors, from difference and sum; (2, rows, ...)."""
    import numpy as np
    out = np.empty_like(x)
    out[0] = x[1] + x[0]
    out[1] = x[1] - x[0]
    out /= 2
    return out
