"""Pictures along a clock: power through a night under its cap, and an outage with battery, generator and load tiers."""
from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from typing import Any

from curtilage.look.charts import WIDTH, Chart, frame, words
from curtilage.look.theme import MODES, ink_on


def charging_night(rows: Sequence[dict[str, Any]], order: Sequence[str], labels: Sequence[tuple[str, float]], cap: float,
                   mode: str) -> Chart:
    """Stacked power (rows of hour, who, kw) under the cap in kW; names stand inside their areas at the hours of `labels`."""
    alt: Any = import_module("altair")
    c, s = MODES[mode]
    fill = dict(zip(order, (s[0], s[2], s[3], s[4], s[5]), strict=False))
    data = [r | {"rank": order.index(r["who"])} for r in rows]
    ticks = alt.Axis(values=list(range(18, 32, 2)), grid=False, labelExpr="pad(datum.value % 24, 2, '0', 'left') + ':00'")
    x = alt.X("hour:Q", title="clock time", scale=alt.Scale(domain=[18, 31], nice=False), axis=ticks)
    y = alt.Y("sum(kw):Q", title="kW at the garage feeder", stack="zero", scale=alt.Scale(domain=[0, cap * 1.22], nice=False))
    colour = alt.Color("who:N", sort=list(order), scale=alt.Scale(domain=list(order), range=[fill[o] for o in order]))
    area = alt.Chart(frame(data)).mark_area(interpolate="step-after", stroke=c["ground"], strokeWidth=1.4, opacity=1).encode(
        x=x, y=y, order="rank:Q", color=colour)
    line = alt.Chart(frame([{"k": cap}])).mark_rule(strokeWidth=2.4, color=c["ink"]).encode(y="k:Q")
    says = [{"k": cap, "t": f"cap {cap:g} kW, the set point of the energy manager"}]
    word = words(says, c["ink"], align="left", dy=-10, fontWeight="bold").encode(x=alt.value(6), y="k:Q", text="t:N")
    inside = [_inside(data, order, who, hour, fill[who]) for who, hour in labels]
    return alt.layer(area, line, word, *inside).properties(
        width=WIDTH[mode] - 90, height=290,
        description="Charging power of the vehicles and the building through one night, stacked, under the cap.")


def _inside(data: Sequence[dict[str, Any]], order: Sequence[str], who: str, hour: float, fill: str) -> Chart:
    """A name in the middle of its own band at one hour."""
    now = [d for d in data if d["hour"] == hour]
    below = sum(d["kw"] for d in now if d["rank"] < order.index(who))
    own = sum(d["kw"] for d in now if d["who"] == who)
    row = [{"h": hour + 0.12, "k": below + own / 2, "t": who}]
    return words(row, ink_on(fill), align="left", baseline="middle", fontWeight="bold").encode(x="h:Q", y="k:Q", text="t:N")


def _energy(soc: Sequence[tuple[float, float]], reserve: float, full: float, notes: Sequence[tuple[float, float, str]], x: Any,
            mode: str) -> Chart:
    """Energy in the battery, kWh, above its reserve."""
    alt: Any = import_module("altair")
    c, _ = MODES[mode]
    data = frame([{"h": h, "kwh": k} for h, k in soc])
    y = alt.Y("kwh:Q", title="kWh in the battery", scale=alt.Scale(domain=[0, full * 1.12], nice=False))
    said = [{"h": h, "kwh": k, "t": t} for h, k, t in notes]
    kept = [{"k": reserve, "t": f"reserve {reserve:g} kWh"}]
    layers = [
        alt.Chart(data).mark_area(color=c["iris_wash"], line=False, opacity=1).encode(x=x, y=y),
        alt.Chart(data).mark_line(color=c["iris"], strokeWidth=2.4).encode(x=x, y=y),
        alt.Chart(frame(kept)).mark_rule(color=c["ink"], strokeWidth=2, strokeDash=[6, 3]).encode(y="k:Q"),
        words(kept, c["ink"], align="left", dy=10, dx=6, fontWeight="bold").encode(x=alt.value(0), y="k:Q", text="t:N"),
    ]
    if said:
        dots = alt.Chart(frame(said)).mark_point(filled=True, size=60, color=c["ink"], opacity=1)
        layers.append(dots.encode(x="h:Q", y="kwh:Q"))
        layers.append(words(said, c["ink"], align="left", dx=2, dy=13).encode(x="h:Q", y="kwh:Q", text="t:N"))
    return alt.layer(*layers).properties(width=WIDTH[mode] - 190, height=190)


def storm(soc: Sequence[tuple[float, float]], reserve: float, full: float, runs: Sequence[tuple[float, float]],
          tiers: Sequence[tuple[str, float, float]], notes: Sequence[tuple[float, float, str]], mode: str) -> Chart:
    """An outage: energy in the battery (hour, kWh) above, generator runs and load tiers (from, to) as strips below, one clock."""
    alt: Any = import_module("altair")
    c, _ = MODES[mode]
    last = max(h for h, _ in soc)
    scale, ticks = alt.Scale(domain=[0, last], nice=False), list(range(0, int(last) + 1, 12))
    above = alt.X("h:Q", title=None, scale=scale, axis=alt.Axis(values=ticks, labels=False))
    up = _energy(soc, reserve, full, notes, above, mode)
    names = ["generator", *dict.fromkeys(t for t, _, _ in tiers)]
    strips = [{"row": "generator", "a": a, "b": b, "k": "gen"} for a, b in runs]
    strips += [{"row": t, "a": a, "b": b, "k": "withheld" if t.endswith("withheld") else "load"} for t, a, b in tiers]
    kinds = ["gen", "load", "withheld"]
    bars = alt.Chart(frame(strips)).mark_bar(height=14, stroke=c["ink"], strokeWidth=1.4).encode(
        y=alt.Y("row:N", sort=names, title=None), x2="b:Q",
        x=alt.X("a:Q", title="hours from loss of utility", scale=scale, axis=alt.Axis(values=ticks)),
        fill=alt.Fill("k:N", scale=alt.Scale(domain=kinds, range=[c["ink"], c["rule"], c["ground"]])),
        strokeDash=alt.StrokeDash("k:N", scale=alt.Scale(domain=kinds, range=[[1, 0], [1, 0], [5, 4]])))
    down = bars.properties(width=WIDTH[mode] - 190, height=27 * len(names))
    return alt.vconcat(up, down, spacing=12).properties(
        description="Energy in the battery through an outage, when the generator runs and which load tiers are served.")
