"""What runs in a trench, against the ducts in it, the line between its ends, and the earth between power and communication."""
from curtilage.calc.raceways.records import Rated, Sectioned
from curtilage.values import lines as u
from curtilage.values.method import method

NO_LENGTH: u.ft = 0.0
NO_GAP: u.inch = 0.0


@method
def trench(t, ed):
    """Ducts that a trench needs and has, its length against the straight line, and the gap that it wants; `t` is a `Section`.

    A duct is wanted for each raceway that runs there, spares and provisions included. A trench cannot be shorter than the line
    between its ends. Source: geometry; common practice for the gap, where the utility's book says nothing else.
    """
    power: u.count = sum(1 for x in t.power)
    comm: u.count = sum(1 for x in t.comm)
    empty: u.count = sum(1 for x in t.spare)
    needed: u.count = power + comm + empty
    left: u.count = t.ducts - needed
    ducts_ok: u.flag = left >= 0
    east: u.ft = t.east_b - t.east_a
    north: u.ft = t.north_b - t.north_a
    straight: u.ft = (east * east + north * north) ** 0.5 if t.located else NO_LENGTH
    L: u.ft = t.length + t.rise
    beyond: u.ft = L - straight
    length_ok: u.flag = beyond >= 0
    apart: u.inch = ed.comm_separation if power > 0 and comm > 0 else NO_GAP
    apart_ok: u.flag = t.parted >= apart
    return Sectioned(power, comm, empty, needed, t.ducts, left, ducts_ok, L, straight, beyond, length_ok, apart,
                     t.parted, apart_ok)


@method
def rating_load(s, V: u.V):
    """Load of a supply that nobody has calculated: what its device lets through; `s` is a `Supply`.

    In VA; a bound, not a calculated load. Source: derived.
    """
    S: u.VA("the rating of the device is taken as the load") = s.device * V
    return Rated(S)
