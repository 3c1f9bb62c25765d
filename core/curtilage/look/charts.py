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
Step = tuple[str, float, str]        # name, kVA, add | take | sum | gap
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
