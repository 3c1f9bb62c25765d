"""What a reader may move of one feeder, and what it becomes in a case. Inputs stand at what the estate has, stated or chosen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.notebook.frame import asked, marimo
from curtilage.report import content

if TYPE_CHECKING:
    from curtilage.design import Design

STANDS = "as it stands"
METALS = {"al": "aluminium", "cu": "copper"}
MOST_SETS = 4


def feeders(d: Design) -> dict[str, str]:
    """What is offered -> feeder: every feeder that carries load, from the service outward."""
    names = [name for name, _ in content.ordered(d) if f"feeder/{name}" in d.items]
    return {f"{name}: {content.feeder_title(d, name)}": name for name in names}


def feeder_input(d: Design) -> Any:
    """The feeder that the page is about; the longest unless the address names another."""
    options = feeders(d)
    wanted = asked("feeder") or max(options.values(), key=lambda name: content.feet(d, name), default="")
    chosen = next((label for label, name in options.items() if name == wanted), next(iter(options), None))
    return marimo().ui.dropdown(options, value=chosen, label="Feeder", searchable=True)


def size_input(d: Design, name: str) -> Any:
    """Size of the line conductors."""
    laid = d.items[f"feeder/{name}"].size
    m = d.ed.view(d.asks[f"feeder/{name}"].view)
    sizes = [size for size in m.sizes if size in m.r and size in m.x]
    return _pick({f"{STANDS}, {laid}": ""} | {size: size for size in sizes}, "Size, AWG or kcmil")


def sets_input(d: Design, name: str) -> Any:
    """Number of parallel sets."""
    laid = d.items[f"feeder/{name}"].sets
    return _pick({f"{STANDS}, {laid:g}": 0} | {str(n): n for n in range(1, MOST_SETS + 1)}, "Sets")


def device_input(d: Design, name: str) -> Any:
    """Rating of the overcurrent device, from the standard ratings of the edition."""
    stands = d.items[f"feeder/{name}"].device
    known = d.ed.raw_shape("standard_rating").sizes
    near = [x for x in known if stands / 4 <= x <= stands * 3]
    return _pick({f"{STANDS}, {stands:g} A": 0.0} | {f"{x:g} A": x for x in near}, "Device")


def length_input(d: Design, name: str) -> Any:
    """One-way length, ft."""
    feet = content.feet(d, name)
    step = 1 if feet < 100 else 10
    top = max(3 * feet, 60.0)
    return marimo().ui.slider(0, round(top / step) * step, step=step, value=feet, label="Length, ft", include_input=True)


def metal_input(d: Design, name: str) -> Any:
    """Metal of the conductors."""
    laid = d.asks[f"feeder/{name}"].view.split("-")[0]
    return _pick({f"{STANDS}, {METALS[laid]}": ""} | {words: metal for metal, words in METALS.items()}, "Metal")


def _pick(options: dict[str, Any], label: str) -> Any:
    return marimo().ui.dropdown(options, value=next(iter(options)), label=label)


def changes(d: Design, name: str, size: str, sets: int, device: float, length: float, metal: str) -> dict[str, str | int]:
    """What the inputs change in the estate, {path: "value unit"}; what stands as it is, is left out.

    A size needs its number of sets; where the reader names none, it is the number that is laid.
    """
    home, laid = f"feeders.{name}", d.items[f"feeder/{name}"]
    out: dict[str, str | int] = {}
    if size and size != laid.size:
        out[f"{home}.size"] = size
    if sets or f"{home}.size" in out:
        out[f"{home}.sets"] = int(sets or laid.sets)
    if device:
        out[f"{home}.breaker"] = f"{device:g} A"
    if length != content.feet(d, name):
        out[f"{home}.length"] = f"{length:g} ft"
    if metal:
        out[f"{home}.material"] = metal
    return out
