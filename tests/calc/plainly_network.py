"""The told methods of the network written a second time, with complex numbers, without a look at the first."""
from typing import Any


def loading(c: Any) -> tuple[float, float]:
    together = sum(r.va for r in c.rows)
    return together, c.total / together


def legs(p: Any) -> tuple[float, ...]:
    sums = [0j, 0j, 0j]
    for r in p.rows:
        s = p.part * r.va * complex(r.pf, (1 - r.pf**2) ** 0.5)
        sums = [a + s * share for a, share in zip(sums, (r.on_1, r.on_2, r.across), strict=True)]
    return tuple(x for s in sums for x in (s.real, s.imag))


def currents(n: Any) -> tuple[float, ...]:
    v1, v2 = complex(n.v_1re, n.v_1im), complex(n.v_2re, n.v_2im)
    a = (complex(n.p_1, n.q_1) / v1).conjugate()
    b = (complex(n.p_2, n.q_2) / v2).conjugate()
    c = (complex(n.p_12, n.q_12) / (v1 - v2)).conjugate()
    i1 = a + c + sum(complex(f.i_1re, f.i_1im) for f in n.feeders)
    i2 = b - c + sum(complex(f.i_2re, f.i_2im) for f in n.feeders)
    return i1.real, i1.imag, i2.real, i2.imag


def state(v1: complex, v2: complex, i1: complex, i2: complex, lost: float, p: Any) -> tuple[Any, ...]:
    same = abs(abs(v1) - p.settled_1) < 1e-9 and abs(abs(v2) - p.settled_2) < 1e-9
    return (abs(v1), abs(v2), abs(v1 - v2), abs(i1), abs(i2), abs(i1 + i2), 100 * min(abs(v1), abs(v2)) / p.nominal, lost,
            v1.real, v1.imag, v2.real, v2.imag, same)


def reach(p: Any) -> tuple[Any, ...]:
    """By potentials: the neutral at the near end is 0, that at the far end is not."""
    i1, i2 = complex(p.i_1re, p.i_1im), complex(p.i_2re, p.i_2im)
    z, zn = complex(p.r_line, p.x_line), complex(p.r_neutral, p.x_neutral)
    line_1 = complex(p.v_1re, p.v_1im) - z * i1
    line_2 = complex(p.v_2re, p.v_2im) - z * i2
    neutral = 0 + zn * (i1 + i2)
    lost = p.r_line * (abs(i1) ** 2 + abs(i2) ** 2) + p.r_neutral * abs(i1 + i2) ** 2
    return state(line_1 - neutral, line_2 - neutral, i1, i2, lost, p)


def terminals(p: Any) -> tuple[Any, ...]:
    """Each half winding carries the voltage that the common branch leaves, less its own."""
    i1, i2 = complex(p.i_1re, p.i_1im), complex(p.i_2re, p.i_2im)
    common = complex(p.r_source + p.r_primary, p.x_source + p.x_primary)
    half = complex(p.r_secondary, p.x_secondary)
    wound = p.volts - common * (i1 - i2)
    lost = common.real * abs(i1 - i2) ** 2 + half.real * (abs(i1) ** 2 + abs(i2) ** 2)
    return state(wound - half * i1, -wound - half * i2, i1, i2, lost, p)


def whole(n: Any) -> tuple[Any, ...]:
    load = sum(x.p_1 + x.p_2 + x.p_12 for x in n.loads)
    lost = sum(x.lost for x in n.nodes) + n.in_transformer
    last = min(n.nodes, key=lambda x: x.lowest)
    return load, lost, 100 * lost / (load + lost), last.lowest, last.id, n.rounds


def far_end(p: Any, m: Any, volts: float) -> tuple[float, float, bool]:
    """By going round: the current of the voltage, the voltage of the current, until nothing moves."""
    z = 2 * p.length / 1000 * complex(m.r[p.size], m.x[p.size])
    s, v = p.va * complex(p.pf, (1 - p.pf**2) ** 0.5), complex(volts)
    for _ in range(400):
        v = volts - z * (s / v).conjugate()
    based = 120 * abs(v) / p.nominal
    return abs(v), based, (110 if p.lighting else 108) <= based <= 126


def outlet(p: Any, m: Any) -> tuple[Any, ...]:
    (v, based, good), (_, other, well) = far_end(p, m, p.volts), far_end(p, m, p.volts_other)
    return v, p.va / v, based, other, good, well
