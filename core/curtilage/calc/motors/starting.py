"""The voltage while a motor starts: at its terminals, at every panel on the way up, and where the service ends.

The standing motor is an impedance, so its current falls with the voltage that is left: exact for any dip, where the short form
V = I Z overstates large ones. Ohms are those of the loop, at the voltage of the motor.
"""
from curtilage.calc.conductors.drop import reactive_factor
from curtilage.calc.motors.circuit import rated_voltage
from curtilage.calc.motors.records import At, Started
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
NO_OHMS: u.ohm = 0.0


@method
def point(name, R_past: u.ohm, X_past: u.ohm, R_all: u.ohm, X_all: u.ohm, V: u.V):
    """The voltage at a point of the loop: R_past and X_past ohms lie before it, R_all and X_all are the whole with the motor.

    In percent of V, the voltage behind the source; written so that small dips keep their digits.
    Source: voltage divider; derived, the difference of the squares over the sum.
    """
    R_left: u.ohm = R_all - R_past
    X_left: u.ohm = X_all - X_past
    Z_left: u.ohm = (R_left * R_left + X_left * X_left) ** 0.5
    Z_all: u.ohm = (R_all * R_all + X_all * X_all) ** 0.5
    squares: u.ohm2 = R_past * (R_all + R_left) + X_past * (X_all + X_left)
    dip: u.percent("derived: |Z|^2 of the whole less |Z|^2 of what is left") = WHOLE * squares / (Z_all * (Z_all + Z_left))
    V_at: u.V = V * Z_left / Z_all
    return At(name, dip, V_at)


@method
def down(s, R_all: u.ohm, X_all: u.ohm):
    """The voltages at the ends of the stretches, from the source to the motor."""
    R_past: u.ohm = NO_OHMS
    X_past: u.ohm = NO_OHMS
    nodes = ()
    for t in s.stretches:
        R_past: u.ohm = R_past + t.r_out + t.r_back
        X_past: u.ohm = X_past + t.x_out + t.x_back
        nodes = (*nodes, point(t.id, R_past, X_past, R_all, X_all, s.volts))      # type: ignore[assignment]
    return nodes


@method
def dip_at(nodes, name):
    """The dip at one node, in percent. Errors: no node of that name."""
    for at in nodes:
        if at.id == name:
            break
    else:
        raise CurtilageError(f"no stretch of the way to the motor is called {name}")
    dip: u.percent = at.dip
    return dip


@method
def start(s, m):
    """The dip that a starting motor makes along its way; `s` is a `Start`, `m` an edition.

    `s.current` is the inrush at the rated voltage; a soft starter's own limit may stand there. Everything else on the system is
    left out, so the dip is the change that lamps show; what flows already adds its own drop.
    Not for: how long the start takes, motors that start together, generators (their reactance is not constant).
    Errors: an inrush that is not above 0. Source: IEEE Std 141, motor as a constant impedance; NEMA MG 1 for the rated voltage.
    """
    if s.current <= 0:
        raise CurtilageError(f"{s.id}: an inrush of 0 A is no start; state the locked-rotor current or the code letter")
    q: u.ratio = reactive_factor(s.pf)
    V_rated: u.V = rated_voltage(s.volts, m)
    Z_m: u.ohm("the motor while it stands") = V_rated / s.current
    R_way: u.ohm = sum(t.r_out + t.r_back for t in s.stretches)
    X_way: u.ohm = sum(t.x_out + t.x_back for t in s.stretches)
    R_all: u.ohm = R_way + Z_m * s.pf
    X_all: u.ohm = X_way + Z_m * q
    Z_all: u.ohm = (R_all * R_all + X_all * X_all) ** 0.5
    I: u.A = s.volts / Z_all
    at = point(s.id, R_way, X_way, R_all, X_all, s.volts)
    dip: u.percent = at.dip
    nodes = down(s, R_all, X_all)
    board: u.percent = dip_at(nodes, s.board)
    gear: u.percent = dip_at(nodes, s.gear)
    ok: u.flag = dip <= s.limit
    margin: u.percent = s.limit - dip
    return Started(I, dip, at.volts, board, gear, ok, margin, nodes)


@method
def seen(s, m):
    """The dip that the start makes at one point of its way, where `s.board` is; `s` is a `Start`. Source: as `start`."""
    found = start(s, m)
    dip: u.percent = found.board
    V_at: u.V = s.volts * (1 - dip / WHOLE)
    return At(s.board, dip, V_at)
