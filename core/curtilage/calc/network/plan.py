"""Where loads hang in a network, and what the voltage at each answers to their currents.

Two ways, one physics (`tree`). Up to some hundred panels the backbone is folded: branch circuits that carry a single load stay
apart with the impedance of their own loop, and the rest becomes one small matrix, volts at a load per ampere at another. Above
that the tree is swept, rank by rank, inward for the currents and outward for the voltages.
"""
from collections.abc import Callable

from curtilage.calc.network.records import BOTH, Array
from curtilage.calc.network.tree import Network, gathered, spread

FOLD_UP_TO = 100
"""Nodes of a backbone that are folded into a matrix; above that the sweep is faster (measured)."""

DRAWN = ((1.0, 1.0, 2.0), (1.0, -1.0, 0.0))
"""What one ampere of a load puts on the difference and the sum of currents: on L1, on L2, between them."""
SEEN = ((0.5, 0.5, 1.0), (0.5, -0.5, 0.0))
"""What a load sees of the difference and the sum of voltages. A load on L2 is counted from neutral to L2."""


class Plan:
    """Loads in the order of the arrays that the solution works on.

    `node` (row) and `kind` of each load; `picked`: their places in a flattened array of nodes and kinds. `respond`: amperes
    at the loads -> volts there, (loads, ...); `alone`: volts there without load.
    """

    def __init__(self, net: Network, loaded: Array, fold: bool | None = None) -> None:
        import numpy as np
        self.net = net
        given, kind = np.nonzero(loaded)
        node = net.place[given]
        single = net.is_leaf[node] & (loaded.sum(axis=1)[given] == 1)
        in_trunk = ~net.is_leaf
        in_trunk[node[~single]] = True
        self.folded = fold if fold is not None else int(in_trunk.sum()) <= FOLD_UP_TO
        at = np.where(single, net.parents[node], node) if self.folded else node
        order = np.lexsort((kind, at))
        self.node, self.kind, self.at = node[order], kind[order], at[order]
        self.picked = (given * 3 + kind)[order]
        self.seen = np.array(SEEN)[:, self.kind]
        self.alone = 2 * net.source.volts * self.seen[0] + 0j
        self.by_node = np.argsort(self.node, kind="stable")
        self.drawn = np.array(DRAWN)[:, self.kind[self.by_node]]
        self.starts = np.flatnonzero(np.diff(self.node[self.by_node], prepend=-1))
        self.loaded = self.node[self.by_node[self.starts]]
        self.respond: Callable[[Array], Array] = self._sweep
        if self.folded:
            self._fold(np.flatnonzero(in_trunk), single[order])

    def _fold(self, trunk: Array, single: Array) -> None:
        """The matrix of the backbone, between groups of loads alike in place and kind."""
        import numpy as np
        net, n = self.net, len(trunk)
        number = np.empty(len(net.parents), dtype=np.intp)
        number[trunk] = np.arange(n)
        way = np.eye(n)                                        # the nodes on the way to each
        for i, parent in enumerate(net.parents[trunk[1:]].tolist(), 1):
            way[i] += way[number[parent]]
        shared = [(way * z) @ way.T for z in net.z[:, trunk]]      # ohm that two nodes have in common
        key = self.at * 3 + self.kind
        self.groups = np.flatnonzero(np.diff(key, prepend=-1))
        self.group = np.repeat(np.arange(len(self.groups)), np.diff(self.groups, append=len(key)))
        where = np.ix_(*2 * (number[self.at[self.groups]],))
        drawn, seen = np.array(DRAWN)[:, self.kind[self.groups]], self.seen[:, self.groups]
        self.matrix = sum(s[:, None] * z[where] * d for s, z, d in zip(seen, shared, drawn, strict=True))
        own = np.where(self.kind == BOTH, 2 * net.z[0, self.node], (net.z[0, self.node] + net.z[1, self.node]) / 2)
        self.own = np.where(single, own, 0)
        self.trunk_alone = self.alone[self.groups]
        self.respond = self._folded

    def _folded(self, amperes: Array) -> Array:
        import numpy as np
        alone, own = (self.trunk_alone, self.own) if amperes.ndim == 1 else (self.trunk_alone[:, None], self.own[:, None])
        volts = (alone - self.matrix @ np.add.reduceat(amperes, self.groups)).take(self.group, axis=0)
        volts -= own * amperes
        return volts

    def _sweep(self, amperes: Array) -> Array:
        difference, total = spread(self.net, gathered(self.net, self.injected(amperes)))
        seen = self.seen if amperes.ndim == 1 else self.seen[..., None]
        volts = seen[0] * difference.take(self.node, axis=0)
        volts += seen[1] * total.take(self.node, axis=0)
        return volts

    def injected(self, amperes: Array) -> Array:
        """What the loads draw at every node, as difference and sum; (2, rows, ...) A."""
        import numpy as np
        currents = np.zeros((2, len(self.net.parents), *amperes.shape[1:]), dtype=complex)
        drawn = amperes.take(self.by_node, axis=0)
        for into, weight in zip(currents, self.drawn if amperes.ndim == 1 else self.drawn[..., None], strict=True):
            into[self.loaded] = np.add.reduceat(weight * drawn, self.starts)
        return currents


def plan_for(net: Network, loaded: Array) -> Plan:
    """The plan for loads at these nodes, kept with the network for the next scenario."""
    key = loaded.tobytes()
    found = net.plans.get(key)
    if not isinstance(found, Plan):
        if len(net.plans) > 8:
            net.plans.clear()
        found = net.plans[key] = Plan(net, loaded)
    return found
