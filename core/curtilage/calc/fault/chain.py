"""Bolted fault currents from the transformer's terminals down to the last panel: impedances add, currents follow."""
from curtilage.calc.fault.records import Fault, Impedance
from curtilage.calc.fault.refusals import no_impedance
from curtilage.values import lines as u
from curtilage.values.method import method

TO_NEUTRAL: u.ratio = 0.5              # line to neutral over line to line


@method
def bolted(V: u.V, R: u.ohm, X: u.ohm):
    """Symmetrical current of a bolted fault between points V volts apart, behind R and X ohms.

    Errors: no impedance. Source: Ohm's law; resistances and reactances add as complex numbers do.
    """
    if R * R + X * X <= 0:
        raise no_impedance(R, X)
    I_f: u.A("Ohm's law") = V / (R * R + X * X) ** 0.5
    return I_f


@method
def currents(V, ll, ln, ll_least, ln_least, lg):
    """The five currents at a point, from the impedances that a fault there sees.

    V is line to line at no load, nominal: a supply above it raises each in proportion. Not for: arcing faults, the first cycles
    with their offset, contributions of motors, generators and inverters. Source: Ohm's law.
    """
    V_n: u.V = V * TO_NEUTRAL
    I_ll: u.A = bolted(V, ll.r, ll.x)
    I_ln: u.A = bolted(V_n, ln.r, ln.x)
    I_ll_least: u.A = bolted(V, ll_least.r, ll_least.x)
    I_ln_least: u.A = bolted(V_n, ln_least.r, ln_least.x)
    I_lg: u.A = bolted(V_n, lg.r, lg.x)
    I_most: u.A = max(I_ll, I_ln)
    return Fault(I_ll, I_ln, I_most, I_ll_least, I_ln_least, I_lg, ll.r, ll.x, ln.r, ln.x, ll_least.r, ll_least.x, ln_least.r,
                 ln_least.x, lg.r, lg.x)


@method
def terminals(t):
    """Faults at the transformer's terminals; `t` is a `Terminals`. To ground is to neutral there: the two are bonded."""
    ll = Impedance(t.r_ll, t.x_ll)
    ln = Impedance(t.r_ln, t.x_ln)
    ll_least = Impedance(t.r_ll_least, t.x_ll_least)
    ln_least = Impedance(t.r_ln_least, t.x_ln_least)
    return currents(t.volts, ll, ln, ll_least, ln_least, ln_least)


@method
def there_and_back(z, R: u.ohm, X: u.ohm, R_b: u.ohm, X_b: u.ohm):
    """Impedance at the end of a pair of conductors, R and X out, R_b and X_b back, behind `z` at its start.

    Source: Kirchhoff; the two carry the same current.
    """
    R_loop: u.ohm = z.r + R + R_b
    X_loop: u.ohm = z.x + X + X_b
    return Impedance(R_loop, X_loop)


@method
def node(n):
    """Faults at the end of a run of conductors; `n` is a `Node`.

    Between the lines the current goes out on one and back on the other; to neutral it comes back on the neutral, to ground on the
    equipment ground, whole: nothing is credited to earth, raceways, shields or a second path.
    Not for: magnetic raceways with single conductors, arcing faults. Errors: no impedance at all.
    """
    ll = there_and_back(Impedance(n.r_ll, n.x_ll), n.r_line_cold, n.x_line, n.r_line_cold, n.x_line)
    ln = there_and_back(Impedance(n.r_ln, n.x_ln), n.r_line_cold, n.x_line, n.r_neutral_cold, n.x_neutral)
    ll_least = there_and_back(Impedance(n.r_ll_least, n.x_ll_least), n.r_line, n.x_line, n.r_line, n.x_line)
    ln_least = there_and_back(Impedance(n.r_ln_least, n.x_ln_least), n.r_line, n.x_line, n.r_neutral, n.x_neutral)
    lg = there_and_back(Impedance(n.r_lg, n.x_lg), n.r_line, n.x_line, n.r_ground, n.x_ground)
    return currents(n.volts, ll, ln, ll_least, ln_least, lg)
