"""From a tree with places to models, by the fields that the models declare; every fault is worded at its place.

The models are ordinary pydantic models, and `Model.model_validate` accepts and refuses the same. This walk exists for two
reasons: a message needs the place and the nearest name at the moment the fault is met, and a command that runs for a tenth
of a second should not spend another tenth on compiling validators. A test holds the two against each other.
"""
from collections.abc import Callable
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, BeforeValidator
from pydantic.fields import FieldInfo

from curtilage.errors import Problems, did_you_mean, listed
from curtilage.model.base import Marker, thing
from curtilage.model.places import Map, Place, Seq, id_of
from curtilage.units import QuantityError, Unit, shown

M = TypeVar("M", bound=BaseModel)
BAD: Any = object()
"""Stands for a value that could not be read; its problem has been noted."""


class Spot:
    """Where a value stands: its path and its place."""
    __slots__ = ("at", "path", "problems")

    def __init__(self, path: str, at: Place, problems: Problems) -> None:
        self.path, self.at, self.problems = path, at, problems

    def inner(self, name: str, at: Place) -> "Spot":
        """A spot one step further in."""
        return Spot(f"{self.path}.{name}" if self.path else name, at, self.problems)

    def wrong(self, given: str, expected: str = "", mend: str = "") -> Any:
        """Notes a problem here."""
        self.problems.add(f"{self.at.precise()} {self.path}".rstrip(), given, expected, mend)
        return BAD


Reader = Callable[[Any, Spot], Any]


def shaped(model: type[M], tree: Map, top: Place, problems: Problems) -> M | None:
    """A model from a tree; None, with everything wrong added to the problems, if it cannot be."""
    found = _model(model)(tree, Spot("", top, problems))
    return None if found is BAD else found


@cache
def _fields(model: type[BaseModel]) -> dict[str, tuple[str, FieldInfo, Reader]]:
    return {f.alias or name: (name, f, _reader(f.annotation, tuple(f.metadata))) for name, f in model.model_fields.items()}


def _model(model: type[BaseModel]) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        if not isinstance(given, Map):
            return spot.wrong(f"{thing(given)} stands here", f"expected a group of keys: {listed(_fields(model), 8)}")
        fields = _fields(model)
        values: dict[str, Any] = {}
        good = True
        for key, value in given.items():
            known = fields.get(key)
            if known is None:
                names = [n for n in fields if n not in given]
                spot.inner(key, given.keys_at[key]).wrong(f"there is no key {shown(key)} here", "",
                                                          did_you_mean(key, names) or f"known keys: {listed(fields, 99)}")
                good = False
                continue
            read_value = known[2](value, spot.inner(key, given.values_at[key]))
            good = good and read_value is not BAD
            values[known[0]] = read_value
        for key, (name, field, _) in fields.items():
            if name not in values and field.is_required() and key not in given:
                spot.inner(key, spot.at).wrong("is missing", f"expected {field.description}", "add it")
                good = False
        return model.model_construct(set(values), **values) if good else BAD
    return read


def _reader(annotation: Any, metadata: tuple[Any, ...] = ()) -> Reader:
    origin, args = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _reader(args[0], (*args[1:], *metadata))
    for m in metadata:
        if isinstance(m, Marker | Unit):
            return _parsed(m.parse)
        if isinstance(m, BeforeValidator):
            rest = tuple(x for x in metadata if x is not m)
            return _before(m.func, _reader(annotation, rest))
    if origin in (Union, UnionType):
        inner = _reader(next(a for a in args if a is not NoneType))
        return lambda given, spot: None if given is None else inner(given, spot)
    if origin is Literal:
        return _one_of(args)
    if origin is tuple:
        return _list(_reader(args[0]), metadata) if args[-1] is Ellipsis else _fixed([_reader(a) for a in args])
    if origin is dict:
        return _group(_reader(args[0]), _reader(args[1]))
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _model(annotation)
    return lambda given, spot: given


def _parsed(parse: Callable[[Any], Any]) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        try:
            return parse(given)
        except QuantityError as e:
            return spot.wrong(e.given, e.expected, e.mend)
    return read


def _before(function: Any, inner: Reader) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        try:
            given = function(given)
        except QuantityError as e:
            return spot.wrong(e.given, e.expected, e.mend)
        return inner(given, spot)
    return read


def _one_of(choices: tuple[Any, ...]) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        if isinstance(given, str) and given in choices:
            return given
        said = "nothing stands here" if given is None else f"{thing(given)} is not known here"
        return spot.wrong(said, f"allowed: {listed(choices, 99)}", did_you_mean(given, choices) if isinstance(given, str) else "")
    return read


def _places(given: Any, spot: Spot) -> list[Place]:
    return given.at if isinstance(given, Seq) else [spot.at] * len(given)


def _list(item: Reader, metadata: tuple[Any, ...]) -> Reader:
    least = next((m.min_length for m in metadata if hasattr(m, "min_length")), 0)
    most = next((m.max_length for m in metadata if hasattr(m, "max_length")), None)

    def read(given: Any, spot: Spot) -> Any:
        if not isinstance(given, list | tuple):
            return spot.wrong(f"{thing(given)} stands here", "expected a list")
        if len(given) < least or (most is not None and len(given) > most):
            allowed = f"expected {least} to {most}" if most else f"expected {least} or more"
            return spot.wrong(f"the list has {len(given) or 'no'} entr{'y' if len(given) == 1 else 'ies'}", allowed)
        at = _places(given, spot)
        found = [item(x, spot.inner(id_of(x) or str(i), at[i])) for i, x in enumerate(given)]
        return BAD if any(x is BAD for x in found) else tuple(found)
    return read


def _fixed(items: list[Reader]) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        if not isinstance(given, list | tuple) or len(given) != len(items):
            return spot.wrong(f"{thing(given)} stands here", f"expected a list of {len(items)}")
        at = _places(given, spot) if isinstance(given, Seq) else [spot.at] * len(items)
        found = [r(x, spot.inner(str(i), at[i])) for i, (r, x) in enumerate(zip(items, given, strict=True))]
        return BAD if any(x is BAD for x in found) else tuple(found)
    return read


def _group(key_reader: Reader, value_reader: Reader) -> Reader:
    def read(given: Any, spot: Spot) -> Any:
        if not isinstance(given, Map):
            return spot.wrong(f"{thing(given)} stands here", "expected a group of keys")
        keys = [key_reader(k, spot.inner(k, given.keys_at[k])) for k in given]
        values = [value_reader(v, spot.inner(k, given.values_at[k])) for k, v in given.items()]
        return BAD if any(x is BAD for x in (*keys, *values)) else dict(zip(keys, values, strict=True))
    return read
