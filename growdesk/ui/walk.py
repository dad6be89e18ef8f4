"""Walk the benches: choose which plants, then look at one after another.

A walk is remembered while the window stands: left and begun again on the same day, it
goes on where it was left. What was saved is saved, each look a step of its own.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct, field
from PySide6.QtCore import QObject
from shiboken6 import isValid

from growdesk.domain.errors import InputError
from growdesk.domain.kinds import Habit
from growdesk.domain.speech import mark, tr
from growdesk.ui import words
from growdesk.ui.dialogs.walk import Shown, WalkDialog
from growdesk.ui.dialogs.walk_choice import WalkChoiceDialog
from growdesk.ui.drafts import Drafts

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.values import Written
    from growdesk.services.walk_values import AtStop, Stop, Walkable, WalkChoice
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.look import LookDraft
    from growdesk.ui.widgets.thumbs import Thumbs

NO_PLANTS = mark("There is no plant to walk to yet.")
KEY = "F5"


class _Walk(Struct):
    """A walk under way; ``looked_at`` are the looks recorded on it, by plant."""

    folder: Path
    begun_on: date
    on: date
    where: str
    stops: tuple[Stop, ...]
    at: int = 0
    looked_at: dict[int, int] = field(default_factory=dict)

    @property
    def stop(self) -> Stop:
        return self.stops[self.at]

    @property
    def left(self) -> int:
        return len(self.stops) - len(self.looked_at)


class Walk(QObject):
    """The walks of one window."""

    def __init__(self, desk: Desk, window: QWidget, thumbs: Thumbs) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._thumbs = thumbs
        self._drafts = Drafts.of(window)
        self._walk: _Walk | None = None

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def open(self) -> None:
        """Go on with the walk that was left today, else choose one."""
        walk = self._walk
        if walk is not None and self._goes_on(walk):
            self._begin(walk)
        else:
            self.choose()

    def choose(self) -> None:
        """Choose which plants are walked to."""
        on = min(self._desk.on, self._desk.today)
        self._desk.read(partial(self._now.walks.stops, on), self._choose)

    # -- choosing -------------------------------------------------------------------

    def _choose(self, walkable: Walkable) -> None:
        if not walkable.stops:
            self._desk.told.emit(tr(NO_PLANTS))
            return
        dialog = WalkChoiceDialog(
            self._window, walkable, self._desk.today, tr("Walk the benches"), tr("Walk")
        )
        dialog.saved.connect(partial(self._chosen, dialog))
        dialog.open()

    def _chosen(
        self, dialog: WalkChoiceDialog, picked: tuple[WalkChoice, date]
    ) -> None:
        choice, on = picked
        where = dialog.place.currentText()

        def begin(walkable: Walkable) -> None:
            stops = walkable.chosen(choice)
            if not stops:
                dialog.refused(_none_left(where, on))
                return
            dialog.close_saved()
            today = self._desk.today
            self._begin(_Walk(self._now.folder, today, on, where, stops))

        self._desk.read(partial(self._now.walks.stops, on), begin)

    # -- walking --------------------------------------------------------------------

    def _goes_on(self, walk: _Walk) -> bool:
        is_here = walk.folder == self._now.folder
        return is_here and walk.begun_on == self._desk.today and walk.left > 0

    def _begin(self, walk: _Walk) -> None:
        self._walk = walk
        dialog = WalkDialog(self._window, _title(walk))
        self._desk.bus.hold()
        dialog.finished.connect(self._desk.bus.release)
        dialog.saved.connect(partial(self._save, dialog, walk))
        dialog.step_wanted.connect(partial(self._step, dialog, walk))
        dialog.left.connect(partial(self._left, dialog, walk))
        dialog.others_wanted.connect(partial(self._others, dialog))
        self._go(dialog, walk)

    def _go(self, dialog: WalkDialog, walk: _Walk, said: str = "") -> None:
        """Read what the stop's form opens with, and show it."""
        dialog.wait()
        stop = walk.stop
        saved_id = walk.looked_at.get(stop.plant_id)
        work = partial(_at_stop, self._now, stop.plant_id, walk.on, saved_id)
        self._desk.read(
            work,
            partial(self._show, dialog, walk, said),
            partial(self._gone, dialog, walk),
        )

    def _show(
        self, dialog: WalkDialog, walk: _Walk, said: str, read: tuple[AtStop, bool]
    ) -> None:
        if not isValid(dialog):
            return
        at, monopodial = read
        stop = walk.stop
        if at.saved_id is None:
            walk.looked_at.pop(stop.plant_id, None)
        shown = Shown(stop, walk.at + 1, len(walk.stops), at, monopodial)
        dialog.show_stop(shown, self._drafts.kept(self._key(shown)), said)
        if at.photo is not None:
            self._thumbs.show_in(at.photo, dialog.photo)
        if not dialog.isVisible():
            dialog.open()

    def _gone(self, dialog: WalkDialog, walk: _Walk, error: Exception) -> None:
        """Pass on where a plant was removed meanwhile."""
        self._desk.fail(error)
        if not isinstance(error, InputError):
            if isValid(dialog):
                dialog.refused(error)
                if not dialog.isVisible():
                    dialog.reject()
            return
        gone = walk.stop
        walk.stops = tuple(each for each in walk.stops if each is not gone)
        walk.looked_at.pop(gone.plant_id, None)
        if isValid(dialog):
            walk.at -= 1
            self._move(dialog, walk, 1, "")

    def _step(self, dialog: WalkDialog, walk: _Walk, by: int) -> None:
        """Go to the stop before or after; what was typed here is kept."""
        shown = dialog.shown
        if shown is None:
            return
        kept = dialog.kept()
        title = tr("Look at {tag}").format(tag=shown.stop.tag)
        self._drafts.keep(self._key(shown), title, kept)
        said = f"{shown.stop.tag}: "
        said += tr("kept as a draft.") if kept else tr("nothing recorded.")
        self._move(dialog, walk, by, said if by > 0 or kept else "")

    def _move(self, dialog: WalkDialog, walk: _Walk, by: int, said: str) -> None:
        if walk.at + by >= len(walk.stops):
            self._end(dialog, walk)
            return
        walk.at = max(walk.at + by, 0)
        self._go(dialog, walk, said)

    def _save(self, dialog: WalkDialog, walk: _Walk, draft: LookDraft) -> None:
        shown = dialog.shown
        if shown is None:
            return
        given = draft.look, draft.note, draft.photos
        looks, saved_id = self._now.looks, shown.at.saved_id
        if saved_id is None:
            work = partial(looks.record, shown.stop.plant_id, *given)
        else:
            work = partial(looks.change, saved_id, *given)
        saved = partial(self._saved, dialog, walk, shown)
        self._desk.write(work, saved, dialog.refused)

    def _saved(
        self, dialog: WalkDialog, walk: _Walk, shown: Shown, done: Written
    ) -> None:
        self._drafts.let_go(self._key(shown))
        walk.looked_at[shown.stop.plant_id] = done.ids[0]
        if isValid(dialog):
            said = " ".join(
                (tr("{tag}: saved.").format(tag=shown.stop.tag), *done.problems)
            )
            self._move(dialog, walk, 1, said)

    # -- leaving --------------------------------------------------------------------

    def _left(self, dialog: WalkDialog, walk: _Walk, kept: object) -> None:
        """Keep what was typed at the stop that the walk is left at."""
        shown = dialog.shown
        if shown is not None:
            self._drafts.keep(
                self._key(shown), tr("Look at {tag}").format(tag=shown.stop.tag), kept
            )
        self._desk.told.emit(_told(walk))

    def _end(self, dialog: WalkDialog, walk: _Walk) -> None:
        """Close after the last stop; begun again, the walk is a new one."""
        self._walk = None
        dialog.accept()
        self._desk.told.emit(_told(walk, is_over=True))

    def _others(self, dialog: WalkDialog) -> None:
        """Leave this walk for another one."""
        dialog.reject()
        self.choose()

    def _key(self, shown: Shown) -> tuple[object, ...]:
        """Give the key of a stop's draft: that of the plant's own look form."""
        return (self._now.folder, "look", shown.stop.plant_id, shown.at.saved_id)


def _title(walk: _Walk) -> str:
    if walk.on == walk.begun_on:
        return tr("Walk: {where}").format(where=walk.where)
    return tr("Walk: {where}, looks of {short_day}").format(
        where=walk.where, short_day=words.short_day(walk.on)
    )


def _told(walk: _Walk, *, is_over: bool = False) -> str:
    """Say what was looked at, and what is left of it."""
    looked, left = len(walk.looked_at), walk.left
    if is_over:
        said = (
            tr("The walk is done: {looked} looked at, {left} passed by.")
            if left
            else tr("The walk is done: {looked} looked at.")
        )
        return said.format(looked=looked, left=left)
    if not left:
        return tr("All {looked} looked at.").format(looked=looked)
    return tr("{looked} looked at, {left} left; {key} goes on.").format(
        looked=looked, left=left, key=KEY
    )


def _none_left(where: str, on: date) -> InputError:
    hint = tr("Choose another place, or all plants.")
    problem = tr("has no such plant on {short_day}").format(
        short_day=words.short_day(on)
    )
    return InputError("place", where, problem, hint)


def _at_stop(
    collection: Collection, plant_id: int, on: date, saved_id: int | None
) -> tuple[AtStop, bool]:
    at = collection.walks.at(plant_id, on, saved_id)
    return at, collection.kinds.kind_for(plant_id).habit is Habit.MONOPODIAL
