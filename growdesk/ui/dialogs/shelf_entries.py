"""Show what was entered of one good, the newest first, to be put right or removed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize

from growdesk.domain.speech import mark, tr
from growdesk.ui import stocktaking_texts
from growdesk.ui.dialogs.entry_list import EntryList
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.stocktaking_values import EntryView

NOTHING = mark("Nothing was entered yet. Count it, or write down what came in.")
NOTE = mark(
    "The newest count holds; what came in after it and the rounds since are reckoned."
)
_SIZE = QSize(640, 380)


class EntriesDialog(EntryList):
    """The entries of one good."""

    def __init__(self, parent: QWidget | None, name: str, unit: str) -> None:
        table = ToldTable(
            tr("What was entered of {name}, newest first").format(name=name),
            stocktaking_texts.ENTRY_COLUMNS,
            wide=(4,),
            numbers=(2, 3),
        )
        super().__init__(
            parent,
            tr("Entries: {name}").format(name=name),
            table,
            tr("Enter on an entry"),
        )
        self._unit = unit
        self.lay_out(_SIZE, tr(NOTHING), tr(NOTE))

    def show_entries(self, views: Sequence[EntryView]) -> None:
        """Show the entries there are."""
        self.show_rows(
            {view.entry_id: view for view in views},
            [stocktaking_texts.entry_texts(view, self._unit) for view in views],
        )
