"""How full a raceway is, the smallest trade size that holds some conductors, and whether they can jam.

`m` is the view of an edition for one kind of raceway ("raceway-pvc40"): `m.whole[s]` and `m.inside[s]` by trade size.
"""
from math import floor, pi

from curtilage.calc.raceways.records import NO_SIZE, Filled, Fit, Jam, Least, Lying
from curtilage.calc.raceways.refusals import no_area, nothing_fits, nothing_inside
from curtilage.values import lines as u
from curtilage.values.method import method

IN_PER_FT: u.in_per_ft = 12.0
WHOLE: u.percent = 100.0
NO_AREA: u.in2 = 0.0
NO_FILL: u.percent = 0.0
NO_RATIO: u.ratio = 0.0
NO_DIAMETER: u.inch = 0.0
NO_WIRES: u.count = 0
ONE: u.count = 1
TWO: u.count = 2
THREE: u.count = 3


def three_largest(diameters, counts):
    """Mean of the three largest diameters, each as often as it lies there."""
    falling = sorted(zip(diameters, counts, strict=True), key=lambda pair: pair[0], reverse=True)
    a, b, c = [d for d, n in falling for _ in range(int(n))][:3]
    return (a + b + c) / 3


@method
def area_of_circle(d: u.inch):
    """Area of a round cross-section; of a cable with an elliptical one, by its larger diameter.

    Source: NFPA 70 Ch. 9 Table 1 notes 5 and 9.
    """
    A: u.in2("NFPA 70 Ch. 9 Table 1 note 9") = pi / 4 * d * d
    return A


@method
def diameter_of_area(A: u.in2):
    """Diameter of a round cross-section of an area: where a source gives an area alone. In inches."""
    d: u.inch("area of a circle, solved for the diameter") = (4 * A / pi) ** 0.5
    return d


@method
def lie(c, m):
    """Conductors of one kind: diameter and area of one, and the area of all of them; `c` is a `Wire`.

    A stated diameter goes before the tables. A cable of several conductors counts as one conductor.
    Errors: no table for this insulation; a size without a row.
    Source: NFPA 70 Ch. 9 Table 1 notes 5, 8, 9; Tables 5, 5A, 8.
    """
    if c.diameter > 0:
        d: u.inch = c.diameter
        A_1: u.in2 = area_of_circle(d)
    elif c.compact and c.insulation == "xhhw-2":
        d: u.inch = m.compact_diameter_xhhw[c.size]
        A_1: u.in2 = m.compact_area_xhhw[c.size]
    elif c.compact and c.insulation == "thwn-2":
        d: u.inch = m.compact_diameter_thhn[c.size]
        A_1: u.in2 = m.compact_area_thhn[c.size]
    elif c.insulation == "bare":
        d: u.inch = m.bare_diameter[c.size]
        A_1: u.in2 = m.bare_area[c.size]
    elif c.compact:
        raise no_area(c)
    elif c.insulation == "xhhw-2":
        d: u.inch = m.conductor_diameter_xhhw[c.size]
        A_1: u.in2 = m.conductor_area_xhhw[c.size]
    elif c.insulation == "thwn-2":
        d: u.inch = m.conductor_diameter_thhn[c.size]
        A_1: u.in2 = m.conductor_area_thhn[c.size]
    elif c.insulation == "rhw-2":
        d: u.inch = m.conductor_diameter_rhw_covered[c.size]
        A_1: u.in2 = m.conductor_area_rhw_covered[c.size]
    elif c.insulation == "rhw-2 uncovered":
        d: u.inch = m.conductor_diameter_rhw[c.size]
        A_1: u.in2 = m.conductor_area_rhw[c.size]
    else:
        raise no_area(c)
    A_n: u.in2 = c.count * A_1
    return Lying(c.id, c.count, c.size, c.material, d, A_1, A_n)


@method
def most_alike(s: u.size, share: u.percent, A_1: u.in2, m):
    """The largest number of conductors of one size and insulation in a raceway of trade size s.

    A decimal of 0.8 and more counts as one more. Source: NFPA 70 Ch. 9 Table 1 notes 1 and 7; Annex C.
    """
    exact: u.ratio = share / WHOLE * m.whole[s] / A_1
    whole: u.count = floor(exact)
    n_most: u.count("NFPA 70 Ch. 9 Table 1 note 7") = whole + 1 if exact - whole >= m.alike_from else whole
    return n_most


@method
def count_alike(s: u.size, A_1: u.in2, m):
    """How many conductors of one size and insulation a raceway holds, as the tables of Annex C have it.

    Three and more by the share for them, else two, else one, each by its own share.
    Source: NFPA 70 Annex C; Ch. 9 Table 1 with note 7.
    """
    share: u.percent = WHOLE * m.fill_share(THREE)
    n_3: u.count = most_alike(s, share, A_1, m)
    share: u.percent = WHOLE * m.fill_share(TWO)
    n_2: u.count = most_alike(s, share, A_1, m)
    share: u.percent = WHOLE * m.fill_share(ONE)
    n_1: u.count = most_alike(s, share, A_1, m)
    if n_3 >= THREE:
        n_most: u.count = n_3
    else:
        n_most: u.count = TWO if n_2 >= TWO else min(n_1, ONE)
    return n_most


@method
def fit(s: u.size, n: u.count, A_n: u.in2, A_1: u.in2, alike: u.flag, nipple: u.flag, m):
    """Whether n conductors of A_n in all lie in a raceway of trade size s as they may; A_1 is the area of the largest.

    Not for: raceways with own limits (wireways, surface raceways), cables of Article 725 and 770 in raceways of their own.
    Source: NFPA 70 Ch. 9 Table 1 with notes 4 and 7, Table 4.
    """
    share: u.percent = WHOLE * (m.nipple_fill if nipple else m.fill_share(n))
    fill: u.percent = WHOLE * A_n / m.whole[s]
    n_most: u.count = most_alike(s, share, A_1, m)
    ok: u.flag = fill <= share or (alike and n <= n_most)
    return Fit(share, fill, ok)


@method
def smallest_raceway(r, n: u.count, A_n: u.in2, A_1: u.in2, alike: u.flag, nipple: u.flag, m):
    """The smallest trade size that holds n conductors of A_n in all, and the next smaller one with its fill.

    Errors: no trade size does. Source: NFPA 70 Ch. 9 Tables 1 and 4.
    """
    below: u.size = NO_SIZE
    fill: u.percent = NO_FILL
    for s in m.sizes:
        f = fit(s, n, A_n, A_1, alike, nipple, m)
        if f.ok:
            least: u.size = s
            break
        below: u.size = s
        fill: u.percent = f.fill
    else:
        raise nothing_fits(r, A_n)
    return Least(least, below, fill)


@method
def jam(n: u.count, d_3: u.inch, D: u.inch, m):
    """Jam ratio of a raceway of inside diameter D: whether three conductors of mean diameter d_3 can wedge side by side.

    D over d_3, and the same with the raceway a little wider in the bend; a ratio between the two limits can jam. The three
    largest conductors rule: an average over a small ground beside them would hide it. Information, not a requirement.
    Source: NFPA 70 Ch. 9 Table 1, informational note; cable makers' pulling guides for the wider bend.
    """
    if n < THREE:
        return Jam(NO_RATIO, NO_RATIO, True)
    straight: u.ratio = D / d_3
    in_bend: u.ratio = m.jam_bend * D / d_3
    clear: u.flag = in_bend < m.jam_from or straight > m.jam_to
    return Jam(straight, in_bend, clear)


@method
def chosen_raceway(least: u.size, n: u.count, d_3: u.inch, m):
    """The smallest trade size from `least` up in which three conductors cannot jam; `least` where all would.

    Source: NFPA 70 Ch. 9 Table 1, informational note; common practice.
    """
    for s in m.from_size[least]:
        if jam(n, d_3, m.inside[s], m).ok:
            size: u.size = s
            break
    else:
        size: u.size = least
    return size


@method
def mean_diameter(lying, n: u.count):
    """Mean of the three largest diameters; 0 where fewer than three conductors lie there. In inches."""
    diameters = tuple(x.diameter for x in lying)
    counts = tuple(x.count for x in lying)
    d_3: u.inch = three_largest(diameters, counts) if n >= THREE else NO_DIAMETER
    return d_3


@method
def raceway(r, m):
    """A raceway, from what lies in it to its fill; `r` is a `Raceway`, `m` the view of its kind ("raceway-pvc40").

    A trade size that is left out is chosen: the smallest that holds the conductors and in which three of them cannot jam.
    Grounds, neutrals and spares count like any other conductor. At most 24 in long, it is a nipple.
    Errors: no table for a conductor; no trade size holds them.
    Source: NFPA 70 Ch. 9 Tables 1, 4, 5, 5A, 8, and notes 4, 5, 7, 8, 9.
    """
    lying = tuple(lie(c, m) for c in r.wires)
    n: u.count = sum(x.count for x in lying)
    A_n: u.in2 = sum(x.area for x in lying)
    A_1: u.in2 = max(x.each for x in lying)
    alike: u.flag = A_1 == min(x.each for x in lying)
    nipple: u.flag("NFPA 70 Ch. 9 Table 1 note 4") = r.length > 0 and r.length * IN_PER_FT <= m.nipple_length
    k = smallest_raceway(r, n, A_n, A_1, alike, nipple, m)
    d_3: u.inch = mean_diameter(lying, n)
    size: u.size = r.size if r.size != "" else chosen_raceway(k.size, n, d_3, m)
    f = fit(size, n, A_n, A_1, alike, nipple, m)
    j = jam(n, d_3, m.inside[size], m)
    room: u.in2 = f.share / WHOLE * m.whole[size] - A_n
    carrying: u.count = sum(c.carrying for c in r.wires)
    return Filled(size, m.inside[size], m.whole[size], n, A_n, f.share, f.fill, f.ok, room, k.size, k.below, k.below_fill,
                  d_3, j.ratio, j.in_bend, j.ok, carrying, lying)


@method
def empty_raceway(r, m):
    """A raceway in which nothing lies yet: fill does not apply; `room` is what three or more conductors may fill.

    Errors: its trade size is not stated. Source: NFPA 70 Ch. 9 Tables 1 and 4.
    """
    if r.size == "":
        raise nothing_inside(r)
    share: u.percent = WHOLE * m.fill_share(THREE)
    room: u.in2 = share / WHOLE * m.whole[r.size]
    return Filled(r.size, m.inside[r.size], m.whole[r.size], NO_WIRES, NO_AREA, share, NO_FILL, True, room, NO_SIZE, NO_SIZE,
                  NO_FILL, NO_DIAMETER, NO_RATIO, NO_RATIO, True, NO_WIRES, ())
