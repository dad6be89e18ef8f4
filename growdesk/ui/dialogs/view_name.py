"""Ask under which name a view of the collection is kept, or called from now on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtWidgets import QWidget


class ViewNameDialog(FormDialog):
    """One name; a name that a view has already is said to be changed by it."""

    def __init__(
        self, parent: QWidget | None, title: str, name: str, taken: Iterable[str]
    ) -> None:
        super().__init__(parent, title, tr("Keep"))
        self._taken = {each.casefold(): each for each in taken}
        self._said = label("", tone="muted")
        self.name = self.form.line("name", tr("&Name"), tr("say Warm bench"))
        self.form.end()
        self.body.addWidget(self.form)
        self.body.addWidget(self._said)
        self.name.textChanged.connect(self._say)
        self.name.setText(name)
        self._say()
        sizes.least_wide(self, 420)
        self.begin()
        self.name.selectAll()
        self.name.setFocus()

    @override
    def draft(self) -> str:
        name = " ".join(self.name.text().split())
        if not name:
            hint = tr("Give it a short name, such as Warm bench.")
            raise InputError("name", name, tr("is empty"), hint)
        return self._taken.get(name.casefold(), name)

    def _say(self) -> None:
        typed = " ".join(self.name.text().split()).casefold()
        if typed in self._taken:
            self._said.setText(
                tr("This changes the view {taken}.").format(taken=self._taken[typed])
            )
        else:
            self._said.setText(
                tr("Find, filters, columns and order are kept under it.")
            )
