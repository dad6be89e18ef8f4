"""Takes the folder of an export into an empty collection: all of it, or nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.ledger import written
from growdesk.services.long_work import quietly
from growdesk.services.table_forms import FORMS
from growdesk.store.photos import PHOTOS, photo_path, settle_files
from growdesk.store.schema import RECORDED
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import Synced, write_whole

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection
    from growdesk.services.folder_reading import FolderRead
    from growdesk.services.long_work import Step
    from growdesk.services.table_forms import Form, Row
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing


class FolderTaken(Struct, frozen=True):
    """What was taken in, or would be; ``written`` is None after a dry run."""

    folder: Path
    plants: int
    looks: int
    care: int
    photos: int
    notices: tuple[str, ...]
    written: Written | None


def take_folder(
    collection: Collection,
    found: FolderRead,
    *,
    dry_run: bool = False,
    step: Step = quietly,
) -> FolderTaken:
    """Put the rows and photos of a folder into a collection that holds nothing yet."""
    _refuse_full(collection)
    done = None if dry_run else _write(collection, found, step)
    return FolderTaken(
        folder=found.folder,
        plants=len(found.rows["plant"]),
        looks=len(found.rows["look"]),
        care=len(found.rows["care"]),
        photos=len(found.rows["photo"]),
        notices=found.notices,
        written=done,
    )


def _refuse_full(collection: Collection) -> None:
    with collection.ledger.reading() as session:
        for row in RECORDED.values():
            if session.scalar(select(func.count(row.id))):
                raise StoreError(
                    tr(
                        "The collection in {folder} is not empty, and a folder is "
                        "taken into an empty one only."
                    ).format(folder=collection.called),
                    tr("Name another folder with --collection DIR."),
                )


def _write(collection: Collection, found: FolderRead, step: Step) -> Written:
    title = tr("Collection taken in from {name}").format(name=found.folder.name)
    made: list[Path] = []
    try:
        _copy_photos(collection.folder, found, made, step)
        with collection.ledger.writing(title) as writing:
            for form in FORMS:
                _insert(writing, form, found.rows[form.name])
    except BaseException:
        for path in made:
            path.unlink(missing_ok=True)
        raise
    return written(writing, title)


def _insert(writing: Writing, form: Form, rows: list[Row]) -> None:
    """Add the rows; what they say of one another follows once all are there."""
    own = [cell.name for cell in form.cells if cell.refers_to == form.name]
    kind = RECORDED[form.name]
    bare = [row | dict.fromkeys(own) for row in rows]
    ids = writing.insert_many(kind, bare)
    if ids != tuple(row["id"] for row in rows):
        raise StoreError(tr("The collection changed meanwhile."), tr("Do it again."))
    for name in own:
        linked = [(row["id"], {name: row[name]}) for row in rows if row[name]]
        if linked:
            writing.update_many(kind, linked)


def _copy_photos(folder: Path, found: FolderRead, made: list[Path], step: Step) -> None:
    rows = found.rows["photo"]
    targets = [photo_path(folder, row["sha256"], row["ext"]) for row in rows]
    for number, (row, target) in enumerate(zip(rows, targets, strict=True)):
        step(number, len(rows))
        with plainly(target):
            if target.exists():
                continue
            target.parent.mkdir(parents=True, exist_ok=True)
            source = found.folder / PHOTOS / f"{row['sha256']}.{row['ext']}"
            write_whole(target, source.read_bytes(), Synced.CONTENT)
            made.append(target)
    settle_files(folder, targets)
