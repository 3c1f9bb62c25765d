"""A feeder: from its calculated load to its device, sets, conductors, ground, neutral and drop."""
from curtilage.calc.conductors.ampacity import conditions
from curtilage.calc.conductors.carrying import BY_DEVICE, BY_DWELLING, laid, smallest_by, stands
from curtilage.calc.conductors.drop import losses
from curtilage.calc.conductors.dwelling_rule import dwelling_permission
from curtilage.calc.conductors.grounding_conductor import equipment_ground
from curtilage.calc.conductors.neutral_size import feeder_neutral
from curtilage.calc.conductors.parallel import NO_SIZE
from curtilage.calc.conductors.protection import NO_LIMIT, device
from curtilage.calc.conductors.records import FeederRun
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def ground_base(n: u.count, size: u.size, I: u.A, I_min: u.A, D: u.A, w, m):
    """The size from which the increase of the equipment ground is counted: the smallest of the ordinary table in n sets.

    The 83 % rule does not move it. Where nothing in the table carries, the size laid stands: nothing was increased.
    Source: NFPA 70 250.122(B), Table 310.16.
    """
    carries: u.size = smallest_by(BY_DEVICE, n, I, I_min, D, w, m)
    base: u.size = size if carries == NO_SIZE else carries
    return base


@method
def feeder(f, m):
    """A feeder, from its calculated load; `f` is a `Feeder`, `m` a view of an edition ("al-pvc").

    The fewest sets, each of the smallest size that carries, is protected and keeps the drop; what is stated is held to the same.
    With the 83 % rule the rating takes the place of the load: a load above the ampacity but within the rating is allowed by it.
    Not for: taps, transformers' secondaries, three-phase feeders, feeders of motors only (430.62), emergency systems.
    Errors: a value outside a table; a stated size without sets; no size within the limits.
    Source: NFPA 70 215.2, 215.3, 240.4, 250.122, 310.10(G), 310.12, 310.15, Ch. 9 Tables 8 and 9.
    """
    I: u.A = f.va / f.volts
    I_min: u.A = f.minimum_va / f.volts
    d = device(I_min, f.breaker, NO_LIMIT, m)
    may = dwelling_permission(d.rating, f.three_wire, f.whole_dwelling, m)
    by_83: u.flag = f.take_83 and may.allowed
    rule: u.text = BY_DWELLING if by_83 else BY_DEVICE
    w = conditions(f.insulation, f.terminals, f.ambient, f.ccc, m)
    k = laid(rule, f, I, I_min, d.rating, w, m)
    base: u.size = ground_base(k.sets, k.size, I, I_min, d.rating, w, m)
    z = stands(rule, k.sets, k.size, I, I_min, d.rating, w, m)
    carries_load: u.flag = z.ampacity >= I
    lost = losses(k.sets, k.size, I, f.length, f.pf, f.volts, m)
    drop_ok: u.flag = lost.drop <= f.drop_limit
    drop_left: u.percent = f.drop_limit - lost.drop
    g = equipment_ground(d.rating, base, k.size, m)
    start: u.size("the other reading: increased from the 83 % size") = (
        k.carries if by_83 and k.carries != NO_SIZE else base)
    g_83 = equipment_ground(d.rating, start, k.size, m)
    n = feeder_neutral(f, k.sets, k.size, g.size, w, m)
    return FeederRun(I, I_min, d.least, d.rating, d.ok, d.margin, may.allowed, may.reason, rule, z.required, k.sets, base,
                     k.carries, k.size, z.ampacity, z.margin, z.carries_ok, z.protected, z.parallel_ok, lost.dc, lost.drop,
                     lost.exact, drop_ok, drop_left, lost.volts, g.table, g.size, g_83.size, n.current, n.least, n.size, n.ok,
                     carries_load)
