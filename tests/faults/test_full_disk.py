"""F5: a disk that is full, or takes no larger file, costs nothing that was kept."""

from __future__ import annotations

import errno
import random
import shutil
from contextlib import closing, suppress
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import FullError, GrowdeskError
from growdesk.domain.facts import Look
from growdesk.services import backups, care_of_files, daily_backup, full_check
from growdesk.services.backup_values import Why
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store import photos as photo_store
from growdesk.store import reserve
from tests.faults import acts, content
from tests.faults.beside_files import disk
from tests.faults.forked import killed
from tests.faults.running import linux_only
from tests.faults.test_reserve import fill

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

pytestmark = linux_only

CLOCK = FixedClock(acts.TODAY)
_STEP, _SIZES = 25_000, 40


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("laid") / "collection"
    acts.prepare(folder)
    return folder


def _work(folder: Path, out: Path, limit: int, say: Callable[..., None]) -> None:
    """Write on, while no file may grow larger than some bytes."""
    import resource  # noqa: PLC0415 -- POSIX alone has it

    opened = Collection.open(folder, CLOCK)
    plant = opened.plants.all()[0][0]
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    picture = out / "p.jpg"
    works: dict[str, Callable[[], object]] = {
        **{
            f"note {at}": lambda: opened.looks.record(
                plant, Look(acts.TODAY), "n" * 9_000
            )
            for at in range(12)
        },
        "photo": lambda: opened.photos.add(plant, [picture]),
        "backup": lambda: backups.make(folder, Why.BY_HAND, CLOCK.now()),
        "zip": lambda: care_of_files.backup_folder(folder, out / "a.zip", CLOCK.now()),
    }
    for name, work in works.items():
        try:
            work()
        except GrowdeskError as error:
            say(refused=error.line(), name=name)
        else:
            say(kept=name)
        try:
            say(read=len(opened.plants.all()))
        except GrowdeskError as error:
            say(unread=error.line())
    with suppress(GrowdeskError):
        opened.close()


def test_no_file_may_grow_at_forty_sizes(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    kept, refused, grown = 0, 0, (laid / content.FILE).stat().st_size
    for size in range(1, _SIZES + 1):
        place = tmp_path / str(size)
        shutil.copytree(laid, place / "mine")
        (place / "out").mkdir()
        _picture(place / "out" / "p.jpg")
        folder, out = place / "mine", place / "out"

        def work(
            say: Callable[..., None],
            folder: Path = folder,
            out: Path = out,
            limit: int = size * _STEP,
        ) -> None:
            _work(folder, out, limit, say)

        heard = killed(work, 60.0)
        assert heard.all_of("ended"), size
        lines = heard.all_of("refused")
        assert all("disk" in line and "\n" not in line for line in lines)
        assert all("mine" in line or "out" in line for line in lines)
        said = heard.all_of("kept")
        if size * _STEP > grown:  # else not even what stands there is written again
            assert heard.all_of("read") == [6] * (len(said) + len(lines))
        assert all("disk" in line for line in heard.all_of("unread"))
        assert _held(folder, out) == _promised(said)
        kept, refused = kept + len(said), refused + len(lines)
        shutil.rmtree(place)
    told(
        f"F5 no file grows: {_SIZES} sizes of {_STEP // 1000} kB, {kept} kept,"
        f" {refused} refused in one line, 0 lost"
    )
    assert kept > 100
    assert refused > 100


def _promised(said: list[str]) -> tuple[int, int, int, bool]:
    notes = sum(name.startswith("note") for name in said)
    return notes, "photo" in said, "backup" in said, "zip" in said


def _held(folder: Path, out: Path) -> tuple[int, int, int, bool]:
    """Give what is there: notes, photos, backups, the zip; all of it must be whole."""
    Collection.open(folder, CLOCK).close()
    assert list(content.wrongs(folder)) == []
    with closing(content._opened(folder / content.FILE)) as read:
        notes = read.execute(
            "SELECT count(*) FROM look WHERE length(note) = 9000"
        ).fetchone()[0]
        photos = read.execute("SELECT count(*) FROM photo").fetchone()[0]
    kept = backups.kept(folder)
    assert not [each for each in kept if each.problem or backups.prove(each)]
    return notes, photos, len(kept), (out / "a.zip").exists()


def _picture(path: Path) -> None:
    from PIL import Image  # noqa: PLC0415

    side = 700
    noise = random.Random(3).randbytes(side * side)  # noqa: S311 -- a picture
    Image.frombytes("L", (side, side), noise).save(path, quality=90)


@pytest.mark.parametrize("megabytes", [2, 3, 4])
def test_on_a_small_disk_that_is_full(
    laid: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    told: Callable[[str], None],
    megabytes: int,
) -> None:
    monkeypatch.setattr(reserve, "RESERVE_BYTES", 400_000)
    monkeypatch.setattr(reserve, "_ROOM_AT_LEAST", 500_000)
    picture = tmp_path / "p.jpg"
    _picture(picture)
    with disk(tmp_path / "stick", megabytes) as at:
        shutil.copytree(laid, at / "mine")
        opened = Collection.open(at / "mine", CLOCK)
        opened.keep_reserve()
        plant = opened.plants.all()[0][0]
        fill_to(at, 300_000)
        notes = noted(opened, plant)
        (problem,) = daily_backup.keep(at / "mine", CLOCK.now()).problems
        assert "disk is full" in problem
        assert opened.history.undo() is not None, "the kept room is free for it"
        opened.plants.remove([plant])
        assert len(opened.plants.all()) == 5
        opened.history.undo()
        fill(at)
        with pytest.raises(FullError, match="disk is full"):
            opened.photos.add(plant, [picture])
        assert len(opened.plants.all()) == 6, "reading goes on"
        (at / "others").unlink()
        opened.looks.record(plant, Look(acts.TODAY), "n" * 9_000)
        opened.close()
        assert _notes(at / "mine") == notes
        assert list(content.wrongs(at / "mine")) == []
        assert full_check.look_through(at / "mine").damage == ()
        assert not list((at / "mine").rglob("*.part*"))
    told(
        f"F5 a full disk of {megabytes} MB: {notes} notes kept, 3 refusals that name"
        " it, an undo and a removal went, 0 lost"
    )


def noted(opened: Collection, plant: int) -> int:
    """Write notes until the disk is full; give how many were kept."""
    for many in range(1_000):
        try:
            opened.looks.record(plant, Look(acts.TODAY), "n" * 9_000)
        except FullError as error:
            assert "disk is full" in error.line()  # noqa: PT017 -- how many went before
            return many
    raise AssertionError("the disk is never full")


def _notes(folder: Path) -> int:
    with closing(content._opened(folder / content.FILE)) as read:
        found: int = read.execute(
            "SELECT count(*) FROM look WHERE length(note) = 9000"
        ).fetchone()[0]
    return found


def fill_to(folder: Path, left: int) -> None:
    """Leave so many bytes on a disk."""
    room = shutil.disk_usage(folder).free
    (folder / "others").write_bytes(bytes(max(0, room - left)))


def test_a_picture_that_cannot_be_copied_is_told_and_nothing_is_half(
    laid: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shutil.copytree(laid, tmp_path / "mine")
    _picture(tmp_path / "p.jpg")

    def broken(*_: object, **_more: object) -> None:
        raise OSError(errno.EIO, "Input/output error")

    with closing(Collection.open(tmp_path / "mine", CLOCK)) as opened:
        plant = opened.plants.all()[0][0]
        with monkeypatch.context() as patched:
            patched.setattr(photo_store, "write_whole", broken)
            with pytest.raises(GrowdeskError, match="disk would not read or write"):
                opened.photos.add(plant, [tmp_path / "p.jpg"])
        assert content.orphans(tmp_path / "mine") == 0
        opened.photos.add(plant, [tmp_path / "p.jpg"])
    assert list(content.wrongs(tmp_path / "mine")) == []
