"""Holes and notches in sawn studs, joists and rafters; engineered members have no method here on purpose."""
from curtilage.calc.framing.records import HoleRun
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
NO_CUT: u.inch = 0.0


@method
def hole(h, m):
    """A hole or notch in one sawn member against the limits for the wood and for the wiring; `h` is a `Hole`.

    Joists and rafters take no notch in the middle third of their span; a notch is no place for unguarded wiring at all.
    Not for: engineered members, trusses, beams and posts, plates; several holes near one another; notches longer than a third of
    the depth; more than two doubled studs in a row. Errors: a kind of member without limits.
    Source: IRC R502.8.1, R602.6, R802.7.1; NFPA 70 300.4(A).
    """
    hole_most: u.inch = m.hole_share[h.member] / WHOLE * h.depth
    share: u.percent = m.end_notch_share[h.member] if h.at_end else m.notch_share[h.member]
    notch_most: u.inch = NO_CUT if h.middle else share / WHOLE * h.depth
    edge_least: u.inch = m.hole_edge[h.member]
    bored: u.flag = h.hole > NO_CUT
    notched: u.flag = h.notch > NO_CUT
    hole_ok: u.flag = h.hole <= hole_most
    edge_ok: u.flag = h.edge >= edge_least if bored else True
    notch_ok: u.flag = h.notch <= notch_most
    wood_ok: u.flag = hole_ok and edge_ok and notch_ok
    near: u.flag = notched or (bored and h.edge < m.nail_distance)
    nail_ok: u.flag("NFPA 70 300.4(A)") = h.guarded or not near
    ok: u.flag = wood_ok and nail_ok
    return HoleRun(hole_most, notch_most, edge_least, hole_ok, notch_ok, edge_ok, wood_ok, m.nail_distance, nail_ok, ok)
