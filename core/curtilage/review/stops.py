"""Stops: a result is withheld until somebody answers. A stop withholds only what depends on it, and says which."""

from __future__ import annotations

from collections.abc import Iterator
import re
from typing import TYPE_CHECKING, NamedTuple

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
    return (*_dwelling_likeness(d), *_devices(d), *_hazards(d))


def _attested(d: Design, number: str, subject: str) -> bool:
    return any(a.check == number and a.subject == subject for a in d.estate.attested)


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
