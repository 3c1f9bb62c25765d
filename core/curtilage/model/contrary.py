"""Two values of one thing that exclude each other: the smallest above the largest, an end before its beginning."""
from collections.abc import Iterator

from curtilage.errors import Problems
from curtilage.model.base import SIZES
from curtilage.model.estate import Estate
from curtilage.model.framing import Passage, Wanted
from curtilage.model.panels import Lugs
from curtilage.model.places import Place


def contradictions(estate: Estate, problems: Problems) -> None:
    """Adds lugs, days and passages that cannot be as they are written."""
    for path, lugs in _lugs(estate):
        _reversed(estate, path, lugs, problems)
    if estate.temporary is not None:
        for s in estate.temporary.services:
            if s.since is not None and s.until is not None and s.until < s.since:
                problems.add(_where(estate, f"temporary.services.{s.id}.until"), f"{s.until} is before since, {s.since}",
                             "a service ends after it begins", "the two days may be exchanged")
    for f in estate.framing:
        ways: list[tuple[str, Passage | Wanted]] = [("passages", q) for q in f.passages]
        ways += [("wanted", w) for w in f.wanted]
        for kind, x in ways:
            if x.from_ == x.to:
                problems.add(_where(estate, f"framing.{f.id}.{kind}.{x.id}.to"), f"{x.id} leads from {x.from_} to itself",
                             "expected two different places", "correct one of the two")


def _where(estate: Estate, path: str) -> str:
    place: Place = estate.places[path]
    return f"{place.precise()} {path}"


def _lugs(estate: Estate) -> Iterator[tuple[str, Lugs]]:
    for kind, items in (("panels", estate.panels), ("feeders", estate.feeders)):
        for x in items:
            if x.lugs is not None:
                yield f"{kind}.{x.id}.lugs", x.lugs


def _reversed(estate: Estate, path: str, lugs: Lugs, problems: Problems) -> None:
    small, large = lugs.smallest, lugs.largest
    if small is not None and large is not None and SIZES.index(small) > SIZES.index(large):
        problems.add(_where(estate, f"{path}.smallest"), f"smallest {small} is larger than largest {large}",
                     "smallest and largest conductor of the same terminals", "the two may be exchanged")
