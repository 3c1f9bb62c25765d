"""A whole design as one page that carries everything with it: no request leaves it, scripts are not needed to read it.

Every number that is a result is a link to its working, which stands once on the page. The same design gives the same bytes.
"""
from __future__ import annotations

from collections.abc import Callable
from html import escape, unescape
import re
from typing import TYPE_CHECKING, Any

from curtilage.design.ask import rests_on
from curtilage.design.decisions import decisions
from curtilage.design.top import top_rows
from curtilage.design.without import added_tag, told_added
from curtilage.draw import oneline
from curtilage.look import components as k
from curtilage.look import style
from curtilage.look.cautions import text as caution_text
from curtilage.look.marks import definitions
from curtilage.look.tables import LOUD_FIRST, figure_words
from curtilage.look.theme import PAGE
from curtilage.report import content as c
from curtilage.report import drawings, loads, parts, results, schedules, works
from curtilage.report import working as w
from curtilage.report.kinds import KINDS
from curtilage.report.numbers import label

if TYPE_CHECKING:
    from curtilage.design.design import Design

QUESTION = "How large is the load of this estate, and what carries it to the last outlet?"
DEMONSTRATION = "Demonstration data. Do not build from it."
IN_MARGIN = ('<style>@page{@bottom-right{content:"' + DEMONSTRATION + '";font-size:8pt;font-weight:700}}</style>')
SCRIPT = ("if(window.CSSMarginRule)document.documentElement.className='r-margins';"
          "function o(){var e=document.getElementById(decodeURIComponent(location.hash.slice(1)));if(!e)return;"
          "for(var p=e;p;p=p.parentElement)if(p.tagName=='DETAILS')p.open=true;e.scrollIntoView({block:'center'})}"
          "addEventListener('hashchange',o);o()")
HREF = re.compile(r'href="#w/([^"]+)"')


class Section:
    """A part of the page with its head; an empty one is left out."""

    def __init__(self, name: str, title: str, body: str, kind: str = "") -> None:
        self.name, self.title, self.body, self.kind = name, title, body, kind

    def html(self) -> str:
        kind, name = (f' class="{self.kind}"' if self.kind else ""), self.name
        return (f'<section id="{name}"{kind} aria-labelledby="h-{name}"><h2 id="h-{name}">{escape(self.title)}</h2>'
                f"{self.body}</section>")


def report(d: Design, snapshot: str, date: str = "") -> str:
    """The page. `snapshot` is the short hash of the inputs; `date` the day that stands in the estate file."""
    sections = [s for make in SECTIONS if (s := make(d)) is not None and s.body]
    sections.append(_working(d, "".join(s.body for s in sections)))
    contents = "".join(f'<li><a href="#{s.name}">{escape(s.title)}</a></li>' for s in sections)
    title = f"{d.estate.name}, variant {c.variant(d)}: electrical design"
    stamp = ", ".join(t for t in (snapshot, date) if t)
    body = (f'<a class="r-skip" href="#results">To the results</a><main>{_head(d, stamp)}'
            f'<nav aria-label="Contents"><ol class="r-list">{contents}</ol></nav>'
            f'{"".join(s.html() for s in sections)}</main>{_foot(d, stamp)}<script>{SCRIPT}</script>')
    return document(title, body)


def document(title: str, body: str) -> str:
    """A page around a body, with the look and the marks in it."""
    return ('<!doctype html><html lang="en"><head><meta charset="utf-8">'
            '<meta name="viewport" content="width=device-width,initial-scale=1">'
            f"<title>{escape(title)}</title><style>{style.for_report()}</style></head><body>{definitions()}{body}</body></html>\n")


def _head(d: Design, stamp: str) -> str:
    shares, missing = c.shares(d), c.not_evaluated(d)
    head = k.sheet_head(d.estate.name, c.variant(d), QUESTION, c.edition(d), f"amendments: {c.amendments(d)}", shares, stamp, (),
                        missing)
    notes = parts.caution("C07") if d.estate.demonstration else ""
    notes += parts.caution("C01") + parts.caution("C02")
    notes += parts.caution("C03", edition=c.edition(d), text=c.amendments(d))
    notes += parts.caution("C04", x=f"{shares['assumed']:.0f}", n=missing) + parts.not_looked_at()
    return head + notes + "".join(map(_stop, d.stops))


def _stop(stop: Any) -> str:
    """A stop, what to do, and what it withholds."""
    held = f" Withheld: {', '.join(stop.withheld)}." if stop.withheld else ""
    return k.caution("stop", f"{stop.text}{held}", stop.number, stop.answer)


def _foot(d: Design, stamp: str) -> str:
    """What stands at the end of every export, and on every printed page while the estate is invented."""
    words = f'<div class="r-mark" aria-hidden="true">{DEMONSTRATION}</div>{IN_MARGIN}'
    hashed, _, date = stamp.partition(", ")
    lines = [caution_text("C01"), caution_text("C05", hash=hashed, date=date or "undated"), caution_text("C06"),
             caution_text("C71")]
    said = "".join(f"<p>{escape(t)}</p>" for t in lines)
    return f'<footer class="r-foot">{said}</footer>{words if d.estate.demonstration else ""}'


# ---------------------------------------------------------------------------------------------------------- sections
def _results(d: Design) -> Section:
    return Section("results", "Results", k.results(results.first(d)) + parts.caution("C42"))


def _loud(d: Design) -> Section:
    need, rest = c.loud(d)
    others = c.count_words(rest)
    tail = f'<p class="r-dim">Besides: {escape(others)}. <a href="#checks">All checks</a></p>' if others else ""
    body = parts.checks(need, has=d.has) if need else "<p>No check fails, none is open and none asks for judgement.</p>"
    return Section("person", "What needs a person", body + tail)


def _demand(d: Design) -> Section:
    body = parts.caution("C30") + parts.table(loads.summary(d), wide=True, title=False)
    for i, name in enumerate(loads.homes(d)):
        body += f"<h3>{escape(name)}, {escape(c.branch_title(d, name))}: where the two methods part</h3>"
        body += f'<div class="k-draw">{drawings.both_methods(d, name, PAGE)}</div>'
        says = "Filled adds, dashed is taken away by a rule, solid is the sum. Both stand on one scale."
        body += figure_words(f"Picture {i + 1}.", says, [])
        body += parts.folded("Both methods, line by line", parts.table(loads.two_methods(d, name), title=False))
    return Section("demand", "Calculated load", body + parts.caution("C31") + parts.caution("C37"))


def _top(d: Design) -> Section:
    drawing = drawings.top_svg(d, PAGE)
    if not drawing:
        return Section("rows", "", "")
    made = loads.top(d)
    words = figure_words("Picture.", f"Filled is what the row adds to the calculated load, dashed its nameplate. {made.note}", [])
    table = parts.folded("Numbers in this picture", parts.table(made._replace(note=""), title=False))
    return Section("rows", made.title, f'<div class="k-draw">{drawing}</div>{words}{table}')


def _expected(d: Design) -> Section:
    body = parts.table(loads.expected(d), title=False)
    return Section("expected", "Expected peak, apart from the calculated load", body and body + parts.caution("C41"))


def _mains(d: Design) -> Section:
    left = parts.table(schedules.service(d))
    right = parts.table(schedules.mains(d)) + parts.table(schedules.growth(d, short=True))
    body = f'<div class="r-two"><div>{left}</div><div>{right}</div></div>'
    whole = schedules.growth(d)
    return Section("mains", "Service, mains and room for growth",
                   body + parts.folded("Room for growth at every feeder", parts.table(whole, title=False), paper=False))


def _feeders(d: Design) -> Section:
    cautions = "".join(map(parts.caution, ("C35", "C36", "C44")))
    return Section("feeders", "Feeders", parts.table(schedules.feeders(d), wide=True, title=False) + cautions)


def _voltage(d: Design) -> Section:
    if not c.keys(d, "path"):
        return Section("voltage", "", "")
    picture = f'<div class="k-draw">{drawings.voltage_svg(d, PAGE)}</div>'
    says = ("Each line is the way to the panel whose farthest outlet is lowest under one feeder; a slope is volts per foot. "
            "The heavy line ends at the lowest outlet of the estate. Dotted: the advice, which counts from the gear.")
    body = picture + figure_words("Picture.", says, []) + parts.table(schedules.paths(d), wide=True, title=False)
    return Section("voltage", "Voltage along the way", body + parts.caution("C34"))


def _one_line(d: Design) -> Section:
    root = drawings.one_line(d)
    said = "".join(f'<li style="padding-left:{18 * deep}px">{escape(oneline.sentence(n))}</li>'
                   for deep, n in oneline.walk(root))
    folded = parts.folded("The drawing in words", f'<ul class="k-words">{said}</ul>', paper=False)
    drawing = ('<div class="k-draw" tabindex="0" role="region" aria-label="One-line diagram">'
               f"{drawings.one_line_svg(d, PAGE)}</div>")
    words = figure_words("Picture.", drawings.ONE_LINE_SAYS, [])
    second = parts.caution("C21") if drawings.alternates(d) else ""
    return Section("one-line", "One-line diagram, normal supply", drawing + words + second + folded, "r-turn")


def _site(d: Design) -> Section:
    drawing = drawings.site_svg(d, PAGE)
    says = ("North is up and directions from the middle are true; far places are drawn nearer than they are. Lengths are "
            "those along the trench, which the feeders use. A dashed line carries no power.")
    words = figure_words("Picture.", says, [])
    return Section("site", "Site and trenches", drawing and f'<div class="k-draw">{drawing}</div>{words}')


def _topic(t: works.Topic) -> Callable[[Design], Section]:
    """One topic of what is built from the sizes: its drawings and tables, then the cautions that bite."""
    def made(d: Design) -> Section:
        found = works.tables(d, t)
        body = "".join(parts.table(x, wide=len(x.columns) > 5, title=len(found) > 1) for x in found)
        pictures = [f'<div class="k-draw">{x.svg}</div>' for x in t.drawings(d, PAGE)] if t.drawings and body else []
        if pictures:
            body = "".join(pictures) + figure_words("Picture.", t.says, []) + body
        return Section(t.name, t.title, body and body + "".join(map(parts.caution, t.cautions)))
    return made


def _circuits(d: Design) -> Section:
    body = ""
    for t in schedules.circuits(d):
        body += parts.folded(t.title, parts.table(t, title=False), f"{len(t.lines)} row{'' if len(t.lines) == 1 else 's'}")
    return Section("circuits", "Branch circuits, panel by panel", body)


def _checks(d: Design) -> Section:
    """Loud ones stand above; here every outcome is folded by itself, so that many passes bury nothing."""
    body = ""
    for outcome in LOUD_FIRST:
        found = [check for check in d.checks if check.outcome == outcome]
        if found:
            count = f"{len(found)} check{'' if len(found) == 1 else 's'}"
            body += parts.folded(outcome, parts.checks(found, has=d.has), count, outcome not in ("passes", "does not apply"))
    return Section("checks", "All checks", body and parts.caution("C61") + body)


def _questions(d: Design) -> Section:
    """What the authority has to decide, with both readings."""
    body = ""
    for q in d.questions:
        links = " ".join(parts.tag_link(tag) for tag in q.tags[:6] if d.has(tag))
        head = ", ".join(t for t in (q.number, *q.subjects) if t)
        facts = [q.readings, q.answer and f"Answer: {q.answer}", q.clause]
        said = "".join(f"<dd>{escape(fact)}</dd>" for fact in facts if fact)
        body += f'<dt><b>{escape(q.text)}</b> <span class="k-steps">{escape(head)}</span></dt>{said}'
        body += f'<dd class="k-src">{links}</dd>' if links else ""
    return Section("questions", "Questions for the authority", body and f'<dl class="r-said">{body}</dl>')


def _decisions(d: Design) -> Section:
    """What was decided, why, and whether the numbers still bear it out."""
    body = ""
    for s in decisions(d):
        held = ", ".join(f"{_criterion(d, t.text, t.tag)}: {escape(t.outcome)}" for t in s.criteria)
        when = f", {s.decision.date.isoformat()}" if s.decision.date else ""
        body += (f'<dt><b>{escape(s.decision.question)}</b> <span class="k-steps">{escape(s.name)}</span></dt>'
                 f"<dd>Chosen: <b>{escape(s.decision.chosen)}</b>; {escape(s.outcome)}</dd><dd>{escape(s.decision.reason)}</dd>"
                 f'<dd class="k-src">{held}</dd><dd class="k-src">{escape(s.decision.by)}{when}</dd>')
    return Section("decisions", "Decisions", body and f'<dl class="r-said">{body}</dl>')


def _criterion(d: Design, text: str, tag: str) -> str:
    """A criterion, its number a link."""
    if not d.has(tag) or not text.startswith(tag):
        return escape(text)
    return parts.tag_link(tag) + escape(text[len(tag):])


def _assumptions(d: Design) -> Section:
    made = c.records("Assumptions", d.assumptions)
    note = "What nobody stated, and what stands in its place. Each of these can be stated in the estate file."
    return Section("assumptions", "Assumptions", f"<p>{note}</p>{parts.table(made, title=False)}" if made.lines else "")


def _worked(d: Design, shown: str) -> list[str]:
    """Items whose working stands on the page: all that is sized, and of what is built from the sizes what the page shows or
    what that rests on."""
    todo = {unescape(tag).rpartition("/")[0] for tag in HREF.findall(shown)}
    seen: set[str] = set()
    while todo:
        key = todo.pop()
        if key in d.asks and key not in seen:
            seen.add(key)
            todo |= {tag.rpartition("/")[0] for tag in rests_on(d.asks[key])}
    return [key for key in d.items if key not in d.late or key in seen]


def _working(d: Design, shown: str) -> Section:
    """Every item once. Items of one kind stand together."""
    found = _worked(d, shown)
    left = len(d.items) - len(found)
    rest = f" {left} items that nothing here rests on are opened by: curtilage explain." if left else ""
    body = (f"<p>Each row: symbols, the same with numbers, the result, where it comes from. Figures in a working are not "
            f"rounded.{rest}</p>")
    by: dict[str, list[str]] = {}
    for key in found:
        by.setdefault(key.split("/")[0], []).append(key)
    made = [body]
    for kind, keys in by.items():
        made.append(f'<div class="r-kind"><h3>{escape(KINDS.get(kind, kind))}</h3><div class="r-group">')
        made += [parts.item(key, c.told_fields(d, key), results.title(d, key)) for key in keys]
        made.append("</div></div>")
    body = "".join(made)
    adding = [(added_tag(t).rpartition("/")[0], {"adds": told_added(d, t.key, t.id)}, t.id) for t in top_rows(d)]
    if adding:
        items = "".join(parts.item(key, told, f"what {row} adds") for key, told, row in adding)
        body += f'<div class="r-kind"><h3>What a row adds</h3><div class="r-group">{items}</div></div>'
    body += '<p class="r-paper">The workings are in the file; those that are open are printed.</p>'
    return Section("working", "Working of every number", body)


SECTIONS: tuple[Callable[[Design], Section], ...] = (
    _results, _loud, _demand, _top, _expected, _mains, _feeders, _voltage, _one_line, _site,
    *map(_topic, works.TOPICS), _circuits, _checks, _questions, _decisions, _assumptions)


def fragment(d: Design, tag: str, deep: bool = False) -> str:
    """The working of one number, or of a whole item, as a piece of HTML: for `explain` and for notebooks."""
    if c.is_item(d, tag):
        told, words = w.fields(d.tell(tag)), f"{escape(tag)}: {escape(results.title(d, tag))}"
    else:
        n, field = c.num(d, tag), tag.rpartition("/")[2]
        told = {field: d.told(tag)}
        words = f"{escape(tag)}: {escape(label(field))} <b>{escape(n.shown)}</b> {escape(n.unit)}"
    rows = parts.working_rows(told, tag if tag in d.items else tag.rpartition("/")[0], deep)
    return (f'<div class="k-one"><p>{words}</p><div class="k-scroll"><table class="k-table k-worktable">{parts.HEAD}'
            f"<tbody>{rows}</tbody></table></div></div>")
