"""Keep the waters at hand: what is known of each, and blends of two with their answer.

What is typed is told back at once: what was understood, what does not fit together and
what orchids dislike, each with its source. Nothing is kept from being saved for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QLineEdit, QVBoxLayout
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.domain.water_analysis import BLEND, ION_FIELDS
from growdesk.domain.water_blend import Aim
from growdesk.domain.water_units import CARBONATE_MEANS, NITRATE_MEANS
from growdesk.services.values import WaterDraft
from growdesk.services.water_told import told
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.field_words import plain_line
from growdesk.ui.shelf_words import water_words, with_use
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import column, frame, short_label
from growdesk.ui.widgets.strip_form import StripForm
from growdesk.ui.widgets.told_lines import ToldLines

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import WaterView

_KINDS: Final = Phrases(
    {"tap": "tap", "rain": "rain", "RO": "RO", BLEND: "blend of two"}, "kind of water"
)
_AIMS: Final = Phrases(
    {
        Aim.ALKALINITY.value: "an alkalinity",
        Aim.EC.value: "an EC",
        Aim.SHARE.value: "a share of the first",
    }
)
_AIM_HINTS: Final = Phrases(
    {
        Aim.ALKALINITY.value: "say 60 mg/L or 3 °dH",
        Aim.EC.value: "mS/cm, say 0.3",
        Aim.SHARE.value: "%, say 30",
    }
)
_OF_BLEND: Final = ("first_id", "second_id", "aim", "aim_value")
_OF_ONE: Final = (
    "ec_ms_per_cm",
    "alkalinity_mg_per_l",
    "hardness_mg_per_l",
    "capacity_l",
)
_FOR: Final = "6 L"
UNITS_NOTE: Final = mark(
    "meq/L, mmol/L, °dH, °fH, °Clark, gpg, °KH and mg/L HCO3 are read too."
)
IONS_NOTE: Final = mark("Ions in mg/L, as the supplier prints them.")


class WatersDialog(RowsDialog):
    """The waters at hand, one of them in the form."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Waters at hand"), tr("New water"))
        self._views: dict[int, WaterView] = {}
        self._is_filling = False
        self._add_fields()
        self.forms = (self.form, self.ions)
        for form in self.forms:
            for editor in form.editors.values():
                self._listen(editor)
        self._listen(self.volume)
        self.kind.currentIndexChanged.connect(self._show_fields)
        self.aim.currentIndexChanged.connect(self._hint_aim)
        self.resize(sizes.area(820, 560))

    def show_waters(self, views: Sequence[WaterView], chosen: int | None) -> None:
        """Show the waters there are."""
        self._views = {view.water_id: view for view in views}
        self.show_rows(
            [(v.water_id, with_use(water_words(v), v)) for v in views], chosen
        )

    # -- RowsDialog -----------------------------------------------------------------

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        """Put what is told of the water between the form and its buttons."""
        self.told = ToldLines(tr("What this water is"))
        self.volume = QLineEdit(_FOR)
        self.volume.setAccessibleName(tr("Volume to blend"))
        sizes.most_wide(self.volume, 90)
        self.volume_row = frame("plain")
        row = QHBoxLayout(self.volume_row)
        row.setContentsMargins(0, 0, 0, 0)
        name = short_label(tr("Litres for"))
        name.setBuddy(self.volume)
        row.addWidget(name)
        row.addWidget(self.volume)
        row.addStretch(1)
        middle = column(spacing=6)
        middle.addWidget(self.volume_row)
        middle.addWidget(self.told)
        page.insertLayout(1, middle)
        super().put_page(page)

    @override
    def is_of_row(self, field: str) -> bool:
        return True

    @override
    def show_beside(self, error: Exception) -> bool:
        """Tell an error beside its field, among the ions too."""
        field = getattr(error, "field", "")
        if self.ions.has(field):
            self.form.say("")
            return bool(self.ions.show_error(error))
        return super().show_beside(error)

    @override
    def draft(self) -> WaterDraft:
        """Give the water as entered."""
        return self._entered()

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        new = WaterDraft(kind="tap", in_use=not self._views)
        draft = new if view is None else view.draft
        self._is_filling = True
        self._offer_waters(key)
        self._offer_kind(draft.kind)
        self.name.setText(draft.name or "")
        self.conductivity.setText(words.number(draft.ec_ms_per_cm))
        self.alkalinity.setText(_mg(draft.alkalinity_mg_per_l))
        self.hardness.setText(_mg(draft.hardness_mg_per_l))
        for ion, field in ION_FIELDS.items():
            self.lines[ion].setText(words.number(getattr(draft, field)))
        choose(self.first, draft.first_id)
        choose(self.second, draft.second_id)
        choose(self.aim, draft.aim or Aim.ALKALINITY.value)
        self.aim_value.setText(_aimed(draft))
        measured_lines.show_volume(self.capacity, draft.capacity_l)
        self.in_use.setChecked(draft.in_use)
        self.note.setText(draft.note)
        self.note.setCursorPosition(0)
        self._is_filling = False
        self._show_fields()
        if view is None:
            self.kind.setFocus()

    @override
    def tab_stops(self) -> list[QWidget]:
        lists, made, *rest = super().tab_stops()
        fields, (save, remove) = rest[:-2], rest[-2:]
        at = fields.index(self.hardness) + 1
        ions = list(self.ions.editors.values())
        form = [*fields[:at], *ions, *fields[at:]]
        return [lists, made, *form, self.volume, save, remove]

    # -- inside ---------------------------------------------------------------------

    def _add_fields(self) -> None:
        form = self.form
        self.kind = form.combo(
            "kind", tr("&Kind", "what sort it is"), tuple(_KINDS.items())
        )
        self.name = form.line(
            "name", tr("&Name"), tr("say kitchen tap, if you have several")
        )
        self.first = form.combo("first_id", tr("&First water"), (), 26)
        self.second = form.combo("second_id", tr("&Second water"), (), 26)
        self.aim = form.combo("aim", tr("A&im at"), tuple(_AIMS.items()))
        self.aim_value = form.line("aim_value", tr("&Wanted"))
        self.conductivity = form.line(
            "ec_ms_per_cm", tr("&EC"), tr("mS/cm at 25 °C, say 0.4")
        )
        self.alkalinity = form.line(
            "alkalinity_mg_per_l",
            tr("A&lkalinity"),
            tr("say 120 mg/L, 2.4 meq/L or 7 °KH"),
        )
        self.hardness = form.line(
            "hardness_mg_per_l", tr("&Hardness"), tr("say 150 mg/L, 8 °dH or 15 °fH")
        )
        form.note(f"{tr(CARBONATE_MEANS)} {tr(UNITS_NOTE)}")
        self.ions = StripForm()
        self.lines = {
            ion: self.ions.line(field, ion, "mg/L") for ion, field in ION_FIELDS.items()
        }
        self.ions.end()
        form.under(self.ions)
        self.ions_note = form.note(f"{tr(IONS_NOTE)} {tr(NITRATE_MEANS)}")
        self.capacity = form.line(
            "capacity_l", tr("&Barrel or can"), tr("what it holds, say 120 L")
        )
        self.in_use = QCheckBox(tr("mix with this water"))
        form.add("in_use", tr("In &use"), self.in_use)
        self.note = form.line("note", tr("N&ote"))
        form.end()

    def _listen(self, editor: QWidget) -> None:
        if isinstance(editor, QLineEdit):
            editor.textChanged.connect(self._tell)
        elif isinstance(editor, QComboBox):
            editor.currentIndexChanged.connect(self._tell)

    def _offer_waters(self, key: int | None) -> None:
        """Offer as parts of a blend all waters that are none, and not this one."""
        for combo in (self.first, self.second):
            combo.clear()
            combo.addItem(tr("choose a water"), None)
            for view in self._views.values():
                if view.draft.kind != BLEND and view.water_id != key:
                    combo.addItem(water_words(view), view.water_id)

    def _offer_kind(self, kind: str) -> None:
        """Choose a kind; one of the grower's own is offered as it is."""
        known = {value.casefold(): value for value in _KINDS}
        kind = known.get(kind.casefold(), kind)
        if self.kind.findData(kind) < 0:
            self.kind.addItem(kind, kind)
        choose(self.kind, kind)

    def _show_fields(self) -> None:
        """Show what belongs to a water of its kind: an analysis, or two waters."""
        is_blend = self.kind.currentData() == BLEND
        for field in _OF_BLEND:
            self.form.show_field(field, shown=is_blend)
        for field in _OF_ONE:
            self.form.show_field(field, shown=not is_blend)
        self.volume_row.setVisible(is_blend)
        self._hint_aim()
        self._tell()

    def _hint_aim(self) -> None:
        hint = _AIM_HINTS.get(self.aim.currentData(), "")
        self.aim_value.setPlaceholderText(hint)
        self.aim_value.setToolTip(hint)

    def _tell(self) -> None:
        """Tell back what stands in the form; a slip is told when it is saved."""
        if self._is_filling:
            return
        try:
            draft = self._entered()
            litres = self._litres() if draft.kind == BLEND else 1.0
            now = told(draft, tuple(self._views.values()), litres)
        except GrowdeskError as error:
            self.told.show_problem(plain_line(error))
            return
        self.told.show_told(now)

    def _litres(self) -> float:
        return typed.volume_l(self.volume.text(), "volume") or 1.0

    def _entered(self) -> WaterDraft:
        is_blend = self.kind.currentData() == BLEND
        found = {
            "kind": self.kind.currentData(),
            "name": self.name.text().strip() or None,
            "in_use": self.in_use.isChecked(),
            "note": self.note.text().strip(),
        }
        return WaterDraft(**found | (self._blend() if is_blend else self._analysis()))

    def _analysis(self) -> dict[str, float | None]:
        found = {
            "capacity_l": measured_lines.volume_l(self.capacity, "capacity_l"),
            "ec_ms_per_cm": typed.ec_ms_per_cm(
                self.conductivity.text().strip(), "ec_ms_per_cm"
            ),
            "alkalinity_mg_per_l": typed.alkalinity_mg_per_l(
                self.alkalinity.text(), "alkalinity_mg_per_l"
            ),
            "hardness_mg_per_l": typed.hardness_mg_per_l(
                self.hardness.text(), "hardness_mg_per_l"
            ),
        }
        for ion, field in ION_FIELDS.items():
            found[field] = typed.ion_mg_per_l(self.lines[ion].text(), ion, field)
        return found

    def _blend(self) -> dict[str, object]:
        aim, text = self.aim.currentData(), self.aim_value.text().strip()
        if aim == Aim.EC.value:
            value = typed.ec_ms_per_cm(text, "aim_value")
        elif aim == Aim.ALKALINITY.value:
            value = typed.alkalinity_mg_per_l(text, "aim_value")
        else:
            percent = typed.percent(text, "aim_value", "30")
            value = None if percent is None else percent / 100
        return {
            "first_id": self.first.currentData(),
            "second_id": self.second.currentData(),
            "aim": aim,
            "aim_value": value,
        }


def _mg(amount: float | None) -> str:
    return "" if amount is None else f"{words.number(amount)} mg/L"


def _aimed(draft: WaterDraft) -> str:
    """Give what a blend aims at as it is typed."""
    if draft.aim_value is None:
        return ""
    if draft.aim == Aim.EC.value:
        return words.number(draft.aim_value)
    if draft.aim == Aim.SHARE.value:
        return f"{words.number(100 * draft.aim_value)} %"
    return _mg(draft.aim_value)
