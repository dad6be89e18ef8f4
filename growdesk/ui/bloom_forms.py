"""Open the form of a bloom and who blooms when, and write what they hand out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import mark, tr
from growdesk.services.bloom_values import BloomDraft
from growdesk.ui.chart_over import open_chart
from growdesk.ui.dialogs.bloom import BloomDialog, BloomStart
from growdesk.ui.dialogs.who_blooms import WhoBloomsDialog
from growdesk.ui.drafts import Drafts
from growdesk.ui.picking import whom_of

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.bloom_values import BloomView, Proposal
    from growdesk.services.collection import Collection
    from growdesk.ui.desk import Desk

BY_A_LOOK = mark("Filled in from a look; nothing is written before you save.")
UNDER_WAY = mark("This bloom is under way. A new one is begun in the tab Blooms.")


class BloomForms(QObject):
    """The blooms of one window."""

    save_wanted = Signal(object, object, object)

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def open(self, plant_id: int) -> None:
        """Open the bloom under way, else a new one; a look fills it in."""
        on = min(self._desk.on, self._desk.today)
        self._desk.read(partial(_start, self._now, plant_id, on), self._show)

    def new(self) -> None:
        """Open a new bloom of the plant shown, with nothing in it."""
        detail = self._desk.detail
        if detail is not None:
            whom = whom_of(detail.draft.tag, detail.draft.name)
            self._show(BloomStart(detail.plant_id, whom, BloomDraft()))

    def change(self, view: BloomView) -> None:
        """Open a bloom that is on record."""
        detail = self._desk.detail
        if detail is not None:
            whom = whom_of(detail.draft.tag, detail.draft.name)
            start = BloomStart(detail.plant_id, whom, view.draft, view.bloom_id)
            self._show(start)

    def take(self, proposal: Proposal) -> None:
        """Write what a look proposes of a bloom, as one press asked for."""
        detail = self._desk.detail
        if detail is None:
            return
        blooms = self._now.blooms
        if proposal.bloom_id is None:
            work = partial(blooms.add, detail.plant_id, proposal.draft)
        else:
            work = partial(blooms.change, proposal.bloom_id, proposal.draft)
        self._desk.write(work)

    def who_blooms(self) -> None:
        """Open who blooms when through the year."""
        dialog = WhoBloomsDialog(self._window, self._desk.on)
        dialog.again_wanted.connect(self._desk.show_chart)
        open_chart(dialog, self._desk, self.save_wanted)

    def _show(self, start: BloomStart) -> None:
        dialog = BloomDialog(self._window, start)
        key = (self._now.folder, "bloom", start.plant_id, start.bloom_id)
        self._drafts.attend(key, dialog)
        dialog.saved.connect(partial(self._save, dialog, start))
        dialog.delete_wanted.connect(partial(self._delete, dialog))
        dialog.open()

    def _save(self, dialog: BloomDialog, start: BloomStart, draft: BloomDraft) -> None:
        blooms = self._now.blooms
        if start.bloom_id is None:
            work = partial(blooms.add, start.plant_id, draft)
        else:
            work = partial(blooms.change, start.bloom_id, draft)
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)

    def _delete(self, dialog: BloomDialog, bloom_id: int) -> None:
        work = partial(self._now.blooms.remove, bloom_id)
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)


def _start(collection: Collection, plant_id: int, on: date) -> BloomStart:
    draft = collection.plants.get(plant_id)
    whom = whom_of(draft.tag, draft.name)
    found = collection.blooms.of(plant_id, on)
    bloom_id, bloom = collection.blooms.start(plant_id, on)
    filled = ""
    if found.proposal is not None:
        filled = tr(BY_A_LOOK)
    elif bloom_id is not None:
        filled = tr(UNDER_WAY)
    return BloomStart(plant_id, whom, bloom, bloom_id, filled)
