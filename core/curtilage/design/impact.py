"""What another letter of the utility would change: the design worked again with another available fault current."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from curtilage.errors import CurtilageError

if TYPE_CHECKING:
    from curtilage.design.design import Design

LEAST, MOST = 1_000.0, 300_000.0


class Struck(NamedTuple):
    """One place: its rating and the largest fault current there before and after, A. `rating` None: not stated."""

    id: str
    rating: float | None
    before: float
    after: float

    @property
    def holds(self) -> str:
        """What becomes of it: holds, fails, fails now, holds again, no rating."""
        if self.rating is None:
            return "no rating"
        was, now = self.before <= self.rating, self.after <= self.rating
        return ("holds" if was else "holds again") if now else ("fails now" if was else "fails")


class Impact(NamedTuple):
    """Every place that another letter touches, and the checks that flip."""

    current: float
    design: Design
    places: tuple[Struck, ...]
    flipped: tuple[tuple[str, str, str, str], ...]


def impact(d: Design, current: float, line_to_neutral: float | None = None, at: str = "transformer terminals") -> Impact:
    """The design with a letter of `current` A line to line in place of what it rests on. Raises `CurtilageError`."""
    if not LEAST <= current <= MOST:
        raise CurtilageError(f"an available fault current of {current:g} A is outside {LEAST:,.0f} to {MOST:,.0f} A; "
                             "give amperes, not kiloamperes")
    day = d.estate.prepared.date
    if day is None:
        raise CurtilageError("a letter needs a day, and the design has none; state prepared.date")
    letter = {"current": f"{current:g} A", "at": at, "date": day.isoformat(), "reference": "what if"}
    if line_to_neutral is not None:
        letter["line_to_neutral"] = f"{line_to_neutral:g} A"
    new = d.with_values({"service.transformer.fault_letter": letter}, by="another letter")
    d.works()
    new.works()
    before = {(c.number, c.subject): c.outcome for c in d.checks}
    flipped = tuple((c.number, c.subject, before.get((c.number, c.subject), "not asked"), c.outcome) for c in new.checks
                    if before.get((c.number, c.subject)) != c.outcome)
    ratings = interrupting(d)
    both = [k.removeprefix("fault/") for k in d.items if k.startswith("fault/") and k in new.items]
    places = tuple(Struck(k, ratings.get(k), d.items[f"fault/{k}"].largest, new.items[f"fault/{k}"].largest) for k in both)
    return Impact(current, new, places, flipped)


def interrupting(d: Design) -> dict[str, float | None]:
    """Interrupting or short-circuit rating of gear, panels, buses and switches, A."""
    e = d.estate
    out: dict[str, float | None] = {e.service.gear.id: e.service.gear.interrupting, **{p.id: p.interrupting for p in e.panels}}
    if e.sources:
        out |= {b.id: b.interrupting for b in e.sources.buses} | {t.id: t.interrupting for t in e.sources.transfers}
    return out
