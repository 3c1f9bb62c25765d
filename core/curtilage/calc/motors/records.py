"""What goes into the motor methods and what comes out. `0` and `""` stand for what is not stated, as with conductors."""
from typing import NamedTuple

from curtilage.values import lines as u

NOT_STATED: u.A = 0.0
NO_LETTER: u.text = ""
SINGLE: u.text = "single_phase"          # row of the table of short-circuit devices
SOFT: u.text = "soft"
DRIVE: u.text = "drive"
ONE_PHASE: u.count = 1


class Motor(NamedTuple):
    """One motor that the tables know by its horsepower."""

    id: str
    hp: u.hp
    volts: u.V                   # nominal, of the circuit: 120, 208, 240 (or 480)
    phases: u.count              # 1 or 3
    kind: u.text                 # row of the table of short-circuit devices
    fla: u.A                     # nameplate full-load current; 0 where it is not stated
    service_factor: u.ratio      # 0 where it is not stated
    cool: u.flag                 # marked with a temperature rise of 40 degC or less
    lra: u.A                     # nameplate locked-rotor current, or 0
    letter: u.text               # locked-rotor letter, or ""


class Limits(NamedTuple):
    """Short-circuit device of one kind."""

    standard: u.A                # percentage of the table, next standard size up
    most: u.A                    # largest that the exception allows where the motor does not start on it


class Overload(NamedTuple):
    """Setting of the overload protection, on the nameplate current."""

    setting: u.A
    most: u.A                    # where the motor does not start or carry its load on the setting


class Locked(NamedTuple):
    """Locked-rotor current at the rated voltage of the motor."""

    low: u.A
    high: u.A
    rule: u.text


class MotorRun(NamedTuple):
    """One motor: currents and the limits of its devices. Devices by kind; the instantaneous trip is a setting, no size."""

    table: u.A                   # full-load current by the tables: conductors and short-circuit devices
    conductor: u.A
    fuse: u.A
    fuse_most: u.A
    dual: u.A
    dual_most: u.A
    breaker: u.A
    breaker_most: u.A
    instant: u.A
    instant_most: u.A
    overload: u.A                # 0 where no nameplate current is stated
    overload_most: u.A


class OnFeeder(NamedTuple):
    """One motor on a feeder that carries motors only."""

    id: str
    amperes: u.A                 # full-load current by the tables
    device: u.A                  # its short-circuit device


class MotorFeeder(NamedTuple):
    """A feeder that carries these motors and nothing else."""

    id: str
    motors: tuple[OnFeeder, ...]


class MotorFeederRun(NamedTuple):
    """What such a feeder asks for."""

    largest: u.A
    conductor: u.A               # smallest ampacity
    most: u.A                    # largest device, a standard size


class Stretch(NamedTuple):
    """One stretch of the way of the starting current: ohms out and ohms back, at the voltage of the motor."""

    id: str
    r_out: u.ohm
    x_out: u.ohm
    r_back: u.ohm
    x_back: u.ohm


class Start(NamedTuple):
    """A motor that starts at the end of a chain of stretches, the first one being the source."""

    id: str
    volts: u.V                   # behind the source, between the two wires of the motor
    current: u.A                 # inrush at the rated voltage of the motor
    pf: u.ratio                  # of the inrush
    stretches: tuple[Stretch, ...]
    gear: str                    # the stretch at whose end the service ends
    board: str                   # the stretch at whose end the motor's panel stands
    limit: u.percent


class At(NamedTuple):
    """The voltage at the end of one stretch while the motor starts."""

    id: str
    dip: u.percent
    volts: u.V


class Started(NamedTuple):
    """What a start does: all loads but the motor left out, so that it is the change of voltage and not the voltage."""

    current: u.A                 # that really flows
    dip: u.percent               # at the terminals of the motor
    volts: u.V
    board: u.percent             # at the panel that feeds it: what its neighbours see
    gear: u.percent              # where all stretches of the service end
    ok: u.flag                   # the dip at the terminals keeps the limit
    margin: u.percent            # limit less dip, in points
    nodes: tuple[At, ...]
