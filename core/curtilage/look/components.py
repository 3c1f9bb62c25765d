"""Small functions that return HTML text: outcomes, results, gauges, working, cautions, the sheet head.

Every text argument is escaped here, once. Marks are inline drawings in the text colour: shape and word carry the meaning.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from curtilage.look.marks import mark
from curtilage.look.text import Markup, class_of, e, number

WorkRow = tuple[str, str, str, str]     # symbols, numbers, result, source and status
AT = {"max": 0.66, "min": 0.4}          # where the limit stands in every gauge


@dataclass(frozen=True)
class Result:
    """What one result needs in order to stand by itself on a page."""

    name: str
    shown: str                  # the number as text, with its decimals; empty when it is withheld
    unit: str
    outcome: str
    clause: str
    standing: str = "code"      # code, practice, utility or local, interpretation
    source: str = "verified"
    value: float | None = None
    limit: float | None = None
    sense: str = "max"          # the limit is the most (max) or the least (min) that will do
    limit_shown: str = ""
    detail: str = ""
    working: Sequence[WorkRow] = ()
    open: bool = False
    stale: bool = False
    tag: str = ""               # the tag of the number: makes it a link to its working


def outcome(kind: str, detail: str = "") -> Markup:
    """Mark, word and the one fact that belongs to this outcome: who attested, what is missing, which reading."""
    tail = f'<span class="k-out-detail">{e(detail)}</span>' if detail else ""
    return Markup(f'<span class="k-out k-{class_of(kind)}">{mark(kind)}<span class="k-out-word">{e(kind)}</span>{tail}</span>')


def margin_words(value: float, limit: float, sense: str = "max") -> str:
    """The distance to the limit in words, as a share of the limit."""
    if limit == 0:
        return "no limit to compare with"
    share = (limit - value if sense == "max" else value - limit) / limit * 100
    size = f"{abs(share):.0f} %" if abs(share) >= 1 or share == 0 else "under 1 %"
    return f"{size} {'in hand' if share >= 0 else ('over' if sense == 'max' else 'short')}"


def _missing(x: float, at: float, width: int, sense: str) -> str:
    """What lies beyond the limit (separate strokes) or is missing before it (a dashed box)."""
    if sense == "min":
        return (f'<rect x="{x:.1f}" y="8.7" width="{at - x:.1f}" height="6.6" fill="none" stroke="var(--k-rust)" '
                'stroke-width="1.4" stroke-dasharray="3 2"/>')
    strokes = (at + 3 + 5 * i for i in range(int((x - at) / 5) + 1))
    return "".join(f'<rect x="{p:.1f}" y="8" width="2.4" height="8" fill="var(--k-rust)"/>' for p in strokes if p < width - 2)


def gauge(value: float, limit: float, sense: str = "max", width: int = 190) -> Markup:
    """Value against limit; the limit stands at the same place in every row, its hook on the side that will do."""
    at = width * AT[sense]
    x = min(max(value / limit, 0.0) * at, width - 2) if limit else width - 2.0
    good = value <= limit if sense == "max" else value >= limit
    bar = (f'<rect x="0" y="8" width="{min(x, at) if sense == "max" else x:.1f}" height="8" fill="currentColor" '
           f'opacity="{".62" if good else "1"}"/>')
    if not good:
        bar += _missing(x, at, width, sense)
    hook = f"M{at - 5:.1f} 2.2H{at:.1f}" if sense == "max" else f"M{at:.1f} 2.2h5"
    return Markup(
        f'<svg class="k-gauge" viewBox="0 0 {width} 24" width="{width}" height="24" aria-hidden="true" focusable="false">'
        f'<path d="M0 16.5H{width}" stroke="var(--k-strong)" stroke-width="1"/>{bar}'
        f'<path d="M{at:.1f} 1.2V22{hook}" stroke="var(--k-ink)" stroke-width="2.2" fill="none"/></svg>')


def working(rows: Sequence[WorkRow], opened: bool = False, label: str = "Working") -> Markup:
    """The working of a number, folded: symbols, numbers, result, source; a native disclosure, so a keyboard opens it."""
    body = "".join(
        f"<tr><td>{e(s)}</td><td>{e(n)}</td><td>{e(r)}</td><td>{e(src)}</td></tr>" for s, n, r, src in rows)
    head = '<th scope="col">Symbols</th><th scope="col">Numbers</th><th scope="col" class="num">Result</th>'
    count = f"{len(rows)} line{'' if len(rows) == 1 else 's'}"
    return Markup(
        f'<details class="k-work"{" open" if opened else ""}><summary>{e(label)}<span class="k-steps">{count}</span></summary>'
        f'<div class="k-scroll"><table class="k-table k-worktable"><thead><tr>{head}<th scope="col">Source and status</th></tr>'
        f"</thead><tbody>{body}</tbody></table></div></details>")


def _margin(r: Result) -> str:
    if r.value is None or r.limit is None:
        return ""
    least = "at most" if r.sense == "max" else "at least"
    return (f'{gauge(r.value, r.limit, r.sense)}<span class="k-margin"><b>{e(margin_words(r.value, r.limit, r.sense))}</b>, '
            f"{least} {e(r.limit_shown)}</span>")


def _figure(r: Result) -> str:
    """The number itself, or the empty box where it would stand."""
    if r.shown == "":
        return '<span class="k-blank" role="img" aria-label="no number"></span>'
    wordy = " is-word" if r.outcome in ("attested", "does not apply") else ""
    shown = number(r.tag, r.shown) if r.tag else e(r.shown)
    return f'<span class="k-value{" is-stale" if r.stale else ""}{wordy}">{shown}</span>'


def result(r: Result) -> Markup:
    """One result: outcome, name, number, limit and margin, clause and standing, in that reading order; working below."""
    stale = f'<span class="k-stale">{mark("stale", 13)} older than its inputs</span>' if r.stale else ""
    standing = e(", ".join(t for t in (r.standing, r.source) if t))
    label = f"{e(r.name)}: {e(r.shown or 'no number')} {e(r.unit)}, {e(r.outcome)}"
    return Markup(
        f'<section class="k-result is-{class_of(r.outcome)}" aria-label="{label}">'
        f'<div class="k-r-name"><h4>{e(r.name)}</h4>{outcome(r.outcome, r.detail)}</div>'
        f'<div class="k-r-num">{_figure(r)}</div><div class="k-unit">{e(r.unit)}{stale}</div>'
        f'<div class="k-r-margin">{_margin(r)}</div><div class="k-r-clause"><span class="k-clause">{e(r.clause)}</span>'
        f'<span class="k-standing">{standing}</span></div>{working(r.working, r.open) if r.working else ""}</section>')


def results(items: Sequence[Result]) -> Markup:
    """A column of results that share one set of columns."""
    return Markup(f'<div class="k-results">{"".join(map(result, items))}</div>')


def caution(strength: str, text: str, ref: str, answer: str = "") -> Markup:
    """Three strengths by enclosure: a note is a line, a warning is a box, a stop is a solid head over an empty number."""
    word = {"note": "Note", "warning": "Warning", "stop": "Stop"}[strength]
    role = "alert" if strength == "stop" else "note"
    tail = f'<div class="k-c-answer">{e(answer)}</div>' if answer else ""
    return Markup(
        f'<div class="k-caution k-c-{strength}" role="{role}"><span class="k-c-head">'
        f'{mark(strength, 15 if strength == "note" else 18)}<b>{word}</b></span>'
        f'<div class="k-c-text">{e(text)}{tail}</div><span class="k-c-ref">{e(ref)}</span></div>')


def _ruled(x: float, w: float) -> str:
    lines = (x + 4 + 4 * i for i in range(int((w - 5) / 4) + 1))
    return "".join(f'<path d="M{p:.1f} 1V13" stroke="currentColor" stroke-width="1.3"/>' for p in lines)


def share_bar(shares: Mapping[str, float], width: int = 190) -> Markup:
    """Provenance of the connected load in percent: nameplate solid, submittal ruled, assumed empty; words carry the numbers."""
    x, parts = 0.0, []
    for name, share in shares.items():
        w = width * share / 100
        fill, dash = ("currentColor" if name == "nameplate" else "none"), (' stroke-dasharray="3 2"' if name == "assumed" else "")
        parts.append(f'<rect x="{x + 0.75:.1f}" y="1" width="{max(w - 1.5, 0):.1f}" height="12" fill="{fill}" '
                     f'stroke="currentColor" stroke-width="1.2"{dash}/>' if share > 0 else "")
        parts.append(_ruled(x, w) if name == "submittal" and w > 8 else "")
        x += w
    return Markup(f'<svg class="k-share" viewBox="0 0 {width} 14" width="{width}" height="14" aria-hidden="true" '
                  f'focusable="false">{"".join(parts)}</svg>')


def share_words(shares: Mapping[str, float]) -> str:
    """"46 % nameplate, 31 % submittal, 23 % assumed"; a share below one per cent is "under 1 %"."""
    return ", ".join(f"{'under 1' if 0 < v < 0.5 else f'{v:.0f}'} % {k}" for k, v in shares.items())


def _state(stale: Sequence[str], not_evaluated: int) -> str:
    if stale:
        state = (f'<span class="k-stale-head">{mark("stale", 15)} <b>{len(stale)} page{"s" if len(stale) > 1 else ""} older than '
                 f'the inputs</b></span><span>{e(", ".join(stale))}</span>')
    else:
        state = "<span><b>All pages follow the inputs</b></span>"
    many = "" if not_evaluated == 1 else "s"
    return f"{state}<span>{mark('not evaluated', 13)} {not_evaluated} check{many} not evaluated</span>"


def sheet_head(estate: str, variant: str, question: str, edition: str, amendments: str, shares: Mapping[str, float],
               snapshot: str, stale: Sequence[str], not_evaluated: int) -> Markup:
    """The head of every page: question first, then what the numbers rest on. `snapshot` is split at commas."""
    stamp = "".join(f'<span class="k-mono">{e(t)}</span>' for t in snapshot.split(", "))
    return Markup(
        f'<header class="k-head"><p class="k-estate"><b>{e(estate)}</b><span>variant: <b>{e(variant)}</b></span></p>'
        f'<h1>{e(question)}</h1><dl class="k-basis">'
        f"<div><dt>Edition</dt><dd><b>{e(edition)}</b><span>{e(amendments)}</span></dd></div>"
        f"<div><dt>Provenance of connected load</dt><dd>{share_bar(shares)}<span>{e(share_words(shares))}</span></dd></div>"
        f"<div><dt>State</dt><dd>{_state(stale, not_evaluated)}</dd></div>"
        f"<div><dt>Snapshot</dt><dd>{stamp}</dd></div></dl></header>")
