"""What goes into the load calculations. What comes out stands in `results`.

Rows are sorted into these records without arithmetic, so the same sorting serves bare floats and told numbers. A row
keeps its own record: `va` is the nameplate of the whole row, `qty` how many alike units stand behind it.

Where a category of the load list belongs:

| category | dwelling (`Dwelling`) | other structures (`Other`) |
|---|---|---|
| general, lighting, receptacle | nowhere: inside `areas`; in a part of a dwelling `general` | `lighting`, `receptacles` |
| small_appliance, laundry | `small_appliance`, `laundry` (circuits) | `loads` |
| appliance | `appliances`; a group of appliances `appliance_groups` | `loads` (a motor: `motors`) |
| cooking, dryer | `cooking`, `dryers` | `loads` (nameplate) |
| heat_pump, supplementary_heat, cooling, heat, zone_heat, air_handler | `climate` | `climate` |
| motor | `motors` | `motors` |
| vehicle | `vehicles`, or `members` of a manager | the same |
| pool, spa, outdoor_lighting, technology | `loads` (a motor: `motors`) | the same |
| welder, rv | `loads` | `welders`, `rv` |
| source, temporary, none | nowhere | nowhere |

A row of a non-coincident group stands in that group only; a managed row stands with its manager only.
"""
from typing import NamedTuple

from curtilage.values import lines as u

VA_PER_KVA: u.VA_per_kVA = 1000.0
KVA: u.kVA = 1.0
NONE: u.VA = 0.0
NO_KVA: u.kVA = 0.0
NO_AMPERES: u.A = 0.0
ALL: u.ratio = 1.0


class Row(NamedTuple):
    """One row of the load list: `qty` alike units of `va / qty` each."""
    id: str
    va: u.VA                          # nameplate of the row, all its units together
    qty: u.count = 1.0
    volts: u.V = 240.0                # nominal voltage of the circuit: 120, 208 or 240
    hp: u.hp = 0.0                    # horsepower of one unit; 0 when it is no motor or not stated
    flc_row: u.size = ""              # row of the motor tables ("1/3", "7-1/2") when the current comes from there; "" for a
    #                                   listed motor-operated appliance, a hermetic compressor or a drive: nameplate counts
    motor: u.flag = False             # counts when the largest motor is looked for
    continuous: u.flag = False        # expected for three hours or more
    neutral: u.flag = False           # returns current through the neutral: 120 V, or 120/240 V with a neutral
    nonlinear: u.ratio = 0.0          # share of its load that is nonlinear
    pf: u.ratio = 1.0                 # power factor; used by the expected peak only


class Area(NamedTuple):
    """One part of a dwelling's floor area, as the edition counts it (garages, porches: decided where the area is stated)."""
    id: str
    area: u.ft2


class Circuits(NamedTuple):
    """Small-appliance or laundry branch circuits of one row."""
    id: str
    circuits: u.count


class Group(NamedTuple):
    """Loads unlikely to run together; only the largest counts when a physical reason is stated."""
    id: str
    reasoned: u.flag
    members: tuple[Row, ...]


class Manager(NamedTuple):
    """An energy management system that holds its members together at or below a set point."""
    id: str
    set_point: u.A
    volts: u.V                        # nominal voltage between the lines that it limits
    listed: u.flag                    # proof: equipment listed for the purpose
    fail_safe: u.flag                 # proof: stays below the set point when control is lost
    locked: u.flag                    # proof: set point fixed or reachable by qualified persons only
    vehicles_only: u.flag             # all members are vehicle supply
    members: tuple[Row, ...]
    floor: u.VA = 0.0                 # what the members draw at least, whatever the manager commands


class HeatPump(NamedTuple):
    """A heat pump, and the supplementary heat that controls keep off while its compressor runs (often none)."""
    id: str
    pump: Row
    locked: tuple[Row, ...] = ()


class Climate(NamedTuple):
    """Heating and cooling of one structure."""
    heat_pumps: tuple[HeatPump, ...] = ()
    supplementary: tuple[Row, ...] = ()    # electric heat that may run together with the compressors
    cooling: tuple[Row, ...] = ()          # air conditioning that is no heat pump
    heat: tuple[Row, ...] = ()             # fixed electric space heat, not separately controlled by room
    zone_heat: tuple[Row, ...] = ()        # separately controlled heating units, `qty` units in a row
    storage: tuple[Row, ...] = ()          # thermal storage and other heat that runs at full nameplate for hours
    always: tuple[Row, ...] = ()           # air handlers, ventilators, equipment cooling: run in heating and in cooling


class Dwelling(NamedTuple):
    """One dwelling unit, a part of one (areas left out, `general` filled), or two taken together (lists joined)."""
    volts: u.V = 240.0
    areas: tuple[Area, ...] = ()
    general: tuple[Row, ...] = ()
    small_appliance: tuple[Circuits, ...] = ()
    laundry: tuple[Circuits, ...] = ()
    appliances: tuple[Row, ...] = ()
    appliance_groups: tuple[Group, ...] = ()
    cooking: tuple[Row, ...] = ()
    dryers: tuple[Row, ...] = ()
    climate: Climate = Climate()
    motors: tuple[Row, ...] = ()
    vehicles: tuple[Row, ...] = ()
    managers: tuple[Manager, ...] = ()
    loads: tuple[Row, ...] = ()            # everything else, at nameplate
    groups: tuple[Group, ...] = ()         # groups of anything but appliances
    vehicles_apart: u.flag = False         # project's policy: vehicle supply beside the tiers of the optional method


class Welder(NamedTuple):
    """One arc welder; resistance welders follow another rule and are not taken."""
    id: str
    va: u.VA                               # rated primary input
    duty: u.percent                        # duty cycle at that input
    volts: u.V = 240.0
    with_motor: u.flag = False             # motor-generator
    effective: u.A = 0.0                   # effective supply current when the plate states it, else 0


class Site(NamedTuple):
    """One recreational-vehicle site, by the receptacle that it has."""
    id: str
    receptacle: u.A                        # 20, 30 or 50
    qty: u.count = 1.0


class Other(NamedTuple):
    """A structure that is no dwelling, or several of them on one feeder or main (lists joined)."""
    volts: u.V = 240.0
    lighting: tuple[Row, ...] = ()
    receptacles: tuple[Row, ...] = ()      # `qty` yokes in a row
    loads: tuple[Row, ...] = ()
    climate: Climate = Climate()
    motors: tuple[Row, ...] = ()
    vehicles: tuple[Row, ...] = ()
    managers: tuple[Manager, ...] = ()
    groups: tuple[Group, ...] = ()
    welders: tuple[Welder, ...] = ()
    rv: tuple[Site, ...] = ()


class Metered(NamedTuple):
    """A recorded demand of an existing installation."""
    id: str
    peak: u.VA                             # highest average over the interval below
    interval: u.minute
    period: u.day                          # how long it was recorded
    own_sources: u.flag                    # generation or peak shaving on the premises
    seasonal: u.VA = 0.0                   # heating or cooling that was not running while recorded (30-day way)


class FarmLoad(NamedTuple):
    """Loads of one farm building, in amperes at 240 V."""
    id: str
    together: u.A                          # expected to run together
    largest_motor: u.A                     # full-load current of the largest motor
    all: u.A


class Amperes(NamedTuple):
    """One load or structure stated in amperes."""
    id: str
    amperes: u.A
    motor: u.flag = False


class Alike(NamedTuple):
    """Alike dwelling units on one feeder or service, each with the same connected load."""
    id: str
    connected: u.VA
    qty: u.count = 1.0


class Volt_amperes(NamedTuple):
    """One structure, feeder or other part of a sum."""
    id: str
    va: u.VA


class Wiring(NamedTuple):
    """The system a neutral belongs to."""
    volts: u.V = 240.0                     # divides the unbalanced VA: between lines; on three phases sqrt(3) times that
    wye: u.flag = False                    # three-phase, four-wire, wye
    two_of_wye: u.flag = False             # two lines and neutral of such a system


class Kinds(NamedTuple):
    """Rows of one structure (or group of structures) by kind, for the expected peak."""
    id: str
    lighting: tuple[Row, ...] = ()
    small: tuple[Row, ...] = ()            # receptacles, small appliances, fractional-horsepower motors
    motors: tuple[Row, ...] = ()
    heaters: tuple[Row, ...] = ()          # resistance heat of water, food, laundry
    refrigeration: tuple[Row, ...] = ()
    winter: tuple[Row, ...] = ()           # resistance space heat
    winter_pumps: tuple[Row, ...] = ()     # heat-pump compressors, heating
    summer: tuple[Row, ...] = ()           # cooling, heat-pump compressors included
    vehicles: tuple[Row, ...] = ()
    managers: tuple[Manager, ...] = ()
    constant: tuple[Row, ...] = ()         # racks, controls, life safety: always on
