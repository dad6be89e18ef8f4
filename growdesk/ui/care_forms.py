"""Open the form for care, new for some plants or to be corrected, and write it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.domain.facts import CareKind
from growdesk.domain.speech import tr
from growdesk.services.care import draft_of
from growdesk.services.care_values import CareDraft
from growdesk.ui import words
from growdesk.ui.dialogs.care import CareDialog, CareStart
from growdesk.ui.drafts import Drafts
from growdesk.ui.picking import whom

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.values import CareView, Line
    from growdesk.ui.desk import Desk


class CareForms(QObject):
    """The forms of care of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def open(self, lines: Sequence[Line], what: CareKind) -> None:
        """Open what was really given to some plants, or done with them."""
        if not lines:
            self._desk.told.emit(tr("No plant is selected."))
            return
        on = min(self._desk.on, self._desk.today)
        ids = tuple(line.plant_id for line in lines)
        planned = {words.in_jug(line) for line in lines}
        strength = planned.pop() if len(planned) == 1 else None
        draft = CareDraft(on, what)
        self._desk.read(
            partial(_start, self._now, whom(lines), draft, None),
            partial(self._open_new, ids, strength),
        )

    def change(self, view: CareView) -> None:
        """Open a piece of care that is on record."""
        detail = self._desk.detail
        if detail is None:
            return
        self._desk.read(
            partial(_start, self._now, detail.draft.tag, draft_of(view), view.care_id),
            self._open_change,
        )

    def _open_new(
        self, ids: tuple[int, ...], strength: float | None, start: CareStart
    ) -> None:
        dialog = CareDialog(self._window, start)
        dialog.propose(strength)
        named = "give" if start.draft.what is CareKind.FEED else start.draft.what
        self._drafts.attend((self._now.folder, named, ids), dialog)
        dialog.saved.connect(partial(self._add, dialog, ids))
        dialog.open()

    def _open_change(self, start: CareStart) -> None:
        dialog = CareDialog(self._window, start)
        self._drafts.attend((self._now.folder, "care", start.care_id), dialog)
        dialog.saved.connect(partial(self._change, dialog, start))
        dialog.delete_wanted.connect(partial(self._delete, dialog))
        dialog.open()

    def _add(self, dialog: CareDialog, ids: tuple[int, ...], draft: CareDraft) -> None:
        work = partial(self._now.care.add, ids, draft)
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

    def _change(self, dialog: CareDialog, start: CareStart, draft: CareDraft) -> None:
        if start.care_id is None:
            return
        work = partial(self._now.care.change, start.care_id, draft)
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

    def _delete(self, dialog: CareDialog, care_id: int) -> None:
        work = partial(self._now.care.remove, (care_id,))
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)


def _start(
    collection: Collection, named: str, draft: CareDraft, care_id: int | None
) -> CareStart:
    places = tuple(view.draft.name for view in collection.places.all())
    return CareStart(named, draft, care_id, collection.care.products(), places)
