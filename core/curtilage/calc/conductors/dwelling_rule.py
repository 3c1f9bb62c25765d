"""The 83 % rule for the service or feeder of one dwelling: where it is open, and what it asks."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method


class Permission(NamedTuple):
    """Whether the rule may be used, and why."""

    allowed: u.flag
    reason: u.text


@method
def dwelling_permission(D: u.A, three_wire: u.flag, whole_dwelling: u.flag, m):
    """Whether conductors may be sized at 83 % of the rating D.

    Only for a single-phase 120/240 V three-wire service or feeder, rated 100 to 400 A, that carries the entire load of one
    dwelling unit. A feeder to a garage, a workshop or a part of the house never qualifies.
    Source: NFPA 70 310.12(A) services, 310.12(B) feeders.
    """
    if not three_wire:
        allowed: u.flag = False
        reason: u.text = "not a single-phase 120/240 V three-wire supply"
    elif not whole_dwelling:
        allowed: u.flag = False
        reason: u.text = "does not carry the entire load of one dwelling unit"
    elif D < m.dwelling_from:
        allowed: u.flag = False
        reason: u.text = "rated below the range of the rule"
    elif D > m.dwelling_to:
        allowed: u.flag = False
        reason: u.text = "rated above the range of the rule"
    else:
        allowed: u.flag = True
        reason: u.text = "carries the entire load of one dwelling unit, rated within the range of the rule"
    return Permission(allowed, reason)


@method
def dwelling_ampacity(D: u.A, m):
    """Ampacity asked of the conductors by the 83 % rule, for a rating of D.

    It is held against the ampacity after factors and terminals, so it agrees with the table of sizes where no factor applies.
    The rule speaks of the rating, not of the calculated load: a load between the ampacity and the rating is allowed by it.
    Not for: anything `dwelling_permission` refuses.
    Source: NFPA 70 310.12(A), 310.12(B).
    """
    I_83: u.A("NFPA 70 310.12") = m.dwelling_factor * D
    return I_83
