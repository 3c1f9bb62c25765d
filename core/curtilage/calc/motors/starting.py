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


@method
def point(name, R: u.ohm, X: u.ohm, I: u.A, V: u.V):
    """The voltage over what is left of the loop, R and X ohms with the motor, at I amperes; V is that behind the source."""
    Z: u.ohm = (R * R + X * X) ** 0.5
    V_at: u.V = I * Z
    dip: u.percent = WHOLE * (1 - V_at / V)
    return At(name, dip, V_at)


@method
def down(s, R_all: u.ohm, X_all: u.ohm, I: u.A):
    """The voltages at the ends of the stretches, from the source to the motor."""
    R_left: u.ohm = R_all
    X_left: u.ohm = X_all
    nodes = ()
    for t in s.stretches:
        R_left: u.ohm = R_left - t.r_out - t.r_back
        X_left: u.ohm = X_left - t.x_out - t.x_back
        nodes = (*nodes, point(t.id, R_left, X_left, I, s.volts))      # type: ignore[assignment]
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
    V_m: u.V = I * Z_m
    dip: u.percent = WHOLE * (1 - V_m / s.volts)
    nodes = down(s, R_all, X_all, I)
    board: u.percent = dip_at(nodes, s.board)
    gear: u.percent = dip_at(nodes, s.gear)
    ok: u.flag = dip <= s.limit
    margin: u.percent = s.limit - dip
    return Started(I, dip, V_m, board, gear, ok, margin, nodes)
