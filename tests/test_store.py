"""Files are written whole or not at all, whatever happens in between; comments stay; errors are sentences."""
from __future__ import annotations

import errno
import json
import os
from pathlib import Path
import shutil
import signal
import subprocess
import sys
from typing import Any

from curtilage import store
from curtilage.errors import CurtilageError
from curtilage.model import load
from curtilage.model import text as texts
import pytest
from small_estate import ESTATE, LOADS

DEMO = Path(__file__).resolve().parent.parent / "demo_estate"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "estate.yaml").write_text(ESTATE)
    (tmp_path / "loads.csv").write_text(LOADS)
    return tmp_path


def said(call: Any, *args: Any, **named: Any) -> str:
    with pytest.raises(CurtilageError) as e:
        call(*args, **named)
    return str(e.value)


def listing(path: Path) -> list[str]:
    return sorted(p.name for p in path.iterdir())


# ------------------------------------------------------------------------------------------------------------------ writing


def test_a_file_is_written_and_replaced(tmp_path: Path) -> None:
    store.write_text(tmp_path / "a.txt", "één\n")
    assert (tmp_path / "a.txt").read_bytes() == "één\n".encode()
    (tmp_path / "a.txt").chmod(0o600)
    store.write_text(tmp_path / "a.txt", "two\n")
    assert (tmp_path / "a.txt").read_text() == "two\n" and (tmp_path / "a.txt").stat().st_mode & 0o777 == 0o600
    assert listing(tmp_path) == ["a.txt"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "a.txt").write_text("old")
    (tmp_path / "a.txt").symlink_to(tmp_path / "real" / "a.txt")
    store.write_text(tmp_path / "a.txt", "new")
    assert (tmp_path / "a.txt").is_symlink() and (tmp_path / "real" / "a.txt").read_text() == "new"


def test_what_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    assert said(store.write_text, tmp_path / "a.txt", "x", new=True) == (
        f"{tmp_path}/a.txt: there is a file of this name already; choose another name, or remove it first")
    assert said(store.write_text, tmp_path, "x") == f"{tmp_path}: is a folder; expected the name of a file"
    assert said(store.write_text, tmp_path / "no" / "a.txt", "x") == (
        f"{tmp_path}/no/a.txt: there is no folder {tmp_path}/no; make it first")


@pytest.mark.parametrize("number,says", [
    (errno.ENOSPC, "the disk is full; nothing was changed; free some space and save again"),
    (errno.EDQUOT, "the disk is full; nothing was changed; free some space and save again"),
    (errno.EACCES, "may not be written here; nothing was changed; check the permissions of the folder"),
    (errno.EROFS, "may not be written here; nothing was changed; check the permissions of the folder"),
    (errno.EIO, "could not be written (Input/output error); nothing was changed")])
@pytest.mark.parametrize("where", ["open", "fsync", "replace"])
def test_an_error_of_the_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, says: str,
                                                  where: str) -> None:
    (tmp_path / "a.txt").write_text("old")
    was = getattr(os, where)

    def broken(*args: Any, **named: Any) -> Any:
        if where == "open" and ".new" not in str(args[0]):
            return was(*args, **named)
        raise OSError(number, os.strerror(number))
    monkeypatch.setattr(os, where, broken)
    assert said(store.write_text, tmp_path / "a.txt", "new") == f"{tmp_path}/a.txt: {says}"
    monkeypatch.undo()
    assert listing(tmp_path) == ["a.txt"] and (tmp_path / "a.txt").read_text() == "old"


@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="the administrator may write anywhere")
def test_a_folder_that_may_only_be_read(folder: Path) -> None:
    e = load(folder)
    folder.chmod(0o500)
    try:
        assert "may not be written here; nothing was changed" in said(store.save_estate, e, {"feeders.GH.size": "500"})
    finally:
        folder.chmod(0o700)


KILLED = """
import os, signal, sys
from curtilage import store
where, path = sys.argv[1], sys.argv[2]
def die(*args, **named):
    os.kill(os.getpid(), signal.SIGKILL)
class Half:
    def __init__(self, f): self.f = f
    def __enter__(self): return self
    def __exit__(self, *a): self.f.close()
    def write(self, data):
        self.f.write(data[:len(data) // 2]); self.f.flush(); die()
if where == "half":
    was = open
    store.open = lambda *a, **k: Half(was(*a, **k))
elif where == "after":
    was = os.replace
    os.replace = lambda *a: (was(*a), die())
elif where == "folder":
    was, calls = os.fsync, []
    os.fsync = lambda fd: die() if calls else (calls.append(1), was(fd))
else:
    setattr(os, where, die)
store.write_text(path, "new " * 100_000)
"""


@pytest.mark.parametrize("where,left", [
    ("half", "old"), ("fsync", "old"), ("replace", "old"), ("after", "new"), ("folder", "new")])
def test_a_process_that_dies_leaves_the_old_file_or_the_new_one(tmp_path: Path, where: str, left: str) -> None:
    path = tmp_path / "a.txt"
    path.write_text("old " * 100_000)
    done = subprocess.run([sys.executable, "-c", KILLED, where, str(path)], capture_output=True)
    assert done.returncode == -signal.SIGKILL, done.stderr
    assert path.read_text() == f"{left} " * 100_000
    store.write_text(path, "later")                            # what the dead process left is cleared away, its hold is gone
    assert path.read_text() == "later" and listing(tmp_path) == ["a.txt"]


def test_two_writers(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    other = ("import fcntl, os, sys\nfcntl.flock(os.open(sys.argv[1], os.O_RDONLY), fcntl.LOCK_EX)\n"
             "print('held', flush=True)\nsys.stdin.read()")
    hold = subprocess.Popen([sys.executable, "-c", other, str(tmp_path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
    assert hold.stdout is not None and hold.stdout.readline() == b"held\n"
    assert said(store.write_text, tmp_path / "a.txt", "new") == (
        f"{tmp_path}: another program is writing in this folder; nothing was changed; try again in a moment")
    hold.communicate()
    store.write_text(tmp_path / "a.txt", "new")
    assert (tmp_path / "a.txt").read_text() == "new"


# ------------------------------------------------------------------------------------------------------------------ estates


def test_the_starter_estate_is_right_and_complete(tmp_path: Path) -> None:
    made = store.new_estate(tmp_path / "first")
    e = store.estate(made)
    assert e.warnings == () and {s.occupancy for s in e.structures} == {"dwelling", "accessory"}
    assert e.service.voltage == (120, 240) and len(e.loads) >= 15 and e.route("HS", "GR").length == 80
    comments = (made / "estate.yaml").read_text().count("#")
    assert comments > 20 and listing(made) == ["estate.yaml", "loads.csv"]


def test_a_new_estate_never_overwrites(tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine.txt").write_text("mine")
    assert said(store.new_estate, tmp_path / "full") == (
        f"{tmp_path}/full: the folder is not empty; name a new folder, or empty this one")
    assert said(store.new_estate, tmp_path / "full" / "mine.txt") == (
        f"{tmp_path}/full/mine.txt: is a file; expected the name of a folder")
    assert listing(tmp_path / "full") == ["mine.txt"]
    (tmp_path / "empty").mkdir()
    assert store.estate(store.new_estate(tmp_path / "empty"))


def changed_lines(before: bytes, after: bytes) -> list[tuple[bytes, bytes]]:
    a, b = before.splitlines(keepends=True), after.splitlines(keepends=True)
    assert len(a) == len(b)
    return [(x, y) for x, y in zip(a, b, strict=True) if x != y]


def test_a_save_changes_what_it_was_told_and_nothing_else(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "demo")
    file, rows = tmp_path / "demo" / "estate.yaml", tmp_path / "demo" / "loads.csv"
    before, list_before = file.read_bytes(), rows.read_bytes()
    e = load(tmp_path / "demo")
    size = "350" if e.value("feeders.EG.size") != "350" else "300"
    again = store.save_estate(e, {"site.elevation": "5400 ft", "feeders.EG.size": size})
    assert again.site.elevation == 5400 and again.value("feeders.EG.size") == size
    assert list_before == rows.read_bytes()
    moved = changed_lines(before, file.read_bytes())
    assert 1 <= len(moved) <= 2 and all(x.count(b"#") == y.count(b"#") for x, y in moved)


def test_a_save_of_the_demonstration_estate_as_it_is_changes_no_byte(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "demo")
    file = tmp_path / "demo" / "estate.yaml"
    before = file.read_bytes()
    e = load(tmp_path / "demo")
    store.save_estate(e, {"site.elevation": "5350 ft"})
    assert changed_lines(before, file.read_bytes()) == []


def test_cells_of_the_load_list_are_saved_in_the_unit_of_their_head(folder: Path) -> None:
    text = LOADS.replace("length [ft]", "length [m]")
    (folder / "loads.csv").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    before = (folder / "loads.csv").read_bytes()
    again = store.save_estate(load(folder), {"loads.L3.length": "100 ft", "loads.L3.continuous": True, "loads.L5.note": "a, b"})
    assert again.by_id["L3"].length == pytest.approx(100) and again.by_id["L5"].note == "a, b"
    after = (folder / "loads.csv").read_bytes()
    assert after.startswith(b"\xef\xbb\xbf") and b",30,30.48," in after and after.count(b"\r\n") == after.count(b"\n")
    assert before.split(b"\r\nL3")[0] == after.split(b"\r\nL3")[0] and after.count(b"\n") == before.count(b"\n") - 1


def test_keys_and_rows_are_removed_and_groups_are_made(folder: Path) -> None:
    again = store.save_estate(load(folder), {"service.metering.kind": "self-contained", "owner": {"outage": "72 h"}},
                              remove=["loads.L7", "policy.growth"])
    assert again.service.metering is not None and again.owner is not None and again.owner.outage == 72
    assert again.policy.growth is None and len(again.loads) == 6
    assert (folder / "estate.yaml").read_text().count("metering") == 1


def test_a_wrong_change_writes_nothing(folder: Path) -> None:
    assert said(store.save_estate, load(folder), {"feeders.GH.size": "5/0", "loads.L3.length": "30 ft"}) == (
        "change feeders.GH.size: '5/0' is not a conductor size; allowed: 14 to 4/0 (AWG), 250 to 2000 (kcmil)")
    assert said(store.save_estate, load(folder), {"loads.L3.tier": "T1"}) == (
        "loads.csv: there is no column tier to write to; add the head tier to the first line")
    assert (folder / "estate.yaml").read_text() == ESTATE and (folder / "loads.csv").read_text() == LOADS


def test_a_file_that_somebody_else_changed_is_not_overwritten(folder: Path) -> None:
    e = load(folder)
    (folder / "estate.yaml").write_text(ESTATE + "# a remark of somebody else\n")
    assert said(store.save_estate, e, {"feeders.GH.size": "500"}) == (
        f"{folder}/estate.yaml: was changed by somebody else since it was read; nothing was written; "
        "load the estate again and repeat the change")
    assert "somebody else" in (folder / "estate.yaml").read_text()
    assert said(store.save_estate, e.with_({"loads.L3.length": "40 ft"}), {"feeders.GH.size": "500"}) == (
        "only an estate as it was loaded from its folder can be saved; save a variant instead")


def test_a_what_if_is_saved_as_a_variant(folder: Path) -> None:
    changes = {"feeders.GH.size": "500", "loads.L3.length": "40 ft"}
    path = store.save_variant(folder, "wide", "A wider feeder", changes, why="drop")
    assert path == folder / "variants" / "wide.yaml" and load(folder).variant("wide").value("feeders.GH.size") == "500"
    assert store.variant_titles(folder) == [("wide", "option", "A wider feeder")]
    assert "there is a file of this name already" in said(store.save_variant, folder, "wide", "x", {"feeders.GH.size": "600"})
    assert "there is no 'GX' in feeders" in said(store.save_variant, folder, "other", "x", {"feeders.GX.size": "600"})
    assert "cannot be an id" in said(store.save_variant, folder, "../other", "x", {"feeders.GH.size": "600"})
    store.save_variant(folder, "wide", "A wider feeder", {"feeders.GH.size": "600"}, replace=True)
    assert load(folder).variant("wide").value("feeders.GH.size") == "600" and listing(folder / "variants") == ["wide.yaml"]


def test_an_older_estate_is_migrated_with_a_copy(folder: Path) -> None:
    old = ESTATE.replace("feeders:", "lines:   # as they were called").replace("name: Two", "name:   Two")
    (folder / "estate.yaml").write_text(old)

    def step(tree: Any) -> None:
        tree.insert(list(tree).index("lines"), "feeders", tree.pop("lines"))
    kept = store.migrate_estate(folder, {1: step}, target=2)
    assert kept == folder / "estate.yaml.version-1" and kept.read_text() == old
    text = (folder / "estate.yaml").read_text()
    assert text.startswith("curtilage: 2\n") and "feeders:" in text and "lines:" not in text
    assert store.migrate_estate(folder, {}, target=2) is None
    assert "install a newer package" in said(store.migrate_estate, folder)


# ------------------------------------------------------------------------------------------------------------------ records


def test_a_record_holds_what_it_needs_and_reproduces(tmp_path: Path) -> None:
    from curtilage.design import Design
    from curtilage.design.record import replayed

    made = store.new_estate(tmp_path / "first")
    d = Design(store.estate(made))
    path = store.freeze(d, [], tmp_path / "record.json")
    content = store.record(path)
    assert sorted(content["files"]) == ["estate.yaml", "loads.csv"] and content["date"] == store.today()
    assert "there is a file of this name already" in said(store.freeze, d, [], path)
    shutil.rmtree(made)                                        # the record stands alone
    assert said(store.freeze, d, [], path) == "estate.yaml: there is no such file; looked in first"
    again = Design(store.estate(path))
    assert replayed(content, again).reproduces
    assert store.recorded_estate(content, "record.json").edition == content["edition"] == "nec2023"
    assert store.recorded_estate(content, "record.json", ["edition=nec2026"]).edition == "nec2026"
    assert "nec2077" in said(store.recorded_estate, content, "record.json", ["edition=nec2077"])
    other = store.recorded_estate(content, "record.json", ["feeders.GR.breaker=70 A", "service.transformer.rating = 75 kVA"])
    assert other.value("feeders.GR.breaker") == 70 and str(other.places["feeders.GR.breaker"]) == "--set"


def test_what_is_wrong_with_a_record(tmp_path: Path) -> None:
    made = store.new_estate(tmp_path / "first")
    from curtilage.design import Design

    d = Design(store.estate(made))
    (made / "loads.csv").write_text((made / "loads.csv").read_text() + "\n")
    assert said(store.freeze, d, [], tmp_path / "r.json") == (
        "loads.csv: was changed since the design was made; nothing was written; design it again, then freeze")
    path = store.freeze(Design(store.estate(made)), [], tmp_path / "r.json")
    path.write_text(path.read_text().replace("2400 ft2", "2500 ft2"))
    assert "altered after it was frozen" in said(store.record, path)
    assert "not a frozen record" in said(store.record, made / "estate.yaml")
    assert "there is no such file" in said(store.record, tmp_path / "none.json")
    evil = {"files": {"../evil.txt": {"text": "x"}}, "variants": [], "edition": "nec2023"}
    assert said(store.recorded_estate, evil, "r.json") == (
        "r.json: holds a file outside its folder: '../evil.txt'; do not use this record")
    assert said(store.recorded_estate, {"files": {"estate.yaml": {"text": ESTATE}, "loads.csv": {"text": LOADS}}, "variants": [],
                                        "edition": "nec2023"}, "r.json", ["feeders.GH.size"]) == (
        "--set: 'feeders.GH.size' is not an assignment; expected PATH=VALUE; write for example feeders.GH.length='520 ft'")


def test_the_clock_speaks_iso() -> None:
    assert len(store.today()) == 10 and store.now().startswith(store.today()[:3]) and store.now().endswith("+00:00")


def test_a_record_is_plain_json(tmp_path: Path) -> None:
    from curtilage.design import Design

    path = store.freeze(Design(store.estate(store.new_estate(tmp_path / "first"))), [], tmp_path / "r.json")
    assert json.loads(texts.decode(path.read_bytes(), "r.json"))["estate"] == "First estate"
