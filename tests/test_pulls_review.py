"""Pulls, boxes, terminals and framing of a whole estate: what is found, what is missing, what stops."""
from __future__ import annotations

from functools import cache
from math import inf
from pathlib import Path
from typing import Any

from curtilage.design import Design
from curtilage.model import Estate, from_text, load
from curtilage.model.graph import reached
from curtilage.report import on_pulls
from curtilage.review.stops import stops
from curtilage.values.check import Check
from hypothesis import given, settings
from hypothesis import strategies as st
import pytest

FOLDER = Path(__file__).parent.parent / "demo_estate"
KINDS = ("pull", "box", "lug", "framing")
MINE = ("084", "162", "162a", "162b", "163", "166", "167", "168", "169", "170")


@cache
def demo() -> Estate:
    return load(FOLDER)


@cache
def base() -> Design:
    d = Design(demo())
    d.works()
    return d


def changed(**more: Any) -> Design:
    return Design(demo().with_(**more))


def found(d: Design, number: str, subject: str) -> Check:
    return next(c for c in d.checks if (c.number, c.subject) == (number, subject))


# ------------------------------------------------------------------------------------------------------------ the base
def test_nearly_every_pull_box_and_terminal_of_the_demonstration_has_a_result() -> None:
    d = base()
    raceways = [k.removeprefix("raceway/") for k in d.late if k.startswith("raceway/")]
    assert len(raceways) > 40
    done = [r for r in raceways if f"pull/{r}" in d.items]
    assert len(done) >= 0.95 * len(raceways)
    assert all(d.lacking[f"pull/{r}"] for r in raceways if r not in done)
    e = demo()
    assert all(f"box/{b.id}" in d.items for b in (*e.boxes, *e.device_boxes))
    assert all(f"lug/{f.id}" in d.items for f in e.feeders)


def test_the_base_passes_all_of_it() -> None:
    for c in base().checks:
        if c.number in MINE:
            assert c.outcome in ("passes", "does not apply", "attested"), c
    assert not [s for s in stops(base()) if s.number == "S10"]


def test_the_gate_is_pulled_in_stretches_of_three_hundred_feet() -> None:
    d = base()
    r = d.items["pull/R-EG"]
    assert r.stretches == 5 and r.length == pytest.approx(1240, rel=0.02)
    assert max(p.length for p in r.parts) < 310
    assert r.tension < r.allowed and d.has("pull/R-EG/tension")


def test_pull_points_matter() -> None:
    """Without handholes the way to the pavilion is one pull, harder than the worst of its parts."""
    bare = changed(remove=["boxes.HH-J1", "boxes.HH-J2"])
    bare.works()
    one, many = bare.items, base().items
    assert one["pull/R-PP-P"].stretches == 1 and many["pull/R-PP-P"].stretches == 3
    assert one["pull/R-PP-P"].tension > many["pull/R-PP-P"].tension
    assert one["pull/R-PP-P"].bends == 180.0 and many["pull/R-PP-P"].bends == 90.0


def test_the_tables_of_the_report_hold_every_item() -> None:
    tables = {t.title: t for t in on_pulls.tables(base())}
    shown = sum(len(t.lines) for t in tables.values())
    assert shown == len([k for k in base().items if k.split("/")[0] in KINDS])
    for t in tables.values():
        assert all(len(line.cells) == len(t.columns) for line in t.lines), t.title


def test_the_better_end_and_what_is_not_asked_are_said() -> None:
    """The tension that the line opens stands in it; 314.28(A)(2) asks no width of a straight pull along the length."""
    tables = {t.title: t for t in on_pulls.tables(base())}
    heads = [c.head for c in tables["Pulls"].columns]
    for line in tables["Pulls"].lines:
        assert line.cells[heads.index("from the better end, lb")].tag == line.tag
        r = base().items[line.tag.rpartition("/")[0]]
        end = "start" if (r.there < r.back) else "end"
        if r.stretches == 1 and r.there != r.back:
            assert line.cells[heads.index("better end")] == f"fed at its {end}"
    rows = {line.cells[0]: line.cells for line in tables["Pull boxes and handholes"].lines}
    assert rows["HH-G1"][2] == "not described: taken as a straight pull" and rows["HH-G1"][4:7] == ("-", "-", "-")
    assert rows["PB-WS"][2] == "as described"


# ------------------------------------------------------------------------------------------------------------ what fails
def test_a_fifth_quarter_bend_fails() -> None:
    more = {"pulls.runs": [{"id": "wild", "of": ["R-WS"], "steps": [
        {"id": f"s{n}", "kind": "bend", "angle": "90 deg", "radius": "36 in"} for n in range(5)]}]}
    c = found(changed(add=more), "162", "R-WS")
    assert c.outcome == "fails" and "450 deg" in c.found and "pull box" in c.remedy


def test_a_sharp_bend_fails() -> None:
    c = found(changed(overrides={"pulls.trenches.t3.steps.b.radius": "9 in"}), "162b", "R-MH-1")
    assert c.outcome == "fails" and "at least 13 in" in c.found


def test_a_hard_pull_is_judged_before_it_fails() -> None:
    """By a basket grip no more than 1,000 lb (ICEA study): a heavy feed makes the pull too hard."""
    grip = {"pulls.head": "grip", "pulls.feed": "600 lb", "pulls.lubricated": "no"}
    c = found(changed(overrides=grip), "162a", "R-MH-1")
    assert c.outcome == "fails" and c.standing == "practice" and "1,000 lb" in c.found
    soft = {"pulls.feed": "1300 lb"}
    c = found(changed(overrides=soft), "162a", "R-MH-1")
    assert c.outcome == "needs judgement" and "usual reading" in c.found


def test_lugs_of_the_gate_want_a_reducer() -> None:
    """250 kcmil laid for the drop, terminals of the gatehouse up to 1/0."""
    d = Design(demo().with_({"panels.EG-1.lugs": {"smallest": "8", "largest": "1/0", "bending": "6 in"}}))
    c = found(d, "084", "EG")
    assert c.outcome == "fails" and "reducer" in c.remedy and "250" in c.found


def test_a_small_handhole_fails_with_its_least_size() -> None:
    c = found(changed(overrides={"boxes.HH-G1.length": "18 in"}), "163", "HH-G1")
    assert c.outcome == "fails" and "at least 20" in c.found
    c = found(changed(overrides={"boxes.HH-J2.entries.pp-in.apart": "12 in"}), "163", "HH-J2")
    assert c.outcome == "fails" and "6 in are missing" in c.found


def test_a_shallow_box_fails_for_a_deep_device() -> None:
    c = found(changed(overrides={"device_boxes.DB-1.depth": "1.5 in"}), "170", "DB-1")
    assert c.outcome == "fails" and "at least 2 in" in c.found
    c = found(changed(add={"device_boxes.DB-1.cables": [{"id": "more", "size": "14", "count": 2}]}), "170", "DB-1")
    assert c.outcome == "fails" and "28.5 in3 in a box of 22.5 in3" in c.found


# --------------------------------------------------------------------------------------------------------------- framing
def test_an_engineered_member_stops() -> None:
    d = Design(demo().variant("P23"))
    c = found(d, "168", "PN3")
    assert c.outcome == "fails" and c.severity == 1 and "approval" in c.missing
    stop = next(s for s in stops(d) if s.number == "S10")
    assert stop.caution == "C16" and "PN3" in stop.text and "Do not bore" in stop.answer
    assert not any(c.number in ("166", "167") and c.subject == "PN3" for c in d.checks)


def test_an_approval_lifts_the_stop_and_is_attested() -> None:
    proof = {"by": "engineer (invented)", "date": "2026-11-20", "evidence": "letter"}
    d = Design(demo().with_({"penetrations.PN3.member": "lvl", "penetrations.PN3.approval": proof}))
    assert found(d, "168", "PN3").outcome == "attested" and not [s for s in stops(d) if s.number == "S10"]


@pytest.mark.parametrize("member", ["beam", "lvl", "i-joist", "truss", "glulam", "steel"])
def test_no_engineered_member_ever_passes(member: str) -> None:
    d = Design(demo().with_({"penetrations.PN1.member": member}))
    assert found(d, "168", "PN1").outcome == "fails" and "framing/PN1" not in d.items


def test_a_hole_too_large_or_too_near_fails_each_by_its_own_rule() -> None:
    d = changed(overrides={"penetrations.PN1.member": "bearing stud", "penetrations.PN1.hole": "2.5 in",
                           "penetrations.PN1.edge": "1 in"})
    assert found(d, "167", "PN1").outcome == found(d, "166", "PN1").outcome == "fails"
    d = changed(overrides={"penetrations.PN1.edge": "1 in", "penetrations.PN1.plate": "yes"})
    assert found(d, "167", "PN1").outcome == found(d, "166", "PN1").outcome == "passes"


def test_an_edge_that_the_stud_does_not_have_is_no_answer() -> None:
    """A hole of 3.2 in in 5.5 in leaves 2.3 in for both sides, 1.15 in on the nearer one at most; 300.4(A)(1) wants 1-1/4 in."""
    stud = {"penetrations.PN1.member": "non-bearing stud", "penetrations.PN1.hole": "3.2 in"}
    d = changed(overrides={**stud, "penetrations.PN1.edge": "2 in"})
    for number in ("166", "167"):
        c = found(d, number, "PN1")
        assert c.outcome == "not evaluated" and "1.15 in" in c.missing and "2 in to the edge" in c.missing
    d = changed(overrides={**stud, "penetrations.PN1.edge": "1.15 in"})
    assert found(d, "166", "PN1").outcome == "fails" and found(d, "167", "PN1").outcome == "passes"
    d = changed(overrides={"framing.PP.passages.wall.edge": "2.5 in"})          # 5.5 in less 1.25 in: 2.125 in a side
    assert found(d, "168", "PP-bar").outcome == "fails" and "2.125 in" in d.lacking["framing/PP-wall"]


def test_a_stud_of_which_no_more_is_said_is_a_bearing_one() -> None:
    """IRC R602.6: a bearing stud takes 40 % of 5.5 in, 2.2 in, and one that is not bearing 60 %, 3.3 in."""
    for kind, outcome in (("stud", "fails"), ("bearing stud", "fails"), ("non-bearing stud", "passes")):
        d = changed(overrides={"penetrations.PN1.member": kind, "penetrations.PN1.hole": "3 in",
                               "penetrations.PN1.edge": "1.25 in"})
        c = found(d, "167", "PN1")
        assert c.outcome == outcome and ("not said to be non-bearing" in c.found) == (kind == "stud")
    d = changed(overrides={"framing.PP.passages.wall.hole": "3 in", "framing.PP.passages.wall.edge": "1.25 in"})
    assert found(d, "168", "PP-bar").outcome == "fails"


def test_stated_bends_and_a_route_that_has_fewer_do_not_both_hold() -> None:
    """352.26: 360 deg between pulls."""
    r = next(r for r in demo().raceways if f"pull/{r.id}" in base().items)
    has = base().items[f"pull/{r.id}"].bends
    for stated, outcome in ((450, "fails"), (has + 1, "not evaluated"), (has, "passes")):
        c = found(changed(overrides={f"raceways.{r.id}.bends": f"{stated:g} deg"}), "162", r.id)
        assert c.outcome == outcome, stated
        assert outcome == "passes" or (f"{has:g} deg" in c.missing and f"{stated:g} deg" in c.missing)


def test_a_list_that_is_left_out_is_said_to_be() -> None:
    d = Design(demo().with_({"boxes": (), "device_boxes": (), "penetrations": (), "framing": ()}))
    for number in ("163", "166", "167", "168", "169", "170"):
        assert [c.outcome for c in d.checks if c.number == number] == ["not evaluated"]
        assert "stated" in found(d, number, "estate").found


def test_a_rated_wall_wants_its_seal() -> None:
    assert found(base(), "169", "PN1").outcome == "does not apply"
    d = changed(overrides={"penetrations.PN1.fire_rated": "yes"})
    assert found(d, "169", "PN1").outcome == "not evaluated"
    d = changed(overrides={"penetrations.PN1.fire_rated": "yes", "penetrations.PN1.sealed": "no"})
    assert found(d, "169", "PN1").outcome == "fails"


def test_the_bar_is_reached_around_the_beams() -> None:
    """lobby - south wall - slab: 9 + 33 ft; through the three beams it would be 3 + 8 + 14 + 3 + 8 ft."""
    r = base().items["framing/PP-bar"]
    assert (r.length, r.shortest, r.more) == (42.0, 36.0, 6.0)
    c = found(base(), "168", "PP-bar")
    assert c.outcome == "passes" and "3 lvl (across)" in c.found


def test_no_way_left_asks_for_a_soffit_or_the_slab() -> None:
    d = changed(remove=["framing.PP.passages.slab"])
    c = found(d, "168", "PP-bar")
    assert c.outcome == "fails" and "soffit" in c.found and "3 lvl" in c.found
    assert "framing/PP-bar" in d.lacking


def test_a_sawn_member_beyond_its_limits_is_no_way() -> None:
    d = changed(overrides={"framing.PP.passages.wall.hole": "4 in"})
    assert found(d, "168", "PP-bar").outcome == "fails"


EDGES = st.lists(st.tuples(st.integers(0, 7), st.integers(0, 7), st.integers(1, 30), st.booleans()), min_size=1, max_size=24)


class Edge:
    """A passage as the search sees it."""

    def __init__(self, n: int, a: int, b: int, length: int) -> None:
        self.id, self.from_, self.to, self.length, self.rise = f"p{n}", f"n{a}", f"n{b}", float(length), 0.0


@settings(max_examples=80)
@given(EDGES)
def test_the_shortest_way_is_that_of_another_search(edges: list[tuple[int, int, int, bool]]) -> None:
    """Against rounds of improvement until nothing improves (Bellman, Ford); a passage less never makes a way shorter."""
    every = [Edge(n, a, b, length) for n, (a, b, length, _) in enumerate(edges)]
    open_ = [e for e, (*_, allowed) in zip(every, edges, strict=True) if allowed]
    ours = reached(every, "n0")
    theirs = {"n0": 0.0}
    for _ in range(8):
        for e in every:
            for a, b in ((e.from_, e.to), (e.to, e.from_)):
                if a in theirs:
                    theirs[b] = min(theirs.get(b, inf), theirs[a] + e.length)
    assert {k: r.length for k, r in ours.items()} == pytest.approx(theirs)
    fewer = reached(open_, "n0")
    assert set(fewer) <= set(ours) and all(r.length >= ours[k].length for k, r in fewer.items())


# --------------------------------------------------------------------------------------------------------------- missing
def test_steps_that_do_not_come_to_the_length_of_their_trench_are_asked_about() -> None:
    assert demo().warnings == ()
    e = demo().with_({"pulls.trenches.t3.steps.a.length": "60 ft"})
    assert [w.given for w in e.warnings] == ["its straight steps come to 135 ft, the trench t3 to 195 ft"]


def test_where_nothing_is_stated_one_word_says_so() -> None:
    starter = Path("core/curtilage/data/starter")
    d = Design(from_text(*((starter / f).read_text(encoding="utf-8") for f in ("estate.yaml", "loads.csv"))))
    assert found(d, "162", "estate").missing.startswith("the routes of")
    assert found(d, "084", "estate").outcome == "not evaluated"


def test_what_is_missing_is_named() -> None:
    d = changed(remove=["pulls.trenches.t9", "boxes.HH-J1"])
    assert "trench t9" in found(d, "162", "R-GP-1").missing
    d = Design(demo().with_({"feeders.GH.lugs": None}))
    assert "feeders.GH.lugs" in found(d, "084", "GH").missing
    d = changed(overrides={"boxes.HH-J2.entries.pp-in.apart": None})
    assert "the distance between the entries pp-in and pp-out" in found(d, "163", "HH-J2").missing
    d = changed(overrides={"device_boxes.DB-1.yokes.dimmer.depth": None})
    assert found(d, "170", "DB-1").missing == "how far dimmer reaches into box DB-1"
    d = changed(overrides={"penetrations.PN2.depth": None})
    assert "the depth of the joist" in found(d, "167", "PN2").missing


def test_cables_without_a_weight_still_have_bends() -> None:
    d = changed(overrides={"raceways.R-MH-C.members.mhf.weight": None})
    assert found(d, "162", "R-MH-C").outcome == "passes"
    c = found(d, "162a", "R-MH-C")
    assert c.outcome == "not evaluated" and "mhf" in c.missing


def test_a_box_in_which_conductors_turn_wants_its_entries_described() -> None:
    d = changed(overrides={"boxes.HH-G1.straight": "no"})
    c = found(d, "163", "HH-G1")
    assert c.outcome == "not evaluated" and "describe its entries" in c.missing
    assert base().items["box/PB-WS"].apart_least == 18.0
