"""The parts of the page on the service entrance: transformer, fault chain, mains, letter, grounding, labels."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, Any

from curtilage.look.components import Result
from curtilage.look.components import results as results_of
from curtilage.look.tables import figure_words
from curtilage.look.text import Markup, e
from curtilage.look.theme import PAGE
from curtilage.notebook.cases import Case, design
from curtilage.notebook.frame import cautions, marimo
from curtilage.notebook.service_inputs import letter_changes
from curtilage.notebook.workings import Shown, given, link
from curtilage.report import content, drawings, labels, parts, pictures, results, schedules, works
from curtilage.report.content import Num, num
from curtilage.review import fault, service, structures, utility
from curtilage.review.asked import Asker

if TYPE_CHECKING:
    from curtilage.design import Design


# ------------------------------------------------------------------------------------------------------------------ answer
def answer(d: Design) -> Markup:
    """Fault current against the gear, what the gear bears, conductors, drop and load of the transformer."""
    return Markup(results_of([*_faults(d), *_conductors(d), *_transformer(d)]))


_result = partial(results.result, told=False)


def _word(ok: Any) -> str:
    return "passes" if ok else "fails"


def _withheld(d: Design, name: str, check: str, key: str, unit: str) -> Result:
    why = d.late.get(key, "") or "nothing is stated from which it would follow"
    return Result(name, "", unit, "not evaluated", Asker(d.ed.name).clause(check), "code", "", detail=why)


def _faults(d: Design) -> Iterator[Result]:
    gear, t, ask = d.estate.service.gear, d.estate.service.transformer, Asker(d.ed.name)
    tag = f"fault/{gear.id}/largest"
    if not d.has(tag):
        yield _withheld(d, f"Fault current at {gear.id}", "053", f"fault/{gear.id}", "A")
        return
    limit = Num("", f"{gear.interrupting:,.0f}", "A", gear.interrupting)
    yield _result(d, tag, f"Fault current at {gear.id}", _word(not drawings.over(d, gear.id, gear.interrupting)),
                         ask.clause("053"), limit, detail="the larger of line to line and line to neutral")
    tag = f"margin/{gear.id}/rating_most"
    if d.has(tag) and d.value(tag):
        limit = Num("", f"{t.rating:g}", "kVA", t.rating)
        ok = float(d.value(tag)) >= t.rating
        yield _result(d, tag, "Largest transformer that its rating bears", _word(ok), ask.clause("054"), limit, "min",
                             standing="practice", detail=f"of {t.impedance:g} %, from an infinite primary")


def _conductors(d: Design) -> Iterator[Result]:
    s, ask = d.items["service"], Asker(d.ed.name)
    ok = _word(s.carries_ok and s.protected and s.parallel_ok)
    yield _result(d, "service/required", "Service conductors, ampacity asked for", ok, ask.clause("038"),
                         num(d, "service/ampacity"), detail=f"{content.conductors(d, 'service')}, by the {s.rule}")
    limit = d.asks["service"].record.drop_limit
    yield _result(d, "service/drop", "Voltage drop of the lateral", _word(s.drop_ok), results.ADVICE,
                         Num("", f"{limit:g}", "%", limit), standing="practice", detail="a recommendation, kept as policy")


def _transformer(d: Design) -> Iterator[Result]:
    tag = "candidate/drawn/loading"
    if d.has(tag):
        n = num(d, tag)
        outcome = "needs judgement" if (n.value or 0) > 100 else "passes"
        yield _result(d, tag, "Calculated load on the transformer", outcome, Asker(d.ed.name).clause("050"),
                      Num("", "100", "%", 100.0), standing="utility or local",
                             detail="of its nameplate; the utility sizes it by what it expects")


# ---------------------------------------------------------------------------------------------------------------- pictures
def chain(d: Design) -> Markup:
    """Fault current at each node against the rating there."""
    gear = d.estate.service.gear.id
    says = ("The disc is what is available, the upright what the equipment is rated for, the bar between them is the margin. A "
            "larger transformer or a shorter lateral moves every disc to the right.")
    drawn = pictures.faults_svg(d, PAGE, {"terminals", gear})
    picture = f'<div class="k-draw">{drawn}</div>{figure_words("Picture 1.", says, [])}' if drawn else ""
    return Markup(picture + cautions("C11", "C12", "C43"))


def mains(d: Design) -> Markup:
    """The mains as they are, and the conductors before them."""
    left, right = parts.table(schedules.mains(d)), parts.table(schedules.service(d))
    return Markup(f'<div class="n-two"><div>{left}</div><div>{right}</div></div>' + cautions("C10"))


def topic(d: Design, name: str, *but: str) -> Markup:
    """The tables of one topic of the report, without those whose titles begin with one of the words given."""
    found = [x for x in works.tables(d, works.topic(name)) if not x.title.startswith(but or ("\0",))]
    return Markup("".join(parts.table(x, wide=len(x.columns) > 5) for x in found) + cautions(*works.topic(name).cautions))


def label_sheet(d: Design) -> Markup:
    """The label sheet."""
    return Markup(parts.table(labels.labels(d), title=False))


def review(d: Design) -> Markup:
    """What the review says of the service, of its gear and mains."""
    ask, gear = Asker(d.ed.name), d.estate.service.gear.id
    about = {"service", gear, "transformer", "utility", *d.tree.mains}
    found = [c for room in (service, utility, structures, fault) for c in room.checks(d, ask) if c.subject in about]
    return Markup(parts.checks(found, has=d.has) if found else "")


# ------------------------------------------------------------------------------------------------------------------ letter
class Letter:
    """The design as it would be with a letter, beside the one at hand."""

    def __init__(self, before: Design, after: Design) -> None:
        self.before, self.after = before, after
        self.beside = {"before": before, "letter": after}


def with_letter(case: Case, ka: float) -> Letter:
    """The case with a letter of so many kA."""
    before = design(case)
    day = before.estate.prepared.date
    changed = letter_changes(ka, day.isoformat() if day else "2000-01-01")
    return Letter(before, before.with_values(changed, "tried on this page"))


def moved(x: Letter) -> Markup:
    """What the letter changes: fault current at every place with a rating, and the outcomes that turn."""
    d, ratings = x.before, {p.id: p.interrupting for p in x.before.estate.panels}
    gear = d.estate.service.gear
    ratings = {gear.id: gear.interrupting, **ratings}
    rows = "".join(_moved(x, name, rating) for name, rating in ratings.items()
                   if d.has(f"fault/{name}/largest") and x.after.has(f"fault/{name}/largest"))
    head = "".join(f'<th scope="col"{" class=num" if i else ""}>{h}</th>' for i, h in enumerate(
        ("at", "fault now, A", "with the letter, A", "rating, A", "of the rating"), 0))
    table = f'<div class="k-scroll"><table class="k-table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>'
    return Markup(_turned(x) + table + cautions("C43"))


def _moved(x: Letter, name: str, rating: float | None) -> str:
    tag = f"fault/{name}/largest"
    now, then = num(x.before, tag), num(x.after, tag)
    bad = rating is not None and float(then.value) > rating
    left = content.in_hand(Num("", "", "%", (rating - float(then.value)) / rating * 100)) if rating else "no rating stated"
    home = "service.gear.interrupting" if name == x.before.estate.service.gear.id else f"panels.{name}.interrupting"
    stated = given(x.before, home, f"{rating:,.0f}") if rating else ""
    both = "".join(f'<td class="num">{link(Shown(tag, side), n.shown)}</td>' for side, n in (("before", now), ("letter", then)))
    return (f'<tr{" class=r-bad" if bad else ""}><th scope="row">{e(name)}</th>{both}<td class="num">{stated}</td>'
            f"<td>{e(left)}</td></tr>")


def _turned(x: Letter) -> str:
    """Checks on faults whose outcome is another one with the letter."""
    ask = Asker(x.before.ed.name)
    was = {(c.number, c.subject): c.outcome for c in fault.checks(x.before, ask)}
    found = [c for c in fault.checks(x.after, ask) if was.get((c.number, c.subject)) != c.outcome]
    said = "".join(f"<li>check {e(c.number)} on {e(c.subject)}: {e(was.get((c.number, c.subject), 'not asked'))}, then "
                   f"<b>{e(c.outcome)}</b>. {e(c.found)}</li>" for c in found)
    return f"<p>{len(found)} outcomes turn.</p><ul>{said}</ul>" if found else "<p>No check on fault currents turns.</p>"


def arranged(d: Design) -> Markup:
    """Other arrangements of the service side by side; worked in steps, with a bar that shows how far it is."""
    mo = marimo()
    with mo.status.progress_bar(total=2, title="Arrangements of the service", remove_on_exit=True) as bar:
        bar.update(subtitle="working each option")
        d.works("arrangement")
        bar.update(subtitle="setting the table")
        found = [x for x in works.tables(d, works.topic("utility")) if "rrangement" in x.title]
    made = "".join(parts.table(x, wide=True) for x in found)
    return Markup(made or "<p>No arrangement is worked for this service.</p>")


def pieces(d: Design) -> list[Markup]:
    """Everything on the page that follows its inputs."""
    return [make(d) for make in (answer, chain, mains, review)]
