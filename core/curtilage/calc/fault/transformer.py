"""The utility's transformer with its centre tap, and the network before it, as impedances at the secondary."""
from curtilage.calc.fault.records import Impedance, Seen, SupplyRun
from curtilage.calc.fault.refusals import least_above_largest, letter_above_lateral, no_primary_volts
from curtilage.values import lines as u
from curtilage.values.method import method

VA_PER_KVA: u.VA_per_kVA = 1000.0
WHOLE: u.percent = 100.0
TURNS: u.ratio = 4.0             # square of the ratio of turns: whole secondary over one half of it
NO_SOURCE: u.ohm = 0.0
OF_LETTER: u.text = "the utility's letter"
OF_PRIMARY: u.text = "fault current on the primary side"
INFINITE: u.text = "infinite primary: a bound, not a figure of the utility"


@method
def parts(Z: u.ohm, k_xr: u.ratio):
    """Resistance and reactance of an impedance of Z ohm with reactance k_xr times the resistance."""
    R: u.ohm = Z / (1 + k_xr * k_xr) ** 0.5
    X: u.ohm = R * k_xr
    return Impedance(R, X)


@method
def full_winding(P: u.kVA, v_z: u.percent, k_xr: u.ratio, V: u.V):
    """Impedance of a transformer of P kVA and v_z percent, seen at the whole of its secondary of V volts.

    Source: IEEE Std C57.12.80, impedance voltage in percent of the rated voltage.
    """
    Z: u.ohm = v_z / WHOLE * V * V / (P * VA_PER_KVA)
    z = parts(Z, k_xr)
    R_full: u.ohm = z.r
    X_full: u.ohm = z.x
    return Impedance(R_full, X_full)


@method
def half_winding(full, ed):
    """Impedance of one half of a centre-tapped secondary, at half the voltage; `full` is that of the whole one.

    In parts of the rating the half has more resistance and reactance than the whole, by factors of the usual interlaced winding.
    Not for: windings whose maker states other factors. Source: as cited beside the factors.
    """
    R_half: u.ohm("half of the turns, by the factor of the winding") = ed.half_winding_r * full.r / TURNS
    X_half: u.ohm("half of the turns, by the factor of the winding") = ed.half_winding_x * full.x / TURNS
    return Impedance(R_half, X_half)


@method
def behind_primary(s):
    """Impedance of the network before the transformer, at the whole secondary; `s` is a `Supply`.

    Errors: a fault current on the primary side without the voltage there. Source: Ohm's law, the square of the ratio of turns.
    """
    if s.primary > 0 and s.primary_volts <= 0:
        raise no_primary_volts(s.primary)
    if s.primary > 0:
        Z_net: u.ohm("Ohm's law, referred to the secondary") = s.volts * s.volts / (s.primary_volts * s.primary)
    else:
        Z_net: u.ohm("infinite primary") = NO_SOURCE
    z = parts(Z_net, s.primary_x_over_r)
    R_net: u.ohm = z.r
    X_net: u.ohm = z.x
    return Impedance(R_net, X_net)


@method
def by_letter(s, I: u.A):
    """Impedance at the terminals, line to line, by a letter's current of I amperes; `s` is a `Supply`.

    Where the figure holds at the gear, the service conductors between are taken off, cold, as the largest figure has them.
    Errors: a figure at the gear that the service conductors alone do not let through. Source: Ohm's law.
    """
    Z: u.ohm("Ohm's law") = s.volts / I
    z = parts(Z, s.letter_x_over_r)
    if s.at_gear:
        R: u.ohm = z.r - 2 * s.r_line
        X: u.ohm = z.x - 2 * s.x_line
        if X <= 0 or R < 0:
            raise letter_above_lateral(I, R, X)
        return Impedance(R, X)
    return z


@method
def seen_half(z, full, half):
    """Impedance of a line-to-neutral fault at the terminals: one half winding, and a fourth of the network before it.

    `z` is the impedance line to line, `full` and `half` are those of the transformer alone. Source: ratio of turns.
    """
    R_ln: u.ohm = half.r + (z.r - full.r) / TURNS
    X_ln: u.ohm = half.x + (z.x - full.x) / TURNS
    return Impedance(R_ln, X_ln)


@method
def letter_half(s, ed):
    """Impedance line to neutral at the terminals, by the letter's own figure; `s` is a `Supply`.

    Its ratio of reactance to resistance is that of the letter, moved by the factors of the half winding. Source: Ohm's law.
    """
    k_xr: u.ratio = s.letter_x_over_r * ed.half_winding_x / ed.half_winding_r
    Z: u.ohm("Ohm's law, half the voltage") = s.volts / 2 / s.letter_neutral
    z = parts(Z, k_xr)
    if s.at_gear:
        R: u.ohm = z.r - s.r_line - s.r_neutral
        X: u.ohm = z.x - s.x_line - s.x_neutral
        if X <= 0 or R < 0:
            raise letter_above_lateral(s.letter_neutral, R, X)
        return Impedance(R, X)
    return z


@method
def largest_seen(s, full, half, ed):
    """What a fault at the terminals sees with the strongest source; `s` is a `Supply`.

    The utility's letter goes before a fault current on the primary side, and that before an infinite primary.
    """
    if s.letter > 0:
        z = by_letter(s, s.letter)
    else:
        p = behind_primary(s)
        R_ll: u.ohm = full.r + p.r
        X_ll: u.ohm = full.x + p.x
        z = Impedance(R_ll, X_ll)
    if s.letter_neutral > 0:
        n = letter_half(s, ed)
    else:
        n = seen_half(z, full, half)
    return Seen(z.r, z.x, n.r, n.x)


@method
def least_seen(s, full, half, z):
    """What a fault at the terminals sees with the weakest source that is stated, else with the strongest: `z`.

    Errors: a least current above the available one.
    """
    if s.letter_least > s.letter:
        raise least_above_largest(s.letter_least, s.letter)
    if s.letter_least > 0:
        w = by_letter(s, s.letter_least)
        n = seen_half(w, full, half)
        return Seen(w.r, w.x, n.r, n.x)
    return z


@method
def supply(s, ed):
    """A single-phase transformer with a centre tap, and what a fault at its terminals sees; `s` is a `Supply`.

    The least current takes the least that the utility states. Where it states none, the source of the largest current stands for
    it, which is too strong: the least current is then no bound, and says so.
    Not for: three-phase banks, wye secondaries, contributions of motors, generators and inverters, saturation.
    Errors: a primary current without its voltage; a letter that does not fit.
    Source: T. Gonen, Electric Power Distribution System Engineering, examples 3.1 and 3.2 (branches around the centre tap).
    """
    if s.letter > 0:
        basis: u.text = OF_LETTER
    elif s.primary > 0:
        basis: u.text = OF_PRIMARY
    else:
        basis: u.text = INFINITE
    full = full_winding(s.rating, s.impedance, s.x_over_r, s.volts)
    half = half_winding(full, ed)
    R_common: u.ohm("Gonen, example 3.1") = 2 * full.r / TURNS - half.r
    X_common: u.ohm("Gonen, example 3.1") = 2 * full.x / TURNS - half.x
    R_branch: u.ohm("Gonen, example 3.1") = 2 * half.r - 2 * full.r / TURNS
    X_branch: u.ohm("Gonen, example 3.1") = 2 * half.x - 2 * full.x / TURNS
    z = largest_seen(s, full, half, ed)
    R_source: u.ohm = (z.r_ll - full.r) / TURNS
    X_source: u.ohm = (z.x_ll - full.x) / TURNS
    stronger: u.flag = z.r_ll * z.r_ll + z.x_ll * z.x_ll < full.r * full.r + full.x * full.x
    least = least_seen(s, full, half, z)
    return SupplyRun(full.r, full.x, half.r, half.x, R_common, X_common, R_branch, X_branch, R_source, X_source,
                     z.r_ll, z.x_ll, z.r_ln, z.x_ln, least.r_ll, least.x_ll, least.r_ln, least.x_ln, basis, stronger)
