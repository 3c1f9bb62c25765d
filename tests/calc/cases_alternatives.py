"""Told runs of the ways of feeding a long run."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.alternatives.pair import full_load_loss, no_load_loss, pair, regulation
from curtilage.calc.alternatives.records import Local, Option, Pair, Run, Way
from curtilage.calc.alternatives.weigh import far_fault, local_source, long_run, loss_factor, weigh
from curtilage.calc.fault.records import Impedance
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

OPTION = Option("designed", 6300.0, 29.75, 240.0, 40.0, 2.54, 3.0, 0.127, 0.0, 0.0, 0.0, 507.0, 0.1, 5.0, 15.0, 527.0)
PAIR = Pair("EG", 6300.0, 0.95, 25.0, 240.0, 480.0, 3.0, 0.01, 0.012)
WAY = Way("EG", 480.0, 0.1, 0.08, 0.22, 0.05, 0.33, 0.06)


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    yield long_run.told(Given(Run("EG", 1240.0, 26.25, 205.0), "feeders.EG"), ed)
    for o in (OPTION, OPTION._replace(no_load=180.0, winding=90.0, regulation=1.8, time=50.0)):
        yield weigh.told(Given(o, "feeders.EG"), ed)
    yield loss_factor.told(Told("f_load", 0.4, "", "given"), ed)
    yield far_fault.told(Given(WAY, "feeders.EG"))
    yield local_source.told(Given(Local("EG", 6300.0, 0.95), "feeders.EG"), ed)
    yield pair.told(Given(PAIR, "feeders.EG"), ed)
    P = Told("P", 25.0, "kVA", "given")
    yield no_load_loss.told(P, ed)
    yield full_load_loss.told(P, ed)
    z = Impedance(Told("r", 0.27, "ohm", "given"), Told("x", 0.25, "ohm", "given"))
    yield regulation.told(z, Told("S", 6300.0, "VA", "given"), Told("pf", 0.95, "", "given"), Told("V", 480.0, "V", "given"))
