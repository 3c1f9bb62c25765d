"""The three rules by which conductors of feeders and services are sized, and how one size stands under them."""
from typing import NamedTuple

from curtilage.calc.conductors.dwelling_rule import dwelling_ampacity
from curtilage.calc.conductors.parallel import (
    NO_SIZE,
    column_together,
    may_be_parallel,
    smallest_for_drop,
    smallest_for_load,
    smallest_protected,
    smallest_with,
    together,
)
from curtilage.calc.conductors.protection import protects
from curtilage.calc.conductors.records import CHOOSE_SIZE
from curtilage.calc.conductors.refusals import size_without_sets, too_many_sets
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
BY_DEVICE: u.text = "device"
BY_DWELLING: u.text = "dwelling 83 %"
BY_LOAD: u.text = "load of several mains"
CORDS: u.flag = False                # no feeder is a circuit of receptacles
SETS = range(1, 100)                 # the input says where to stop


class Laid(NamedTuple):
    """What is laid: sets, the size that carries, and the size that also keeps the drop or was stated."""

    sets: u.count
    carries: u.size
    size: u.size


class Stands(NamedTuple):
    """How n sets of one size stand under a rule."""

    required: u.A
    ampacity: u.A
    margin: u.percent
    carries_ok: u.flag
    protected: u.flag
    parallel_ok: u.flag


@method
def smallest_by(rule, n: u.count, I: u.A, I_min: u.A, D: u.A, w, m):
    """Smallest size in n sets under one of the three rules.

    Source: NFPA 70 215.2(A)(1), 240.4; 310.12; 230.42(A), 230.90(A) exception 3.
    """
    if rule == BY_DWELLING:
        carries: u.size = smallest_with(n, dwelling_ampacity(D, m), w, m)
    elif rule == BY_LOAD:
        carries: u.size = smallest_for_load(n, I, I_min, w, m)
    else:
        carries: u.size = smallest_protected(n, I, I_min, D, CORDS, w, m)
    return carries


@method
def stands(rule, n: u.count, s: u.size, I: u.A, I_min: u.A, D: u.A, w, m):
    """How n sets of one size stand under one of the three rules.

    By device: load after factors, minimum before factors, and the general rule of protection. By dwelling: 83 % of the rating
    after factors, carrying and protection in one. By load: as by device, but the sum of the mains may exceed the ampacity.
    Source: as `smallest_by`.
    """
    I_c: u.A = column_together(n, s, w)
    I_z: u.A = together(n, s, w)
    parallel_ok: u.flag = may_be_parallel(n, s, m)
    if rule == BY_DWELLING:
        required: u.A = dwelling_ampacity(D, m)
        carries_ok: u.flag("NFPA 70 310.12") = I_z >= required
        protected: u.flag("NFPA 70 310.12") = I_z >= required
    elif rule == BY_LOAD:
        required: u.A = I
        carries_ok: u.flag("NFPA 70 230.42(A)") = I_c >= I_min and I_z >= required
        protected: u.flag("NFPA 70 230.90(A) exception 3") = I_z >= required
    else:
        required: u.A = I
        carries_ok: u.flag("NFPA 70 215.2(A)(1), 230.42(A)") = I_c >= I_min and I_z >= required
        protected: u.flag = protects(D, s, I_z, CORDS, m)
    margin: u.percent = WHOLE * (1 - required / I_z)
    return Stands(required, I_z, margin, carries_ok, protected, parallel_ok)


@method
def in_sets(rule, n: u.count, f, I: u.A, I_min: u.A, D: u.A, w, m):
    """n sets: the smallest size that carries, and from it the smallest that keeps the drop; `NO_SIZE` where there is none.

    Source: as `smallest_by`; drop as `smallest_for_drop`.
    """
    sets: u.count = n
    carries: u.size = smallest_by(rule, n, I, I_min, D, w, m)
    if carries == NO_SIZE:
        size: u.size = NO_SIZE
    else:
        size: u.size = smallest_for_drop(n, carries, I, f.length, f.pf, f.volts, f.drop_limit, f.largest, m)
    return Laid(sets, carries, size)


@method
def laid(rule, f, I: u.A, I_min: u.A, D: u.A, w, m):
    """Sets and size of a feeder or service `f`: as stated, or the fewest sets that do, each of the smallest size that does.

    Errors: a stated size without sets; more sets than the input allows.
    Source: as `smallest_by`; 310.10(G).
    """
    if f.size != CHOOSE_SIZE:
        if f.sets < 1:
            raise size_without_sets(f.id, f.size)
        sets: u.count = f.sets
        carries: u.size = smallest_by(rule, sets, I, I_min, D, w, m)
        size: u.size = f.size
        return Laid(sets, carries, size)
    if f.sets > 0:
        stated = in_sets(rule, f.sets, f, I, I_min, D, w, m)
        if stated.size == NO_SIZE:
            raise too_many_sets(f.id, I, f.largest, f.sets)
        return stated
    for n in SETS:
        if n > f.most_sets:
            raise too_many_sets(f.id, I, f.largest, f.most_sets)
        chosen = in_sets(rule, n, f, I, I_min, D, w, m)
        if chosen.size != NO_SIZE:
            break
    return chosen
