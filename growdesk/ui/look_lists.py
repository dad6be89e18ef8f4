"""Print a look list, or save it as PDF: choose which plants, then the pages.

The modules for printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import mark, tr
from growdesk.ui.dialogs.walk_choice import WalkChoiceDialog
from growdesk.ui.long_work import NOTHING_WRITTEN, Long
from growdesk.ui.preview_over import open_preview
from growdesk.ui.walk import NO_PLANTS

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.long_work import Step
    from growdesk.services.look_list import LookList
    from growdesk.services.walk_values import Walkable, WalkChoice
    from growdesk.ui.desk import Desk

TITLE = mark("Print a look list")


class LookLists(QObject):
    """The look lists of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self) -> None:
        """Choose which plants stand on the list."""
        on = min(self._desk.on, self._desk.today)
        self._desk.read(partial(self._desk.collection.walks.stops, on), self._choose)

    def _choose(self, walkable: Walkable) -> None:
        if not walkable.stops:
            self._desk.told.emit(tr(NO_PLANTS))
            return
        dialog = WalkChoiceDialog(
            self._window, walkable, self._desk.today, tr(TITLE), tr("Preview")
        )
        dialog.saved.connect(partial(self._make, dialog, self._preview))
        dialog.add_way(tr("Save as PDF…"), partial(self._save, dialog))
        dialog.open()

    def _save(self, dialog: WalkChoiceDialog) -> None:
        """Ask for a file, once the choice can be meant."""
        try:
            picked = dialog.draft()
        except GrowdeskError as error:
            dialog.refused(error)
            return
        chooser = QFileDialog(dialog, tr("Save the look list"), str(Path.home()))
        chooser.setNameFilter(tr("PDF (*.pdf)"))
        chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        chooser.setDefaultSuffix("pdf")
        chooser.selectFile(f"look-list-{picked[1].isoformat()}.pdf")
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chooser.fileSelected.connect(
            lambda name: self.save_to(dialog, picked, Path(name))
        )
        chooser.open()

    def save_to(
        self, dialog: WalkChoiceDialog, picked: tuple[WalkChoice, date], file: Path
    ) -> None:
        """Save the list that was chosen as a PDF."""
        self._make(dialog, partial(self._write, file), picked)

    def _make(
        self,
        dialog: WalkChoiceDialog,
        use: Callable[[LookList], object],
        picked: tuple[WalkChoice, date],
    ) -> None:
        choice, on = picked
        place = None if choice.everywhere else dialog.place_name()
        make = self._desk.collection.look_lists.make

        def made(paper: LookList) -> None:
            dialog.close_saved()
            use(paper)

        work = partial(make, on, place, only_due=choice.only_due)
        self._desk.read(work, made, dialog.refused)

    def _preview(self, paper: LookList) -> None:
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415 -- ditto
        from growdesk.ui.printing.look_list import (  # noqa: PLC0415 -- printing only
            lay_out_look_list,
            title,
        )

        laid_out = partial(lay_out_look_list, paper)
        preview = PagesPreview(title(paper), laid_out, tr("the list"), self._window)
        open_preview(preview, self._desk)

    def _write(self, file: Path, paper: LookList) -> None:
        saved = tr("Saved {file}").format(file=file)
        self._desk.long.begin(
            Long(
                tr("Saving the look list"),
                partial(_write_pdf, paper, file),
                lambda _done: self._desk.told.emit(saved),
                self._desk.fail,
                lambda: self._desk.told.emit(tr(NOTHING_WRITTEN)),
            )
        )


def _write_pdf(paper: LookList, file: Path, step: Step) -> None:
    from growdesk.ui.printing.look_list import (  # noqa: PLC0415 -- printing only
        write_look_list,
    )

    write_look_list(paper, file, step=step)
