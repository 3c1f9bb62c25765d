"""The report: one file that asks for nothing, reads without scripts, keeps the user's text as text, and is the same each time."""
from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path
import re
from typing import Any

from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.report import html, show
from curtilage.report.html import report
import pytest
from small_estate import small

BAD = '</title><script>alert(1)</script><img src=x onerror="alert(2)">'
MEGABYTE = 1_000_000


@cache
def design(*variants: str) -> Design:
    return Design(estate("demo_estate", variants))


@cache
def page_of(*variants: str) -> str:
    return report(design(*variants), "0123456789ab", "2026-11-24")


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("report") / "report.html"
    path.write_text(page_of(), encoding="utf-8")
    return Path(path).as_uri()


def test_it_asks_for_nothing_outside() -> None:
    text = re.sub(r'xmlns="http://www.w3.org/2000/svg"', "", page_of())
    assert not re.search(r"https?:|//[a-z]|url\(|@import|<link|<img|<iframe|<object|\bsrc=|\bfetch\(|XMLHttp", text)
    assert len(re.findall("<script", text)) == 1


def test_it_is_small_enough_to_send() -> None:
    assert len(page_of().encode()) < 10 * MEGABYTE


def test_the_same_design_gives_the_same_bytes() -> None:
    assert page_of() == report(Design(estate("demo_estate")), "0123456789ab", "2026-11-24")


@pytest.mark.parametrize("variants", [(), ("as_found",)])
def test_every_link_leads_somewhere_and_every_anchor_is_one(variants: tuple[str, ...]) -> None:
    text = page_of(*variants)
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids)), sorted({i for i in ids if ids.count(i) > 1})[:5]
    targets = set(re.findall(r'href="#([^"]+)"', text))
    assert targets <= set(ids), sorted(targets - set(ids))[:5]


def test_every_item_that_is_shown_or_rested_on_has_its_working_once() -> None:
    """All that is sized; of what is built from the sizes what the page links to, and what those workings link to."""
    text, d = page_of(), design()
    linked = {tag.rpartition("/")[0] for tag in re.findall(r'href="#w/([^"]+)"', text)}
    for key in d.items:
        found = text.count(f'id="i/{key}"')
        assert found == 1 or (found == 0 and key in d.late and key not in linked), key
    for tag in d.tags():
        assert text.count(f'id="w/{tag}"') == text.count(f'id="i/{tag.rpartition("/")[0]}"'), tag


def test_cautions_stand_where_they_bite() -> None:
    """Each in its own section; what stands on every export stands at the head or the foot."""
    text = page_of()
    sections = dict(re.findall(r'<section id="([\w-]+)".*?>(.*?)(?=<section id="[a-z]|</main>)', text, re.S))
    for section, refs in {"demand": "C30 C31 C37", "expected": "C41", "feeders": "C35 C36 C44", "voltage": "C34", "checks": "C61",
                          "results": "C42"}.items():
        assert all(f">{ref}<" in sections[section] for ref in refs.split()), section
    head, foot = text[: text.index('<section id="results"')], text[text.index("<footer") :]
    assert all(f">{ref}<" in head for ref in ("C01", "C02", "C03", "C04", "C07"))
    assert head.count("Not looked at by this version, so neither passed nor failed") == 1 and "gas meter" in head
    assert "0123456789ab" in head and "0123456789ab" in foot and "Demonstration data" in foot


def test_the_users_text_stays_text() -> None:
    e = small(('size: "4/0"', 'sets: 1, size: "4/0"'), ("name: Two houses", f"name: '{BAD}'"),
              ("name: Main house", f"name: '{BAD}'"), ("the cooperative", f"'{BAD}'"),
              ("one person uses one room at a time", f"'{BAD}'"))
    text = report(Design(e), BAD, BAD)
    assert "<img" not in text and "alert(1)</script>" not in text
    assert len(re.findall("<script", text)) == 1
    assert "&lt;script&gt;" in text


def test_an_estate_that_is_not_invented_has_no_mark_of_one() -> None:
    text = report(Design(small(('size: "4/0"', 'sets: 1, size: "4/0"'))), "x")
    assert "Demonstration data" not in text and ">C07<" not in text


def test_a_stop_is_at_the_head_and_its_numbers_are_empty() -> None:
    d = Design(estate("demo_estate"))
    vars(d)["withheld"] = frozenset({"feeder/GH", "main/M1"})
    text = report(d, "x")
    assert "is-small" in text and 'aria-label="withheld"' in text
    first = text[text.index('id="results"') : text.index('id="person"')]
    assert "withheld by a stop" in first and 'class="k-blank"' in first


def test_objects_show_themselves() -> None:
    d = design()
    for made in (show.design(d), show.checks(d.checks), show.told(d.told("feeder/GH/drop")), show.record(d.tell("feeder/GH"))):
        assert made._repr_html_() == str(made) and "<style>" in made and "k-table" in made
    import_module("curtilage.notebook")            # as the first cell of a notebook does
    drop = d.told("service/drop")
    assert (d._repr_html_(), drop._repr_html_()) == (str(show.design(d)), str(show.told(drop)))
    piece = html.fragment(d, "feeder/GH/drop")
    assert "<style" not in piece and 'id="w/feeder/GH/drop"' in piece
    assert html.fragment(d, "feeder/GH").count("<tr") > piece.count("<tr") - 1


# ------------------------------------------------------------------------------------------------------- in a browser
@pytest.mark.browser
@pytest.mark.parametrize("width", [390, 1280, 1600])
def test_no_sideways_scroll_and_no_complaint(page: Any, file: str, width: int) -> None:
    said: list[str] = []
    page.on("console", lambda m: said.append(m.text))
    page.on("pageerror", lambda e: said.append(str(e)))
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(file)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert not said


@pytest.mark.browser
def test_a_number_opens_its_working_without_scripts(browser: Any, file: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file)
    page.locator('#feeders a.k-num[data-tag="feeder/GH/drop"]').click()
    row = page.locator('[id="w/feeder/GH/drop"]')
    assert row.is_visible()
    assert "100" in row.inner_text() and "%" in row.inner_text()
    context.close()


@pytest.mark.browser
def test_the_keyboard_opens_a_number_and_a_working(page: Any, file: str) -> None:
    page.goto(file)
    page.locator('#results a.k-num').first.focus()
    page.keyboard.press("Enter")
    tag = page.locator('#results a.k-num').first.get_attribute("data-tag")
    assert page.locator(f'[id="w/{tag}"]').is_visible()
    summary = page.locator('[id="i/feeder/GH"] > summary')
    summary.focus()
    page.keyboard.press("Enter")
    assert page.locator('[id="i/feeder/GH"] table').is_visible()


@pytest.mark.browser
def test_no_text_of_a_drawing_meets_another(page: Any, file: str) -> None:
    """Measured as drawn, in the face that this machine has."""
    page.goto(file)
    clashes = page.evaluate("""() => [...document.querySelectorAll('#one-line svg.k-tree')].flatMap(svg => {
      const all = [...svg.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]);
      const meet = (p, q) => p.left < q.right - 1 && q.left < p.right - 1 && p.top < q.bottom - 3 && q.top < p.bottom - 3;
      return all.flatMap(([a, p], i) => all.slice(i + 1).filter(([b, q]) => meet(p, q)).map(([b]) => a + ' | ' + b)) })""")
    assert clashes == []


@pytest.mark.browser
def test_paper_is_the_same_page(page: Any, file: str, tmp_path: Path) -> None:
    """Printed in black on white, with the schedules open and the workings left in the file."""
    page.goto(file)
    page.emulate_media(media="print", color_scheme="dark")
    colours = page.evaluate("getComputedStyle(document.body).backgroundColor + getComputedStyle(document.body).color")
    assert colours == "rgb(255, 255, 255)rgb(0, 0, 0)"
    assert not page.locator('[id="i/feeder/GH"]').is_visible()
    assert page.locator("#circuits table").first.is_visible()
    assert len(page.pdf(prefer_css_page_size=True)) > 50_000
