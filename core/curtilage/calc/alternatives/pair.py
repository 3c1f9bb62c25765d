"""A pair of transformers around a long run: devices, losses, regulation."""
from curtilage.calc.alternatives.records import PairRun
from curtilage.calc.conductors.drop import reactive_factor
from curtilage.calc.fault.records import Impedance
from curtilage.calc.fault.transformer import half_winding
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method
from curtilage.values.told import value

WHOLE: u.percent = 100.0
VA_PER_KVA: u.VA_per_kVA = 1000.0
TURNS: u.ratio = 4.0             # square of the ratio of turns: the whole high side over one half of it


@method
def no_load_loss(P: u.kVA, ed):
    """Losses in the iron of a dry-type transformer of P kVA, from its least efficiency.

    At the load of the rule the losses are the output times 1/efficiency - 1; the efficiency is highest where iron and copper lose
    the same, and the rule is stated near there, so half of them are taken to be iron. W.
    Source: 10 CFR 431.196(a); the halving is derived.
    """
    S_rule: u.VA = ed.dry_efficiency_load * P * VA_PER_KVA
    P_all: u.W = S_rule * (WHOLE / ed.dry_efficiency[P] - 1)
    P_iron: u.W = P_all / 2
    return P_iron


@method
def full_load_loss(P: u.kVA, ed):
    """Losses in the copper at rated load: those at the load of the rule, by the square. W. Source: as `no_load_loss`."""
    P_rule: u.W = no_load_loss(P, ed)
    P_full: u.W = P_rule / (ed.dry_efficiency_load * ed.dry_efficiency_load)
    return P_full


@method
def winding(P: u.kVA, V: u.V, ed):
    """Impedance of a dry-type transformer seen at V volts: resistance by the copper loss, reactance by what is left.

    In ohm. Errors: a copper loss that asks for more resistance than there is impedance. Source: IEEE C57.12.80.
    """
    S_rated: u.VA = P * VA_PER_KVA
    Z_base: u.ohm = V * V / S_rated
    f_r: u.ratio = full_load_loss(P, ed) / S_rated
    f_z: u.ratio = ed.dry_impedance / WHOLE
    if f_r >= f_z:
        raise CurtilageError(f"a transformer of {value(P):g} kVA with an impedance of {value(ed.dry_impedance):g} % cannot lose "
                             f"{100 * value(f_r):.1f} % in its copper; state another rating")
    R: u.ohm = f_r * Z_base
    X: u.ohm = (f_z * f_z - f_r * f_r) ** 0.5 * Z_base
    return Impedance(R, X)


@method
def regulation(z, S: u.VA, pf: u.ratio, V: u.V):
    """Drop in one winding at S volt-amperes, in percent of V. Source: as `approximate_drop`; NFPA 70 Ch. 9 Table 9 note 2."""
    q: u.ratio = reactive_factor(pf)
    V_d: u.V = (z.r * pf + z.x * q) * S / V
    dropped: u.percent = WHOLE * V_d / V
    return dropped


@method
def pair(p, ed):
    """Two alike transformers around a run; `p` is a `Pair`.

    Each side has a device of 125 % of the rated current, next standard size up; that behind the second one is as that ahead of
    the first.
    Both are separately derived: each has its bond, and the far one its electrode (250.30).
    Not for: three-phase, autotransformers, taps. Errors: a rating that the table does not have.
    Source: NFPA 70 450.3(B) and its note 1, 240.21(C), 250.30; losses as `no_load_loss`.
    """
    S_rated: u.VA = p.rating * VA_PER_KVA
    loading: u.percent = WHOLE * p.va / S_rated
    fits: u.flag = loading <= WHOLE
    I_low: u.A = ed.transformer_device * S_rated / p.volts
    I_high: u.A = ed.transformer_device * S_rated / p.high
    primary: u.A("NFPA 70 450.3(B) note 1") = ed.standard_rating(I_low)
    device: u.A("NFPA 70 450.3(B) note 1, 240.21(C)") = ed.standard_rating(I_high)
    no_load: u.W = 2 * no_load_loss(p.rating, ed)
    f_square: u.ratio = (p.va / S_rated) * (p.va / S_rated)
    P_copper: u.W = 2 * full_load_loss(p.rating, ed) * f_square
    z = winding(p.rating, p.high, ed)
    regulated: u.percent = 2 * regulation(z, p.va, p.pf, p.high)
    drop_left: u.percent = p.drop_limit - regulated
    half = half_winding(z, ed)
    k_high: u.ratio = p.high / p.volts
    R_ln: u.ohm("one half winding, and a fourth of the supply by the turns") = half.r + p.r_ll * k_high * k_high / TURNS
    X_ln: u.ohm("one half winding, and a fourth of the supply by the turns") = half.x + p.x_ll * k_high * k_high / TURNS
    return PairRun(loading, fits, primary, device, no_load, P_copper, regulated, drop_left, R_ln, X_ln)
