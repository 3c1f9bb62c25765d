"""The parts of the page on the service entrance: transformer, fault chain, mains, letter, grounding, labels."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, Any

from curtilage.design.arrangements import arrangements
from curtilage.design.impact import impact
from curtilage.look.components import Result
from curtilage.look.components import results as results_of
from curtilage.look.tables import figure_words, region
from curtilage.look.text import Markup, e
from curtilage.look.theme import PAGE
from curtilage.notebook import workings
from curtilage.notebook.cases import Case, design
from curtilage.notebook.frame import attempt, cautions, marimo
from curtilage.notebook.workings import Shown, given, link
from curtilage.report import content, drawings, on_utility, parts, pictures, results, schedules, works
from curtilage.report.content import Num, num
from curtilage.review import fault, service, structures, utility
from curtilage.review.asked import Asker

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.arrangements import Laid
    from curtilage.design.impact import Impact, Struck


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
    return Markup(parts.table(on_utility.sheet(d), title=False))


def review(d: Design) -> Markup:
    """What the review says of mains, conductors and fault current, as the inputs have it."""
    ask, gear = Asker(d.ed.name), d.estate.service.gear.id
    about = {"service", gear, *d.tree.mains}
    found = [c for c in service.checks(d, ask) if c.subject in about]
    found += [fault.letter(d, ask), fault.service(d, ask, gear), fault.change(d, ask, gear), fault.marking(d, ask, gear)]
    return Markup(parts.checks(found, has=d.has))


def review_stated(d: Design) -> Markup:
    """What the review says of the gear, its place and the utility; nothing that moves on this page changes it."""
    ask, about = Asker(d.ed.name), {"service", d.estate.service.gear.id, "transformer", "utility", *d.tree.mains}
    found = [c for room in (utility, structures) for c in room.checks(d, ask) if c.subject in about]
    return Markup(parts.checks(found, has=d.has) if found else "")


# ------------------------------------------------------------------------------------- with designs of their own, when asked
class Beside:
    """A part of the page whose numbers belong to other designs, by name; they open below it."""

    def __init__(self, made: Markup, designs: dict[str, Design]) -> None:
        self.made, self.designs = made, designs

    def workings(self) -> Any:
        """The workings of its numbers."""
        return workings.beside(self.designs, self.made)


def with_letter(case: Case, ka: float) -> Beside:
    """What a letter of so many kA changes: fault current at every place with a rating, and the checks that turn."""
    before = design(case)
    x: Impact = attempt(impact, before, ka * 1000)
    rows = "".join(_struck(x, p, before) for p in x.places if p.rating is not None)
    heads = (("at", False), ("fault now, A", True), ("with the letter, A", True), ("rating, A", True), ("it then", False))
    return Beside(Markup(_turned(x) + _table("What the letter changes", heads, rows) + cautions("C43")),
                  {"before": before, "letter": x.design})


def _table(title: str, heads: tuple[tuple[str, bool], ...], rows: str) -> Markup:
    head = "".join(f'<th scope="col"{" class=num" if numeric else ""}>{h}</th>' for h, numeric in heads)
    return region(title, f'<table class="k-table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>')


def _struck(x: Impact, p: Struck, before: Design) -> str:
    tag = f"fault/{p.id}/largest"
    both = "".join(f'<td class="num">{link(Shown(tag, side), num(d, tag).shown)}</td>'
                   for side, d in (("before", before), ("letter", x.design)))
    inputs = before.inputs()
    homes = ("service.gear", f"panels.{p.id}", f"sources.buses.{p.id}", f"sources.transfers.{p.id}")
    home = next((f"{h}.interrupting" for h in homes if inputs.get(f"{h}.id") == p.id), "")
    stated = given(before, home, f"{p.rating:,.0f}") if home else e(f"{p.rating:,.0f}")
    bad = " class=r-bad" if p.holds.startswith("fails") else ""
    return f'<tr{bad}><th scope="row">{e(p.id)}</th>{both}<td class="num">{stated}</td><td>{e(p.holds)}</td></tr>'


def _turned(x: Impact) -> str:
    """Checks whose outcome is another one with the letter."""
    said = "".join(f"<li>check {e(n)} on {e(subject)}: {e(was)}, then <b>{e(now)}</b></li>" for n, subject, was, now in x.flipped)
    many = len(x.flipped)
    return f"<p>{many} outcome{'' if many == 1 else 's'} turn:</p><ul>{said}</ul>" if many else "<p>No outcome turns.</p>"


ARRANGED = (("service", "current", "load, A"), ("service", "ampacity", "conductors, A"), ("", "rating", "mains, A"),
            ("", "spare", "spare, A"), ("", "pounds", "metal, lb"), ("", "energy", "lost, kWh a year"))
"""Item (of the arrangement where empty), field and head of each figure."""


def arranged(d: Design) -> Beside:
    """Other arrangements of the service side by side, one whole design after another, with a bar that shows how far it is."""
    mo, found = marimo(), []
    with mo.status.progress_bar(total=len(d.estate.service.options) + 1, title="Arrangements of the service",
                                remove_on_exit=True) as bar:
        for x in arrangements(d):
            found.append(x)
            bar.update(subtitle=x.title)
    rows = "".join(_arranged(x) for x in found)
    heads = (("arrangement", False), ("mains", True), *((h, True) for *_, h in ARRANGED), ("fails besides", False))
    return Beside(_table("Arrangements of the service", heads, rows), {x.name: x.design for x in found if x.design is not None})


def _arranged(x: Laid) -> str:
    n, title = x.design, f"{x.name}: {x.title}"
    if n is None:
        return f'<tr class=r-bad><th scope="row">{e(title)}</th><td colspan="{len(ARRANGED) + 2}">{e(x.why)}</td></tr>'
    tags = [f"{item or x.key}/{field}" for item, field, _ in ARRANGED]
    cells = "".join(f'<td class="num">{link(Shown(t, x.name), num(n, t).shown) if n.has(t) else ""}</td>' for t in tags)
    laid = f"{len(n.estate.service.mains)} mains, {content.conductors(n, 'service')}"
    failed = ", ".join(sorted({f"{c.number} {c.subject}" for c in x.failed})) or "nothing"
    bad = " class=r-bad" if x.failed else ""
    return f'<tr{bad}><th scope="row">{e(title)}</th><td>{e(laid)}</td>{cells}<td>{e(failed)}</td></tr>'


def pieces(d: Design) -> list[Markup]:
    """Everything on the page that follows its inputs."""
    return [make(d) for make in (answer, chain, mains, review)]
