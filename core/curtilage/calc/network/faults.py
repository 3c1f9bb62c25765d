"""Bolted faults at every node of a radial network at once: the source voltage over the impedance on the way.

The impedance from the ideal source to a node is the sum over the branches on its way, rank by rank. Every quantity is at a half
winding: between the lines the two half windings stand in series, so both the voltage and the impedance are twice those
of one. Symmetrical effective currents, no load flowing before. Largest and least come from two networks: cold conductors
behind the strongest source, and warm ones behind the weakest. Not for: motors and other sources that feed in (add
theirs), arcing faults.
"""
from curtilage.calc.network.records import Faults
from curtilage.calc.network.tree import Network


def faults(net: Network) -> Faults:
    """Line to line, line to neutral through the neutral, line to ground through the equipment ground, A, at every node.

    Source: derived from Ohm's and Kirchhoff's laws. Where a branch on the way states no ground, there is no loop and line to
    ground is 0.
    """
    import numpy as np
    ohms = net.loops.copy()
    for rank in net.ranks:
        ohms[rank.nodes] += ohms.take(rank.parents, axis=0)
    amperes = net.source.volts / np.sqrt(ohms.real ** 2 + ohms.imag ** 2)
    return Faults(*amperes.take(net.place, axis=0).T)
