"""Forms of the handbooks that designs here do not use, but that books and examinations do; and the open neutral."""
from typing import NamedTuple

from curtilage.calc.conductors.drop import FT_PER_KFT, reactive_factor
from curtilage.values import lines as u
from curtilage.values.method import method

A_FT_PER_UNIT: u.A_ft = 1e4          # the constants of secondary tables are per 10,000 ampere-feet


class OpenNeutral(NamedTuple):
    """Two loads in series across both legs."""

    current: u.A
    volts_a: u.V
    volts_b: u.V


@method
def circular_mil_drop(k: u.ratio, K: u.ohm_cmil_per_ft, I: u.A, L: u.ft, A: u.cmil):
    """Drop by the resistivity K of the metal and the area of the conductor.

    In V. K is 12.9 ohm cmil/ft for copper and 21.2 for aluminium at 75 degC, in the books. Source: Ohm's law, common practice.
    """
    V_d: u.V("Ohm's law") = k * K * I * L / A
    return V_d


@method
def area_for_drop(k: u.ratio, K: u.ohm_cmil_per_ft, I: u.A, L: u.ft, V_d: u.V):
    """Area that loses V_d volts. In cmil. Source: Ohm's law, common practice."""
    A: u.cmil("Ohm's law") = k * K * I * L / V_d
    return A


@method
def length_for_drop(k: u.ratio, R: u.ohm_per_kft, I: u.A, V_d: u.V):
    """One-way length that loses V_d volts. In ft. Source: Ohm's law."""
    L: u.ft("Ohm's law") = FT_PER_KFT * V_d / (k * R * I)
    return L


@method
def effective_z(R: u.ohm_per_kft, X: u.ohm_per_kft, pf: u.ratio):
    """Effective impedance at a power factor: what the current is multiplied by. Source: NFPA 70 Ch. 9 Table 9 note 2."""
    q: u.ratio = reactive_factor(pf)
    Z_e: u.ohm_per_kft("NFPA 70 Ch. 9 Table 9 note 2") = R * pf + X * q
    return Z_e


@method
def per_unit_drop(K: u.ratio, I: u.A, L: u.ft):
    """Drop in per unit of a secondary or service drop, by its constant K per 10,000 A ft. Source: distribution textbooks."""
    d: u.ratio = K * I * L / A_FT_PER_UNIT
    return d


@method
def load_resistance(P: u.W, V: u.V):
    """Resistance of a load that takes P watts at V volts. In ohm. Source: Ohm's law."""
    R: u.ohm("Ohm's law") = V * V / P
    return R


@method
def full_load_current(S: u.VA, V: u.V):
    """Full-load current of a single-phase source of S volt-amperes. In A. Source: definition of apparent power."""
    I: u.A = S / V
    return I


@method
def open_neutral(R_a: u.ohm, R_b: u.ohm, V: u.V, r: u.ohm):
    """Voltages at two resistive loads of a three-wire supply whose neutral is open: the lighter one gets more than its share.

    V is the whole voltage between the lines, r the resistance of each line conductor. Source: Ohm's law, loads in series.
    """
    I: u.A("Ohm's law, loads in series") = V / (R_a + R_b + 2 * r)
    V_a: u.V = I * R_a
    V_b: u.V = I * R_b
    return OpenNeutral(I, V_a, V_b)
