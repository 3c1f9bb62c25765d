"""Forms that handbooks and textbooks compute faults with: second opinions, and the means to run printed examples.

Nothing of an estate is computed here. The handbooks add magnitudes; a design adds resistances and reactances apart.
"""
from math import atan
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

VA_PER_KVA: u.VA_per_kVA = 1000.0
WHOLE: u.percent = 100.0
DEG_PER_RAD: u.deg_per_rad = 57.29577951308232
AT_ONCE: u.ratio = 1.0


class Nameplate(NamedTuple):
    """An impedance in percent, and its reactance over its resistance."""

    impedance: u.percent
    x_over_r: u.ratio


class Polar(NamedTuple):
    """An impedance by magnitude and angle."""

    magnitude: u.ohm
    angle: u.deg


class Reduced(NamedTuple):
    """The point-to-point form: its factor, its multiplier, and the fault at the end of the run."""

    factor: u.ratio
    multiplier: u.ratio
    fault: u.A


@method
def of_parts(R: u.percent, X: u.percent):
    """Impedance and ratio of a transformer whose resistance and reactance are stated in percent."""
    Z: u.percent = (R * R + X * X) ** 0.5
    k_xr: u.ratio = X / R
    return Nameplate(Z, k_xr)


@method
def polar(R: u.ohm, X: u.ohm):
    """Magnitude and angle of an impedance with resistance R and reactance X."""
    Z: u.ohm = (R * R + X * X) ** 0.5
    a: u.rad = atan(X / R)
    angle: u.deg = a * DEG_PER_RAD
    return Polar(Z, angle)


@method
def referred(x: u.ohm, n: u.ratio):
    """An impedance seen from the side with n times the turns. Source: the square of the ratio of turns."""
    Z_r: u.ohm = x * n * n
    return Z_r


@method
def let_through(P: u.kVA, v_z: u.percent, V: u.V, k: u.ratio, P_source: u.kVA):
    """Fault current at the terminals of a transformer: its full-load current over its impedance in parts.

    k is 1 single-phase and the root of 3 three-phase. `P_source` is the short-circuit power of the network before it; 0 is
    infinite. Impedances are added as magnitudes. Source: IEEE Std 141.
    """
    I_full: u.A = P * VA_PER_KVA / (k * V)
    share: u.ratio = v_z / WHOLE + P / P_source if P_source > 0 else v_z / WHOLE
    I_f: u.A = I_full / share
    return I_f


@method
def point_to_point(I: u.A, L: u.ft, C: u.ft_per_ohm, n: u.count, V: u.V, k: u.ratio):
    """Fault at the end of a run of L feet by the point-to-point form, from I amperes at its start.

    C is the constant of the handbooks, a foot of conductor over its impedance; k is 2 single-phase, the root of 3 three-phase.
    Magnitudes are added, so the result lies below that of complex addition wherever the angles differ.
    Source: point-to-point method, as in teaching guides on electrical plan review.
    """
    f: u.ratio = k * L * I / (C * n * V)
    M_f: u.ratio = AT_ONCE / (AT_ONCE + f)
    I_end: u.A = I * M_f
    return Reduced(f, M_f, I_end)


@method
def before(V: u.V, I: u.A):
    """The impedance that lets I amperes through at V volts. Source: Ohm's law."""
    Z: u.ohm = V / I
    return Z


@method
def behind_magnitudes(I: u.A, V: u.V, Z: u.ohm):
    """Fault behind a further impedance of Z ohms, magnitudes added. Source: Ohm's law."""
    I_end: u.A = V / (V / I + Z)
    return I_end


@method
def through_resistance(V: u.V, R: u.ohm, X: u.ohm, R_f: u.ohm):
    """Current of a fault through a resistance of R_f ohms, behind R and X. Source: Ohm's law."""
    I_f: u.A = V / ((R + R_f) * (R + R_f) + X * X) ** 0.5
    return I_f
