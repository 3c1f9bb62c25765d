"""The exact solution told, one feeder at a time: its currents by Kirchhoff's current law, its voltages by his voltage law.

The voltages that have settled (`flow`) are put in, each load draws its power at them, the currents are added from the far end
inwards, and the voltages are told anew from the transformer outwards. That they come out as they were put in is what "solved"
means; the last line of each says so. Phasors are told by their parts, along the voltage of the source (re) and across it (im).
"""
from typing import NamedTuple

from curtilage.calc.conductors.drop import delivered
from curtilage.values import lines as u
from curtilage.values.method import method

FT_PER_KFT: u.ft_per_kft = 1000.0
BASE: u.V = 120.0                # the voltage of the range is told on this base
WHOLE: u.percent = 100.0
SAME: u.V = 1e-9                 # told and settled voltage are the same within this


class OnLegs(NamedTuple):
    """One row of the load list, and the part of it on L1, on L2 and between them."""

    id: str
    va: u.VA
    pf: u.ratio
    on_1: u.ratio
    on_2: u.ratio
    across: u.ratio


class Connected(NamedTuple):
    """Everything behind one feeder from the service, and its calculated load."""

    id: str
    total: u.VA
    rows: tuple[OnLegs, ...]


class Loading(NamedTuple):
    """The part of its connected load that every row behind this feeder draws."""

    connected: u.VA
    part: u.ratio


class Own(NamedTuple):
    """The rows on one panel, and the part of them that is drawn."""

    id: str
    part: u.ratio
    rows: tuple[OnLegs, ...]


class Legs(NamedTuple):
    """What a panel's own rows draw: L1 to neutral, L2 to neutral, L1 to L2."""

    p_1: u.W
    q_1: u.VAR
    p_2: u.W
    q_2: u.VAR
    p_12: u.W
    q_12: u.VAR


class Lines(NamedTuple):
    """Currents of a feeder in L1 and L2, away from the transformer."""

    i_1re: u.A
    i_1im: u.A
    i_2re: u.A
    i_2im: u.A


class Fed(NamedTuple):
    """The same of a feeder that starts here."""

    id: str
    i_1re: u.A
    i_1im: u.A
    i_2re: u.A
    i_2im: u.A


class Drawn(NamedTuple):
    """A node with its own load, the voltages that have settled there, and the feeders that start there."""

    id: str
    p_1: u.W
    q_1: u.VAR
    p_2: u.W
    q_2: u.VAR
    p_12: u.W
    q_12: u.VAR
    v_1re: u.V
    v_1im: u.V
    v_2re: u.V
    v_2im: u.V
    feeders: tuple[Fed, ...]


class Reach(NamedTuple):
    """A run: the voltages where it starts, its conductors one way, its currents, the voltages that have settled at its end."""

    id: str
    v_1re: u.V
    v_1im: u.V
    v_2re: u.V
    v_2im: u.V
    r_line: u.ohm
    x_line: u.ohm
    r_neutral: u.ohm
    x_neutral: u.ohm
    i_1re: u.A
    i_1im: u.A
    i_2re: u.A
    i_2im: u.A
    settled_1: u.V
    settled_2: u.V
    nominal: u.V                 # line to neutral


class Behind(NamedTuple):
    """The transformer: voltage of a half winding without load, its impedances at one, the currents of the whole estate."""

    id: str
    volts: u.V
    r_source: u.ohm
    x_source: u.ohm
    r_primary: u.ohm
    x_primary: u.ohm
    r_secondary: u.ohm
    x_secondary: u.ohm
    i_1re: u.A
    i_1im: u.A
    i_2re: u.A
    i_2im: u.A
    settled_1: u.V
    settled_2: u.V
    nominal: u.V


class Circuit(NamedTuple):
    """A branch circuit of two wires alike, behind a panel whose voltage is known."""

    id: str
    va: u.VA
    pf: u.ratio
    size: u.size
    length: u.ft
    volts: u.V                   # at the panel, between the wires of the circuit; of two legs the lower one
    volts_other: u.V             # on the other leg; the same where the circuit hangs between the lines
    nominal: u.V
    lighting: u.flag             # whether lamps may hang on it


class Outlet(NamedTuple):
    """What arrives at the far end of a branch circuit."""

    volts: u.V
    current: u.A
    on_base: u.V                 # on a base of 120 V
    on_other: u.V                # the same on the other leg
    in_range: u.flag             # of ANSI C84.1 range A, utilization
    in_range_other: u.flag


class Phasor(NamedTuple):
    """One current by its parts."""

    re: u.A
    im: u.A


class At(NamedTuple):
    """The state of a node, and of the run that ends there."""

    volts_a: u.V                 # L1 to neutral
    volts_b: u.V                 # L2 to neutral
    volts_ab: u.V                # L1 to L2
    current_a: u.A
    current_b: u.A
    neutral: u.A
    lowest: u.percent            # of nominal, the lower leg
    lost: u.W                    # in the run
    v_1re: u.V
    v_1im: u.V
    v_2re: u.V
    v_2im: u.V
    solved: u.flag               # the voltages told are those that have settled


class Place(NamedTuple):
    """One node with what it adds to the whole."""

    id: str
    lowest: u.percent
    lost: u.W


class Load(NamedTuple):
    """What the rows of one panel draw."""

    id: str
    p_1: u.W
    p_2: u.W
    p_12: u.W


class Places(NamedTuple):
    """All nodes, the loads on them, and how many rounds the solution took."""

    id: str
    nodes: tuple[Place, ...]
    loads: tuple[Load, ...]
    in_transformer: u.W
    rounds: u.count


class Whole(NamedTuple):
    """The network as a whole, under its calculated load."""

    load: u.W
    lost: u.W                    # in conductors and transformer
    lost_part: u.percent         # of what the source gives
    lowest: u.percent            # of nominal, the lowest voltage of a leg
    where: u.text
    rounds: u.count


@method
def loading(c):
    """The part of its connected load that every row behind a feeder draws, so that the feeder carries its calculated load.

    `c` is a `Connected`. One part for all rows behind one feeder of the service: a panel within carries the same part of its rows
    whatever its own calculated load, and feeders of the service are at their loads together, which is on the safe side.
    Volt-amperes are added as the code adds them, without regard to power factor.
    Source: common practice; the calculated load is that of NFPA 70 Article 220.
    """
    S: u.VA = sum(r.va for r in c.rows)
    part: u.ratio = c.total / S
    return Loading(S, part)


@method
def legs(p):
    """Real and reactive power of a panel's own rows, by where they hang; `p` is an `Own`.

    Source: real and reactive part of apparent power, by the power factor, lagging.
    """
    P_1: u.W = p.part * sum(r.va * r.on_1 * r.pf for r in p.rows)
    Q_1: u.VAR = p.part * sum(r.va * r.on_1 * (1 - r.pf * r.pf) ** 0.5 for r in p.rows)
    P_2: u.W = p.part * sum(r.va * r.on_2 * r.pf for r in p.rows)
    Q_2: u.VAR = p.part * sum(r.va * r.on_2 * (1 - r.pf * r.pf) ** 0.5 for r in p.rows)
    P_12: u.W = p.part * sum(r.va * r.across * r.pf for r in p.rows)
    Q_12: u.VAR = p.part * sum(r.va * r.across * (1 - r.pf * r.pf) ** 0.5 for r in p.rows)
    return Legs(P_1, Q_1, P_2, Q_2, P_12, Q_12)


@method
def drawn(P: u.W, Q: u.VAR, V_re: u.V, V_im: u.V):
    """Current of a load of P watts and Q vars at the voltage it sees: the conjugate of S / V.

    Source: definition of complex power.
    """
    I_re: u.A = (P * V_re + Q * V_im) / (V_re * V_re + V_im * V_im)
    I_im: u.A = (P * V_im - Q * V_re) / (V_re * V_re + V_im * V_im)
    return Phasor(I_re, I_im)


@method
def currents(n):
    """Currents of the run to a node: its own loads at the voltages that have settled, and the feeders that start there.

    `n` is a `Drawn`. A load between the lines draws from L1 into L2. Source: Kirchhoff's current law.
    """
    a = drawn(n.p_1, n.q_1, n.v_1re, n.v_1im)
    b = drawn(n.p_2, n.q_2, n.v_2re, n.v_2im)
    V_re: u.V = n.v_1re - n.v_2re
    V_im: u.V = n.v_1im - n.v_2im
    c = drawn(n.p_12, n.q_12, V_re, V_im)
    I_1re: u.A("Kirchhoff's current law") = a.re + c.re + sum(f.i_1re for f in n.feeders)
    I_1im: u.A("Kirchhoff's current law") = a.im + c.im + sum(f.i_1im for f in n.feeders)
    I_2re: u.A("Kirchhoff's current law") = b.re - c.re + sum(f.i_2re for f in n.feeders)
    I_2im: u.A("Kirchhoff's current law") = b.im - c.im + sum(f.i_2im for f in n.feeders)
    return Lines(I_1re, I_1im, I_2re, I_2im)


@method
def state(p, V_1re: u.V, V_1im: u.V, V_2re: u.V, V_2im: u.V, I_nre: u.A, I_nim: u.A, P_lost: u.W):
    """Magnitudes at the end of a run, and whether they are those that have settled; `p` is a `Reach` or a `Behind`."""
    V_1: u.V = (V_1re * V_1re + V_1im * V_1im) ** 0.5
    V_2: u.V = (V_2re * V_2re + V_2im * V_2im) ** 0.5
    V_12: u.V = ((V_1re - V_2re) * (V_1re - V_2re) + (V_1im - V_2im) * (V_1im - V_2im)) ** 0.5
    I_1: u.A = (p.i_1re * p.i_1re + p.i_1im * p.i_1im) ** 0.5
    I_2: u.A = (p.i_2re * p.i_2re + p.i_2im * p.i_2im) ** 0.5
    I_n: u.A = (I_nre * I_nre + I_nim * I_nim) ** 0.5
    lowest: u.percent = WHOLE * min(V_1, V_2) / p.nominal
    solved: u.flag("the fixed point") = abs(V_1 - p.settled_1) < SAME and abs(V_2 - p.settled_2) < SAME
    return At(V_1, V_2, V_12, I_1, I_2, I_n, lowest, P_lost, V_1re, V_1im, V_2re, V_2im, solved)


@method
def reach(p):
    """Voltages at the end of a run of line conductors and a neutral; `p` is a `Reach`.

    The neutral carries back what L1 and L2 do not carry for each other; its own drop moves the neutral of the far end.
    Not for: current that returns through the ground. Source: Kirchhoff's laws, Ohm's law.
    """
    I_nre: u.A("Kirchhoff's current law: the three add to nothing") = -(p.i_1re + p.i_2re)
    I_nim: u.A("Kirchhoff's current law: the three add to nothing") = -(p.i_1im + p.i_2im)
    V_nre: u.V("Ohm's law") = p.r_neutral * I_nre - p.x_neutral * I_nim
    V_nim: u.V("Ohm's law") = p.r_neutral * I_nim + p.x_neutral * I_nre
    V_1re: u.V("Kirchhoff's voltage law") = p.v_1re - (p.r_line * p.i_1re - p.x_line * p.i_1im) + V_nre
    V_1im: u.V("Kirchhoff's voltage law") = p.v_1im - (p.r_line * p.i_1im + p.x_line * p.i_1re) + V_nim
    V_2re: u.V("Kirchhoff's voltage law") = p.v_2re - (p.r_line * p.i_2re - p.x_line * p.i_2im) + V_nre
    V_2im: u.V("Kirchhoff's voltage law") = p.v_2im - (p.r_line * p.i_2im + p.x_line * p.i_2re) + V_nim
    P_lines: u.W("Joule's law") = p.r_line * (p.i_1re * p.i_1re + p.i_1im * p.i_1im + p.i_2re * p.i_2re + p.i_2im * p.i_2im)
    P_lost: u.W("Joule's law") = P_lines + p.r_neutral * (I_nre * I_nre + I_nim * I_nim)
    return state(p, V_1re, V_1im, V_2re, V_2im, I_nre, I_nim, P_lost)


@method
def terminals(p):
    """Voltages at the terminals of a transformer with a centre tap; `p` is a `Behind`.

    The common branch, source and primary winding, carries what the two half windings ask of it together: I_1 - I_2.
    Not for: magnetizing current, which is left out. Source: as the impedances; balance of ampere-turns.
    """
    I_re: u.A("balance of ampere-turns") = p.i_1re - p.i_2re
    I_im: u.A("balance of ampere-turns") = p.i_1im - p.i_2im
    R: u.ohm = p.r_source + p.r_primary
    X: u.ohm = p.x_source + p.x_primary
    V_re: u.V = p.volts - (R * I_re - X * I_im)
    V_im: u.V = -(R * I_im + X * I_re)
    V_1re: u.V("Kirchhoff's voltage law") = V_re - (p.r_secondary * p.i_1re - p.x_secondary * p.i_1im)
    V_1im: u.V("Kirchhoff's voltage law") = V_im - (p.r_secondary * p.i_1im + p.x_secondary * p.i_1re)
    V_2re: u.V("Kirchhoff's voltage law") = -V_re - (p.r_secondary * p.i_2re - p.x_secondary * p.i_2im)
    V_2im: u.V("Kirchhoff's voltage law") = -V_im - (p.r_secondary * p.i_2im + p.x_secondary * p.i_2re)
    I_nre: u.A("Kirchhoff's current law: the three add to nothing") = -(p.i_1re + p.i_2re)
    I_nim: u.A("Kirchhoff's current law: the three add to nothing") = -(p.i_1im + p.i_2im)
    P_halves: u.W("Joule's law") = p.r_secondary * (p.i_1re * p.i_1re + p.i_1im * p.i_1im + p.i_2re * p.i_2re + p.i_2im * p.i_2im)
    P_lost: u.W("Joule's law") = P_halves + R * (I_re * I_re + I_im * I_im)
    return state(p, V_1re, V_1im, V_2re, V_2im, I_nre, I_nim, P_lost)


@method
def whole(n):
    """Load, losses and the lowest voltage of a leg in the whole network; `n` is a `Places`.

    The iron of the transformer is not in the losses. Source: conservation of energy.
    """
    P: u.W = sum(x.p_1 + x.p_2 + x.p_12 for x in n.loads)
    P_lost: u.W = n.in_transformer + sum(x.lost for x in n.nodes)
    lost_part: u.percent = WHOLE * P_lost / (P + P_lost)
    lowest: u.percent = min(x.lowest for x in n.nodes)
    for x in n.nodes:
        if x.lowest <= lowest:
            break
    return Whole(P, P_lost, lost_part, lowest, x.id, n.rounds)


@method
def outlet(p, m):
    """Voltage at the far end of a branch circuit that draws all of its load, its panel at the exact voltage.

    `p` is a `Circuit`. The voltage of the panel is that of all feeders at their calculated loads together, where this circuit has
    its part already: on the safe side. Errors: a size without a row in the table; a load that the circuit cannot deliver.
    Source: NFPA 70 Ch. 9 Table 9; as `delivered`; ANSI C84.1, range A.
    """
    R: u.ohm("there and back") = 2 * m.r[p.size] * p.length / FT_PER_KFT
    X: u.ohm("there and back") = 2 * m.x[p.size] * p.length / FT_PER_KFT
    at = delivered(R, X, p.pf, p.va, p.volts)
    other = delivered(R, X, p.pf, p.va, p.volts_other)
    on_base: u.V = BASE * at.volts / p.nominal
    on_other: u.V = BASE * other.volts / p.nominal
    least: u.V = m.utilization_least if p.lighting else m.utilization_least_other
    in_range: u.flag = on_base >= least and on_base <= m.utilization_most
    in_range_other: u.flag = on_other >= least and on_other <= m.utilization_most
    return Outlet(at.volts, at.current, on_base, on_other, in_range, in_range_other)
