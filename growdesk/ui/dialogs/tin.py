"""Keep the shelf: tins of fertilizer by their analysis, or single salts by formula."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.salt_table import analysis_text_of
from growdesk.domain.speech import mark, tr
from growdesk.services.salts import salt_named, salt_table
from growdesk.services.values import TinDraft
from growdesk.ui import measured_lines, sizes, tin_words, typed, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.shelf_words import with_use
from growdesk.ui.stocktaking_texts import price_text
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import TinView

_NO_SALT = mark("none: a mixed feed")


class TinsDialog(RowsDialog):
    """All tins, one of them in the form."""

    count_wanted = Signal(int)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Tins on the shelf"), tr("New tin"))
        self._views: dict[int, TinView] = {}
        self._told: Mapping[int, tuple[str, ...]] = {}
        self.name = self.form.line("name", tr("&Name"), tr("what you call it"))
        self.analysis = self.form.line(
            "analysis", tr("&Analysis"), tr("as on the label, say 20-20-20")
        )
        self.read_as = self.form.note("")
        salts = [(salt.formula, tin_words.salt_text(salt)) for salt in salt_table()]
        self.salt = self.form.combo(
            "formula", tr("Or a single sal&t"), [(None, tr(_NO_SALT)), *salts]
        )
        self.salt.setMinimumContentsLength(24)
        self.salt.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.salt_note = self.form.note("")
        self.density = self.form.line(
            "density_g_per_ml", tr("&Density"), tr("liquids only, say 1.2 g/mL")
        )
        self.conductivity = self.form.line(
            "ec_per_100_ppm_n_ms_per_cm",
            tr("&EC at 100 ppm N"),
            tr("mS/cm, if the label prints it, say 0.65"),
        )
        self.pack = self.form.line("pack_amount", tr("Pac&k"), tr("say 1 kg"))
        self.price = self.form.line("price", tr("&Price"), tr("of a pack, say 12.50"))
        self.in_use = QCheckBox(tr("mix from this tin"))
        self.form.add("in_use", tr("In &use"), self.in_use)
        self.note = self.form.line("note", tr("N&ote"))
        self.form.wide(label(tr(tin_words.HELP), tone="muted"))
        self.form.end()
        self.salt.activated.connect(lambda _row: self._take_salt())
        self.salt.currentIndexChanged.connect(lambda _row: self._say_salt())
        self.analysis.textChanged.connect(lambda _text: self._say_analysis())
        self.density.textChanged.connect(lambda _text: self._say_analysis())
        self.resize(sizes.area(760, 640))

    def show_tins(self, views: Sequence[TinView], chosen: int | None) -> None:
        """Show the tins there are."""
        self._views = {view.tin_id: view for view in views}
        self.show_rows([(v.tin_id, with_use(v.draft.name, v)) for v in views], chosen)

    def show_told(self, told: Mapping[int, tuple[str, ...]]) -> None:
        """Show what is on hand of each tin, and what spoons of it weigh."""
        self._told = told
        self._say_hand(self.key)

    def called(self, tin_id: int) -> tuple[str, str]:
        """Give what a tin is called, and the unit it is counted in."""
        draft = self._views[tin_id].draft
        return draft.name, "g" if draft.density_g_per_ml is None else "mL"

    # -- RowsDialog -----------------------------------------------------------------

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        """Put what is on hand between the form and its buttons."""
        self.hand = label("")
        self.count_button = button(
            tr("&Count…"), self._count, tr("Write what is on hand now")
        )
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.hand, 1)
        row.addWidget(self.count_button)
        page.insertLayout(1, row)
        super().put_page(page)

    @override
    def tab_stops(self) -> list[QWidget]:
        stops = super().tab_stops()
        stops.insert(stops.index(self.save_button), self.count_button)
        return stops

    @override
    def draft(self) -> TinDraft:
        """Give the tin as entered."""
        density = typed.density_g_per_ml(
            self.density.text().strip(), "density_g_per_ml"
        )
        unit = "g" if density is None else "mL"
        return TinDraft(
            name=self.name.text().strip(),
            analysis=self.analysis.text().strip(),
            density_g_per_ml=density,
            in_use=self.in_use.isChecked(),
            note=self.note.text().strip(),
            formula=self.salt.currentData(),
            ec_per_100_ppm_n_ms_per_cm=typed.ec_ms_per_cm(
                self.conductivity.text().strip(), "ec_per_100_ppm_n_ms_per_cm"
            ),
            price=typed.number(self.price.text(), "price", "12.50"),
            pack_amount=measured_lines.amount(self.pack, unit, "pack_amount")
            if self.pack.text().strip()
            else None,
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        new = TinDraft(name="", analysis="", in_use=not self._views)
        draft = new if view is None else view.draft
        self.name.setText(draft.name)
        choose(self.salt, draft.formula)
        self.analysis.setText(draft.analysis)
        density = draft.density_g_per_ml
        self.density.setText(f"{words.number(density, 3)} g/mL" if density else "")
        ec = draft.ec_per_100_ppm_n_ms_per_cm
        self.conductivity.setText(f"{words.number(ec, 3)} mS/cm" if ec else "")
        unit = "g" if density is None else "mL"
        measured_lines.show_amount(self.pack, draft.pack_amount, unit)
        self.price.setText(price_text(draft.price))
        self.in_use.setChecked(draft.in_use)
        self.note.setText(draft.note)
        self._say_salt()
        self._say_analysis()
        self._say_hand(key)
        if view is None:
            self.name.setFocus()

    # -- inside ---------------------------------------------------------------------

    def _take_salt(self) -> None:
        """Fill in a salt's analysis, and its name where none was given yet."""
        salt = salt_named(self.salt.currentData() or "")
        if salt is None:
            return
        self.analysis.selectAll()
        self.analysis.insert(analysis_text_of(salt.formula))
        if not self.name.text().strip():
            self.name.setText(salt.name[:1].upper() + salt.name[1:])

    def _say_salt(self) -> None:
        salt = salt_named(self.salt.currentData() or "")
        self.salt_note.setText("" if salt is None else tin_words.salt_note(salt))
        self.salt_note.setVisible(salt is not None)

    def _say_analysis(self) -> None:
        """Say how the analysis reads as it is typed; slips wait until it is saved."""
        try:
            text = self.density.text().strip()
            density = typed.density_g_per_ml(text, "density_g_per_ml")
            said = tin_words.read_as(self.analysis.text(), density)
        except InputError:
            said = ""
        self.read_as.setText(said)
        self.read_as.setVisible(bool(said))

    def _say_hand(self, key: int | None) -> None:
        told = self._told.get(key, ()) if key is not None else ()
        self.hand.setText(" ".join(told))
        self.count_button.setEnabled(key is not None)

    def _count(self) -> None:
        if self.key is not None:
            self.count_wanted.emit(self.key)
