"""The load list: what one row holds, and what each column accepts."""
import re
from typing import NamedTuple

from curtilage.units import FACTORS, Affine

CATEGORIES = ("general", "small_appliance", "laundry", "appliance", "cooking", "dryer", "heat_pump", "air_handler", "cooling",
              "supplementary_heat", "zone_heat", "heat", "motor", "vehicle", "pool", "spa", "outdoor_lighting", "lighting",
              "receptacle", "technology", "welder", "rv", "source", "temporary", "none")
"""What a row counts as in the load calculation."""

STATUSES = ("base", "future", "provision", "temporary")
TIERS = ("T0", "T1", "T2", "T3")
LETTERS = "ABCDEFGHJKLMNPRSTUV"
"""Code letters of locked-rotor kVA per horsepower, Table 430.7(B)."""


class Load(NamedTuple):
    """One row of the load list. Powers in VA, currents in A, lengths in ft; None or "" where nothing was stated."""
    id: str
    structure: str
    panel: str
    location: str
    load: str
    kind: str
    category: str
    qty: int
    circuits: int
    unit_va: float
    va: float
    amperes: float | None
    volts: float
    poles: int
    pf: float
    continuous: bool
    hp: str
    fla: float | None
    service_factor: float | None
    mca: float | None
    mocp: float | None
    lra: float | None
    code_letter: str
    starter: str
    start_amperes: float | None
    starts: float | None
    breaker: float | None
    length: float | None
    tier: str
    shed_stage: int | None
    manager: str
    group: str
    gfci: bool | None
    gfci_by: str
    afci: bool | None
    status: str
    season: str
    source: str
    document: str
    document_date: str
    note: str


class Column(NamedTuple):
    """What a column accepts. `kind` is text, id, ref, choice, flag, whole, number, quantity, hp or date."""
    kind: str
    meaning: str
    unit: str = ""
    lo: float = 0.0
    hi: float = 0.0
    choices: tuple[str, ...] = ()
    required: bool = False
    default: object = None


COLUMNS: dict[str, Column] = {
    "id": Column("id", "name of the row", required=True),
    "structure": Column("ref", "structure whose load calculation it belongs to", required=True),
    "panel": Column("ref", "panel that feeds it", required=True),
    "location": Column("text", "room or place", default=""),
    "load": Column("text", "what the load is", required=True),
    "kind": Column("text", "sort of load, in the owner's words", default=""),
    "category": Column("choice", "what it counts as in the load calculation", choices=CATEGORIES, required=True),
    "qty": Column("whole", "number of like units or outlets", lo=0, hi=1000, default=1),
    "circuits": Column("whole", "number of branch circuits", lo=0, hi=100, default=1),
    "unit_va": Column("quantity", "apparent power of one", unit="VA", lo=0, hi=1e6),
    "va": Column("quantity", "apparent power of all", unit="VA", lo=0, hi=1e6),
    "amperes": Column("quantity", "nameplate current of one", unit="A", lo=0, hi=2000),
    "volts": Column("quantity", "voltage", unit="V", lo=0, hi=1000, required=True),
    "poles": Column("whole", "poles of its overcurrent device", lo=0, hi=3, required=True),
    "pf": Column("number", "power factor", lo=0.1, hi=1, default=1.0),
    "continuous": Column("flag", "whether it runs three hours or more", default=False),
    "hp": Column("hp", "horsepower as the motor table prints it", default=""),
    "fla": Column("quantity", "full-load current of a motor's nameplate: its overload rests on it", unit="A", lo=0.1, hi=2000),
    "service_factor": Column("number", "service factor of a motor's nameplate", lo=1.0, hi=2.0),
    "mca": Column("quantity", "minimum circuit ampacity of the nameplate", unit="A", lo=0, hi=2000),
    "mocp": Column("quantity", "maximum overcurrent protection of the nameplate", unit="A", lo=0, hi=2000),
    "lra": Column("quantity", "locked-rotor current of one, nameplate", unit="A", lo=0, hi=10_000),
    "code_letter": Column("choice", "locked-rotor code letter of the nameplate", choices=("", *LETTERS), default=""),
    "starter": Column("choice", "how it starts; empty: across the line", choices=("", "across", "soft", "drive"), default=""),
    "start_amperes": Column("quantity", "largest current of one while its soft starter runs it up", unit="A", lo=0, hi=10_000),
    "starts": Column("quantity", "how often it starts", unit="starts/h", lo=0, hi=3600),
    "breaker": Column("quantity", "overcurrent device; empty: chosen", unit="A", lo=0, hi=2000),
    "length": Column("quantity", "one-way length of the branch circuit", unit="ft", lo=0, hi=20_000),
    "tier": Column("choice", "backup tier; - or empty: none", choices=("", "-", *TIERS), default=""),
    "shed_stage": Column("whole", "order of shedding, 1 first, 0 never", lo=0, hi=9),
    "manager": Column("ref", "energy management system that holds it", default=""),
    "group": Column("ref", "loads that cannot run together with it", default=""),
    "gfci": Column("flag", "whether ground-fault protection is provided"),
    "gfci_by": Column("choice", "where it stands: a breaker guards the whole circuit; empty: not known",
                      choices=("", "breaker", "receptacle"), default=""),
    "afci": Column("flag", "whether arc-fault protection is provided"),
    "status": Column("choice", "whether it is built now", choices=STATUSES, default="base"),
    "season": Column("choice", "when it runs", choices=("all", "winter", "summer"), default="all"),
    "source": Column("choice", "where its figures come from", choices=("", "nameplate", "submittal", "assumed"), default=""),
    "document": Column("text", "document of the figures", default=""),
    "document_date": Column("date", "day of that document", default=""),
    "note": Column("text", "remark", default=""),
}
"""Column -> what it accepts, in the order of `Load`."""


_NUM = r"[+-]?(?:[0-9]{1,12}(?:\.[0-9]{0,18})?|\.[0-9]{1,18})(?:[eE][+-]?[0-9]{1,2})?"
NUMBER = re.compile(_NUM)
NUMBERS = re.compile(rf"(?:{_NUM}\n)*")                 # a whole column at once, one to a line
WHOLES = re.compile(r"(?:[0-9]{1,6}(?:\.0{1,6})?\n)*")
ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]{0,31}")
IDS = re.compile(r"(?:[A-Za-z0-9][A-Za-z0-9_-]{0,31}\n)*")
DATES = re.compile(r"(?:[0-9]{4}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|"
                   r"02-(?:0[1-9]|1[0-9]|2[0-8]))\n)*")         # the 29th is looked at alone
FLAGS = {"Y": True, "N": False, "y": True, "n": False, "yes": True, "no": False, "Yes": True, "No": False, "true": True,
         "false": False, "TRUE": True, "FALSE": False, "True": True, "False": False}


def head_units(column: Column) -> dict[str, Affine]:
    """Units that the head of a quantity column may carry."""
    return {u: f for u, f in FACTORS[column.unit].items() if "²" not in u}
