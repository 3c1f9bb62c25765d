"""JSON Schemas for editors, so that a wrong key is marked while it is typed."""
from typing import Any

from pydantic import BaseModel

from curtilage.model.estate import Estate
from curtilage.model.variants import VariantFile


def estate_schema() -> dict[str, Any]:
    """The schema of estate.yaml."""
    return _schema(Estate)


def variant_schema() -> dict[str, Any]:
    """The schema of a file in variants/."""
    return _schema(VariantFile)


def _schema(model: type[BaseModel]) -> dict[str, Any]:
    made = model.model_json_schema(by_alias=True)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **_sorted(made)}


def _sorted(node: Any) -> Any:
    if isinstance(node, dict):
        return {k: _sorted(node[k]) for k in sorted(node)}
    return [_sorted(x) for x in node] if isinstance(node, list) else node
