"""Every method that a reference file may name."""
from __future__ import annotations

from curtilage.reference import boxes, buildings, conductors, dwellings, earthing, faults, handbook, motors, raceways
from curtilage.reference.kinds import Method

ROOMS = (dwellings, buildings, conductors, earthing, faults, raceways, handbook, boxes, motors)
METHODS: dict[str, Method] = {m.name: m for room in ROOMS for m in room.METHODS}
