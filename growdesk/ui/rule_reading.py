"""Open the rules of the decision, with the numbers of the collection in them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.ui.dialogs.rule import RulesDialog

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.services.rule_views import RuleView
    from growdesk.ui.desk import Desk
    from growdesk.ui.shelf_forms import ShelfForms


class RuleReading(QObject):
    """Reads the pages and shows them; from there a person gets to the house rules."""

    def __init__(self, desk: Desk, window: QWidget, shelf: ShelfForms) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._shelf = shelf

    def show(self, rule: str = "") -> None:
        """Show all rules, at one of them where it is named."""
        read = self._desk.collection.settings.rules
        self._desk.read(read, partial(self._open, rule))

    def _open(self, rule: str, views: tuple[RuleView, ...]) -> None:
        dialog = RulesDialog(self._window, views, rule)
        dialog.setting_wanted.connect(self._shelf.settings)
        dialog.open()
