"""Colour, type and chart tokens of the kit, and the chart theme made from them.

Two hues carry meaning: iris (what you are looking at, what you may touch) and rust (wrong). Everything else is ink,
weight, pattern and position, so that a black-and-white print loses nothing. Series are ordered by lightness, dark to
light, on every ground; a slot keeps its hue.
"""
from __future__ import annotations

from importlib import import_module
from typing import Any

TYPE = {"fine": 12, "small": 13, "body": 15, "lead": 17, "h3": 17, "h2": 21, "h1": 28, "figure": 30}
SPACE = {"1": 4, "2": 8, "3": 12, "4": 16, "5": 24, "6": 40}
FONT = '"PT Sans", "DejaVu Sans Condensed", "Liberation Sans", sans-serif'
MONO = '"Fira Mono", "DejaVu Sans Mono", monospace'

LIGHT = {
    "ground": "#FFFFFF", "panel": "#F1F3F7", "rule": "#C2C9D3", "strong": "#66717F", "ink": "#15202B", "ink2": "#47535F",
    "iris": "#3B3FA6", "iris_wash": "#E7E8F8", "rust": "#A62C12", "rust_wash": "#FBE9E4", "on_rust": "#FFFFFF",
}
DARK = {
    "ground": "#10161D", "panel": "#19212B", "rule": "#3A4654", "strong": "#8693A2", "ink": "#E9EDF2", "ink2": "#AFBAC6",
    "iris": "#B3B8FF", "iris_wash": "#272C55", "rust": "#FF9C80", "rust_wash": "#45221A", "on_rust": "#10161D",
}
PRINT = LIGHT | {"iris": "#15202B", "iris_wash": "#E4E4E4", "rust": "#15202B", "rust_wash": "#FFFFFF", "panel": "#FFFFFF"}
PAGE = {role: f"var(--k-{role.replace('_', '-')},{colour})" for role, colour in LIGHT.items()}     # follows the page it stands in

SERIES_LIGHT = ["#23276B", "#8C3B1B", "#2F7F86", "#B98A2B", "#A9B4E6", "#E6DDC4"]
SERIES_DARK = ["#5258B8", "#C9724E", "#58B3B8", "#E4BA62", "#CDD3F8", "#F3EEDF"]
SERIES_PRINT = ["#1B1B1B", "#4A4A4A", "#777777", "#9F9F9F", "#C6C6C6", "#E8E8E8"]
MODES = {"light": (LIGHT, SERIES_LIGHT), "dark": (DARK, SERIES_DARK), "print": (PRINT, SERIES_PRINT)}


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour "#RRGGBB", 0 to 1, as in WCAG 2.2, relative luminance."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a: str, b: str) -> float:
    """Contrast ratio of two colours, 1 to 21, as in WCAG 2.2, contrast ratio."""
    hi, lo = sorted((luminance(a), luminance(b)), reverse=True)
    return (hi + 0.05) / (lo + 0.05)


def ink_on(fill: str) -> str:
    """Black or white text, whichever reads better on this fill."""
    return max(("#15202B", "#FFFFFF"), key=lambda c: contrast(c, fill))


def chart_config(mode: str = "light") -> dict[str, Any]:
    """Config of a chart: hairline grid on the value axis only, horizontal axis titles with their unit, no frame."""
    c, series = MODES[mode]
    axis = {
        "labelFont": FONT, "labelFontSize": 13, "labelColor": c["ink"], "titleFont": FONT, "titleFontSize": 13,
        "titleFontWeight": "normal", "titleColor": c["ink2"], "domain": False, "ticks": False, "gridColor": c["rule"],
        "gridWidth": 0.7, "labelPadding": 6, "titlePadding": 10, "labelLimit": 320, "titleLimit": 600,
    }
    title = {
        "font": FONT, "fontSize": 15, "fontWeight": "bold", "color": c["ink"], "anchor": "start", "frame": "group", "offset": 14,
        "subtitleFont": FONT, "subtitleFontSize": 13, "subtitleColor": c["ink2"], "subtitlePadding": 4,
    }
    upright = {
        "titleAngle": 0, "titleAlign": "left", "titleAnchor": "start", "titleBaseline": "bottom", "titleY": -8, "titleX": 0,
    }
    header = {
        "labelFont": FONT, "labelFontSize": 14, "labelFontWeight": "bold", "labelColor": c["ink"], "labelAnchor": "start",
        "labelOrient": "top", "title": None,
    }
    return {
        "background": c["ground"], "font": FONT, "padding": 4,
        "view": {"stroke": None, "continuousWidth": 860, "continuousHeight": 260},
        "axis": axis, "axisY": upright, "axisX": {"titleAnchor": "start", "titleAlign": "left"},
        "axisBand": {"grid": False}, "axisPoint": {"grid": False},
        "title": title, "header": header, "legend": {"disable": True}, "range": {"category": series},
        "text": {"font": FONT, "fontSize": 13, "color": c["ink"]},
        "rule": {"color": c["ink"]}, "bar": {"color": c["ink2"]}, "line": {"color": c["ink"], "strokeWidth": 2.2},
        "point": {"color": c["ink"], "size": 90, "filled": True}, "area": {"color": c["ink2"]},
        "concat": {"spacing": 28}, "facet": {"spacing": 28},
    }


def enable(mode: str = "light") -> dict[str, str]:
    """Register and switch on the chart theme; returns the colours for marks drawn by hand. Needs altair."""
    alt: Any = import_module("altair")
    alt.data_transformers.enable("default")
    alt.renderers.set_embed_options(actions=False, renderer="svg")
    alt.theme.register(f"curtilage-{mode}", enable=True)(lambda: alt.theme.ThemeConfig({"config": chart_config(mode)}))
    return MODES[mode][0]
