"""The voltages of a network: a fixed point of Ohm's and Kirchhoff's laws.

A load of constant power S draws conj(S / V) at the voltage V it sees; the network answers to all of these currents with new
voltages. Starting without load, the two are asked in turn until nothing moves. Near the point where no more power can be
delivered the steps shrink ever more slowly, and beyond it there is nothing to find: the voltage collapses, and that is
the result.
"""
from functools import cached_property

from curtilage.calc.network.alone import product, squares
from curtilage.calc.network.plan import Plan, Respond, plan_for
from curtilage.calc.network.records import Array, Flows
from curtilage.calc.network.tree import Network, both, gathered
from curtilage.errors import refuse

TOLERANCE = 1e-11
"""Change of the voltages in the last round, root of the mean square, in parts of the voltage without load; what is left to go is
some ten times smaller."""
MOST_ROUNDS = 500
FIRST_LOOK = 5
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

    def __init__(self, plan: Plan, rounds: int, amperes: Array, node: str = "") -> None:
        self._plan, self._drawn, self.rounds, self.node = plan, amperes, rounds, node
        self.converged, self.reason = not node, COLLAPSE if node else ""
        self.volts = plan.volts(amperes).T

    @cached_property
    def _currents(self) -> Array:
        """Difference and sum of the currents in every branch."""
        return gathered(self._plan.net, self._plan.injected(self._drawn))

    @property
    def between(self) -> Array:
        """(nodes,) V, L1 to L2."""
        return self.volts[:, 0] - self.volts[:, 1]

    @property
    def terminals(self) -> Array:
        """(2,) V at the terminals of the transformer."""
        import numpy as np
        net, (difference, total) = self._plan.net, self._currents[:, 0]
        return both(np.array([2 * net.source.volts - net.z[0, 0] * difference, -net.z[1, 0] * total]))

    @cached_property
    def amperes(self) -> Array:
        """(nodes, 3) A in L1, L2 and neutral of the branch that ends at the node, away from the transformer."""
        import numpy as np
        lines = both(self._currents).take(self._plan.net.place, axis=1)
        return np.stack((*lines, -lines.sum(axis=0)), axis=1)

    @cached_property
    def loss(self) -> Array:
        """(nodes,) complex VA lost in the branch that ends at the node."""
        squared = abs(self.amperes) ** 2
        return self._plan.net.line * (squared[:, 0] + squared[:, 1]) + self._plan.net.neutral * squared[:, 2]

    @cached_property
    def transformer_loss(self) -> complex:
        """VA lost in the transformer and the source before it."""
        first, second = both(self._currents[:, 0]).tolist()
        net, halves = self._plan.net, abs(first) ** 2 + abs(second) ** 2
        return complex(net.primary * abs(first - second) ** 2 + net.secondary * halves)

    @property
    def supplied(self) -> complex:
        """VA from the ideal source."""
        return complex(self._plan.net.source.volts * self._currents[0, 0].conjugate())


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
    power = numbers(s.reshape(-1)[plan.picked])
    with np.errstate(all="ignore"):
        volts, amperes, rounds, settled = settle(plan.respond, plan.alone, power, (tolerance * net.source.volts, most))
        if settled:
            return Flow(plan, rounds, amperes)
        return Flow(plan, rounds, np.full(len(amperes), complex(np.nan, np.nan)), net.ids[lowest(plan, volts)])


def checked(net: Network, loads: Array, dimensions: int) -> Array:
    """The loads as an array of the right shape."""
    import numpy as np
    s = np.ascontiguousarray(loads, dtype=complex)
    if s.ndim != dimensions or s.shape[-2:] != (len(net.ids), 3):
        before = "(scenarios, " if dimensions == 3 else "("
        refuse("loads of a network", f"an array of shape {s.shape}", f"expected {before}{len(net.ids)} nodes, 3 kinds of load)")
    return s


def numbers(power: Array) -> Array:
    """The same, after a look that each is a number."""
    import numpy as np
    if not np.isfinite(power.sum()):
        refuse("loads of a network", "one of them is no number", "each is complex VA")
    return power


def settle(respond: Respond, alone: Array, power: Array, limits: tuple[float, int]) -> tuple[Array, Array, int, bool]:
    """The fixed point: volts and amperes at the loads, rounds taken, whether it was found; (loads,) or (loads, scenarios).

    `limits`: the root of the mean square of the last change over the loads, V, and the most rounds.
    """
    import numpy as np
    within, most = limits
    enough = within * within * len(power)
    volts, spare, amperes = (np.empty_like(power) for _ in range(3))                 # fresh memory costs more than the arithmetic
    volts[:] = alone if power.ndim == 1 else alone[:, None]
    for rounds in range(1, most + 1):
        np.divide(power, volts, out=amperes)
        np.conjugate(amperes, out=amperes)
        new = respond(amperes, spare)
        if rounds > FIRST_LOOK:
            np.subtract(new, volts, out=volts)
            change = squares(volts)
            if change <= enough:
                return new, amperes, rounds, True
            if not change < np.inf:
                return new, amperes, rounds, False
        volts, spare = new, volts
    return volts, amperes, most, False


def lowest(plan: Plan, volts: Array) -> int:
    """Position of the load with the lowest voltage, or with one that is no number any more."""
    import numpy as np
    part = np.nan_to_num(np.abs(volts / plan.alone), nan=0.0)
    return int(plan.picked[part.argmin()]) // 3


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
    plan, power = plan_for(net, s.any(axis=0)), s.reshape(many, -1)
    out = Flows(np.ones(many, dtype=bool), np.zeros(many, dtype=np.intp), np.full(many, -1, dtype=np.intp),
                np.empty((many, len(kept), 2), dtype=complex), np.empty(many, dtype=complex))
    for start in range(0, many, BLOCK):
        block = slice(start, start + BLOCK)
        with np.errstate(all="ignore"):
            amperes = together(plan, power[block], (tolerance * net.source.volts, most), block, out)
            out.volts[block] = plan.volts(amperes)[:, kept].T
            out.supplied[block] = net.source.volts * product(plan.drawn[:1], amperes)[0].conj()
    return out


def together(plan: Plan, power: Array, limits: tuple[float, int], block: slice, out: Flows) -> Array:
    """Amperes at the loads of one block of scenarios; where it does not settle soon, each scenario goes on by itself."""
    import numpy as np
    within, most = limits
    wanted = numbers(power.take(plan.picked[plan.many], axis=1).T.copy())
    _, found, rounds, settled = settle(plan.answer, plan.alone[plan.many], wanted, (within, min(most, SOON)))
    amperes = np.empty_like(found)
    amperes[plan.many] = found
    out.rounds[block] = rounds
    if not settled:
        for k, row in enumerate(power.take(plan.picked, axis=1)):
            volts, one, rounds, settled = settle(plan.respond, plan.alone, row, limits)
            amperes[:, k] = one if settled else np.nan
            out.rounds[block.start + k], out.converged[block.start + k] = rounds, settled
            if not settled:
                out.node[block.start + k] = lowest(plan, volts)
    return amperes
