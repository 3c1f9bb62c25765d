"""What a reader may move of the service: the transformer, the lateral, and the value that a letter of the utility may bring."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.notebook.frame import marimo

if TYPE_CHECKING:
    from curtilage.design import Design

RATINGS = (25, 37.5, 50, 75, 100, 167, 250, 333, 500)
"""Ratings of single-phase distribution transformers, kVA (IEEE C57.12.20, common practice)."""
HOME = "service.transformer"
STANDS = "as it stands"


def rating_input(d: Design) -> Any:
    """Rating of the transformer, kVA."""
    stands = d.estate.service.transformer.rating
    options = {f"{STANDS}, {stands:g} kVA": 0.0} | {f"{x:g} kVA": float(x) for x in RATINGS}
    return marimo().ui.dropdown(options, value=next(iter(options)), label="Transformer")


def impedance_input(d: Design) -> Any:
    """Its impedance, percent of its rating."""
    stands = d.estate.service.transformer.impedance
    return marimo().ui.slider(0.5, 6.0, step=0.1, value=round(stands, 1), label="Impedance, %", include_input=True)


def ratio_input(d: Design) -> Any:
    """Its reactance over its resistance."""
    stands = d.estate.service.transformer.x_over_r
    return marimo().ui.slider(0.5, 10.0, step=0.1, value=round(stands, 1), label="X/R", include_input=True)


def lateral_input(d: Design) -> Any:
    """Length of the service conductors, ft."""
    feet = d.estate.service.lateral.length
    step = 1 if feet < 50 else 5
    return marimo().ui.slider(0, round(max(4 * feet, 60.0) / step) * step, step=step, value=feet, label="Lateral, ft",
                              include_input=True)


def letter_input(d: Design) -> Any:
    """The fault current that a letter may bring, kA line to line at the terminals; it stands at what is reckoned with now."""
    d.works("fault")
    ll = d.items["fault/terminals"].ll / 1000 if "fault/terminals" in d.items else 10.0
    top = max(10.0, round(2 * ll))
    return marimo().ui.slider(1.0, top, step=0.5, value=round(2 * ll) / 2, label="The letter says, kA", include_input=True)


def changes(d: Design, rating: float, impedance: float, ratio: float, lateral: float) -> dict[str, Any]:
    """What the inputs change in the estate, {path: "value unit"}; what stands as it is, is left out."""
    t, out = d.estate.service.transformer, dict[str, Any]()
    if rating and rating != t.rating:
        out[f"{HOME}.rating"] = f"{rating:g} kVA"
    if impedance != round(t.impedance, 1):
        out[f"{HOME}.impedance"] = f"{impedance:g} %"
    if ratio != round(t.x_over_r, 1):
        out[f"{HOME}.x_over_r"] = ratio
    if lateral != d.estate.service.lateral.length:
        out["service.lateral.length"] = f"{lateral:g} ft"
    return out
