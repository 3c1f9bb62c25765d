"""Pictures of what is built from the sizes: fault currents down the path, one feeder in every size, the way to one panel."""
from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from curtilage.design.works import alone
from curtilage.draw import chain, voltage
from curtilage.draw import sizes as trade
from curtilage.draw.chain import Place
from curtilage.draw.sizes import Cell, Criterion
from curtilage.draw.svg import Text, Words
from curtilage.report import content as c
from curtilage.report import drawings
from curtilage.report.numbers import in_system, rounded, shown

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.design.sizes import Try


# --------------------------------------------------------------------------------------------------------- fault currents
def faults_svg(d: Design, colours: Mapping[str, str], along: Collection[str] = ()) -> str:
    """Every bus and panel in the order of the power path; those `along` one way are bold. Empty where nothing is known."""
    gear = d.estate.service.gear
    ratings = {p.id: p.interrupting for p in d.estate.panels}
    places = [("terminals", "transformer terminals", None, 0), (gear.id, f"{gear.id}, service gear", gear.interrupting, 0)]
    for name, depth in c.ordered(d):
        f = d.tree.branches[name].feeder if name in d.tree.branches else None
        if f is not None:
            places.append((f.to, f.to, ratings[f.to], depth))
    rows = [_place(d, name, words, rating, deep, name in along) for name, words, rating, deep in places
            if drawings.fault(d, name) is not None]
    return chain.chain(rows, f"Fault currents of {d.estate.name}", colours) if rows else ""


def _place(d: Design, name: str, words: str, rating: float | None, deep: int, heavy: bool) -> Place:
    n = drawings.fault(d, name)
    assert n is not None
    if not n.shown:
        return Place(words, None, rating and rating / 1000, "withheld by a stop", deep, heavy)
    ka = float(n.value) / 1000
    said: tuple[Text, ...] = (Text(f"{rounded(ka, 1)} kA", n.tag),)
    if rating:
        over = f": {rounded(ka - rating / 1000, 1)} over" if ka * 1000 > rating else ""
        said += (Text(f", rated {rating / 1000:g}{over}"),)
    elif name != "terminals":
        said += (Text(", no rating stated"),)
    return Place(words, ka, rating / 1000 if rating else None, said, deep, heavy)


# ------------------------------------------------------------------------------------------------------ one way in volts
def way_svg(d: Design, panel: str, colours: Mapping[str, str]) -> str:
    """Voltage from the transformer to the farthest outlet of one panel, beside the ways of the others."""
    if f"path/{panel}" not in d.items:
        return ""
    others = [w for w in drawings.voltage_ways(d) if w.stops[-2].name != panel]
    ways = [drawings.way_of(d, f"path/{panel}", True), *(w._replace(heavy=False) for w in others)]
    scale = voltage.Scale(c.unit_of(d, "ft"), in_system(1.0, "ft", d.estate.units)[0])
    return voltage.path(ways, drawings.advice(d), f"Voltage from the transformer to {panel}", colours, scale)


# --------------------------------------------------------------------------------------------------------- sizes of one run
def sizes_svg(d: Design, name: str, tries: Sequence[Try], colours: Mapping[str, str]) -> str:
    """One feeder in every size: what each size drops, lets through at its far end, fills and weighs."""
    laid = str(d.value(f"feeder/{name}/size"))
    words = [f"{t.size} {c.material(d, f'feeder/{name}')}" for t in tries]
    chosen = words[next(i for i, t in enumerate(tries) if t.size == laid)]
    columns = [k for k in criteria(d, name, tries) if any(cell.value is not None for cell in k.cells)]
    return trade.trade_off(words, chosen, columns, f"Feeder {name} in every size", colours)


def holds(d: Design, name: str) -> bool:
    """Whether a feeder holds its limits of load, protection, drop, terminals and clearing, as far as these are known."""
    r, ok = d.items[f"feeder/{name}"], (f"lug/{name}/ok", f"clearing/{name}/ok")
    return bool(r.carries_ok and r.protected and r.parallel_ok and r.drop_ok) and all(d.value(t) for t in ok if d.has(t))


def criteria(d: Design, name: str, tries: Sequence[Try]) -> list[Criterion]:
    """The columns of the picture. What a size has no number for has none in its row."""
    f = next(f for f in d.estate.feeders if f.id == name)
    key, most = f"feeder/{name}", d.asks[f"feeder/{name}"].record.drop_limit
    wanted = float(d.value(f"clearing/{name}/wanted")) if d.has(f"clearing/{name}/wanted") else None
    race = next((f"raceway/{p.id}" for p in alone.lying(d, name) if f"raceway/{p.id}" in d.items), "")
    share = float(d.value(f"{race}/share")) if race else None
    return [
        _column(d, tries, "drop, %", f"{key}/drop", most, f"at most {most:g}", lambda x, n: n > most),
        _column(d, tries, "ampacity, A", f"{key}/ampacity", None, "",
                lambda x, n: not (x.items[key].carries_ok and x.items[key].protected)),
        _column(d, tries, "far end to ground, A", f"fault/{f.to}/lg", wanted, f"at least {wanted or 0:,.0f}",
                lambda x, n: wanted is not None and n < wanted, decimals=0),
        _column(d, tries, "bending space, in", f"lug/{name}/space_least", None, "",
                lambda x, n: not x.items[f"lug/{name}"].ok),
        *([_column(d, tries, "fill, %", f"{race}/fill", share, f"at most {share or 0:g}",
                   lambda x, n: not x.items[race].fill_ok)] if share is not None else []),
        _column(d, tries, "metal, lb", f"mass/{name}/pounds", None, "", lambda x, n: False),
    ]


def _column(d: Design, tries: Sequence[Try], title: str, tag: str, limit: float | None, words: str,
            bad: Callable[[Any, float], bool], decimals: int | None = None) -> Criterion:
    """One number of every size; that of the design itself is a link to its working."""
    held, field = tag.rpartition("/")[0] in d.withheld, tag.rpartition("/")[2]
    cells = []
    for t in tries:
        if held or t.design is None or not t.design.has(tag):
            cells.append(Cell(None, "withheld" if held else "none"))
            continue
        n = t.design.number(tag)
        text = shown(n.value, n.unit, field) if decimals is None else rounded(float(n.value), decimals)
        said: Words = Text(text, tag) if t.design is d else text
        cells.append(Cell(float(n.value), said, bad(t.design, float(n.value))))
    return Criterion(title, limit, words, cells)
