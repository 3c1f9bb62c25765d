"""The parts of the page on one feeder: answer, fields, pictures of volts, fault current and sizes, what the review says."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache, partial
from typing import TYPE_CHECKING, Any

from curtilage.design.sizes import sizes
from curtilage.design.works import alone
from curtilage.look.components import Result
from curtilage.look.components import results as results_of
from curtilage.look.tables import figure_words
from curtilage.look.text import Markup
from curtilage.look.theme import PAGE
from curtilage.notebook.cases import BY
from curtilage.notebook.frame import cautions
from curtilage.report import content, drawings, parts, pictures, results, schedules
from curtilage.report.content import Column, Line, Num, Table, maybe, num
from curtilage.report.numbers import label
from curtilage.review import fault, feeders, network
from curtilage.review.asked import Asker

if TYPE_CHECKING:
    from curtilage.design import Design


def of(d: Design, name: str) -> Any:
    """The feeder as the estate has it."""
    return next(f for f in d.estate.feeders if f.id == name)


@lru_cache(maxsize=32)
def raceways(d: Design, name: str) -> tuple[str, ...]:
    """Items of the raceways in which the conductors of a feeder lie; they and the rest of the feeder are worked here."""
    runs = alone.lying(d, name)
    d.works("fault")
    alone.feeder(d, name, runs)
    return tuple(f"raceway/{p.id}" for p in runs)


# ------------------------------------------------------------------------------------------------------------------ answer
def answer(d: Design, name: str) -> Markup:
    """Device, ampacity, drop and volts; fault current and clearing at the far end; terminals and fill, each against its limit."""
    raceways(d, name)
    return Markup(results_of([*_sized(d, name), *_volts(d, name), *_faults(d, name), *_laid(d, name)]))


def _sized(d: Design, name: str) -> Iterator[Result]:
    key, ask = f"feeder/{name}", Asker(d.ed.name)
    r = d.items[key]
    yield _result(d, f"{key}/minimum", "Minimum against its device", _word(r.device_ok), ask.clause("067"),
                         num(d, f"{key}/device"), detail="load with what is continuous in it at 125 %")
    yield _result(d, f"{key}/required", "Ampacity asked for", _word(r.carries_ok and r.protected), ask.clause("065"),
                         num(d, f"{key}/ampacity"), detail=f"{_conductors(d, key)}, by the {r.rule}")
    limit = d.asks[key].record.drop_limit
    yield _result(d, f"{key}/drop", "Voltage drop of the feeder", _word(r.drop_ok), results.ADVICE,
                         Num("", f"{limit:g}", "%", limit), standing="practice", detail="a recommendation, kept as policy")


def _conductors(d: Design, key: str) -> str:
    return str(content.conductors(d, key))


_result = partial(results.result, told=False)


def _word(ok: Any) -> str:
    return "passes" if ok else "fails"


def _volts(d: Design, name: str) -> Iterator[Result]:
    """The lower leg at the panel by the exact solution."""
    key = f"network/{of(d, name).to}"
    if d.has(f"{key}/volts_a"):
        low = min(("volts_a", "volts_b"), key=lambda f: float(getattr(d.items[key], f)))
        least = float(d.ed.utilization_least)
        ok = float(d.value(f"{key}/{low}")) >= least
        yield _result(d, f"{key}/{low}", "Lower leg at its panel, exact", _word(ok), Asker(d.ed.name).clause("057b"),
                             Num("", f"{least:g}", "V", least), "min", standing="practice", detail="all feeders at their loads")
    else:
        yield _missing(d, "Lower leg at its panel, exact", "057b", key, "V")


def _missing(d: Design, name: str, check: str, key: str, unit: str) -> Result:
    """A result without a number: what is missing is said in its place."""
    why = d.late.get(key, "") or "nothing is stated from which it would follow"
    return Result(name, "", unit, "not evaluated", Asker(d.ed.name).clause(check), "code", "", detail=why)


def _faults(d: Design, name: str) -> Iterator[Result]:
    f, ask = of(d, name), Asker(d.ed.name)
    rating = next(p.interrupting for p in d.estate.panels if p.id == f.to)
    found = drawings.fault(d, f.to)
    if found is None or rating is None:
        yield _missing(d, f"Fault current at {f.to}", "072", f"fault/{f.to}", "A")
    else:
        limit = Num("", f"{rating:,.0f}", "A", rating)
        yield _result(d, found.tag, f"Fault current at {f.to}", _word(not drawings.over(d, f.to, rating)),
                             ask.clause("072"), limit, detail="the larger of line to line and line to neutral")
    key = f"clearing/{name}"
    if not d.has(f"{key}/fault"):
        yield _missing(d, "Fault to ground at the far end", "071", key, "A")
        return
    c = d.items[key]
    outcome = "needs judgement" if c.open and not c.ok else _word(c.ok)
    wanted = num(d, f"{key}/wanted")
    yield _result(d, f"{key}/fault", "Fault to ground at the far end", outcome, ask.clause("071"), wanted, "min",
                         standing="practice", detail=f"clears in at most {num(d, f'{key}/time')} s: {c.by}",
                         limit_words=f"{wanted.shown} A, at which the device is sure to trip at once")


def _laid(d: Design, name: str) -> Iterator[Result]:
    ask, key = Asker(d.ed.name), f"lug/{name}"
    if d.has(f"{key}/space_least"):
        ok = d.items[key].ok
        yield _result(d, f"{key}/space_least", "Bending space at its terminals", _word(ok), ask.clause("084"), None,
                             detail="lugs take the conductors" if d.items[key].range_ok else "lugs do not take the conductors")
    else:
        yield _missing(d, "Terminals and bending space", "084", key, "in")
    for race in raceways(d, name)[:1]:
        if d.has(f"{race}/fill"):
            r = d.items[race]
            yield _result(d, f"{race}/fill", f"Fill of raceway {race.split('/')[1]}", _word(r.fill_ok), ask.clause("161"),
                                 num(d, f"{race}/share"), detail=f"trade size {r.size}, jam ratio {r.jam:.2f}")
        else:
            yield _missing(d, "Fill of its raceway", "161", race, "%")


# ------------------------------------------------------------------------------------------------------------------ fields
FIELDS = ("current", "minimum", "device", "rule", "required", "size", "ampacity", "neutral", "egc", "drop", "drop_exact",
          "volts_far")


def fields(d: Design, name: str) -> Markup:
    """The feeder field by field, and the metal in it."""
    raceways(d, name)
    key, lines = f"feeder/{name}", []
    for field in FIELDS:
        n = maybe(d, f"{key}/{field}")
        if isinstance(n, Num):
            cell = content.conductors(d, key) if field == "size" else n
            lines.append(Line(("conductors" if field == "size" else label(field), cell, n.unit)))
    if f"route/{name}" in d.items:
        lines.append(Line(("length along the trenches", num(d, f"route/{name}/length"), content.unit_of(d, "ft"))))
    for field in ("pounds", "kilograms"):
        n = maybe(d, f"mass/{name}/{field}")
        if isinstance(n, Num):
            lines.append(Line(("metal in its conductors", n, n.unit)))
    made = Table("Feeder", (Column("what"), Column("number", True), Column("unit")), tuple(lines))
    return Markup(parts.table(made, title=False) + cautions("C36"))


# ---------------------------------------------------------------------------------------------------------------- pictures
def _picture(number: int, drawing: str, says: str) -> Markup:
    return Markup(f'<div class="k-draw">{drawing}</div>{figure_words(f"Picture {number}.", says, [])}' if drawing else "")


def volts_picture(d: Design, name: str) -> Markup:
    """Voltage along the way to the farthest outlet of its panel."""
    panel = of(d, name).to
    says = (f"Each line is one way from the transformer to a farthest outlet; the heavy one goes through {panel}. A slope is "
            "volts per foot. Dotted: the advice, which counts from the gear.")
    return _picture(2, pictures.way_svg(d, panel, PAGE), says)


def volts(d: Design) -> Markup:
    """The exact voltages and the drops of every panel, folded."""
    return Markup(parts.folded("Every panel", parts.table(schedules.paths(d), wide=True, title=False)) + cautions("C34"))


def faults_picture(d: Design, name: str) -> Markup:
    """Fault current at each node against the rating there."""
    panel = of(d, name).to
    along = {panel, d.estate.service.gear.id, *(f.to for f in d.tree.way(panel))}
    says = ("The disc is what is available, the upright what the equipment is rated for, the bar between them is the margin. "
            "Bold: the way of this feeder.")
    return Markup(_picture(3, pictures.faults_svg(d, PAGE, along), says) + cautions("C11", "C12", "C13"))


@lru_cache(maxsize=16)
def _sizes_svg(d: Design, name: str) -> tuple[str, int, int]:
    tries = sizes(d, name, BY)
    drawn = pictures.sizes_svg(d, name, tries, PAGE)
    good = sum(t.design is not None and pictures.holds(t.design, name) for t in tries)
    return drawn, good, len(tries)


def sizes_picture(d: Design, name: str) -> Markup:
    """The feeder in every size around the one that is laid."""
    drawn, good, n = _sizes_svg(d, name)
    says = (f"{good} of these {n} sizes hold every limit that has a number here. Smaller ones drop more and let less fault "
            "current through; larger ones want more metal, lugs and raceway. To open the numbers of another size, pick it above.")
    return _picture(1, drawn, says)


def one_line(d: Design) -> Markup:
    """The one-line diagram, folded."""
    drawing = ('<div class="k-draw" tabindex="0" role="region" aria-label="One-line diagram">'
               f"{drawings.one_line_svg(d, PAGE)}</div>")
    return Markup(drawing + figure_words("Picture 4.", drawings.ONE_LINE_SAYS, []))


# ------------------------------------------------------------------------------------------------------------------ review
def review(d: Design, name: str) -> Markup:
    """What the review says of this feeder and of its panel; the far-end fault stands in the answer, with its bound."""
    f, ask = of(d, name), Asker(d.ed.name)
    panel = next(p for p in d.estate.panels if p.id == f.to)
    raceways(d, name)
    found = [*feeders.feeder(d, ask, f), *feeders.panel(d, ask, panel.id, panel.rating, panel.main), fault.panel(d, ask, panel)]
    found += [network.panel(d, ask, panel.id)]
    return Markup(parts.checks(found, has=d.has))


def choices(d: Design, name: str) -> dict[str, str]:
    """Numbers whose working may be kept in sight while inputs move: what is said -> tag."""
    key, f = f"feeder/{name}", of(d, name)
    tags = [f"{key}/{field}" for field in ("drop", "size", "ampacity", "device", "egc", "neutral")]
    tags += [f"fault/{f.to}/largest", f"fault/{f.to}/lg", f"clearing/{name}/time", f"network/{f.to}/volts_a"]
    tags += [f"mass/{name}/pounds"]
    return {f"{label(t.rpartition('/')[2])} ({t.split('/')[0]})": t for t in tags if d.has(t)}


def pieces(d: Design, name: str) -> list[Markup]:
    """Everything that the page says of a feeder."""
    made = (answer, sizes_picture, volts_picture, faults_picture, fields, review)
    return [*(make(d, name) for make in made), volts(d)]
