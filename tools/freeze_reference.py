"""Write what is generated in reference_checks/: the lists of its README, and one executed notebook for each family.

    python tools/freeze_reference.py

It writes the same bytes again when nothing changed. The notebooks show printed / ours / difference; nbval replays them.
"""
from __future__ import annotations

from pathlib import Path
import re

from curtilage.reference import METHODS, Report, run
from curtilage.reference.example import Example
from curtilage.reference.listing import markdown
from curtilage.reference.report import count
import freeze_checks
import nbformat
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "reference_checks"
FAMILIES = {
    "A": "Load calculations", "B": "Ampacity and grounding conductors", "C": "Voltage drop", "D": "Fault currents",
    "E": "Raceways, boxes and pulls",
    "GND": "Electrodes in the earth",
    "I": "Motors, welders, elevators", "J": "Tables and their equations", "K": "The 2026 edition"}


def put(text: str, name: str, inside: str) -> str:
    """The text with what stands between its two marks replaced."""
    pattern = rf"(<!-- {name} -->\n).*?(<!-- end of {name} -->)"
    new, n = re.subn(pattern, lambda m: f"{m[1]}\n{inside}\n\n{m[2]}", text, flags=re.S)
    if n != 1:
        raise SystemExit(f"README.md: the marks of '{name}' are missing")
    return new


def overview(report: Report) -> str:
    """A row for each family: files, answers read in print and what became of them, and the rest."""
    heads = ("family", "", "files", "published answers", "agree", "by own path", "contradicts itself", "not reproduced",
             "second prints", "not read in print")
    rows = [heads, ("---",) * len(heads)]
    for family, title in FAMILIES.items():
        files = {e.file for e in report.examples if e.family == family}
        mine = Report((), tuple(r for r in report.rows if r.file in files), ())
        c = count(mine.published)
        rows.append((f"[{family}](family_{family}.ipynb)", title, str(len(files)), str(c.answers), str(c.agree), str(c.differ),
                     str(c.contradict), str(c.fail), str(len(mine.duplicates)), str(len(mine.unpublished))))
    return "\n".join(f"| {' | '.join(row)} |" for row in rows)


def readme(text: str, report: Report) -> str:
    return put(put(text, "methods", markdown(METHODS.values())), "overview", overview(report))


def notebook(family: str, examples: list[Example]) -> nbformat.NotebookNode:
    """The notebook of a family before it is run."""
    head = (f"# Family {family}: {FAMILIES[family]}\n\nPrinted by others, computed by this kit. "
            "The printed digits set the tolerance. Answers that were not read in print stand apart and are not counted as "
            "published checks.")
    cells = [new_markdown_cell(head),
             new_code_cell(f'from curtilage.reference import one, run, summary, working\n\nreport = run(["{family}"])')]
    for e in examples:
        cells.append(new_code_cell(f'print(one(report, "{e.id}"))'))
    first = next(((e.id, c.name, c.answers[0].name) for e in examples for c in e.cases for _ in c.answers[:1]), None)
    if first is not None:
        asked = ", ".join(f'"{x}"' for x in (first[0], first[2], *([first[1]] if first[1] else [])))
        cells += [new_markdown_cell("Every number of ours opens to its working:"),
                  new_code_cell(f"print(working(report, {asked}))")]
    cells += [new_markdown_cell("## Sum"),
              new_code_cell('print("\\n".join(summary(report)))\nassert not report.failed and not report.problems')]
    return new_notebook(cells=cells)


def main() -> None:
    report = run([FOLDER / family for family in FAMILIES])
    for problem in report.problems:
        print(problem)
    page = FOLDER / "README.md"
    page.write_text(readme(page.read_text(encoding="utf-8"), report), encoding="utf-8")
    for family in FAMILIES:
        examples = [e for e in report.examples if e.family == family]
        if not examples:
            continue
        path = FOLDER / f"family_{family}.ipynb"
        nbformat.write(notebook(family, examples), path)
        freeze_checks.freeze(path)
        print(f"frozen: {path.name}")


if __name__ == "__main__":
    main()
