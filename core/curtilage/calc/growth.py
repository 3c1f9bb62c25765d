"""Room that is left for growth at a device."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0


class Place(NamedTuple):
    """A main, a feeder or a panel."""

    id: str
    current: u.A                 # calculated load
    minimum: u.A                 # with continuous load at 125 %
    rating: u.A
    wanted: u.percent            # policy of the project


class Growth(NamedTuple):
    """What is left of the rating."""

    spare: u.percent             # of the rating, over the calculated load
    spare_amperes: u.A
    spare_minimum: u.percent     # of the rating, over the minimum ampacity
    ok: u.flag


@method
def growth(p):
    """Share of a rating that the load leaves free; a policy of the project, never a rule of the code.

    Measured on the larger of the two: the minimum ampacity, which holds continuous load at 125 %.
    Source: common practice (90.8 asks for room and gives no number).
    """
    I_left: u.A = p.rating - p.current
    spare: u.percent = WHOLE * I_left / p.rating
    spare_minimum: u.percent = WHOLE * (p.rating - p.minimum) / p.rating
    ok: u.flag = spare_minimum >= p.wanted
    return Growth(spare, I_left, spare_minimum, ok)
