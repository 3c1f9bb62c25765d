"""Versions of the estate file's schema: older files are brought up step by step, newer ones are refused."""
from collections.abc import Callable, Mapping
from typing import Any

from curtilage.errors import Problems, refuse
from curtilage.model.places import Map

Step = Callable[[Any], None]
"""Changes a tree in place, from one version to the next."""

STEPS: Mapping[int, Step] = {}
"""Version -> the step that leads on from it. The first version of the schema has nothing before it."""


def version_of(tree: Mapping[str, Any], name: str, where: str) -> int:
    """The version a file states. Raises `Problems`."""
    version = tree.get("curtilage")
    if version is None:
        refuse(where, "the key curtilage is missing: it states the version of the file's schema", "",
               "begin the file with the line 'curtilage: 1'")
    if not isinstance(version, int) or isinstance(version, bool) or version < 0:
        refuse(where, f"{version!r} is not a version of the schema", "expected a whole number", "write 'curtilage: 1'")
    return version


def check_version(tree: Map, name: str, target: int = 1) -> None:
    """Refuses a file of another version than this package reads, and says which way out there is."""
    at = tree.values_at.get("curtilage")
    where = f"{at.precise()} curtilage" if at else f"{name}:1"
    version = version_of(tree, name, where)
    if version > target:
        refuse(where, f"the file has version {version} of the schema, and this package reads {target}", "",
               "install a newer package; nothing was changed")
    if version < target:
        refuse(where, f"the file has version {version} of the schema, and this package reads {target}", "",
               "`curtilage migrate` rewrites it and keeps the old file beside the new one")


def migrate(tree: Any, name: str, target: int, steps: Mapping[int, Step] = STEPS) -> list[int]:
    """Brings a tree up to the target version in place; gives the versions it went through. Raises `Problems`, unchanged."""
    version = version_of(tree, name, f"{name} curtilage")
    problems = Problems()
    if version > target:
        problems.add(f"{name} curtilage", f"the file has version {version} of the schema, and this package reads {target}", "",
                     "install a newer package")
    way = list(range(version, target))
    for v in way:
        if v not in steps:
            problems.add(f"{name} curtilage", f"no step leads from version {v} to version {v + 1} of the schema", "",
                         "write the file anew")
    problems.stop()
    for v in way:
        steps[v](tree)
        tree["curtilage"] = v + 1
    return way
