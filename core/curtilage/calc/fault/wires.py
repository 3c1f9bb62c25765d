"""Resistance and reactance of conductors, one way, all sets in parallel, warm and cold."""
from curtilage.calc.fault.records import LateralWire, Wire
from curtilage.values import lines as u
from curtilage.values.method import method

FT_PER_KFT: u.ft_per_kft = 1000.0


@method
def one_way(z: u.ohm_per_kft, L: u.ft, n: u.count):
    """Resistance or reactance of n conductors of one size side by side, L feet long.

    In ohm; z is that of one conductor per 1,000 ft. Source: Ohm's law; NFPA 70 Ch. 9 Table 9.
    """
    Z_w: u.ohm("Ohm's law, n alike in parallel") = z * L / FT_PER_KFT / n
    return Z_w


@method
def cold_factor(m):
    """Resistance at the temperature of the largest fault over that at the temperature of the tables.

    Not for: the skin effect in large sizes, which does not fall with the temperature; the factor takes it with the rest, which
    makes the resistance a little smaller and the fault a little larger. Source: NFPA 70 Ch. 9 Table 8 note 2.
    """
    k_cold: u.ratio("NFPA 70 Ch. 9 Table 8 note 2") = 1 + m.alpha * (m.fault_cold - m.conductor_temperature)
    return k_cold


@method
def feeder_wire(f, m):
    """Resistance and reactance of the conductors of a feeder; `f` is a `Run`, `m` a view of an edition ("al-pvc").

    Each raceway holds a set and a full equipment ground of the same metal. The reactance of the ground is taken as that of a
    conductor of its size among the others in one raceway. Not for: metal raceways as the ground, unlike sets.
    Errors: a size without a row in the table of alternating-current resistance. Source: NFPA 70 Ch. 9 Tables 8 and 9, 250.122(F).
    """
    k_cold: u.ratio = cold_factor(m)
    R_line: u.ohm = one_way(m.r[f.size], f.length, f.sets)
    X_line: u.ohm = one_way(m.x[f.size], f.length, f.sets)
    R_neutral: u.ohm = one_way(m.r[f.neutral], f.length, f.sets)
    X_neutral: u.ohm = one_way(m.x[f.neutral], f.length, f.sets)
    R_ground: u.ohm = one_way(m.r[f.ground], f.length, f.sets)
    X_ground: u.ohm = one_way(m.x[f.ground], f.length, f.sets)
    R_line_cold: u.ohm = k_cold * R_line
    R_neutral_cold: u.ohm = k_cold * R_neutral
    R_ground_cold: u.ohm = k_cold * R_ground
    return Wire(R_line, X_line, R_neutral, X_neutral, R_ground, X_ground, R_line_cold, R_neutral_cold, R_ground_cold,
                f.length, f.sets, f.size, f.neutral, f.ground)


@method
def lateral_wire(f, m):
    """Resistance and reactance of service conductors; `f` is a `Lateral`, `m` a view of an edition ("al-pvc").

    Errors: as `feeder_wire`. Source: NFPA 70 Ch. 9 Tables 8 and 9.
    """
    k_cold: u.ratio = cold_factor(m)
    R_line: u.ohm = one_way(m.r[f.size], f.length, f.sets)
    X_line: u.ohm = one_way(m.x[f.size], f.length, f.sets)
    R_neutral: u.ohm = one_way(m.r[f.neutral], f.length, f.sets)
    X_neutral: u.ohm = one_way(m.x[f.neutral], f.length, f.sets)
    R_line_cold: u.ohm = k_cold * R_line
    R_neutral_cold: u.ohm = k_cold * R_neutral
    return LateralWire(R_line, X_line, R_neutral, X_neutral, R_line_cold, R_neutral_cold, f.length, f.sets, f.size, f.neutral)
