"""Stops: a result is withheld until somebody answers. A stop withholds only what depends on it, and says which."""

from __future__ import annotations

from collections.abc import Iterator
import re
from typing import TYPE_CHECKING, NamedTuple

from curtilage.design.neutrals import UTILITY, counts, proofs
from curtilage.design.works.framing import stopped

if TYPE_CHECKING:
    from curtilage.design import Design

HAZARDS = re.compile(
    r"\b(finish booth|spray|solvent|fuel dispens|gasoline|propane fill|grain|livestock|stock waterer|stall|hay loft|anesth|"
    r"dialysis|assembly hall|stage)",
    re.I,
)
"""Words in a load list that point to hazardous locations, livestock, health care or public assembly (common practice)."""


class Stop(NamedTuple):
    """What stopped, what to do, and the items that are withheld."""

    number: str
    caution: str
    text: str
    answer: str
    withheld: tuple[str, ...]


def stops(d: Design) -> tuple[Stop, ...]:
    """Every stop that stands against this design."""
    return (*_no_fault(d), *_dwelling_likeness(d), *_devices(d), *_neutrals(d), *_engineered(d), *_hazards(d))


def _attested(d: Design, number: str, subject: str) -> bool:
    return any(a.check == number and a.subject == subject for a in d.estate.attested)


def _no_fault(d: Design) -> Iterator[Stop]:
    """S1: what is stated of the source gives no fault current, so none is named anywhere."""
    t = d.estate.service.transformer
    if t.primary is None and t.fault_letter is None:
        return
    d.works("fault")
    why = d.late.get("transformer") or d.late.get(f"fault/{d.estate.service.gear.id}")
    if why:
        yield Stop(
            "S1",
            "C11",
            f"No fault current, no rating against it and no clearing time is given: {why}",
            "State the transformer and the utility's letter so that they fit each other.",
            (),  # there is no result to withhold
        )


def _dwelling_likeness(d: Design) -> Iterator[Stop]:
    """S4: a structure that looks like a dwelling and is not declared one."""
    for s in d.estate.structures:
        p = s.provisions
        if (
            s.occupancy != "dwelling"
            and p
            and p.sleeping
            and p.sanitation
            and p.cooking == "permanent"
            and not _attested(d, "S4", s.id)
        ):
            fed = tuple(f"demand/{n}/other" for n, b in d.tree.branches.items() if b.structures == (s.id,))
            yield Stop(
                "S4",
                "C31",
                f"{s.name} ({s.id}) offers sleeping, sanitation and permanent cooking and is declared {s.occupancy}. "
                "Whether it is a dwelling unit decides its load calculation.",
                "Declare it a dwelling, or record the authority's answer under attested (check S4).",
                fed,
            )


def _devices(d: Design) -> Iterator[Stop]:
    """S2: an overcurrent device larger than its conductor by rule."""
    for f in d.estate.feeders:
        r = d.items.get(f"feeder/{f.id}")
        if r is not None and not r.protected:
            yield Stop(
                "S2",
                "C35",
                f"Feeder {f.id}: a device of {r.device:g} A does not protect {r.sets} x {r.size} with {r.ampacity:.0f} A.",
                "State a smaller device or a larger conductor.",
                (f"feeder/{f.id}", f"growth/{f.id}"),
            )


def _neutrals(d: Design) -> Iterator[Stop]:
    """S5: an island of neutrals with no bond or more than one, in some mode; what neutral current does is then not known."""
    if d.estate.grounding is None:
        return
    wrong: dict[str, list[str]] = {}
    for p in proofs(d.estate):
        if not p.open and any(n != d.ed.neutral_bonds for n in counts(p)):
            found = "; ".join(f"{n} bonds ({', '.join(b.words for b in at if b.bond.bonded) or 'nowhere'})"
                              for n, at in zip(counts(p), p.bonds, strict=True) if n != d.ed.neutral_bonds)
            wrong.setdefault(found, []).append(p.mode)
    for found, modes in wrong.items():
        if UTILITY in modes:
            d.works("network")
        yield Stop(
            "S5",
            "C21",
            f"An island of neutrals has not the one bond it should have, in mode {', '.join(modes)}: {found}.",
            "Take out the bonds that are not at the source, or let the switch break the neutral, too (check 095).",
            tuple(k for k in d.items if k.split("/")[0] == "network") if UTILITY in modes else (),
        )


def _engineered(d: Design) -> Iterator[Stop]:
    """S10: a hole or notch in an engineered member that nobody who may has allowed."""
    for p in d.estate.penetrations:
        if stopped(p):
            yield Stop(
                "S10",
                "C16",
                f"{p.id} cuts an engineered member ({p.member}) of {p.structure}. No rule of thumb holds there: "
                "one hole can take its strength.",
                "Do not bore. State the approval of its maker or of an engineer at the hole, or route around it.",
                (),  # there is no result to withhold: no method works an engineered member
            )


def _hazards(d: Design) -> Iterator[Stop]:
    """S7: words that ask for a specialist."""
    for r in d.tree.rows:
        found = HAZARDS.search(f"{r.load} {r.location} {r.kind}")
        if found and not _attested(d, "S7", r.id):
            yield Stop(
                "S7",
                "C15",
                f'Row {r.id} ({r.load}) names "{found.group().lower()}". Hazardous locations, livestock areas, health care and '
                "public assembly are outside what is worked here.",
                f"Record who classified the place, under attested (check S7, subject {r.id}).",
                (f"circuit/{r.id}",),
            )
