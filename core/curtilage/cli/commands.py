"""What each command does: load, ask the core, print. Nothing is computed here."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
import json
import os
from pathlib import Path
import sys
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.design.compare import Comparison


def say(text: str) -> None:
    """Print, with the few signs that a terminal may not have put in words."""
    try:
        print(text)
    except UnicodeEncodeError:
        print(text.encode(sys.stdout.encoding or "ascii", "replace").decode(sys.stdout.encoding or "ascii"))


def say_json(content: Any) -> None:
    """Print JSON, two spaces deep; the same bytes for the same content."""
    say(json.dumps(content, indent=2, ensure_ascii=False, allow_nan=False))


def designed(path: str, variant: Sequence[str], edition: str | None, units: str | None = None) -> Design:
    """The design of an estate, of a variant of it, or of the estate in a frozen record."""
    from curtilage import store
    from curtilage.design import Design

    d = Design(store.estate(path, variant, edition, {"units": units} if units else None))
    d.variant = ", ".join(variant) or "base"
    return d


def new(a: Namespace) -> int:
    """Write the starter estate."""
    from curtilage import store

    folder = store.new_estate(Path(a.folder))
    say(f"A starter estate stands in {folder}. Design it with:  curtilage design {folder}")
    return 0


def design(a: Namespace) -> int:
    """Design, print, and write the report."""
    from curtilage.report import data, text

    d = designed(a.estate, a.variant, a.edition, a.units)
    if a.report:
        from curtilage import store
        from curtilage.report.html import report

        store.write_text(Path(a.report), report(d, d.snapshot, store.today()))
    if a.json:
        say_json(data.design(d))
    else:
        say(text.result(d, _paper(a), a.circuits))
        if a.report:
            say(f"Report: {a.report} (one file; it opens in a browser without a network)")
    return 0


def _paper(a: Namespace) -> Any:
    from curtilage.report.text import Paper

    tty = sys.stdout.isatty()
    width = os.get_terminal_size().columns if tty else 110
    encoding = (sys.stdout.encoding or "ascii").lower()
    return Paper(width, bold=tty and not os.environ.get("NO_COLOR"), signs=encoding.startswith("utf"))


def explain(a: Namespace) -> int:
    """The working of one number."""
    from curtilage.report import data, html, markdown, text

    d = designed(a.estate, a.variant, a.edition)
    if a.number.rpartition("/")[0] in d.withheld:
        _stopped(d, a.number)
        return 1
    if a.json:
        say_json(data.explain(d, a.number, not a.short))
        return 0
    if a.form == "text":
        say(text.explain(d, a.number, _paper(a), not a.short))
    elif a.form == "markdown":
        say(markdown.explain(d, a.number, not a.short))
    else:
        say(html.document(f"{a.number}, {d.estate.name}", html.fragment(d, a.number)))
    return 0


def _stopped(d: Design, tag: str) -> None:
    for s in d.stops:
        if tag.rpartition("/")[0] in s.withheld:
            say(f"{tag}: withheld by stop {s.number}. {s.text}\n{s.answer}")


def show(a: Namespace) -> int:
    """One topic of the design, or the list of topics."""
    from curtilage.report import data, text
    from curtilage.report.works import ANEW, topic

    if not a.topic:
        say(text.topics(_paper(a)))
        return 0
    t, d = topic(a.topic), designed(a.estate, a.variant, a.edition, a.units)
    if t in ANEW:
        print("Each line is a design of its own: this takes a while.", file=sys.stderr)
    say_json(data.topic(d, t)) if a.json else say(text.topic(d, t.name, _paper(a)))
    return 0


def letter(a: Namespace) -> int:
    """The load letter to the utility, printed or written; or what a letter of another current would change."""
    from curtilage.report.letter import letter as written

    if a.current is not None:
        return _another_letter(a)
    made = written(designed(a.estate, a.variant, a.edition))
    if a.to:
        from curtilage import store

        store.write_text(Path(a.to), made)
        say(f"Load letter: {a.to}")
    else:
        say(made)
    return 0


def _another_letter(a: Namespace) -> int:
    from curtilage.design.impact import LEAST, MOST
    from curtilage.errors import refuse
    from curtilage.report import text
    from curtilage.units import Unit

    if a.to:
        refuse("--current", "--to writes the load letter, and --current asks for no letter", "one of the two")
    current = Unit("A", "a current", LEAST, MOST).parse(a.current)
    d = designed(a.estate, a.variant, a.edition)
    print("The estate is designed anew with that letter: this takes a while.", file=sys.stderr)
    say(text.another_letter(d, current, _paper(a)))
    return 0


def compare(a: Namespace) -> int:
    """Two designs side by side."""
    from curtilage.design.compare import causes
    from curtilage.design.compare import compare as held_against
    from curtilage.report import compared, data

    before = designed(a.a, a.variant_a, a.edition_a)
    after = designed(a.b or a.a, a.variant_b, a.edition_b)
    c: Comparison = held_against(before, after)
    sides = compared.side(before, _titles(a.a, a.variant_a)), compared.side(after, _titles(a.b or a.a, a.variant_b))
    if a.json:
        say_json(data.comparison(c, causes(before, after, c)[0], sides))
    else:
        say(compared.comparison(before, after, c, a.all, _paper(a), sides))
    return 0


def _titles(path: str, names: Sequence[str]) -> str:
    """The titles of some variants of an estate; nothing where it has none, as in a record."""
    from curtilage import store

    return "; ".join(title for name, _, title in (store.variant_titles(path) if names else ()) if name in names)


def freeze(a: Namespace) -> int:
    """Write a record."""
    from curtilage import store

    d = designed(a.estate, a.variant, a.edition)
    store.freeze(d, a.variant, Path(a.to))
    say(f"Frozen: {a.to}, snapshot {d.snapshot}, {len(d.values())} numbers. Replay it with:  curtilage replay {a.to}")
    return 0


def replay(a: Namespace) -> int:
    """Open a record: does it reproduce, and what moves with other inputs?"""
    from curtilage import store
    from curtilage.design import Design
    from curtilage.design.compare import causes
    from curtilage.design.compare import compare as held_against
    from curtilage.design.record import Frozen, replayed
    from curtilage.report import compared, data

    content = store.record(Path(a.record))
    again = Design(store.recorded_estate(content, a.record))
    r = replayed(content, again)
    if not a.changes:
        say_json(data.replayed(r)) if a.json else say(compared.replayed(r, content))
        return 0 if r.reproduces else 1
    other = Design(store.recorded_estate(content, a.record, a.changes))
    c = held_against(again if r.reproduces else Frozen(content), other)
    sides = f"{compared.side(again)}, as frozen in {a.record}", f"the same with {', '.join(a.changes)}"
    if a.json:
        say_json(data.comparison(c, causes(again, other, c)[0], sides))
    else:
        say(compared.comparison(again, other, c, False, _paper(a), sides))
    return 0


def variants(a: Namespace) -> int:
    """The variants of an estate, a line each."""
    from curtilage import store

    found = store.variant_titles(a.estate)
    if a.json:
        say_json([{"name": n, "kind": k, "title": t} for n, k, t in found])
        return 0
    wide = max((len(n) for n, _, _ in found), default=0)
    for name, kind, title in found:
        say(f"{name:<{wide}}  {kind:<9}  {title}")
    return 0


def later(a: Namespace) -> int:
    """What limits first when a load is added."""
    from curtilage.design.later import later as on_the_way
    from curtilage.report import compared, data
    from curtilage.units import Unit

    d = designed(a.estate, a.variant, a.edition)
    found = on_the_way(d, a.panel, Unit("VA", "an apparent power", 0, 2e6).parse(a.add), a.continuous)
    say_json(data.later(found)) if a.json else say(compared.later(d, a.panel, a.add, found, _paper(a)))
    return 0


def edition_list(a: Namespace) -> int:
    """The editions that come with the package."""
    from curtilage.editions import Edition, editions

    for name in editions():
        say(f"{name:<8}  {Edition.load(name).title}")
    return 0


def edition_changes(a: Namespace) -> int:
    """What moved between two editions."""
    from curtilage.editions import Edition, changes
    from curtilage.report import compared

    found = changes(Edition.load(a.a), Edition.load(a.b))
    say_json([c._asdict() for c in found]) if a.json else say(compared.edition_changes(a.a, a.b, found, _paper(a)))
    return 0


def reference(a: Namespace) -> int:
    """Run files of published examples."""
    from curtilage.reference import command

    text, code = command([Path(p) for p in a.paths], a.json)
    say(text)
    return code


def schema(a: Namespace) -> int:
    """Print a JSON Schema."""
    from curtilage.report.schemas import schema as of

    say_json(of(a.name))
    return 0


def migrate(a: Namespace) -> int:
    """Bring an estate file up to the version of this package."""
    from curtilage import store

    kept = store.migrate_estate(a.estate)
    say(f"The estate is of this version now; the old file is kept as {kept}." if kept else "It is of this version already.")
    return 0
