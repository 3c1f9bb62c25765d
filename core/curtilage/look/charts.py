"""The pictures of the notebooks: each takes rows and a mode, returns a chart; nothing is computed but places on the page.

altair and pandas are loaded when a picture is drawn, never when this room is imported. Units stand in the axis titles.
"""
from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
import math
from typing import Any

from curtilage.look.text import MINUS
from curtilage.look.theme import MODES

Chart = Any                          # an altair chart; the library is optional, so its types are not named here
Rows = Sequence[dict[str, Any]]
Colours = dict[str, str]
Step = tuple[str, float, str]        # name, kVA, add | take | sum | gap
Point = tuple[str, float, float, float]
Criterion = tuple[str, str, float, str]
WIDTH = {"light": 1030, "dark": 1030, "print": 690}     # px: a 1280 px screen; on paper the same 13 px text prints near 9.5 pt


def _alt() -> Any:
    return import_module("altair")


def frame(rows: Rows) -> Any:
    """Rows as a data frame."""
    return import_module("pandas").DataFrame(rows)


def words(rows: Rows, colour: str, **kw: Any) -> Chart:
    """A layer of text."""
    return _alt().Chart(frame(rows)).mark_text(color=colour, **kw)


def stairs(steps: Sequence[Step]) -> list[dict[str, Any]]:
    """Steps as bars from `a` to `b` in kVA; a sum stands from zero."""
    rows: list[dict[str, Any]] = []
    run = 0.0
    for name, v, kind in steps:
        a, b = {"sum": (0.0, run), "gap": (run, run)}.get(kind, (run, run + v))
        text = {"sum": f"{run:.1f} kVA = {run / 0.24:.0f} A", "gap": ""}.get(kind, f"{'+' if v > 0 else MINUS}{abs(v):.1f}")
        rows.append({"row": name, "a": a, "b": b, "kind": kind, "label": text, "end": max(a, b)})
        run += 0.0 if kind in ("sum", "gap") else v
    return rows


def waterfall(steps: Sequence[Step], title: str, subtitle: str, top: float, mode: str, width: int = 340) -> Chart:
    """Contributions in order: filled adds, hollow takes away, solid is a standing sum."""
    alt, (c, _) = _alt(), MODES[mode]
    rows = stairs(steps)
    y = alt.Y("row:N", sort=[r["row"] for r in rows], title=None, scale=alt.Scale(paddingInner=0.34))
    x = alt.X("a:Q", title="kVA", scale=alt.Scale(domain=[0, top], nice=False), axis=alt.Axis(tickCount=6))
    kinds = ["add", "take", "sum"]
    bars = alt.Chart(frame([r for r in rows if r["kind"] != "gap"])).mark_bar(stroke=c["ink"], strokeWidth=1.3).encode(
        y=y, x=x, x2="b:Q", fill=alt.Fill("kind:N", scale=alt.Scale(domain=kinds, range=[c["rule"], c["ground"], c["ink"]])),
        strokeDash=alt.StrokeDash("kind:N", scale=alt.Scale(domain=kinds, range=[[1, 0], [3, 2], [1, 0]])))
    bold = words([r for r in rows if r["kind"] == "sum"], c["ink"], align="left", dx=6, fontWeight="bold")
    plain = words([r for r in rows if r["kind"] != "sum"], c["ink"], align="left", dx=6)
    texts = [t.encode(y=y, x="end:Q", text="label:N") for t in (plain, bold)]
    return alt.layer(bars, *texts).properties(width=width, height=27 * len(rows), description=f"{title}. {subtitle}",
                                              title=alt.TitleParams(title, subtitle=subtitle))


def peak(steps: Sequence[Step]) -> float:
    """The highest point that a run of steps reaches, kVA."""
    return max((r["end"] for r in stairs(steps)), default=0.0)


def level(steps: Sequence[Step], rows: int) -> list[Step]:
    """The same steps with gaps put before the last one, so that sums of two waterfalls stand on one line."""
    gaps: list[Step] = [(" " * (i + 1), 0.0, "gap") for i in range(rows - len(steps))]
    return [*steps[:-1], *gaps, steps[-1]]


def both_methods(standard: Sequence[Step], optional: Sequence[Step], names: tuple[str, str, str, str], mode: str) -> Chart:
    """Two methods side by side on one scale of kVA; `names` are title and clause of the first, then of the second."""
    alt, rows, width = _alt(), max(len(standard), len(optional)), WIDTH[mode] // 3
    standard, optional = level(standard, rows), level(optional, rows)
    top = 10 * math.ceil(max(peak(standard), peak(optional)) * 1.32 / 10)
    return alt.hconcat(
        waterfall(standard, names[0], names[1], top, mode, width), waterfall(optional, names[2], names[3], top, mode, width),
    ).properties(description="Two waterfalls on one scale: contributions to the demand by the standard and the optional method.")


def _column(rows: Rows, y: Any, criterion: Criterion, chosen: str, mode: str, w: int) -> Chart:
    """One criterion of a trade-off: discs within the limit, struck rings over it, figures at the right."""
    alt, (c, _) = _alt(), MODES[mode]
    key, title, limit, decimals = criterion
    data = [{"size": r["size"], "v": r[key], "label": format(r[key], decimals)} for r in rows]
    good, bad = [d for d in data if d["v"] <= limit], [d for d in data if d["v"] > limit]
    top = max([limit, *(d["v"] for d in data)]) * 1.1
    x = alt.X("v:Q", title=title, scale=alt.Scale(domain=[0, top], nice=False),
              axis=alt.Axis(tickCount=3 if mode == "print" else 4))
    washed = [d for d in data if d["size"] == chosen]
    layers = [alt.Chart(frame(washed)).mark_bar(color=c["iris_wash"], height=30).encode(
        y=y, x=alt.value(0), x2=alt.value(w + 48))] if washed else []
    layers.append(alt.Chart(frame(data)).mark_rule(strokeWidth=1.2, color=c["strong"]).encode(y=y, x="v:Q", x2=alt.datum(0)))
    layers.append(alt.Chart(frame([{"v": limit}])).mark_rule(strokeWidth=2, color=c["ink"]).encode(x="v:Q"))
    says = words([{"v": limit, "t": f"at most {limit:g}"}], c["ink"], align="center", fontWeight="bold", fontSize=12)
    layers.append(says.encode(x="v:Q", y=alt.value(-8), text="t:N"))
    if good:
        layers.append(_dots(good, c, x=x, y=y))
        layers.append(words(good, c["ink"], align="right").encode(y=y, x=alt.value(w + 42), text="label:N"))
    if bad:
        layers += _struck(bad, c, x=x, y=y)
        layers.append(words(bad, c["rust"], align="right", fontWeight="bold").encode(y=y, x=alt.value(w + 42), text="label:N"))
    return alt.layer(*layers).properties(width=w, height=32 * len(rows))


def _dots(rows: Rows, c: Colours, **encoding: Any) -> Chart:
    base = _alt().Chart(frame(rows))
    return base.mark_point(shape="circle", size=110, filled=True, color=c["ink"], opacity=1).encode(**encoding)


def _struck(rows: Rows, c: Colours, **encoding: Any) -> list[Chart]:
    """Rings with a bar: over the limit."""
    base, rust = _alt().Chart(frame(rows)), c["rust"]
    ring = base.mark_point(shape="circle", size=120, filled=True, fill=c["ground"], stroke=rust, strokeWidth=2, opacity=1)
    bar = base.mark_point(shape="stroke", size=110, strokeWidth=2, angle=45, stroke=rust)
    return [ring.encode(**encoding), bar.encode(**encoding)]


def trade_off(rows: Rows, chosen: str, criteria: Sequence[Criterion], mode: str) -> Chart:
    """Sizes down the side, one column per criterion (key, title with unit, limit, format), each with its limit."""
    alt, w = _alt(), WIDTH[mode] // 4
    weight = alt.condition(f"datum.value === '{chosen}'", alt.value("bold"), alt.value("normal"))
    columns = []
    for i, criterion in enumerate(criteria):
        axis = alt.Axis(labels=i == 0, labelPadding=10, labelFontWeight=weight)
        y = alt.Y("size:N", sort=[r["size"] for r in rows], title=None, axis=axis)
        columns.append(_column(rows, y, criterion, chosen, mode, w))
    return alt.hconcat(*columns, spacing=36).properties(
        description=f"Conductor sizes against {', '.join(t for _, t, _, _ in criteria)}; chosen {chosen}.")


def voltage_path(points: Sequence[Point], limits: Sequence[tuple[float, str]], mode: str) -> Chart:
    """Voltage at true distance along the path: (node, ft, V at design load, V at motor start); limits dotted."""
    alt, (c, _) = _alt(), MODES[mode]
    cases = ["design load", "motor start"]
    data: list[dict[str, Any]] = [
        {"node": p[0], "ft": p[1], "volts": p[2 + i], "case": case} for i, case in enumerate(cases) for p in points]
    low = math.floor(min([d["volts"] for d in data] + [v for v, _ in limits]) - 0.6)
    far = max(p[1] for p in points)
    x = alt.X("ft:Q", title="distance from transformer along the trench, ft",
              axis=alt.Axis(grid=False, values=_apart(points, far)), scale=alt.Scale(domain=[-18, far * 1.11], nice=False))
    y = alt.Y("volts:Q", title="V, line to neutral, 120 V base", scale=alt.Scale(domain=[low, 122.2], nice=False, zero=False),
              axis=alt.Axis(values=list(range(low, 122))))
    dash = alt.StrokeDash("case:N", scale=alt.Scale(domain=cases, range=[[1, 0], [5, 4]]))
    fill = alt.Fill("case:N", scale=alt.Scale(domain=cases, range=[c["ink"], c["ground"]]))
    base = alt.Chart(frame(data))
    lines = base.mark_line(strokeWidth=2.4, color=c["ink"]).encode(x=x, y=y, strokeDash=dash)
    dots = base.mark_point(size=70, filled=True, opacity=1, stroke=c["ink"], strokeWidth=1.8).encode(x=x, y=y, fill=fill)
    last = [d | {"t": f"{d['case']} {d['volts']:.1f} V"} for d in data if d["ft"] == far]
    ends = words(last, c["ink"], align="left", dx=12, fontWeight="bold").encode(x="ft:Q", y="volts:Q", text="t:N")
    drops = alt.Chart(frame([{"ft": p[1], "top": 121.4, "volts": p[2]} for p in points])).mark_rule(color=c["rule"]).encode(
        x="ft:Q", y="top:Q", y2="volts:Q")
    ruled = [{"volts": v, "t": t} for v, t in limits]
    rules = alt.Chart(frame(ruled)).mark_rule(color=c["ink"], strokeWidth=1.4, strokeDash=[2, 3]).encode(y=y)
    names = words(ruled, c["ink2"], align="left", dx=8, dy=-8, fontSize=12).encode(x=alt.value(70), y="volts:Q", text="t:N")
    return alt.layer(rules, names, drops, lines, dots, ends, *_node_names(points, c)).properties(
        width=WIDTH[mode] - 90, height=300,
        description="Voltage falling from the transformer to the farthest outlet, at design load and at motor start.")


def _apart(points: Sequence[Point], far: float) -> list[float]:
    """Distances that leave each other room on the axis."""
    out: list[float] = []
    for p in points:
        if not out or p[1] - out[-1] > 0.04 * far:
            out.append(p[1])
    return out


def _node_names(points: Sequence[Point], c: Colours) -> list[Chart]:
    """Names above the path, on two lines in turn; the last two stand to the left of their place."""
    n = len(points)
    rows = [{"node": p[0], "ft": p[1], "volts": 121.9 - 0.55 * (i % 2 if i < n - 2 else n - 1 - i)} for i, p in enumerate(points)]
    out = []
    for part, align, dx in ((rows[:-2], "left", 4), (rows[-2:], "right", -5)):
        if part:
            out.append(words(part, c["ink"], align=align, dx=dx).encode(x="ft:Q", y="volts:Q", text="node:N"))
    return out


def fault_chain(rows: Sequence[tuple[str, float, float]], mode: str) -> Chart:
    """Available fault current (disc) against the rating of the equipment (upright), kA, in order of the power path."""
    alt, (c, _) = _alt(), MODES[mode]
    data: list[dict[str, Any]] = [{"place": p, "ka": k, "rating": r, "ok": k <= r, "end": max(k, r),
             "label": f"{k:.1f} kA, rated {r:g}" + ("" if k <= r else f": {k - r:.1f} over")} for p, k, r in rows]
    good, bad = [d for d in data if d["ok"]], [d for d in data if not d["ok"]]
    y = alt.Y("place:N", sort=[r[0] for r in rows], title=None)
    x = alt.X("ka:Q", title="kA, symmetrical, line to line at 240 V", axis=alt.Axis(tickCount=6),
              scale=alt.Scale(domain=[0, max(d["end"] for d in data) * 1.3], nice=False))
    colour = alt.Color("ok:N", scale=alt.Scale(domain=[True, False], range=[c["rule"], c["rust"]]))
    base = alt.Chart(frame(data))
    layers = [
        base.mark_line(color=c["rule"], strokeWidth=2).encode(y=y, x=x, order=alt.Order("ka:Q", sort="descending")),
        base.mark_rule(strokeWidth=5, opacity=1).encode(y=y, x="ka:Q", x2="rating:Q", color=colour),
        base.mark_tick(thickness=2.6, size=20, color=c["ink"]).encode(y=y, x="rating:Q"),
    ]
    if good:
        layers.append(_dots(good, c, x=x, y=y))
        layers.append(words(good, c["ink"], align="left", dx=12).encode(y=y, x="end:Q", text="label:N"))
    if bad:
        layers += _struck(bad, c, x=x, y=y)
        layers.append(words(bad, c["rust"], align="left", dx=14, fontWeight="bold").encode(y=y, x="end:Q", text="label:N"))
    return alt.layer(*layers).properties(
        width=WIDTH[mode] - 190, height=33 * len(rows),
        description="Available fault current against equipment rating, from transformer to the farthest panel.")


def legs(rows: Sequence[tuple[str, float, float]], mode: str, limit: float = 10.0) -> Chart:
    """Leg A to the left, leg B to the right, kVA; the words say which is heavier and by how much of the mean."""
    alt, (c, _) = _alt(), MODES[mode]
    data: list[dict[str, Any]] = []
    for panel, a, b in rows:
        off = abs(a - b) / (a + b) * 200 if a + b else 0.0
        word = f"{'A' if a > b else 'B'} heavier by {off:.0f} % of mean" if off else "equal"
        data.append({"panel": panel, "a": -a, "b": b, "la": f"{a:.1f}", "lb": f"{b:.1f}", "ok": off <= limit,
                     "word": word + ("" if off <= limit else ", move a circuit")})
    top = max(max(d["b"], -d["a"]) for d in data) * 1.16
    y = alt.Y("panel:N", sort=[r[0] for r in rows], title=None)
    axis = alt.Axis(labelExpr="format(abs(datum.value), 'd')", titleAnchor="middle", titleAlign="center")
    x = alt.X("a:Q", title="kVA", scale=alt.Scale(domain=[-top, top], nice=False), axis=axis)
    base = alt.Chart(frame(data))
    layers = [
        base.mark_bar(color=c["ink"], height=16).encode(y=y, x=x, x2=alt.datum(0)),
        base.mark_bar(fill=c["ground"], stroke=c["ink"], strokeWidth=1.6, height=15).encode(y=y, x="b:Q", x2=alt.datum(0)),
        alt.Chart(frame([{"z": 0}])).mark_rule(color=c["ink"], strokeWidth=2).encode(x="z:Q"),
        words(data, c["ink"], align="right", dx=-6).encode(y=y, x="a:Q", text="la:N"),
        words(data, c["ink"], align="left", dx=6).encode(y=y, x="b:Q", text="lb:N"),
    ]
    for ok, colour, weight in ((True, "ink2", "normal"), (False, "rust", "bold")):
        part = [d for d in data if d["ok"] is ok]
        if part:
            layers.append(words(part, c[colour], align="left", fontWeight=weight).encode(y=y, x=alt.value(575), text="word:N"))
    for text, align, px in (("leg A", "right", 274), ("leg B", "left", 286)):
        head = words([{"t": text}], c["ink"], align=align, fontWeight="bold")
        layers.append(head.encode(x=alt.value(px), y=alt.value(-10), text="t:N"))
    return alt.layer(*layers).properties(width=560, height=31 * len(rows), description="Load on leg A and leg B of each panel.")
