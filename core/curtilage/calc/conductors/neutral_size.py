"""The neutral of a feeder or service: by its load, by the fault it may have to carry, and by the rule of parallel conductors."""
from typing import NamedTuple

from curtilage.calc.conductors.parallel import NO_SIZE, may_be_parallel, together
from curtilage.calc.conductors.refusals import no_neutral
from curtilage.values import lines as u
from curtilage.values.method import method

NO_AREA: u.cmil = 0.0


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
def feeder_neutral(f, n: u.count, size: u.size, ground: u.size, w, m):
    """The neutral of a three-wire feeder; `ground` is its equipment ground in each raceway, after any increase.

    Not smaller than the equipment ground (in parallel: all neutrals together not smaller than one), so that a fault to the
    neutral clears. Full-size where the feeder asks for it. A two-wire feeder has none.
    Source: NFPA 70 220.61, 215.2 (grounded conductor), 250.122.
    """
    I_n: u.A = f.neutral_va / f.volts
    if f.three_wire:
        A_least: u.cmil = m.feeder_neutral_share * m.cmil[ground]
        smallest: u.size = least_neutral(f.id, n, I_n, A_least, w, m)
        neutral: u.size = size if f.full_neutral else smallest
        ok: u.flag = m.cmil[neutral] >= m.cmil[smallest]
    else:
        smallest: u.size = NO_SIZE
        neutral: u.size = NO_SIZE
        ok: u.flag = True
    return Neutral(I_n, smallest, neutral, ok)


@method
def service_neutral(s, n: u.count, size: u.size, w, m):
    """The neutral of a service: by its load and the rule of parallel conductors.

    Not for: the least size by the supply-side bonding table (250.24), which belongs to grounding and must be held against this.
    Source: NFPA 70 220.61, 230.42(C), 310.10(G).
    """
    I_n: u.A = s.neutral_va / s.volts
    smallest: u.size = least_neutral(s.id, n, I_n, NO_AREA, w, m)
    neutral: u.size = size if s.full_neutral else smallest
    ok: u.flag = m.cmil[neutral] >= m.cmil[smallest]
    return Neutral(I_n, smallest, neutral, ok)
