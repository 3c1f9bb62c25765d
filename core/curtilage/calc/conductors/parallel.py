"""Smallest size of each conductor in n sets alike, one set to a raceway, for each rule that conductors are sized by.

n is 1 for a single run. Each search gives `NO_SIZE` where nothing will do. Currents and ampacities are those
of all sets together. That sets in parallel have one length, material, size and termination (310.10(G)) is taken for granted.
"""
from curtilage.calc.conductors.drop import THERE_AND_BACK, WHOLE, approximate_drop, reactive_factor
from curtilage.calc.conductors.protection import protects
from curtilage.values import lines as u
from curtilage.values.method import method

NO_SIZE: u.size = "none"


@method
def together(n: u.count, s: u.size, w):
    """Ampacity of n conductors of one size in parallel, after factors and terminals.

    In A; `w` are the conditions in each raceway. Source: NFPA 70 310.10(G), 310.15, 110.14(C).
    """
    I_z: u.A = n * min(w.hot[s] * w.f_t * w.f_n, w.lugs[s])
    return I_z


@method
def column_together(n: u.count, s: u.size, w):
    """The same without factors: what a load with its continuous part at 125 % is held against.

    In A. Source: NFPA 70 210.19(A)(1), 215.2(A)(1), 230.42(A).
    """
    I_c: u.A = n * min(w.hot[s], w.lugs[s])
    return I_c


@method
def may_be_parallel(n: u.count, s: u.size, m):
    """Whether n conductors of this size may share one current: one always, several from 1/0 up.

    Not for: the exceptions for control, frequency above 60 Hz and existing neutrals. Source: NFPA 70 310.10(G)(1).
    """
    parallel_ok: u.flag("NFPA 70 310.10(G)(1)") = n == 1 or m.cmil[s] >= m.parallel_least
    return parallel_ok


@method
def smallest_protected(n: u.count, I: u.A, I_min: u.A, D: u.A, cords: u.flag, w, m):
    """Smallest size that carries the load after factors and the minimum before factors, and that a device D protects.

    Source: NFPA 70 210.19(A)(1), 215.2(A)(1), 240.4, 310.10(G).
    """
    for s in m.sizes:
        I_c: u.A = column_together(n, s, w)
        I_z: u.A = together(n, s, w)
        if may_be_parallel(n, s, m) and I_c >= I_min and I_z >= I and protects(D, s, I_z, cords, m):
            carries: u.size = s
            break
    else:
        carries: u.size = NO_SIZE
    return carries


@method
def smallest_for_load(n: u.count, I: u.A, I_min: u.A, w, m):
    """Smallest size that carries the load after factors and the minimum before factors, whatever the device.

    For service conductors to several mains. Source: NFPA 70 230.42(A), 230.90(A) exception 3, 310.10(G).
    """
    for s in m.sizes:
        I_c: u.A = column_together(n, s, w)
        I_z: u.A = together(n, s, w)
        if may_be_parallel(n, s, m) and I_c >= I_min and I_z >= I:
            carries: u.size = s
            break
    else:
        carries: u.size = NO_SIZE
    return carries


@method
def smallest_with(n: u.count, I_need: u.A, w, m):
    """Smallest size with a given ampacity after factors and terminals, whatever the device.

    For the 83 % rule, and for motors and nameplates. Source: NFPA 70 310.12, 430.22, 440.4(B), 310.10(G).
    """
    for s in m.sizes:
        I_z: u.A = together(n, s, w)
        if may_be_parallel(n, s, m) and I_z >= I_need:
            carries: u.size = s
            break
    else:
        carries: u.size = NO_SIZE
    return carries


@method
def smallest_for_drop(n: u.count, start: u.size, I: u.A, L: u.ft, pf: u.ratio, V: u.V, limit: u.percent, largest: u.size, m):
    """Smallest size from `start` up that keeps the drop of I amperes over L feet at or below the limit.

    In the form R cos + X sin, each set carrying its share; sizes without a row in Table 9 are passed over. The limit is a
    recommendation of the notes, not a rule.
    Source: NFPA 70 210.19(A) and 215.2(A) informational notes; Ch. 9 Table 9.
    """
    q: u.ratio = reactive_factor(pf)
    I_1: u.A = I / n
    for s in m.from_size[start]:
        if m.cmil[s] > m.cmil[largest]:
            size: u.size = NO_SIZE
            break
        if s not in m.r:
            continue
        V_d: u.V = approximate_drop(THERE_AND_BACK, m.r[s], m.x[s], pf, q, I_1, L)
        drop: u.percent = WHOLE * V_d / V
        if drop <= limit:
            size: u.size = s
            break
    else:
        size: u.size = NO_SIZE
    return size
