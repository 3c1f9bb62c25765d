"""What changes if the transformer changes: the smallest impedance, and the largest rating, that the gear's rating bears."""
from curtilage.calc.fault.chain import TO_NEUTRAL, bolted, there_and_back
from curtilage.calc.fault.records import Impedance, Margin, Withstands
from curtilage.values import lines as u
from curtilage.values.method import method

NO_SHARE: u.ratio = 0.0
NO_RATING: u.kVA = 0.0


@method
def share_for(z, R: u.ohm, X: u.ohm, V: u.V, I: u.A):
    """Share of the impedance `z` that holds a fault at I amperes, with conductors of R and X ohms behind it, at V volts.

    0 where the conductors alone are enough. Source: Ohm's law, solved for the share: (k z.r + R)^2 + (k z.x + X)^2 = (V / I)^2.
    """
    a: u.ohm2 = z.r * z.r + z.x * z.x
    b: u.ohm2 = z.r * R + z.x * X
    c: u.ohm2 = R * R + X * X - V * V / (I * I)
    if c >= 0:
        k: u.ratio = NO_SHARE
    else:
        k: u.ratio("larger root") = ((b * b - a * c) ** 0.5 - b) / a
    return k


@method
def margin(g):
    """How far the transformer may change before the rating of the gear is too small; `g` is a `Gear`.

    With an infinite primary, so that it is a bound whatever the network does; the ratio of reactance to resistance is kept.
    Not for: another length or size of the service conductors. Source: NFPA 70 110.9, 110.24(B).
    """
    full = Impedance(g.r_full, g.x_full)
    half = Impedance(g.r_half, g.x_half)
    R_2: u.ohm = 2 * g.r_line
    X_2: u.ohm = 2 * g.x_line
    R_n: u.ohm = g.r_line + g.r_neutral
    X_n: u.ohm = g.x_line + g.x_neutral
    V_n: u.V = g.volts * TO_NEUTRAL
    k_ll: u.ratio = share_for(full, R_2, X_2, g.volts, g.interrupting)
    k_ln: u.ratio = share_for(half, R_n, X_n, V_n, g.interrupting)
    k_most: u.ratio = max(k_ll, k_ln)
    v_least: u.percent = k_most * g.impedance
    P_most: u.kVA = g.rating / k_most if k_most > 0 else NO_RATING
    ll = there_and_back(full, g.r_line, g.x_line, g.r_line, g.x_line)
    ln = there_and_back(half, g.r_line, g.x_line, g.r_neutral, g.x_neutral)
    I_ll: u.A = bolted(g.volts, ll.r, ll.x)
    I_ln: u.A = bolted(V_n, ln.r, ln.x)
    I_most: u.A = max(I_ll, I_ln)
    return Margin(k_most, v_least, P_most, I_most)


@method
def withstands(e):
    """What is left of an interrupting or short-circuit rating over the larger fault current at it; `e` is an `Equipment`.

    Not for: the offset of the first cycles where the ratio of reactance to resistance is above that of the equipment's tests.
    Source: NFPA 70 110.9, 110.10.
    """
    I_left: u.A = e.interrupting - e.largest
    ok: u.flag("NFPA 70 110.9, 110.10") = e.largest <= e.interrupting
    return Withstands(e.interrupting, I_left, ok)
