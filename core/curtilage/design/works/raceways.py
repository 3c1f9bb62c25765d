"""What lies in each raceway, and how full it is; how deep it lies, and what it does in the sun."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from curtilage.calc.raceways.cover import cover
from curtilage.calc.raceways.expansion import expansion
from curtilage.calc.raceways.fill import empty_raceway, raceway
from curtilage.calc.raceways.records import Buried, Exposed, Raceway, Wire
from curtilage.design.ask import Ask
from curtilage.design.works import supplies
from curtilage.design.works.laid import Planned, key_of, planned
from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design
    from curtilage.model.raceways import Member

CABLES = ("class 2", "comm", "fiber", "coaxial")
"""Members that are cables of another system than power."""
LINES_OF_THREE = 3
"""Conductors of a three-wire supply: two lines and a neutral."""
METAL = ("emt", "imc", "rmc")
PVC = ("pvc40", "pvc80")
ROWS = {"yard": "other", "drive": "dwelling_driveways", "street": "streets_driveways_parking",
        "slab": "under_4in_slab_no_vehicles", "building": "under_building", "concrete": "trench_under_2in_concrete"}
"""What lies above a trench -> the row of the table of cover."""


class Missing(CurtilageError):
    """An input that a raceway needs and the estate does not state."""


def stage(d: Design) -> None:
    """Every raceway: fill and jam, cover, expansion."""
    for p in planned(d):
        key = f"raceway/{p.id}"
        if p.why:
            d.lack(f"way/{p.id}", p.why)
        try:
            fill(d, key, p)
        except Missing as e:
            d.lack(key, str(e))
        if p.buried:
            bury(d, p)
        if p.stated is not None and p.stated.exposed:
            expose(d, p)


# ------------------------------------------------------------------------------------------------------------------- fill
def fill(d: Design, key: str, p: Planned) -> None:
    """What lies in one raceway, and its trade size."""
    tags: dict[str, Any] = {}
    wires, parts = (proposed(d, p.supply, tags) if p.stated is None else members(d, p))
    tags["wires"] = parts
    at = f"raceways.{p.id}"
    paths = {"size": f"{at}.size", "length": f"{at}.length"}
    if p.stated is None:
        asked = d.asks[p.supply]
        at, far = asked.path, asked.record.length
        paths = {"size": f"{at}.trade_size", "length": f"{at}.length"}
        if "length" in asked.tags:
            tags["length"] = asked.tags["length"]
        size = stated_size(d, p.supply)
    else:
        far, size = length(d, p, tags), p.stated.size or ""
    view = f"raceway-{p.kind}"
    if not wires:
        d.attempt(key, Ask(empty_raceway, Raceway(p.id, size, far, ()), at, view, paths, {"length": tags.get("length", "")}
                           if tags.get("length") else {}))
        return
    d.attempt(key, Ask(raceway, Raceway(p.id, size, far, wires), f"{at}.members" if p.stated else at, view, paths, tags))


def stated_size(d: Design, supply: str) -> str:
    """The trade size that a feeder or the lateral states, or an empty text: chosen."""
    kind, _, name = supply.partition("/")
    e = d.estate
    if kind == "service":
        return e.service.lateral.trade_size or ""
    return next((f.trade_size or "" for f in e.feeders if f.id == name), "") if kind == "feeder" else ""


def length(d: Design, p: Planned, tags: dict[str, Any]) -> float:
    """The length of a stated raceway: as stated, or along its trenches; 0 where neither is known."""
    assert p.stated is not None
    if p.stated.length is not None:
        return p.stated.length
    if not p.way:
        return 0.0
    tags["length"] = f"way/{p.id}/length"
    return supplies.along(d, f"way/{p.id}", p.way, f"raceways.{p.id}")


def material(d: Design, key: str) -> str:
    """Metal of the conductors of an item, by the view it was asked with."""
    return d.asks[key].view.partition("-")[0]


def insulation(d: Design, key: str) -> tuple[str, str]:
    """Insulation of conductors that nobody states one by one: of the basis or common practice, and where that stands."""
    own = d.estate.basis.feeder.wire
    if key.startswith("circuit/"):
        return str(d.ed.branch_wire), "rule:branch_wire"
    return (own, "path:basis.feeder.wire") if own else (str(d.ed.feeder_wire), "rule:feeder_wire")


def ground_of(d: Design, key: str) -> tuple[str, bool | None, str]:
    """Equipment ground of a supply: size, whether it is insulated, and the tag of its size."""
    f = next((f for f in d.estate.feeders if key == f"feeder/{f.id}"), None)
    if f is not None and f.egc is not None:
        return f.egc, f.egc_insulated, ""
    return d.items[key].egc, f.egc_insulated if f is not None else None, f"{key}/egc"


def proposed(d: Design, key: str, tags: dict[str, Any]) -> tuple[tuple[Wire, ...], dict[str, Any]]:
    """One set of a supply: two lines, a neutral, and a ground but on the line side of the service."""
    r, (kind, rule), compact = d.items[key], insulation(d, key), d.estate.basis.feeder.compact
    metal = material(d, key)
    wires = [Wire(f"{key}.line", 2, r.size, kind, compact, 0.0, 2, metal),
             Wire(f"{key}.neutral", 1, r.neutral, kind, compact, 0.0, 0, metal)]
    parts: dict[str, Any] = {wires[0].id: {"size": f"{key}/size"}, wires[1].id: {"size": f"{key}/neutral"}}
    if key != "service":
        size, insulated, tag = ground_of(d, key)
        bare = insulated is False
        wires.append(Wire(f"{key}.ground", 1, size, "bare" if bare else kind, compact and not bare, 0.0, 0, metal))
        parts[wires[2].id] = {"size": tag} if tag else {}
    for w in wires:
        if w.insulation != "bare":
            parts[w.id] |= {"insulation": rule, "compact": "path:basis.feeder.compact"}
    return tuple(wires), parts


def members(d: Design, p: Planned) -> tuple[tuple[Wire, ...], dict[str, Any]]:
    """What a stated raceway holds, member by member."""
    assert p.stated is not None
    wires: list[Wire] = []
    parts: dict[str, Any] = {}
    for m in p.stated.members:
        for w, tags in member(d, m):
            wires.append(w)
            parts[w.id] = tags
    return tuple(wires), parts


def member(d: Design, m: Member) -> list[tuple[Wire, dict[str, str]]]:
    """One member as wires, with the numbers that were taken from other items. A supply is its lines and its neutral."""
    if m.diameter is not None:
        return [(Wire(m.id, m.count, "", m.insulation or "", False, m.diameter, carrying(m), ""), {})]
    if m.kind in CABLES:
        raise Missing(f"the outside diameter of {m.id} ({m.kind}) is missing")
    key = key_of(d, m.kind, m.of)
    kind, rule = (m.insulation, "") if m.insulation else insulation(d, key)
    tags = {"insulation": rule} if rule else {}
    if m.size is not None:
        return [(Wire(m.id, m.count, m.size, kind, m.compact, 0.0, carrying(m), material(d, key) if key else ""), tags)]
    if not key:
        raise Missing(f"the conductor size of {m.id} ({m.kind}) is missing" + (f"; {m.of} has none yet" if m.of else ""))
    metal = material(d, key)
    if m.kind == "ground":
        size, insulated, tag = ground_of(d, key) if not key.startswith("circuit/") else (d.items[key].egc, None, f"{key}/egc")
        if m.insulation is None and insulated is False:
            kind, tags = "bare", {}
        tags = tags | ({"size": tag} if tag else {})
        return [(Wire(m.id, m.count, size, kind, m.compact and kind != "bare", 0.0, 0, metal), tags)]
    if m.kind not in ("service", "feeder") or m.count == LINES_OF_THREE - 1:
        size, tags = d.items[key].size, tags | {"size": f"{key}/size"}
        return [(Wire(m.id, m.count, size, kind, m.compact, 0.0, carrying(m), metal), tags)]
    if m.count % LINES_OF_THREE:
        raise Missing(f"which of the {m.count} conductors of {m.id} are lines and which neutrals is missing; state their sizes")
    r, sets = d.items[key], m.count // LINES_OF_THREE
    return [(Wire(m.id, 2 * sets, r.size, kind, m.compact, 0.0, 2 * sets, metal), tags | {"size": f"{key}/size"}),
            (Wire(f"{m.id}.neutral", sets, r.neutral, kind, m.compact, 0.0, 0, metal), tags | {"size": f"{key}/neutral"})]


def carrying(m: Member) -> int:
    """Current-carrying conductors of a member: the lines of a supply, every conductor of a branch circuit."""
    if m.kind in ("service", "feeder"):
        return m.count - m.count // LINES_OF_THREE
    return m.count if m.kind == "branch" else 0


# -------------------------------------------------------------------------------------------------------- cover, expansion
def bury(d: Design, p: Planned) -> None:
    """The cover over one raceway, for the trench in which it lies least deep or under the heaviest thing."""
    for trench in p.way or ("",):
        key = f"cover/{p.id}" + (f"/{trench}" if trench else "")
        try:
            d.attempt(key, cover_ask(d, p, trench))
        except Missing as e:
            d.lack(key, str(e))


def cover_ask(d: Design, p: Planned, trench: str) -> Ask:
    """What is known of one raceway in one trench; its own figures go before those of the trench."""
    r, home = p.stated, f"raceways.{p.id}" if p.stated is not None else d.asks[p.supply].path
    deep, above, ribbon = known(d, p, trench)
    where = f"trench {trench}" if trench else f"raceway {p.id}"
    if deep is None:
        raise Missing(f"the depth of cover of {where} is missing")
    if above is None:
        raise Missing(f"what lies above {where} is missing ({', '.join(ROWS)})")
    service = p.supply == "service" or (r is not None and any(m.kind == "service" for m in r.members))
    paths = {"cover": deep[0], "location": above[0], "column": f"{home}.kind" if r is not None else "basis.feeder.raceway",
             "service": home, "ribbon": ribbon[0] if ribbon else f"site_graph.trenches.{trench}.ribbon" if trench else home}
    record = Buried(p.id, "metal" if p.kind in METAL else "nonmetallic", ROWS[str(above[1])], float(deep[1]), service,
                    float(ribbon[1]) if ribbon else 0.0)
    return Ask(cover, record, home, "ed", paths)


Stated = tuple[str, Any] | None
"""A path and the value that stands there, or nothing."""


def known(d: Design, p: Planned, trench: str) -> tuple[Stated, Stated, Stated]:
    """Cover, what lies above, and ribbon: of the raceway itself, of its supply, of the trench, whichever is stated first."""
    homes: list[tuple[str, Any]] = []
    name = p.supply.partition("/")[2]
    if p.stated is not None:
        homes.append((f"raceways.{p.id}", p.stated))
    elif p.supply == "service":
        homes.append(("service.lateral", d.estate.service.lateral))
    elif p.supply.startswith("feeder/"):
        homes.append((f"feeders.{name}", next(f for f in d.estate.feeders if f.id == name)))
    if trench:
        homes.append((f"site_graph.trenches.{trench}", d.stages.trenches[trench]))

    def of(field: str, *some: tuple[str, Any]) -> Stated:
        found = ((f"{path}.{field}", getattr(x, field, None)) for path, x in some)
        return next((f for f in found if f[1] is not None), None)
    own = [h for h in homes if not h[0].startswith(("feeders.", "service."))]       # their location is another thing
    return of("cover", *homes), of("location", *own), of("ribbon", *own)


def expose(d: Design, p: Planned) -> None:
    """A straight run of plastic raceway in the open; other kinds hardly move."""
    r, key, at = p.stated, f"expansion/{p.id}", f"raceways.{p.id}"
    assert r is not None and r.exposed
    if p.kind not in PVC:
        return
    site = d.estate.site
    warm, sun, cold = r.warmest, 0.0, r.coldest if r.coldest is not None else site.winter
    paths = {"length": f"{at}.exposed", "warmest": f"{at}.warmest", "sun": f"{at}.warmest", "fitted": f"{at}.expansion",
             "coldest": f"{at}.coldest" if r.coldest is not None else "site.winter"}
    tags: dict[str, Any] = {}
    if warm is None:
        warm, sun = site.ambient, float(d.ed.sun_on_plastic)
        paths["warmest"] = "site.ambient"
        tags["sun"] = "rule:sun_on_plastic"
    if cold is None:
        d.lack(key, f"the coldest temperature of {p.id} in the open is missing, and that of the site (winter) too")
        return
    d.attempt(key, Ask(expansion, Exposed(p.id, r.exposed, warm, sun, cold, bool(r.expansion)), at, "ed", paths, tags))
