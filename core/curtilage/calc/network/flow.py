"""The voltages of a network: a fixed point of Ohm's and Kirchhoff's laws.

A load of constant power S draws conj(S / V) at the voltage V it sees; the network answers to all of these currents with new
voltages. Starting without load, the two are asked in turn until nothing moves. Near the point where no more power can be
delivered the steps shrink ever more slowly, and beyond it there is nothing to find: the voltage collapses, and that is
the result.
"""
from functools import cached_property

from curtilage.calc.network.plan import Plan, plan_for
from curtilage.calc.network.records import Array, Flows
from curtilage.calc.network.tree import Network, gathered, spread
from curtilage.errors import refuse

TOLERANCE = 1e-11
"""Change of all voltages together in the last round, in parts of the voltage without load; what is left is smaller still."""
MOST_ROUNDS = 500
FIRST_LOOK = 3
"""Rounds before anybody looks whether it has settled."""
SOON = 40
"""Rounds that a block of scenarios is given before each goes on by itself."""
BLOCK = 64
"""Scenarios that are worked together, so that their arrays stay near the processor."""
COLLAPSE = "voltage collapse"


class Flow:
    """One solved scenario. The rows of its arrays are nodes, in the order in which the branches were given.

    `converged`; if not, `reason` and `node` say why and where, and every number is nan. `rounds`: how often loads and network
    were asked in turn. `volts`: (nodes, 2), L1 to neutral and L2 to neutral. The rest is worked when it is asked for.
    """

    def __init__(self, net: Network, rounds: int, currents: Array, node: str = "") -> None:
        self._net, self._currents, self.rounds, self.node = net, currents, rounds, node
        self.converged, self.reason = not node, COLLAPSE if node else ""
        self._volts = both(spread(net, currents))
        self.volts = self._volts.take(net.place, axis=1).T

    @property
    def between(self) -> Array:
        """(nodes,) V, L1 to L2."""
        return self.volts[:, 0] - self.volts[:, 1]

    @property
    def terminals(self) -> Array:
        """(2,) V at the terminals of the transformer."""
        return self._volts[:, 0]

    @cached_property
    def amperes(self) -> Array:
        """(nodes, 3) A in L1, L2 and neutral of the branch that ends at the node, away from the transformer."""
        import numpy as np
        lines = both(self._currents).take(self._net.place, axis=1)
        return np.stack((*lines, -lines.sum(axis=0)), axis=1)

    @cached_property
    def loss(self) -> Array:
        """(nodes,) complex VA lost in the branch that ends at the node."""
        squared = abs(self.amperes) ** 2
        return self._net.line * (squared[:, 0] + squared[:, 1]) + self._net.neutral * squared[:, 2]

    @cached_property
    def transformer_loss(self) -> complex:
        """VA lost in the transformer and the source before it."""
        first, second = both(self._currents[:, 0]).tolist()
        halves = abs(first) ** 2 + abs(second) ** 2
        return complex(self._net.primary * abs(first - second) ** 2 + self._net.secondary * halves)

    @property
    def supplied(self) -> complex:
        """VA from the ideal source."""
        return complex(self._net.source.volts * self._currents[0, 0].conjugate())


def solve(net: Network, loads: Array, tolerance: float = TOLERANCE, most: int = MOST_ROUNDS, fold: bool | None = None) -> Flow:
    """Voltages and currents of one scenario.

    `loads`: (nodes, 3) complex VA, of L1 to neutral, L2 to neutral and L1 to L2 at each node, nodes in the order of the branches.
    `fold` forces one of the two ways of `plan`. Errors: loads of another shape, or that are no numbers.
    Source: derived from Ohm's and Kirchhoff's laws. Not for: loads that are no constant power.
    """
    import numpy as np
    s = checked(net, loads, 2)
    loaded = s != 0
    plan = plan_for(net, loaded) if fold is None else Plan(net, loaded, fold)
    power = s.reshape(-1)[plan.picked]
    with np.errstate(all="ignore"):
        volts, amperes, rounds, settled = settle(plan, power, tolerance * net.source.volts, most)
    if not settled:
        nothing = np.full((2, len(net.parents)), complex(np.nan, np.nan))
        return Flow(net, rounds, nothing, net.ids[lowest(plan, volts)])
    return Flow(net, rounds, gathered(net, plan.injected(amperes)))


def checked(net: Network, loads: Array, dimensions: int) -> Array:
    """The loads as an array of the right shape."""
    import numpy as np
    s = np.ascontiguousarray(loads, dtype=complex)
    if s.ndim != dimensions or s.shape[-2:] != (len(net.ids), 3):
        before = "(scenarios, " if dimensions == 3 else "("
        refuse("loads of a network", f"an array of shape {s.shape}", f"expected {before}{len(net.ids)} nodes, 3 kinds of load)")
    if not np.isfinite(s).all():
        refuse("loads of a network", "one of them is no number", "each is complex VA")
    return s


def settle(plan: Plan, power: Array, within: float, most: int) -> tuple[Array, Array, int, bool]:
    """The fixed point: volts and amperes at the loads, rounds taken, whether it was found; (loads,) or (loads, scenarios)."""
    import numpy as np
    volts = plan.alone if power.ndim == 1 else np.repeat(plan.alone[:, None], power.shape[1], axis=1)
    amperes = np.empty_like(power)
    moved = np.empty_like(power)
    for rounds in range(1, most + 1):
        np.divide(power, volts, out=amperes)
        np.conjugate(amperes, out=amperes)
        new = plan.respond(amperes)
        if rounds > FIRST_LOOK:
            np.subtract(new, volts, out=moved)
            change = np.vdot(moved, moved).real
            if change <= within * within:
                return new, amperes, rounds, True
            if not change < np.inf:
                return volts, amperes, rounds, False
        volts = new
    return volts, amperes, most, False


def lowest(plan: Plan, volts: Array) -> int:
    """Position of the load with the lowest voltage, or with one that is no number any more."""
    import numpy as np
    part = np.nan_to_num(np.abs(volts / plan.alone), nan=0.0)
    return int(plan.picked[part.argmin()]) // 3


def both(x: Array) -> Array:
    """The two conductors, from difference and sum; (2, rows, ...)."""
    import numpy as np
    out = np.empty_like(x)
    out[0] = x[1] + x[0]
    out[1] = x[1] - x[0]
    out /= 2
    return out


def solve_many(net: Network, loads: Array, keep: tuple[str, ...] | None = None, tolerance: float = TOLERANCE,
               most: int = MOST_ROUNDS) -> Flows:
    """The same for many scenarios at once. `loads`: (scenarios, nodes, 3) complex VA, as for `solve`.

    `keep`: nodes whose voltages are wanted, all of them if left out. A scenario that collapses gets nan and the position of
    its node; the others are not touched by it. Errors: as `solve`; a name that is no node.
    """
    import numpy as np
    s = checked(net, loads, 3)
    many = len(s)
    kept = np.arange(len(net.ids)) if keep is None else np.array([net.row(k) for k in keep], dtype=np.intp)
    plan, power = plan_for(net, (s != 0).any(axis=0)), s.reshape(many, -1)
    out = Flows(np.ones(many, dtype=bool), np.zeros(many, dtype=np.intp), np.full(many, -1, dtype=np.intp),
                np.empty((many, len(kept), 2), dtype=complex), np.empty(many, dtype=complex))
    for start in range(0, many, BLOCK):
        block = slice(start, start + BLOCK)
        with np.errstate(all="ignore"):
            amperes = together(plan, power[block][:, plan.picked].T.copy(), (tolerance * net.source.volts, most), block, out)
            currents = gathered(net, plan.injected(amperes))
            out.volts[block] = both(spread(net, currents))[:, net.place[kept]].T
            out.supplied[block] = net.source.volts * currents[0, 0].conj()
    return out


def together(plan: Plan, power: Array, limits: tuple[float, int], block: slice, out: Flows) -> Array:
    """Amperes at the loads of one block of scenarios; where it does not settle soon, each scenario goes on by itself."""
    import numpy as np
    within, most = limits
    _, amperes, rounds, settled = settle(plan, power, within, min(most, SOON))
    out.rounds[block] = rounds
    if not settled:
        for k in range(power.shape[1]):
            volts, one, rounds, settled = settle(plan, power[:, k].copy(), within, most)
            amperes[:, k] = one if settled else np.nan
            out.rounds[block.start + k], out.converged[block.start + k] = rounds, settled
            if not settled:
                out.node[block.start + k] = lowest(plan, volts)
    return amperes
