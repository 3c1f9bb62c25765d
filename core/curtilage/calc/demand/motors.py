"""Motors on a feeder: current from the tables by horsepower, and the quarter added for the largest one."""
from curtilage.calc.demand.records import NO_AMPERES, NONE
from curtilage.calc.demand.results import Motored
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

LOW: u.V = 120.0
MIDDLE: u.V = 208.0
HIGH: u.V = 240.0


@method
def table_current(x, ed):
    """Full-load current of a single-phase motor, from the table by horsepower and not from its plate.

    `x`: a row whose `flc_row` names a row of the table ("1/3", "7-1/2"). Returns A at the nominal voltage of the circuit;
    the 115 V column serves 120 V, the 230 V column serves 240 V. Source: 430.6(A)(1), Table 430.248.
    Not for: three-phase motors, motors on drives, hermetic compressors (440.6), listed appliances with a marked current.
    Raises CurtilageError for other voltages; the table raises for a horsepower that it does not have.
    """
    if x.volts == LOW:
        I_fl: u.A = ed.flc_115[x.flc_row]
    elif x.volts == MIDDLE:
        I_fl: u.A = ed.flc_208[x.flc_row]
    elif x.volts == HIGH:
        I_fl: u.A = ed.flc_230[x.flc_row]
    else:
        raise CurtilageError(f"{x.id} volts: the table of single-phase motors is read at 120, 208 or 240 V; "
                             "give the nominal voltage of the circuit, or leave out the horsepower and give the nameplate")
    return I_fl


@method
def motor_load(x, ed):
    """What a row puts on a feeder, and how large the motor in it is.

    With a row of the motor tables: its current times the nominal voltage; otherwise the nameplate. VA. The size is that of
    one unit, and 0 for a row without a motor. Sizes are compared in VA, so that motors of 120 V and 240 V rank by what they
    put on the feeder. Source: 220.50, 430.6(A)(1), 220.5(A).
    """
    if x.flc_row != "":
        I_fl: u.A = table_current(x, ed)
        S_one: u.VA("nominal voltage of the circuit") = I_fl * x.volts
        S_row: u.VA = S_one * x.qty
    else:
        S_one: u.VA = x.va / x.qty if x.motor else NONE
        S_row: u.VA = x.va
    return Motored(S_row, S_one)


@method
def conductor_current(loads, ed):
    """Current of one conductor: its loads, and a quarter of the largest motor among them.

    For feeders looked at line by line (one list for each line and one for the neutral), where the motors of the lines
    differ. A. Source: 430.24; worked so in the informative examples, D1(b).
    """
    I_loads: u.A = sum(x.amperes for x in loads)
    motors = tuple(motor_current(x) for x in loads)
    I_motor: u.A = ed.largest_motor * max(motors, default=NO_AMPERES)
    I_line: u.A = I_loads + I_motor
    return I_line


@method
def motor_current(x):
    """The current of a load if it is a motor, else 0."""
    I_motor: u.A = x.amperes if x.motor else NO_AMPERES
    return I_motor
