"""Voltage drop, from the short formula to the exact one, and what a load of constant VA really gets.

Resistance and reactance are those of one conductor, in ohm per 1,000 ft; lengths are one way, in ft. `k` says how the
conductors close the loop: `THERE_AND_BACK` for two wires (line to line at 240 V, line to neutral at 120 V with a neutral
of the same size), `THREE_PHASE` for the line-to-line drop of a balanced three-phase run, `ONE_WAY` for line to neutral of
a balanced run. A balanced 120/240 V run loses the same percentage on each leg as between the lines.
"""
from typing import NamedTuple

from curtilage.calc.conductors.refusals import collapses, not_a_power_factor, nothing_left
from curtilage.values import lines as u
from curtilage.values.method import method

FT_PER_KFT: u.ft_per_kft = 1000.0
WHOLE: u.percent = 100.0
ONE_WAY: u.ratio = 1.0
THERE_AND_BACK: u.ratio = 2.0
THREE_PHASE: u.ratio = 3 ** 0.5


class Losses(NamedTuple):
    """The drop of one run in three forms, and the voltage at its far end by the exact one."""

    dc: u.percent
    drop: u.percent
    exact: u.percent
    volts: u.V


class Delivered(NamedTuple):
    """What arrives at a load of constant VA."""

    volts: u.V
    drop: u.V
    current: u.A


@method
def reactive_factor(pf: u.ratio):
    """Sine of the angle whose cosine is the power factor (lagging).

    Errors: a power factor that is not above 0 or is above 1.
    """
    if pf <= 0 or pf > 1:
        raise not_a_power_factor(pf)
    q: u.ratio = (1 - pf * pf) ** 0.5
    return q


@method
def short_drop(R: u.ohm_per_kft, I: u.A, L: u.ft):
    """Drop of a two-wire run by direct-current resistance: the form of the handbooks.

    In V. Not for: large sizes and low power factors, where reactance counts.
    Source: Ohm's law, out and back; resistances NFPA 70 Ch. 9 Table 8.
    """
    V_d: u.V("Ohm's law, out and back") = 2 * R * I * L / FT_PER_KFT
    return V_d


@method
def approximate_drop(k: u.ratio, R: u.ohm_per_kft, X: u.ohm_per_kft, pf: u.ratio, q: u.ratio, I: u.A, L: u.ft):
    """Drop in magnitude, nearly: the part of the impedance voltage that lies in phase with the voltage.

    In V; q is the sine that belongs to pf. Below the exact drop by about the quadrature part squared over twice the voltage.
    Source: NFPA 70 Ch. 9 Table 9 note 2; IEEE Std 141, approximate formula.
    """
    V_d: u.V("NFPA 70 Ch. 9 Table 9 note 2") = k * (R * pf + X * q) * I * L / FT_PER_KFT
    return V_d


@method
def exact_drop(k: u.ratio, R: u.ohm_per_kft, X: u.ohm_per_kft, pf: u.ratio, q: u.ratio, I: u.A, L: u.ft, V: u.V):
    """Drop with the sending voltage V held, for a load of constant current at its own power factor.

    In V; pf and q are of the receiving end. Errors: nothing of the voltage is left.
    Source: IEEE Std 141, exact formula (voltage drop of a short line).
    """
    along: u.V = k * (R * pf + X * q) * I * L / FT_PER_KFT
    across: u.V = k * (X * pf - R * q) * I * L / FT_PER_KFT
    if along * along + across * across >= V * V:
        raise nothing_left(I, L, V)
    V_d: u.V("IEEE Std 141, exact formula") = V + along - (V * V - across * across) ** 0.5
    return V_d


@method
def largest_load(R: u.ohm, X: u.ohm, pf: u.ratio, V: u.V):
    """The largest VA that can be delivered over a loop of R and X ohms from a fixed voltage V.

    Source: derived; the discriminant of the voltage equation is zero there.
    """
    q: u.ratio = reactive_factor(pf)
    Z: u.ohm = (R * R + X * X) ** 0.5
    S: u.VA("derived: double root of the voltage equation") = V * V / (2 * (Z + R * pf + X * q))
    return S


@method
def delivered(R: u.ohm, X: u.ohm, pf: u.ratio, S: u.VA, V: u.V):
    """Voltage at a load of constant S volt-amperes and power factor, over a loop of R and X ohms, from a fixed voltage V.

    The higher of the two solutions. Errors: no solution, the voltage collapses; the message names the largest load.
    Source: derived, V^2 = (V_r + (P R + Q X) / V_r)^2 + ((P X - Q R) / V_r)^2 solved for V_r.
    """
    q: u.ratio = reactive_factor(pf)
    b: u.ratio = 1 - 2 * S * (R * pf + X * q) / (V * V)
    c: u.ratio = 2 * S * (R * R + X * X) ** 0.5 / (V * V)
    if b < c:
        raise collapses(S, largest_load(R, X, pf, V))
    V_r: u.V("derived, higher root") = V * ((b + ((b - c) * (b + c)) ** 0.5) / 2) ** 0.5
    V_d: u.V = V - V_r
    I: u.A = S / V_r
    return Delivered(V_r, V_d, I)


@method
def dip(R: u.ohm, X: u.ohm, pf: u.ratio, I: u.A, V: u.V):
    """Voltage dip in percent while a motor starts, over a loop of R and X ohms from the source to the point of interest.

    I is the locked-rotor current and pf its power factor (0.2 to 0.5 for most small motors). Not for: dips above some 15 %, where
    the starting current itself falls with the voltage. Source: IEEE Std 141, approximate formula.
    """
    q: u.ratio = reactive_factor(pf)
    dipped: u.percent("IEEE Std 141, approximate formula") = WHOLE * (R * pf + X * q) * I / V
    return dipped


@method
def losses(n: u.count, size: u.size, I: u.A, L: u.ft, pf: u.ratio, V: u.V, m):
    """Drop of n sets of one size that share I amperes over L feet, out and back, at voltage V.

    In percent of V, conductors at 75 degC: by direct-current resistance, by R cos + X sin, and exactly; and the volts left.
    Errors: a size without a row in the tables of resistance; nothing left of the voltage.
    Source: NFPA 70 Ch. 9 Tables 8 and 9; IEEE Std 141.
    """
    q: u.ratio = reactive_factor(pf)
    I_1: u.A = I / n
    V_dc: u.V = short_drop(m.r_dc[size], I_1, L)
    V_d: u.V = approximate_drop(THERE_AND_BACK, m.r[size], m.x[size], pf, q, I_1, L)
    V_x: u.V = exact_drop(THERE_AND_BACK, m.r[size], m.x[size], pf, q, I_1, L, V)
    dc: u.percent = WHOLE * V_dc / V
    drop: u.percent = WHOLE * V_d / V
    exact: u.percent = WHOLE * V_x / V
    V_far: u.V = V - V_x
    return Losses(dc, drop, exact, V_far)
