"""The models: each field described with its unit, read the same by our walk and by pydantic, and published as JSON Schema."""
from __future__ import annotations

from collections.abc import Iterator
import copy
import json
from pathlib import Path
import re
from typing import Any, get_args

from curtilage.errors import CurtilageError, Problems
from curtilage.model import load
from curtilage.model import text as texts
from curtilage.model.base import Marker
from curtilage.model.estate import SCHEMA_VERSION, Estate
from curtilage.model.loads import CATEGORIES, COLUMNS
from curtilage.model.migrate import STEPS, check_version, migrate
from curtilage.model.places import Map, Place, Seq, placed
from curtilage.model.schema import estate_schema, variant_schema
from curtilage.model.shape import shaped
from curtilage.model.variants import VariantFile
from curtilage.units import Unit
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError
import pytest
from small_estate import ESTATE

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"
TREE = texts.parse_yaml((DEMO / "estate.yaml").read_text(encoding="utf-8"), "estate.yaml")


def models(annotation: Any, seen: set[type[BaseModel]]) -> set[type[BaseModel]]:
    """Every model that a type leads to."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation not in seen:
        seen.add(annotation)
        for f in annotation.model_fields.values():
            models(f.annotation, seen)
    for a in get_args(annotation):
        models(a, seen)
    return seen


MODELS = sorted(models(Estate, set()) | {VariantFile}, key=lambda m: m.__name__)
FIELDS = [(m, n) for m in MODELS for n in m.model_fields]


def units_in(annotation: Any, metadata: tuple[Any, ...] = ()) -> Iterator[Unit]:
    for m in (*metadata, *getattr(annotation, "__metadata__", ())):
        if isinstance(m, Unit):
            yield m
    for a in get_args(annotation):
        yield from units_in(a)


@pytest.mark.parametrize("model", MODELS, ids=lambda m: m.__name__)
def test_every_model_is_frozen_strict_and_documented(model: type[BaseModel]) -> None:
    assert model.model_config["extra"] == "forbid" and model.model_config["frozen"]
    assert model.__doc__ and model.__doc__.strip().endswith(".")


@pytest.mark.parametrize("model,name", FIELDS, ids=lambda x: getattr(x, "__name__", x))
def test_every_field_says_what_it_is_and_in_which_unit(model: type[BaseModel], name: str) -> None:
    field = model.model_fields[name]
    text = field.description or ""
    assert len(text) >= 3 and not text.endswith(".")
    found = {u.unit for u in units_in(field.annotation, tuple(field.metadata))}
    said = set(re.findall(r"\[([^\]]+)\]", text))
    assert found == said or (not found and said <= {"V", "in"}), f"{text}: {found or 'no unit'}"


def test_a_model_cannot_be_changed() -> None:
    e = load(DEMO)
    with pytest.raises(ValidationError):
        e.feeders[0].size = "500"
    with pytest.raises(ValidationError):
        e.name = "other"


# ------------------------------------------------------------------------------------------------------- our walk and pydantic


def ours(tree: Map) -> tuple[Estate | None, Problems]:
    problems = Problems()
    return shaped(Estate, tree, Place("estate.yaml", 1), problems), problems


def theirs(tree: Map) -> Estate | None:
    try:
        return Estate.model_validate(tree)
    except ValidationError:
        return None


def test_both_read_the_demonstration_estate_alike() -> None:
    mine, problems = ours(TREE)
    other = theirs(TREE)
    assert not problems and mine is not None and other is not None
    assert mine.model_dump() == other.model_dump() and json.loads(mine.model_dump_json()) == json.loads(other.model_dump_json())
    for section in Estate.model_fields:
        assert repr(getattr(mine, section)) == repr(getattr(other, section)), section


def test_what_is_written_as_json_can_be_read_again() -> None:
    e = load(DEMO)
    again = theirs(placed(json.loads(e.model_dump_json(by_alias=True, exclude_unset=True)), Place("x", 0)))
    assert again is not None
    for section in ("site", "policy", "service", "structures", "site_graph", "feeders", "panels", "sources", "gas", "pool"):
        assert getattr(again, section) == getattr(e, section), section


def spots(node: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value of a tree."""
    keys = node if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ()
    return [p for k in keys for p in ((*path, k), *spots(node[k], (*path, k)))]


SPOTS = spots(TREE)
VALUES: list[Any] = [
    None, "", 0, 1, -1, 2.5, float("nan"), float("inf"), True, "yes", "185 ft", "3 %", "x", "120/240 V", "500", "4/0",
    "2026-11-24", "2026-02-30", [], {}, [1], {"a": 1}, "185", "12 A", "1e9 A", "a b", "a" * 5000, "1-1/4", 10**30]


@given(st.sampled_from(SPOTS), st.sampled_from(VALUES), st.sampled_from(["set", "set", "set", "remove", "add"]))
def test_both_accept_and_refuse_alike(way: tuple[Any, ...], value: Any, what: str) -> None:
    tree = copy.deepcopy(TREE)
    node: Any = tree
    for step in way[:-1]:
        node = node[step]
    if what == "remove":
        del node[way[-1]]
        if isinstance(node, Seq):
            del node.at[way[-1]]
    elif what == "add" and isinstance(node, Map):
        node.put("surprise", value, Place("estate.yaml", 1), Place("estate.yaml", 1))
    else:
        node[way[-1]] = placed(value, Place("estate.yaml", 1))
    mine, problems = ours(tree)
    other = theirs(tree)
    assert (mine is None) == (other is None) == bool(problems), (way, value, what, str(problems))
    if mine is not None and other is not None:
        assert repr(mine.model_dump()) == repr(other.model_dump())


def test_a_fault_of_the_walk_names_its_place() -> None:
    for way in SPOTS[::9]:
        node: Any = TREE
        for step in way[:-1]:
            node = node[step]
        was, node[way[-1]] = node[way[-1]], object
        try:
            _, problems = ours(TREE)
        finally:
            node[way[-1]] = was
        name = [s for s in way if isinstance(s, str)][-1]
        assert problems and problems.items[0].where.startswith("estate.yaml:") and name in problems.items[0].where, way


# ------------------------------------------------------------------------------------------------------------- JSON Schema


def objects(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        if "properties" in node and isinstance(node["properties"], dict):
            yield node
        for v in node.values():
            yield from objects(v)
    elif isinstance(node, list):
        for v in node:
            yield from objects(v)


@pytest.mark.parametrize("schema", [estate_schema, variant_schema])
def test_the_schema_is_the_same_each_time_and_describes_every_key(schema: Any) -> None:
    first = json.dumps(schema())
    assert json.dumps(schema()) == first and '"$schema"' in first
    for o in objects(schema()):
        assert o["additionalProperties"] is False
        for name, p in o["properties"].items():
            assert p.get("description"), name


def test_the_schema_knows_keys_units_and_choices() -> None:
    made = estate_schema()
    feeder = made["$defs"]["Feeder"]
    assert feeder["required"] == ["id", "from", "to"] and "from_" not in feeder["properties"]
    length = feeder["properties"]["length"]["anyOf"][0]
    assert re.fullmatch(length["pattern"], "185 ft") and re.fullmatch(length["pattern"], "1,240.5 m")
    assert not re.fullmatch(length["pattern"], "185") and not re.fullmatch(length["pattern"], "185 kVA")
    assert made["properties"]["curtilage"]["maximum"] == SCHEMA_VERSION
    assert "permanent" in made["$defs"]["Provisions"]["properties"]["cooking"]["enum"]


def test_every_text_of_the_demonstration_estate_fits_the_pattern_of_its_field() -> None:
    """An editor must not mark what the package reads."""
    made = estate_schema()

    def fits(node: Any, schema: dict[str, Any]) -> bool:
        if "$ref" in schema:
            schema = made["$defs"][schema["$ref"].rsplit("/", 1)[1]]
        if "anyOf" in schema:
            return any(fits(node, s) for s in schema["anyOf"])
        kind = schema.get("type")
        if "enum" in schema:
            return str(node) in map(str, schema["enum"]) or node in schema["enum"]
        if kind == "object":
            inner = schema.get("properties")
            return isinstance(node, dict) and all(
                fits(v, inner[k] if inner else next(iter(schema.get("patternProperties", {}).values()))) for k, v in node.items())
        if kind == "array":
            items = schema.get("items") or schema.get("prefixItems")
            return isinstance(node, list) and all(fits(v, items if isinstance(items, dict) else items[0]) for v in node)
        if kind == "string":
            return isinstance(node, str) and (schema.get("pattern") is None or re.search(schema["pattern"], node) is not None)
        return kind != "null" or node in (None, "")

    bad = [k for k, v in TREE.items() if not fits(v, made["properties"][k])]
    assert not bad


# -------------------------------------------------------------------------------------------------------------- migration


def test_there_is_a_step_from_every_older_version() -> None:
    assert sorted(STEPS) == list(range(1, SCHEMA_VERSION)) and Estate.model_fields["curtilage"].metadata[0].hi == SCHEMA_VERSION


def test_older_files_are_brought_up_step_by_step() -> None:
    tree: dict[str, Any] = {"curtilage": 1, "feeder": []}

    def rename(t: Any) -> None:
        t["feeders"] = t.pop("feeder")

    def note(t: Any) -> None:
        t["note"] = "seen"
    assert migrate(tree, "estate.yaml", 3, {1: rename, 2: note}) == [1, 2]
    assert tree == {"curtilage": 3, "feeders": [], "note": "seen"} and migrate(tree, "estate.yaml", 3, {}) == []


def test_what_cannot_be_migrated_is_left_as_it_is() -> None:
    tree: dict[str, Any] = {"curtilage": 1}
    with pytest.raises(CurtilageError) as x:
        migrate(tree, "estate.yaml", 3, {1: lambda t: t.clear()})
    assert str(x.value) == "estate.yaml curtilage: no step leads from version 2 to version 3 of the schema; write the file anew"
    assert tree == {"curtilage": 1}
    with pytest.raises(CurtilageError, match="the file has version 1 of the schema, and this package reads 0; install a newer"):
        migrate(tree, "estate.yaml", 0, {})
    with pytest.raises(CurtilageError, match=r"`curtilage migrate` rewrites it"):
        check_version(texts.parse_yaml(ESTATE, "estate.yaml"), "estate.yaml", 2)


def test_columns_and_categories_are_the_ones_of_the_contract() -> None:
    assert list(COLUMNS)[:8] == ["id", "structure", "panel", "location", "load", "kind", "category", "qty"]
    assert {c for c in CATEGORIES} == set(COLUMNS["category"].choices) and len(set(CATEGORIES)) == len(CATEGORIES)
    assert all(isinstance(m, Marker | Unit) for m in Estate.model_fields["curtilage"].metadata)
