"""A small estate as text, for tests that break one thing in it."""
from __future__ import annotations

from curtilage.errors import CurtilageError
from curtilage.model import Estate, from_text

ESTATE = """\
curtilage: 1
name: Two houses
edition: nec2023
prepared: {by: "", date: 2026-11-24}
site: {elevation: 5350 ft, ambient: 94 degF}
policy: {growth: 15 %, feeder_drop: 3 %}
service:
  utility: the cooperative
  voltage: 120/240 V
  phases: 1
  transformer: {rating: 50 kVA, impedance: 2.2 %, x_over_r: 2, fault_letter: ""}
  lateral: {length: 60 ft, material: al}
  gear: {id: MSB, structure: SY, interrupting: 22 kA, bus: 400 A}
  mains:
    - {id: M1, rating: 200 A}
    - {id: M2}
structures:
  - {id: SY, name: Yard, occupancy: service}
  - {id: MH, name: Main house, occupancy: dwelling, area: 2400 ft2}
  - {id: GH, name: Guest house, occupancy: accessory, area: 600 ft2}
site_graph:
  nodes: {SY: [0 ft, 0 ft], J1: [70 ft, 0 ft], MH: [70 ft, 100 ft], GH: [300 ft, 0 ft]}
  trenches:
    - {id: t1, from: SY, to: J1, length: 70 ft, ducts: 2}
    - {id: t2, from: J1, to: MH, length: 105 ft}
    - {id: t3, from: J1, to: GH, length: 240 ft}
panels:
  - {id: MH-1, structure: MH, rating: 200 A, spaces: 42}
  - {id: MH-2, structure: MH, spaces: 20}
  - {id: GH-1, structure: GH, spaces: 20}
feeders:
  - {id: MH, from: M1, to: MH-1, breaker: 200 A, size: "4/0"}
  - {id: MH-2, from: MH-1, to: MH-2, length: 30 ft}
  - {id: GH, from: M2, to: GH-1}
groups:
  - {id: BATH, reason: one person uses one room at a time}
managers:
  - {id: EMS-1, at: GH, set_point: 40 A}
loads: loads.csv
"""

LOADS = """\
id,structure,panel,load,category,qty,circuits,unit_va [VA],va [VA],amperes [A],volts [V],poles,pf,continuous,hp,breaker [A],\
length [ft],manager,group,status,document_date,note
L1,MH,MH-1,Lighting,general,2,2,720,1440,,120,1,1,N,,15,60,,,base,,
L2,MH,MH-1,Range,cooking,1,1,9600,9600,40,240,2,1,N,,50,45,,,base,2026-05-20,
L3,MH,MH-2,Sauna,appliance,1,1,6000,6000,25,240,2,1,N,,30,30,,BATH,base,,
L4,MH,MH-2,Steam,appliance,1,1,7200,7200,30,240,2,1,N,,40,35,,BATH,base,,
L5,MH,MH-2,Disposer,appliance,1,1,1176,1176,9.8,120,1,0.8,N,1/2,20,30,,,base,,"first line,
second line"
L6,GH,GH-1,Vehicle supply,vehicle,1,1,9600,9600,40,240,2,1,Y,,50,25,EMS-1,,base,,
L7,GH,GH-1,Spare raceway,none,1,0,0,0,,0,0,1,N,,,,,,provision,,
"""


def small(*changes: tuple[str, str]) -> Estate:
    """The small estate with texts replaced, in the file or in the load list; each text must stand there once."""
    estate, loads = ESTATE, LOADS
    for old, new in changes:
        assert estate.count(old) + loads.count(old) == 1, (old, estate.count(old) + loads.count(old))
        estate, loads = estate.replace(old, new), loads.replace(old, new)
    return from_text(estate, loads)


def complaint(*changes: tuple[str, str]) -> str:
    """What is said about the small estate with texts replaced; an empty text if nothing is."""
    try:
        small(*changes)
    except CurtilageError as e:
        return str(e)
    return ""
