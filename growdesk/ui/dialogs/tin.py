"""Keep the shelf: tins of fertilizer by their analysis, and the kinds of water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from growdesk.services.values import TinDraft, WaterDraft
from growdesk.ui import typed, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.shelf_words import water_words, with_use
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import TinView, WaterView

_WATERS = (("tap", "tap"), ("rain", "rain"), ("RO", "RO"))


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


class WatersDialog(RowsDialog):
    """The kinds of water at hand, one of them in the form."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, "Waters at hand", "water")
        self._views: dict[int, WaterView] = {}
        self.kind = self.form.combo("kind", "&Kind", _WATERS)
        self.conductivity = self.form.line(
            "ec_ms_per_cm", "&EC", "mS/cm if known, say 0.4"
        )
        self.in_use = QCheckBox("mix with this water")
        self.form.add("in_use", "In &use", self.in_use)
        self.note = self.form.line("note", "N&ote")
        self.form.end()

    def show_waters(self, views: Sequence[WaterView], chosen: int | None) -> None:
        """Show the waters there are."""
        self._views = {view.water_id: view for view in views}
        self.show_rows(
            [(v.water_id, with_use(water_words(v), v)) for v in views], chosen
        )

    @override
    def draft(self) -> WaterDraft:
        """Give the water as entered."""
        return WaterDraft(
            kind=self.kind.currentData(),
            ec_ms_per_cm=typed.ec_ms_per_cm(
                self.conductivity.text().strip(), "ec_ms_per_cm"
            ),
            in_use=self.in_use.isChecked(),
            note=self.note.text().strip(),
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        draft = view.draft if view is not None else WaterDraft(kind="tap")
        choose(self.kind, draft.kind)
        self.conductivity.setText(words.number(draft.ec_ms_per_cm))
        self.in_use.setChecked(draft.in_use)
        self.note.setText(draft.note)
        if view is None:
            self.kind.setFocus()
