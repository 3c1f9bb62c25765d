"""The figures of a load letter: the code load, the expected peak, the largest motor and the largest start."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

VA_PER_KVA: u.VA_per_kVA = 1000.0
WHOLE: u.percent = 100.0


class Asked(NamedTuple):
    """What the utility is told."""

    id: str
    va: u.VA                     # calculated load of the service
    volts: u.V
    rating: u.A                  # of the mains together
    kw: u.kW                     # expected peak, typical
    kva: u.kVA
    high_kw: u.kW                # expected peak, high
    high_kva: u.kVA
    transformer: u.kVA           # asked for
    sets: u.count                # lateral
    motor_hp: u.hp               # largest motor; 0: none
    motor_start: u.A             # largest current of a start, of motors and compressors
    vehicles: u.count            # vehicle supplies
    vehicles_va: u.VA


class Letter(NamedTuple):
    """The load letter. Code load and expected peak are two numbers for two uses and are never mixed."""

    code_kva: u.kVA
    code_amperes: u.A
    mains: u.A
    expected_kw: u.kW
    expected_kva: u.kVA
    high_kw: u.kW
    high_kva: u.kVA
    pf: u.ratio                  # of the expected peak
    motor_hp: u.hp
    motor_start: u.A
    vehicles: u.count
    vehicles_kva: u.kVA          # nameplate, without management
    transformer: u.kVA
    sets: u.count
    share: u.percent             # high expected peak, of the transformer


@method
def letter(a):
    """The figures of the load letter, `a` an `Asked`.

    The code load is a minimum for conductors and equipment and no forecast; the expected peak is a forecast and no load for
    conductors. Not for: energy over a year, power factor by season. Source: utilities' books of service rules.
    """
    K_code: u.kVA = a.va / VA_PER_KVA
    I: u.A = a.va / a.volts
    pf: u.ratio = a.kw / a.kva
    K_vehicles: u.kVA = a.vehicles_va / VA_PER_KVA
    share: u.percent = WHOLE * a.high_kva / a.transformer
    return Letter(K_code, I, a.rating, a.kw, a.kva, a.high_kw, a.high_kva, pf, a.motor_hp, a.motor_start, a.vehicles,
                  K_vehicles, a.transformer, a.sets, share)
