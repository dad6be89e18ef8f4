"""Photos of an export: copied without the place they were taken at, named by content.

A file that is cut has another content than the one in the collection, and so another
name; the rows are told as they stand after it. With ``keep_location`` the very files
go out.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import tr
from growdesk.store.photos import (
    PHOTOS,
    Cleaned,
    clean_copy,
    photo_path,
)
from growdesk.store.pictures import UnreadableError
from growdesk.store.regular_files import sha256_of
from growdesk.store.whole_files import (
    PART,
    Synced,
    make_folder,
    sync_folder,
    write_whole,
)

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection_book import Book
    from growdesk.services.long_work import Step
    from growdesk.services.table_forms import Row

NAME = re.compile(r"([0-9a-f]{64})\.([a-z0-9]{1,5})")


class Sent(Struct, frozen=True):
    """The photos that went out, their bytes, and a line for each that could not."""

    count: int
    size: int
    problems: tuple[str, ...]


def send(
    collection: Path, folder: Path, book: Book, *, keep_location: bool, step: Step
) -> Sent:
    """Copy the photos of a book; its rows then tell the copies."""
    rows, kept = book.rows["photo"], []
    problems: list[str] = []
    there: set[tuple[int, str]] = set()
    for done, row in enumerate(rows):
        step(done, len(rows))
        tag = book.names.of("plant", row["plant_id"])
        try:
            sent = _sent(collection, folder / PHOTOS, row, keep_location=keep_location)
        except UnreadableError as error:
            problems.append(
                tr("A photo of plant {tag} stayed behind. {error}").format(
                    tag=tag, error=error
                )
            )
            continue
        if (row["plant_id"], sent["sha256"]) in there:
            problems.append(
                tr("Two photos of plant {tag} are one; it went out once.").format(
                    tag=tag
                )
            )
            continue
        there.add((row["plant_id"], sent["sha256"]))
        kept.append(sent)
    book.rows["photo"] = kept
    if kept:
        sync_folder(folder / PHOTOS)
    names = _names(book)
    size = sum((folder / PHOTOS / name).stat().st_size for name in names)
    return Sent(len(kept), size, tuple(problems))


def _sent(collection: Path, photos: Path, row: Row, *, keep_location: bool) -> Row:
    """Copy one photo, and give its row as it stands for the copy."""
    source = photo_path(collection, row["sha256"], row["ext"])
    shown = row["file_name"] or source.name
    if not source.is_file():
        raise UnreadableError(tr("{shown} is gone.").format(shown=shown))
    if sha256_of(source) != row["sha256"]:
        raise UnreadableError(tr("{shown} is damaged.").format(shown=shown))
    make_folder(photos)
    if keep_location:
        target = photos / f"{row['sha256']}.{row['ext']}"
        write_whole(target, source.read_bytes(), Synced.CONTENT)
        return row
    copied = photos / f"{source.name}{PART}"
    how = clean_copy(source, copied, Synced.CONTENT)
    sha256 = sha256_of(copied)
    ext = "jpg" if how is Cleaned.DRAWN_ANEW else row["ext"]
    copied.replace(photos / f"{sha256}.{ext}")
    return row | {"sha256": sha256, "ext": ext, "has_location": False}


def _names(book: Book) -> set[str]:
    return {f"{row['sha256']}.{row['ext']}" for row in book.rows["photo"]}


def sweep(folder: Path, book: Book) -> None:
    """Remove what an earlier export left there and the book sent now does not have."""
    photos, kept = folder / PHOTOS, _names(book)
    if not photos.is_dir():
        return
    for path in photos.iterdir():
        is_old = NAME.fullmatch(path.name) and path.name not in kept
        if is_old or path.name.endswith(PART):
            path.unlink()
