"""An estate as it is read: values, places, defaults, routes, variants. The demonstration estate is the large example."""
from __future__ import annotations

import itertools
from pathlib import Path
import random

from curtilage.errors import CurtilageError
from curtilage.model import Estate, from_text, load, read_variant, variants
from curtilage.model.graph import feeder_tree, shortest
from curtilage.model.loads import COLUMNS, Load
from curtilage.model.refs import Wire
from curtilage.model.site import SiteGraph
import pytest
from small_estate import ESTATE, LOADS, small

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"


@pytest.fixture(scope="module")
def demo() -> Estate:
    return load(DEMO)


def test_values_are_floats_in_the_unit_that_is_documented() -> None:
    e = small()
    assert e.site.elevation == 5350.0 and e.site.ambient == pytest.approx((94 - 32) / 1.8)
    assert e.service.voltage == (120, 240) and e.service.gear.interrupting == 22_000.0
    assert e.service.transformer.rating == 50.0 and e.service.transformer.fault_letter is None
    assert e.feeders[0].from_ == "M1" and e.feeders[0].size == "4/0" and e.feeders[1].size is None
    assert e.site_graph is not None and e.site_graph.nodes["MH"] == (70.0, 100.0)
    assert small(("length: 60 ft, material", "length: 60 m, material")).service.lateral.length == pytest.approx(60 / 0.3048)


def test_a_row_of_the_load_list() -> None:
    e = small()
    assert e.by_id["L5"] == Load(
        id="L5", structure="MH", panel="MH-2", location="", load="Disposer", kind="", category="appliance", qty=1, circuits=1,
        unit_va=1176.0, va=1176.0, amperes=9.8, volts=120.0, poles=1, pf=0.8, continuous=False, hp="1/2", fla=None,
        service_factor=None, mca=None, mocp=None, lra=None, code_letter="", starter="", start_amperes=None, starts=None,
        breaker=20.0, length=30.0,
        tier="", shed_stage=None, manager="", group="", gfci=None, gfci_by="", afci=None, status="base",
        season="all", source="", document="", document_date="", note="first line,\nsecond line")
    assert Load._fields == tuple(COLUMNS)


@pytest.mark.parametrize("old,new", [
    ("6000,6000,25,240", ",6000,25,240"), ("6000,6000,25,240", "6000,,25,240"), ("6000,6000,25,240", ",,25,240"),
    ("6000,6000,25,240", ",6000,,240"), ("6000,6000,25,240", "6000,,,240")])
def test_power_follows_from_the_rest_of_the_row(old: str, new: str) -> None:
    x = small((old, new)).by_id["L3"]
    assert (x.unit_va, x.va) == (6000, 6000)


def test_heads_may_carry_other_units() -> None:
    e = small(("length [ft]", "length [m]"), ("unit_va [VA],va [VA]", "unit_va [VA],va [kVA]"),
              *((f",{v},", f",{v / 1000},") for v in (1440,)), ("9600,9600,40,240,2,1,N", "9600,9.6,40,240,2,1,N"),
              ("6000,6000", "6000,6"), ("7200,7200", "7200,7.2"), ("1176,1176", "1176,1.176"),
              ("9600,9600,40,240,2,1,Y", "9600,9.6,40,240,2,1,Y"))
    assert e.by_id["L2"].va == 9600 and e.by_id["L1"].va == 1440 and e.by_id["L2"].length == pytest.approx(45 / 0.3048)


# ------------------------------------------------------------------------------------------------------------------ places


def test_every_value_knows_its_line() -> None:
    e, lines = small(), ESTATE.splitlines()
    for path in ("feeders.GH.to", "site_graph.trenches.t1.length", "service.transformer.rating", "site_graph.nodes.MH",
                 "groups.BATH.reason", "service.mains.M1.rating", "policy.growth", "feeders.GH.from", "feeders.GH.from_"):
        place = e.places[path]
        line, last = lines[place.line - 1], path.split(".")[-1]
        assert place.file == "estate.yaml" and f"{last.rstrip('_')}: " in line[:place.column], path
    assert str(e.places["feeders.GH.breaker"]) == str(e.places["feeders.GH"]) == "estate.yaml:34"    # left out: its group
    assert str(e.places["loads.L4.va"]) == "loads.csv:5 column va" and str(e.places["loads.L6.va"]) == "loads.csv:8 column va"
    assert e.places.get("feeders.XX.to") == "" == e.places.get("loads.L99.va")
    with pytest.raises(KeyError):
        e.places["feeders.XX.to"]


def test_values_by_path() -> None:
    e = small()
    assert e.value("feeders.MH.breaker") == 200.0 and e.value("feeders.MH.from") == "M1"
    assert e.value("site_graph.nodes.MH") == (70.0, 100.0)
    assert e.value("loads.L4.va") == 7200.0 and e.value("feeders.GH.breaker") is None
    with pytest.raises(CurtilageError, match=r"^feeders.XX.to: leads nowhere: there is no XX$"):
        e.value("feeders.XX.to")


def test_the_demonstration_estate_knows_all_its_places(demo: Estate) -> None:
    lines = (DEMO / "estate.yaml").read_text(encoding="utf-8").splitlines()
    for name in ("structures", "panels", "feeders", "groups", "managers"):
        for item in getattr(demo, name):
            assert item.id in lines[demo.places[f"{name}.{item.id}.id"].line - 1]
    rows = (DEMO / "loads.csv").read_text(encoding="utf-8").splitlines()
    for x in demo.loads:
        assert rows[demo.places[f"loads.{x.id}.va"].line - 1].startswith(f"{x.id},")


# ---------------------------------------------------------------------------------------------------------------- defaults


def test_what_was_left_out_is_listed() -> None:
    e = small()
    left = dict(e.defaulted)
    assert left["basis.feeder.material"] == "al" and left["basis.branch.terminals"] == 60.0
    assert left["structures.MH.heating_and_cooling"] == "larger" and left["service.lateral.insulation"] == 90.0
    assert "policy.growth" not in left and "feeders.GH.breaker" not in left and "panels.MH-1.rating" not in left
    stated = dict(small(("site: {elev", "basis: {slack: 0 ft, feeder: {material: cu}}\nsite: {elev")).defaulted)
    assert "basis.slack" not in stated and "basis.feeder.material" not in stated and stated["basis.feeder.insulation"] == 90.0


def test_what_a_row_left_out_is_listed() -> None:
    left = dict(small(("7200,7200,30,240,2,1,N", "7200,7200,30,240,2,,")).defaulted)
    assert left["loads.L4.pf"] == 1.0 and left["loads.L4.continuous"] is False and left["loads.L3.season"] == "all"
    assert "loads.L3.pf" not in left and "loads.L4.breaker" not in left
    added = small().with_(add={"loads": [{"id": "N1", "structure": "MH", "panel": "MH-1", "load": "Kiln", "category": "appliance",
                                          "va": "4800 VA", "volts": "240 V", "poles": 2, "pf": 0.9}]})
    left = dict(added.defaulted)
    assert left["loads.N1.qty"] == 1 and "loads.N1.pf" not in left
    assert "loads.L3.season" not in dict(small().with_({"loads.L3.season": "winter"}).defaulted)


# ------------------------------------------------------------------------------------------------------------------- graph


def test_a_route_follows_the_trenches() -> None:
    way = small().route("SY", "GH")
    assert way.edges == ("t1", "t3") and way.nodes == ("SY", "J1", "GH") and way.length == 310.0
    assert small(("to: MH, length: 105 ft", "to: MH, length: 105 ft, rise: 12 ft")).route("SY", "MH").length == 187.0
    assert small().route("MH", "MH") == ((), ("MH",), 0.0)
    with pytest.raises(CurtilageError, match=r"there is no node 'GX'; nodes: SY, J1, MH or GH$"):
        small().route("SY", "GX")
    with pytest.raises(CurtilageError, match="no trench for comm leads from SY to GH; from SY one comes to nothing"):
        small().route("SY", "GH", "comm")


def graph(edges: list[tuple[str, str, float]]) -> SiteGraph:
    return SiteGraph.model_validate({
        "nodes": {n: ["0 ft", "0 ft"] for a, b, _ in edges for n in (a, b)},
        "trenches": [{"id": f"e{i}", "from": a, "to": b, "length": f"{length!r} ft"} for i, (a, b, length) in enumerate(edges)]})


def bellman_ford(edges: list[tuple[str, str, float]], start: str) -> dict[str, float]:
    """A second method: relax every edge as often as there are nodes (R. Bellman, Quarterly of Applied Mathematics 16, 1958)."""
    reach = {start: 0.0}
    for _ in range(len({n for a, b, _ in edges for n in (a, b)})):
        for a, b, length in [*edges, *((b, a, length) for a, b, length in edges)]:
            if a in reach and reach[a] + length < reach.get(b, float("inf")):
                reach[b] = reach[a] + length
    return reach


@pytest.mark.parametrize("seed", range(12))
def test_the_shortest_route_is_the_shortest(seed: int) -> None:
    r = random.Random(seed)
    edges = [(f"n{r.randrange(9)}", f"n{r.randrange(9)}", float(r.randrange(1, 300))) for _ in range(18)]
    g = graph(edges)
    start = edges[0][0]
    reach = bellman_ford(edges, start)
    for node in g.nodes:
        if node in reach:
            way = shortest(g, start, node)
            assert way.length == pytest.approx(reach[node])
            assert sum(edges[int(e[1:])][2] for e in way.edges) == pytest.approx(way.length)
        else:
            with pytest.raises(CurtilageError):
                shortest(g, start, node)


def test_the_order_in_the_file_does_not_matter_to_a_route() -> None:
    edges = [("A", "B", 10.0), ("B", "C", 10.0), ("A", "D", 10.0), ("D", "C", 10.0)]
    ways = {shortest(graph([edges[i] for i in order]), "A", "C").nodes for order in itertools.permutations(range(4))}
    assert len(ways) <= 2 and all(len(w) == 3 for w in ways)   # ties go by the names of the trenches


def test_the_tree_of_feeders() -> None:
    e = small()
    assert e.tree.order == ("MH", "GH", "MH-2") and dict(e.tree.feeder_of) == {"MH-1": "MH", "MH-2": "MH-2", "GH-1": "GH"}
    assert e.structure_of("M2") == "SY" and e.structure_of("MH-2") == "MH"
    t = feeder_tree(["M"], "ABCDEFG", [Wire("1", "M", "A"), Wire("2", "B", "C"), Wire("3", "C", "D"), Wire("4", "D", "B"),
                                       Wire("5", "D", "E"), Wire("6", "A", "C"), Wire("7", "G", "G")])
    assert t.order == ("1",) and t.twice == (("C", "2", "6"),) and t.unfed == ("F",)
    assert sorted(map(sorted, t.loops)) == [["2", "3", "4"], ["7"]]


# ---------------------------------------------------------------------------------------------------------------- variants


def test_values_from_python_point_at_who_set_them() -> None:
    base = small()
    e = base.with_({"feeders.GH.size": "500", "loads.L3.length": "10 m", "service.transformer.rating": "75 kVA",
                    "managers.EMS-1.locked": {"by": "A. Smith", "date": "2026-11-01"}}, by="what-if")
    assert e.feeders[2].size == "500" and e.by_id["L3"].length == pytest.approx(32.8084) and e.service.transformer.rating == 75
    assert e.managers[0].locked is not None and e.managers[0].locked.by == "A. Smith"
    assert {str(e.places[p]) for p in ("feeders.GH.size", "loads.L3.length", "managers.EMS-1.locked.by")} == {"what-if"}
    assert str(e.places["feeders.GH.to"]) == "estate.yaml:34" and str(e.places["loads.L3.va"]) == "loads.csv:4 column va"
    assert base.feeders[2].size is None and base.by_id["L3"].length == 30     # the base is as it was
    assert base.places["feeders.GH.size"] == base.places["feeders.GH"]


def test_nothing_of_the_base_is_kept_by_mistake() -> None:
    base = small()
    seen = base.by_id, base.places["loads.L3.va"], base.tree, base.defaulted, base.value("loads.L3.va")
    e = base.with_({"loads.L3.unit_va": "6.05 kVA", "loads.L3.va": "6.05 kVA"})
    assert e.by_id["L3"].va == 6050 and str(e.places["loads.L3.va"]) == "override" and seen[0]["L3"].va == 6000
    assert e.model_dump() == base.model_dump() and e.tree == base.tree
    halved = base.with_loads(x._replace(va=x.va / 2) for x in base.loads)
    assert halved.by_id["L3"].va == 3000 and base.by_id["L3"].va == 6000 and halved.places["loads.L3.va"] == seen[1]
    copper = base.model_copy(update={"feeders": base.feeders[:1]})
    assert copper.tree.order == ("MH",) and base.tree is seen[2]


def test_a_change_is_checked_as_a_whole() -> None:
    e = small()
    with pytest.raises(CurtilageError) as x:
        e.with_({"feeders.GH.size": "5/0", "feeders.GX.size": "500", "loads.L3.va": "12 kW", "loads.L9.va": "1 VA",
                 "loads.L3.vaa": "1 VA", "loads.L3": 3, "loads.L3.id": "X"}, by="what-if")
    assert str(x.value).splitlines() == [
        "5 problems",
        "what-if feeders.GX.size: there is no 'GX' in feeders; known: MH, MH-2 or GH",
        "what-if loads.L9.va: the load list has no row 'L9'",
        "what-if loads.L3.vaa: there is no column 'vaa'; did you mean va?",
        "what-if loads.L3: is not the path of a cell; expected loads, the id of a row and a column; "
        "write for example loads.L035.va",
        "what-if loads.L3.id: an id cannot be overridden; remove the row and add another"]
    with pytest.raises(CurtilageError) as x:
        e.with_({"feeders.GH.size": "5/0", "loads.L3.va": "12 kW", "loads.L4.volts": "120 V"}, by="what-if")
    assert str(x.value).splitlines() == [
        "4 problems",
        "what-if feeders.GH.size: '5/0' is not a conductor size; allowed: 14 to 4/0 (AWG), 250 to 2000 (kcmil)",
        "what-if loads.L3.va: '12 kW' is not apparent power of all; accepted: VA, kVA or MVA",
        "loads.csv:5 column poles (L4): 2 poles at 120 V: two poles give 240 V; write 1 pole, or 240 V",
        "loads.csv:5 column unit_va (L4): 7200 VA for one is not 120 V x 30 A = 3600 VA; "
        "volts x amperes and unit_va must agree; correct one, or leave one empty"]


def test_entries_are_added_and_removed() -> None:
    e = small().with_(add={"panels": [{"id": "AP", "structure": "AP"}], "structures": [
        {"id": "AP", "name": "Apartment", "occupancy": "dwelling", "area": "780 ft2"}],
        "feeders": [{"id": "AP", "from": "GH-1", "to": "AP", "length": "20 ft"}],
        "loads": [{"id": "N1", "structure": "AP", "panel": "AP", "load": "Range", "category": "cooking", "va": "8 kVA",
                   "volts": "240 V", "poles": 2, "qty": 1}]}, remove=["loads.L7", "groups.BATH", "policy.growth"],
        overrides={"loads.L3.group": "", "loads.L4.group": None})
    assert [s.id for s in e.structures] == ["SY", "MH", "GH", "AP"] and e.by_id["N1"].unit_va == 8000
    assert "L7" not in e.by_id and e.groups == () and e.policy.growth is None
    assert e.tree.order[-1] == "AP" and len(e.loads) == 7
    again = e.with_({"loads.N1.va": "9 kVA"})
    assert again.by_id["N1"].va == 9000 and len(again.with_(remove=["loads.N1"]).loads) == 6
    with pytest.raises(CurtilageError) as x:
        e.with_(remove=["loads.L7", "feeders.XX", "policy.growth"])
    assert str(x.value).splitlines()[1:] == [
        "override loads.L7: the load list has no row 'L7'",
        "override feeders.XX: there is no 'XX' in feeders; known: MH, MH-2, GH or AP",
        "override policy.growth: there is no 'growth' in policy; known: feeder_drop"]


def test_an_added_row_is_held_to_the_same_rules() -> None:
    row = {"id": "L3", "structure": "MH", "panel": "MH-9", "load": "Kiln", "category": "kiln", "va": 4800, "volts": "240 V",
           "poles": 1, "colour": "red"}
    with pytest.raises(CurtilageError) as x:
        small().with_(add={"loads": [row]}, by="what-if")
    assert str(x.value).splitlines()[1:] == [
        "what-if loads.L3.colour: there is no column 'colour'",
        f"what-if loads.L3.category: 'kiln' is not known here; allowed: {', '.join(COLUMNS['category'].choices[:-1])} or none",
        "what-if loads.L3.va: 4800 has no unit; expected apparent power of all in VA, kVA or MVA; "
        "write '4800 VA' if that is what it is"]
    row |= {"category": "appliance", "va": "4800 VA"}
    del row["colour"]
    with pytest.raises(CurtilageError) as x:
        small().with_(add={"loads": [row]}, by="what-if")
    assert str(x.value).splitlines()[1:] == [
        "what-if loads.L3: the id L3 stands twice; first in line 4; give one of the rows another id",
        "what-if loads.L3.panel: nothing that fits here is called 'MH-9'; known: GH-1, M1, M2, MH-1, MH-2 or MSB; "
        "did you mean MH-2?",
        "what-if loads.L3.poles: 1 pole at 240 V: one pole gives 120 V; write 2 poles, or 120 V"]


VARIANT = """\
title: A longer way
why: the trench goes round the orchard
set:
  site_graph.trenches.t3.length: 520 ft
  loads.L3.length: 40 ft
add:
  loads:
    - {id: N1, structure: GH, panel: GH-1, load: Kiln, category: appliance, va: 4800 VA, volts: 240 V, poles: 2}
remove: [loads.L7]
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "estate.yaml").write_text(ESTATE)
    (tmp_path / "loads.csv").write_text(LOADS)
    (tmp_path / "variants").mkdir()
    (tmp_path / "variants" / "orchard.yaml").write_text(VARIANT)
    return tmp_path


def test_a_variant_points_at_its_own_lines(folder: Path) -> None:
    e = load(folder).variant("orchard")
    assert variants(folder) == ["orchard"] and e.route("SY", "GH").length == 590 and "L7" not in e.by_id
    assert str(e.places["site_graph.trenches.t3.length"]) == "variants/orchard.yaml:4"
    assert str(e.places["loads.L3.length"]) == "variants/orchard.yaml:5"
    assert str(e.places["loads.N1.va"]) == "variants/orchard.yaml:8"
    assert str(e.places["site_graph.trenches.t3.from"]) == "estate.yaml:26"


def variant_complaint(folder: Path, text: str) -> list[str]:
    (folder / "variants" / "orchard.yaml").write_text(text)
    with pytest.raises(CurtilageError) as x:
        load(folder).variant("orchard")
    return str(x.value).splitlines()


def test_what_is_wrong_in_a_variant(folder: Path) -> None:
    assert variant_complaint(folder, "titel: x\n") == [
        "2 problems", "variants/orchard.yaml:1:1 titel: there is no key 'titel' here; did you mean title?",
        "variants/orchard.yaml:1 title: is missing; expected name in words; add it"]
    assert variant_complaint(folder, "title: x\nset: {feeders.GH.size: 5/0}\n") == [
        "variants/orchard.yaml:2:24 feeders.GH.size: '5/0' is not a conductor size; "
        "allowed: 14 to 4/0 (AWG), 250 to 2000 (kcmil)"]
    assert variant_complaint(folder, "title: x\nremove: [feeders.HG]\n") == [
        "variants/orchard.yaml:2:10 feeders.HG: there is no 'HG' in feeders; known: MH, MH-2 or GH"]
    assert variant_complaint(folder, "title: x\nset: {feeders.GH.roof: slate, gas.meter.capacity: 9 ft3/h}\n")[1:] == [
        "variants/orchard.yaml:2:7 feeders.GH.roof: there is no key 'roof' here; known keys: " + KEYS,
        "variants/orchard.yaml:2:31 gas.meter.pressure: is missing; expected delivery pressure [psi]; add it",
        "variants/orchard.yaml:2:31 gas.heating_value: is missing; expected heating value at the site [Btu/ft3]; add it"]
    assert variant_complaint(folder, "title: x\nadd: {loads: [3]}\n") == [
        "variants/orchard.yaml:2:15 add.loads.0: 3 stands here; expected a group of keys"]
    with pytest.raises(CurtilageError) as x:
        read_variant(folder, "orchid")
    assert str(x.value) == "variants/orchid.yaml: there is no variant 'orchid'; known: orchard; did you mean orchard?"
    with pytest.raises(CurtilageError, match="an estate from texts has no folder"):
        small().variant("orchard")


KEYS = ("id, from, to, breaker, trip, sets, size, neutral, egc, egc_insulated, length, material, insulation, terminals, raceway, "
        "trade_size, conductors, ambient, power_factor, dwelling_rule, neutral_rule, location, lugs, cover, use or note")


@pytest.mark.parametrize("name", variants(DEMO))
def test_every_variant_of_the_demonstration_estate_can_be_read(demo: Estate, name: str) -> None:
    v = read_variant(DEMO, name)
    if name in ("P12", "P13"):                                 # two rows of one id; ten times the VA: refused at the door
        with pytest.raises(CurtilageError):
            v.on(demo)
    else:
        e = v.on(demo)
        for path in v.file.set_:
            assert str(e.places[path]).startswith(f"variants/{name}.yaml:"), path


def test_an_estate_from_texts_is_the_one_from_files(folder: Path) -> None:
    assert load(folder).model_dump() == from_text(ESTATE, LOADS).model_dump() == load(folder / "estate.yaml").model_dump()
    assert load(folder).loads == from_text(ESTATE, LOADS).loads and from_text(ESTATE, LOADS).folder is None


@pytest.mark.parametrize("metal", ["al", "aluminum", "aluminium"])
def test_one_metal_has_three_names(metal: str) -> None:
    e = from_text(ESTATE.replace("material: al", f"material: {metal}, raceway: {metal}"), LOADS)
    assert (e.service.lateral.material, e.service.lateral.raceway) == ("al", "aluminium")
