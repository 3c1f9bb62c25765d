"""Told runs of the network: a run, a transformer and the whole, with and without a difference from what has settled."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.network import voltage as k
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given

ROWS = (k.OnLegs("L1", 1440.0, 1.0, 0.5, 0.5, 0.0), k.OnLegs("L2", 9600.0, 0.95, 0.0, 0.0, 1.0),
        k.OnLegs("L3", 1200.0, 0.8, 1.0, 0.0, 0.0))
DRAWN = k.Drawn("P", 1440.0, 300.0, 720.0, 100.0, 4000.0, 800.0, 117.0, -1.5, -116.5, 1.8, (k.Fed("Q", 12.0, -3.0, -7.0, 2.0),))
REACH = k.Reach("P", 118.0, -1.2, -117.5, 1.1, 0.02, 0.012, 0.03, 0.013, 60.0, -14.0, -40.0, 9.0, 0.0, 0.0, 120.0)
BEHIND = k.Behind("T", 120.0, 0.0002, 0.0009, 0.0003, 0.0008, 0.0004, 0.0005, 300.0, -60.0, -220.0, 40.0, 0.0, 0.0, 120.0)
PLACES = k.Places("network", (k.Place("A", 96.2, 120.0), k.Place("B", 95.1, 80.0), k.Place("C", 97.0, 10.0)),
                  (k.Load("A", 900.0, 700.0, 4000.0), k.Load("C", 0.0, 0.0, 300.0)), 150.0, 9.0)


CIRCUIT = k.Circuit("L1", 1500.0, 0.9, "12", 90.0, 116.5, 117.5, 120.0, True)


def settled(f: Any, p: Any) -> Any:
    """The record with the voltages that its own method finds."""
    at = f(p)
    return p._replace(settled_1=at.volts_a, settled_2=at.volts_b)


def told() -> Iterator[Any]:
    yield k.loading.told(Given(k.Connected("MH", 9000.0, ROWS), "loads"))
    yield k.legs.told(Given(k.Own("P", 0.7, ROWS), "loads"))
    yield k.currents.told(Given(DRAWN, "loads"))
    for f, p in ((k.reach, REACH), (k.terminals, BEHIND)):
        yield f.told(Given(p, "loads"))
        yield f.told(Given(settled(f, p), "loads"))
    yield k.whole.told(Given(PLACES, "loads"))
    for lighting in (True, False):
        view = TellingEdition(Edition.load("nec2023")).view("cu-pvc")
        yield k.outlet.told(Given(CIRCUIT._replace(lighting=lighting), "loads.L1"), view)
