"""Keep the shelf: tins of fertilizer by their analysis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from growdesk.services.values import TinDraft
from growdesk.ui import typed, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.shelf_words import with_use
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import TinView


class TinsDialog(RowsDialog):
    """All tins, one of them in the form."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, "Tins on the shelf", "tin")
        self._views: dict[int, TinView] = {}
        self.name = self.form.line("name", "&Name", "what you call it")
        self.analysis = self.form.line(
            "analysis", "&Analysis", "as on the label, say 20-20-20"
        )
        self.density = self.form.line(
            "density_g_per_ml", "&Density", "liquids only, say 1.2 g/mL"
        )
        self.in_use = QCheckBox("mix from this tin")
        self.form.add("in_use", "In &use", self.in_use)
        self.note = self.form.line("note", "N&ote")
        self.form.wide(
            label(
                "N-P2O5-K2O in per cent by weight; more may follow, as "
                "“15-5-15 + 5 Ca + 2 Mg”. Without a density the tin is dry.",
                tone="muted",
            )
        )
        self.form.end()

    def show_tins(self, views: Sequence[TinView], chosen: int | None) -> None:
        """Show the tins there are."""
        self._views = {view.tin_id: view for view in views}
        self.show_rows([(v.tin_id, with_use(v.draft.name, v)) for v in views], chosen)

    @override
    def draft(self) -> TinDraft:
        """Give the tin as entered."""
        return TinDraft(
            name=self.name.text().strip(),
            analysis=self.analysis.text().strip(),
            density_g_per_ml=typed.density_g_per_ml(
                self.density.text().strip(), "density_g_per_ml"
            ),
            in_use=self.in_use.isChecked(),
            note=self.note.text().strip(),
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        draft = view.draft if view is not None else TinDraft(name="", analysis="")
        self.name.setText(draft.name)
        self.analysis.setText(draft.analysis)
        density = draft.density_g_per_ml
        self.density.setText(f"{words.number(density, 3)} g/mL" if density else "")
        self.in_use.setChecked(draft.in_use)
        self.note.setText(draft.note)
        if view is None:
            self.name.setFocus()
