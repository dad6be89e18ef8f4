"""Open the forms for plants and looks, and write what they hand out.

What a form opens with is read on the desk's thread first; the form stays open until
its draft is written, and a refusal is told beside its field. A form that is left is
kept as a draft.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QObject, Signal

from growdesk.domain.day_words import dated_text, month_day_text
from growdesk.domain.kinds import Habit
from growdesk.domain.speech import tr
from growdesk.services.plant_values import Kin
from growdesk.services.values import PlantDraft
from growdesk.ui import photo_words, typed, words
from growdesk.ui.dialogs.look import LookDialog, LookDraft, LookStart
from growdesk.ui.dialogs.plant import PlantDialog, PlantStart
from growdesk.ui.drafts import Drafts
from growdesk.ui.tasks import Job, Lane

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.facts import Look
    from growdesk.services.collection import Collection
    from growdesk.services.values import LookView, PhotoView, PlaceView, Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.frame import Framed


class _LookBasis(Struct, frozen=True):
    draft: PlantDraft
    look: Look
    last_on: date | None
    monopodial: bool


class Forms(QObject):
    """The forms of plants and looks."""

    plant_added = Signal(int)
    place_wanted = Signal(object)

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    # -- looks ----------------------------------------------------------------------

    def look(self, plant_id: int, why: str = "", sign: str = "") -> None:
        """Open a new look; a draft that was left is opened again.

        ``why`` says why it is worth taking, ``sign`` is the key of the sign in doubt.
        """
        on = min(self._desk.on, self._desk.today)
        work = partial(_look_basis, self._now, plant_id, on)
        self._desk.read(work, partial(self._start_look, plant_id, why, sign))

    def look_from_photo(self, plant_id: int, photo: PhotoView) -> None:
        """Open a new look of a photo's day, with the photo on it."""
        today = self._desk.today
        on = photo.taken_on or min(self._desk.on, today)
        shown = ((photo.path, photo_words.name(photo)),)
        work = partial(_look_basis, self._now, plant_id, on)
        begin = partial(self._start_look, plant_id, "", "", photos=shown)
        self._desk.read(work, begin)

    def change_look(self, view: LookView) -> None:
        """Open a look that was recorded."""
        detail = self._desk.detail
        if detail is None:
            return
        day = words.short_day(view.look.on)
        self._open_look(
            LookStart(
                plant_id=detail.plant_id,
                title=tr("Look at {tag} of {day}").format(
                    tag=detail.draft.tag, day=day
                ),
                look=view.look,
                monopodial=detail.monopodial,
                note=view.note,
                look_id=view.look_id,
            )
        )

    def _start_look(
        self,
        plant_id: int,
        why: str,
        sign: str,
        basis: _LookBasis,
        photos: tuple[tuple[Path, str], ...] = (),
    ) -> None:
        draft = basis.draft
        self._open_look(
            LookStart(
                plant_id=plant_id,
                title=tr("Look at {tag}, {name}").format(
                    tag=draft.tag, name=draft.name or tr("no name recorded")
                ),
                look=basis.look,
                monopodial=basis.monopodial,
                filled=_filled(basis, self._desk.today),
                why=why,
                sign=sign,
                photos=photos,
            )
        )

    def _open_look(self, start: LookStart) -> None:
        dialog = LookDialog(self._window, start)
        self._attend(dialog, "look", start.plant_id, start.look_id)
        dialog.saved.connect(partial(self._save_look, dialog, start))
        dialog.delete_wanted.connect(partial(self._delete_look, dialog))
        dialog.open()

    def _save_look(
        self, dialog: LookDialog, start: LookStart, draft: LookDraft
    ) -> None:
        if start.look_id is None:
            work = partial(
                self._now.looks.record,
                start.plant_id,
                draft.look,
                draft.note,
                draft.photos,
            )
        else:
            work = partial(
                self._now.looks.change,
                start.look_id,
                draft.look,
                draft.note,
                draft.photos,
            )
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

    def _delete_look(self, dialog: LookDialog, look_id: int) -> None:
        self._desk.write(
            partial(self._now.looks.delete, look_id),
            lambda _done: dialog.close_saved(),
            dialog.refused,
        )

    # -- drafts ---------------------------------------------------------------------

    def _attend(self, dialog: Framed, *of: object) -> None:
        self._drafts.attend((self._now.folder, *of), dialog)

    # -- plants ---------------------------------------------------------------------

    def add_plant(self) -> None:
        """Open a new plant; its first look follows in the same flow."""
        self._warm_units()
        work = partial(_plant_start, self._now, None)
        self._desk.read(work, self._open_plant)

    def change_plant(self, plant_id: int) -> None:
        """Open a plant that is there."""
        self._warm_units()
        work = partial(_plant_start, self._now, plant_id)
        self._desk.read(work, self._open_plant)

    def _open_plant(self, start: PlantStart) -> None:
        dialog = PlantDialog(self._window, start, self._now.plants.guess_kind)
        self._attend(dialog, "plant", start.plant_id)
        dialog.saved.connect(partial(self._save_plant, dialog, start))
        dialog.place_wanted.connect(lambda: self.place_wanted.emit(dialog))
        dialog.open()

    def _save_plant(
        self, dialog: PlantDialog, start: PlantStart, draft: PlantDraft
    ) -> None:
        if start.plant_id is None:
            work = partial(self._now.plants.add, draft)
        else:
            work = partial(self._now.plants.change, start.plant_id, draft)
        is_new = start.plant_id is None
        self._desk.write(
            work, partial(self._plant_saved, dialog, is_new), dialog.refused
        )

    def _plant_saved(self, dialog: PlantDialog, is_new: bool, done: Written) -> None:  # noqa: FBT001
        dialog.close_saved()
        if is_new and done.ids:
            self.plant_added.emit(done.ids[0])
            self.look(done.ids[0])

    def _warm_units(self) -> None:
        """Load the unit parser beside the typing, so that saving does not wait."""
        work = partial(typed.volume_l, "1 L", "volume")
        self._desk.tasks.ask(
            self, Job(work, lambda _litres: None, lambda _error: None), Lane.SIDE
        )


def _look_basis(collection: Collection, plant_id: int, on: date) -> _LookBasis:
    looks = collection.looks
    return _LookBasis(
        collection.plants.get(plant_id),
        looks.start(plant_id, on),
        looks.last_on(plant_id, on),
        collection.kinds.kind_for(plant_id).habit is Habit.MONOPODIAL,
    )


def _filled(basis: _LookBasis, today: date) -> str:
    """Say from which look the form is filled in, and what saving it will claim."""
    last = basis.last_on
    if last is None:
        return ""
    same_year = last.year == today.year
    when = month_day_text(last.month, last.day) if same_year else dated_text(last)
    seen = (
        tr("today")
        if basis.look.on == today
        else tr("on {near_day}").format(near_day=words.near_day(basis.look.on))
    )
    return tr(
        "Filled in from the look of {when}: change what differs. "
        "What is saved is what you saw {seen}."
    ).format(when=when, seen=seen)


def _plant_start(collection: Collection, plant_id: int | None) -> PlantStart:
    places: tuple[PlaceView, ...] = collection.places.all()
    if plant_id is None:
        only = places[0].place_id if len(places) == 1 else None
        draft = PlantDraft(collection.plants.next_tag(), "", "", place_id=only)
    else:
        draft = collection.plants.get(plant_id)
    known = collection.plants.all()
    return PlantStart(
        plant_id,
        draft,
        collection.plants.kinds(),
        places,
        collection.benches.choices(),
        tuple(Kin(key, each.tag, each.name) for key, each in known),
        collection.clock.today(),
        collection.settings.house().quarantine_days,
    )
