"""A feeder of elevators on drives: the current of a drive's transformer, and several of them with their diversity."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

ROOT_3: u.ratio = 3 ** 0.5
VA_PER_KVA: u.VA_per_kVA = 1000.0


class ElevatorFeeder(NamedTuple):
    """What such a feeder must carry."""

    transformer: u.A             # of one
    sum: u.A                     # of all transformers
    diverse: u.A                 # with the demand factor for their number
    controllers: u.A             # continuous: at 125 %
    feeder: u.A


@method
def drive_current(P: u.kVA, V: u.V, f_eff: u.ratio):
    """Current of a three-phase power-conversion transformer of P kVA on V volts, with its efficiency. A. Source: 620.13(B)."""
    I_t: u.A = P * VA_PER_KVA / (ROOT_3 * V * f_eff)
    return I_t


@method
def elevator_feeder(n: u.count, I_t: u.A, f_demand: u.ratio, I_c: u.A, m):
    """A feeder of n alike elevators: the currents of their transformers with the demand factor, and their controllers.

    The demand factor is that of Table 620.14 for the number of elevators; the controllers run all the time.
    Source: NFPA 70 215.2, 430.24 exception, 620.13(D), 620.14; worked so in Annex D10.
    """
    I_all: u.A = n * I_t
    I_diverse: u.A = f_demand * I_all
    I_controllers: u.A = n * m.continuous_factor * I_c
    I_feeder: u.A = I_diverse + I_controllers
    return ElevatorFeeder(I_t, I_all, I_diverse, I_controllers, I_feeder)
