"""How much of the connected load rests on what kind of source."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
NONE: u.VA = 0.0
NOTHING: u.percent = 0.0


class Connected(NamedTuple):
    """One row of the load list."""

    id: str
    va: u.VA


class Sources(NamedTuple):
    """Rows by the source of their figures."""

    id: str
    nameplate: tuple[Connected, ...]
    submittal: tuple[Connected, ...]
    assumed: tuple[Connected, ...]       # with rows whose source is not stated


class Shares(NamedTuple):
    """Shares of the connected load."""

    connected: u.VA
    nameplate: u.percent
    submittal: u.percent
    assumed: u.percent


@method
def shares(s):
    """Share of connected load by source; a row without a source counts as assumed. Not for: calculated load."""
    S_n: u.VA = sum(r.va for r in s.nameplate)
    S_s: u.VA = sum(r.va for r in s.submittal)
    S_a: u.VA = sum(r.va for r in s.assumed)
    S: u.VA = S_n + S_s + S_a
    if S > NONE:
        nameplate: u.percent = WHOLE * S_n / S
        submittal: u.percent = WHOLE * S_s / S
        assumed: u.percent = WHOLE * S_a / S
    else:
        nameplate: u.percent = NOTHING
        submittal: u.percent = NOTHING
        assumed: u.percent = NOTHING
    return Shares(S, nameplate, submittal, assumed)
