"""From a design to its drawings: which numbers stand where. Places on the sheet are found in `draw`."""
from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from curtilage.design.top import top_rows
from curtilage.design.without import added_tag
from curtilage.draw import bars, oneline, site, voltage
from curtilage.draw.bars import Step
from curtilage.draw.oneline import Node
from curtilage.draw.svg import Text, Words, wrap
from curtilage.report import content as c
from curtilage.report.content import Num
from curtilage.report.loads import row_words
from curtilage.report.numbers import in_system, label, rounded
from curtilage.values.told import Told, walk

if TYPE_CHECKING:
    from curtilage.design.design import Design

WIDE = 118      # px kept for a column of words in the one-line diagram


def _text(n: c.Cell, unit: str = "") -> Text:
    if isinstance(n, Num):
        return Text(f"{n.shown} {unit or n.unit}".strip(), n.tag)
    return Text(n)


# --------------------------------------------------------------------------------------------------- one-line diagram
def one_line(d: Design) -> Node:
    """The normal power path: utility, transformer, lateral, gear, mains, feeders, panels."""
    s = d.estate.service
    gear = Node("gear", f"Service gear {s.gear.id}", _gear_words(d), grounded=True,
                flag="fails" if over(d, s.gear.id, s.gear.interrupting) else "",
                children=tuple(_main(d, m.id) for m in s.mains if f"main/{m.id}" in d.items))
    meter = Node("meter", "Metering", (s.metering.kind,) if s.metering and s.metering.kind else (), _lateral(d), children=(gear,))
    t = s.transformer
    words = (f"{t.rating:g} kVA, {t.impedance:g} %Z",) if t is not None else ("not stated",)
    transformer = Node("transformer", "Transformer", words, children=(meter,))
    name = wrap(s.utility, 2 * WIDE)
    volts = f"{s.voltage.neutral:g}/{s.voltage.line:g} V, single phase"
    return Node("utility", name[0], (*name[1:], volts), children=(transformer,))


def _gear_words(d: Design) -> tuple[Words, ...]:
    gear = d.estate.service.gear
    bus: tuple[Words, ...] = (f"{gear.bus:,.0f} A bus",) if gear.bus else ()
    return (*bus, *fault_words(d, gear.id, gear.interrupting, False))


def fault(d: Design, at: str) -> Num | None:
    """The larger of the fault currents line to line and line to neutral at a bus or panel; None where there is none."""
    tag = f"fault/{at}/largest"
    return c.num(d, tag) if d.has(tag) else None


def over(d: Design, at: str, rating: float | None) -> bool:
    """Whether the fault current at a bus or panel is more than its rating."""
    found = fault(d, at)
    return bool(found and rating and found.value is not None and float(found.value) > rating)


def fault_words(d: Design, at: str, rating: float | None, short: bool = True) -> tuple[Words, ...]:
    """What is available at a bus or panel, and what it is rated for: "19.8 of 22 kA"; at length "fault 45.4 kA, rated 65 kA"."""
    found = fault(d, at)
    if found is None:
        return (f"rated {rating / 1000:g} kA",) if rating else ()
    amount = Text(rounded(float(found.value) / 1000, 1) if found.shown else "withheld", found.tag)
    if not rating:
        return ((amount, Text(" kA, no rating")),)
    if short:
        return ((amount, Text(f" of {rating / 1000:g} kA")),)
    return ((Text("fault "), amount, Text(f" kA, rated {rating / 1000:g} kA")),)


def _lateral(d: Design) -> tuple[Words, ...]:
    if "service" not in d.items:
        return ()
    lateral = d.estate.service.lateral
    far = " ".join(c.given(d, lateral.length, "ft"))
    return (f"{far} lateral", _text(c.conductors(d, "service")), (_text(c.num(d, "service/drop")), Text(" drop")))


def _main(d: Design, name: str) -> Node:
    key = f"main/{name}"
    words = (_text(c.num(d, f"{key}/rating")), (_text(c.num(d, f"{key}/current")), Text(" load")))
    children = tuple(_panel(d, f) for f in d.estate.feeders if f.from_ == name and f"feeder/{f.id}" in d.items)
    return Node("main", name, words, breaker=True, children=children, flag="" if d.items[key].rating_ok else "fails")


def _panel(d: Design, f: Any) -> Node:
    key = f"feeder/{f.id}"
    r = d.items[key]
    below = tuple(_panel(d, g) for g in d.estate.feeders if g.from_ == f.to and f"feeder/{g.id}" in d.items)
    run = (_text(c.num(d, f"{key}/device")), Text(", "), _text(c.conductors(d, key)))
    drop = (Text(f"{_plain(c.length(d, f.id))} {c.unit_of(d, 'ft')}, "), _text(c.num(d, f"{key}/drop")))
    place = c.panel_structure(d, f.to)
    lines: tuple[Words, ...] = tuple(wrap(place.split(",")[0], WIDE)) if place and not _same_place(d, f) else ()
    rating = next(p.interrupting for p in d.estate.panels if p.id == f.to)
    good = r.device_ok and r.carries_ok and r.protected and not over(d, f.to, rating)
    second = tuple(f"also {a.from_}" for a in alternates(d) if a.to == f.to)
    lines += (*fault_words(d, f.to, rating), *second)
    return Node("panel", f.to, lines, (run, drop), True, below, flag="" if good else "fails", second=bool(second))


def alternates(d: Design) -> tuple[Any, ...]:
    """The feeders of the backed-up system, where there is one."""
    return d.estate.sources.alternates if d.estate.sources is not None else ()


def _same_place(d: Design, f: Any) -> bool:
    """Whether a feeder stays inside its structure: then the name of the structure is not repeated."""
    return c.panel_structure(d, f.from_) == c.panel_structure(d, f.to)


def _plain(n: c.Cell) -> str:
    return n.shown if isinstance(n, Num) else n


ONE_LINE_SAYS = (
    "Power runs down from the transformer. Beside each panel stand its device and the conductors that reach it, length and drop, "
    "then the fault current available there of what the panel is rated for. A dashed arrow into a panel is its second supply.")


def one_line_svg(d: Design, colours: Mapping[str, str]) -> str:
    return oneline.svg(one_line(d), f"One-line diagram of {d.estate.name}", colours["ink"], colours["ground"])


# ------------------------------------------------------------------------------------------------------------ demand
def _value(told: Told, symbol: str) -> float | None:
    """The value of a line behind a number, by its symbol."""
    found = next((x for x in walk(told, deep=False) if x.symbol == symbol and isinstance(x.value, int | float)), None)
    return float(found.value) if found is not None else None


def _kva(n: Num) -> float:
    return float(n.value) / 1000


def _said(n: Num, lead: str = "") -> Text:
    return Text(f"{lead}{rounded(_kva(n), 1)}", n.tag)


SHORT = {label("general"): "lighting and its circuits", label("largest_motor"): "quarter of largest motor"}


def _reduced(name: str, rule: str, before: float | None, after: Num) -> list[Step]:
    """A contribution and what a rule takes off it; where the rule takes nothing, the contribution alone."""
    if before is None or before - float(after.value) < 50:
        return [Step(name, _kva(after), "add", _said(after))] if after.value else []
    taken = (before - float(after.value)) / 1000
    return [Step(name, before / 1000, "add", "nameplate"), Step(rule, taken, "take", _said(after, "leaves "))]


def standard_steps(d: Design, key: str) -> list[Step]:
    """The standard method as steps of a waterfall."""
    told = d.tell(key)
    steps = _reduced(SHORT[label("general")], "tiers of the table", _value(told.general, "S_general"), c.num(d, f"{key}/general"))
    counted, rest = _value(told.appliances, "S_counted"), _value(told.appliances, "S_rest")
    whole = counted + rest if counted is not None and rest is not None else None
    steps += _reduced(label("appliances"), "factor for four or more", whole, c.num(d, f"{key}/appliances"))
    for field in ("cooking", "dryers", "climate", "motors", "vehicles", "managed", "loads", "groups", "largest_motor"):
        n = c.maybe(d, f"{key}/{field}")
        if isinstance(n, Num) and n.value:
            steps.append(Step(SHORT.get(label(field), label(field)), _kva(n), "add", _said(n)))
    return [*steps, _sum(d, key)]


NAMEPLATES = (("S_general", "general"), ("S_appliances", "appliances"), ("S_cooking", "cooking"), ("S_dryers", "dryers"),
              ("S_motors", "motors"), ("S_sundry", "loads"), ("S_vehicles", "vehicles"))
"""Lines behind the tiers of the optional method, and the fields of the standard method that speak of the same loads."""


def optional_steps(d: Design, key: str) -> list[Step]:
    """The optional method as steps of a waterfall; where its lines are not found, one bar stands for all of them."""
    connected, after = c.num(d, f"{key}/connected"), c.num(d, f"{key}/general")
    told = d.tell(key).connected
    found = [(label(field), _value(told, symbol)) for symbol, field in NAMEPLATES]
    steps = [Step(SHORT.get(words, words), x / 1000, "add", Text(rounded(x / 1000, 1), connected.tag)) for words, x in found if x]
    if abs(sum(s.kva for s in steps) - _kva(connected)) > 0.01:
        steps = [Step("everything at nameplate", _kva(connected), "add", _said(connected))]
    steps.append(Step("tiers over all of it", _kva(connected) - _kva(after), "take", _said(after, "leaves ")))
    for field in ("climate", "vehicles_apart"):
        n = c.num(d, f"{key}/{field}")
        if n.value:
            steps.append(Step(label(field), _kva(n), "add", _said(n)))
    return [*steps, _sum(d, key)]


def top_svg(d: Design, colours: Mapping[str, str]) -> str:
    """The rows that matter most as bars: what each adds, inside its nameplate."""
    found = []
    for t in top_rows(d):
        plate = f" of {rounded(t.nameplate / 1000, 1)}" if t.nameplate else ""
        words = (Text(rounded(t.marginal / 1000, 1), added_tag(t)), Text(plate))
        found.append(bars.Share(f"{row_words(d, t.id)} ({t.at})", max(t.marginal, 0.0) / 1000, t.nameplate / 1000, words))
    return bars.ranking(found, "Rows that matter most", "kVA", colours) if found else ""


def _sum(d: Design, key: str) -> Step:
    total, amperes = c.num(d, f"{key}/total"), c.num(d, f"{key}/amperes")
    return Step("calculated load", 0.0, "sum", Text(f"{rounded(_kva(total), 1)} kVA, {amperes.shown} A", amperes.tag))


def both_methods(d: Design, name: str, colours: Mapping[str, str]) -> str:
    """Two waterfalls on one scale."""
    runs = bars.levelled(standard_steps(d, f"demand/{name}/standard"), optional_steps(d, f"demand/{name}/optional"))
    top = bars.reach(*runs)
    room = bars.margins(*runs)
    pair = [bars.waterfall(run, title, words, top, colours, room=room) for run, title, words in zip(
        runs, ("Standard method", "Optional method"), ("line by line, each with its own rule", "everything together, one rule"),
        strict=True)]
    return f'<div class="k-pair">{"".join(pair)}</div>'


# ----------------------------------------------------------------------------------------------------------- voltage
def voltage_ways(d: Design) -> list[voltage.Way]:
    """Every panel's way from the transformer; the one with the lowest outlet is the heavy one."""
    found = c.keys(d, "path")
    if not found:
        return []
    worst = min(found, key=lambda key: float(d.items[key].outlet_volts))
    ends: dict[str, str] = {}
    for key in found:
        way = d.tree.way(key.split("/", 1)[1])
        if way:
            ends[way[0].id] = min(ends.get(way[0].id, key), key, key=lambda k: float(d.items[k].outlet_volts))
    return [way_of(d, key, key == worst) for key in dict.fromkeys(ends.values())]


def way_of(d: Design, key: str, heavy: bool) -> voltage.Way:
    """The way from the transformer to the farthest outlet of one panel, stop by stop."""
    panel, r = key.split("/", 1)[1], d.items[key]
    start = d.estate.service.lateral.length
    stops, ft = [voltage.Stop("transformer", 0.0, voltage.BASE), voltage.Stop("service", start, float(r.service_volts))], start
    for f, node in zip(d.tree.way(panel), r.nodes, strict=False):
        ft += c.feet(d, f.id)
        stops.append(voltage.Stop(f.to, ft, float(node.volts)))
    branch = _branch_feet(d, panel)
    outlet = c.num(d, f"{key}/outlet_volts")
    stops.append(voltage.Stop("farthest outlet", ft + branch, float(r.outlet_volts)))
    return voltage.Way(stops, Text(f"{panel} {outlet.shown} V", outlet.tag), heavy)


def _branch_feet(d: Design, panel: str) -> float:
    rows = [r for r in d.estate.loads if r.panel == panel and f"circuit/{r.id}" in d.items]
    worst = max(rows, key=lambda r: float(d.items[f"circuit/{r.id}"].drop), default=None)
    return float(worst.length or 0.0) if worst is not None else 0.0


def advice(d: Design) -> list[tuple[float, str]]:
    """The advice on feeders and on the whole way as voltages: both count from the gear, not from the transformer."""
    found = c.keys(d, "path")
    if not found:
        return []
    gear = float(d.items[found[0]].service_volts)
    parts = ((d.limit("feeder_drop"), "feeders"), (d.limit("total_drop"), "feeders and branch"))
    return [(gear - voltage.BASE * most / 100, f"{most:g} % below the gear, {what}") for most, what in parts]


def voltage_svg(d: Design, colours: Mapping[str, str]) -> str:
    limits = advice(d)
    scale = voltage.Scale(c.unit_of(d, "ft"), in_system(1.0, "ft", d.estate.units)[0])
    title = "Voltage from the transformer to the farthest outlet of each feeder"
    return voltage.path(voltage_ways(d), limits, title, colours, scale)


# -------------------------------------------------------------------------------------------------------------- site
def site_svg(d: Design, colours: Mapping[str, str]) -> str:
    """Structures and trenches, if the estate has a site graph."""
    g = d.estate.site_graph
    if g is None:
        return ""
    names = {s.id: s.name for s in d.estate.structures}
    spots = [site.Spot(k, p[0], p[1], f"{k} {names[k].split(',')[0]}" if k in names else "") for k, p in g.nodes.items()]
    trenches = [site.Trench(t.from_, t.to, " ".join(c.given(d, t.length, "ft")), t.use in ("power", "both")) for t in g.trenches]
    return site.sketch(spots, trenches, f"Site of {d.estate.name}: structures and trenches", colours)
