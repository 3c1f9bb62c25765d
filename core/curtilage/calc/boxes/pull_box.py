"""Pull and junction boxes for conductors of 4 AWG and larger, by the trade sizes of their raceways."""
from curtilage.calc.boxes.records import PullBoxRun
from curtilage.values import lines as u
from curtilage.values.method import method

NO_DISTANCE: u.inch = 0.0
ONE_WIRE: u.text = "one"


@method
def straight_least(trade: u.inch, m):
    """Length in the direction of a straight pull. In. Source: NFPA 70 314.28(A)(1)."""
    least: u.inch = m.straight_pull * trade
    return least


@method
def row_least(entries, m):
    """Distance from a wall to the one opposite for a row of entries on it, where conductors turn, come back or are spliced.

    In. Source: NFPA 70 314.28(A)(2).
    """
    largest: u.inch = max(e.trade for e in entries)
    whole: u.inch = sum(e.trade for e in entries)
    least: u.inch = m.angle_pull * largest + (whole - largest)
    return least


@method
def apart_least(one: u.inch, other: u.inch, m):
    """Distance between two entries with the same conductors. In. Source: NFPA 70 314.28(A)(2)."""
    least: u.inch = m.same_conductor * max(one, other)
    return least


@method
def dimension_least(straights, rows, m):
    """One inside dimension of a box: the most that any straight pull along it and any row on its two walls asks. In.

    Source: NFPA 70 314.28(A)(1), (2).
    """
    most: u.inch = NO_DISTANCE
    for e in straights:
        asked: u.inch = straight_least(e.trade, m)
        most: u.inch = max(most, asked)
    for r in rows:
        asked: u.inch = row_least(r.entries, m)
        most: u.inch = max(most, asked)
    return most


@method
def pull_box(b, m):
    """A pull or junction box or a handhole; `b` is a `PullBox`.

    Depth is asked for where conductors enter opposite the cover: the bending space of one wire.
    Not for: boxes with only smaller conductors (their fill decides), conductors above 1000 V, conduit bodies, boxes with a listed
    and marked smaller size. Source: NFPA 70 314.28(A), 314.30(A), Table 312.6(A).
    """
    applies: u.flag = m.cmil[b.largest] >= m.pull_box_from
    length: u.inch = dimension_least(b.straight_long, b.rows_long, m)
    width: u.inch = dimension_least(b.straight_wide, b.rows_wide, m)
    depth: u.inch = m.bending_side(b.largest, ONE_WIRE) if b.back and applies else NO_DISTANCE
    apart: u.inch = NO_DISTANCE
    short: u.inch = NO_DISTANCE
    for p in b.pairs:
        asked: u.inch = apart_least(p.one, p.other, m)
        apart: u.inch = max(apart, asked)
        short: u.inch = max(short, asked - p.apart)
    size_ok: u.flag = b.length >= length and b.width >= width and b.depth >= depth
    apart_ok: u.flag = short <= NO_DISTANCE
    ok: u.flag = not applies or (size_ok and apart_ok)
    return PullBoxRun(applies, length, width, depth, apart, short, size_ok, apart_ok, ok)
