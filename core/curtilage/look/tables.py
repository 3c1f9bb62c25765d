"""Tables of the pages: figures that align, checks with the loud ones first, later loads against resources, words of a picture."""
from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from curtilage.look.components import outcome
from curtilage.look.marks import mark
from curtilage.look.text import Markup, class_of, e

LOUD_FIRST = ("fails", "not evaluated", "needs judgement", "attested", "passes", "does not apply")
CheckRow = tuple[str, str, str, str, str]     # outcome, number, question, found, clause and standing


def region(label: str, inner: str, wide: bool = True) -> Markup:
    """A part that may scroll sideways; only a wide one is a stop of the Tab key."""
    stop = f' tabindex="0" role="region" aria-label="{e(label)}"' if wide else ""
    return Markup(f'<div class="k-scroll"{stop}>{inner}</div>')


def _cell(column: str, first: bool, text: object, numeric: Collection[str]) -> str:
    tag, scope = ("th", ' scope="row"') if first else ("td", "")
    return f'<{tag}{scope}{" class=num" if column in numeric else ""}>{e(text)}</{tag}>'


def table(rows: Sequence[Mapping[str, object]], numeric: Collection[str] = (), caption: str = "", total: bool = False,
          key: str | None = None, wide: bool = False) -> Markup:
    """A table with figures that align: the caller gives text with equal decimals, the unit stands in the column head.

    `total` rules the last row off; `key` washes the row whose first cell it is; `wide` lets the table be scrolled by keyboard.
    """
    if not rows:
        return Markup("")
    columns, last = list(rows[0]), len(rows) - 1
    head = "".join(f'<th scope="col"{" class=num" if c in numeric else ""}>{e(c)}</th>' for c in columns)
    body = ""
    for i, row in enumerate(rows):
        chosen = key is not None and str(row[columns[0]]) == key
        kind = ("k-total" if total and i == last else "") + (" k-chosen" if chosen else "")
        cells = "".join(_cell(c, j == 0, row[c], numeric) for j, c in enumerate(columns))
        body += f'<tr{f" class={kind.strip()!r}" if kind else ""}>{cells}</tr>'
    words = f"<caption>{e(caption)}</caption>" if caption else ""
    inner = f'<table class="k-table">{words}<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'
    return region(caption or "table", inner, wide)


def figure_words(name: str, says: str, rows: Sequence[Mapping[str, object]], numeric: Collection[str] = ()) -> Markup:
    """Under every picture: what it says in a sentence, and its numbers as a table, folded."""
    count = f"{len(rows)} row{'' if len(rows) == 1 else 's'}"
    folded = (f'<details class="k-work"><summary>Numbers in this picture<span class="k-steps">{count}</span></summary>'
              f"{table(rows, numeric)}</details>") if rows else ""
    return Markup(f'<div class="k-figwords"><p><b>{e(name)}</b> {e(says)}</p>{folded}</div>')


def count_words(outcomes: Sequence[str]) -> str:
    """How many of each outcome, loud ones first; no score, no share of passes."""
    return ", ".join(f"{outcomes.count(o)} {o}" for o in LOUD_FIRST if o in outcomes)


def checks(rows: Sequence[CheckRow]) -> Markup:
    """Check list: outcome, number, what is asked, what was found, clause and standing. Loud outcomes come first."""
    ordered = sorted(rows, key=lambda r: LOUD_FIRST.index(r[0]))
    body = "".join(
        f'<tr class="is-{class_of(o)}"><td>{outcome(o)}</td><td class="num">{e(n)}</td><th scope="row">{e(q)}</th><td>{e(f)}</td>'
        f'<td class="k-src">{e(c)}</td></tr>' for o, n, q, f, c in ordered)
    heads = "".join(f'<th scope="col"{" class=num" if h == "Check" else ""}>{h}</th>'
                    for h in ("Outcome", "Check", "Question", "Found", "Clause, standing"))
    inner = (f'<table class="k-table k-checks"><caption>{e(count_words([r[0] for r in rows]))}</caption>'
             f"<thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table>")
    return region("Checks", inner)


def readiness(futures: Sequence[str], resources: Sequence[str], cells: Mapping[tuple[int, int], tuple[str, str]],
              provision: Sequence[str]) -> Markup:
    """Later loads against resources: a disc says fits, half a disc tight, a struck ring short; the number says by how much."""
    words = {"unknown": "not evaluated", "untouched": ""}
    head = "".join(f'<th scope="col">{e(r)}</th>' for r in resources)
    body = ""
    for i, future in enumerate(futures):
        body += f'<tr><th scope="row">{e(future)}</th>'
        for j in range(len(resources)):
            kind, text = cells.get((i, j), ("untouched", ""))
            body += (f'<td class="k-cell is-{kind}">{mark(kind, 15)}<span class="k-cell-w">{words.get(kind, kind)}</span>'
                     f'<span class="k-cell-n">{e(text)}</span></td>')
        body += f'<td class="k-prov">{e(provision[i])}</td></tr>'
    inner = (f'<table class="k-table k-ready"><thead><tr><th scope="col">Later load</th>{head}'
             f'<th scope="col">Cheapest provision before the wall closes</th></tr></thead><tbody>{body}</tbody></table>')
    return region("Readiness for later loads", inner)
