"""What goes into the methods of terminals, and what comes out."""
from typing import NamedTuple

from curtilage.values import lines as u


class Terminal(NamedTuple):
    """The terminals at one end of a feeder."""

    id: str
    size: u.size                 # conductor that arrives
    sets: u.count                # conductors that arrive for each pole
    smallest: u.size
    largest: u.size
    holds: u.count               # conductors that a pole takes
    adapter: u.size              # conductor behind a listed reducer or tap box; "none" where there is none
    wires: u.text                # one, two, three, four, five: conductors on each terminal
    bending: u.inch              # space to the wall that the terminals face
    opposite: u.flag             # the conductors come through that wall


class Lug(NamedTuple):
    """Both ends of a feeder."""

    id: str
    device: u.A
    ends: tuple[Terminal, ...]


class TerminalRun(NamedTuple):
    """One end."""

    id: str
    lands: u.size                # conductor on the terminal
    wires: u.count               # how many of them on each pole
    range_ok: u.flag
    space_least: u.inch
    space_ok: u.flag
    adapter_ok: u.flag           # the conductor behind the reducer carries what the device lets through
    ok: u.flag


class LugRun(NamedTuple):
    """Both ends together."""

    range_ok: u.flag
    space_least: u.inch          # the most of both ends
    space_ok: u.flag
    adapter_ok: u.flag
    ok: u.flag
    ends: tuple[TerminalRun, ...]
