"""Pictures that mean harm or were harmed: refused in a line, and the list goes on.

The counts of the fault list: 100 files cut off, and every other case one by one. What
decodes much is taken in a process whose memory is bounded, so that it cannot pass by
taking all there is.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.services.values import PlantDraft
from growdesk.store.photos import (
    examine,
    make_thumbnail,
    photo_path,
    put,
    whole_content,
)
from growdesk.store.pictures import UnreadableError
from tests.faults import picture_files as made

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

Told = Callable[[str], None]
TODAY = date(2026, 11, 25)
MEGABYTES = 1_300
"""What the process may map in all, its libraries and a file of 100 MB among it."""
linux = pytest.mark.skipif(sys.platform != "linux", reason="bounds memory by rlimit")
pipes = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes")


@pytest.fixture(autouse=True)
def there(tmp_path: Path) -> None:
    """Make the folder that photos go into: one that is gone takes none."""
    (tmp_path / "collection").mkdir(exist_ok=True)


def test_a_file_cut_anywhere_is_refused_and_leaves_nothing(
    tmp_path: Path, told: Told
) -> None:
    folder, path = tmp_path / "collection", tmp_path / "cut.jpg"
    whole = made.camera_jpeg()
    refused = 0
    for content in made.cut(whole, 100, seed=10):
        path.write_bytes(content)
        with pytest.raises(UnreadableError, match=r"cut\.jpg is "):
            put(folder, examine(path, TODAY))
        refused += 1
    assert [*folder.rglob("*")] == []
    path.write_bytes(whole)
    assert put(folder, examine(path, TODAY)).width == 320
    told(f"F10 photos: 100 cut at random places, {refused} refused, 0 kept")


@linux
def test_every_odd_and_hostile_file_ends_within_bounds(
    tmp_path: Path, told: Told
) -> None:
    source, target = tmp_path / "in", tmp_path / "out"
    source.mkdir()
    must_say = made.write(source, made.all_cases())
    ran = subprocess.run(
        [
            *(sys.executable, "-m", "tests.faults.pictures_taken"),
            *(str(source), str(target), str(MEGABYTES)),
        ],
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert ran.returncode == 0, ran.stderr[-2000:]
    lines = [json.loads(line) for line in ran.stdout.splitlines()]
    said = {name: line for name, line, _ in lines if name}
    assert said.keys() == must_say.keys()
    wrong = {
        name: line
        for name, line in said.items()
        if (must_say[name] not in line if must_say[name] else line)
    }
    assert wrong == {}
    peak = lines[-1][2]
    taken = list(said.values()).count("")
    told(
        f"F10 photos: {len(said)} odd and hostile files, {taken} taken,"
        f" {len(said) - taken} refused in a line, peak {peak} MB of {MEGABYTES}"
    )


def _dead_link(path: Path) -> None:
    path.symlink_to(path.with_name("nowhere.jpg"))


def _loop(path: Path) -> None:
    path.symlink_to(path)


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


@pipes
@pytest.mark.parametrize("make", [Path.mkdir, _dead_link, _loop, _pipe, _endless])
def test_what_is_no_file_is_refused_at_once(
    make: Callable[[Path], None], tmp_path: Path
) -> None:
    path = tmp_path / "photo.jpg"
    make(path)
    with pytest.raises(UnreadableError, match=r"photo\.jpg cannot be read \("):
        put(tmp_path / "collection", examine(path, TODAY))


@pipes
def test_a_name_that_is_no_text_is_kept_as_it_can_be_shown(
    collection: Collection, tmp_path: Path
) -> None:
    plant = collection.plants.add(PlantDraft("C7", "Cattleya", "cattleya")).ids[0]
    names = [
        b"caf\xe9.jpg",
        b"a\nb<b>.jpg",
        b"x" * 251 + b".jpg",
        "\u202egnp.\u0301.jpg".encode(),
    ]
    paths = []
    for shade, name in enumerate(names):
        paths.append(Path(os.fsdecode(bytes(tmp_path) + b"/" + name)))
        Image.new("RGB", (9, 9), (shade * 60, 90, 0)).save(paths[-1])
    done = collection.photos.add(plant, paths)
    assert len(done.ids) == len(names)
    bad = Path(os.fsdecode(bytes(tmp_path) + b"/\xff\xfe.jpg"))
    bad.write_bytes(b"no picture")
    ((line,),) = (came.problems for came in collection.photos.arriving([bad]))
    assert line.encode().startswith(b"\xef\xbf\xbd\xef\xbf\xbd.jpg is no picture")
    files = [view.path for view in collection.photos.of(plant)]
    assert all(len(path.stem) == 64 for path in files)


def test_what_lies_in_the_collection_is_what_was_checked(
    tmp_path: Path, told: Told
) -> None:
    path, folder = tmp_path / "changing.jpg", tmp_path / "collection"
    contents = [made.camera_jpeg((64, 48)), made.png_of(50, 40), b"no picture"]
    path.write_bytes(contents[0])
    over = threading.Event()

    def change() -> None:
        turn = 0
        while not over.is_set():
            path.write_bytes(contents[turn % 3])
            turn += 1
            time.sleep(0.004)

    writer = threading.Thread(target=change)
    writer.start()
    taken = refused = 0
    try:
        for _ in range(3_000):
            if taken >= 30 and refused >= 30:
                break
            try:
                put(folder, examine(path, TODAY))
                taken += 1
            except UnreadableError:
                refused += 1
    finally:
        over.set()
        writer.join()
    kept = [file for file in folder.rglob("*") if file.is_file()]
    assert all(
        file.stem == hashlib.sha256(file.read_bytes()).hexdigest() for file in kept
    )
    assert {file.read_bytes() for file in kept} <= set(contents[:2])
    assert (taken, refused) >= (1, 1)
    told(
        f"F10 photos: a file that changes while it is read, {taken} taken whole,"
        f" {refused} refused, 0 kept that were not checked"
    )


def _cut_short(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:900])


def _replaced(path: Path) -> None:
    path.write_bytes(b'<svg xmlns="http://www.w3.org/2000/svg"/>')


def _swapped(path: Path) -> None:
    path.write_bytes(made.camera_jpeg((80, 60)))


def _emptied(path: Path) -> None:
    path.write_bytes(b"")


def _as_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def _as_pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


HARMED: list[Callable[[Path], None]] = [
    Path.unlink,
    _cut_short,
    _replaced,
    _swapped,
    _emptied,
    _as_folder,
    _as_pipe,
]


@pipes
@pytest.mark.parametrize("harm", HARMED)
def test_a_photo_of_the_collection_that_was_harmed_gives_no_thumbnail(
    harm: Callable[[Path], None], tmp_path: Path
) -> None:
    source = tmp_path / "a.jpg"
    source.write_bytes(made.camera_jpeg())
    folder = tmp_path / "collection"
    stored = put(folder, examine(source, TODAY))
    path = photo_path(folder, stored.sha256, stored.ext)
    harm(path)
    assert make_thumbnail(folder, stored.sha256, stored.ext) is None
    with pytest.raises(UnreadableError):
        whole_content(path)


def test_heic_without_what_reads_it_says_how_to_go_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    path = tmp_path / "phone.heic"
    path.write_bytes(b"\x00\x00\x00\x18ftypheic" + bytes(400))
    with pytest.raises(UnreadableError, match=r"let the phone save JPEG\. It was left"):
        put(tmp_path / "collection", examine(path, TODAY))


def test_a_disk_that_will_not_read_is_told_by_its_own_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.jpg"
    path.write_bytes(made.camera_jpeg())

    def fail(*_given: object) -> int:
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    monkeypatch.setattr(os, "open", fail)
    with pytest.raises(UnreadableError, match="Input/output error"):
        put(tmp_path / "collection", examine(path, TODAY))
