"""A local amendment: one more layer of rules, in the user's folder, checked strictly."""
from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from curtilage.editions.layers import Layer


def local_layer(base: Layer, local: Path | str | Mapping[str, Any]) -> Layer:
    raise NotImplementedError
