"""Bolted faults at every node of a radial network at once: the source voltage over the impedance on the way.

The impedance from the ideal source to a node is the sum over the branches on its way, rank by rank. Every quantity is at a half
winding: between the lines the two half windings stand in series, so both the voltage and the impedance are twice those
of one. Symmetrical effective currents, no load flowing before. Largest and least come from two networks: cold conductors
behind the strongest source, and warm ones behind the weakest. Not for: motors and other sources that feed in (add
theirs), arcing faults.
"""
from curtilage.calc.network.records import Array, Faults
from curtilage.calc.network.tree import Network


def along(net: Network, ohms: Array) -> Array:
    """The sum of `ohms` of the branches from the transformer to each node; (kinds, nodes), in the order of the branches."""
    import numpy as np
    total = np.zeros((len(ohms), len(net.parents)), dtype=complex)
    total[:, net.place] = ohms
    for rank in net.ranks:
        total[:, rank.nodes] += total[:, rank.parents]
    return total[:, net.place]


def faults(net: Network) -> Faults:
    """Line to line, line to neutral through the neutral, line to ground through the equipment ground, A, at every node.

    Source: derived from Ohm's and Kirchhoff's laws; half windings as IEEE C57.12.90 measures them, half and full. Where no branch
    on the way states a ground, that is no loop and line to ground is 0.
    """
    import numpy as np
    line, neutral, ground = along(net, np.stack((net.line, net.line + net.neutral, net.line + net.ground)))
    lines = 2 * net.primary + net.secondary + line
    half = net.primary + net.secondary
    grounded = along(net, (net.ground == 0)[None]).real[0] == 0
    with np.errstate(divide="ignore", invalid="ignore"):
        volts = net.source.volts
        return Faults(volts / abs(lines), volts / abs(half + neutral), np.where(grounded, volts / abs(half + ground), 0.0))
