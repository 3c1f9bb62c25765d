"""Which neutral conductors hang together: a plain search over ties, without units and without the code's rules."""
from collections.abc import Iterable
from typing import NamedTuple


class Tie(NamedTuple):
    """A neutral conductor, or a pole of a switch, between two places; `closed` in the mode that is looked at."""

    a: str
    b: str
    closed: bool
    why: str = ""


def islands(places: Iterable[str], ties: Iterable[Tie]) -> tuple[tuple[str, ...], ...]:
    """Groups of places that closed ties join, each in the order of `places`, and the groups in the order of their first."""
    order = list(dict.fromkeys(places))
    head = {p: p for p in order}

    def top(p: str) -> str:
        while head[p] != p:
            head[p] = head[head[p]]
            p = head[p]
        return p
    for t in ties:
        if t.closed:
            head[top(t.b)] = top(t.a)
    groups: dict[str, list[str]] = {}
    for p in order:
        groups.setdefault(top(p), []).append(p)
    return tuple(map(tuple, groups.values()))


def rings(places: Iterable[str], ties: Iterable[Tie]) -> int:
    """How many closed rings the ties make: ways that neutral current may take twice."""
    here = tuple(dict.fromkeys(places))
    closed = [t for t in ties if t.closed and t.a in here]
    return len(closed) - len(here) + len(islands(here, closed))


def ringed(places: Iterable[str], ties: Iterable[Tie]) -> tuple[Tie, ...]:
    """The closed ties that lie in a ring: those without which all places still hang together as before."""
    here = tuple(dict.fromkeys(places))
    closed = [t for t in ties if t.closed and t.a in here]
    if not rings(here, closed):
        return ()
    whole = len(islands(here, closed))
    return tuple(t for i, t in enumerate(closed) if len(islands(here, (*closed[:i], *closed[i + 1:]))) == whole)
