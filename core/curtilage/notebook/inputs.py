"""What a reader may move on a page, and what it becomes in a case: values tried in place of those that the estate states."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from curtilage import store
from curtilage.look.text import Markup, e
from curtilage.notebook import demand
from curtilage.notebook.cases import design, editions, variants
from curtilage.notebook.frame import asked, attempt, marimo, show
from curtilage.report import content, loads

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model import Load

AS_STATED = "as the estate states"
METHODS = {AS_STATED: "", "standard method": "standard", "optional method": "optional", "the lesser of both": "compare"}
CURRENTS = (16, 24, 32, 40, 48, 64, 80)
"""Outputs that vehicle supply equipment is commonly set to, A (common practice)."""


# ------------------------------------------------------------------------------------------------- what is looked at
def variant_input(path: str) -> Any:
    """Which variant of the estate; the base unless the address names another."""
    options = attempt(variants, path)
    wanted = asked("variant", "base")
    chosen = next((label for label, name in options.items() if name == wanted), "base")
    return marimo().ui.dropdown(options, value=chosen, label="Variant", searchable=True)


def edition_input() -> Any:
    """Which edition of the code; that of the estate unless the address names another."""
    options = {AS_STATED: ""} | editions()
    wanted = asked("edition")
    chosen = next((label for label, name in options.items() if name == wanted), AS_STATED)
    return marimo().ui.dropdown(options, value=chosen, label="Edition")


def branches(d: Design) -> dict[str, str]:
    """What a load can be asked of -> its name: whole dwellings, other structures, mains, the service."""
    deep = dict(content.ordered(d))
    homes = loads.homes(d)
    others = [n for n, depth in deep.items() if depth == 1 and n not in homes]
    mains = [n for n, depth in deep.items() if depth == 0]
    names = [n for n in (*homes, *others, *mains, "service") if n in d.chosen]
    return {f"{n}: {content.branch_title(d, n)}": n for n in names}


def branch_input(d: Design) -> Any:
    """The feeder or main that the page is about; the first dwelling unless the address names another."""
    options = branches(d)
    wanted = asked("branch")
    chosen = next((label for label, name in options.items() if name == wanted), next(iter(options), None))
    return marimo().ui.dropdown(options, value=chosen, label="Load of", searchable=True)


# --------------------------------------------------------------------------------------------------- what may be tried
def area_input(d: Design, branch: str) -> Any:
    """Floor area of the dwelling that a feeder carries, ft²; what is no dwelling has none to move."""
    home = _home(d, branch)
    if home is None:
        return marimo().ui.slider(0, 1, value=0, label="Floor area: of dwellings only", disabled=True)
    area = float(home.area or 0.0)
    top = max(2 * area, 1000.0)
    step = 10 if area <= 2000 else 50
    return marimo().ui.slider(0, round(top / step) * step, step=step, value=area, label="Floor area, ft²", include_input=True)


def method_input(d: Design, branch: str) -> Any:
    """By which method a dwelling is calculated; everything else has one."""
    only = _home(d, branch) is None
    return marimo().ui.dropdown({AS_STATED: ""} if only else METHODS, value=AS_STATED, label="Method")


def vehicle_input(d: Design, branch: str) -> Any:
    """Set point of the manager that holds the vehicle supply of a branch, or the output of its only vehicle supply, A."""
    manager, rows = _manager(d, branch), _vehicles(d, branch)
    if manager is not None:
        members = [r for r in d.tree.rows if r.manager == manager.id]
        most = max(sum(r.va for r in members) / d.volts, manager.set_point)
        return marimo().ui.slider(5, round(most / 5) * 5, step=5, value=manager.set_point, show_value=True,
                                  label=f"Set point of {manager.id}, A")
    if len(rows) == 1 and rows[0].qty == 1:
        options = {AS_STATED: 0} | {f"{a} A": a for a in CURRENTS}
        return marimo().ui.dropdown(options, value=AS_STATED, label=f"Output of {rows[0].load}")
    words = "Vehicle supply: none here" if not rows else "Vehicle supply: several rows, moved in the load list"
    return marimo().ui.slider(0, 1, value=0, label=words, disabled=True)


def pinned_input(d: Design, branch: str) -> Any:
    """The number whose working is kept in sight while inputs move; the first line of the first method to begin with."""
    return pin(demand.choices(d, branch), first=True)


def pin(choices: Mapping[str, str], first: bool = False) -> Any:
    """A number out of these, {what is said: tag}, whose working is kept in sight; to begin with none, or the first one."""
    options = {"nothing": ""} | dict(choices)
    at = min(1, len(options) - 1) if first else 0
    return marimo().ui.dropdown(options, value=list(options)[at], label="Working kept in sight", searchable=True)


def changes(d: Design, branch: str, area: float, method: str, vehicle: float) -> dict[str, str]:
    """What the inputs of the page change in the estate, {path: "value unit"}; what stands as stated is left out."""
    out: dict[str, str] = {}
    home, manager, rows = _home(d, branch), _manager(d, branch), _vehicles(d, branch)
    if home is not None and area != home.area:
        out[f"structures.{home.id}.area"] = f"{area:g} ft2"
    if home is not None and method:
        out[f"structures.{home.id}.method"] = method
    if manager is not None and vehicle != manager.set_point:
        out[f"managers.{manager.id}.set_point"] = f"{vehicle:g} A"
    if manager is None and vehicle and len(rows) == 1:
        va = f"{vehicle * rows[0].volts:g} VA"
        row = f"loads.{rows[0].id}"
        out |= {f"{row}.amperes": f"{vehicle:g} A", f"{row}.unit_va": va, f"{row}.va": va}
    return out


def keep(case: Mapping[str, Any], name: str) -> Any:
    """Write what is tried on the page as a variant of the estate; an error in words where that cannot be."""
    if not case.get("set"):
        return show("<p>Nothing is tried on this page that the estate does not state.</p>")
    tried = ", ".join(f"{path} {value}" for path, value in case["set"].items())
    attempt(store.save_variant, case["estate"], name.strip(), tried, case["set"], "tried on a page")
    return show(f"<p>Kept as <code>variants/{e(name.strip())}.yaml</code>. Reload the page to pick it.</p>")


def note(case: Mapping[str, Any]) -> Markup:
    """What is tried on the page in place of what the estate states; nothing where nothing is."""
    tried = dict(case.get("set") or {})
    stated = design({**case, "set": {}}).estate if tried else None
    rows = "".join(f"<li><code>{e(p)}</code> {e(now)}, stated {e(_plain(stated.value(p)))}</li>"
                   for p, now in tried.items() if stated is not None)
    return Markup(f'<div class="n-tried"><b>Tried on this page, not in the estate:</b><ul>{rows}</ul></div>' if rows else "")


def _plain(x: Any) -> str:
    return f"{x:,g}" if isinstance(x, int | float) and not isinstance(x, bool) else str(x or "nothing")


def _home(d: Design, branch: str) -> Any:
    """The dwelling that a branch is the whole of."""
    if branch not in loads.homes(d):
        return None
    structure = d.tree.branches[branch].structures[0]
    return next(s for s in d.estate.structures if s.id == structure)


def _rows(d: Design, branch: str) -> tuple[Load, ...]:
    found = d.tree.branches.get(branch) or d.tree.mains.get(branch)
    return found.rows if found is not None else d.tree.rows


def _manager(d: Design, branch: str) -> Any:
    held = {r.manager for r in _rows(d, branch) if r.category == "vehicle" and r.manager}
    return next((m for m in d.estate.managers if m.id in held), None)


def _vehicles(d: Design, branch: str) -> list[Load]:
    return [r for r in _rows(d, branch) if r.category == "vehicle"]
