"""Terminals of a feeder: the range of sizes they take, and the space in which its conductors bend."""
from curtilage.calc.terminals.records import LugRun, TerminalRun
from curtilage.values import lines as u
from curtilage.values.method import method

NO_ADAPTER: u.size = "none"
NO_SPACE: u.inch = 0.0
ONE: u.count = 1


@method
def bending_space(size: u.size, wires: u.text, opposite: u.flag, m):
    """Space to bend a conductor into its terminal. In; 0 below the tables, which state none.

    For conductors that are not compact; a compact one may have less.
    Errors: more wires on a terminal than the table has for the size.
    Source: NFPA 70 312.6, Tables 312.6(A) and (B).
    """
    if m.cmil[size] < m.bending_from:
        space: u.inch = NO_SPACE
    elif opposite:
        space: u.inch = m.bending_opposite(size, wires)
    else:
        space: u.inch = m.bending_side(size, wires)
    return space


@method
def terminal(t, D: u.A, m):
    """The terminals at one end of a feeder with a device of D amperes; `m` is the view of its conductors ("al-pvc").

    A listed reducer or tap box in front of them is counted: then the one conductor behind it lands, and must carry the device.
    Not for: two conductors under one screw that takes one, torque, dissimilar metals. Source: NFPA 70 110.14(A), 240.4, 312.6.
    """
    reduced: u.flag = t.adapter != NO_ADAPTER
    lands: u.size = t.adapter if reduced else t.size
    n: u.count = ONE if reduced else t.sets
    fits: u.flag = m.cmil[lands] >= m.cmil[t.smallest] and m.cmil[lands] <= m.cmil[t.largest]
    range_ok: u.flag("NFPA 70 110.14(A)") = fits and n <= t.holds
    space: u.inch = bending_space(lands, t.wires, t.opposite, m)
    space_ok: u.flag = t.bending >= space
    adapter_ok: u.flag = m.ampacity75[t.adapter] >= D if reduced else True
    ok: u.flag = range_ok and space_ok and adapter_ok
    return TerminalRun(t.id, lands, n, range_ok, space, space_ok, adapter_ok, ok)


@method
def lug(f, m):
    """Both ends of a feeder; `f` is a `Lug`. Source: `terminal`."""
    range_ok: u.flag = True
    space: u.inch = NO_SPACE
    space_ok: u.flag = True
    adapter_ok: u.flag = True
    ends = ()
    for t in f.ends:
        r = terminal(t, f.device, m)
        range_ok: u.flag = range_ok and r.range_ok
        space: u.inch = max(space, r.space_least)
        space_ok: u.flag = space_ok and r.space_ok
        adapter_ok: u.flag = adapter_ok and r.adapter_ok
        ends = (*ends, r)                    # type: ignore[assignment]
    ok: u.flag = range_ok and space_ok and adapter_ok
    return LugRun(range_ok, space, space_ok, adapter_ok, ok, ends)
