"""Print the away sheet, or save it as PDF: choose the days, then the pages.

The modules for printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import tr
from growdesk.services.long_work import StoppedError
from growdesk.ui.choosing import choose_pdf
from growdesk.ui.long_work import NOTHING_WRITTEN, Long
from growdesk.ui.preferences import preferences
from growdesk.ui.preview_over import open_preview

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.away import AwaySheet
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.away import AwayDialog, AwayDraft

_CALL = "away-call"
_PAPERS_PT = ((595.0, 842.0), (612.0, 792.0))
T = TypeVar("T")


class AwayPrints(QObject):
    """The away sheets of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self) -> None:
        """Choose the days away."""
        self._desk.read(self._desk.collection.away.places, self._choose)

    def _choose(self, places: tuple[str, ...]) -> None:
        from growdesk.ui.dialogs.away import AwayDialog  # noqa: PLC0415 -- when asked

        call = str(preferences().value(_CALL, ""))
        dialog = AwayDialog(self._window, places, self._desk.today, call)
        dialog.saved.connect(partial(self._make, dialog, self._preview))
        dialog.add_way(tr("Save as PDF…"), partial(self._save, dialog))
        dialog.open()

    def _save(self, dialog: AwayDialog) -> None:
        """Ask for a file, once the days can be meant."""
        try:
            draft = dialog.draft()
        except GrowdeskError as error:
            dialog.refused(error)
            return
        name = f"away-{draft.begins.isoformat()}.pdf"
        choose_pdf(
            dialog,
            tr("Save the away sheet"),
            name,
            lambda file: self.save_to(dialog, draft, file),
        )

    def save_to(self, dialog: AwayDialog, draft: AwayDraft, file: Path) -> None:
        """Save the sheet of the days chosen as a PDF."""
        work = partial(_written, self._desk.collection, draft, file)

        def done(_written: object) -> None:
            self._remember(draft)
            dialog.close_saved()
            self._desk.told.emit(tr("Saved {file}").format(file=file))

        self._begin(tr("Saving the away sheet"), work, done, dialog)

    def _make(
        self,
        dialog: AwayDialog,
        use: Callable[[AwaySheet, AwayDraft], object],
        draft: AwayDraft,
    ) -> None:
        def made(sheet: AwaySheet) -> None:
            self._remember(draft)
            dialog.close_saved()
            use(sheet, draft)

        work = partial(_made, self._desk.collection, draft)
        self._begin(tr("Working out the away sheet"), work, made, dialog)

    def _begin(
        self,
        title: str,
        work: Callable[[Step], T],
        done: Callable[[T], object],
        dialog: AwayDialog,
    ) -> None:
        """Begin long work, with the dialog out of the way of its cancel.

        Refused or cancelled, the dialog is there again as it was filled.
        """

        def failed(error: Exception) -> None:
            dialog.open()
            dialog.refused(error)

        def stopped() -> None:
            self._desk.told.emit(tr(NOTHING_WRITTEN))
            if not self._desk.long.is_closed:
                failed(StoppedError(tr(NOTHING_WRITTEN)))

        dialog.hide()
        self._desk.long.begin(Long(title, work, done, failed, stopped))

    def _remember(self, draft: AwayDraft) -> None:
        preferences().setValue(_CALL, draft.call)

    def _preview(self, sheet: AwaySheet, draft: AwayDraft) -> None:
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415
        from growdesk.ui.printing.away import lay_out_away, title  # noqa: PLC0415

        laid_out = partial(lay_out_away, sheet, draft.call)
        preview = PagesPreview(
            title(sheet), laid_out, tr("the away sheet"), self._window
        )
        open_preview(preview, self._desk)


def _made(collection: Collection, draft: AwayDraft, step: Step) -> AwaySheet:
    """Give the sheet, or say that it fills too many pages on either paper."""
    from growdesk.ui.printing.away import lay_out_away  # noqa: PLC0415 -- printing

    sheet = collection.away.make(draft.begins, draft.ends, draft.place, step)
    for number, paper in enumerate(_PAPERS_PT):
        step(number, len(_PAPERS_PT))
        lay_out_away(sheet, draft.call, *paper)
    return sheet


def _written(collection: Collection, draft: AwayDraft, file: Path, step: Step) -> None:
    from growdesk.ui.printing.away import write_away  # noqa: PLC0415 -- printing

    write_away(_made(collection, draft, step), draft.call, file, step=step)
