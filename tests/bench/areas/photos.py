"""Photos: thumbnails beside the decoder's own, a folder beside disk and digest."""

from __future__ import annotations

import hashlib
import os
import shutil
import time
from contextlib import closing
from functools import partial
from typing import TYPE_CHECKING

from PIL import Image
from PySide6.QtCore import QEventLoop, QObject, QSize
from PySide6.QtGui import QImageReader, QPixmap
from PySide6.QtWidgets import QApplication

from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store import photos
from growdesk.ui import photo_reading
from growdesk.ui.tasks import Job, Lane, Tasks
from growdesk.ui.widgets.thumbs import SIDE
from tests.bench import pictures
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import QImage

    from tests.bench.ground import Ground

FOLDER_OF = 500
SHOWN = 24
TURNS = 100
ONE = (40,)


class _Kept:
    """A photo in a collection's folder."""

    def __init__(self, ground: Ground, name: str) -> None:
        self.folder = ground.tmp / f"photo-{name}"
        self.folder.mkdir(exist_ok=True)
        self.source = pictures.large(name)
        examined = photos.examine(self.source, ground.today)
        self.stored = photos.put(self.folder, examined)

    @property
    def thumbnail(self) -> Path:
        return photos.thumbnail_path(self.folder, self.stored.sha256)

    def make(self) -> None:
        self.made()

    def made(self) -> Path:
        made = photos.make_thumbnail(self.folder, self.stored.sha256, self.stored.ext)
        assert made is not None
        return made


def by_pillow(name: str, ground: Ground) -> Pair:
    """Make a thumbnail, its file and all; Pillow only decodes and scales."""
    kept = _Kept(ground, name)

    def base() -> None:
        with Image.open(kept.source) as image:
            image.draft("RGB", (photos.THUMBNAIL_PX, photos.THUMBNAIL_PX))
            image.thumbnail((photos.THUMBNAIL_PX, photos.THUMBNAIL_PX))

    return Pair(kept.make, base, lambda: kept.thumbnail.unlink(missing_ok=True))


def by_qt(name: str, ground: Ground) -> Pair:
    """Make a thumbnail, its file and all; Qt only decodes and scales."""
    kept = _Kept(ground, name)

    def base() -> None:
        reader = QImageReader(str(kept.source))
        side = photos.THUMBNAIL_PX
        reader.setScaledSize(QSize(side, side * 3 // 4))
        assert not reader.read().isNull()

    return Pair(kept.make, base, lambda: kept.thumbnail.unlink(missing_ok=True))


def again(ground: Ground) -> Pair:
    """Give a thumbnail the second time, decoded for the screen, as a pane asks."""
    collection = Collection.open(ground.tmp / "again", ground.clock(), create=True)
    plant = collection.plants.add(PlantDraft("A1", "Cattleya", "cattleya")).ids[0]
    collection.photos.add(plant, [pictures.large("12")])
    (photo,) = collection.photos.of(plant)
    made = collection.photos.thumbnail(photo)
    assert made is not None

    def ours() -> None:
        for _ in range(TURNS):
            there = collection.photos.thumbnail(photo)
            assert there == made
            assert not photo_reading.decode(there, 2 * SIDE).isNull()

    def base() -> None:
        for _ in range(TURNS):
            assert not photo_reading.decode(made, 2 * SIDE).isNull()

    return Pair(ours, base, close=collection.close)


def blocked(ground: Ground) -> Pair:
    """Give what the window's thread itself does for a photo that is made and shown."""
    application = QApplication.instance() or QApplication(["bench"])
    kept = _Kept(ground, "12")

    def made() -> QImage:
        kept.thumbnail.unlink(missing_ok=True)
        return photo_reading.decode(kept.made(), 2 * SIDE)

    def ours() -> float:
        owner, loop, tasks = QObject(), QEventLoop(), Tasks()
        shown: list[QPixmap] = []

        def arrived(image: QImage) -> None:
            shown.append(QPixmap.fromImage(image))
            if len(shown) == SHOWN:
                loop.quit()

        began = time.thread_time()
        for _ in range(SHOWN):
            tasks.ask(owner, Job(made, arrived, _broke), Lane.PHOTOS)
        loop.exec()
        spent = time.thread_time() - began
        tasks.stop()
        assert application is not None
        return spent / SHOWN

    return Pair(ours)


def _broke(error: Exception) -> None:
    raise error


def folder(ground: Ground) -> Pair:
    """Take a folder of photos in, rows and all; the floor reads, digests and writes."""
    sources = pictures.many(FOLDER_OF)
    into = ground.tmp / "photos-taken"
    count = iter(range(1_000))

    def ours() -> float:
        made = into / f"ours-{next(count)}"
        with closing(Collection.open(made, ground.clock(), create=True)) as collection:
            plant = collection.plants.add(PlantDraft("A1", "Cattleya", "cattleya"))
            began = time.perf_counter()
            done = collection.photos.add(plant.ids[0], sources)
            spent = time.perf_counter() - began
        assert len(done.ids) == len(sources)
        shutil.rmtree(made)
        return spent

    def base() -> float:
        made = into / f"base-{next(count)}"
        began = time.perf_counter()
        for shelf in {_floor(source, made) for source in sources}:
            descriptor = os.open(shelf, os.O_RDONLY)
            os.fsync(descriptor)
            os.close(descriptor)
        spent = time.perf_counter() - began
        shutil.rmtree(made)
        return spent

    return Pair(ours, base)


def _floor(source: Path, into: Path) -> Path:
    """Write a photo under its digest, and give the folder still to be synced."""
    content = source.read_bytes()
    name = hashlib.sha256(content).hexdigest()
    shelf = into / name[:2]
    shelf.mkdir(parents=True, exist_ok=True)
    part = shelf / f"{name}.part"
    with part.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    part.replace(shelf / f"{name}.jpg")
    return shelf


def _called(shape: str) -> str:
    megapixels, *way = shape.split("-")
    return ", ".join([f"{megapixels} MP", *way])


DECODER = "the decoder's own scaled decode"
BARS = (
    *(
        Bar(
            f"photos-thumbnail-{name}-{by}",
            f"Thumbnail of a photo of {_called(name)}, checked, turned and written",
            f"{DECODER} ({by.title()})",
            Limit.times(1.2),
            partial(way, name),
            ONE,
        )
        for name in pictures.SHAPES
        for by, way in (("pillow", by_pillow), ("qt", by_qt))
    ),
    Bar(
        "photos-again",
        "A hundred thumbnails the second time",
        "decoding the thumbnails' files",
        Limit.times(1.5),
        again,
        ONE,
    ),
    Bar(
        "photos-blocked",
        "Window's thread at work for a photo made and shown",
        "",
        Limit.ms(4),
        blocked,
        ONE,
    ),
    Bar(
        "photos-folder",
        f"A folder of {FOLDER_OF} photos taken in",
        "read, digest, write, sync and rename of each",
        Limit.share(0.8),
        folder,
        ONE,
    ),
)
