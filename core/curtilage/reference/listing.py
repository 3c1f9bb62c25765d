"""The list of methods as Markdown, for the documentation of the file format. A test holds the documentation to it."""
from __future__ import annotations

from collections.abc import Iterable

from curtilage.reference import quantities
from curtilage.reference.given import sample
from curtilage.reference.kinds import COUNT, FLAG, NUMBER, REQUIRED, SIZE, WORDS, Key, Method
from curtilage.reference.rows import DWELLING

_KINDS = {COUNT: "whole number", NUMBER: "bare number", SIZE: "size", FLAG: "true or false"}


def markdown(methods: Iterable[Method]) -> str:
    """Every method with what it takes and what it gives."""
    parts = [_dwelling()]
    for m in methods:
        parts.append(_method(m))
    return "\n\n".join(parts)


def _dwelling() -> str:
    head = ("### Keys of a dwelling\n\nShared by the methods that say so. A list takes ratings (`[\"4 kW\", \"5.1 kW\"]`) "
            "or rows (`[{ rating = \"4 kW\", qty = 2, neutral = true }]`); of a row only the rating is needed.\n")
    row = next(k for k in DWELLING if k.row).row
    return "\n".join([head, *_keys(DWELLING), "", "Keys of a row:", "", *_keys(row)])


def _method(m: Method) -> str:
    own = m.keys
    shared = ""
    if all(k in m.keys for k in DWELLING):
        own = tuple(k for k in m.keys if k not in DWELLING)
        shared = "It takes the keys of a dwelling, and:" if own else "It takes the keys of a dwelling."
    about = f"{m.about} {m.notes}".strip()
    lines = [f"### `{m.name}`", "", f"{about} {shared}".strip(), "", *(_keys(own) if own else []), "",
             *_table(("result", "unit", "what it is"), ((f"`{r.name}`", _unit(r.unit), r.about) for r in m.results))]
    return "\n".join(lines)


def _keys(keys: Iterable[Key]) -> list[str]:
    return _table(("key", "what it is", "written"), ((f"`{k.name}`", _about(k), _written(k)) for k in keys))


def _about(k: Key) -> str:
    if not k.row or k.row[0].name == "rating":
        return k.about
    return f"{k.about}; each row with " + ", ".join(f"`{r.name}` ({r.about}: {_written(r)})" for r in k.row)


def _written(k: Key) -> str:
    if k.choices:
        kind = " or ".join(f'`"{c}"`' for c in k.choices)
    elif k.unit in _KINDS or k.unit == WORDS:
        kind = _KINDS.get(k.unit, "text")
    elif k.row and k.row[0].name != "rating":
        kind = "rows"
    else:
        kind = quantities.names(k.unit)
    many = "list; " if k.many else ""
    if k.default is REQUIRED:
        return f"{many}{kind}; needed, like `{sample(k)}`"
    return f"{many}{kind}{_default(k)}"


def _default(k: Key) -> str:
    if k.default is None or k.many or k.default == "":
        return "; may be left out"
    if isinstance(k.default, bool):
        return f"; otherwise {str(k.default).lower()}"
    if isinstance(k.default, str):
        return f'; otherwise `"{k.default}"`'
    unit = "" if k.unit in _KINDS else f" {k.unit}"
    return f"; otherwise {k.default:g}{unit}"


def _unit(unit: str) -> str:
    return {"": "none", WORDS: "text", FLAG: "yes or no"}.get(unit, unit)


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    return [f"| {' | '.join(r)} |" for r in (heads, ("---",) * len(heads), *rows)]
