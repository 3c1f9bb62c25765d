"""A whole design as one page that carries everything with it: no request leaves it, scripts are not needed to read it.

Every number that is a result is a link to its working, which stands once on the page. The same design gives the same bytes.
"""
from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import TYPE_CHECKING

from curtilage.draw import oneline
from curtilage.look import components as k
from curtilage.look import style
from curtilage.look.cautions import text as caution_text
from curtilage.look.marks import definitions
from curtilage.look.tables import figure_words
from curtilage.look.theme import PAGE
from curtilage.report import content as c
from curtilage.report import drawings, parts, results
from curtilage.report.content import Table
from curtilage.report.numbers import label
from curtilage.report.text import amendments, edition, variant

if TYPE_CHECKING:
    from curtilage.design.design import Design

QUESTION = "How large is the load of this estate, and what carries it to the last outlet?"
SCRIPT = ("function o(){var e=document.getElementById(decodeURIComponent(location.hash.slice(1)));if(!e)return;"
          "for(var p=e;p;p=p.parentElement)if(p.tagName=='DETAILS')p.open=true;e.scrollIntoView({block:'center'})}"
          "addEventListener('hashchange',o);o()")
KINDS = {"circuit": "Branch circuits", "each": "Loads of alike circuits", "route": "Routes along the trenches",
         "demand": "Calculated loads", "neutral": "Neutrals", "feeder": "Feeders", "main": "Mains",
         "service": "Service conductors", "path": "Voltage along each way", "growth": "Room for growth",
         "expected": "Expected peak", "shares": "Sources of the figures"}


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
    contents = "".join(f'<li><a href="#{s.name}">{escape(s.title)}</a></li>' for s in sections)
    title = f"{d.estate.name}, variant {variant(d)}: electrical design"
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
    head = k.sheet_head(d.estate.name, variant(d), QUESTION, edition(d), f"amendments: {amendments(d)}", shares, stamp, (),
                        missing)
    notes = parts.caution("C07") if d.estate.demonstration else ""
    notes += parts.caution("C01") + parts.caution("C02")
    notes += parts.caution("C03", edition=edition(d), text=amendments(d))
    return head + notes + parts.caution("C04", x=f"{shares['assumed']:.0f}", n=missing)


def _foot(d: Design, stamp: str) -> str:
    """What stands at the end of every export, and on every printed page while the estate is invented."""
    words = '<div class="r-mark" aria-hidden="true">Demonstration data. Do not build from it.</div>'
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
    body = parts.checks(need) if need else "<p>No check fails, none is open and none asks for judgement.</p>"
    return Section("person", "What needs a person", body + tail)


def _demand(d: Design) -> Section:
    body = parts.caution("C30") + parts.table(c.demand_summary(d), wide=True)
    homes = [name for name, ways in c.methods(d).items() if {"standard", "optional"} <= set(ways)]
    for i, name in enumerate(homes):
        body += f"<h3>{escape(c.feeder_title(d, name))}: where the two methods part</h3>"
        body += f'<div class="k-draw">{drawings.both_methods(d, name, PAGE)}</div>'
        says = "Filled adds, dashed is taken away by a rule, solid is the sum. Both stand on one scale."
        body += figure_words(f"Picture {i + 1}.", says, [])
        body += parts.table(c.two_methods(d, name), title=False)
    return Section("demand", "Calculated load", body + parts.caution("C31") + parts.caution("C37"))


def _expected(d: Design) -> Section:
    body = parts.table(c.expected(d), title=False)
    return Section("expected", "Expected peak, apart from the calculated load", body and body + parts.caution("C41"))


def _mains(d: Design) -> Section:
    right = parts.table(c.mains(d)) + parts.table(c.growth(d))
    body = f'<div class="r-two"><div>{parts.table(c.service_lines(d))}</div><div>{right}</div></div>'
    return Section("mains", "Service, mains and room for growth", body)


def _feeders(d: Design) -> Section:
    cautions = "".join(map(parts.caution, ("C35", "C36", "C44")))
    return Section("feeders", "Feeders", parts.table(c.feeders(d), wide=True, title=False) + cautions)


def _voltage(d: Design) -> Section:
    if not c.keys(d, "path"):
        return Section("voltage", "", "")
    picture = f'<div class="k-draw">{drawings.voltage_svg(d, PAGE)}</div>'
    says = ("Each line is the way to the panel whose farthest outlet is lowest under one feeder; a slope is volts per foot. "
            "The heavy line ends at the lowest outlet of the estate.")
    body = picture + figure_words("Picture.", says, []) + parts.table(c.paths(d), wide=True)
    return Section("voltage", "Voltage along the way", body + parts.caution("C34"))


def _one_line(d: Design) -> Section:
    root = drawings.one_line(d)
    said = "".join(f'<li style="padding-left:{18 * deep}px">{escape(oneline.sentence(n))}</li>'
                   for deep, n in oneline.walk(root))
    folded = f'<details class="k-work"><summary>The drawing in words</summary><ul class="k-words">{said}</ul></details>'
    drawing = ('<div class="k-draw" tabindex="0" role="region" aria-label="One-line diagram">'
               f"{drawings.one_line_svg(d, PAGE)}</div>")
    return Section("one-line", "One-line diagram, normal supply", drawing + folded, "r-turn")


def _site(d: Design) -> Section:
    drawing = drawings.site_svg(d, PAGE)
    says = ("Structures and junctions where they stand, north up. Lengths are along the trench, which is what the feeders "
            "use.")
    words = figure_words("Picture.", says, [])
    return Section("site", "Site and trenches", drawing and f'<div class="k-draw">{drawing}</div>{words}')


def _circuits(d: Design) -> Section:
    body = ""
    for t in c.circuits(d):
        count = f'<span class="k-steps">{len(t.lines)} rows</span>'
        body += (f'<details class="k-work r-item"><summary>{escape(t.title)}{count}</summary>'
                 f"{parts.table(t, title=False)}</details>")
    return Section("circuits", "Branch circuits, panel by panel", body)


def _checks(d: Design) -> Section:
    return Section("checks", "All checks", parts.caution("C61") + parts.checks(d.checks) if d.checks else "")


def _records(name: str, title: str, get: Callable[[Design], Table]) -> Callable[[Design], Section]:
    return lambda d: Section(name, title, parts.table(get(d), title=False))


def _working(d: Design) -> Section:
    """Every item once. Items of one kind stand together."""
    body = ("<p>Each row: symbols, the same with numbers, the result, where it comes from. Figures in a working are not "
            "rounded.</p>")
    by: dict[str, list[str]] = {}
    for key in d.items:
        by.setdefault(key.split("/")[0], []).append(key)
    for kind, found in by.items():
        body += f'<h3>{escape(KINDS.get(kind, kind))}</h3><div class="r-group">'
        body += "".join(parts.item(key, d.tell(key), results.title(d, key)) for key in found) + "</div>"
    body += '<p class="r-paper">The workings are in the file; those that are open are printed.</p>'
    return Section("working", "Working of every number", body)


SECTIONS: tuple[Callable[[Design], Section], ...] = (
    _results, _loud, _demand, _expected, _mains, _feeders, _voltage, _one_line, _site, _circuits, _checks,
    _records("questions", "Questions for the authority", lambda d: c.records("Questions", d.questions)),
    _records("assumptions", "Assumptions", lambda d: c.records("Assumptions", d.assumptions)), _working)


def fragment(d: Design, tag: str) -> str:
    """The working of one number as a piece of HTML, for `explain --html` and for notebooks."""
    n, field = c.num(d, tag), tag.rpartition("/")[2]
    rows = parts.working_rows({field: d.told(tag)})
    words = f"{escape(tag)}: {escape(label(field))} <b>{escape(n.shown)}</b> {escape(n.unit)}"
    return (f'<div class="k-one"><p>{words}</p><div class="k-scroll"><table class="k-table k-worktable">{parts.HEAD}'
            f"<tbody>{rows}</tbody></table></div></div>")
