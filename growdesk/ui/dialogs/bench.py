"""Name a bench of a place, and say whether it stands at the glass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.bench_values import BenchDraft
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held


class BenchDialog(FormDialog):
    """One bench, shelf or tray, new or to be changed."""

    def __init__(self, parent: QWidget | None, draft: BenchDraft | None) -> None:
        title = (
            tr("New bench")
            if draft is None
            else tr("Bench {name}").format(name=draft.name)
        )
        super().__init__(parent, title, tr("Save"))
        kept = draft or BenchDraft("")
        self.name = self.form.line("bench_name", tr("&Name"), tr("say top shelf"))
        self.at_glass = QCheckBox(tr("at the pane: coldest at night, hottest at noon"))
        self.form.add("at_glass", tr("At the &glass"), self.at_glass)
        self.note = self.form.line(
            "note", tr("N&ote"), tr("say drips on the shelf below")
        )
        self.form.end()
        self.body.addWidget(self.form)
        self.name.setText(kept.name)
        self.at_glass.setChecked(kept.at_glass)
        self.note.setText(kept.note)
        sizes.least_wide(self, 460)
        self.begin()
        self.name.setFocus()

    @override
    def draft(self) -> BenchDraft:
        """Give the bench as entered."""
        return BenchDraft(
            self.name.text().strip(),
            self.at_glass.isChecked(),
            self.note.text().strip(),
        )

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}
