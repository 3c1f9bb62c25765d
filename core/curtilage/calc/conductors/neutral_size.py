"""The neutral of a feeder or service: by its load, by the fault it may have to carry, and by the rule of parallel conductors."""
from typing import NamedTuple

from curtilage.calc.conductors.parallel import NO_SIZE, may_be_parallel, together
from curtilage.calc.conductors.records import CHOOSE_SIZE
from curtilage.calc.conductors.refusals import no_neutral
from curtilage.values import lines as u
from curtilage.values.method import method


class Neutral(NamedTuple):
    """Current and sizes of the neutral; each size is that of one conductor in one set."""

    current: u.A
    least: u.size
    size: u.size
    ok: u.flag


@method
def least_neutral(where, n: u.count, I_n: u.A, A_least: u.cmil, w, m):
    """Smallest neutral in n sets that carries its load and has, in all sets together, a given area.

    I_n in A, without the 125 % of continuous load. Errors: none in the table does.
    Source: NFPA 70 220.61, 215.2 (grounded conductor), 310.10(G).
    """
    for s in m.sizes:
        I_z: u.A = together(n, s, w)
        if may_be_parallel(n, s, m) and I_z >= I_n and n * m.cmil[s] >= A_least:
            smallest: u.size = s
            break
    else:
        raise no_neutral(where, I_n)
    return smallest


@method
def laid_neutral(x, size: u.size, smallest: u.size):
    """The neutral that is laid beside line conductors of one size: the stated one, a full-size one, or the smallest."""
    if x.neutral != CHOOSE_SIZE:
        neutral: u.size("stated") = x.neutral
    elif x.full_neutral:
        neutral: u.size("as large as the line conductors") = size
    else:
        neutral: u.size = smallest
    return neutral


@method
def feeder_neutral(f, n: u.count, size: u.size, ground: u.size, w, m):
    """The neutral of a three-wire feeder; `ground` is its equipment ground in each raceway, after any increase.

    Not smaller than the equipment ground (in parallel: all neutrals together not smaller than one), so that a fault to the
    neutral clears. A stated one is held against that. A two-wire feeder has none.
    Source: NFPA 70 220.61, 215.2 (grounded conductor), 250.122.
    """
    I_n: u.A = f.neutral_va / f.volts
    if f.three_wire:
        A_least: u.cmil = m.feeder_neutral_share * m.cmil[ground]
        smallest: u.size = least_neutral(f.id, n, I_n, A_least, w, m)
        neutral: u.size = laid_neutral(f, size, smallest)
        ok: u.flag = m.cmil[neutral] >= m.cmil[smallest]
    else:
        smallest: u.size = NO_SIZE
        neutral: u.size = NO_SIZE
        ok: u.flag = True
    return Neutral(I_n, smallest, neutral, ok)


@method
def bonding_area(size: u.size, m):
    """Least area of the grounded conductor in one raceway with line conductors of one size, by the supply-side bonding table.

    Above the table, its share of the area of the line conductors. Source: NFPA 70 250.24 (grounded conductor), 250.102(C)(1).
    """
    A_line: u.cmil = m.cmil[size]
    if A_line > m.bond_from:
        A_least: u.cmil = m.bond_share * A_line
    else:
        least: u.size = m.bond(A_line)
        A_least: u.cmil = m.cmil[least]
    return A_least


@method
def service_neutral(s, n: u.count, size: u.size, w, m):
    """The neutral of a service: by its load, the supply-side bonding table and the rule of parallel conductors.

    Each set lies in a raceway of its own with one neutral. A stated neutral is held against that.
    Not for: several sets in one raceway, whose areas add in the bonding table.
    Source: NFPA 70 220.61, 230.42(C), 250.24 (grounded conductor), 250.102(C)(1), 310.10(G).
    """
    I_n: u.A = s.neutral_va / s.volts
    A_one: u.cmil = bonding_area(size, m)
    A_least: u.cmil("in all raceways together") = n * A_one
    smallest: u.size = least_neutral(s.id, n, I_n, A_least, w, m)
    neutral: u.size = laid_neutral(s, size, smallest)
    ok: u.flag = m.cmil[neutral] >= m.cmil[smallest]
    return Neutral(I_n, smallest, neutral, ok)
