"""One motor: its current by the tables, its short-circuit devices by kind, its overload protection, its locked-rotor current."""
from curtilage.calc.conductors.protection import motor_device_most
from curtilage.calc.motors.records import (
    NO_LETTER,
    NOT_STATED,
    ONE_PHASE,
    SINGLE,
    Limits,
    Locked,
    MotorRun,
    Overload,
)
from curtilage.values import lines as u
from curtilage.values.method import method

ROOT_3: u.ratio = 3 ** 0.5
UNITY: u.ratio = 1.0
VA_PER_KVA: u.VA_per_kVA = 1000.0
FUSE: u.text = "fuse"
DUAL: u.text = "dual element fuse"
BREAKER: u.text = "breaker"
INSTANT: u.text = "instantaneous trip"
BY_NAMEPLATE: u.text = "nameplate"
BY_LETTER: u.text = "code letter"
BY_TABLE: u.text = "table"


@method
def full_load(x, m):
    """Full-load current of a motor from the tables by horsepower and voltage, in A; never from its plate.

    Errors: a horsepower or a voltage that the table does not have. Not for: torque motors, multispeed motors, hermetic
    compressors, listed appliances with a marked current. Source: NFPA 70 430.6(A)(1), Tables 430.248 and 430.250.
    """
    if x.phases == ONE_PHASE:
        I_fl: u.A = m.motor_current_1ph(x.hp, x.volts)
    else:
        I_fl: u.A = m.motor_current_3ph(x.hp, x.volts)
    return I_fl


@method
def rotor_conductor(I: u.A, m):
    """Smallest ampacity between a wound rotor and its controller, for I amperes of secondary current. A. Source: 430.23(A)."""
    I_rotor: u.A("NFPA 70 430.23(A)") = m.motor_conductor_factor * I
    return I_rotor


@method
def fuse_limits(I: u.A, kind: u.text, device: u.text, share: u.ratio, m):
    """A fuse of one kind for a motor of I amperes: the next standard size above the table, and the largest of the exception.

    `share` is what the exception allows, in parts of the current. The larger one is only for a motor that does not start on the
    standard size; it is rounded down, and never below the standard one.
    Source: NFPA 70 430.52(C)(1) exceptions 1 and 2, Table 430.52.
    """
    at_most: u.A = m.motor_protection(kind, device) * I
    standard: u.A("NFPA 70 430.52(C)(1) exception 1") = m.standard_rating(at_most)
    allowed: u.A("NFPA 70 430.52(C)(1) exception 2") = share * I
    if allowed >= m.branch_device_least:
        larger: u.A = m.rating_not_above(allowed)
        most: u.A = max(standard, larger)
    else:
        most: u.A = standard
    return Limits(standard, most)


@method
def breaker_limits(x, I: u.A, m):
    """An inverse-time breaker for a motor of I amperes: as `fuse_limits`; single-phase motors as in the branch circuit.

    Source: NFPA 70 430.52(C)(1) exceptions 1 and 2(c), Table 430.52; 430.53(A) for small motors.
    """
    share: u.ratio = m.motor_breaker_most if I <= m.motor_breaker_small else m.motor_breaker_most_large
    limits = fuse_limits(I, x.kind, BREAKER, share, m)
    if x.kind == SINGLE:
        standard: u.A = motor_device_most(I, x.volts, m)
    else:
        standard: u.A = limits.standard
    most: u.A = max(standard, limits.most)
    return Limits(standard, most)


@method
def overload(I: u.A, service_factor: u.ratio, cool: u.flag, m):
    """Overload protection of a continuous-duty motor of more than 1 hp, set on the nameplate current I.

    125 % where the plate has a service factor of 1.15 or more or a rise of 40 degC or less, else 115 %; where the motor does not
    start or carry its load on that, at most 140 % and 130 %. A factor that is not stated counts as none.
    Not for: thermal protectors inside the motor, hermetic compressors (440.52), short-time duty.
    Source: NFPA 70 430.32(A)(1), 430.32(C).
    """
    strong: u.flag = cool or service_factor >= m.overload_service_factor
    f_set: u.ratio = m.overload_strong if strong else m.overload_other
    f_most: u.ratio = m.overload_strong_most if strong else m.overload_other_most
    setting: u.A = f_set * I
    most: u.A = f_most * I
    return Overload(setting, most)


@method
def rated_voltage(V: u.V, m):
    """Rated voltage of a motor on a circuit of nominal V volts: 230 V on 240 V. Source: NEMA MG 1."""
    V_rated: u.V = m.motor_rated_share * V
    return V_rated


@method
def by_letter(per_hp: u.kVA_per_hp, x, m):
    """Current of so many kVA for each horsepower, at the rated voltage. A. Source: NFPA 70 430.7(B)."""
    V_rated: u.V = rated_voltage(x.volts, m)
    k_phases: u.ratio = UNITY if x.phases == ONE_PHASE else ROOT_3
    I_lr: u.A = per_hp * x.hp * VA_PER_KVA / (k_phases * V_rated)
    return I_lr


@method
def locked_rotor(x, m):
    """Locked-rotor current of a motor: of its nameplate, else by its code letter (low and high end), else by the tables.

    In A at the rated voltage. `x` needs id, hp, volts, phases, lra, letter.
    Errors: a horsepower that the table does not have; letter V, whose band is open above.
    Source: NFPA 70 430.7(B), Table 430.7(B), Tables 430.251(A) and (B).
    """
    if x.lra > NOT_STATED:
        low: u.A = x.lra
        high: u.A = x.lra
        rule: u.text = BY_NAMEPLATE
    elif x.letter != NO_LETTER:
        low: u.A = by_letter(m.code_letter_low[x.letter], x, m)
        high: u.A = by_letter(m.code_letter_high[x.letter], x, m)
        rule: u.text = BY_LETTER
    else:
        high: u.A = m.locked_rotor_1ph(x.hp, x.volts) if x.phases == ONE_PHASE else m.locked_rotor_3ph(x.hp, x.volts)
        low: u.A = high
        rule: u.text = BY_TABLE
    return Locked(low, high, rule)


@method
def motor(x, m):
    """One motor alone on its circuit, from horsepower and nameplate to the limits of conductor and devices.

    Conductors and short-circuit devices rest on the table's current, the overload on the nameplate's (0 where none is stated).
    The instantaneous trip is a setting and only for a listed combination with its controller.
    Not for: several motors on one circuit, drives, part-winding and multispeed motors. Errors: as the tables.
    Source: NFPA 70 430.6(A), 430.22, 430.32, 430.52.
    """
    I_fl: u.A = full_load(x, m)
    conductor: u.A("NFPA 70 430.22") = m.motor_conductor_factor * I_fl
    fuse = fuse_limits(I_fl, x.kind, FUSE, m.motor_fuse_most, m)
    dual = fuse_limits(I_fl, x.kind, DUAL, m.motor_dual_most, m)
    breaker = breaker_limits(x, I_fl, m)
    instant: u.A("NFPA 70 430.52(C)(3)") = m.motor_protection(x.kind, INSTANT) * I_fl
    instant_most: u.A("NFPA 70 430.52(C)(3) exception 1") = m.motor_instant_most * I_fl
    o = overload(x.fla, x.service_factor, x.cool, m)
    return MotorRun(I_fl, conductor, fuse.standard, fuse.most, dual.standard, dual.most, breaker.standard, breaker.most, instant,
                    instant_most, o.setting, o.most)
