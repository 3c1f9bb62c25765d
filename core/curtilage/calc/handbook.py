"""Forms that books work with and a design does not: second opinions, and the means to run printed examples.

Nothing of an estate is computed here. Each method is the book's own formula, with its own units.
"""
from typing import NamedTuple

from curtilage.calc.conductors.drop import THREE_PHASE, reactive_factor
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

FT_PER_KFT: u.ft_per_kft = 1000.0
PER_CONSTANT: u.A_ft = 10000.0                  # drop constants are stated for ten thousand ampere-feet
GAUGE_36: u.inch = 0.005
GAUGES: u.count = 39.0
THIRTY_SIX: u.count = 36.0
RATIO: u.ratio = 92.0
SQUARE_MIL: u.in2_per_cmil = 1e-6               # square of a diameter of one mil, which is what a circular mil counts
WHOLE: u.percent = 100.0
TABLE_8: u.degC = 75.0
TABLE_AMBIENT: u.degC = 30.0


class Dropped(NamedTuple):
    """A drop, its part of the voltage, and what is left."""
    drop: u.V
    percent: u.percent
    left: u.V


class Wire(NamedTuple):
    """A round solid wire of the American gauge."""
    diameter: u.inch
    area: u.cmil


class Impedance(NamedTuple):
    """Impedance that counts at a power factor, and the magnitude of the impedance voltage."""
    effective: u.ohm_per_kft
    magnitude: u.V


class Sides(NamedTuple):
    """Two loads left in series when the neutral opens."""
    current: u.A
    volts_a: u.V
    volts_b: u.V


class Sent(NamedTuple):
    """Voltages of the two sides at the sending end."""
    volts_a: u.V
    volts_b: u.V


class Alone(NamedTuple):
    """One load alone."""
    current: u.A
    volts: u.V


class Diversity(NamedTuple):
    """Peaks of several customers against the peak of all together."""
    sum: u.kVA
    diversity_factor: u.ratio
    coincidence_factor: u.ratio
    load_diversity: u.kVA


# ------------------------------------------------------------------------------------------------------------ voltage drop
@method
def part_of(V_d: u.V, V: u.V):
    """A drop as a part of the voltage."""
    drop: u.percent = WHOLE * V_d / V
    V_left: u.V = V - V_d
    return Dropped(V_d, drop, V_left)


@method
def circular_mil_drop(k: u.ratio, K: u.ohm_cmil_per_ft, I: u.A, L: u.ft, A: u.cmil):
    """Drop by the resistance of a circular-mil foot: `k` 2 for two wires, the root of 3 for three phases; L one way.

    Not for: large sizes and low power factors, where reactance counts. Source: common practice of contractors' handbooks.
    """
    V_d: u.V("circular-mil form") = k * K * I * L / A
    return V_d


@method
def circular_mils(k: u.ratio, K: u.ohm_cmil_per_ft, I: u.A, L: u.ft, V_d: u.V):
    """Area that keeps a drop, by the resistance of a circular-mil foot. Source: as `circular_mil_drop`."""
    A: u.cmil("circular-mil form, solved for the area") = k * K * I * L / V_d
    return A


@method
def size_of_area(A: u.cmil, m):
    """The smallest size of the tables with at least this area. Errors: larger than the largest."""
    for s in m.sizes:
        if m.cmil[s] >= A:
            size: u.size = s
            break
    else:
        raise CurtilageError("no single conductor of the tables has this area; use parallel runs")
    return size


@method
def drop_over(k: u.ratio, R: u.ohm_per_kft, I: u.A, L: u.ft):
    """Drop by resistance alone: `k` 2 for two wires, the root of 3 for three phases."""
    V_d: u.V("Ohm's law") = k * R * I * L / FT_PER_KFT
    return V_d


@method
def longest(k: u.ratio, R: u.ohm_per_kft, I: u.A, V_d: u.V):
    """Longest run, one way, that keeps a drop by resistance alone."""
    L: u.ft("Ohm's law, solved for the length") = FT_PER_KFT * V_d / (k * R * I)
    return L


@method
def impedance(R: u.ohm_per_kft, X: u.ohm_per_kft, pf: u.ratio, I: u.A, L: u.ft):
    """Effective impedance at a power factor, and the voltage that one conductor takes from a current over it.

    The drop is the part in phase; the magnitude of the impedance voltage is not a drop. Source: NFPA 70 Ch. 9 Table 9 note 2.
    """
    q: u.ratio = reactive_factor(pf)
    Z_e: u.ohm_per_kft("NFPA 70 Ch. 9 Table 9 note 2") = R * pf + X * q
    V_z: u.V("magnitude, not a drop") = (R * R + X * X) ** 0.5 * I * L / FT_PER_KFT
    return Impedance(Z_e, V_z)


@method
def constant_drop(K: u.ratio, I: u.A, L: u.ft):
    """Drop of a secondary by its tabulated constant, per unit for ten thousand ampere-feet.

    Source: T. Gonen, Electric Power Distribution System Engineering, ch. 7.
    """
    v: u.ratio("drop constant") = K * I * L / PER_CONSTANT
    return v


@method
def transformer_drop(K_load: u.kVA, K_rated: u.kVA, R: u.ratio, X: u.ratio, pf: u.ratio):
    """Drop in a transformer, per unit, from its per-unit resistance and reactance. Source: as `constant_drop`."""
    q: u.ratio = reactive_factor(pf)
    v: u.ratio("per-unit drop") = K_load / K_rated * (R * pf + X * q)
    return v


@method
def sum_of_drops(parts):
    """Per-unit drops in series on one voltage base."""
    v: u.ratio = sum(parts)
    return v


@method
def start_dip(K_start: u.kVA, V: u.kV, I_f: u.A, base: u.V):
    """Dip of a base voltage when a load starts on a three-phase system of known fault current, all taken in line.

    Source: T. Gonen, Electric Power Distribution System Engineering, ch. 9.
    """
    K_fault: u.kVA("three-phase fault") = THREE_PHASE * V * I_f
    V_d: u.V = base * K_start / K_fault
    return V_d


# ---------------------------------------------------------------------------------------------------------- currents, sides
@method
def single_phase_current(S: u.VA, V: u.V):
    """Full-load current of a single-phase load or transformer."""
    I: u.A = S / V
    return I


@method
def three_phase_current(S: u.VA, V: u.V):
    """Full-load current of a balanced three-phase load or transformer; V is line to line."""
    I: u.A = S / (THREE_PHASE * V)
    return I


@method
def resistance_of(P: u.W, V: u.V):
    """Resistance of a heater of P watts at V volts."""
    R: u.ohm = V * V / P
    return R


@method
def sending(V_a: u.V, V_b: u.V, R_a: u.ohm, R_b: u.ohm, r: u.ohm):
    """Both voltages at the sending end that give V_a and V_b at the loads, over three conductors of r ohms each."""
    I_a: u.A = V_a / R_a
    I_b: u.A = V_b / R_b
    I_n: u.A = I_a - I_b
    E_a: u.V = V_a + I_a * r + I_n * r
    E_b: u.V = V_b + I_b * r - I_n * r
    return Sent(E_a, E_b)


@method
def open_neutral(E_a: u.V, E_b: u.V, R_a: u.ohm, R_b: u.ohm, r: u.ohm):
    """The neutral open: both loads in series on the sum of the voltages. The lighter load gets the higher voltage."""
    I: u.A = (E_a + E_b) / (R_a + R_b + 2 * r)
    V_a: u.V = I * R_a
    V_b: u.V = I * R_b
    return Sides(I, V_a, V_b)


@method
def open_line(E: u.V, R: u.ohm, r: u.ohm):
    """The other line open: one load alone, over one line and the neutral."""
    I: u.A = E / (R + 2 * r)
    V: u.V = I * R
    return Alone(I, V)


# ------------------------------------------------------------------------------------------------------------------- tables
@method
def wire(n: u.count):
    """Diameter and area of a gauge number; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3. Source: ASTM B258."""
    d_wire: u.inch("ASTM B258") = GAUGE_36 * RATIO ** ((THIRTY_SIX - n) / GAUGES)
    A: u.cmil = d_wire * d_wire / SQUARE_MIL
    return Wire(d_wire, A)


@method
def resistance_factor(alpha: u.per_degC, T: u.degC):
    """Factor on a resistance at 75 degC for another temperature. Source: NFPA 70 Ch. 9 Table 8 note 2."""
    f: u.ratio("NFPA 70 Ch. 9 Table 8 note 2") = 1 + alpha * (T - TABLE_8)
    return f


@method
def ambient_equation(T_c: u.degC, T_a: u.degC):
    """Correction of an ampacity at 30 degC for another ambient. Errors: an ambient at or above the conductor's temperature.

    Source: NFPA 70 310.15(B), equation.
    """
    if T_a >= T_c:
        raise CurtilageError("the ambient is at or above the temperature of the conductor; nothing can be carried")
    f: u.ratio("NFPA 70 310.15(B), equation") = ((T_c - T_a) / (T_c - TABLE_AMBIENT)) ** 0.5
    return f


# ---------------------------------------------------------------------------------------------------------------- diversity
@method
def diversified(K_one: u.kVA, n: u.count, f_d: u.ratio, F_d: u.ratio):
    """Peak of n alike customers together: connected load, demand factor, diversity factor. Utility practice, no code rule.

    Source: T. Gonen, Electric Power Distribution System Engineering, ch. 2.
    """
    K_diversified: u.kVA = n * K_one * f_d / F_d
    return K_diversified


@method
def diversity(peaks, K_peak: u.kVA):
    """Diversity and coincidence of several peaks with the peak of all together. Source: as `diversified`."""
    K_sum: u.kVA = sum(peaks)
    F_d: u.ratio = K_sum / K_peak
    f_c: u.ratio = K_peak / K_sum
    K_spread: u.kVA = K_sum - K_peak
    return Diversity(K_sum, F_d, f_c, K_spread)


# ----------------------------------------------------------------------------------------------------------- small change
@method
def share(f: u.ratio, S: u.VA):
    """A load by a factor of the tables."""
    D: u.VA = f * S
    return D


@method
def largest_current(currents):
    """The largest of several currents."""
    I: u.A = max(i for i in currents)
    return I
