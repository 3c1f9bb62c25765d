"""What keeps two supplies apart, and whether switches and buses are rated for the devices ahead of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from curtilage.design.neutrals import LINES
from curtilage.review.asked import Asker
from curtilage.values.check import Check

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model.feeders import Feeder
    from curtilage.model.sources import Alternate, PanelSwitch, Sources, Transfer


class Ahead(NamedTuple):
    """An overcurrent device ahead of something: its rating [A], or None where it is not stated, and which it is."""

    amperes: float | None
    words: str
    tag: str = ""


def checks(d: Design, ask: Asker) -> Iterator[Check]:
    """Checks 143a on panels with two supplies, 143b on transfer switches and buses."""
    s = d.estate.sources
    if s is None:
        return
    normal = {f.to: f for f in d.estate.feeders}
    for a in s.alternates:
        if a.to in normal:
            yield apart(d, ask, a, normal[a.to])
    for t in s.transfers:
        yield held(ask, t.id, t.rating, sides(d, s, t, (t.id,)))
    for b in s.buses:
        yield held(ask, b.id, b.rating, ahead(d, s, b.id, ()))


# ------------------------------------------------------------------------------------------------------ two supplies apart
def apart(d: Design, ask: Asker, a: Alternate, f: Feeder) -> Check:
    """Check 143a on the panel that a feeder and an alternate reach."""
    sw = a.switch
    if sw is None:
        return ask("143a", a.to, "not evaluated", f"{f.id} and {a.id}: two supplies of {a.to} can be closed at once",
                   f"the switch that keeps them apart (sources.alternates.{a.id}.switch)")
    key = f"feeder/{f.id}"
    device = d.items[key].device if key in d.items else f.breaker
    tags = (f"{key}/device",) if key in d.items else ()
    said = f"{sw.kind}, {sw.poles} poles" + (f", {sw.rating:g} A" if sw.rating is not None else "")
    wrong = clash(a, sw)
    if wrong:
        return ask("143a", a.to, False, f"{said}; {wrong}", tags=tags)
    devices = [x for x in (device, a.breaker) if x is not None]
    of = f"{f.id} {device:g} A" if device is not None else f.id
    of += f", {a.id} {a.breaker:g} A" if a.breaker is not None else f", {a.id} taken with the same device: none is stated"
    found = f"{said}; ahead: {of}"
    if sw.rating is not None and devices and sw.rating < max(devices):
        return ask("143a", a.to, False, found, tags=tags)
    missing = [f"the rating of the switch at {a.to}"] if sw.rating is None and sw.kind != "interlock" else []
    missing += [f"the device of {f.id}"] if device is None else []
    missing += [f"whether the switch at {a.to} breaks the neutral"] if a.neutral_switched is None else []
    return ask("143a", a.to, "not evaluated" if missing else True, found, "; ".join(missing), tags=tags)


def clash(a: Alternate, sw: PanelSwitch) -> str:
    """What the poles of a switch leave closed, or how they gainsay what is stated of the neutral."""
    if sw.poles < LINES:
        return f"it leaves a line conductor closed: {LINES} lines are to be switched"
    if a.neutral_switched is not None and a.neutral_switched != (sw.poles > LINES):
        return f"the neutral is said {'' if a.neutral_switched else 'not '}to be switched"
    return ""


# -------------------------------------------------------------------------------------------------- ratings against devices
def held(ask: Asker, subject: str, rating: float, devices: tuple[Ahead, ...]) -> Check:
    """Check 143b on one switch or bus."""
    known = [x for x in devices if x.amperes is not None]
    found = f"{rating:g} A; ahead: {', '.join(f'{x.words} {x.amperes:g} A' for x in known) or 'nothing stated'}"
    tags = tuple(x.tag for x in known if x.tag)
    if any(x.amperes is not None and x.amperes > rating for x in known):
        return ask("143b", subject, False, found, tags=tags)
    missing = [f"the device of {x.words}" for x in devices if x.amperes is None]
    if missing or not devices:
        return ask("143b", subject, "not evaluated", found, "; ".join(missing) or f"what feeds {subject}", tags)
    return ask("143b", subject, True, found, tags=tags)


def sides(d: Design, s: Sources, t: Transfer, seen: tuple[str, ...]) -> tuple[Ahead, ...]:
    """The devices ahead of both sides of a transfer switch; its own on the normal side where that is stated."""
    normal = ahead(d, s, t.normal, seen) if t.breaker is None else (Ahead(t.breaker, f"device on the normal side of {t.id}"),)
    return tuple(dict.fromkeys((*normal, *ahead(d, s, t.alternate, seen))))


def ahead(d: Design, s: Sources, place: str, seen: tuple[str, ...]) -> tuple[Ahead, ...]:
    """The nearest devices ahead of a place: of a bus or switch those of both its sides, since either may carry it."""
    if place in seen:
        return ()
    further = (*seen, place)
    switches = [t for t in s.transfers if place in (t.id, t.load) and t.id not in seen]
    if switches:
        return tuple(x for t in switches for x in sides(d, s, t, (*further, t.id)))
    sources = {g.id: g.breaker for g in s.generators}
    sources |= {x.id: x.breaker for x in s.storage}
    sources |= {x.id: x.breaker for x in s.solar}
    if place in sources:
        return (Ahead(sources[place], place),)
    main = next((m for m in d.estate.service.mains if m.id == place), None)
    if main is not None:
        key = f"main/{place}/rating"
        return (Ahead(main.rating if main.rating is not None else d.items[f"main/{place}"].rating, f"main {place}", key),)
    f = next((f for f in d.estate.feeders if place in (f.id, f.to)), None)
    if f is not None:
        key = f"feeder/{f.id}"
        sized = key in d.items
        return (Ahead(d.items[key].device if sized else f.breaker, f"feeder {f.id}", f"{key}/device" if sized else ""),)
    runs = [a for a in s.alternates if place in (a.id, a.to)]
    return tuple(Ahead(a.breaker, a.id) for a in runs)
