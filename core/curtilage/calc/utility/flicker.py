"""The change of voltage that a starting motor makes where the utility looks, against what it allows for that many starts."""
from typing import NamedTuple

from curtilage.calc.conductors.drop import dip
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method
from curtilage.values.told import value

WHOLE: u.percent = 100.0
NO_LIMIT_STATED: u.percent = 0.0
NO_RATE: u.per_h = 0.0
UTILITYS: u.text = "the utility's limit"
PUBLISHED: u.text = "a published rule of another place: the utility states no limit"
BOTH: u.text = "a published rule, for more starts than the utility's limit is for"


class Starting(NamedTuple):
    """A motor that starts, by what lies before it. Ohms are those of the loop, at its voltage."""

    id: str
    volts: u.V                   # between its two wires
    current: u.A                 # while it stands, or what its soft starter lets through
    running: u.A
    pf: u.ratio                  # of the starting current
    starts: u.per_h              # 0: not stated
    r_supply: u.ohm              # utility and transformer, at their weakest
    x_supply: u.ohm
    r_lateral: u.ohm             # service conductors, out and back
    x_lateral: u.ohm
    at_gear: u.flag              # the limit holds at the service gear, not at the transformer's terminals
    limit: u.percent             # the utility's; 0: not stated
    limit_starts: u.per_h        # rate that it is for; 0: any


class Limit(NamedTuple):
    """What is allowed. Where the rate of starts is not known, the least and the most that it may be."""

    least: u.percent
    most: u.percent
    rule: u.text


class Flickered(NamedTuple):
    """What a start does to the voltage, and what is allowed."""

    current: u.A
    supply: u.percent            # at the transformer's terminals
    lateral: u.percent           # in the service conductors
    gear: u.percent              # at the service gear
    bound: u.percent             # at the terminals, whatever the power factor
    change: u.percent            # where the limit holds
    limit: u.percent
    limit_most: u.percent        # the same, or more where the rate of starts is not stated
    rule: u.text
    ok: u.flag                   # within the limit at any rate
    fails: u.flag                # above it at any rate


@method
def published(starts: u.per_h, ed):
    """What a published rule allows for a rate of starts, in percent.

    Errors: more starts than the rule speaks of. Source: Florida Administrative Code 25-6.046.
    """
    if starts <= ed.flicker_seldom_to:
        allowed: u.percent = min(ed.flicker_start, ed.flicker_seldom)
    elif starts <= ed.flicker_often_to:
        allowed: u.percent = min(ed.flicker_start, ed.flicker_often)
    else:
        raise CurtilageError(f"{value(starts):g} starts an hour are more than the published rule speaks of (once a minute); "
                             "state the utility's limit under service.flicker")
    return allowed


@method
def allowed_change(x, ed):
    """What is allowed for a motor's starts: by the utility, else by a published rule; `x` is a `Starting`.

    A utility's limit for a certain rate does not cover more starts: for those the smaller of it and the published one is taken.
    """
    seldom: u.percent = published(ed.flicker_seldom_to, ed)
    if x.starts > NO_RATE:
        by_rate: u.percent = published(x.starts, ed)
        most_published: u.percent = by_rate
        covered: u.flag = x.limit_starts == NO_RATE or x.starts <= x.limit_starts
    else:
        by_rate: u.percent("often: the rate is not stated") = published(ed.flicker_often_to, ed)
        most_published: u.percent("seldom: the rate is not stated") = seldom
        covered: u.flag = x.limit_starts == NO_RATE
    stated: u.flag = x.limit > NO_LIMIT_STATED
    strict: u.percent = min(x.limit, by_rate)
    loose: u.percent = strict if x.starts > NO_RATE else x.limit
    own: u.percent = x.limit if covered else strict
    own_most: u.percent = x.limit if covered else loose
    own_rule: u.text = UTILITYS if covered else BOTH
    least: u.percent = own if stated else by_rate
    most: u.percent = own_most if stated else most_published
    rule: u.text = own_rule if stated else PUBLISHED
    return Limit(least, most, rule)


@method
def flicker(x, ed):
    """The change of voltage while a motor starts, in percent, part by part; `x` is a `Starting`.

    The bound takes the whole impedance in phase with the current: it needs no power factor and is never below the change.
    Not for: motors that start together, loads that change faster than they start, three-phase services, generators.
    Errors: a starting current below the running one; more starts than the published rule speaks of.
    Source: IEEE Std 141, approximate formula; T. Gonen, Electric Power Distribution System Engineering, example 7-4.
    """
    if x.current < x.running:
        raise CurtilageError(f"{x.id}: a starting current of {value(x.current):g} A is below the running current of "
                             f"{value(x.running):g} A; read the nameplate again, the two may be exchanged")
    supply: u.percent = dip(x.r_supply, x.x_supply, x.pf, x.current, x.volts)
    lateral: u.percent = dip(x.r_lateral, x.x_lateral, x.pf, x.current, x.volts)
    gear: u.percent = supply + lateral
    Z: u.ohm = (x.r_supply * x.r_supply + x.x_supply * x.x_supply) ** 0.5
    bound: u.percent("whatever the angle") = WHOLE * x.current * Z / x.volts
    change: u.percent = gear if x.at_gear else supply
    limit = allowed_change(x, ed)
    ok: u.flag = change <= limit.least
    fails: u.flag = change > limit.most
    return Flickered(x.current, supply, lateral, gear, bound, change, limit.least, limit.most, limit.rule, ok, fails)


@method
def dip_by_fault(K_start: u.kVA, V: u.kV, I: u.A, V_base: u.V):
    """Dip on a base of V_base volts by the apparent power of the start and the fault current at that place.

    K_start is the starting power, V the voltage and I the fault current there, single-phase. The angle is left out: a bound.
    Source: T. Gonen, Electric Power Distribution System Engineering, example 9-11.
    """
    K_fault: u.kVA("single-phase fault") = V * I
    V_d: u.V("Gonen, example 9-11") = V_base * K_start / K_fault
    return V_d
