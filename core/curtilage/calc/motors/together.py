"""Several motors on one feeder that carries nothing else."""
from curtilage.calc.motors.records import MotorFeederRun
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def amperes_of(x):
    """Current of one motor."""
    I_one: u.A = x.amperes
    return I_one


@method
def device_of(x):
    """Short-circuit device of one motor."""
    D_one: u.A = x.device
    return D_one


@method
def motor_feeder(f, m):
    """A feeder of motors only (`f` is a `MotorFeeder`): least ampacity, and largest device.

    The conductor: 125 % of the largest motor and the currents of the others. The device: the largest branch device and the
    currents of the other motors, next standard size down. The largest motor is the one of the highest current; where several
    have the largest device, one of them is taken as the largest.
    Not for: other loads on the same feeder (430.63), motors that cannot run together, taps. Errors: no motor.
    Source: NFPA 70 430.24, 430.62(A).
    """
    currents = tuple(amperes_of(x) for x in f.motors)
    devices = tuple(device_of(x) for x in f.motors)
    I_all: u.A = sum(x.amperes for x in f.motors)
    I_largest: u.A = max(currents)
    conductor: u.A("NFPA 70 430.24") = I_all + (m.motor_conductor_factor - 1) * I_largest
    D_largest: u.A = max(devices)
    at_most: u.A("NFPA 70 430.62(A)") = D_largest + (I_all - I_largest)
    most: u.A = m.rating_not_above(at_most)
    return MotorFeederRun(I_largest, conductor, most)
