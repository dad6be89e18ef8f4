"""Writes a whole collection out: tables anybody can read, photos, and a facts file.

A folder of CSV files that ``growdesk import FOLDER`` takes back, one JSON that
``growdesk decide --facts`` takes, and the photos without the place they were taken at.
``growdesk.json`` says what is there and is written last, so that half an export is
known as such. A folder that holds anything else is left alone.
"""

from __future__ import annotations

import hashlib
import json
from contextlib import contextmanager
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import ForeignError
from growdesk.domain.speech import tr, trn
from growdesk.services import csv_form, exported_photos
from growdesk.services.collection_book import read_book
from growdesk.services.exported_facts import facts_of
from growdesk.services.long_work import StoppedError, quietly
from growdesk.services.table_forms import FORMS
from growdesk.store.later import is_of_a_later_program
from growdesk.store.migrations import SCHEMA
from growdesk.store.photos import PHOTOS
from growdesk.store.regular_files import leads_away
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import PART, make_folder, write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from growdesk.services.collection import Collection
    from growdesk.services.collection_book import Book
    from growdesk.services.long_work import Step
    from growdesk.store.session import Session

MANIFEST = "growdesk.json"
FACTS = "facts.json"
NAMES = (*(form.file for form in FORMS), FACTS, MANIFEST)


class Exported(Struct, frozen=True):
    """What was written where. ``notices`` say what was left out, and why."""

    folder: Path
    plants: int
    looks: int
    care: int
    photos: int
    photo_bytes: int
    rows: int
    notices: tuple[str, ...]


def export(
    collection: Collection,
    folder: Path,
    *,
    keep_location: bool = False,
    step: Step = quietly,
) -> Exported:
    """Write the whole collection into a folder; give what was written.

    Photos go out without the place they were taken at, unless it is to be kept. Where
    ``step`` stops it the folder is left as it was: gone, empty, or an earlier export.
    """
    with plainly(folder):
        _refuse_strange(folder)
        with collection.ledger.reading() as session:
            book = read_book(session)
            facts = facts_of(session, book)
            later = _of_a_later_program(session)
        with _as_it_was(folder):
            make_folder(folder)
            sent = exported_photos.send(
                collection.folder, folder, book, keep_location=keep_location, step=step
            )
        (folder / MANIFEST).unlink(missing_ok=True)
        exported_photos.sweep(folder, book)
        contents = {**_tables(book), FACTS: facts}
        for name, content in contents.items():
            write_whole(folder / name, content)
        manifest = _manifest(book, contents, keep_location=keep_location)
        write_whole(folder / MANIFEST, manifest)
    return Exported(
        folder=folder,
        plants=len(book.rows["plant"]),
        looks=len(book.rows["look"]),
        care=len(book.rows["care"]),
        photos=sent.count,
        photo_bytes=sent.size,
        rows=sum(map(len, book.rows.values())),
        notices=(*_left_behind(book), *later, *sent.problems),
    )


@contextmanager
def _as_it_was(folder: Path) -> Iterator[None]:
    """Take away what was written, if the block is stopped."""
    photos = folder / PHOTOS
    was_there = [each for each in (folder, photos) if each.is_dir()]
    before = set(photos.iterdir()) if photos in was_there else set()
    try:
        yield
    except StoppedError:
        for path in set(photos.glob("*")) - before:
            path.unlink()
        for each in (photos, folder):
            if each not in was_there and each.is_dir():
                each.rmdir()
        raise


def _tables(book: Book) -> dict[str, bytes]:
    return {
        form.file: csv_form.write_table(form.heads, book.lines(form)) for form in FORMS
    }


def _manifest(
    book: Book, contents: Mapping[str, bytes], *, keep_location: bool
) -> bytes:
    files = {
        form.file: {
            "rows": len(book.rows[form.name]),
            "sha256": hashlib.sha256(contents[form.file]).hexdigest(),
        }
        for form in FORMS
    }
    said = {"schema": SCHEMA, "with_location": keep_location, "files": files}
    return json.dumps({"growdesk_export": 1, **said}, indent=1).encode()


def _left_behind(book: Book) -> tuple[str, ...]:
    if not book.binned:
        return ()
    line = trn(
        "{count} plant lies in the bin and stayed behind, with all that is on record of"
        " it.",
        "{count} plants lie in the bin and stayed behind, with all that is on record of"
        " them.",
        book.binned,
    )
    return (line.format(count=book.binned),)


def _of_a_later_program(session: Session) -> tuple[str, ...]:
    """Say that what this program does not know is in no table of the export."""
    if not is_of_a_later_program(session):
        return ()
    return (
        tr(
            "What a newer growdesk keeps beside this one's stayed behind: it is in the"
            " collection and in its backups."
        ),
    )


def _refuse_strange(folder: Path) -> None:
    if not folder.exists():
        return
    if not folder.is_dir():
        raise ForeignError(
            tr("{folder} is a file, not a folder.").format(folder=folder),
            tr("Choose a folder."),
        )
    strange = sorted(path.name for path in folder.iterdir() if not _is_ours(path))
    if strange:
        raise ForeignError(
            tr(
                "{folder} holds other files ({strange}), so nothing is written to it."
            ).format(folder=folder, strange=strange[0]),
            tr("Choose an empty folder, a new one, or that of an earlier export."),
        )


def _is_ours(path: Path) -> bool:
    if path.name == PHOTOS and path.is_dir() and not leads_away(path):
        return all(
            exported_photos.NAME.fullmatch(each.name) or each.name.endswith(PART)
            for each in path.iterdir()
        )
    return path.name in NAMES or path.name.endswith(PART)
