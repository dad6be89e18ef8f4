"""Photos of plants: added by copy, shown by thumbnail, removed without being lost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.services import photo_rows
from growdesk.services.ledger import written
from growdesk.services.plants import get_draft
from growdesk.store import photos as files
from growdesk.store.schema import LookRow, PhotoRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from sqlalchemy.orm import Session

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import PhotoView, Written


class Photos:
    """The photos of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def add(
        self, plant_id: int, paths: Sequence[Path], look_id: int | None = None
    ) -> Written:
        """Copy photos in; one that cannot be read is named and the rest is kept.

        Where none can be read nothing is written, and that is told as an error.
        """
        with self._ledger.reading() as session:
            tag = get_draft(session, plant_id).tag
            _check_look(session, plant_id, look_id)
        taken = photo_rows.take_in(self._ledger.folder, paths, self._ledger.today())
        if taken.problems and not taken.stored:
            raise GrowdeskError("No photo was added.", " ".join(taken.problems))
        many = len(taken.stored)
        title = (
            f"Photo of {tag} added" if many == 1 else f"{many} photos of {tag} added"
        )
        with self._ledger.writing(title) as writing:
            ids = photo_rows.keep(writing, plant_id, look_id, taken)
        return written(writing, title, ids, taken.problems)

    def of(self, plant_id: int) -> tuple[PhotoView, ...]:
        """Give a plant's photos, newest first; a missing file has its problem told."""
        with self._ledger.reading() as session:
            return photo_rows.views(session, self._ledger.folder, plant_id)

    def thumbnail(self, photo_id: int) -> Path | None:
        """Give a photo's thumbnail, made where it is missing; none if that fails.

        Decoding takes a while: not for the thread that paints.
        """
        with self._ledger.reading() as session:
            row = _photo(session, photo_id)
        return files.make_thumbnail(self._ledger.folder, row.sha256, row.ext)

    def remove(self, photo_id: int) -> Written:
        """Take a photo from its plant; its file stays, so that undo is enough."""
        with self._ledger.reading() as session:
            row = _photo(session, photo_id)
            tag = get_draft(session, row.plant_id).tag
        title = f"Photo of {tag} removed"
        with self._ledger.writing(title) as writing:
            writing.delete(PhotoRow, photo_id)
        return written(writing, title)


def _photo(session: Session, photo_id: int) -> Any:
    row = session.execute(
        select(PhotoRow.__table__).where(PhotoRow.id == photo_id)
    ).one_or_none()
    if row is None:
        hint = "It was removed; undo brings it back."
        raise InputError("photo", photo_id, "is not there any more", hint)
    return row


def _check_look(session: Session, plant_id: int, look_id: int | None) -> None:
    if look_id is None:
        return
    owner = session.scalar(select(LookRow.plant_id).where(LookRow.id == look_id))
    if owner != plant_id:
        hint = "Choose a look of this plant."
        raise InputError("look_id", look_id, "is no look of this plant", hint)
