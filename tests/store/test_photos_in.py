"""Photos on their way in: proved whole, synced before they are named, quiet."""

from __future__ import annotations

import io
import os
import random
import threading
import warnings
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image

from growdesk.store import photos, pictures
from growdesk.store.photos import examine, make_thumbnail, put, settle
from growdesk.store.pictures import UnreadableError

if TYPE_CHECKING:
    from pathlib import Path

TODAY = date(2026, 7, 3)
FORMS: tuple[dict[str, Any], ...] = (
    {},
    {"progressive": True},
    {"restart_marker_blocks": 7},
    {"subsampling": 0},
)
MARKS = (*range(0xBF, 0xC5), *range(0xD0, 0xDE), 0x01, 0xE0, 0xEE, 0xFE)


def noisy(mode: str, **form: Any) -> bytes:
    """Give a JPEG whose pixels compress badly, so that most of it are its codes."""
    image = Image.effect_noise((200, 150), 60).convert("RGB").convert(mode)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=80, **form)
    return out.getvalue()


def is_whole(content: bytes) -> bool:
    try:
        with pictures.quietly():
            Image.open(io.BytesIO(content)).load()
    except Exception:  # noqa: BLE001 -- decoders raise whatever
        return False
    return True


def is_proved(content: bytes) -> bool:
    try:
        with pictures.quietly():
            pictures.prove(Image.open(io.BytesIO(content)), content)
    except (UnreadableError, OSError):
        return False
    return True


def hurt(content: bytes, dice: random.Random) -> bytes:
    """Give a JPEG cut, or with bytes changed: anywhere, in its tables, or as marks."""
    damaged = bytearray(content)
    at = dice.randrange(len(damaged) - 1)
    match dice.randrange(6):
        case 0:
            del damaged[at:]
        case 1:
            damaged[at:] = bytes(len(damaged) - at)
        case 2:
            damaged[at : at + 400] = b""
        case 3:
            damaged[at : at + 2] = bytes((0xFF, dice.choice(MARKS)))
        case 4:
            damaged[dice.randrange(content.index(b"\xff\xda") + 14)] ^= 1 << at % 8
        case _:
            for _ in range(1 + at % 5):
                damaged[dice.randrange(len(damaged))] = dice.randrange(256)
    return bytes(damaged)


@pytest.mark.parametrize("mode", ["RGB", "L", "CMYK"])
def test_a_jpeg_is_refused_where_its_pixels_would_be(mode: str) -> None:
    dice = random.Random(8)  # noqa: S311 -- a repeatable test
    counted = {True: 0, False: 0}
    for form in FORMS:
        content = noisy(mode, **form)
        for _ in range(60):
            damaged = hurt(content, dice)
            proved = is_proved(damaged)
            assert proved == is_whole(damaged)
            counted[proved] += 1
    assert min(counted.values()) > 60


def test_of_a_jpeg_that_is_whole_no_pixel_is_decoded(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    decoded: list[tuple[int, int]] = []

    def loaded(image: Image.Image) -> None:
        decoded.append(image.size)
        was(image)

    was = pictures._load
    monkeypatch.setattr(pictures, "_load", loaded)
    for form in FORMS:
        assert is_proved(noisy("RGB", **form))
    assert set(decoded) == {(8, 8)}
    assert len(decoded) == len(FORMS)
    decoded.clear()
    assert not is_proved(noisy("RGB")[:-2])
    assert decoded == [(200, 150)]


@pytest.fixture(autouse=True)
def there(tmp_path: Path) -> None:
    """Make the folder that photos go into: one that is gone takes none."""
    (tmp_path / "collection").mkdir(exist_ok=True)


def test_a_photo_is_named_on_the_disk_once_for_all_of_its_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced: list[Path] = []
    monkeypatch.setattr(photos, "sync_folder", synced.append)
    shades = [f"#{each:02x}6040" for each in range(20)]
    taken = []
    for shade in [*shades, shades[0]]:
        source = tmp_path / "photo.png"
        Image.new("RGB", (9, 9), shade).save(source)
        taken.append(put(tmp_path / "collection", examine(source, TODAY)))
    assert [each.was_there for each in taken] == [*[False] * 20, True]
    assert synced == []
    settle(tmp_path / "collection", taken)
    below = tmp_path / "collection" / "photos"
    assert set(synced) == {*below.iterdir(), below, below.parent}
    assert len(synced) == len(set(synced))


def test_a_thumbnail_that_lost_its_end_is_made_again(tmp_path: Path) -> None:
    source = tmp_path / "photo.jpg"
    source.write_bytes(noisy("RGB"))
    stored = put(tmp_path, examine(source, TODAY))
    made = make_thumbnail(tmp_path, stored.sha256, stored.ext)
    assert made is not None
    whole = made.read_bytes()
    for torn in (b"", whole[: len(whole) // 2], whole[:-1]):
        made.write_bytes(torn)
        assert make_thumbnail(tmp_path, stored.sha256, stored.ext) == made
        assert made.read_bytes() == whole


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no named pipes")
def test_a_pipe_in_place_of_a_thumbnail_is_not_waited_for(tmp_path: Path) -> None:
    source = tmp_path / "photo.jpg"
    source.write_bytes(noisy("RGB"))
    stored = put(tmp_path, examine(source, TODAY))
    at = photos.thumbnail_path(tmp_path, stored.sha256)
    at.parent.mkdir(parents=True)
    os.mkfifo(at)
    assert make_thumbnail(tmp_path, stored.sha256, stored.ext) == at
    with Image.open(at) as image:
        assert image.size == (200, 150)


def test_remarks_are_heard_again_once_the_last_of_two_threads_is_done() -> None:
    before = list(warnings.filters)
    first_in, second_in = threading.Event(), threading.Event()

    def other() -> None:
        first_in.wait(5)
        with pictures.quietly():
            second_in.set()
            first_out.wait(5)

    first_out = threading.Event()
    thread = threading.Thread(target=other)
    thread.start()
    with pictures.quietly():
        first_in.set()
        assert second_in.wait(5)
    warnings.warn("still kept back", stacklevel=1)
    first_out.set()
    thread.join(5)
    assert list(warnings.filters) == before
    with pytest.warns(UserWarning, match="heard"):
        warnings.warn("heard", stacklevel=1)
