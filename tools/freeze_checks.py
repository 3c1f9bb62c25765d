"""Run the notebooks of published examples anew and keep their outputs, so that nbval can replay them exactly.

    python tools/freeze_checks.py [reference_checks/FAMILY.ipynb ...]        # all of them without a name

What differs from machine to machine is left out: time stamps, the Python's patch version, warnings on stderr.
"""
from __future__ import annotations

from pathlib import Path
import sys

from nbclient import NotebookClient
import nbformat

ROOT = Path(__file__).resolve().parent.parent
METADATA = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"},
            "language_info": {"name": "python"}}


def freeze(path: Path) -> None:
    book = nbformat.read(path, as_version=4)
    book.metadata = nbformat.from_dict(METADATA)
    where = {"metadata": {"path": str(path.parent)}}
    NotebookClient(book, timeout=120, kernel_name="python3", record_timing=False, resources=where).execute()
    book.metadata = nbformat.from_dict(METADATA)
    for i, cell in enumerate(book.cells):
        cell.metadata, cell.id = {}, f"cell-{i}"
        if cell.cell_type == "code":
            cell.outputs = joined([o for o in cell.outputs if o.output_type != "stream" or o.name == "stdout"])
    nbformat.validate(book)
    nbformat.write(book, path)


def joined(outputs: list[nbformat.NotebookNode]) -> list[nbformat.NotebookNode]:
    """One stream for what a cell printed: how the kernel cuts it up depends on the load of the machine."""
    kept: list[nbformat.NotebookNode] = []
    for o in outputs:
        if kept and o.output_type == kept[-1].output_type == "stream":
            kept[-1].text += o.text
        else:
            kept.append(o)
    return kept


def main() -> None:
    named = [Path(a).resolve() for a in sys.argv[1:]]
    for path in named or sorted((ROOT / "reference_checks").rglob("*.ipynb")):
        freeze(path)
        print(f"frozen: {path.name}")


if __name__ == "__main__":
    main()
