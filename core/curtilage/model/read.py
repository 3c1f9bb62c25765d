"""From a folder to a checked estate: the YAML file, the load list, and everything that refers from one to the other."""
from collections.abc import Mapping
import hashlib
from pathlib import Path
import re

from curtilage.editions import editions
from curtilage.errors import Problems, did_you_mean, listed, refuse
from curtilage.model import refs, sense
from curtilage.model import text as texts
from curtilage.model.estate import Estate
from curtilage.model.loadcheck import Context, check_loads
from curtilage.model.migrate import check_version
from curtilage.model.places import Map, Place
from curtilage.model.rows import Table, motor_rows, read_csv
from curtilage.model.service import VoltageKind
from curtilage.model.shape import shaped
from curtilage.model.source import Rows, Source
from curtilage.units import QuantityError, SplitVoltage, shown

ESTATE = "estate.yaml"
_YEAR = re.compile(r"nec[0-9]{4}")                              # another year is another edition, not a slip of the pen
USUAL = SplitVoltage(120.0, 240.0)


def load(path: str | Path) -> Estate:
    """An estate from its folder, or from the estate file itself. Raises `Problems` with everything that is wrong."""
    path = Path(path)
    file = path / ESTATE if path.is_dir() else path
    digests: dict[str, str] = {}
    tree = read_yaml(file, digests)
    check_version(tree, file.name)
    return build(Source(tree, Place(file.name, 1), Rows(_table(tree, file, digests)), file.parent, digests))


def from_text(estate: str, loads: str = "") -> Estate:
    """An estate from texts in hand, as if they were estate.yaml and loads.csv. Raises `Problems`."""
    tree = texts.parse_yaml(estate, ESTATE)
    check_version(tree, ESTATE)
    return build(Source(tree, Place(ESTATE, 1), Rows(read_csv(loads, "loads.csv") if loads else None), None))


def read_yaml(file: Path, digests: dict[str, str]) -> Map:
    """The tree of one YAML file; its digest is added. Raises `Problems`."""
    return texts.parse_yaml(texts.decode(_bytes(file, texts.LARGEST_YAML, digests), file.name), file.name)


def _bytes(file: Path, largest: int, digests: dict[str, str]) -> bytes:
    data = texts.read_bytes(file, file.name, largest)
    digests[file.name] = hashlib.sha256(data).hexdigest()
    return data


def _table(tree: Map, file: Path, digests: dict[str, str]) -> Table | None:
    name = tree.get("loads")
    if not isinstance(name, str) or not name.strip():
        return None
    where = f"{tree.values_at['loads'].precise()} loads"
    if Path(name).name != name or name.startswith("."):
        refuse(where, f"{shown(name)} is not the name of a file beside {file.name}", "", "write the name alone: loads.csv")
    if name.lower().endswith((".xlsx", ".csv")) and not (file.parent / name).exists():
        refuse(where, f"the load list {shown(name)} is not there", f"looked in {file.parent.name or file.parent}",
               "put it beside the estate file, or write its right name here")
    if name.lower().endswith(".xlsx"):
        from curtilage.model.sheet import read_xlsx

        return read_xlsx(_bytes(file.parent / name, texts.LARGEST_TABLE, digests), name)
    if not name.lower().endswith(".csv"):
        refuse(where, f"{shown(name)} is neither CSV nor XLSX", "", "save the load list as loads.csv")
    return read_csv(texts.decode(_bytes(file.parent / name, texts.LARGEST_TABLE, digests), name), name)


def build(source: Source, like: Estate | None = None) -> Estate:
    """A checked estate from what was read. `like` is an estate of the same file content, which is then not validated again."""
    problems = Problems()
    estate = like.model_copy() if like is not None else shaped(Estate, source.tree, source.top, problems)
    known = refs.names(source.tree, _load_places(source.rows))
    found = source.rows.read(problems)
    if like is None:
        _edition(source, problems)
        refs.check(source.tree, known, problems)
    check_loads(found, source.rows, Context(known, _voltage(source.tree), motor_rows()), problems)
    problems.stop()
    assert estate is not None
    estate._source, estate._loads = source, tuple(r.load for r in found)
    sense.workable(estate, problems)
    problems.stop()
    estate._warnings = tuple(sense.warnings(estate, found, source.rows))
    return estate


def _load_places(rows: Rows) -> Mapping[str, Place]:
    return dict.fromkeys(rows.names(), Place("", 0))


def _voltage(tree: Map) -> SplitVoltage:
    service = tree.get("service")
    try:
        return VoltageKind().parse(service.get("voltage")) if isinstance(service, Map) else USUAL
    except QuantityError:
        return USUAL                                           # it has its own message already


def _edition(source: Source, problems: Problems) -> None:
    tree = source.tree
    name, local = tree.get("edition"), tree.get("local")
    if isinstance(name, str) and name not in editions():
        problems.add(f"{tree.values_at['edition'].precise()} edition", f"there is no edition {shown(name)}",
                     f"known: {listed(editions())}", "" if _YEAR.fullmatch(name) else did_you_mean(name, editions()))
    if isinstance(local, str) and local and source.folder is not None:
        file = source.folder / "amendments" / f"{local}.toml"
        if Path(local).name != local or not file.is_file():
            there = sorted(p.stem for p in file.parent.glob("*.toml")) if file.parent.is_dir() else []
            problems.add(f"{tree.values_at['local'].precise()} local", f"there is no local layer {shown(local)}",
                         f"known: {listed(there)}" if there else "the folder amendments/ has none", "")
