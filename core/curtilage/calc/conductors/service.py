"""Service: the mains, and the conductors from the transformer to them."""
from curtilage.calc.conductors.ampacity import conditions
from curtilage.calc.conductors.carrying import BY_DEVICE, BY_DWELLING, BY_LOAD, laid, stands
from curtilage.calc.conductors.drop import losses
from curtilage.calc.conductors.dwelling_rule import dwelling_permission
from curtilage.calc.conductors.neutral_size import service_neutral
from curtilage.calc.conductors.records import MainRun, ServiceRun
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
THREE_WIRE: u.flag = True
ONE_MAIN: u.count = 1


@method
def service_main(x, volts: u.V, m):
    """One service disconnect; `x` is a `Main`, `volts` line to line.

    The next standard size at or above its minimum, or the stated one held against it.
    Source: NFPA 70 230.79, 230.90(A), 240.6(A).
    """
    I: u.A = x.va / volts
    I_min: u.A = x.minimum_va / volts
    least: u.A = m.standard_rating(I_min)
    if x.rating > 0:
        rating: u.A = x.rating
    else:
        rating: u.A = least
    ok: u.flag = rating >= I_min and m.standard_rating(rating) == rating
    spare: u.percent = WHOLE * (1 - I / rating)
    return MainRun(I, I_min, least, rating, ok, spare)


@method
def service_rule(mains: u.count, by_83: u.flag):
    """The rule by which service conductors are sized.

    One main protects them; of several mains the sum may exceed the ampacity, if the calculated load does not.
    Source: NFPA 70 230.90(A) and its exception 3; 310.12(A).
    """
    if by_83:
        rule: u.text = BY_DWELLING
    elif mains == ONE_MAIN:
        rule: u.text = BY_DEVICE
    else:
        rule: u.text = BY_LOAD
    return rule


@method
def service(s, m):
    """Service conductors for one main or several; `s` is a `Service`, `m` a view of an edition ("al-pvc").

    The service rating is the sum of the mains. A dwelling's is not below 100 A. The 83 % rule takes that sum as the rating.
    Not for: more than one service, overhead drops of the utility, three-phase.
    Errors: as `feeder`.
    Source: NFPA 70 230.42(A), 230.71(B), 230.79(C), 230.80, 230.90(A), 240.4(B), 240.4(C), 310.10(G), 310.12(A), 310.15.
    """
    I: u.A = s.va / s.volts
    I_min: u.A = s.minimum_va / s.volts
    each = tuple(service_main(x, s.volts, m) for x in s.mains)
    ratings = tuple(x.rating for x in each)
    mains: u.count = len(ratings)
    mains_ok: u.flag = mains <= m.mains_most
    rating: u.A("NFPA 70 230.80") = sum(ratings)
    least: u.A = max(I_min, m.dwelling_service_least) if s.dwelling else I_min
    rating_ok: u.flag = rating >= least
    may = dwelling_permission(rating, THREE_WIRE, s.whole_dwelling, m)
    by_83: u.flag = s.take_83 and may.allowed
    rule: u.text = service_rule(mains, by_83)
    w = conditions(s.insulation, s.terminals, s.ambient, s.ccc, m)
    k = laid(rule, s, I, I_min, rating, w, m)
    z = stands(rule, k.sets, k.size, I, I_min, rating, w, m)
    carries_load: u.flag = z.ampacity >= I
    lost = losses(k.sets, k.size, I, s.length, s.pf, s.volts, m)
    drop_ok: u.flag = lost.drop <= s.drop_limit
    drop_left: u.percent = s.drop_limit - lost.drop
    n = service_neutral(s, k.sets, k.size, w, m)
    return ServiceRun(I, I_min, mains, mains_ok, rating, least, rating_ok, rule, may.allowed, may.reason, z.required, k.sets,
                      k.carries, k.size, z.ampacity, z.margin, z.carries_ok, z.protected, z.parallel_ok, lost.dc, lost.drop,
                      lost.exact, drop_ok, drop_left, lost.volts, n.current, n.least, n.size, n.ok, carries_load)
