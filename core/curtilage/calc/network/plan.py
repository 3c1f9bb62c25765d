"""Where loads hang in a network, and what the voltage at each answers to their currents.

Two ways, one physics (`tree`). Up to some hundred panels the backbone is folded: branch circuits that carry a single load stay
apart with the impedance of their own loop, and the rest becomes one small matrix, volts at a load per ampere at another. Above
that the tree is swept, rank by rank, inward for the currents and outward for the voltages.
"""
from collections.abc import Callable

from curtilage.calc.network.alone import product
from curtilage.calc.network.records import BOTH, Array
from curtilage.calc.network.tree import Network, both, gathered, spread

Respond = Callable[[Array, Array], Array]
FOLD_UP_TO = 100
"""Nodes of a backbone that are folded into a matrix; above that the sweep is faster (measured)."""

DRAWN = ((1.0, 1.0, 2.0), (1.0, -1.0, 0.0))
"""What one ampere of a load puts on the difference and the sum of currents: on L1, on L2, between them."""
SEEN = ((0.5, 0.5, 1.0), (0.5, -0.5, 0.0))
"""What a load sees of the difference and the sum of voltages. A load on L2 is counted from neutral to L2."""


class Plan:
    """Loads in the order of the arrays that the solution works on.

    `node` (row) and `kind` of each load; `picked`: their places in a flattened array of nodes and kinds. `respond`: amperes
    at the loads, and where to put the volts there, (loads, ...); `alone`: volts there without load. `volts`: amperes at the
    loads -> volts of both legs at every node. For many scenarios at once the loads are taken in the order `many`, and `answer`
    responds.
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
        self.drawn, self.seen = np.array(DRAWN)[:, self.kind], np.array(SEEN)[:, self.kind]
        self.alone = 2 * net.source.volts * self.seen[0] + 0j
        self.by_node = np.argsort(self.node, kind="stable")
        self.starts = np.flatnonzero(np.diff(self.node[self.by_node], prepend=-1))
        self.loaded = self.node[self.by_node[self.starts]]
        self.many = np.arange(len(self.node))
        self.respond: Respond = self._sweep
        self.answer: Respond = self._sweep
        if self.folded and len(self.node):
            self._fold(np.flatnonzero(in_trunk), single[order])
            self._layer()

    def _fold(self, trunk: Array, single: Array) -> None:
        """The matrix of the backbone, between groups of loads alike in place and kind."""
        import numpy as np
        net, n = self.net, len(trunk)
        number = np.empty(len(net.parents), dtype=np.intp)
        number[trunk] = np.arange(n)
        way = np.eye(n)                                        # the nodes on the way to each
        for i, parent in enumerate(net.parents[trunk[1:]].tolist(), 1):
            way[i] += way[number[parent]]
        key = self.at * 3 + self.kind
        self.groups = np.flatnonzero(np.diff(key, prepend=-1))
        self.group = np.repeat(np.arange(len(self.groups)), np.diff(self.groups, append=len(key)))
        where = number[self.at[self.groups]]
        drawn, seen = self.drawn[:, self.groups], self.seen[:, self.groups]
        shared = np.stack([product(way * z, way.T) for z in net.z[:, trunk]])     # ohm that two nodes have in common
        reached = shared[:, :, where] * drawn[:, None]                             # volts at the backbone per ampere of a group
        self.matrix = (seen[:, :, None] * reached[:, where]).sum(axis=0)
        self.trunk_alone = self.alone[self.groups]
        own = np.where(self.kind == BOTH, 2 * net.z[0, self.node], (net.z[0, self.node] + net.z[1, self.node]) / 2)
        self.own = np.where(single, own, 0)
        self._seats(number, trunk, reached, np.flatnonzero(single))
        self.respond = self._folded

    def _seats(self, number: Array, trunk: Array, reached: Array, single: Array) -> None:
        """What the voltages of every node, in the order given, are made of: a place in the backbone, and a drop beyond it."""
        import numpy as np
        net = self.net
        inside = np.zeros(len(number), dtype=bool)
        inside[trunk] = True
        seat = number[np.where(inside, np.arange(len(number)), net.parents)][net.place]   # a branch circuit sits where it starts
        self.seat = np.stack((seat, seat + len(trunk)))
        self.reached = both(reached).reshape(-1, reached.shape[2])
        self.reached_alone = np.repeat([net.source.volts, -net.source.volts], len(trunk)) + 0j
        beyond, load = np.zeros_like(net.z), np.zeros(len(number), dtype=np.intp)
        beyond[:, self.node[single]] = both(net.z[:, self.node[single]] * self.drawn[:, single])
        load[self.node[single]] = single
        self.beyond, self.load = beyond.take(net.place, axis=1), load[net.place]

    def _layer(self) -> None:
        """The first load of every group, then the second, groups with most loads first: sums without an index for each."""
        import numpy as np
        sizes = np.diff(self.groups, append=len(self.group))
        largest = np.argsort(-sizes, kind="stable")
        before = np.arange(len(self.group)) - self.groups[self.group]
        self.many = np.lexsort((np.argsort(largest, kind="stable")[self.group], before))
        ends = np.cumsum(np.bincount(before))
        self.layers = list(zip([0, *ends[:-1].tolist()], ends.tolist(), strict=True))
        self.layered = self.matrix[np.ix_(largest, largest)], self.trunk_alone[largest, None], -self.own[self.many, None]
        self.answer = self._layered

    def _folded(self, amperes: Array, out: Array) -> Array:
        import numpy as np
        trunk = self.trunk_alone - product(self.matrix, np.add.reduceat(amperes, self.groups))
        trunk.take(self.group, out=out, mode="clip")
        out -= self.own * amperes
        return out

    def _layered(self, amperes: Array, out: Array) -> Array:
        import numpy as np
        matrix, alone, own = self.layered
        together = amperes[: self.layers[0][1]].copy()
        for start, end in self.layers[1:]:
            together[: end - start] += amperes[start:end]
        trunk = alone - product(matrix, together)
        np.multiply(own, amperes, out=out)
        for start, end in self.layers:
            out[start:end] += trunk[: end - start]
        return out

    def _sweep(self, amperes: Array, out: Array) -> Array:
        import numpy as np
        difference, total = self._everywhere(amperes)
        seen = self.seen if amperes.ndim == 1 else self.seen[..., None]
        np.multiply(seen[0], difference.take(self.node, axis=0), out=out)
        out += seen[1] * total.take(self.node, axis=0)
        return out

    def volts(self, amperes: Array) -> Array:
        """L1 to neutral and L2 to neutral at every node in the order given, from the amperes at the loads; (2, nodes, ...) V."""
        import numpy as np
        if self.respond != self._folded:
            return both(self._everywhere(amperes)).take(self.net.place, axis=1)
        alone, beyond = (self.reached_alone, self.beyond) if amperes.ndim == 1 else (
            self.reached_alone[:, None], self.beyond[..., None])
        trunk = alone - product(self.reached, np.add.reduceat(amperes, self.groups, axis=0))
        drawn = amperes.take(self.load, axis=0)
        out = np.empty((2, *drawn.shape), dtype=complex)
        for leg in (0, 1):                                     # in place: fresh memory costs more than the arithmetic
            trunk.take(self.seat[leg], axis=0, out=out[leg], mode="clip")
            out[leg] -= beyond[leg] * drawn
        return out

    def _everywhere(self, amperes: Array) -> Array:
        return spread(self.net, gathered(self.net, self.injected(amperes)))

    def injected(self, amperes: Array) -> Array:
        """What the loads draw at every node, as difference and sum; (2, rows, ...) A."""
        import numpy as np
        currents = np.zeros((2, len(self.net.parents), *amperes.shape[1:]), dtype=complex)
        for into, weight in zip(currents, self.drawn if amperes.ndim == 1 else self.drawn[..., None], strict=True):
            if len(self.starts):
                into[self.loaded] = np.add.reduceat((weight * amperes).take(self.by_node, axis=0), self.starts)
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
