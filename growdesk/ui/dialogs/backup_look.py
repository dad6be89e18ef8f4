"""Show which plants a backup holds, and what of them differs from now."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui import backup_words, sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from growdesk.services.backup_look import Compared

_SIZE = QSize(980, 560)


class BackupLookDialog(OnScreen):
    """A backup beside the collection as it is now, plant by plant."""

    def __init__(
        self, parent: QWidget | None, name: str, found: tuple[Compared, ...]
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("In the backup: {name}").format(name=name))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.first = label(backup_words.compared_text(found))
        self.table = ToldTable(
            tr("Plants in the backup and now"),
            (tr("Tag"), tr("Name"), tr("In the backup"), tr("Now")),
            wide=(1, 2, 3),
        )
        self._rows = [backup_words.compared_row(each) for each in found]
        self.chosen = label("", tone="muted")
        self.table.itemSelectionChanged.connect(self._tell_chosen)
        self.table.show_rows(self._rows)
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        foot.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.first)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.chosen)
        outer.addWidget(foot)
        self.resize(sizes.px(_SIZE.width()), sizes.px(_SIZE.height()))
        self.table.setFocus()

    def _tell_chosen(self) -> None:
        row = self.table.currentRow()
        is_one = 0 <= row < len(self._rows)
        self.chosen.setText(backup_words.whole_row(self._rows[row]) if is_one else "")
