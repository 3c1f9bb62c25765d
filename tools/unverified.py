"""List what the editions and tables state that two readings have not confirmed: rules by status, cells by table.

    python tools/unverified.py [EDITION]           # all editions without a name
"""
from __future__ import annotations

import sys

from curtilage.editions import Edition, editions
from curtilage.errors import CurtilageError
from curtilage.tables import Table, names


def rules(edition: str) -> None:
    ed = Edition.load(edition)
    found = [ed.rule(name) for name in ed.rules()]
    weak = [r for r in found if r.status not in ("", "verified")]
    print(f"{ed.title}: {len(found)} rules; not verified: {len(weak)}")
    for r in sorted(weak, key=lambda r: (r.status, r.name)):
        print(f"  {r.status:<16} {r.name:<34} {r.where}")


def cells() -> None:
    print("Tables: cells by status")
    for name in names():
        table = Table.load(name)
        count = table.counts()
        weak = {status: n for status, n in count.items() if status != "verified"}
        if weak:
            listed = ", ".join(f"{n} {status}" for status, n in sorted(weak.items()))
            print(f"  {name:<34} {listed}; {count['verified']} verified")


def main() -> int:
    try:
        for edition in sys.argv[1:] or editions():
            rules(edition)
            print()
        cells()
    except CurtilageError as e:
        print(e)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
