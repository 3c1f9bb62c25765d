"""What the review says of grounding and bonding, on the demonstration estate with one thing stated otherwise."""
from __future__ import annotations

from functools import cache

from curtilage.design.design import Design
from curtilage.design.neutrals import proofs
from curtilage.errors import CurtilageError
from curtilage.model import Estate, load
from curtilage.report import on_grounding
from curtilage.review import bonds, grounding
from curtilage.review.asked import Asker
from curtilage.values.check import Check
import pytest
from small_estate import small

EDITIONS = ("nec2020", "nec2023", "nec2026")


@cache
def base() -> Estate:
    return load("demo_estate")


def with_(paths: dict[str, object]) -> Design:
    """The demonstration estate with some paths set."""
    return Design(base().with_(paths))


def found(d: Design, number: str, subject: str = "") -> list[Check]:
    """Asked of the two rooms of grounding alone: the others have tests of their own."""
    ask = Asker(d.ed.name)
    asked = (*grounding.checks(d, ask), *bonds.checks(d, ask))
    return [c for c in asked if c.number == number and (not subject or c.subject == subject)]


def one(d: Design, number: str, subject: str) -> Check:
    (c,) = found(d, number, subject)
    return c


S = "grounding.structures"
T = "sources.transfers"
SWITCHED: dict[str, object] = {f"{T}.TS-1.neutral_switched": True, f"{T}.TS-1.poles": 3}


# ------------------------------------------------------------------------------------------------------------------- sizes
def test_the_base_by_hand() -> None:
    """By hand. Service 6 x 500 kcmil Al = 3,000 kcmil, above 1,750: as 6 x 350 kcmil Cu (310 A each), 12.5 % of 2,100,000 is
    262,500 cmil, so 300 kcmil Cu. One set of 500 kcmil Al: 2 AWG Cu; its neutral 1/0 Al, which parallel sets ask for, too."""
    d = Design(base())
    assert d.value("bond/service/jumper/least") == "300" and d.value("bond/service/jumper/each") == "2"
    assert d.value("bond/service/jumper/neutral_area") == 105_600
    assert d.value("ground/SY/copper") == "3/0" and d.value("ground/SY/E-SY/size") == "2"
    assert d.value("ground/MH/copper") == "2/0" and d.value("ground/MH/E-MH/size") == "4"
    assert d.value("ground/EG/E-EG/size") == "6"


def test_stated_sizes_are_held_against_what_is_wanted() -> None:
    d = with_({f"{S}.GH.electrodes.E-GH.conductor": "6", f"{S}.SY.bonding_jumper": "4/0", "service.lateral.neutral": "2"})
    assert "6 Cu stated, at least 4" in one(d, "090", "GH, E-GH").found
    c = one(d, "091", "service")
    assert c.outcome == "fails" and "4/0 Cu stated" in c.found and "at least 300" in c.found and c.remedy
    assert one(d, "092", "service").outcome == "fails"
    d = with_({"feeders.MH.egc": "3"})
    assert one(d, "070", "MH").outcome == "fails" and "3 stated in each of 2 raceways" in one(d, "070", "MH").found


def test_aluminium_near_the_earth_is_a_matter_of_how_it_is_laid() -> None:
    """250.64(A): not bare against earth or masonry, and outdoors not ended within 18 in of the earth."""
    c = one(with_({f"{S}.EG.electrodes.E-EG.material": "al"}), "090", "EG, E-EG")
    assert c.outcome == "needs judgement" and "4 Al" in c.found and "250.64(A)" in c.found


def test_a_conductor_that_runs_on() -> None:
    """Rods whose conductor goes on to the footing: as large as the footing asks."""
    e = base().with_({}, add={f"{S}.EG.electrodes": [
        {"id": "F", "kind": "concrete-encased", "length": "22 ft", "diameter": "0.5 in", "through": "E-EG",
         "tied": {"by": "x", "date": "2026-11-01", "evidence": "y"}}]})
    d = Design(e)
    assert d.value("ground/EG/E-EG/least") == "4" and d.value("ground/EG/E-EG/own") == "6"
    wrong = with_({f"{S}.EG.electrodes.E-EG.through": "E-GP"})
    assert "no electrode of structure EG" in one(wrong, "090", "EG, E-EG").missing
    for path, words in ((f"{S}.EG.electrodes.E-EG.through", "no electrode"), (f"{S}.EG.electrodes.E-EG.pour", "no event")):
        with pytest.raises(CurtilageError, match=words):
            with_({path: "nowhere"})
    with pytest.raises(CurtilageError, match="no generator or storage"):
        base().with_({}, add={"grounding.sources": [{"id": "PV", "size": "6", "neutral": "6"}]})


# -------------------------------------------------------------------------------------------------------------- electrodes
def test_no_electrode_and_nothing_stated() -> None:
    d = with_({f"{S}.GP.electrodes": []})
    assert one(d, "077", "GP").outcome == "fails" and "no electrode" in one(d, "077", "GP").found
    d = Design(base().with_({}, remove=(f"{S}.GP",)))
    assert one(d, "077", "GP").outcome == one(d, "078", "GP").outcome == "not evaluated"
    assert "structure GP" in one(d, "077", "GP").missing
    assert set(outcome(d).values()) == {"not evaluated"} and "bonded at GP" in one(d, "095", "utility").missing
    assert not [x for x in d.stops if x.number == "S5"]


@pytest.mark.parametrize(("path", "value", "said"), [
    (f"{S}.EG.electrodes.E-EG.length", "7 ft", "too short"), (f"{S}.EG.electrodes.E-EG.diameter", "0.5 in", "too thin"),
    (f"{S}.SY.electrodes.E-SY.depth", "2 ft", "not deep enough"), (f"{S}.SY.electrodes.E-SY.wire", "4", "too thin"),
    (f"{S}.MH.electrodes.E-MH.length", "19 ft", "too short"),
])
def test_what_does_not_count_as_an_electrode(path: str, value: str, said: str) -> None:
    structure, name = path.split(".")[2], path.split(".")[4]
    c = one(with_({path: value}), "088", f"{structure}, {name}")
    assert c.outcome == "fails" and said in c.found


def test_a_measure_that_is_missing_is_named() -> None:
    d = with_({f"{S}.SY.electrodes.E-SY.depth": None, f"{S}.SY.electrodes.E-SY.wire": None})
    assert one(d, "088", "SY, E-SY").outcome == "not evaluated" and "wire and the depth" in one(d, "088", "SY, E-SY").missing


def test_the_hold_point_before_the_pour() -> None:
    tied, subject = f"{S}.GH.electrodes.E-GH.tied", "GH, E-GH: tied before the pour"
    assert one(Design(base()), "088", subject).outcome == "attested"
    assert one(with_({tied: None}), "088", subject).outcome == "not evaluated"
    built = with_({tied: None, "structures.GH.status": "slab"})
    assert one(built, "088", subject).outcome == "fails" and "placed" in one(built, "088", subject).found
    pour = {f"{S}.GH.electrodes.E-GH.pour": "D-CG"}                                # 2026-10-20, before the day of the design
    assert "has passed" in one(with_({tied: None, **pour}), "088", subject).found
    late = {"by": "somebody", "date": "2026-10-21", "evidence": "a picture"}
    assert "after the pour" in one(with_({tied: late, **pour}), "088", subject).found
    to_come = with_({tied: None, f"{S}.GH.electrodes.E-GH.pour": "D-SLAB"})        # 2026-12-02
    assert one(to_come, "088", subject).outcome == "not evaluated" and "2026-12-02" in one(to_come, "088", subject).found
    half = with_({tied: {"by": "somebody", "date": "2026-10-14", "evidence": ""}})
    assert one(half, "088", subject).outcome == "not evaluated"


def test_a_footing_that_nobody_looked_at() -> None:
    d = Design(base().with_({}, remove=("attested.AT-22",)))
    c = one(d, "088", "EG")
    assert c.outcome == "not evaluated" and "20 ft of bar" in c.missing


def test_a_single_rod() -> None:
    rod = f"{S}.EG.electrodes.E-EG"
    assert "not shown to be at most 25 ohm" in one(with_({f"{rod}.count": 1}), "089", "EG").found
    low = with_({f"{rod}.count": 1, f"{rod}.resistance": "18 ohm"})
    assert one(low, "089", "EG").outcome == "not evaluated" and "who measured" in one(low, "089", "EG").missing
    proof = {f"{rod}.measured": {"by": "somebody", "date": "2026-11-02", "evidence": "sheet 4"}}
    assert one(with_({f"{rod}.count": 1, f"{rod}.resistance": "18 ohm", **proof}), "089", "EG").outcome == "attested"
    assert one(with_({f"{rod}.count": 1, f"{rod}.resistance": "60 ohm", **proof}), "089", "EG").outcome == "fails"
    assert one(with_({f"{rod}.spacing": "5 ft"}), "089", "EG").outcome == "fails"
    assert one(with_({f"{rod}.spacing": None}), "089", "EG").outcome == "not evaluated"
    assert one(with_({f"{rod}.kind": "water pipe", f"{rod}.count": 1}), "089", "EG").outcome == "fails"


def test_a_water_pipe_is_no_second_electrode_of_a_rod() -> None:
    """250.53(A)(2) takes those of 250.52(A)(2) to (A)(8), not the water pipe of (A)(1); 250.53(D)(2) lets a rod beside the pipe
    off nothing."""
    pipe = {"id": "E-WP", "kind": "water pipe", "length": "12 ft"}
    alone = {"id": "E-EG", "kind": "rod", "length": "10 ft", "diameter": "0.625 in"}
    d = with_({f"{S}.EG.electrodes": [alone, pipe]})
    assert one(d, "089", "EG").outcome == "fails" and "250.53(A)(2), (D)(2)" in one(d, "089", "EG").found
    proof = {"by": "somebody", "date": "2026-11-02", "evidence": "sheet 4"}
    d = with_({f"{S}.EG.electrodes": [{**alone, "resistance": "18 ohm", "measured": proof}, pipe]})
    assert one(d, "089", "EG").outcome == "attested"
    d = with_({f"{S}.EG.electrodes": [{**alone, "count": 2, "spacing": "12 ft"}, pipe]})
    assert one(d, "089", "EG").outcome == "passes"
    d = with_({f"{S}.EG.electrodes": [pipe, {"id": "R", "kind": "ring", "length": "60 ft", "wire": "2", "depth": "3 ft"}]})
    assert one(d, "089", "EG").outcome == "passes"


# -------------------------------------------------------------------------------------------------------------- other bonds
def test_metal_that_reaches_the_earth_is_an_electrode() -> None:
    """250.50: a metal water pipe (250.52(A)(1)) and structural metal in the earth (250.52(A)(2)), where there are, are used."""
    assert one(Design(base()), "088", "MH, water in the ground").outcome == "attested"
    assert not found(Design(base()), "088", "CG, water in the ground")                       # no metal water pipe is there
    d = Design(base().with_({}, remove=("attested.AT-23", "attested.AT-25")))
    c = one(d, "088", "MH, water in the ground")
    assert c.outcome == "not evaluated" and "10 ft or more of metal water pipe" in c.missing
    assert one(d, "088", "GP, steel in the ground").outcome == "not evaluated"
    pipe = {"id": "E-WP", "kind": "water pipe", "length": "12 ft"}
    rods = {"id": "E-EG", "kind": "rod", "count": 2, "length": "10 ft", "diameter": "0.625 in", "spacing": "12 ft"}
    d = with_({f"{S}.EG.metal": ["water"], f"{S}.EG.water": True, f"{S}.EG.electrodes": [rods, pipe]})
    assert one(d, "088", "EG, water in the ground").outcome == "passes"


def test_metal_systems() -> None:
    c = one(with_({f"{S}.MH.water": False}), "094", "MH, metal water pipe")
    assert c.outcome == "fails" and "2/0 Cu or 4/0 Al" in c.found                  # 1,000 kcmil Al, Table 250.66
    assert "structural steel at GP" in one(with_({f"{S}.GP.steel": None}), "094", "GP, structural steel").missing
    assert "which metal systems" in one(with_({f"{S}.EG.metal": None}), "094", "EG").missing
    gas = with_({f"{S}.WS.gas": None, f"{S}.WS.metal": []})                         # its heaters burn gas all the same
    assert one(gas, "094", "WS, gas pipe").outcome == "not evaluated"


def test_communication_lightning_tubing() -> None:
    assert one(with_({f"{S}.WS.intersystem": False}), "093", "WS").outcome == "fails"
    assert one(with_({f"{S}.WS.intersystem": None}), "093", "WS").outcome == "not evaluated"
    assert one(with_({"grounding.lightning": None}), "097", "WS").outcome == "not evaluated"
    assert one(with_({f"{S}.WS.lightning": True}), "097", "WS").outcome == "not evaluated"
    assert one(with_({f"{S}.WS.lightning": True, f"{S}.WS.lightning_bonded": False}), "097", "WS").outcome == "fails"
    assert one(with_({f"{S}.WS.lightning": True, f"{S}.WS.lightning_bonded": True}), "097", "WS").outcome == "passes"
    assert one(with_({"gas.runs.GR-1.material": "corrugated"}), "096", "GR-1").outcome == "not evaluated"


def test_an_estate_that_says_nothing_of_its_grounding_has_no_answer() -> None:
    d = Design(small(('breaker: 200 A, size: "4/0"}', 'breaker: 200 A, sets: 1, size: "4/0"}')))
    for number in ("077", "078", "088", "091", "092", "094", "095"):
        assert one(d, number, "estate").outcome == "not evaluated"
    assert not on_grounding.tables(d)


def test_metal_raceways_ahead_of_the_disconnects() -> None:
    assert one(Design(base()), "091", "supply side").outcome == "does not apply"
    c = one(with_({"service.lateral.raceway": "steel"}), "091", "supply side")
    assert c.outcome == "not evaluated" and "a jumper of 2 for each, or one of 300 for all" in c.found


# ----------------------------------------------------------------------------------------------------------- neutral bonds
def second_supplies(broken: bool) -> dict[str, object]:
    """Said of the switch at every panel with a second supply: whether it breaks the neutral."""
    s = base().sources
    return {f"sources.alternates.{a.id}.neutral_switched": broken for a in (s.alternates if s else ())}


def outcome(d: Design) -> dict[str, str]:
    return {c.subject: c.outcome for c in found(d, "095")}


@pytest.mark.parametrize("edition", EDITIONS)
def test_the_base_has_one_bond_in_every_mode(edition: str) -> None:
    d = Design(base().with_({"edition": edition}))
    assert outcome(d) == dict.fromkeys(("utility", "GEN", "ESS", "GEN-and-ESS", "IN-1"), "passes")
    assert not [s for s in d.stops if s.number == "S5"]


@pytest.mark.parametrize("where", ["panels.WS-1", f"{S}.WS", f"{T}.TS-1"])
def test_a_second_bond_is_found_where_it_is(where: str) -> None:
    d = with_({f"{where}.bonded" if where.startswith(T) else f"{where}.neutral_bond": True})
    assert set(outcome(d).values()) == {"fails"}
    c = one(d, "095", "utility")
    assert "2 bonds" in c.found and "MSB" in c.found and where.rsplit(".", 1)[-1] in c.found and c.remedy
    (stop,) = [s for s in d.stops if s.number == "S5"]
    assert all(mode in stop.text for mode in outcome(d))
    if not where.startswith(T):
        assert one(d, "078", "WS").outcome == "fails"


def test_no_bond_at_the_service() -> None:
    d = with_({f"{S}.SY.neutral_bond": False})
    assert set(outcome(d).values()) == {"fails"} and "no bond" in one(d, "095", "utility").found
    assert one(d, "091", "service").outcome == "fails"


def test_a_generator_with_a_bond_of_its_own() -> None:
    """On an unbroken neutral its bond is the second one; behind switches that break it, its island has its own."""
    bonded = {"sources.generators.GEN.neutral_bond": True}
    assert set(outcome(with_(bonded)).values()) == {"fails"}
    alternates = second_supplies(True)
    switched = {**SWITCHED, **alternates}
    right = outcome(with_({**bonded, **switched}))
    assert right["utility"] == right["GEN"] == "passes"
    wrong = outcome(with_(switched))
    assert wrong["utility"] == "passes" and wrong["GEN"] == "fails"


def test_what_nobody_said_of_the_switches_at_the_panels() -> None:
    """With the generator's neutral broken at its switch alone, the panels decide; not stated, the mode has no answer."""
    s = base().sources
    silent = {f"sources.alternates.{a.id}.neutral_switched": None for a in (s.alternates if s else ())}
    d = with_({**SWITCHED, "sources.generators.GEN.neutral_bond": True, **silent})
    assert outcome(d)["utility"] == "passes" and outcome(d)["GEN"] == "not evaluated"
    assert "A-MH-S" in one(d, "095", "GEN").missing
    tied = second_supplies(False)
    d = with_({**SWITCHED, "sources.generators.GEN.neutral_bond": True, **tied})
    assert outcome(d)["GEN"] == "fails"


def test_poles_and_neutral_must_say_the_same() -> None:
    for path, value in SWITCHED.items():
        d = with_({path: value})
        assert set(outcome(d).values()) == {"not evaluated"} and "which is so at TS-1" in one(d, "095", "GEN").missing


def test_a_portable_generator() -> None:
    inlet = "sources.inlets.IN-1.generator_bond"
    assert outcome(with_({inlet: None}))["IN-1"] == "not evaluated"
    d = with_({inlet: True})
    assert outcome(d)["IN-1"] == "fails" and outcome(d)["utility"] == "passes"
    (stop,) = [s for s in d.stops if s.number == "S5"]
    assert "IN-1" in stop.text and not stop.withheld


def test_a_separately_derived_source_has_a_jumper_of_its_own() -> None:
    switched = {**SWITCHED, "sources.generators.GEN.neutral_bond": True}
    d = with_(switched)
    assert one(d, "091", "GEN").outcome == "not evaluated" and "conductors of GEN" in one(d, "091", "GEN").missing
    e = base().with_(switched, add={"grounding.sources": [{"id": "GEN", "sets": 2, "size": "350", "neutral": "350"}]})
    d = Design(e)
    assert d.value("bond/GEN/jumper/least") == "2/0"                              # 700 kcmil Cu, Table 250.102(C)(1)
    assert one(d, "091", "GEN").outcome == "passes"


def test_the_steps_of_a_proof_name_switches_and_bonds() -> None:
    steps = {p.mode: p.steps for p in proofs(base())}
    assert steps["GEN"][0] == "switches: TS-1 at alternate, MID-1 at normal"
    assert steps["ESS"][0] == "switches: TS-1 at normal, MID-1 at alternate"
    assert any("TS-1 breaks no neutral" in x for x in steps["utility"])
    assert all("bonded at service equipment MSB" in x[-1] for x in steps.values())
    switched = {p.mode: p.steps for p in proofs(base().with_(SWITCHED))}
    assert any("SY-B is tied to GEN, its alternate side" in x for x in switched["GEN"])
    assert any("SY-B is broken from GEN" in x for x in switched["utility"])


def test_kept_proofs_follow_what_they_rest_on() -> None:
    """A feeder that hangs elsewhere moves the islands; one that grew does not."""
    e = base()
    first = proofs(e)
    longer = e.model_copy(update={"feeders": tuple(f.model_copy(update={"length": 99.0}) for f in e.feeders)})
    assert proofs(longer) is first
    cut = e.model_copy(update={"feeders": tuple(f for f in e.feeders if f.id != "MH-K")})
    assert len(proofs(cut)[0].live[0]) < len(first[0].live[0]) and proofs(e) is first


def test_every_number_of_the_tables_opens() -> None:
    for d in (Design(base()), with_({f"{S}.SY.electrodes.E-SY.resistance": "4 ohm", f"{S}.GP.electrodes": []})):
        for t in on_grounding.tables(d):
            assert t.lines, t.title
            for line in t.lines:
                assert len(line.cells) == len(t.columns)
                assert all(d.has(c.tag) for c in line.cells if not isinstance(c, str))
