"""Other ways of feeding a long, lightly loaded run, each weighed by the same numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.alternatives.pair import pair
from curtilage.calc.alternatives.records import Local, Option, Pair, PairRun, Run, Way
from curtilage.calc.alternatives.weigh import far_fault, local_source, long_run, weigh
from curtilage.calc.fault.chain import node
from curtilage.calc.fault.clearing import clearing
from curtilage.calc.fault.records import Device, Node
from curtilage.calc.fault.records import Run as Laid
from curtilage.calc.fault.wires import feeder_wire
from curtilage.calc.mass import feeder_mass, two_wire_mass
from curtilage.design.ask import Ask
from curtilage.design.works.clearing import tripping
from curtilage.design.works.faults import SEEN, TO_GROUND, WIRE

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.feeders import Feeder

OPEN = {"breaker": "open_device", "size": "open_size", "sets": "open_sets", "drop_limit": "open_drop"}
"""Fields of a feeder that an option leaves open, and the rule that says so."""
PAIRS = 2
"""Ratings of a transformer pair that are laid side by side: the smallest that carry the load."""
NOTHING = 0.0


def stage(d: Design) -> None:
    """Every feeder is asked whether it is long and light; those that are get their options."""
    for f in d.estate.feeders:
        if f"feeder/{f.id}" not in d.items:
            continue
        asked = d.asks[f"feeder/{f.id}"]
        r = d.items[f"feeder/{f.id}"]
        tags = {"current": f"feeder/{f.id}/current", "ampacity": f"feeder/{f.id}/ampacity"}
        tags |= {"length": asked.tags["length"]} if "length" in asked.tags else {}
        record = Run(f.id, asked.record.length, r.current, r.ampacity)
        found = d.attempt(f"long/{f.id}", Ask(long_run, record, f"feeders.{f.id}", "ed", {}, tags))
        if found is not None and found.offered:
            options(d, f)


def options(d: Design, f: Feeder) -> None:
    """As designed; other conductors; pairs of transformers; a source at the load."""
    metal = d.asks[f"feeder/{f.id}"].view.split("-")[0]
    weighed(d, f, "designed", {k: f"{k}/{f.id}" for k in ("feeder", "wire", "clearing", "mass")} | {"fault": f"fault/{f.to}"})
    for name, view, left in (("aluminium", "al", ("size", "sets")), ("copper", "cu", ("size", "sets")),
                             ("smaller-device", metal, ("size", "sets", "breaker")),
                             ("ampacity-alone", metal, ("size", "sets", "drop_limit"))):
        conductors(d, f, name, view, left)
    ratings = [float(k) for k in d.ed.dry_efficiency]
    wanted = d.asks[f"feeder/{f.id}"].record.va
    for rating in [k for k in ratings if 1000 * k >= wanted][:PAIRS]:
        transformers(d, f, rating)
    asked = d.asks[f"feeder/{f.id}"]
    named = {"va": asked.tags["va"]}
    record = Local(f.id, asked.record.va, asked.record.pf)
    d.attempt(f"local/{f.id}", Ask(local_source, record, f"feeders.{f.id}", "ed", {"pf": asked.paths["pf"]}, named))


def conductors(d: Design, f: Feeder, name: str, metal: str, left: tuple[str, ...]) -> None:
    """The same load over other conductors: what is `left` open is chosen."""
    base, asked = f"option/{f.id}/{name}", d.asks[f"feeder/{f.id}"]
    tags = dict(asked.tags) | {field: f"rule:{OPEN[field]}" for field in left}
    record = asked.record._replace(**{field: getattr(d.ed, OPEN[field]) for field in left}, neutral="")
    paths = {k: p for k, p in asked.paths.items() if k not in tags}
    view = f"{metal}-{asked.view.partition('-')[2]}"
    if run(d, f, name, asked._replace(record=record, view=view, paths=paths, tags=tags)) is None:
        return
    up = d.asks.get(f"fault/{f.to}")
    if up is None:
        d.lack(f"alternative/{f.id}/{name}", f"fault/{f.to} has no result: {d.late.get(f'fault/{f.to}', '')}")
        return
    wire = d.items[f"{base}/wire"]
    numbers = {field: getattr(up.record, field) for field in (*SEEN, *TO_GROUND)}
    named = {field: up.tags[field] for field in (*SEEN, *TO_GROUND)} | {field: f"{base}/wire/{field}" for field in WIRE}
    node_of = Node(f.to, d.volts, **numbers, **{field: getattr(wire, field) for field in WIRE})
    fault = d.attempt(f"{base}/fault", Ask(node, node_of, f"feeders.{f.id}", "", {"volts": "service.voltage"}, named))
    if fault is not None:
        cleared(d, f, name, fault.lg)
    weighed(d, f, name, {k: f"{base}/{k}" for k in ("feeder", "wire", "fault", "clearing", "mass")})


def run(d: Design, f: Feeder, name: str, ask: Ask) -> Any:
    """The conductors of one option, their ohms and their metal; None where nothing can be laid."""
    base = f"option/{f.id}/{name}"
    found = d.attempt(f"{base}/feeder", ask)
    if found is None:
        d.lack(f"alternative/{f.id}/{name}", d.late[f"{base}/feeder"])
        return None
    two = not ask.record.three_wire                              # no neutral: nothing of it is read
    back = "egc" if two else "neutral"
    tags = {"sets": f"{base}/feeder/sets", "size": f"{base}/feeder/size", "neutral": f"{base}/feeder/{back}",
            "ground": f"{base}/feeder/egc"}
    tags |= {"length": ask.tags["length"]} if "length" in ask.tags else {}
    record = Laid(f.id, found.sets, found.size, getattr(found, back), found.egc, ask.record.length)
    laid = Ask(feeder_wire, record, f"feeders.{f.id}", ask.view, {}, tags)
    if d.attempt(f"{base}/wire", laid) is None:
        d.lack(f"alternative/{f.id}/{name}", d.late[f"{base}/wire"])
        return None
    d.attempt(f"{base}/mass", laid._replace(method=two_wire_mass if two else feeder_mass))
    return found


def cleared(d: Design, f: Feeder, name: str, fault: float, volts: float = NOTHING, ahead: str = "") -> None:
    """How long the device of an option takes at most for the far-end fault to ground."""
    base = f"option/{f.id}/{name}"
    how = tripping(d, f.trip, f"feeders.{f.id}.trip")
    if how is None:
        return
    device = d.items[f"{base}/feeder"].device
    record = Device(f.id, device, fault, **how.fields, gfci=False, volts=volts or d.volts)
    tags = {"rating": f"{base}/feeder/device", "fault": f"{base}/fault/lg", **how.tags}
    tags |= {"volts": ahead} if ahead else {}
    paths = {k: p for k, p in how.paths.items() if k not in tags}
    d.attempt(f"{base}/clearing", Ask(clearing, record, f"feeders.{f.id}", "ed", paths, tags))


LIMITS = (("drop_limit", "feeder_drop", "drop_limit_feeder"), ("time_limit", "clearing", "clearing_time"),
          ("growth", "growth", "growth"))
"""Fields of an option that are limits: the policy of the project, and the rule where it says nothing."""


def limits(d: Design, tags: dict[str, str], paths: dict[str, str]) -> dict[str, float]:
    """The limits that every option is held to, and where they come from."""
    out = {}
    for field, policy, rule in LIMITS:
        own = getattr(d.estate.policy, policy)
        if own is None:
            tags[field] = f"rule:{rule}"
        else:
            paths[field] = f"policy.{policy}"
        out[field] = float(getattr(d.ed, rule) if own is None else own)
    return out


def weighed(d: Design, f: Feeder, name: str, keys: dict[str, str], windings: str = "") -> None:
    """One option by the numbers of the items behind it; with transformers, `windings` is the key of their pair."""
    key = f"alternative/{f.id}/{name}"
    refused = keys["clearing"] in d.late and keys["clearing"] not in d.items      # no trip is promised at so little current
    missing = next((k for what, k in keys.items() if k not in d.items and not (refused and what == "clearing")), None)
    if missing is not None:
        d.lack(key, f"{missing} has no result: {d.late.get(missing) or 'it is not worked'}")
        return
    asked, r = d.asks[keys["feeder"]], d.items[keys["feeder"]]
    tags = {"minimum": f"{keys['feeder']}/minimum", "device": f"{keys['feeder']}/device", "drop": f"{keys['feeder']}/drop",
            "r_line": f"{keys['wire']}/r_line", "fault": f"{keys['fault']}/lg", "time": f"{keys['clearing']}/time",
            "kilograms": f"{keys['mass']}/kilograms", "va": asked.tags["va"]}
    if refused:
        tags["time"] = "rule:no_trip"
    paths = {} if windings else {"volts": "service.voltage"}
    if windings:
        tags |= {x: f"{windings}/{x}" for x in ("no_load", "winding", "regulation")} | {"volts": "rule:pair_high"}
    held = limits(d, tags, paths)
    lost = d.items[windings] if windings else PairRun(*(NOTHING,) * len(PairRun._fields))
    wire, fault, mass = (d.items[keys[k]] for k in ("wire", "fault", "mass"))
    time = d.ed.no_trip if refused else d.items[keys["clearing"]].time
    record = Option(name, asked.record.va, r.minimum, asked.record.volts, r.device, r.drop, held["drop_limit"], wire.r_line,
                    lost.no_load, lost.winding, lost.regulation, fault.lg, time, held["time_limit"], held["growth"],
                    mass.kilograms)
    d.attempt(key, Ask(weigh, record, f"feeders.{f.id}", "ed", paths, tags))


def transformers(d: Design, f: Feeder, rating: float) -> None:
    """A pair of transformers of one rating around the run, which then has twice the voltage."""
    name = f"pair-{rating:g}".replace(".", "_")
    key, asked = f"option/{f.id}/{name}/pair", d.asks[f"feeder/{f.id}"]
    up = d.asks.get(f"fault/{f.to}")
    if up is None:
        d.lack(f"alternative/{f.id}/{name}", f"fault/{f.to} has no result: {d.late.get(f'fault/{f.to}', '')}")
        return
    record = Pair(f.id, asked.record.va, asked.record.pf, rating, d.volts, d.ed.pair_high, asked.record.drop_limit,
                  up.record.r_ll_least, up.record.x_ll_least)
    tags = {"va": asked.tags["va"], "high": "rule:pair_high", "r_ll": up.tags["r_ll_least"], "x_ll": up.tags["x_ll_least"]}
    paths = {"pf": asked.paths["pf"], "volts": "service.voltage"}
    for origin, found in ((asked.tags, tags), (asked.paths, paths)):
        found.update({k: origin[k] for k in ("drop_limit",) if k in origin})
    p = d.attempt(key, Ask(pair, record, f"feeders.{f.id}", "ed", paths | {"rating": f"feeders.{f.id}"}, tags))
    if p is None:
        d.lack(f"alternative/{f.id}/{name}", d.late[key])
    else:
        between(d, f, name, p)


def between(d: Design, f: Feeder, name: str, p: Any) -> None:
    """The run between the two transformers of a pair, and what the whole comes to."""
    base, asked = f"option/{f.id}/{name}", d.asks[f"feeder/{f.id}"]
    left = (f"{base}/pair/drop_left", p.drop_left) if p.drop_left > 0 else ("rule:open_drop", d.ed.open_drop)
    changed = {"volts": ("rule:pair_high", d.ed.pair_high), "breaker": (f"{base}/pair/device", p.device),
               "size": ("rule:open_size", ""), "sets": ("rule:open_sets", 0), "three_wire": ("rule:pair_two_wire", False),
               "neutral_va": ("rule:pair_neutral", NOTHING), "drop_limit": left}
    named = dict(asked.tags) | {k: tag for k, (tag, _) in changed.items()}
    paths = {k: x for k, x in asked.paths.items() if k not in named}
    own = asked.record._replace(**{k: x for k, (_, x) in changed.items()}, neutral="", take_83=False)
    if run(d, f, name, asked._replace(record=own, tags=named, paths=paths)) is None:
        return
    wire, behind = d.items[f"{base}/wire"], ("r_line", "x_line", "r_ground", "x_ground")
    way = Way(f.id, d.ed.pair_high, p.r_ln, p.x_ln, *(getattr(wire, x) for x in behind))
    tags = {"volts": "rule:pair_high", "r_ln": f"{base}/pair/r_ln", "x_ln": f"{base}/pair/x_ln"}
    tags |= {x: f"{base}/wire/{x}" for x in behind}
    fault = d.attempt(f"{base}/fault", Ask(far_fault, way, f"feeders.{f.id}", "", {}, tags))
    if fault is not None:
        cleared(d, f, name, fault.lg, d.ed.pair_high, "rule:pair_high")
    weighed(d, f, name, {k: f"{base}/{k}" for k in ("feeder", "wire", "fault", "clearing", "mass")}, f"{base}/pair")
