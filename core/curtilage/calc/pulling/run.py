"""A pull through a raceway, stretch by stretch between pull points, both ways."""
from curtilage.calc.pulling.load import hanging, lie_of
from curtilage.calc.pulling.records import EmptyWayRun, PullRun, StretchRun
from curtilage.calc.pulling.tension import BACK, DEG_PER_RAD, IN_PER_FT, NO_PRESSURE, SLACK, THERE, along
from curtilage.values import lines as u
from curtilage.values.method import method

NO_LENGTH: u.ft = 0.0
STRAIGHT_ON: u.deg = 0.0
NO_STRETCHES: u.count = 0


@method
def bends_of(steps):
    """Sum of the bends of some steps. In degrees. Source: NFPA 70 3xx.26."""
    bends: u.deg = sum(s.angle for s in steps)
    return bends


@method
def length_of(steps):
    """Length of some steps: straight parts, and the arcs of the bends to the middle of the raceway. In ft."""
    L: u.ft = sum(s.length + s.angle / DEG_PER_RAD * s.radius / IN_PER_FT for s in steps)
    return L


@method
def wide_enough(stretches, R_least: u.inch):
    """Whether no bend whose radius is stated is narrower than the least that is allowed.

    Source: NFPA 70 3xx.24, Ch. 9 Table 2.
    """
    radius_ok: u.flag = True
    for s in stretches:
        for x in s.steps:
            if x.bend and x.radius > 0:
                radius_ok: u.flag = radius_ok and x.radius >= R_least
    return radius_ok


@method
def stretch(s, T_feed: u.lb, W: u.lb_per_ft, D: u.inch, R_least: u.inch, lie, f: u.ratio):
    """One stretch pulled both ways; the way with the lower tension counts. Source: `along`."""
    L: u.ft = length_of(s.steps)
    bends: u.deg = bends_of(s.steps)
    a = along(s.steps, THERE, T_feed, W, D, R_least, lie, f)
    b = along(s.reverse, BACK, T_feed, W, D, R_least, lie, f)
    T: u.lb = min(a.tension, b.tension)
    P: u.lb_per_ft = a.pressure if a.tension <= b.tension else b.pressure
    return StretchRun(s.id, L, bends, a.tension, b.tension, T, P)


@method
def pull(p, m):
    """A pull through a raceway; `p` is a `Pull`, `m` the view of the kind of raceway ("raceway-pvc40").

    The bound of the code is on the bends between pull points. Tension and pressure are an estimate before the pull: the rope is
    watched all the same. Two readings of what several conductors take stand side by side, and the strict one decides.
    Not for: conductors of very different thickness, flexible raceways, jam (see the fill of the raceway).
    Errors: a step that cannot be, conductors that do not fit, a size without a row.
    Source: NFPA 70 3xx.26; published pulling equations and makers' guides, named at each rule.
    """
    D: u.inch = m.inside[p.size]
    R_least: u.inch = m.sweep_radius[p.size]
    radius_ok: u.flag = wide_enough(p.stretches, R_least)
    load = hanging(p, m)
    lie = lie_of(load.count, load.diameter, D, m)
    n: u.count = NO_STRETCHES
    L: u.ft = NO_LENGTH
    bends: u.deg = STRAIGHT_ON
    there: u.lb = SLACK
    back: u.lb = SLACK
    T: u.lb = SLACK
    P: u.lb_per_ft = NO_PRESSURE
    parts = ()
    for s in p.stretches:
        r = stretch(s, p.feed, load.weight, D, R_least, lie, p.friction)
        n: u.count = n + 1
        L: u.ft = L + r.length
        bends: u.deg = max(bends, r.bends)
        there: u.lb = max(there, r.there)
        back: u.lb = max(back, r.back)
        T: u.lb = max(T, r.tension)
        P: u.lb_per_ft = max(P, r.pressure)
        parts = (*parts, r)                  # type: ignore[assignment]
    bends_ok: u.flag = bends <= m.bends_most
    tension_ok: u.flag = T <= load.allowed
    pressure_ok: u.flag = P <= m.side_pressure
    usual_ok: u.flag = T <= load.usual and P <= m.side_pressure_usual
    return PullRun(load.weight, load.diameter, D, lie.name, lie.factor, n, L, bends, bends_ok, R_least, radius_ok, there, back,
                   T, load.allowed, load.usual, tension_ok, usual_ok, P, m.side_pressure, pressure_ok, parts)


@method
def empty_way(w, m):
    """The bends of a raceway in which nothing is pulled now. Source: NFPA 70 3xx.26."""
    n: u.count = NO_STRETCHES
    L: u.ft = NO_LENGTH
    bends: u.deg = STRAIGHT_ON
    for s in w.stretches:
        n: u.count = n + 1
        L_s: u.ft = length_of(s.steps)
        L: u.ft = L + L_s
        bends_s: u.deg = bends_of(s.steps)
        bends: u.deg = max(bends, bends_s)
    bends_ok: u.flag = bends <= m.bends_most
    R_least: u.inch = m.sweep_radius[w.size]
    radius_ok: u.flag = wide_enough(w.stretches, R_least)
    return EmptyWayRun(n, L, bends, bends_ok, R_least, radius_ok)
