"""The pull through each raceway: bends, tension, pressure on the wall."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from curtilage.calc.pulling.records import EmptyWay, Pull, PulledCable, PullStep, PullStretch
from curtilage.calc.pulling.run import empty_way, pull
from curtilage.design.ask import Ask
from curtilage.design.works.laid import Planned, planned
from curtilage.errors import CurtilageError, listed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from curtilage.design.design import Design
    from curtilage.model.pulls import Run, Step

class Missing(CurtilageError):
    """An input that a pull needs and the estate does not state."""


class Part(NamedTuple):
    """A step of a way as it was written, where it was written, and whether it is walked from its end."""

    path: str
    step: Step
    back: bool


def stage(d: Design) -> None:
    """Every raceway of the design."""
    for p in planned(d):
        alone(d, p)


def alone(d: Design, p: Planned) -> None:
    """One raceway, or what it lacks."""
    try:
        one(d, p)
    except Missing as e:
        d.lack(f"pull/{p.id}", str(e))


def one(d: Design, p: Planned) -> None:
    """The pull through one raceway."""
    laid = d.asks.get(f"raceway/{p.id}")
    if laid is None:
        raise Missing(f"what lies in {p.id} is not known: {d.late.get(f'raceway/{p.id}', '')}")
    stretches = tuple(_stretch(n, some, laid.record.length, laid.path) for n, some in enumerate(_way(d, p), 1))
    view, paths, size = f"raceway-{p.kind}", {"length": f"{laid.path}.length"}, d.items[f"raceway/{p.id}"].size
    tags: dict[str, Any] = {"size": f"raceway/{p.id}/size"}
    if not laid.record.wires or unweighed(d, p):
        d.attempt(f"pull/{p.id}", Ask(empty_way, EmptyWay(p.id, size, stretches), laid.path, view, paths, tags))
        return
    parts = laid.tags.get("wires", {})
    conductors = [w for w in laid.record.wires if w.material]
    grounds = tuple(w for w in conductors if _ground(p, w.id))
    lines = tuple(w for w in conductors if w not in grounds)
    tags["lines"], tags["grounds"] = ({w.id: parts.get(w.id, {}) for w in some} for some in (lines, grounds))
    friction = _friction(d, p, paths, tags)
    how = d.estate.pulls
    if how is not None:
        paths |= {"feed": "pulls.feed", "grip": "pulls.head"}
    cables = tuple(_cables(d, p))
    record = Pull(p.id, size, lines, grounds, cables, stretches, friction,
                  how.feed if how else 0.0, how is None or how.head == "grip")
    d.attempt(f"pull/{p.id}", Ask(pull, record, laid.path, view, paths, tags))


def _ground(p: Planned, wire: str) -> bool:
    if p.stated is None:
        return wire.endswith(".ground")
    return any(m.id == wire and m.kind == "ground" for m in p.stated.members)


def _unmade(d: Design, p: Planned) -> list[Any]:
    """What lies in a raceway and is no conductor of the tables."""
    laid = d.asks.get(f"raceway/{p.id}")
    return [w for w in laid.record.wires if not w.material] if laid else []


def unweighed(d: Design, p: Planned) -> str:
    """The cables whose weight and tension nobody states: their bends are counted, their pull is not known."""
    known = {m.id: m for m in p.stated.members} if p.stated else {}
    some = [w.id for w in _unmade(d, p) if known[w.id].weight is None or known[w.id].tension is None]
    return f"the weight of {listed(some)} and the tension that its maker allows" if some else ""


def _cables(d: Design, p: Planned) -> Iterable[PulledCable]:
    """Cables among what is pulled, by their makers' figures."""
    known = {m.id: m for m in p.stated.members} if p.stated else {}
    for w in _unmade(d, p):
        m = known[w.id]
        yield PulledCable(f"{p.id}.members.{w.id}", w.count, w.diameter, m.weight or 0.0, m.tension or 0.0)


def _friction(d: Design, p: Planned, paths: dict[str, str], tags: dict[str, Any]) -> float:
    """A measured coefficient, or that of common practice, with lubricant or dry."""
    how, run = d.estate.pulls, _run(d, p)
    if run is not None and run.friction is not None:
        paths["friction"] = f"pulls.runs.{run.id}.friction"
        return run.friction
    if how is not None and how.friction is not None:
        paths["friction"] = "pulls.friction"
        return how.friction
    name = "friction_lubricated" if how is not None and how.lubricated else "friction_dry"
    tags["friction"] = f"rule:{name}"
    return float(getattr(d.ed, name))


def _run(d: Design, p: Planned) -> Run | None:
    """The run that names a raceway or the feeder that it was proposed for, or the one for all inside a building."""
    runs = d.estate.pulls.runs if d.estate.pulls else ()
    name = d.estate.service.gear.id if p.supply == "service" else p.supply.partition("/")[2]
    own = next((r for r in runs if {p.id, name} & set(r.of)), None)
    inside = p.start == p.end and not p.way and p.supply != "service"
    return own or next((r for r in runs if inside and r.indoors), None)


def _way(d: Design, p: Planned) -> list[list[Part]]:
    """The steps of a way, from one pull point to the next."""
    run = _run(d, p)
    if run is not None:
        return _parted([Part(f"pulls.runs.{run.id}.steps.{s.id}", s, False) for s in run.steps])
    if p.way and d.estate.pulls:
        return _parted(_along(d, p))
    where = f" (trenches {', '.join(p.way)})" if p.way else ""
    raise Missing(f"the route of {p.id}{where} is not described, step by step under pulls")


def _along(d: Design, p: Planned) -> list[Part]:
    """The steps of the trenches that a raceway lies in; a box at the node between two of them is a pull point."""
    from curtilage.model.pulls import Step
    from curtilage.model.sense import contrary

    assert d.estate.pulls is not None
    ways = {w.id: w.steps for w in d.estate.pulls.trenches}
    unknown = [t for t in p.way if t not in ways]
    if unknown:
        raise Missing(f"the way of trench {listed(unknown)} is not described, so {p.id} is not either")
    for way in d.estate.pulls.trenches:
        if way.id in p.way and (said := contrary(way, d.stages.trenches[way.id])):
            raise Missing(f"the way of trench {way.id} is contradictory: {said}; correct one of the two")
    boxes = {b.at: b.id for b in d.estate.boxes}
    out: list[Part] = []
    here = p.start
    for name in p.way:
        t = d.stages.trenches[name]
        back = t.to == here
        if out and here in boxes:
            at = f"boxes.{boxes[here]}"
            out.append(Part(at, Step(id=boxes[here], kind="pull point", at=boxes[here]), False))
        steps = [Part(f"pulls.trenches.{name}.steps.{s.id}", s, back) for s in ways[name]]
        out += reversed(steps) if back else steps
        here = t.from_ if back else t.to
    return out


def _parted(steps: list[Part]) -> list[list[Part]]:
    out: list[list[Part]] = [[]]
    for s in steps:
        if s.step.kind != "pull point":
            out[-1].append(s)
        elif out[-1]:
            out.append([])
    return [some for some in out if some]


def _stretch(n: int, some: list[Part], whole: float, home: str) -> PullStretch:
    steps = tuple(_step(s, whole, home) for s in some)
    return PullStretch(f"stretch {n}", steps, steps[::-1])


def _step(part: Part, whole: float, home: str) -> PullStep:
    s = part.step
    if s.kind == "bend":
        if s.angle is None:
            raise Missing(f"the angle of {part.path} is missing")
        return PullStep(part.path, True, 0.0, 0.0, part.back, s.angle, s.radius or 0.0)
    if s.length is None and not whole:
        raise Missing(f"the length of {part.path} is missing")
    return PullStep(home if s.length is None else part.path, False, s.length or whole, s.rise, part.back, 0.0, 0.0)
