"""One arrangement of the service beside others: metal, energy lost in a year, and what its mains bring with them."""
from typing import NamedTuple

from curtilage.calc.mass import conductor_mass
from curtilage.values import lines as u
from curtilage.values.method import method

VA_PER_KVA: u.VA_per_kVA = 1000.0
HOURS: u.h = 8760.0              # of a year
W_PER_KW: u.W_per_kW = 1000.0


class Laid_out(NamedTuple):
    """The service conductors of one arrangement, its mains, and the load."""

    id: str
    sets: u.count
    size: u.size
    neutral: u.size
    length: u.ft
    r_line: u.ohm                # one way, all sets, warm
    ampacity: u.A
    current: u.A                 # calculated load
    volts: u.V
    expected: u.kVA              # typical expected peak
    load_factor: u.ratio         # mean load of a year over its peak
    mains: u.count
    rating: u.A                  # of the mains together
    largest: u.A                 # largest main, or its highest setting


class Arrangement(NamedTuple):
    """One arrangement, side by side with others."""

    mains: u.count
    rating: u.A
    largest: u.A
    spare: u.A                   # ampacity of the service conductors less the calculated load
    pounds: u.lb                 # metal of the service conductors
    kilograms: u.kg
    loss_peak: u.kW              # in them, at the expected peak
    loss_factor: u.ratio         # mean loss of a year over that at the peak
    energy: u.kWh                # lost in them in a year
    arc_energy: u.flag           # means of reducing arc energy are asked for
    above_next: u.flag           # a main above the limit of the next standard size: conductors not below its rating
    by_load: u.flag              # the mains together are above the ampacity: the conductors rest on the calculated load


@method
def loss_factor(F: u.ratio, ed):
    """Mean loss of a year over the loss at the peak, from the load factor F. Between F squared and F.

    Not for: loads that follow another shape; a measured curve is better. Source: as cited beside the share.
    """
    F_loss: u.ratio("share of F, rest of F squared") = ed.loss_share * F + (1 - ed.loss_share) * F * F
    return F_loss


@method
def arrangement(a, m):
    """One arrangement of the service; `a` is a `Laid_out`, `m` a view of an edition ("al-pvc").

    Losses are those of the two line conductors with balanced legs, warm; transformer, feeders and neutral are left out, because
    arrangements of the mains do not move them. Not for: prices, labour, raceways.
    Errors: a size without an area. Source: Ohm's law; NFPA 70 240.4(B), 240.4(C), 240.87, 230.90(A) exception 3.
    """
    n_lines: u.count = 2 * a.sets
    lines = conductor_mass(n_lines, a.size, a.length, m)
    middle = conductor_mass(a.sets, a.neutral, a.length, m)
    pounds: u.lb = lines.pounds + middle.pounds
    kilograms: u.kg = lines.kilograms + middle.kilograms
    I: u.A = a.expected * VA_PER_KVA / a.volts
    P: u.kW = 2 * I * I * a.r_line / W_PER_KW
    F_loss: u.ratio = loss_factor(a.load_factor, m)
    E_year: u.kWh = P * F_loss * HOURS
    spare: u.A = a.ampacity - a.current
    arc_energy: u.flag = a.largest >= m.arc_energy_from
    above_next: u.flag = a.largest > m.next_size_limit
    by_load: u.flag = a.rating > a.ampacity
    return Arrangement(a.mains, a.rating, a.largest, spare, pounds, kilograms, P, F_loss, E_year, arc_energy, above_next, by_load)
