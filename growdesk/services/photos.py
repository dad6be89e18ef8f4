"""Photos of plants: added by copy, shown by thumbnail, removed without being lost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import tr
from growdesk.services import checking, photo_rows
from growdesk.services.ledger import written
from growdesk.services.photo_stages import by_stage, staged
from growdesk.services.photo_values import DayProposal, joined
from growdesk.services.plant_detail import look_views
from growdesk.services.plant_rows import get_draft
from growdesk.services.values import Changed, Written
from growdesk.store import photos as files
from growdesk.store.schema import LookRow, PhotoRow

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.services.ledger import Ledger
    from growdesk.services.photo_values import (
        PhotoDraft,
        StagedPhoto,
        StageGroup,
        TakenIn,
    )
    from growdesk.services.values import PhotoView
    from growdesk.store.session import Session


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
        return self.keep(plant_id, list(self.arriving(paths)), look_id)

    def arriving(self, paths: Sequence[Path]) -> Generator[TakenIn]:
        """Copy files in one by one, proved whole; no row is written of them.

        It asks nothing of the collection's rows, so that any thread may do it. Closed
        before its end, it takes in no more.
        """
        return photo_rows.arriving(self._ledger.folder, paths, self._ledger.today())

    def keep(
        self, plant_id: int, parts: Sequence[TakenIn], look_id: int | None = None
    ) -> Written:
        """Write what was taken in, as one action; doubles and what failed are named.

        Where nothing is left to write, that is told as an error.
        """
        taken = joined(parts)
        with self._ledger.reading() as session:
            tag = get_draft(session, plant_id).tag
            _check_look(session, plant_id, look_id)
            doubles = photo_rows.doubles(session, plant_id, taken)
        problems = (*taken.problems, *doubles)
        many = len(taken.stored) - len(doubles)
        if not many and not all(photo.was_there for photo in taken.stored):
            title = tr("Photos of {tag} are whole again").format(tag=tag)
            return Written(Changed.PHOTOS, title, (), problems, undoable=False)
        if not many and (look_id is None or not taken.stored):
            raise GrowdeskError(tr("No photo was added."), " ".join(problems))
        title = (
            tr("Photo of {tag} added").format(tag=tag)
            if many <= 1
            else tr("{many} photos of {tag} added").format(many=many, tag=tag)
        )
        files.settle(self._ledger.folder, taken.stored)
        with self._ledger.writing(title) as writing:
            ids = photo_rows.keep(
                writing, plant_id, look_id, taken, self._ledger.folder
            )
        return written(writing, title, ids, problems)

    def without_day(
        self, plant_id: int, parts: Sequence[TakenIn]
    ) -> tuple[DayProposal, ...]:
        """Give the photos just taken that have no day, each with its file's own."""
        stored = {photo.sha256: photo for photo in joined(parts).stored}
        return tuple(
            DayProposal(view, came.file_name, came.file_day)
            for view in self.of(plant_id)
            if view.shown_on is None and (came := stored.get(view.path.stem))
        )

    def change(self, photo_id: int, draft: PhotoDraft) -> Written:
        """Change a photo's day and note."""
        return self._update(
            (photo_id,), lambda _id: self._checked(draft), tr("Photo of {tag} changed")
        )

    def set_days(self, days: Mapping[int, date | None]) -> Written:
        """Give several photos their days, as one action; their notes stay."""
        today = self._ledger.today()
        kept = {each: checking.day_done("taken_on", days[each], today) for each in days}
        title = (
            tr("Days of photos of {tag} set")
            if len(days) > 1
            else tr("Day of a photo of {tag} set")
        )
        return self._update(tuple(kept), lambda each: {"taken_on": kept[each]}, title)

    def hang(self, photo_ids: Sequence[int], look_id: int | None) -> Written:
        """Hang photos on a look of their plant, or with none take them off theirs."""
        with self._ledger.reading() as session:
            for photo_id in photo_ids:
                _check_look(session, _photo(session, photo_id).plant_id, look_id)
        title = (
            tr("Photo of {tag} taken off its look")
            if look_id is None
            else tr("Photo of {tag} hung on a look")
        )
        return self._update(photo_ids, lambda _id: {"look_id": look_id}, title)

    def timeline(self, plant_id: int) -> tuple[StageGroup, ...]:
        """Give a plant's photos by stage, the same stage of all years together."""
        with self._ledger.reading() as session:
            views = photo_rows.views(session, self._ledger.folder, plant_id)
            return by_stage(views, look_views(session, plant_id, views))

    def staged(self, plant_id: int) -> tuple[StagedPhoto, ...]:
        """Give a plant's photos, newest first, each with the stage it shows."""
        with self._ledger.reading() as session:
            views = photo_rows.views(session, self._ledger.folder, plant_id)
            return staged(views, look_views(session, plant_id, views))

    def drawable(self, photo_id: int) -> Path | None:
        """Give a file that any window can draw; not for the thread that paints."""
        with self._ledger.reading() as session:
            row = _photo(session, photo_id)
        return files.make_drawable(self._ledger.folder, row.sha256, row.ext)

    def of(self, plant_id: int) -> tuple[PhotoView, ...]:
        """Give a plant's photos, newest first; a missing file has its problem told."""
        with self._ledger.reading() as session:
            return photo_rows.views(session, self._ledger.folder, plant_id)

    def thumbnail(self, photo: PhotoView) -> Path | None:
        """Give a photo's thumbnail, made where it is missing; none if that fails.

        It asks nothing of the collection's rows: a file says by its name what it is.
        Decoding takes a while: not for the thread that paints.
        """
        name = photo.path
        return files.make_thumbnail(
            self._ledger.folder, name.stem, name.suffix.removeprefix(".")
        )

    def remove(self, photo_id: int) -> Written:
        """Take a photo from its plant; its file stays, so that undo is enough."""
        with self._ledger.reading() as session:
            row = _photo(session, photo_id)
            tag = get_draft(session, row.plant_id).tag
        title = tr("Photo of {tag} removed").format(tag=tag)
        with self._ledger.writing(title) as writing:
            writing.delete(PhotoRow, photo_id)
        return written(writing, title)

    def _checked(self, draft: PhotoDraft) -> dict[str, object]:
        day = checking.day_done("taken_on", draft.taken_on, self._ledger.today())
        return {"taken_on": day, "note": checking.text("note", draft.note)}

    def _update(
        self,
        photo_ids: Sequence[int],
        values: Callable[[int], dict[str, object]],
        title: str,
    ) -> Written:
        with self._ledger.reading() as session:
            row = _photo(session, photo_ids[0])
            said = title.format(tag=get_draft(session, row.plant_id).tag)
        kept = {photo_id: values(photo_id) for photo_id in photo_ids}
        with self._ledger.writing(said) as writing:
            for photo_id, changes in kept.items():
                _photo(writing.session, photo_id)
                writing.update(PhotoRow, photo_id, changes)
        return written(writing, said, tuple(photo_ids))


def _photo(session: Session, photo_id: int) -> Any:
    row = session.execute(
        select(PhotoRow.__table__).where(PhotoRow.id == photo_id)
    ).one_or_none()
    if row is None:
        hint = tr("It was removed; undo brings it back.")
        raise InputError("photo", photo_id, tr("is not there any more"), hint)
    return row


def _check_look(session: Session, plant_id: int, look_id: int | None) -> None:
    if look_id is None:
        return
    owner = session.scalar(select(LookRow.plant_id).where(LookRow.id == look_id))
    if owner != plant_id:
        hint = tr("Choose a look of this plant.")
        raise InputError("look_id", look_id, tr("is no look of this plant"), hint)
