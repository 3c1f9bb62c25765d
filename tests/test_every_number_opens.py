"""Every result that is shown, on the terminal and in the report, opens to a working that ends in inputs, tables and rules."""

from __future__ import annotations

from functools import cache
from html.parser import HTMLParser
import re
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.without import told_named
from curtilage.report import html, text
from curtilage.values.told import Told, walk
import pytest

ESTATE = "demo_estate"
VARIANTS = ("base", "as_found", "R15")


@cache
def design(variant: str) -> Design:
    return Design(estate(ESTATE, [variant]))


def leaves(x: Told) -> list[Told]:
    return [n for n in walk(x) if not n.inputs and not n.because]


def is_grounded(n: Told) -> bool:
    """An input with its place in a file, a cell or rule with its clause, or a line that only names a constant of a method."""
    if n.how == "given":
        return bool(re.search(r"\.(yaml|csv|xlsx)(:\d+)?", n.where))
    if n.how == "rule":
        return bool(n.cite.where) or n.note.startswith("from ")
    return n.how in ("line", "test")


VOID = {"meta", "br", "img", "link", "hr", "input", "path", "rect", "use", "circle", "line"}


class Page(HTMLParser):
    """Numerals of results: figures and cells of numbers, with the tag of the link that they are, and every anchor."""

    def __init__(self) -> None:
        super().__init__()
        self.stack: list[tuple[str, dict[str, str | None]]] = []
        self.results: list[tuple[str, str, str]] = []  # text, tag, target
        self.bare: list[str] = []
        self.ids: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        a = dict(attrs)
        if a.get("id"):
            self.ids.add(str(a["id"]))
        if tag not in VOID:
            if tag in ("td", "th", "tr") and any(t == tag for t, _ in self.stack[-3:]):
                self.handle_endtag(tag)
            self.stack.append((tag, a))

    def handle_endtag(self, tag: str) -> None:
        while self.stack and any(t == tag for t, _ in self.stack):
            if self.stack.pop()[0] == tag:
                break

    def handle_data(self, data: str) -> None:
        if not re.search(r"\d", data):
            return
        for tag, a in reversed(self.stack):
            if a.get("data-tag"):
                self.results.append((data, str(a["data-tag"]), str(a.get("href") or "")))
                return
            if tag in ("details", "svg", "thead"):
                return
        classes = {c for _, a in self.stack for c in str(a.get("class")).split()}
        if classes & {"k-value", "num"}:
            self.bare.append(data)


@cache
def page(variant: str) -> Page:
    p = Page()
    d = design(variant)
    p.feed(html.report(d, d.snapshot, "2026-11-24"))
    return p


@pytest.mark.parametrize("variant", VARIANTS)
def test_every_number_of_a_design_stands_on_inputs_tables_and_rules(variant: str) -> None:
    d = design(variant)
    for tag in d.tags():
        for n in leaves(d.told(tag)):
            assert is_grounded(n), f"{tag} rests on {n.symbol} = {n.value} ({n.how}, {n.place}, {n.where or n.cite})"


@pytest.mark.parametrize("variant", VARIANTS)
def test_told_numbers_are_the_numbers(variant: str) -> None:
    d = design(variant)
    for tag in d.tags():
        told: Any = d.told(tag)
        assert told.value == d.number(tag).value, tag


@pytest.mark.parametrize("variant", VARIANTS)
def test_numerals_of_the_report_are_links_into_their_working(variant: str) -> None:
    d, p = design(variant), page(variant)
    assert len(p.results) > 400
    inputs = {f"{f.length:,.0f}" for f in d.estate.feeders if f.length} | {c.number for c in d.checks}
    found = [x for x in p.bare if x.strip() not in inputs]
    assert not found, f"figures without a working, neither a stated length nor the number of a check: {found[:5]}"
    for shown, tag, target in p.results:
        if tag.startswith("without/"):
            assert all(is_grounded(n) for n in leaves(told_named(d, tag))), tag
        else:
            assert d.has(tag), f"{shown} names {tag}, which is no number of the design"
        assert target.startswith("#") and target[1:] in p.ids, f"{shown} ({tag}) leads to {target}, which is not on the page"


@pytest.mark.parametrize("variant", VARIANTS)
def test_tags_on_the_terminal_open(variant: str) -> None:
    d = design(variant)
    said = text.result(d)
    kinds = "|".join(sorted({key.split("/")[0] for key in d.items}))
    tags = set(re.findall(rf"(?:^|\s)((?:{kinds})/[A-Za-z0-9_/+.-]+)", said, re.M))
    assert len(tags) > 60
    for tag in tags:
        assert d.has(tag) or any(t.startswith(tag) for t in d.tags()), tag
