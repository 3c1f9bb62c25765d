"""The parts of the page on raceways and temporary power: one raceway tried, a trench cut across, schedules, framing, seasons."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, Any

from curtilage.design.works import alone, laid
from curtilage.look.components import Result
from curtilage.look.components import results as results_of
from curtilage.look.tables import figure_words
from curtilage.look.text import Markup
from curtilage.look.theme import PAGE
from curtilage.notebook.frame import cautions
from curtilage.report import on_pulls, on_raceways, parts, results, works
from curtilage.report.content import Num, Table, num
from curtilage.review.asked import Asker

if TYPE_CHECKING:
    from curtilage.design import Design

_result = partial(results.result, told=False)


def _word(ok: Any) -> str:
    return "passes" if ok else "fails"


# ------------------------------------------------------------------------------------------------------------ one raceway
def answer(d: Design, name: str) -> Markup:
    """Fill, jam, tension, pressure, bends of one raceway; what is missing is said in its place."""
    p = next((p for p in laid.planned(d) if p.id == name), None)
    if p is None:
        return Markup("<p>The estate states no raceway.</p>")
    alone.raceway(d, p)
    return Markup(results_of([*_fill(d, name), *_pull(d, name)]))


def _missing(d: Design, name: str, check: str, key: str, unit: str) -> Result:
    why = d.late.get(key, "") or "nothing is stated from which it would follow"
    return Result(name, "", unit, "not evaluated", Asker(d.ed.name).clause(check), "code", "", detail=why)


def _fill(d: Design, name: str) -> Iterator[Result]:
    key, ask = f"raceway/{name}", Asker(d.ed.name)
    r = d.items.get(key)
    if r is None or not hasattr(r, "fill_ok"):
        yield _missing(d, "Fill", "161", key, "%")
        return
    yield _result(d, f"{key}/fill", "Fill", _word(r.fill_ok), ask.clause("161"), num(d, f"{key}/share"),
                  detail=f"trade size {r.size}; the smallest that will do is {r.least}")
    if r.jam:
        outcome = "passes" if r.jam_ok else "needs judgement"
        yield _result(d, f"{key}/jam", "Jam ratio", outcome, "Ch. 9 Table 1, informational note 2", standing="practice",
                      detail="inside diameter over the mean of the three largest; near 3 they can wedge in a bend")


def _pull(d: Design, name: str) -> Iterator[Result]:
    key, ask = f"pull/{name}", Asker(d.ed.name)
    r = d.items.get(key)
    if r is None or not hasattr(r, "tension"):
        if r is not None:
            yield _bends(d, key, r.bends_ok)
        yield _missing(d, "Pulling tension", "162a", key, "lb")
        return
    many = "" if r.stretches == 1 else "es"
    yield _result(d, f"{key}/tension", "Pulling tension, the better way", _word(r.tension_ok), ask.clause("162a"),
                  num(d, f"{key}/allowed"), standing="practice", detail=f"{r.stretches:g} stretch{many}, conductors lie {r.lie}")
    yield _result(d, f"{key}/pressure", "Pressure on the wall of a bend", _word(r.pressure_ok), ask.clause("162a"),
                  num(d, f"{key}/pressure_allowed"), standing="practice")
    yield _bends(d, key, r.bends_ok)


def _bends(d: Design, key: str, ok: Any) -> Result:
    most = float(d.ed.bends_between_pulls) if hasattr(d.ed, "bends_between_pulls") else 360.0
    return _result(d, f"{key}/bends", "Bends between two pull points", _word(ok), Asker(d.ed.name).clause("162"),
                   Num("", f"{most:g}", "deg", most))


# ------------------------------------------------------------------------------------------------------------------ trench
def trench(d: Design, name: str) -> Markup:
    """One trench cut across."""
    drawn = next((x.svg for x in on_raceways.drawings(d, PAGE) if x.title.startswith(f"Trench {name},")), "")
    if not drawn:
        return Markup("<p>Nothing runs in this trench.</p>")
    says = ("Cut across, to scale: power ducts and communication ducts with the earth between them, the cover above. The numbers "
            "at the right name what lies in each duct.")
    return Markup(f'<div class="k-draw">{drawn}</div>{figure_words("Picture 1.", says, [])}')


# ------------------------------------------------------------------------------------------------------------------ tables
def _set(found: list[Table], *refs: str) -> Markup:
    kept = [x for x in found if x.lines]
    return Markup("".join(parts.table(x, wide=len(x.columns) > 5) for x in kept) + cautions(*refs) if kept else "")


def schedule(d: Design) -> Markup:
    """Raceways, cover, movement, trenches; what has no result says why."""
    t = works.topic("raceways")
    return _set([*t.tables(d), works.lacking(d, t)], *t.cautions)


def pulls(d: Design) -> Markup:
    """Pulls and boxes."""
    d.works("pull")
    d.works("box")
    return _set([on_pulls.pulls(d), on_pulls.empty(d), on_pulls.pull_boxes(d), on_pulls.device_boxes(d)])


def framing(d: Design) -> Markup:
    """Holes in framing, and the ways chosen through it."""
    d.works("framing")
    return _set([on_pulls.holes(d), on_pulls.passages(d)], "C16")


def temporary(d: Design) -> Markup:
    """Temporary power by season, boards, the fallback, what must go."""
    made = _set(works.topic("temporary").tables(d), "C24")
    return made or Markup("<p>No temporary power is stated.</p>")


def pieces(d: Design, name: str) -> list[Markup]:
    """What follows the inputs of the page."""
    return [answer(d, name)]
