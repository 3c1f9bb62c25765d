"""One transformer beside others: fault currents, drop, loading and flicker, each by the same lines."""
from typing import NamedTuple

from curtilage.calc.conductors.drop import dip
from curtilage.calc.fault.chain import bolted
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
VA_PER_KVA: u.VA_per_kVA = 1000.0
HALVES: u.ratio = 2.0


class Candidate(NamedTuple):
    """A transformer by what a fault at its terminals sees, the service conductors behind it, the load and the largest start."""

    id: str
    rating: u.kVA
    volts: u.V                   # line to line
    r_full: u.ohm                # of its whole secondary
    x_full: u.ohm
    r_ll: u.ohm                  # a fault at its terminals, strongest source
    x_ll: u.ohm
    r_ln: u.ohm
    x_ln: u.ohm
    r_ll_least: u.ohm            # weakest source
    x_ll_least: u.ohm
    r_ln_least: u.ohm
    x_ln_least: u.ohm
    r_line: u.ohm                # service conductors, one way, warm
    x_line: u.ohm
    x_neutral: u.ohm
    r_line_cold: u.ohm
    r_neutral_cold: u.ohm
    va: u.VA                     # calculated load of the service
    expected: u.kVA              # typical expected peak
    pf: u.ratio
    start: u.A                   # of the motor whose start is felt most; 0: none is known
    start_pf: u.ratio
    between_lines: u.flag        # it runs between the lines, not from one to the neutral
    interrupting: u.A            # of the service gear


class Studied(NamedTuple):
    """One transformer, side by side with others."""

    rating: u.kVA
    ll: u.A                      # at its terminals
    ln: u.A
    gear_ll: u.A                 # at the service gear
    gear_ln: u.A
    rating_ok: u.flag            # the gear's rating holds
    loading: u.percent           # calculated load, of the rating
    loading_expected: u.percent
    drop: u.percent              # in the transformer, under the calculated load
    drop_expected: u.percent
    lateral: u.percent           # in the service conductors, under the calculated load
    lateral_expected: u.percent
    flicker: u.percent           # of the largest start, at the terminals


@method
def candidate(c):
    """A transformer against the load, the gear and the largest start; `c` is a `Candidate`.

    Whether a utility sets a transformer below the calculated load is for it to say: it goes by the expected one.
    Not for: overload cycles and their loss of life, losses, noise, shared transformers. Errors: no impedance.
    Source: Ohm's law; IEEE Std 141, approximate formula.
    """
    V_n: u.V = c.volts / HALVES
    I_ll: u.A = bolted(c.volts, c.r_ll, c.x_ll)
    I_ln: u.A = bolted(V_n, c.r_ln, c.x_ln)
    R_gear_ll: u.ohm = c.r_ll + 2 * c.r_line_cold
    X_gear_ll: u.ohm = c.x_ll + 2 * c.x_line
    R_gear_ln: u.ohm = c.r_ln + c.r_line_cold + c.r_neutral_cold
    X_gear_ln: u.ohm = c.x_ln + c.x_line + c.x_neutral
    I_gear_ll: u.A = bolted(c.volts, R_gear_ll, X_gear_ll)
    I_gear_ln: u.A = bolted(V_n, R_gear_ln, X_gear_ln)
    rating_ok: u.flag = max(I_gear_ll, I_gear_ln) <= c.interrupting
    I: u.A = c.va / c.volts
    I_e: u.A = c.expected * VA_PER_KVA / c.volts
    loading: u.percent = WHOLE * c.va / VA_PER_KVA / c.rating
    loading_expected: u.percent = WHOLE * c.expected / c.rating
    drop: u.percent = dip(c.r_full, c.x_full, c.pf, I, c.volts)
    drop_expected: u.percent = dip(c.r_full, c.x_full, c.pf, I_e, c.volts)
    R_loop: u.ohm = 2 * c.r_line
    X_loop: u.ohm = 2 * c.x_line
    lateral: u.percent = dip(R_loop, X_loop, c.pf, I, c.volts)
    lateral_expected: u.percent = dip(R_loop, X_loop, c.pf, I_e, c.volts)
    if c.between_lines:
        change: u.percent = dip(c.r_ll_least, c.x_ll_least, c.start_pf, c.start, c.volts)
    else:
        change: u.percent = dip(c.r_ln_least, c.x_ln_least, c.start_pf, c.start, V_n)
    return Studied(c.rating, I_ll, I_ln, I_gear_ll, I_gear_ln, rating_ok, loading, loading_expected, drop, drop_expected,
                   lateral, lateral_expected, change)
