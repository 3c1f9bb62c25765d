"""Which kind of metering a service of this size has, by the utility's rule."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

NOT_STATED: u.A = 0.0
SELF_CONTAINED: u.text = "self-contained"
TRANSFORMERS: u.text = "current transformers"


class Meter(NamedTuple):
    """The metering of a service as stated. 0 where the utility's own rule is not stated."""

    id: str
    rating: u.A                  # of the service: its mains together
    kind: u.text                 # self-contained or current transformers
    distance: u.ft               # along the way from current transformers to the meter
    direct_to: u.A               # largest service that the utility meters without current transformers, or 0
    farthest: u.ft               # longest way that it allows, or 0


class Metered_by(NamedTuple):
    """What the utility's rule asks for."""

    limit: u.A
    kind: u.text
    kind_ok: u.flag
    farthest: u.ft
    distance_ok: u.flag          # where there are current transformers; else yes


@method
def metering(x, ed):
    """The kind of metering that the rule asks for, and the way to the meter; `x` is a `Meter`.

    The rule is the utility's and is edited in the estate (service.metering); where nothing is stated, the usual figure stands.
    Current transformers where a meter alone would do are not a fault. Not for: several meters, meter sizes, cabinets.
    Source: utilities' books of service rules; ANSI C12 for the class of a self-contained meter.
    """
    limit: u.A = x.direct_to if x.direct_to > NOT_STATED else ed.metering_direct_to
    needed: u.text = TRANSFORMERS if x.rating > limit else SELF_CONTAINED
    kind_ok: u.flag = x.kind == TRANSFORMERS or needed == SELF_CONTAINED
    farthest: u.ft = x.farthest if x.farthest > 0 else ed.metering_farthest
    distance_ok: u.flag = x.kind == SELF_CONTAINED or x.distance <= farthest
    return Metered_by(limit, needed, kind_ok, farthest, distance_ok)
