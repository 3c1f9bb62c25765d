"""The notebooks without a browser: replaced inputs, as a program, exported to Jupyter; and what they call."""
from __future__ import annotations

import importlib.util
import os
from pathlib import Path
import re
import shutil
import subprocess
import sys
from typing import Any

from curtilage import notebook as nb
from curtilage.design import Design
from curtilage.design.opening import estate
from curtilage.design.without import matter_most, told_added
from curtilage.errors import CurtilageError, Problems
from curtilage.notebook import cases, compared, demand, frame, inputs, links, start
from curtilage.notebook.workings import Shown, behind, link, shown_in
import notebook_look
from numerals import Ground, bare
import pytest

ROOT = Path(__file__).resolve().parent.parent
DEMO = str(ROOT / "demo_estate")
BOOKS = sorted((ROOT / "notebooks").glob("[0-9]*.py"))
BRANCHES = ("MH", "GH", "CG", "M1", "M2", "service")


def app(name: str) -> Any:
    """The marimo app of a notebook."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "notebooks" / f"{name}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.app


@pytest.fixture(autouse=True)
def _quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    """No variable of the machine and no word of pytest's command line names an estate."""
    monkeypatch.delenv("CURTILAGE_ESTATE", raising=False)
    monkeypatch.setattr(sys, "argv", ["pytest"])


@pytest.fixture(scope="module")
def d() -> Design:
    return nb.design({"estate": DEMO})


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """The demonstration estate in a folder of its own."""
    return Path(shutil.copytree(DEMO, tmp_path / "estate"))


# ---------------------------------------------------------------------------------------------------------- whole notebooks
@pytest.mark.parametrize(("branch", "edition", "tried"), [
    ("MH", "", {}), ("MH", "nec2026", {"structures.MH.area": "11000 ft2"}),
    ("GH", "nec2020", {"managers.EMS-2.set_point": "20 A"}),
])
def test_the_demand_notebook_shows_the_numbers_of_the_design(branch: str, edition: str, tried: dict[str, str]) -> None:
    case = {"estate": DEMO, "variant": "base", "edition": edition, "branch": branch, "set": tried}
    _, defs = app("02_demand").run(defs={"case": case})
    apart = Design(estate(DEMO, (), edition or None, tried))
    for method in ("standard", "optional"):
        tag = f"demand/{branch}/{method}/amperes"
        assert f'data-tag="{tag}" href="#w/{tag}">{apart.number(tag).value:,.1f}</a>' in defs["answer"].text
    minimum = apart.number(f"{apart.chosen[branch]}/minimum_amperes").value
    assert f">{minimum:,.1f}</a>" in defs["answer"].text


@pytest.mark.parametrize("branch", BRANCHES)
def test_the_demand_notebook_runs_on_every_kind_of_branch(branch: str) -> None:
    _, defs = app("02_demand").run(defs={"case": {"estate": DEMO, "branch": branch, "variant": "as_found"}})
    assert 'class="k-value"' in defs["answer"].text
    assert "k-table" in defs["ways"].text


@pytest.mark.parametrize("variant", ["base", "as_found", "R15", "P05"])
def test_the_opening_notebook_shows_every_structure_and_feeder(variant: str) -> None:
    _, defs = app("01_start").run(defs={"case": {"estate": DEMO, "variant": variant}})
    found = Design(estate(DEMO, (variant,)))
    for f in found.estate.feeders:
        assert f">{f.id}</th>" in defs["power"].text
    for s in found.estate.structures:
        assert s.name in defs["structures"].text
    for stop in found.stops:
        assert stop.number in defs["person"].text
    loud = sum(c.outcome in ("fails", "not evaluated", "needs judgement") for c in found.checks)
    assert defs["person"].text.count("<tr class=\"is-") == loud


def test_an_error_is_raised_when_nobody_looks_at_a_page() -> None:
    with pytest.raises(CurtilageError, match="yd2"):
        app("02_demand").run(defs={"case": {"estate": DEMO, "branch": "GH", "set": {"structures.GH.area": "2000 yd2"}}})


@pytest.mark.parametrize("path", BOOKS, ids=lambda p: p.stem)
def test_as_a_program(path: Path, tmp_path: Path) -> None:
    ok = subprocess.run([sys.executable, path], cwd=tmp_path, capture_output=True, text=True)
    assert (ok.returncode, ok.stdout, ok.stderr) == (0, "", "")
    bad = subprocess.run([sys.executable, path], cwd=tmp_path, capture_output=True, text=True,
                         env={**os.environ, "CURTILAGE_ESTATE": str(tmp_path / "none")})
    assert bad.returncode == 1 and "Traceback" not in bad.stderr and "none" in bad.stderr


@pytest.mark.slow
@pytest.mark.parametrize(("name", "tag"), [("02_demand", "demand/MH/optional/amperes"), ("01_start", "feeder/GP/drop")])
def test_exported_to_jupyter_it_gives_the_same_numbers(name: str, tag: str, tmp_path: Path) -> None:
    import nbclient
    import nbformat

    out = tmp_path / f"{name}.ipynb"
    command = [sys.executable, "-m", "marimo", "export", "ipynb", str(ROOT / "notebooks" / f"{name}.py"), "-o", str(out),
               "--sort", "topological", "-f"]
    subprocess.run(command, check=True, capture_output=True)
    book = nbformat.read(out, as_version=4)
    book.cells.append(nbformat.v4.new_code_cell(f"print(repr(d.number({tag!r}).value))"))
    env = {"CURTILAGE_ESTATE": DEMO}
    os.environ |= env
    nbclient.NotebookClient(book, timeout=300, kernel_name="python3", resources={"metadata": {"path": str(tmp_path)}}).execute()
    printed = book.cells[-1].outputs[0]["text"].strip()
    assert printed == repr(Design(estate(DEMO)).number(tag).value)
    shown = "".join(o["data"].get("text/html", "") for c in book.cells if c.cell_type == "code" for o in c.outputs if "data" in o)
    assert f'data-tag="{tag}"' in shown and "<style>" in shown, "pages carry their look with them"
    assert f'id="w/{tag}"' in shown, "a number opens in Jupyter, too"


def test_what_stands_beside_them_is_that_of_the_package() -> None:
    for path, made in notebook_look.files().items():
        assert path.read_text(encoding="utf-8") == made, "run python tools/notebook_look.py"
        assert not re.search(r"@import|url\(|https?:|src=", made), "a page asks for nothing outside"


# ------------------------------------------------------------------------------------------------------------------- cases
def test_a_case_is_designed_once_until_a_file_changes(copy: Path) -> None:
    case = {"estate": str(copy), "set": {"structures.GH.area": "1500 ft2"}}
    first = nb.design(case)
    assert nb.design(dict(case)) is first
    file = copy / "loads.csv"
    file.write_text(file.read_text(encoding="utf-8") + "\n", encoding="utf-8")
    assert nb.design(case) is not first


def test_a_case_is_the_estate_with_variant_edition_and_values() -> None:
    case = {"estate": DEMO, "variant": "R15", "edition": "nec2020", "set": {"structures.MH.area": "9000 ft2"}}
    assert nb.design(case).values() == Design(estate(DEMO, ("R15",), "nec2020", {"structures.MH.area": "9000 ft2"})).values()


def test_the_usual_estate(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(cases, "_likely", lambda: iter([tmp_path]))
    assert cases.usual_estate() == ""
    with pytest.raises(Problems, match="CURTILAGE_ESTATE"):
        nb.default_estate()
    monkeypatch.setenv("CURTILAGE_ESTATE", DEMO)
    assert nb.default_estate() == DEMO


def test_variants_and_editions() -> None:
    found = nb.variants(DEMO)
    assert next(iter(found)) == "base" and "as_found" in found.values() and len(found) > 40
    assert list(nb.editions().values()) == ["nec2020", "nec2023", "nec2026"]
    assert nb.variants("/nowhere") == {"base": "base"}


# ------------------------------------------------------------------------------------------------------------------ inputs
def test_inputs_change_only_what_is_not_as_stated(d: Design) -> None:
    area = next(s.area for s in d.estate.structures if s.id == "MH")
    assert area is not None
    assert inputs.changes(d, "MH", area, "", 0) == {}
    assert inputs.changes(d, "MH", area + 50, "standard", 0) == {
        "structures.MH.area": f"{area + 50:g} ft2", "structures.MH.method": "standard"}
    assert inputs.changes(d, "CG", 0, "", 60) == {"managers.EMS-1.set_point": "60 A"}
    assert inputs.changes(d, "SY", 5, "standard", 5) == {}, "no dwelling, no vehicle: nothing of it can be moved"


def test_a_vehicle_without_a_manager_is_moved_by_its_output(d: Design) -> None:
    free = Design(d.estate.with_({"loads.L113.manager": ""}, remove=["managers.EMS-2"]))
    changes = inputs.changes(free, "GH", 1450, "", 32)
    assert changes == {"loads.L113.amperes": "32 A", "loads.L113.unit_va": "7680 VA", "loads.L113.va": "7680 VA"}
    assert Design(free.estate.with_(changes)).estate.loads != free.estate.loads


def test_inputs_stand_at_what_the_estate_states(d: Design) -> None:
    assert inputs.area_input(d, "MH").value == 9150
    assert inputs.vehicle_input(d, "CG").value == 100
    assert inputs.method_input(d, "MH").value == ""
    assert inputs.branch_input(d).value == "MH"
    assert inputs.variant_input(DEMO).value == "base"
    assert set(inputs.branches(d).values()) >= set(BRANCHES)


def test_what_is_tried_is_said_and_can_be_kept(copy: Path) -> None:
    case = {"estate": str(copy), "branch": "MH", "set": {"structures.MH.area": "9300 ft2"}}
    assert inputs.note({**case, "set": {}}) == ""
    assert "9300 ft2, stated 9,150" in inputs.note(case)
    assert "W1" in inputs.keep(case, "W1").text
    assert Design(estate(copy, ("W1",))).values() == nb.design(case).values()
    with pytest.raises(CurtilageError):
        inputs.keep(case, "W1")


def test_a_new_estate_is_written_and_opens(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    assert str(folder) in start.create(str(folder)).text
    assert nb.design({"estate": str(folder)}).checks
    with pytest.raises(CurtilageError, match="not empty"):
        start.create(str(folder))
    assert "does not exist" in start.create("  ").text


# ----------------------------------------------------------------------------------------------------------- errors, links
def test_an_error_in_words_says_everything_and_escapes_it(copy: Path) -> None:
    file = copy / "estate.yaml"
    text = file.read_text(encoding="utf-8").replace("9150 ft2 ", "'<b>9150 yd2' ", 1)
    file.write_text(text.replace("edition: nec2023", "edition: nec2032"), encoding="utf-8")
    with pytest.raises(CurtilageError) as e:
        nb.design({"estate": str(copy)})
    said = nb.trouble(e.value)
    assert "2 things are in the way" in said and "estate.yaml:10" in said and "nec2020, nec2023 or nec2026" in said
    assert "<b>9150" not in said and "&lt;b&gt;9150" in said
    assert "<p>odd</p>" in nb.trouble(CurtilageError("odd"))


def test_links_between_notebooks_take_the_case_along() -> None:
    assert links.books(ROOT / "notebooks")["02_demand"] == "How large is the load, and which method says so?"
    query = links.address("02_demand", {"estate": "/a b", "variant": "R01", "edition": "", "set": {"x": "1 ft"}})
    assert query == "file=02_demand.py&estate=%2Fa+b&variant=R01"


# ---------------------------------------------------------------------------------------------------------------- workings
def test_numbers_are_read_off_a_page(d: Design) -> None:
    page = link(Shown("feeder/GH/drop"), "2.5") + link(Shown("demand/GH/optional/total", edition="nec2026"), "1") + link(
        Shown("demand/GH/optional/total", without="L111"), "2") + link(Shown("", given="structures.GH.area"), "3")
    assert [s.place for s in shown_in(page, frame.show(page))] == [
        "w/feeder/GH/drop", "w/nec2026/demand/GH/optional/total", "w/without/L111/demand/GH/optional/total",
        "w/in/structures.GH.area"]


def test_what_a_number_rests_on_is_found_without_telling_it(d: Design) -> None:
    fresh = Design(d.estate)
    found = behind(fresh, ["feeder/GH/drop"])
    assert fresh._told == {}
    told = {x.place for x in Design(d.estate).told("feeder/GH/drop").inputs if x.how == "item"}
    assert told <= {t for tags in found.values() for t in tags}


Page = tuple[list[Any], Any, dict[str, Design]]                        # pieces, workings, designs of the editions beside


def start_page(case: dict[str, Any]) -> Page:
    _, defs = app("01_start").run(defs={"case": case})
    return [defs[n] for n in ("head", "person", "structures", "one_line", "power", "rests")], defs["folded"], {}


def demand_page(case: dict[str, Any]) -> Page:
    _, defs = app("02_demand").run(defs={"case": case})
    parts = ("head", "answer", "ways", "ranking", "review", "expected", "editions")
    return [defs[n] for n in parts], defs["folded"], defs["sides"].designs


CASES = [(start_page, {}), (start_page, {"variant": "as_found"}), *((demand_page, {"branch": b}) for b in BRANCHES),
         (demand_page, {"branch": "MH", "set": {"structures.MH.area": "9300 ft2"}})]


@pytest.mark.parametrize(("page", "more"), CASES)
def test_every_number_opens_and_stands_on_inputs_tables_and_rules(page: Any, more: dict[str, Any]) -> None:
    case = {"estate": DEMO, **more}
    pieces, folded, beside = page(case)
    d, found = nb.design(case), shown_in(*pieces)
    ground = Ground(d, beside)
    assert len(found) > 20
    for s in found:
        assert f'id="{s.place}"' in folded.text, f"{s} has no working on the page"
        ground.check(s)
    left = [x for p in pieces for x in bare(p.text)]
    assert not left, f"figures that do not open and are on no list: {left[:8]}"


# ------------------------------------------------------------------------------------------------------------------ demand
@pytest.mark.parametrize("branch", ["MH", "GH", "PP", "M2"])
def test_what_a_row_adds_is_the_difference_of_two_loads(branch: str, d: Design) -> None:
    """A second way: the estate itself without the row. Rows alone; groups and managers go by their members."""
    for t in matter_most(d, branch, 40):
        if any(r.id == t.id for r in d.estate.loads):
            less = Design(d.estate.with_({f"loads.{t.id}.status": "future"}))
            apart = d.number(f"{t.key}/total").value - less.number(f"{t.key}/total").value
            assert told_added(d, t.key, t.id).value == pytest.approx(t.marginal, abs=1e-9) == pytest.approx(apart, abs=1e-6)


def test_the_rows_of_the_service_are_those_of_its_mains(d: Design) -> None:
    found = matter_most(d, "service", 8)
    assert [t.marginal for t in found] == sorted((t.marginal for t in found), reverse=True)
    assert found[0] in (*matter_most(d, "M1", 1), *matter_most(d, "M2", 1))
    with pytest.raises(CurtilageError, match="no such row"):
        told_added(d, "demand/MH/optional", "L999")


def test_cautions_stand_where_they_bite(d: Design) -> None:
    assert "C30" in demand.answer(d, "MH")
    assert "C31" in demand.bites(d, "MH") and "C31" not in demand.bites(d, "PP")
    assert "C33" in demand.bites(d, "CG") and "C33" not in demand.bites(d, "WS")
    found = nb.design({"estate": DEMO, "variant": "as_found"})
    two = next(m for m in found.tree.mains if f"demand/{m}/two" in found.items)
    assert "C32" in demand.bites(found, two) and "028" in demand.review(found, two)


def test_two_readings_stand_beside_each_other(d: Design) -> None:
    o = d.items["demand/GH/optional"]
    assert o.judgement and o.inside != o.outside
    said = demand.answer(d, "GH")
    assert "needs judgement" in said
    assert f"inside the reduced part: {o.inside / d.volts:.0f} A; beside it: {o.outside / d.volts:.0f} A" in said
    assert "022" in demand.review(d, "GH")


def test_the_expected_peak_is_never_among_the_loads(d: Design) -> None:
    for branch in BRANCHES:
        assert "expected/" not in demand.answer(d, branch) + demand.lines(d, branch) + demand.picture(d, branch)
        assert "expected/kw" in demand.expected(d, branch)


def test_a_stop_withholds_its_number_on_the_page() -> None:
    base = estate(DEMO)
    stopped = Design(base.with_({"structures.PP.provisions": {"sleeping": True, "sanitation": True, "cooking": "permanent"}}))
    assert "demand/PP/other" in stopped.withheld
    said = demand.answer(stopped, "PP")
    assert "withheld by a stop" in said and "k-blank" in said
    number = f"{stopped.items['demand/PP/other'].amperes:,.1f}"
    assert number not in said + demand.lines(stopped, "PP") + demand.ranking(stopped, "PP")


# ---------------------------------------------------------------------------------------------------------------- editions
def test_editions_side_by_side_say_which_rule_moves_a_line() -> None:
    """The unit load of 120.41 (2026) is 2 VA/ft2 where 220.41 (2023) has 3; vehicle supply leaves the tiers in 120.82(D)."""
    sides = compared.sides({"estate": DEMO})
    table = compared.edition_table(sides, "GH")
    rows = {re.sub(r"<[^>]+>", "", r.partition("</th>")[0]): r for r in table.split("<tr") if 'scope="row"' in r}
    general = next(r for name, r in rows.items() if "general lighting" in name)
    assert "unit load: 3 VA/ft2, now 2 VA/ft2 (NFPA 70-2026 120.41" in general and "n-moved" in general
    assert "n-moved" not in next(r for name, r in rows.items() if "cooking" in name)
    apart = next(r for name, r in rows.items() if "beside the tiers" in name)
    assert "optional vehicles apart: no, now yes" in apart
    for name, d in sides.designs.items():
        total = d.number("demand/GH/standard/total").value
        assert f'data-edition="{name}" href="#w/{name}/demand/GH/standard/total">{total:,.0f}</a>' in table


def test_with_and_without_what_is_tried() -> None:
    case = {"estate": DEMO, "set": {"structures.GH.area": "2000 ft2"}}
    a, b = compared.sides(case, False), compared.sides(case, True)
    for name in a.designs:
        assert a.designs[name].number("demand/GH/standard/total").value < b.designs[name].number("demand/GH/standard/total").value
