"""The length of a way around members that must not be bored."""
from curtilage.calc.framing.records import PassageRun
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def passage(p):
    """An allowed way against the shortest one there would be; `p` is a `Passage`. In ft.

    Source: sums along both; the ways were found as the shortest by Dijkstra's rule.
    """
    L: u.ft = sum(s.length + s.rise for s in p.legs)
    L_short: u.ft = sum(s.length + s.rise for s in p.shortest)
    more: u.ft = L - L_short
    return PassageRun(L, L_short, more)
