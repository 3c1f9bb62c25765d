"""Editions: what each states, what it takes over, how a local layer amends it, and what moved between two of them.

What the editions say is held to the trade press and reprints named beside each figure.
"""
from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path
import re
import tomllib
from typing import Any

from curtilage.editions import Edition, TellingEdition, changes, editions
from curtilage.editions.layers import EDITIONS, SHAPES, Rule
from curtilage.editions.shapes import shape_of
from curtilage.errors import CurtilageError
from curtilage.values.rules import Shape
from curtilage.values.told import TRUST, Told
import pytest

CORE = EDITIONS.parent.parent
ALL = ("nec2020", "nec2023", "nec2026")
OLD, MID, NEW = (Edition.load(name) for name in ALL)


def stated(folder: str) -> dict[str, dict[str, Any]]:
    """Everything an edition states itself, by "topic.rule"; a second reader of the files."""
    return {f"{path.stem}.{rule}": spec for path in sorted((EDITIONS / folder).glob("*.toml")) if path.stem != "edition"
            for rule, spec in tomllib.loads(path.read_text(encoding="utf-8")).items() if rule != "views"}


# ------------------------------------------------------------------------------------------------------------ the layers


def test_the_editions_extend_one_another() -> None:
    assert editions() == list(ALL)
    assert NEW.layers == ["NFPA 70-2026", "NFPA 70-2023", "NFPA 70-2020"]


@pytest.mark.parametrize("name", ALL)
def test_every_rule_is_stated_once_and_whole(name: str) -> None:
    found = stated(name)
    count = Counter(rule.split(".")[1] for rule in found)
    assert [rule for rule, n in count.items() if n > 1] == []
    ed = Edition.load(name)
    for rule in ed.rules():
        r = ed.rule(rule)
        assert r.clause, rule
        assert r.status in TRUST[1:] or (r.status == "" and isinstance(ed.raw_shape(rule), Shape)), rule
        assert r.shape in SHAPES and "unit" in r.spec, rule


@pytest.mark.parametrize("name", ALL)
def test_every_rule_answers_plain_and_told(name: str) -> None:
    ed, told = Edition.load(name), TellingEdition(Edition.load(name))
    for rule in ed.rules():
        plain, explained = getattr(ed, rule), getattr(told, rule)
        if isinstance(explained, Told):
            assert explained.value == plain and explained.unit == ed.rule(rule).unit
            assert explained.cite.status in TRUST[1:] and explained.cite.where.strip()
        else:
            assert isinstance(ed.raw_shape(rule), Shape)


@pytest.mark.parametrize("name", ALL)
def test_every_cell_that_a_rule_reads_tells_its_source(name: str) -> None:
    """Row by row: the value of the table, a document with a clause, and a status."""
    ed, told = Edition.load(name), TellingEdition(Edition.load(name))
    for rule in ed.rules():
        shape = ed.raw_shape(rule)
        for key in getattr(shape, "own", {}):
            x = getattr(told, rule)[key]
            assert x.value == getattr(ed, rule)[key]
            assert x.cite.status in TRUST[1:] and ed.rule(rule).clause in x.cite.where, (rule, key)


def test_a_newer_edition_states_only_what_it_changes() -> None:
    for name, older in (("nec2023", OLD), ("nec2026", MID)):
        for rule, spec in stated(name).items():
            rule = rule.split(".")[1]
            if rule in older.rules():
                said = older.rule(rule).spec
                assert any(spec[k] != said.get(k) for k in spec), f"{name}: {rule} says nothing new"


def test_what_is_taken_over_unread_says_so() -> None:
    e = TellingEdition(NEW)
    assert e.standard_rating(33.0).cite.where == "NFPA 70-2026 240.6(A) (as in 2023, not read again)"
    assert e.laundry.cite.where == "NFPA 70-2026 120.52(B) (number inferred, as in 2023, not read again)"
    assert e.unit_load.cite.where == "NFPA 70-2026 120.41"
    assert TellingEdition(MID).laundry.cite.where == "NFPA 70-2023 220.52(B)"


def test_practice_is_never_cited_as_code() -> None:
    """Common practice has a document of its own, or is an informational note and says that it is a recommendation."""
    found = [MID.rule(rule.split(".")[1]) for rule in stated("nec2020") if rule.startswith("practice.")]
    assert len(found) > 10
    for r in found:
        assert not r.where.startswith("NFPA") or ("informational note" in r.clause and "recommendation" in r.note), r.name
    assert TellingEdition(NEW).growth.cite.where.startswith("common practice")


def test_no_code_knows_a_year() -> None:
    """Editions are data: beside docstrings, nothing in these rooms names an edition or a year of one."""
    for path in sorted([*(CORE / "editions").glob("*.py"), *(CORE / "values").glob("*.py"), CORE / "tables.py"]):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        docs = {id(n.body[0].value) for n in ast.walk(tree) if isinstance(n, ast.Module | ast.ClassDef | ast.FunctionDef)
                and n.body and isinstance(n.body[0], ast.Expr)}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and id(node) not in docs:
                assert not re.search(r"20[12]\d", str(node.value)), f"{path.name}:{node.lineno}"


def test_one_edition_loads_in_a_moment() -> None:
    """Only the head of an edition is parsed when it is loaded; a topic when one of its rules is asked for."""
    from curtilage.editions.edition import Edition as Fresh
    from curtilage.editions.layers import read
    read.cache_clear()
    layer = read("nec2023")
    ed = Fresh(layer)
    assert [topic for part in layer.chain() for topic in part.parsed] == []
    assert ed.unit_load == 3.0
    assert {topic for part in layer.chain() for topic in part.parsed} == {"demand"}


def test_the_digest_is_of_all_that_is_stated() -> None:
    assert len({ed.digest for ed in (OLD, MID, NEW)}) == 3
    amended = Edition.load("nec2023", local=AMENDMENT)
    assert amended.digest != MID.digest and amended.digest == Edition.load("nec2023", local=dict(AMENDMENT)).digest


# ----------------------------------------------------------------------------------------------------- what changed: facts


@pytest.mark.parametrize(("rule", "values", "clauses"), [
    # lightnowblog.com, December 2025, reporting EC&M: 2 VA/ft2 at 120.41
    ("unit_load", (3.0, 3.0, 2.0), ("220.1", "220.41", "120.41")),
    # electricallicenserenewal.com, lesson 1852: 50 A becomes 60 A
    ("gfci_outdoor_to", (50.0, 50.0, 60.0), ("210.8(F)", "210.8(F)", "210.8(F)")),
    # electricallicenserenewal.com, lesson 1315 against lesson 879: 7/8 in becomes 3/4 in
    ("rooftop_below", (0.875, 0.75, 0.75), ("310.15(B)(2)",) * 3),
    # the list of dwelling locations grows from 11 to 12
    ("gfci_locations", (11, 12, 12), ("210.8(A)", "210.8(A)", "210.8(A)")),
    # electricallicenserenewal.com, lesson 1430: 10 A branch circuits
    ("circuit_least", (15.0, 10.0, 10.0), ("210.3", "210.18", "210.18")),
    # expertce.com: overhead wiring in a raceway is left out
    ("pool_overhead_raceway", (True, False, False), ("680.9(A)",) * 3),
])
def test_what_the_editions_say(rule: str, values: tuple[Any, ...], clauses: tuple[str, ...]) -> None:
    for ed, due, clause in zip((OLD, MID, NEW), values, clauses, strict=True):
        assert getattr(ed, rule) == due, ed.name
        assert ed.rule(rule).clause.startswith(clause), ed.name


def test_ten_amperes_are_a_standard_rating_from_2023() -> None:
    assert OLD.standard_rating(7.5) == 15 and MID.standard_rating(7.5) == 10 and NEW.standard_rating(7.5) == 10
    row = next(c for c in changes(OLD, MID) if c.what == "standard_rating[10]")
    assert (row.before, row.after, row.kind, row.clause_after) == ("-", "10 A", "value", "240.6(A)")


def test_a_rule_that_only_one_edition_has() -> None:
    """Seen through a local layer: what the older side does not state is new, and gone the other way."""
    class Fewer(Edition):
        def rules(self) -> list[str]:
            return [r for r in super().rules() if r != "unit_load"]
    fewer = Fewer(OLD.layer)
    assert [c[:3] for c in changes(fewer, OLD)] == [("unit_load", "-", "3 VA/ft2")]
    assert [c.kind for c in changes(fewer, OLD)] == ["new"] and [c.kind for c in changes(OLD, fewer)] == ["gone"]


def test_what_is_not_certain_shows() -> None:
    """Statuses and notes of uncertain changes reach a told result and a list of changes."""
    e = TellingEdition(NEW)
    assert e.gfci_outdoor_cooling.cite.status == "doubtful" and "cannot be cited" in e.gfci_outdoor_cooling.note
    listed = {c.what: c for c in changes(MID, NEW)}
    assert listed["small_appliance"].kind == "clause" and listed["small_appliance"].status == "from memory"
    assert "number inferred" in listed["small_appliance"].note and listed["small_appliance"].after == "unchanged"
    assert listed["unit_load"][:7] == ("unit_load", "3 VA/ft2", "2 VA/ft2", "220.41", "120.41", "seen once", "value")


def test_nothing_changes_from_an_edition_to_itself() -> None:
    assert all(changes(ed, ed) == [] for ed in (OLD, MID, NEW))


def test_changes_go_both_ways() -> None:
    there, back = changes(OLD, NEW), changes(NEW, OLD)
    assert {c.what for c in there} == {c.what for c in back}
    turn = {"new": "gone", "gone": "new"}
    kinds = {c.what: c.kind for c in back}
    assert all(kinds[c.what] == turn.get(c.kind, c.kind) for c in there)
    assert all(c.before == "-" for c in there if c.kind == "new") and all(c.after == "-" for c in there if c.kind == "gone")


# ------------------------------------------------------------------------------------------------------------------ views


@pytest.mark.parametrize("name", ALL)
def test_views_are_complete(name: str) -> None:
    ed = Edition.load(name)
    assert ed.views() == [f"{metal}-{way}" for metal in ("cu", "al") for way in ("pvc", "aluminium", "steel")]
    for view in map(ed.view, ed.views()):
        metal = view.name[:2]
        for alias, rule in view.aliases.items():
            assert rule in ed.rules(), alias
        assert view.source_name("ampacity75") == f"ampacity75_{metal}"
        assert view.standard_rating(33.0) == ed.standard_rating(33.0)
        areas = [view.cmil[s] for s in view.sizes]
        assert areas == sorted(areas) and len(view.sizes) > 20
        assert view.from_size[view.sizes[3]] == view.sizes[3:]


def test_a_view_reads_its_own_columns() -> None:
    """Table 310.16, Ch. 9 Tables 8 and 9, 250.122: 4/0 aluminium 180 A, 0.100 ohm/kft; 4/0 copper 230 A, 0.0608 ohm/kft."""
    al, cu = MID.view("al-steel"), MID.view("cu-pvc")
    assert (al.ampacity75["4/0"], al.r_dc["4/0"], al.r["4/0"], al.x["4/0"], al.egc(200.0)) == (180.0, 0.1, 0.1, 0.051, "4")
    assert (cu.ampacity75["4/0"], cu.r_dc["4/0"], cu.r["4/0"], cu.x["4/0"], cu.egc(200.0)) == (230.0, 0.0608, 0.062, 0.041, "6")
    assert (cu.small_limit["12"], al.small_limit["12"], al.small_limit["8"]) == (20.0, 15.0, float("inf"))


def test_names_that_are_wrong_are_met_with_the_right_one() -> None:
    for wrong, said in (
            (lambda: Edition.load("nec2032"), r"edition: no 'nec2032'; the editions are nec2020, nec2023, nec2026$"),
            (lambda: MID.view("al-pcv"), r"NFPA 70-2023: no view 'al-pcv'; the views are .*; did you mean al-pvc\?"),
            (lambda: MID.unit_laod, r"NFPA 70-2023: no rule 'unit_laod'; did you mean unit_load\?"),
            (lambda: MID.view("al-pvc").ampacity76, "did you mean ampacity7")):
        with pytest.raises(CurtilageError, match=said):
            wrong()
    assert not hasattr(MID, "unit_laod"), "hasattr keeps working"


# ------------------------------------------------------------------------------------------------------- other look-ups


def test_electrode_conductor_by_area() -> None:
    """Table 250.66: over 350 through 600 kcmil copper asks 1/0; the largest row is 3/0. Six sets of 500 kcmil are 3,000 kcmil."""
    assert MID.gec_cu_by_cu(500_000.0) == "1/0"
    assert MID.gec_cu_by_cu(66_360.0) == "8" and MID.gec_cu_by_cu(66_361.0) == "6"
    assert MID.gec_cu_by_al(6 * 500_000.0) == "3/0" and MID.gec_al_by_al(6 * 500_000.0) == "250"
    with pytest.raises(CurtilageError, match=r"Above the table, 12\.5 %"):
        MID.bond_cu_by_al(6 * 500_000.0)


def test_motor_currents() -> None:
    """Published examples: 3 hp 115 V single phase 34 A; 2 hp 230 V 12 A; 7-1/2 hp 230 V three phase 22 A; Annex D8 at 460 V."""
    assert MID.motor_current_1ph(3.0, 115.0) == 34 and MID.motor_current_1ph(2.0, 240.0) == 12
    assert MID.motor_current_3ph(7.5, 230.0) == 22
    assert [MID.motor_current_3ph(hp, 460.0) for hp in (25.0, 30.0)] == [34, 40]
    assert MID.motor_protection("single_phase", "breaker") == 2.5
    with pytest.raises(CurtilageError, match=r"nothing for 4 hp; its rows are .*3, 5"):
        MID.motor_current_1ph(4.0, 230.0)


def test_raceway_fill() -> None:
    """Ch. 9 Table 1: 53, 31, 40 %."""
    assert [MID.fill_share(n) for n in (1, 2, 3, 12)] == [0.53, 0.31, 0.40, 0.40]


# -------------------------------------------------------------------------------------------------------- local amendments

AMENDMENT: dict[str, Any] = {
    "title": "Larkspur County ordinance 7 (invented)", "amends": "nec2023",
    "unit_load": {"value": 3.5, "clause": "section 4", "status": "verified"},
    "egc_cu": {"cells": {"60": "8"}, "clause": "section 5", "status": "seen once", "note": "one size up for garden feeders"},
    "bundling_factor": {"cells": {"4-6": 75}, "clause": "section 6", "status": "verified"},
    "standard_rating": {"without": [10, 15], "clause": "section 7", "status": "verified"},
    "general_demand": {"tiers": [[3000, 1.0], [float("inf"), 0.5]], "clause": "section 8", "status": "from memory"},
    "ampacity75_cu": {"cells": {"4/0": 225}, "clause": "section 9", "status": "verified"},
}


def test_an_amendment_is_one_more_layer() -> None:
    ed = Edition.load("nec2023", local=AMENDMENT)
    assert ed.layers[0] == AMENDMENT["title"] and ed.name == "nec2023+local"
    assert ed.unit_load == 3.5 and MID.unit_load == 3.0
    assert (ed.egc_cu(45.0), ed.egc_cu(100.0)) == ("8", "8") and ed.egc_cu(20.0) == "12"
    assert (ed.bundling_factor(5), ed.bundling_factor(8)) == (0.75, 0.7)
    assert ed.standard_rating(9.0) == 20.0
    assert ed.general_demand(9000.0) == 6000.0
    assert ed.view("cu-steel").ampacity75["4/0"] == 225.0


def test_an_amendment_is_cited_where_it_speaks_and_the_code_elsewhere() -> None:
    e = TellingEdition(Edition.load("nec2023", local=AMENDMENT))
    assert str(e.unit_load.cite) == "Larkspur County ordinance 7 (invented) section 4"
    assert e.egc_cu(45.0).cite.where.endswith("section 5") and e.egc_cu(45.0).cite.status == "seen once"
    assert e.egc_cu(100.0).cite.where == "NFPA 70-2023 Table 250.122"
    assert e.bundling_factor(8).cite.where == "NFPA 70-2023 Table 310.15(C)(1)"
    assert e.view("cu-pvc").ampacity75["4/0"].cite.where.endswith("section 9")
    assert e.view("cu-pvc").ampacity75["3/0"].cite.where == "NFPA 70-2023 Table 310.16"
    assert e.laundry.cite.where == "NFPA 70-2023 220.52(B)"


def test_an_amendment_from_a_file(tmp_path: Path) -> None:
    file = tmp_path / "larkspur.toml"
    file.write_text('title = "Ordinance"\namends = "nec2026"\n\n[drop_limit_total]\nvalue = 4.0\nclause = "2"\n'
                    'status = "verified"\n')
    ed = Edition.load("nec2026", local=file)
    assert ed.drop_limit_total == 4.0 and ed.name == "nec2026+larkspur"
    assert [(c.what, c.before, c.after) for c in changes(NEW, ed)] == [("drop_limit_total", "5 %", "4 %")]


def test_all_that_is_wrong_with_an_amendment_is_said_at_once(tmp_path: Path) -> None:
    file = tmp_path / "larkspur.toml"
    file.write_text("""
titel = "Ordinance"
amends = "nec2020"
unit_lod = { value = 3.5, clause = "4", status = "verified" }
laundry = 1500
unit_load = { value = "3", clause = "4", stauts = "verified" }
dryer_min = { value = 5500, unit = "kVA", clause = "", status = "checked" }
general_demand = { value = 3.0, clause = "5", status = "verified" }
bundling_factor = { cells = { "4-7" = 80 }, clause = "6", status = "verified" }
egc_cu = { cells = { "60" = 8 }, clause = "7", status = "verified" }
standard_rating = { without = [12], clause = "8", status = "verified" }
""")
    with pytest.raises(CurtilageError) as e:
        Edition.load("nec2023", local=file)
    said = str(e.value).splitlines()
    for line in (
            "larkspur.toml: title: missing",
            "larkspur.toml: amends: given 'nec2020'; the edition in force is nec2023",
            "larkspur.toml: titel: NFPA 70-2023 has no such rule",
            "larkspur.toml: unit_lod: NFPA 70-2023 has no such rule; did you mean unit_load?",
            "larkspur.toml: laundry: given 1500; a table with value, clause and status",
            "larkspur.toml: unit_load.stauts: unknown key; allowed are value, clause, status, unit or note; did you mean status?",
            "larkspur.toml: unit_load.value: given '3'; a number in VA/ft2",
            "larkspur.toml: unit_load.status: missing",
            "larkspur.toml: dryer_min.unit: given 'kVA'; this rule is in VA; convert the value",
            "larkspur.toml: dryer_min.clause: missing",
            "larkspur.toml: dryer_min.status: given 'checked'; allowed are verified, seen once",
            "larkspur.toml: general_demand.value: unknown key",
            "larkspur.toml: general_demand: states no tiers; this rule is tiers",
            "larkspur.toml: bundling_factor.cells.4-7: the table has no such row; its rows are 4-6, 7-9",
            "larkspur.toml: egc_cu.cells.60: given 8; a conductor size in quotes",
            "larkspur.toml: standard_rating.without: given [12]; a list of sizes that the ladder has"):
        assert any(s.startswith(line) for s in said), line
    assert said[0] == f"{len(said) - 1} problems"


@pytest.mark.parametrize(("rule", "said", "message"), [
    ("motor_current_1ph", {"value": 3}, "cannot be amended; only values, tiers, bands, rows and ladders can"),
    ("general_demand", {"tiers": [[3000, 1.0], [1000, 0.5]]}, "rising pairs of limit and factor; for example tiers ="),
    ("egc_cu", {"cells": {}}, "rows and their values"),
    ("fixed_from", {"value": True}, "given True; a number in count"),
])
def test_an_amendment_keeps_the_shape_of_the_rule(rule: str, said: dict[str, Any], message: str) -> None:
    source = {"clause": "1", "status": "verified"}
    with pytest.raises(CurtilageError, match=message):
        Edition.load("nec2023", local={"title": "Ordinance", "amends": "nec2023", rule: {**said, **source}})


def test_farm_tables_are_read_as_printed() -> None:
    """Tables 220.102 and 220.103: the first 60 A in full, the next 60 A at half, the rest at a quarter; loads by rank."""
    def shape(**spec: Any) -> Any:
        said = {"scale": 0.01, "unit": "", "clause": "a table", **spec}
        return shape_of(Rule("farm", said, "a document", "nec2020")).plain()
    amperes = shape(tiers="nec_220_102_farm", key="band", column="percent")
    assert [amperes(x) for x in (50.0, 60.0, 100.0, 120.0, 200.0)] == [50, 60, 80, 90, 110]
    share = shape(bands="nec_220_103_farm_total", key="load", column="percent")
    assert [share(rank) for rank in (1, 2, 3, 4, 9)] == [1.0, 0.75, 0.65, 0.5, 0.5]
    with pytest.raises(CurtilageError, match="nothing for 0"):
        share(0)


def test_a_file_that_cannot_be_read_is_said(tmp_path: Path) -> None:
    with pytest.raises(CurtilageError, match=r"^none\.toml: cannot be read"):
        Edition.load("nec2023", local=tmp_path / "none.toml")
    broken = tmp_path / "broken.toml"
    broken.write_text("title = ")
    with pytest.raises(CurtilageError, match=r"^broken\.toml: not readable as TOML"):
        Edition.load("nec2023", local=broken)
