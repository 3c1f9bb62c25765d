"""Ampacity of a conductor where it lies and where it ends."""
from typing import NamedTuple

from curtilage.calc.conductors.refusals import not_a_column
from curtilage.values import lines as u
from curtilage.values.method import method

SIXTY: u.degC = 60.0
SEVENTY_FIVE: u.degC = 75.0
NINETY: u.degC = 90.0


class Conditions(NamedTuple):
    """How a run lies and ends: two factors, the ampacity column of the insulation and that of the terminals."""

    f_t: u.ratio
    f_n: u.ratio
    hot: object                  # ampacities by size, at the temperature of the insulation
    lugs: object                 # ampacities by size, at the temperature of the terminals


class Ampacity(NamedTuple):
    """One size under given conditions."""

    base: u.A                    # column of the insulation
    f_t: u.ratio
    f_n: u.ratio
    corrected: u.A               # base x factors
    limit: u.A                   # column of the terminals
    column: u.A                  # without factors: what 125 % of a continuous load is held against
    ampacity: u.A                # with factors, never above the terminals


@method
def conditions(insulation: u.degC, terminals: u.degC, ambient: u.degC, ccc: u.count, m):
    """Factors and columns for one way of laying.

    `ambient` in degC; `ccc` current-carrying conductors in the raceway. `m` is a view of an edition: material and raceway.
    Not for: rooftops in sun, free air, duct banks, cables with a limit of their own (state it as the terminals).
    Errors: a temperature that is no column; an ambient outside the table.
    Source: NFPA 70 310.15(B), 310.15(C), 110.14(C), Table 310.16.
    """
    f_n: u.ratio = m.bundling_factor(ccc)
    if insulation == NINETY:
        f_t: u.ratio = m.ambient_factor90(ambient)
        hot = m.ampacity90
    elif insulation == SEVENTY_FIVE:
        f_t: u.ratio = m.ambient_factor75(ambient)
        hot = m.ampacity75
    elif insulation == SIXTY:
        f_t: u.ratio = m.ambient_factor60(ambient)
        hot = m.ampacity60
    else:
        raise not_a_column("insulation", insulation)

    if terminals == SEVENTY_FIVE:
        return Conditions(f_t, f_n, hot, m.ampacity75)
    if terminals == SIXTY:
        return Conditions(f_t, f_n, hot, m.ampacity60)
    raise not_a_column("terminals", terminals)


@method
def ampacity(size: u.size, insulation: u.degC, terminals: u.degC, ambient: u.degC, ccc: u.count, m):
    """Ampacity of one size: factors on the column of the insulation, then the column of the terminals as a ceiling.

    In A. Temperatures in degC. Errors: as `conditions`; a size that is not in the table.
    Not for: what `conditions` is not for.
    Source: NFPA 70 310.15, 110.14(C)(1).
    """
    w = conditions(insulation, terminals, ambient, ccc, m)
    I_hot: u.A = w.hot[size]
    limit: u.A = w.lugs[size]
    corrected: u.A("NFPA 70 310.15(B), 310.15(C)") = I_hot * w.f_t * w.f_n
    column: u.A("NFPA 70 110.14(C)(1)") = min(I_hot, limit)
    I_z: u.A("NFPA 70 110.14(C)(1)") = min(corrected, limit)
    return Ampacity(I_hot, w.f_t, w.f_n, corrected, limit, column, I_z)
