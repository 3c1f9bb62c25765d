"""Told runs of the raceway methods, each for a branch of a rule; the contract of told lines is held against them."""
from collections.abc import Iterator
from typing import Any

from curtilage.calc.raceways.cover import cover
from curtilage.calc.raceways.expansion import expansion
from curtilage.calc.raceways.fill import area_of_circle, count_alike, diameter_of_area, empty_raceway, most_alike, raceway
from curtilage.calc.raceways.records import Buried, Duct, Exposed, Raceway, Section, Supply, Wire
from curtilage.calc.raceways.trench import rating_load, trench
from curtilage.editions import Edition, TellingEdition
from curtilage.values.given import Given
from curtilage.values.told import Told

LINE = Wire("line", 2, "500", "xhhw-2", False, 0.0, 2, "al")
NEUTRAL = Wire("neutral", 1, "500", "xhhw-2", False, 0.0, 0, "al")
GROUND = Wire("ground", 1, "1", "bare", False, 0.0, 0, "al")
CABLE = Wire("cable", 1, "", "", False, 0.46, 0, "")
SMALL = Wire("small", 9, "12", "thwn-2", False, 0.0, 9, "cu")
RACEWAY = Raceway("R1", "", 120.0, (LINE, NEUTRAL, GROUND))
SECTION = Section("t1", 4, (Duct("R1", "power", "3"), Duct("R2", "power", "3")), (Duct("R3", "comm", "2"),),
                  (Duct("V1", "spare", "2"),), 70.0, 0.0, 10.0, 5.0, 70.0, 30.0, True, 12.0)


def raceways() -> Iterator[Raceway]:
    """One raceway for each insulation, and for each way a size is found."""
    r = RACEWAY
    yield r
    yield r._replace(size="2")
    yield r._replace(size="3", length=2.0)
    yield r._replace(wires=(SMALL,))
    yield r._replace(wires=(SMALL._replace(count=1, carrying=1),))
    yield r._replace(wires=(CABLE, CABLE._replace(id="other", diameter=0.3)))
    yield r._replace(wires=(LINE._replace(compact=True), NEUTRAL._replace(compact=True, insulation="thwn-2")))
    yield r._replace(wires=(LINE._replace(insulation="rhw-2"), NEUTRAL._replace(insulation="rhw-2 uncovered", size="250")))
    yield r._replace(wires=(LINE._replace(count=3, size="250"), GROUND._replace(size="4")))
    yield r._replace(wires=(CABLE._replace(count=3, diameter=2.05),), length=1.5)          # in 6 in they jam, larger is none


def buried() -> Iterator[Buried]:
    b = Buried("R1", "nonmetallic", "other", 24.0, False, 0.0)
    yield b
    yield b._replace(service=True, ribbon=12.0)
    yield b._replace(service=True, cover=12.0)
    yield b._replace(column="metal", location="dwelling_driveways", service=True)


def given(**numbers: Any) -> list[Told]:
    return [Told(name, x, unit, "given") for name, (x, unit) in numbers.items()]


def told() -> Iterator[Any]:
    ed = TellingEdition(Edition.load("nec2023"))
    for kind in ("pvc40", "emt", "rmc", "imc", "pvc80", "hdpe"):
        m = ed.view(f"raceway-{kind}")
        for r in raceways() if kind in ("pvc40", "rmc") else [RACEWAY]:
            yield raceway.told(Given(r, f"raceways.{r.id}"), m)
        yield empty_raceway.told(Given(RACEWAY._replace(size="2", wires=()), "raceways.R1"), m)
        s, share, A = given(s=("3/4", "size"), share=(40.0, "%"), A=(0.0366, "in2"))
        yield most_alike.told(s, share, A, m)
        for area in (0.0133, 0.0824, 0.1562):
            yield count_alike.told(s, Told("A", area, "in2", "given"), m)
        yield most_alike.told(s, share, Told("A", 0.0133, "in2", "given"), m)
    for b in buried():
        yield cover.told(Given(b, "raceways.R1"), ed)
    x = Exposed("R1", 12.0, 34.4, 16.7, -22.8, False)
    for e in (x, x._replace(length=3.0), x._replace(fitted=True, warmest=50.0, sun=0.0)):
        yield expansion.told(Given(e, "raceways.R1"), ed)
    for t in (SECTION, SECTION._replace(comm=(), located=False, parted=0.0), SECTION._replace(ducts=2, length=50.0, parted=3.0)):
        yield trench.told(Given(t, "site_graph.trenches.t1"), ed)
    d, = given(d=(0.46, "in"))
    A = area_of_circle.told(d)
    yield A
    yield diameter_of_area.told(A)
    yield rating_load.told(Given(Supply("A1", 250.0), "sources.alternates.A1"), Told("V", 240.0, "V", "given"))
