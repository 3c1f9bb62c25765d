"""What has to be written on the equipment of the service: where, in which words, with which numbers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from curtilage.report.content import Column, Line, Table, branch_title, maybe

if TYPE_CHECKING:
    from curtilage.design import Design


def labels(d: Design) -> Table:
    """The label sheet, equipment by equipment."""
    lines = [*_gear(d), *_mains(d), *_supplies(d), *_held(d), *_series(d)]
    columns = (Column("at", keep=True), Column("says"), Column("number", True), Column("unit"), Column("clause"))
    note = ("Clauses from memory; the words are ours unless in quotation marks. The authority and the utility may ask for more, "
            "for other words, for a size of letters and a material that lasts.")
    return Table("Labels", columns, tuple(lines), note)


def _gear(d: Design) -> Iterator[Line]:
    g, day = d.estate.service.gear, d.estate.prepared.date
    n = maybe(d, f"fault/{g.id}/largest")
    when = f", calculated {day:%Y-%m-%d}" if day else ", with the day of the calculation"
    house = "; dwellings need no such marking, it is kept on file" if d.tree.dwellings else ""
    yield Line((g.id, f"available fault current{when}{house}", n, "A" if n else "", "110.24(A)"))
    yield Line((g.id, "suitable for use as service equipment, marked by its maker", "", "", "230.66"))
    if g.emergency_disconnect:
        yield Line((g.id, 'in red: "EMERGENCY DISCONNECT, SERVICE DISCONNECT"', "", "", "230.85(E)"))
    many = len(d.estate.service.mains)
    if many > 1:
        yield Line((g.id, f"{many} service disconnects, grouped here, open all of them", "", "", "230.72(A)"))


def _mains(d: Design) -> Iterator[Line]:
    for i, m in enumerate(d.estate.service.mains, 1):
        feeds = branch_title(d, m.id).partition(": ")[2] or "what it feeds"
        n = maybe(d, f"main/{m.id}/rating")
        said = f"service disconnect {i} of {len(d.estate.service.mains)}: {feeds}"
        yield Line((m.id, said, n, "A" if n else "", "110.22(A), 230.70(B)"))


def _supplies(d: Design) -> Iterator[Line]:
    s, gear = d.estate.sources, d.estate.service.gear.id
    if s is None:
        return
    names = {x.id: x.name for x in d.estate.structures}
    where = [f"{x.id} at {names.get(x.structure, x.structure)}" for some in (s.generators, s.storage, s.solar) for x in some]
    if where:
        yield Line((gear, f"directory of other supplies: {', '.join(where)}", "", "", "702.7(A), 705.10, 706.11"))
    for f in d.estate.feeders:
        others = [a.from_ for a in s.alternates if a.to == f.to]
        if others:
            yield Line((f.to, f"two supplies: feeder {f.id} and {', '.join(others)}; open both", "", "", "225.37"))


def _held(d: Design) -> Iterator[Line]:
    for m in d.estate.managers:
        said = f"held to {m.set_point:g} A by {m.id}; no other setting without a new calculation"
        yield Line((m.at, said, "", "", "750.30(C)"))


def _series(d: Design) -> Iterator[Line]:
    for p in d.estate.panels:
        if p.series_rated:
            yield Line((p.id, "series combination: replace devices by the same types only", "", "", "110.22(B), (C)"))
