"""Archives that were made to do harm, or came to harm: one line, nothing left behind.

F17, with counts. The archive that all of them are made from is a real one, written by
growdesk of May 2026 (form 1, schema 4); it stays restorable itself.
"""

from __future__ import annotations

import hashlib
import json
import random
import shutil
import stat
import struct
import tracemalloc
import zipfile
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import GrowdeskError
from growdesk.services.care_of_files import check
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.restoring import restore
from tests.faults import restoring_kit as kit

if TYPE_CHECKING:
    from collections.abc import Callable

OLD = Path(__file__).parents[1] / "data" / "backups" / "form-1.zip"
NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
DATABASE = "collection.sqlite"
MOST_HELD = 200_000_000
"""What reading any archive may hold in memory at once, in bytes."""

Files = dict[str, bytes]


def files_of_old() -> Files:
    with zipfile.ZipFile(OLD) as packed:
        return {name: packed.read(name) for name in packed.namelist()}


def manifest_of(files: Files) -> dict[str, object]:
    told = [
        {"name": name, "sha256": hashlib.sha256(raw).hexdigest(), "bytes": len(raw)}
        for name, raw in files.items()
    ]
    made_at = "2026-05-20T12:00:00+00:00"
    return {"program": "growdesk", "form": 1, "made_at": made_at, "files": told}


def pack(file: Path, files: Files, manifest: object, how: int = 0) -> Path:
    """Write files as an archive; a manifest that is text goes in as it is."""
    text = manifest if isinstance(manifest, str) else json.dumps(manifest)
    with zipfile.ZipFile(file, "w", how) as packed:
        for name, raw in files.items():
            packed.writestr(name, raw)
        packed.writestr("manifest.json", text)
    return file


def plus(name: str, raw: bytes = b"evil") -> Callable[[Path], Path]:
    """Give an archive that holds one more file, which its manifest vouches for."""

    def make(file: Path) -> Path:
        files = {**ours(), name: raw}
        return pack(file, files, manifest_of(files))

    return make


def ours() -> Files:
    files = files_of_old()
    del files["manifest.json"]
    return files


def photo_name(raw: bytes, ending: str = "png") -> str:
    sha256 = hashlib.sha256(raw).hexdigest()
    return f"photos/{sha256[:2]}/{sha256}.{ending}"


def told_as(**changes: object) -> Callable[[Path], Path]:
    """Give an archive whose manifest says something else."""

    def make(file: Path) -> Path:
        return pack(file, ours(), {**manifest_of(ours()), **changes})

    return make


def as_text(text: Callable[[], str]) -> Callable[[Path], Path]:
    return lambda file: pack(file, ours(), text())


def link(file: Path) -> Path:
    raw = b"/etc/passwd"
    files = {**ours(), photo_name(raw): raw}
    pack(file, ours(), manifest_of(files))
    info = zipfile.ZipInfo(photo_name(raw))
    info.create_system = 3
    info.external_attr = (stat.S_IFLNK | 0o777) << 16
    with zipfile.ZipFile(file, "a") as packed:
        packed.writestr(info, raw)
    return file


def folder_member(file: Path) -> Path:
    pack(file, ours(), manifest_of(ours()))
    with zipfile.ZipFile(file, "a") as packed:
        packed.writestr("photos/", b"")
    return file


def twice(file: Path) -> Path:
    pack(file, ours(), manifest_of(ours()))
    with (
        pytest.warns(UserWarning, match="Duplicate name"),
        zipfile.ZipFile(file, "a") as packed,
    ):
        packed.writestr(DATABASE, b"second")
    return file


def hidden_twice(file: Path) -> Path:
    """Give one whose second database has a name that ends in a zero sign and more."""
    pack(file, ours(), manifest_of(ours()))
    with zipfile.ZipFile(file, "a") as packed:
        packed.writestr("collection.sqlit_X.txt", b"second")
    raw = file.read_bytes()
    file.write_bytes(raw.replace(b"collection.sqlit_X.txt", b"collection.sqlite\0.txt"))
    return file


def bomb(how: int) -> Callable[[Path], Path]:
    def make(file: Path) -> Path:
        raw = bytes(60_000_000)
        files = {**ours(), photo_name(raw): raw}
        return pack(file, files, manifest_of(files), how)

    return make


def many_small_bombs(file: Path) -> Path:
    files = ours()
    for number in range(40):
        raw = number.to_bytes(4, "big") + bytes(1_000_000)
        files[photo_name(raw)] = raw
    return pack(file, files, manifest_of(files), zipfile.ZIP_DEFLATED)


def folded(file: Path) -> Path:
    """Give one whose members lie over one another: all point at the first's bytes."""
    raws = [bytes([number]) * 200_000 for number in range(20)]
    files = {**ours(), **{photo_name(raw): raw for raw in raws}}
    pack(file, files, manifest_of(files))
    raw_zip = bytearray(file.read_bytes())
    first, at = None, raw_zip.index(b"PK\x01\x02")
    for _ in files:
        length, extra, comment = struct.unpack_from("<HHH", raw_zip, at + 28)
        (offset,) = struct.unpack_from("<I", raw_zip, at + 42)
        if raw_zip[at + 46 : at + 52] == b"photos":
            first = offset if first is None else first
            struct.pack_into("<I", raw_zip, at + 42, first)
        at += 46 + length + extra + comment
    file.write_bytes(raw_zip)
    return file


def locked(file: Path) -> Path:
    pack(file, ours(), manifest_of(ours()))
    raw = bytearray(file.read_bytes())
    for magic, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        place = raw.index(magic)
        raw[place + at] |= 1
    file.write_bytes(raw)
    return file


def lies_of_zip64(file: Path) -> Path:
    """Give one whose list says that a file has 2^60 bytes."""
    pack(file, ours(), manifest_of(ours()))
    raw = bytearray(file.read_bytes())
    at = raw.index(b"PK\x01\x02")
    (length,) = struct.unpack_from("<H", raw, at + 28)
    extra = struct.pack("<HHQ", 1, 8, 1 << 60)
    struct.pack_into("<I", raw, at + 24, 0xFFFFFFFF)
    struct.pack_into("<H", raw, at + 30, len(extra))
    raw[at + 46 + length : at + 46 + length] = extra
    end = raw.rindex(b"PK\x05\x06")
    (size,) = struct.unpack_from("<I", raw, end + 12)
    struct.pack_into("<I", raw, end + 12, size + len(extra))
    file.write_bytes(raw)
    return file


def far_offset(file: Path) -> Path:
    pack(file, ours(), manifest_of(ours()))
    raw = bytearray(file.read_bytes())
    struct.pack_into("<I", raw, raw.index(b"PK\x01\x02") + 42, 0xFFFFFF00)
    file.write_bytes(raw)
    return file


def endless_list(file: Path) -> Path:
    """Give one whose list of members has 400 000 entries."""
    return listing(file, 400_000)


def long_list(file: Path) -> Path:
    """Give one whose list is just short enough to be read."""
    return listing(file, 340_000)


def listing(file: Path, count: int) -> Path:
    entry = (
        struct.pack(
            "<4s4B4HL2L5H2L",
            b"PK\x01\x02",
            20,
            3,
            20,
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            1,
            0,
            0,
            0,
            0,
            0,
            0,
        )
        + b"x"
    )
    listed = entry * count
    end = struct.pack(
        "<4s4H2LH", b"PK\x05\x06", 0, 0, 0xFFFF, 0xFFFF, len(listed), 4, 0
    )
    file.write_bytes(b"PK\x03\x04" + listed + end)
    return file


def long_manifest() -> str:
    """Give one that is just short enough to be read, and holds nothing of use."""
    return '{"program": "growdesk", "form": 1, "files": [' + "null," * 4_900_000 + "0]}"


def without_manifest(file: Path) -> Path:
    with zipfile.ZipFile(file, "w") as packed:
        for name, raw in ours().items():
            packed.writestr(name, raw)
    return file


def million_files() -> str:
    entry = json.dumps({"name": f"photos/ab/{'ab' * 32}.png", "sha256": "ab" * 32})
    return '{"program": "growdesk", "form": 1, "files": [' + f"{entry}," * 1_000_000


HOSTILE: dict[str, Callable[[Path], Path]] = {
    "slip": plus("../evil.txt"),
    "deep slip": plus("photos/../../../evil.png"),
    "absolute": plus("/tmp/evil.txt"),  # noqa: S108 -- a name in an archive
    "drive": plus("C:\\evil.txt"),
    "backslashes": plus("photos\\..\\..\\evil.txt"),
    "journal": plus(f"{DATABASE}-journal"),
    "write-ahead log": plus(f"{DATABASE}-wal"),
    "lock": plus("collection.lock"),
    "plan": plus("switch.json"),
    "not its own digest": plus(f"photos/ab/{'ab' * 32}.png"),
    "another alphabet": plus(f"photos/ａb/{'ab' * 32}.png"),
    "link": link,
    "folder": folder_member,
    "twice": twice,
    "hidden twice": hidden_twice,
    "bomb": bomb(zipfile.ZIP_DEFLATED),
    "bomb by bzip2": bomb(zipfile.ZIP_BZIP2),
    "bomb by lzma": bomb(zipfile.ZIP_LZMA),
    "many small bombs": many_small_bombs,
    "folded": folded,
    "locked": locked,
    "lies of zip64": lies_of_zip64,
    "far offset": far_offset,
    "endless list": endless_list,
    "no manifest": without_manifest,
    "long list": long_list,
    "long manifest": as_text(long_manifest),
    "deep manifest": as_text(lambda: "[" * 200_000),
    "huge manifest": as_text(lambda: '{"program": "' + "x" * 26_000_000),
    "million files": as_text(million_files),
    "manifest of spaces": lambda file: pack(
        file, ours(), " " * 24_000_000, zipfile.ZIP_DEFLATED
    ),
    "endless number": as_text(lambda: '{"program": "growdesk", "form": 1e400}'),
    "long number": as_text(lambda: '{"program": "growdesk", "form": ' + "9" * 5000),
    "form is true": told_as(form=True),
    "newer form": told_as(form=99),
    "before all time": told_as(made_at="0001-01-01T00:00:00+14:00"),
    "no instant": told_as(made_at=7),
    "nobody's": told_as(program="another"),
    "no files": told_as(files=[]),
    "files are a word": told_as(files="collection.sqlite"),
    "wrong hash": told_as(
        files=[{**each, "sha256": "0" * 64} for each in manifest_of(ours())["files"]]  # type: ignore[attr-defined]
    ),
    "length is true": told_as(
        files=[{**each, "bytes": True} for each in manifest_of(ours())["files"]]  # type: ignore[attr-defined]
    ),
}


def refused(file: Path, place: Path) -> GrowdeskError | None:
    """Bring one back into a new folder; give its refusal, once all is as it was."""
    try:
        restore(file, place / "new", NOW)
    except GrowdeskError as error:
        said = error
    else:
        return None
    assert "\n" not in said.line()
    assert len(said.line()) < 600
    assert list(place.iterdir()) == []
    return said


@pytest.fixture
def place(tmp_path: Path) -> Path:
    made = tmp_path / "place"
    made.mkdir()
    return made


def test_each_hostile_archive_is_refused_in_a_line_and_leaves_nothing(
    tmp_path: Path, place: Path, told: Callable[[str], None]
) -> None:
    most = 0
    for number, (name, make) in enumerate(HOSTILE.items()):
        file = make(tmp_path / f"{number}.zip")
        tracemalloc.start()
        error = refused(file, place)
        most = max(most, tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
        assert error is not None, name
        assert most < MOST_HELD, name
        file.unlink()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["place"]
    told(
        f"F17 archives: {len(HOSTILE)} hostile ones refused in a line, nothing outside,"
        f" nothing half; at most {most / 1e6:.0f} MB held"
    )


def test_an_archive_that_came_to_harm_is_refused_or_whole(
    tmp_path: Path, place: Path, told: Callable[[str], None]
) -> None:
    whole, draw = OLD.read_bytes(), random.Random(20261126)  # noqa: S311 -- a seed
    restore(OLD, tmp_path / "sound", NOW)
    sound = kit.state_of(tmp_path / "sound")
    file, cut, changed, same = tmp_path / "harmed.zip", 0, 0, 0
    for _ in range(100):
        file.write_bytes(whole[: draw.randrange(len(whole))])
        assert refused(file, place) is not None
        cut += 1
    listed = whole.index(b"PK\x01\x02")
    for number in range(300):
        raw = bytearray(whole)
        start = listed if number % 2 else 0  # half of them in the list of members
        raw[draw.randrange(start, len(raw))] ^= 1 << draw.randrange(8)
        file.write_bytes(raw)
        if refused(file, place) is None:
            assert kit.state_of(place / "new") == sound
            same += 1
            _clear(place)
        else:
            changed += 1
    assert changed > 200
    told(
        f"F17 archives: {cut} cut ones refused; of 300 with one bit changed {changed} "
        f"refused, {same} whole all the same; 0 brought back otherwise"
    )


def _clear(place: Path) -> None:
    for each in place.iterdir():
        shutil.rmtree(each)


def test_an_old_archive_comes_back_at_the_form_of_today(tmp_path: Path) -> None:
    back = restore(OLD, tmp_path / "mine", NOW)
    assert (back.plants, back.photos, back.problems) == (2, 2, ())
    assert check(back.folder).problems == ()
    clock = FixedClock(date(2026, 11, 26))
    with closing(Collection.open(back.folder, clock)) as collection:
        plants = collection.plants.all()
        assert [draft.tag for _, draft in plants] == ["A1", "A2"]
        photos = [collection.photos.of(plant_id) for plant_id, _ in plants]
        assert [photo.problem for found in photos for photo in found] == [None, None]
        undo = collection.history.view().undo
    assert undo is not None
