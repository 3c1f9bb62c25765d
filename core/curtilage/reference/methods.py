"""Every method that a reference file may name."""
from __future__ import annotations

from curtilage.reference import boxes, buildings, conductors, dwellings, earthing, faults, handbook, raceways
from curtilage.reference.kinds import Method

METHODS: dict[str, Method] = {
    m.name: m for room in (dwellings, buildings, conductors, earthing, faults, raceways, handbook, boxes) for m in room.METHODS}
