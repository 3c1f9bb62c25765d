"""Wire by physics: gauge, area and temperature, and the equation behind the table of ambient factors."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

GAUGES: u.count = 39                 # from 36 AWG to 4/0
THINNEST: u.count = 36
THIN: u.inch = 0.005
THICK: u.inch = 0.46
IN2_PER_CMIL: u.in2_per_cmil = 1e-6    # the area of a circle of one mil, counted in squares of its diameter


class Wire(NamedTuple):
    """A solid wire of one gauge."""

    diameter: u.inch
    area: u.cmil


@method
def gauge(n: u.count):
    """Diameter and area of a solid wire of gauge n; 1/0, 2/0, 3/0, 4/0 are gauges 0, -1, -2, -3.

    In inches and circular mils. Not for: stranded wire, kcmil sizes. Source: ASTM B258, from memory: 39 equal ratios.
    """
    d: u.inch("ASTM B258") = THIN * (THICK / THIN) ** ((THINNEST - n) / GAUGES)
    A: u.cmil = d * d / IN2_PER_CMIL
    return Wire(d, A)


@method
def temperature_factor(T: u.degC, m):
    """Direct-current resistance at T over that of the table.

    `m` is a view of an edition. Not for: temperatures far from the table's. Source: NFPA 70 Ch. 9 Table 8 note 2.
    """
    f: u.ratio("NFPA 70 Ch. 9 Table 8 note 2") = 1 + m.alpha * (T - m.table_temperature)
    return f


@method
def ambient_equation(T_c: u.degC, T_a: u.degC, T_ref: u.degC):
    """Ambient factor by the heat balance of the conductor: loss in proportion to the rise of temperature.

    T_c of the conductor, T_a of the place, T_ref of the ampacity table. The table rounds it at the upper end of each band.
    Errors: none; a place as hot as the conductor gives 0. Not for: places hotter than the conductor.
    Source: NFPA 70 310.15(B), equation.
    """
    f: u.ratio("NFPA 70 310.15(B), equation") = ((T_c - T_a) / (T_c - T_ref)) ** 0.5
    return f
