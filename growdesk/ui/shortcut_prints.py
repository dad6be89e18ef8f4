"""Open the sheet of keys, print it, or save it as PDF.

The modules for printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.domain.speech import mark, tr
from growdesk.ui import shortcut_table
from growdesk.ui.choosing import choose_pdf
from growdesk.ui.dialogs.shortcuts import ShortcutsDialog
from growdesk.ui.preview_over import open_preview

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.desk import Desk

WHAT = mark("the shortcuts")


class ShortcutPrints(QObject):
    """The sheet of keys of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self) -> None:
        """Show the keys."""
        dialog = ShortcutsDialog(self._window, shortcut_table.groups())
        dialog.preview_wanted.connect(partial(self._preview, dialog))
        dialog.save_wanted.connect(partial(self._save, dialog))
        dialog.open()

    def save_to(self, file: Path) -> None:
        """Save the sheet as a PDF."""
        work = partial(_write, shortcut_table.groups(), file)
        told = tr("Saved {file}").format(file=file)
        self._desk.read(work, lambda _done: self._desk.told.emit(told))

    def _save(self, over: QWidget) -> None:
        title = tr("Save the shortcuts")
        choose_pdf(over, title, "shortcuts.pdf", self.save_to)

    def _preview(self, dialog: ShortcutsDialog) -> None:
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415 -- printing only
        from growdesk.ui.printing.shortcuts import lay_out_keys  # noqa: PLC0415 -- ditto

        laid_out = partial(lay_out_keys, shortcut_table.groups())
        dialog.accept()
        preview = PagesPreview(
            tr(shortcut_table.TITLE), laid_out, tr(WHAT), self._window
        )
        open_preview(preview, self._desk)


def _write(groups: tuple[shortcut_table.Group, ...], file: Path) -> None:
    from growdesk.ui.printing.shortcuts import write_keys  # noqa: PLC0415 -- printing

    write_keys(groups, file)
