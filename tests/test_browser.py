"""The notebooks in a real browser: an input moves and the answer follows, numbers open, errors are words, nothing leaves."""
from __future__ import annotations

from collections.abc import Callable, Iterator
import os
from pathlib import Path
import re
import shutil
import subprocess
import sys
from typing import Any

from conftest import free_port, wait_until_up
from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.notebook.cases import design
from curtilage.notebook.workings import Shown
from curtilage.report.content import num
from numerals import Ground, shown_as
import pytest

pytestmark = pytest.mark.browser
ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_estate"
LAST = "The working of every number on this page"
READ = """() => [...document.querySelectorAll('a.k-num')].map(a => ({
  text: a.textContent, tag: a.dataset.tag || '', edition: a.dataset.edition || '', without: a.dataset.without || '',
  given: a.dataset.given || '', svg: !!a.closest('svg'), place: decodeURIComponent(a.getAttribute('href').slice(1)),
  there: !!document.getElementById(decodeURIComponent(a.getAttribute('href').slice(1))),
}))"""


@pytest.fixture
def calm(page: Any) -> Iterator[Any]:
    """A page; the test fails if its console reports an error."""
    from playwright.sync_api import expect

    expect.set_options(timeout=30_000)
    errors: list[str] = []
    page.on("console", lambda m: errors.append(m.text) if m.type == "error" else None)
    page.on("pageerror", lambda e: errors.append(str(e)))
    yield page
    assert not errors, errors


def value(page: Any, tag: str) -> Any:
    """The large figure of a result."""
    return page.locator(f'.k-value a[data-tag="{tag}"]')


def opened(page: Any, url: str) -> Any:
    page.goto(url)
    page.get_by_role("heading", name=LAST).wait_for(timeout=120_000)
    return page


@pytest.fixture(scope="module")
def demand(serve: Callable[..., str]) -> str:
    return serve("02_demand", CURTILAGE_ESTATE=str(DEMO))


@pytest.fixture(scope="module")
def start(serve: Callable[..., str]) -> str:
    return serve("01_start", CURTILAGE_ESTATE=str(DEMO))


def test_moving_the_floor_area_moves_the_answer(demand: str, calm: Any) -> None:
    from playwright.sync_api import expect

    tag = "demand/MH/optional/amperes"
    answer = value(opened(calm, demand), tag)
    expect(answer).to_have_text(f"{Design(estate(DEMO)).number(tag).value:,.1f}")
    slider = calm.get_by_role("slider").first
    slider.focus()
    slider.press("ArrowRight")
    moved = Design(estate(DEMO, changes={"structures.MH.area": "9200 ft2"}))
    expect(answer).to_have_text(f"{moved.number(tag).value:,.1f}")
    expect(calm.locator(".n-tried")).to_contain_text("9200 ft2, stated 9,150")
    expect(calm.locator(".n-pinned")).to_contain_text("9200 ft²")
    expect(calm.locator(".n-trouble")).to_have_count(0)


def test_another_branch_another_edition_another_set_point(demand: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, f"{demand}/?branch=GH")
    tag = "demand/GH/optional/amperes"
    expect(value(calm, tag)).to_have_text(f"{Design(estate(DEMO)).number(tag).value:,.1f}")
    calm.locator("select").first.select_option(label="NFPA 70-2026")
    expect(value(calm, tag)).to_have_text(f"{Design(estate(DEMO, edition='nec2026')).number(tag).value:,.1f}")
    slider = calm.get_by_role("slider").nth(1)
    slider.focus()
    slider.press("ArrowLeft")
    held = Design(estate(DEMO, edition="nec2026", changes={"managers.EMS-2.set_point": "35 A"}))
    expect(value(calm, tag)).to_have_text(f"{held.number(tag).value:,.1f}")


def test_a_number_opens_to_its_working_and_the_working_leads_on(demand: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, f"{demand}/?branch=service")
    value(calm, "demand/service/sum/amperes").click()
    place = calm.locator("[id='w/demand/service/sum/amperes']")
    expect(place).to_be_in_viewport()
    expect(place.get_by_text("sum of").first).to_be_visible()
    place.locator("a", has_text="demand/M2/other/total").first.click()
    expect(calm.locator("[id='w/demand/M2/other/total']").get_by_text(re.compile(r"loads\.csv:\d+")).first).to_be_visible()
    calm.go_back()
    calm.go_back()
    expect(value(calm, "demand/service/sum/amperes")).to_be_in_viewport()


def test_what_is_open_stays_open_while_inputs_move(demand: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, demand)
    value(calm, "demand/MH/optional/amperes").click()
    working = calm.locator("[id='w/demand/MH/optional/amperes']")
    expect(working.get_by_text("9150 ft²").first).to_be_visible()
    slider = calm.get_by_role("slider").first
    slider.focus()
    slider.press("ArrowRight")
    moved = Design(estate(DEMO, changes={"structures.MH.area": "9200 ft2"}))
    tag = "demand/MH/optional/amperes"
    expect(value(calm, tag)).to_have_text(f"{moved.number(tag).value:,.1f}")
    working.scroll_into_view_if_needed()          # what is out of sight is filled in when it comes into sight
    expect(working.get_by_text("9200 ft²").first).to_be_visible()


@pytest.fixture(scope="module")
def feeder(serve: Callable[..., str]) -> str:
    return serve("04_feeders", CURTILAGE_ESTATE=str(DEMO))


@pytest.fixture(scope="module")
def service(serve: Callable[..., str]) -> str:
    return serve("03_service_entrance", CURTILAGE_ESTATE=str(DEMO))


@pytest.fixture(scope="module")
def raceway(serve: Callable[..., str]) -> str:
    return serve("09_raceways_and_temporary_power", CURTILAGE_ESTATE=str(DEMO))


def test_a_longer_feeder_drops_more_and_lets_less_fault_current_through(feeder: str, calm: Any) -> None:
    """The feeder to the gatehouse is 1,240 ft; ten feet more. What moved leads to its new working, the rest to the old one."""
    from playwright.sync_api import expect

    opened(calm, f"{feeder}/?feeder=EG")
    slider = calm.get_by_role("slider").first
    slider.focus()
    slider.press("ArrowRight")
    moved = Design(estate(DEMO, changes={"feeders.EG.length": "1250 ft"}))
    for tag in ("feeder/EG/drop", "clearing/EG/fault", "fault/EG-1/largest"):
        expect(value(calm, tag)).to_have_text(num(moved, tag).shown)
    value(calm, "feeder/EG/drop").click()
    place = calm.locator("[id='w/now/feeder/EG/drop']")
    expect(place.get_by_text("1250 ft").first).to_be_visible()
    place.locator("a", has_text="demand/EG/other/total").first.click()
    expect(calm.locator("[id='w/demand/EG/other/total']").get_by_text(re.compile(r"loads\.csv:\d+")).first).to_be_visible()


def test_a_smaller_transformer_brings_less_fault_current(service: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, service)
    calm.locator("select").nth(1).select_option(label="167 kVA")
    moved = Design(estate(DEMO, changes={"service.transformer.rating": "167 kVA"}))
    tag = "fault/MSB/largest"
    expect(value(calm, tag)).to_have_text(num(moved, tag).shown)
    calm.get_by_role("button", name="What would this letter change?").click()
    expect(calm.get_by_role("heading", name="What the letter would change")).to_be_visible()


def test_a_larger_raceway_is_less_full(raceway: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, f"{raceway}/?raceway=R-GH&trench=t6")
    calm.locator("select").nth(1).select_option(label="4")
    moved = Design(estate(DEMO, changes={"raceways.R-GH.size": "4"}))
    expect(value(calm, "raceway/R-GH/fill")).to_have_text(num(moved, "raceway/R-GH/fill").shown)
    expect(calm.get_by_role("heading", name="The trench, cut across, as stated")).to_be_visible()


@pytest.mark.parametrize("book", ["feeder", "service", "raceway"])
@pytest.mark.parametrize("width", [390, 1280])
def test_no_page_is_wider_than_its_window(book: str, width: int, calm: Any, request: pytest.FixtureRequest) -> None:
    calm.set_viewport_size({"width": width, "height": 900})
    opened(calm, request.getfixturevalue(book))
    assert calm.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("book", ["feeder", "service", "raceway"])
def test_every_number_of_what_is_built_is_there(book: str, calm: Any, request: pytest.FixtureRequest) -> None:
    opened(calm, request.getfixturevalue(book))
    d = design({"estate": str(DEMO)})
    numbers, ground = calm.evaluate(READ), Ground(d, {})
    assert len(numbers) > 100
    for n in numbers:
        s = Shown(n["tag"], n["edition"], n["without"], n["given"])
        assert n["there"] and n["place"] == s.place, f"{n['text']} leads to {n['place']}, which is not on the page"
        ground.check(s)


SHOWN = [("start", ""), ("start", "variant=as_found"), ("demand", ""), ("demand", "branch=M2")]


@pytest.mark.parametrize(("book", "more"), SHOWN)
def test_every_number_that_is_rendered_opens_and_stands_on_inputs_tables_and_rules(
        book: str, more: str, calm: Any, request: pytest.FixtureRequest) -> None:
    opened(calm, f"{request.getfixturevalue(book)}/?{more}")
    case = {"estate": str(DEMO)} | dict([more.split("=")] if more else [])
    d = design(case)
    beside = {e: design({**case, "edition": e}) for e in ("nec2020", "nec2023", "nec2026")}
    numbers, ground = calm.evaluate(READ), Ground(d, beside)
    assert len(numbers) > 50
    for n in numbers:
        s = Shown(n["tag"], n["edition"], n["without"], n["given"])
        assert n["there"] and n["place"] == s.place, f"{n['text']} leads to {n['place']}, which is not on the page"
        ground.check(s)
        if not n["svg"]:
            assert n["text"] in shown_as(s, d, beside), f"{s} is shown as {n['text']}"


def test_variant_and_estate_are_picked_on_the_opening_page(start: str, calm: Any, tmp_path: Path) -> None:
    from playwright.sync_api import expect

    opened(calm, f"{start}/?variant=P05")
    expect(calm.locator(".k-estate")).to_contain_text("P05")
    own = Path(shutil.copytree(DEMO, tmp_path / "own"))
    file = own / "estate.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("name: Larkspur Bench", "name: Quince Hollow", 1), encoding="utf-8")
    box = calm.locator("input[type=text]").first
    box.fill(str(own))
    box.press("Enter")
    expect(calm.locator(".k-estate")).to_contain_text("Quince Hollow")


def test_an_error_is_words_with_their_place_and_can_be_left(start: str, calm: Any, tmp_path: Path) -> None:
    from playwright.sync_api import expect

    bad = Path(shutil.copytree(DEMO, tmp_path / "bad"))
    file = bad / "estate.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("9150 ft2 ", "9150 yd2 ", 1), encoding="utf-8")
    calm.goto(f"{start}/?estate={bad}")
    expect(calm.locator(".n-trouble")).to_contain_text("structures.MH.area")
    expect(calm.locator(".n-trouble")).to_contain_text(re.compile(r"estate\.yaml:\d+"))
    assert "Traceback" not in calm.content()
    box = calm.locator("input[type=text]").first
    box.fill(str(DEMO))
    box.press("Enter")
    expect(calm.locator(".k-estate")).to_contain_text("Larkspur Bench")


def test_a_starter_estate_is_made_from_the_page(start: str, calm: Any, tmp_path: Path) -> None:
    from playwright.sync_api import expect

    opened(calm, start)
    box = calm.get_by_placeholder("my_estate")
    box.fill(str(tmp_path / "mine"))
    box.press("Enter")
    calm.get_by_role("button", name="Write a small starter estate").click()
    expect(calm.get_by_text("A starter estate stands in")).to_be_visible()
    assert (tmp_path / "mine" / "estate.yaml").is_file()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """All notebooks on one address, as `make notebooks` serves them."""
    port, log = free_port(), tmp_path_factory.mktemp("served") / "log"
    url = f"http://127.0.0.1:{port}"
    with log.open("wb") as f:
        command = [sys.executable, "-m", "marimo", "-q", "run", str(ROOT / "notebooks"), "--headless", "--no-token",
                   "--host", "127.0.0.1", "--port", str(port)]
        server = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=f, stderr=subprocess.STDOUT,
                                  env={**os.environ, "CURTILAGE_ESTATE": str(DEMO)})
    wait_until_up(server, url, log)
    yield url
    server.terminate()
    server.wait(10)


def test_notebooks_lead_to_each_other_on_the_same_case(folder: str, calm: Any) -> None:
    from playwright.sync_api import expect

    opened(calm, f"{folder}/?file=01_start.py&variant=R15&edition=nec2020")
    calm.get_by_role("link", name="How large is the load, and which method says so?").click()
    calm.get_by_role("heading", name=LAST).wait_for()
    expect(calm.get_by_role("heading", name="How large is the load, and which method says so?")).to_be_visible()
    expect(calm.locator(".k-estate")).to_contain_text("R15")
    expect(calm.locator(".k-basis")).to_contain_text("2020")
