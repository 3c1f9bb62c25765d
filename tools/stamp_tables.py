"""Write the hash of every changed table into its card: `python tools/stamp_tables.py [folder]`.

Run it after the changed cells were checked against the source that the card names. A changed table is refused until then.
"""
from __future__ import annotations

from pathlib import Path
import sys

from curtilage.tables import TABLES, stamp


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else TABLES
    changed = stamp(folder)
    for path, text in changed.items():
        Path(path).write_text(text, encoding="utf-8")
        print(f"stamped {Path(path).name}")
    if not changed:
        print("every card has the hash of its table")


if __name__ == "__main__":
    main()
