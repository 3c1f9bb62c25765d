"""The only room that writes files or reads the clock. A file is replaced as a whole or not at all.

Every write goes to a new file beside the old one, is flushed to the disk, and takes the old one's name in one step; a process
that dies at any moment leaves the old file or the new one. One writer at a time holds a folder.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
import csv
import datetime
import errno
import hashlib
import io
import json
import os
from pathlib import Path
import sys
import tempfile
from typing import TYPE_CHECKING, Any

from curtilage.errors import CurtilageError, refuse

try:
    import fcntl
except ImportError:                                            # a system without it: the digest still guards a save
    fcntl = None  # type: ignore[assignment]

if TYPE_CHECKING:
    from curtilage.design import Design
    from curtilage.model import Estate

RECORD_LARGEST = 50_000_000                                     # bytes
STARTER = Path(__file__).parent / "data" / "starter"
_unpacked: list[tempfile.TemporaryDirectory[str]] = []         # records opened by this process; removed when it ends


def today() -> str:
    """The day, ISO 8601."""
    return datetime.date.today().isoformat()


def now() -> str:
    """The moment in universal time, to the second, ISO 8601."""
    return datetime.datetime.now(datetime.UTC).isoformat(timespec="seconds")


# ------------------------------------------------------------------------------------------------------------------ writing


def write_text(path: str | Path, text: str, *, new: bool = False) -> Path:
    """Writes a text as UTF-8. With `new`, an existing file is refused. Raises `CurtilageError`."""
    return write_bytes(path, text.encode("utf-8"), new=new)


def write_bytes(path: str | Path, data: bytes, *, new: bool = False, expect: str | None = None) -> Path:
    """Writes a file whole or not at all. `expect` is the SHA-256 of the content it may replace. Raises `CurtilageError`."""
    path = Path(path)
    target = path.resolve()                                    # a link stays a link; what it points at is replaced
    if target.is_dir():
        refuse(str(path), "is a folder", "expected the name of a file")
    if not target.parent.is_dir():
        refuse(str(path), f"there is no folder {path.parent}", "", "make it first")
    with _told(path), _held(target.parent):
        if new and target.exists():
            refuse(str(path), "there is a file of this name already", "", "choose another name, or remove it first")
        if expect is not None and _digest(target) != expect:
            refuse(str(path), "was changed by somebody else since it was read", "nothing was written",
                   "load the estate again and repeat the change")
        _replace(target, data)
    return path


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """Turns what the system says into a sentence."""
    try:
        yield
    except OSError as e:
        if e.errno in (errno.ENOSPC, errno.EDQUOT):
            refuse(str(path), "the disk is full", "nothing was changed", "free some space and save again")
        if e.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
            refuse(str(path), "may not be written here", "nothing was changed", "check the permissions of the folder")
        refuse(str(path), f"could not be written ({e.strerror or e})", "nothing was changed")


@contextmanager
def _held(folder: Path) -> Iterator[None]:
    """Holds a folder against other writers; the hold ends with the process, however it ends."""
    if fcntl is None:
        yield
        return
    fd = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            refuse(str(folder), "another program is writing in this folder", "nothing was changed", "try again in a moment")
        yield
    finally:
        os.close(fd)


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.exists() else ""


def _replace(target: Path, data: bytes) -> None:
    for left in target.parent.glob(f".{target.name}.*.new"):   # of a writer that died; nobody else writes here now
        left.unlink()
    beside = target.with_name(f".{target.name}.{os.getpid()}.new")
    mode = target.stat().st_mode & 0o777 if target.exists() else 0o644
    try:
        fd = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
        with open(fd, "wb") as f:
            f.write(data)
            f.flush()
            os.fsync(f.fileno())
        os.replace(beside, target)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(target.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


# ------------------------------------------------------------------------------------------------------------------ estates


def estate(path: str | Path, variants: Sequence[str] = (), edition: str | None = None,
           changes: Mapping[str, object] | None = None) -> Estate:
    """An estate from its folder, its estate.yaml or a frozen record, with variants, an edition and single values on it."""
    from curtilage.design import opening

    if _is_record(Path(path)):
        return recorded_estate(record(path), str(path), changes, variants, edition)
    return opening.estate(path, variants, edition, changes)


def _is_record(path: Path) -> bool:
    """Whether a file is a frozen record, whatever its name: JSON that holds the fingerprint of an edition."""
    if path.suffix == ".json" or not path.is_file():
        return path.suffix == ".json"
    with _told(path), path.open("rb") as f:
        return f.read(1) == b"{" and b'"edition_fingerprint"' in f.read(RECORD_LARGEST)


def variant_titles(path: str | Path) -> list[tuple[str, str, str]]:
    """(name, kind, title) of every variant of an estate, by name."""
    from curtilage.model import read_variant, variants

    folder = Path(path) if Path(path).is_dir() else Path(path).parent
    found = [read_variant(folder, name) for name in variants(folder)]
    return [(v.name, v.file.kind, v.file.title) for v in found]


def new_estate(folder: str | Path) -> Path:
    """Writes a small commented estate to begin with into a folder that is new or empty. Raises `CurtilageError`."""
    folder = Path(folder)
    if folder.is_file():
        refuse(str(folder), "is a file", "expected the name of a folder")
    if folder.is_dir() and any(folder.iterdir()):
        refuse(str(folder), "the folder is not empty", "", "name a new folder, or empty this one")
    with _told(folder):
        folder.mkdir(parents=True, exist_ok=True)
    for file in sorted(STARTER.iterdir(), key=lambda p: p.suffix):
        write_bytes(folder / file.name, file.read_bytes(), new=True)
    return folder


def save_estate(base: Estate, changes: Mapping[str, object], remove: Sequence[str] = ()) -> Estate:
    """Writes changed values into an estate's files; comments and everything else stay as they are.

    `changes` map a path to a value with its unit; a path such as `loads.L035.va` changes a cell of the load list.
    The changed estate is checked as a whole before anything is written, and files that somebody else has changed since
    the estate was read are refused. Where both files change, each is replaced whole, the load list first. Gives the
    estate as it now stands. Raises `CurtilageError`.
    """
    from curtilage.model import load

    folder, source = base.folder, base.source
    if folder is None or source.rows.changed or source.rows.added or source.rows.gone:
        raise CurtilageError("only an estate as it was loaded from its folder can be saved; save a variant instead")
    base.with_(changes, remove=remove, by="change")            # raises before anything is written
    cells = {p: v for p, v in changes.items() if p.startswith("loads.")}
    keys = {p: v for p, v in changes.items() if not p.startswith("loads.")}
    files: list[tuple[str, bytes]] = []
    if cells or any(p.startswith("loads.") for p in remove):
        table = source.rows.table
        assert table is not None
        files.append((table.name, _edited_table(base, folder / table.name, cells, remove)))
    if keys or any(not p.startswith("loads.") for p in remove):
        name = source.top.file
        files.append((name, _edited_yaml((folder / name).read_bytes(), keys, [p for p in remove if not p.startswith("loads.")])))
    for name, data in files:
        write_bytes(folder / name, data, expect=source.digests[name])
    return load(folder / source.top.file)


def _edited_yaml(data: bytes, changes: Mapping[str, object], remove: Sequence[str]) -> bytes:
    y, tree = _round_trip(data)
    for path in remove:
        node, key = _holder(tree, path)
        del node[key]
    for path, value in changes.items():
        node, key = _holder(tree, path)
        node[key] = value
    text = _dumped(y, tree)
    return text.replace(b"\n", b"\r\n") if b"\r\n" in data else text


def _round_trip(data: bytes) -> tuple[Any, Any]:
    from ruamel.yaml import YAML

    y = YAML(typ="rt")
    y.preserve_quotes = True
    y.indent(mapping=2, sequence=4, offset=2)
    y.width = 4096
    return y, y.load(data.decode("utf-8-sig").replace("\r\n", "\n"))


def _dumped(y: Any, tree: Any) -> bytes:
    out = io.StringIO()
    y.dump(tree, out)
    return out.getvalue().encode("utf-8")


def _holder(tree: Any, path: str) -> tuple[Any, Any]:
    """The group or list that holds the last step of a path, and its key; groups that are missing are made."""
    from curtilage.model.places import index_of, key_of

    node, steps = tree, path.split(".")
    for i, step in enumerate(steps):
        key = index_of(node, step) if isinstance(node, list) else step if step in node else key_of(step)
        if i == len(steps) - 1:
            return node, key
        if isinstance(node, dict) and node.get(key) is None:
            node[key] = {}
        node = node[key]
    raise AssertionError(path)


def _edited_table(base: Estate, path: Path, cells: Mapping[str, object], remove: Sequence[str]) -> bytes:
    """The load list with changed cells and without removed rows; every other line byte for byte."""
    from curtilage.model.text import decode

    table = base.source.rows.table
    assert table is not None
    if path.suffix.lower() != ".csv":
        refuse(table.name, "a workbook is not written", "expected a CSV file", "change it in its own program, or save it as CSV")
    raw = path.read_bytes()
    mark, text = raw[:3] if raw[:3] == b"\xef\xbb\xbf" else b"", decode(raw, table.name)
    lines = list(io.StringIO(text, newline=""))                # the lines that the CSV reader counts
    ends = [*[n - 1 for n in table.lines[1:]], len(lines)]
    changed = base.with_(cells, by="change").by_id
    for row, first, last in reversed(list(zip(table.rows, table.lines, ends, strict=True))):
        name = row[table.heads.index("id")]
        if f"loads.{name}" in remove:
            lines[first - 1:last] = []
            continue
        heads = [p.split(".")[2] for p in cells if p.startswith(f"loads.{name}.")]
        if heads:
            end = lines[first - 1:last][-1][len(lines[first - 1:last][-1].rstrip("\r\n")):]
            lines[first - 1:last] = [_csv_line(table, row, changed[name], heads, end)]
    return mark + "".join(lines).encode("utf-8")


def _csv_line(table: Any, row: list[str], load: Any, heads: list[str], end: str) -> str:
    from curtilage.model.loads import COLUMNS
    from curtilage.units import plain

    cells = list(row)
    for head in heads:
        if head not in table.heads:
            refuse(table.name, f"there is no column {head} to write to", "", f"add the head {head} to the first line")
        i, value = table.heads.index(head), getattr(load, head)
        if COLUMNS[head].kind == "quantity" and value is not None:
            a, b = table.factors[i]
            value = plain((value - b) / a)
        cells[i] = "" if value is None else "Y" if value is True else "N" if value is False else str(value)
    out = io.StringIO()
    csv.writer(out, lineterminator="").writerow(cells)
    return out.getvalue() + end


def save_variant(folder: str | Path, name: str, title: str, set_: Mapping[str, object], why: str = "", kind: str = "option",
                 replace: bool = False) -> Path:
    """Writes a variant of an estate, after trying it on the estate. Raises `CurtilageError`."""
    from curtilage.model import load
    from curtilage.model.base import IdKind
    from curtilage.model.variants import FOLDER

    folder = Path(folder)
    load(folder).with_(set_, by=f"{FOLDER}/{name}.yaml")
    IdKind().parse(name)
    from ruamel.yaml import YAML

    y = YAML(typ="rt")
    y.width = 4096
    text = _dumped(y, {"title": title, "why": why, "kind": kind, "set": dict(set_)})
    with _told(folder / FOLDER):
        (folder / FOLDER).mkdir(exist_ok=True)
    return write_bytes(folder / FOLDER / f"{name}.yaml", text, new=not replace)


def migrate_estate(folder: str | Path, steps: Mapping[int, Any] | None = None, target: int | None = None) -> Path | None:
    """Brings an estate file up to this package's version of the schema; the old file is kept beside it.

    Gives the path of the copy, or None if the file is of this version already. Raises `CurtilageError`.
    """
    from curtilage.model import migrate
    from curtilage.model.estate import SCHEMA_VERSION
    from curtilage.model.text import LARGEST_YAML, read_bytes

    file = Path(folder) / "estate.yaml" if Path(folder).is_dir() else Path(folder)
    data = read_bytes(file, file.name, LARGEST_YAML)
    y, tree = _round_trip(data)
    old = migrate.version_of(tree, file.name, f"{file.name} curtilage")
    way = migrate.migrate(tree, file.name, target or SCHEMA_VERSION, migrate.STEPS if steps is None else steps)
    if not way:
        return None
    kept = write_bytes(file.with_name(f"{file.name}.version-{old}"), data, new=True)
    write_bytes(file, _dumped(y, tree), expect=hashlib.sha256(data).hexdigest())
    return kept


# ------------------------------------------------------------------------------------------------------------------ records


def freeze(d: Design, variants: Sequence[str], path: str | Path) -> Path:
    """Writes a record of a design: all files of its estate, its edition, its results and a hash. An existing file is refused."""
    from curtilage.design.record import record as made

    folder, digests = d.estate.folder, d.estate.source.digests
    if folder is None:
        raise CurtilageError("only an estate that was loaded from a folder can be frozen")
    files = _files(folder, d.estate.source.top.file, d.estate.loads_file)
    for name, digest in digests.items():
        if hashlib.sha256(files[name]).hexdigest() != digest:
            refuse(name, "was changed since the design was made", "nothing was written", "design it again, then freeze")
    content = made(d, files, variants, today(), ".".join(map(str, sys.version_info[:3])))
    return write_text(path, json.dumps(content, indent=1, sort_keys=True, ensure_ascii=False, allow_nan=False) + "\n", new=True)


def _files(folder: Path, top: str, loads: str) -> dict[str, bytes]:
    from curtilage.model.text import LARGEST_TABLE, read_bytes

    names = [top, *([loads] if loads else [])]
    for sub, suffix in (("variants", "yaml"), ("decisions", "yaml"), ("amendments", "toml")):
        names.extend(f"{sub}/{p.name}" for p in sorted((folder / sub).glob(f"*.{suffix}")))
    return {name: read_bytes(folder / name, name, LARGEST_TABLE) for name in names}


def record(path: str | Path) -> dict[str, Any]:
    """The content of a record, held against its own hash. Raises `CurtilageError`."""
    from curtilage.design.record import opened
    from curtilage.model.text import decode, read_bytes

    return opened(decode(read_bytes(Path(path), str(path), RECORD_LARGEST), str(path)), str(path))


def recorded_estate(content: Mapping[str, Any], name: str, changes: Mapping[str, object] | Sequence[str] | None = None,
                    variants: Sequence[str] = (), edition: str | None = None) -> Estate:
    """The estate of a record, in the edition and with the variants it was frozen in; further variants and changes on top.

    `changes` are a mapping, or words such as "feeders.GH.length=520 ft". Raises `CurtilageError`.
    """
    from curtilage.design import opening
    from curtilage.design.record import unpacked

    home = tempfile.TemporaryDirectory(prefix="curtilage-")
    _unpacked.append(home)
    for file, data in unpacked(content).items():
        target = (Path(home.name) / file).resolve()
        if not target.is_relative_to(Path(home.name).resolve()):
            refuse(name, f"holds a file outside its folder: {file!r}", "", "do not use this record")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    top = next(f for f in sorted(content["files"]) if "/" not in f and f.endswith((".yaml", ".yml")))
    wanted = changes if isinstance(changes, Mapping) else dict(_assignment(c) for c in changes or ())
    names = [*content["variants"], *variants]
    if "edition" not in wanted:
        edition = edition or content["edition"]
    return opening.estate(Path(home.name) / top, names, edition, wanted, "--set")


def _assignment(words: str) -> tuple[str, object]:
    """'feeders.GH.length=520 ft' -> path and value."""
    from curtilage.model.text import parse_yaml

    path, sign, value = words.partition("=")
    if not sign or not path.strip():
        refuse("--set", f"{words!r} is not an assignment", "expected PATH=VALUE", "write for example feeders.GH.length='520 ft'")
    return path.strip(), parse_yaml(f"value: {value.strip()}\n", "--set")["value"]
