"""What goes into the network and what comes out.

Impedances are in ohm: those of the transformer are referred to one half winding, those of conductors are one way with all sets in
parallel. Phasors are complex volts and amperes, rms; the voltage of the source stands at the angle 0. Currents are counted away
from the transformer in L1, in L2 and in the neutral, so that the three add to nothing. A node is the far end of its branch.
"""
from typing import Any, NamedTuple

from curtilage.values import lines as u

Array = Any                      # numpy.ndarray: numpy is imported with the first look at a network, not with the package
L1, L2, BOTH = 0, 1, 2           # where a load hangs: L1 to neutral, L2 to neutral, L1 to L2


class Source(NamedTuple):
    """A centre-tapped transformer behind an ideal source: a common branch, then a branch in each half winding."""

    volts: u.V                   # of each half winding, without load
    r_primary: u.ohm             # the source and the primary winding
    x_primary: u.ohm
    r_secondary: u.ohm           # each half winding
    x_secondary: u.ohm


class Branch(NamedTuple):
    """Conductors from one node to the next: a lateral, a feeder or a branch circuit."""

    id: str                      # the node at its far end
    start: str                   # the node at its near end; "" is the terminals of the transformer
    r_line: u.ohm
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm
    r_ground: u.ohm = 0.0        # equipment ground, for faults; service conductors state their neutral here
    x_ground: u.ohm = 0.0


class Flows(NamedTuple):
    """Many solved scenarios. The first axis of every array is the scenario; rows that did not converge are nan."""

    converged: Array             # (scenarios,) of bool
    rounds: Array                # (scenarios,)
    node: Array                  # (scenarios,) position of the node where the voltage collapses, -1 where it does not
    volts: Array                 # (scenarios, kept nodes, 2) V
    supplied: Array              # (scenarios,) VA from the ideal source, complex


class Faults(NamedTuple):
    """Bolted faults at every node, A (effective, symmetrical); the rows are nodes, in the order of the branches."""

    line_line: Array
    line_neutral: Array
    line_ground: Array
