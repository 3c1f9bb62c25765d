"""Every method that a reference file may name."""
from __future__ import annotations

from curtilage.reference import conductors, handbook
from curtilage.reference.kinds import Method

METHODS: dict[str, Method] = {m.name: m for m in (*conductors.METHODS, *handbook.METHODS)}
