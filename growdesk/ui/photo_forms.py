"""Take photos in, show them, put them beside one another, start looks from them.

Files are taken in one by one as long work and written together, so that many are one
undo; what was taken in before a stop stays.
"""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.errors import LookOnlyError
from growdesk.domain.speech import mark, tr
from growdesk.services.photo_stages import staged
from growdesk.ui import pasted
from growdesk.ui.dialogs.beside import BesideDialog, Side
from growdesk.ui.dialogs.photo import PhotoDialog
from growdesk.ui.dialogs.photo_days import PhotoDaysDialog
from growdesk.ui.long_work import PHOTOS as PHOTOS_OF
from growdesk.ui.long_work import Long
from growdesk.ui.widgets.photo_box import PICTURES

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.photo_values import (
        DayProposal,
        PhotoDraft,
        StagedPhoto,
        TakenIn,
    )
    from growdesk.services.photos import Photos
    from growdesk.services.values import PhotoView, PlantDetail, Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.forms import Forms
    from growdesk.ui.widgets.thumbs import Thumbs

ONE_PHOTO = mark("Two photos are needed to put them side by side.")
NO_PICTURE = mark("There is no picture to paste.")


@dataclass
class _Taking:
    """Photos on their way in."""

    photos: Photos
    plant_id: int
    tag: str
    paths: list[Path]
    parts: list[TakenIn] = field(default_factory=list)


class PhotoForms(QObject):
    """All that is done with photos."""

    def __init__(
        self, desk: Desk, window: QWidget, thumbs: Thumbs, forms: Forms
    ) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._thumbs = thumbs
        self._forms = forms
        self._open: PhotoDialog | None = None
        desk.plant_arrived.connect(self._plant_arrived)

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    # -- taking in ------------------------------------------------------------------

    def choose(self, plant_id: int) -> None:
        """Choose photos of a plant, as many as one likes."""
        dialog = QFileDialog(self._window, tr("Add photos"), "", tr(PICTURES))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.filesSelected.connect(
            lambda names: self.take(plant_id, [Path(name) for name in names])
        )
        dialog.open()

    def paste(self, plant_id: int) -> None:
        """Take the picture or the files of the clipboard in."""
        data = QGuiApplication.clipboard().mimeData()
        use = partial(self.take, plant_id)
        if not pasted.pictures_in(data, self._window, use):
            self._desk.told.emit(tr(NO_PICTURE))

    def take(self, plant_id: int, paths: Sequence[Path]) -> None:
        """Take photos of a plant in, one by one, and write them together."""
        if self._now.looking:
            self._desk.fail(LookOnlyError(self._now.looking))
            return
        if not paths:
            return
        work = partial(self._now.plants.get, plant_id)
        self._desk.read(
            work, lambda draft: self._begin(plant_id, draft.tag, list(paths))
        )

    def _begin(self, plant_id: int, tag: str, paths: list[Path]) -> None:
        taking = _Taking(self._now.photos, plant_id, tag, paths)
        self._desk.long.begin(
            Long(
                tr("Taking in photos of {tag}").format(tag=tag),
                partial(_take_all, taking),
                lambda _none: self._finish(taking),
                partial(self._broke, taking),
                partial(self._stopped, taking),
                PHOTOS_OF,
            )
        )

    def _broke(self, taking: _Taking, error: Exception) -> None:
        """Keep what was taken in and tell why no more was (a full disk, say)."""
        self._finish(taking)
        self._desk.fail(error)

    def _stopped(self, taking: _Taking) -> None:
        """Keep what was taken in, and say how many of how many that is."""
        many, of = len(taking.parts), len(taking.paths)
        if not many:
            self._desk.told.emit(tr("Cancelled: no photo was added."))
            return
        said = tr(
            "Cancelled: {done} of {of} photos were taken in; Undo takes them back."
        ).format(done=many, of=of)
        self._finish(taking, lambda: self._desk.told.emit(said))

    def _finish(
        self, taking: _Taking, told: Callable[[], object] = lambda: None
    ) -> None:
        if not taking.parts:
            self._desk.told.emit(tr("No photo was added."))
            return
        parts = tuple(taking.parts)
        work = partial(taking.photos.keep, taking.plant_id, parts)

        def kept(done: Written) -> None:
            told()
            self._ask_days(taking, parts, done)

        self._desk.write(work, kept)

    def _ask_days(
        self, taking: _Taking, parts: tuple[TakenIn, ...], _done: Written
    ) -> None:
        work = partial(taking.photos.without_day, taking.plant_id, parts)
        self._desk.read(work, partial(self._open_days, taking.tag))

    def _open_days(self, tag: str, found: tuple[DayProposal, ...]) -> None:
        if not found:
            return
        dialog = PhotoDaysDialog(self._window, tag, found)
        dialog.saved.connect(partial(self._save_days, dialog))
        dialog.open()

    def _save_days(
        self, dialog: PhotoDaysDialog, days: Mapping[int, date | None]
    ) -> None:
        known = {photo_id: day for photo_id, day in days.items() if day is not None}
        if not known:
            dialog.close_saved()
            return
        work = partial(self._now.photos.set_days, known)
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

    # -- showing --------------------------------------------------------------------

    def open(self, photo: PhotoView) -> None:
        """Show a photo of the plant in sight, with the others before and after it."""
        detail = self._desk.detail
        if detail is None:
            return
        shown = _in_order(detail)
        at = _place(shown, photo.photo_id)
        if at is None:
            return
        lanes = self._desk.tasks, self._desk.drawable
        dialog = PhotoDialog(self._window, shown, at, *lanes)
        self._open = dialog
        plant_id = detail.plant_id
        dialog.change_wanted.connect(partial(self._change, dialog))
        dialog.remove_wanted.connect(self._remove)
        dialog.look_wanted.connect(partial(self._to_look, plant_id))
        dialog.beside_wanted.connect(
            lambda chosen: self.put_beside(plant_id, chosen.photo_id)
        )
        dialog.open()

    def put_beside(self, plant_id: int, photo_id: int | None = None) -> None:
        """Put two photos of a plant side by side: one, and the one a stage tells."""
        read = partial(self._now.photos.staged, plant_id)
        tag = partial(self._now.plants.get, plant_id)
        self._desk.read(
            lambda: (tag().tag, read()),
            lambda found: self._open_beside(*found, photo_id=photo_id),
        )

    def _open_beside(
        self, tag: str, found: tuple[StagedPhoto, ...], photo_id: int | None
    ) -> None:
        shown = [each for each in found if each.photo.problem is None]
        if len(shown) < 2:
            self._desk.told.emit(tr(ONE_PHOTO))
            return
        left = _place(shown, photo_id) or 0
        lanes = self._desk.tasks, self._desk.drawable, self._thumbs
        sides = (
            Side(tr("Left photo"), shown, *lanes),
            Side(tr("Right photo"), shown, *lanes),
        )
        chosen = left, partner(shown, left)
        BesideDialog(self._window, sides, chosen, tag).open()

    def _change(self, dialog: PhotoDialog, photo_id: int, draft: PhotoDraft) -> None:
        def refused(error: Exception) -> None:
            if isValid(dialog) and dialog.photo.photo_id == photo_id:
                dialog.refused(error)
            else:
                self._desk.fail(error)

        work = partial(self._now.photos.change, photo_id, draft)
        self._desk.write(work, refused=refused)

    def _remove(self, photo_id: int) -> None:
        self._desk.write(partial(self._now.photos.remove, photo_id))

    def _to_look(self, plant_id: int, photo: PhotoView) -> None:
        """Open the look a photo hangs on, else a new one with it."""
        detail = self._desk.detail
        looks = detail.looks if detail is not None else ()
        own = [each for each in looks if each.look_id == photo.look_id]
        if photo.look_id is not None and own:
            self._forms.change_look(own[0])
        else:
            self._forms.look_from_photo(plant_id, photo)

    def _plant_arrived(self, detail: PlantDetail) -> None:
        dialog = self._open
        if dialog is not None and isValid(dialog) and dialog.isVisible():
            dialog.renew(_in_order(detail))


def partner(photos: Sequence[StagedPhoto], at: int) -> int:
    """Give the photo to put beside another: of its stage in another year, else next."""
    one = photos[at]
    on = one.photo.shown_on
    for number, each in enumerate(photos):
        day = each.photo.shown_on
        if (
            number != at
            and one.stage is not None
            and each.stage is one.stage
            and on is not None
            and day is not None
            and day.year != on.year
        ):
            return number
    return at + 1 if at + 1 < len(photos) else at - 1


def _in_order(detail: PlantDetail) -> tuple[StagedPhoto, ...]:
    return staged(detail.photos, detail.looks)


def _place(photos: Sequence[StagedPhoto], photo_id: int | None) -> int | None:
    ids = [each.photo.photo_id for each in photos]
    return ids.index(photo_id) if photo_id in ids else None


def _take_all(taking: _Taking, step: Step) -> None:
    with closing(taking.photos.arriving(taking.paths)) as arriving:
        for number in range(len(taking.paths)):
            step(number, len(taking.paths))
            taking.parts.append(next(arriving))
