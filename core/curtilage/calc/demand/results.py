"""What comes out of the load calculations: the parts as well as the sums, so that each can be shown."""
from typing import NamedTuple

from curtilage.values import lines as u


class Motored(NamedTuple):
    """What one row puts on a feeder, and the size of the motor in it."""
    load: u.VA
    one: u.VA                              # one unit, when it is a motor; else 0


class Counted(NamedTuple):
    """One row of fastened-in-place appliances, or one group of them."""
    units: u.count                         # how many of them count toward the four
    counted: u.VA                          # their load
    rest: u.VA                             # load of those too small to count
    one: u.VA                              # largest motor among them


class GeneralLoad(NamedTuple):
    """General lighting and receptacles, small-appliance and laundry circuits."""
    lighting: u.VA
    circuits: u.VA
    connected: u.VA
    demand: u.VA


class ApplianceLoad(NamedTuple):
    """Fastened-in-place appliances."""
    units: u.count
    connected: u.VA
    factor: u.ratio
    demand: u.VA
    one: u.VA


class DryerLoad(NamedTuple):
    """Household clothes dryers."""
    units: u.count
    connected: u.VA
    factor: u.ratio
    demand: u.VA


class CookingUnit(NamedTuple):
    """One row of cooking units, sorted into the columns of the table."""
    n_a: u.count
    n_b: u.count
    n_c: u.count
    a: u.VA
    b: u.VA
    c: u.VA                                # units of column C only, each at least the base of the column
    all: u.VA                              # every unit in the table, each at least the base of column C
    rest: u.VA                             # units too small for the table


class Paired(NamedTuple):
    """A heat pump and the heat that is kept off while it runs."""
    cooling: u.VA
    heating: u.VA
    optional: u.VA                         # heating, with the locked-out heat as the optional method takes it
    locked: u.VA
    one: u.VA


class GroupLoad(NamedTuple):
    """A group of loads unlikely to run together."""
    used: u.VA
    largest: u.VA
    all: u.VA
    one: u.VA


class ManagedLoad(NamedTuple):
    """A managed group of loads."""
    used: u.VA
    members: u.VA
    set_point: u.VA
    credit: u.VA                           # what the manager takes off
    supply: u.VA                           # the part of `used` that is vehicle supply: all of it, or none
    allowed: u.flag                        # all proofs are there, and the edition takes a set point as the load


class Cooking(NamedTuple):
    """Household cooking by its table: what is used, what was permitted but not taken, and what is read differently."""
    used: u.kVA
    column_c: u.kVA                        # every unit in column C
    by_columns: u.kVA                      # small units in A and B, each column counted by itself; larger ones in C
    together: u.kVA                        # the same with the small units of A and B counted together (another reading)
    small: u.kVA                           # units too small for the table, at nameplate, in every result
    other_reading: u.kVA                   # what would be used if small units were counted together
    judgement: u.flag                      # ... and it would be less


class ClimateLoad(NamedTuple):
    """Heating against cooling, standard method."""
    heating: u.VA
    cooling: u.VA
    always: u.VA
    heating_motor: u.VA                    # largest motor that runs while heating
    cooling_motor: u.VA


class Season(NamedTuple):
    """The season that rules."""
    load: u.VA
    motor: u.VA                            # the quarter of its largest motor
    most: u.VA                             # the quarter of the largest motor of either season
    winter: u.VA                           # heating with the quarter of its largest motor
    summer: u.VA                           # cooling with the quarter of its largest motor
    heats: u.flag                          # it is the heating season


class SixCases(NamedTuple):
    """The six selections of the optional method, and the largest."""
    cooling: u.VA
    heat_pump: u.VA
    heat_pump_supplementary: u.VA
    few_units: u.VA
    many_units: u.VA
    storage: u.VA
    largest: u.VA
    together: u.VA                         # all heating that can run together, or cooling: a second reading, and the safer
    used: u.VA                             # largest, and what always runs


class Standard(NamedTuple):
    """One dwelling, a part of one, or two together, by the standard method."""
    general: u.VA
    appliances: u.VA
    cooking: u.VA
    dryers: u.VA
    climate: u.VA
    motors: u.VA
    vehicles: u.VA
    managed: u.VA
    loads: u.VA
    groups: u.VA
    largest_motor: u.VA                    # the quarter that is added
    total: u.VA
    amperes: u.A
    minimum: u.VA                          # with a quarter of what is continuous: for conductors and devices
    minimum_amperes: u.A
    other_reading: u.VA                    # with a quarter of the omitted season's motor, as some read the rule
    judgement: u.flag                      # the two readings differ


class Optional(NamedTuple):
    """One dwelling by the optional method."""
    connected: u.VA                        # nameplate behind the tiers
    general: u.VA                          # after the tiers
    climate: u.VA
    vehicles_apart: u.VA                   # vehicle supply taken outside the tiers (0 when inside)
    total: u.VA
    amperes: u.A
    inside: u.VA                           # total with vehicle supply inside the tiers
    outside: u.VA                          # total with vehicle supply at 100 % beside the tiers
    judgement: u.flag                      # the two differ: ask
    minimum: u.VA
    minimum_amperes: u.A
    climate_largest: u.VA                  # largest of the six selections, without what always runs: the letter of the rule
    climate_together: u.VA                 # all the heating that can run at once: more when there are several kinds of it
    together: u.VA                         # total with all the heating that can run at once
    climate_judgement: u.flag              # ... which is more: ask


class Receptacles(NamedTuple):
    """Receptacle outlets other than in dwellings."""
    connected: u.VA
    demand: u.VA


class OtherParts(NamedTuple):
    """The loads of a structure that no season rules."""
    lighting: u.VA
    receptacles: u.VA
    loads: u.VA
    motors: u.VA
    vehicles: u.VA
    managed: u.VA
    groups: u.VA
    welders: u.VA
    rv: u.VA
    total: u.VA
    one: u.VA                              # largest motor among them
    continuous: u.VA


class PartLoad(NamedTuple):
    """A feeder inside a dwelling."""
    calculated: u.VA                       # of what hangs on it
    total: u.VA                            # ... but no more than the whole dwelling
    amperes: u.A
    minimum: u.VA
    minimum_amperes: u.A


class OtherLoad(NamedTuple):
    """A structure that is no dwelling."""
    lighting: u.VA
    receptacles: u.VA
    loads: u.VA
    climate: u.VA
    motors: u.VA
    vehicles: u.VA
    managed: u.VA
    groups: u.VA
    welders: u.VA
    rv: u.VA
    largest_motor: u.VA
    total: u.VA
    amperes: u.A
    continuous: u.VA                       # the part of it that counts as continuous
    minimum: u.VA
    minimum_amperes: u.A
    other_reading: u.VA
    judgement: u.flag


class Existing(NamedTuple):
    """A dwelling that exists, with what is added to it."""
    connected: u.VA                        # without heating and cooling
    climate: u.VA                          # larger of heating and cooling, at nameplate
    total: u.VA
    amperes: u.A
    inside: u.VA                           # heating and cooling inside the tiers
    beside: u.VA                           # heating and cooling at 100 % beside the tiers
    judgement: u.flag                      # none is added, some exists: where it belongs is not said


class MeteredLoad(NamedTuple):
    """An existing installation by its recorded demand."""
    existing: u.VA
    total: u.VA
    amperes: u.A
    available: u.VA                        # what the rating leaves for more; negative when it is too small
    permitted: u.flag                      # the record is of a kind that may be used
    fits: u.flag


class Two(NamedTuple):
    """Two dwellings on one feeder."""
    standard: u.VA
    by_sum: u.VA                           # three units taken as one and a half times both (another reading)
    by_larger: u.VA                        # three units like the larger one
    used: u.VA
    amperes: u.A
    permitted: u.flag                      # the three-unit comparison lowers the load under the reading used
    judgement: u.flag                      # units are unlike and the readings give different loads


class Farm(NamedTuple):
    """Farm loads on one feeder or service."""
    other: u.A                             # all but the dwelling
    total: u.A


class Weld(NamedTuple):
    """Current of one welder."""
    id: str
    amperes: u.A


class Many(NamedTuple):
    """Three or more dwellings by the optional method."""
    connected: u.VA
    factor: u.ratio
    total: u.VA
    amperes: u.A


class Unbalanced(NamedTuple):
    """What some rows put on the neutral."""
    load: u.VA
    one: u.VA                              # largest motor among them
    nonlinear: u.VA


class Neutral(NamedTuple):
    """The neutral of a feeder or service."""
    general: u.VA
    cooking: u.VA                          # after its share
    dryers: u.VA
    appliances: u.VA
    climate: u.VA
    rest: u.VA
    largest_motor: u.VA                    # the quarter that is added
    unbalanced: u.VA
    nonlinear: u.VA
    before: u.A
    amperes: u.A                           # after the reductions that the system allows


class Sum(NamedTuple):
    """Several parts on one feeder or main, without diversity between them."""
    total: u.VA
    amperes: u.A


class Factors(NamedTuple):
    """Demand factors by kind of load, for the expected peak."""
    lighting: u.ratio
    small: u.ratio
    motors: u.ratio
    heaters: u.ratio
    refrigeration: u.ratio
    cooling: u.ratio
    between: u.ratio                       # coincidence between structures


class Power(NamedTuple):
    """Real and reactive power."""
    kw: u.kW
    kvar: u.kVAR


class Peak(NamedTuple):
    """Expected power of one structure in both seasons; never a load for conductors."""
    id: str
    winter_kw: u.kW
    winter_kvar: u.kVAR
    summer_kw: u.kW
    summer_kvar: u.kVAR


class Season_peak(NamedTuple):
    """Expected peak of several structures together with one set of factors."""
    winter_kw: u.kW
    winter_kva: u.kVA
    summer_kw: u.kW
    summer_kva: u.kVA
    kw: u.kW
    kva: u.kVA


class Expected(NamedTuple):
    """Expected peak, low, typical and high; never a load for conductors."""
    low_kw: u.kW
    low_kva: u.kVA
    kw: u.kW
    kva: u.kVA
    high_kw: u.kW
    high_kva: u.kVA
