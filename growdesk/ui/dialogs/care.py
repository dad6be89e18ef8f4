"""Take in one piece of care, new for some plants or corrected for one.

Only what belongs to the kind chosen is shown; what stands in the rest is kept while the
form is open and not handed out. No dose of a plant-protection product is ever offered.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCompleter, QDialogButtonBox, QLineEdit
from typing_extensions import override

from growdesk.domain.cautions import CLEAN_BLADE
from growdesk.domain.day_words import figures
from growdesk.domain.facts import CareKind, Medium
from growdesk.domain.quantity_words import length_unit
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services.care_values import CareDraft
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.ui.dialogs.held import Held

CHOICES = Phrases(
    {
        CareKind.FEED: "feed",
        CareKind.CLEAR_WATER: "clear water",
        CareKind.FLUSH: "flush",
        CareKind.RAIN: "rain",
        CareKind.REPOT: "repot",
        CareKind.TREAT: "treatment",
        CareKind.DIVIDE: "division",
        CareKind.MOVE: "move",
    },
    "care given",
)
CAUTION = mark(
    "The label of a plant-protection product is the law where you live: what it may be "
    "used on, how much, how often, and with which gloves and mask. growdesk gives no "
    "dose. Keep it from children, pets and food; if somebody is poisoned, call your "
    "poison centre with the label at hand."
)
_TOLD = {
    CareKind.REPOT: CLEAN_BLADE,
    CareKind.MOVE: mark(
        "This writes the record only; where a plant stands is changed in its own form."
    ),
    CareKind.DIVIDE: mark(
        "This writes the record only; the new plants are added on their own."
    ),
}
_POURED = frozenset({CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH})
_SHOWN: Mapping[str, frozenset[CareKind]] = {
    "strength_ppm_n": frozenset({CareKind.FEED}),
    "volume_l": _POURED,
    "rain_mm": frozenset({CareKind.RAIN}),
    "pot_volume_l": frozenset({CareKind.REPOT}),
    "medium": frozenset({CareKind.REPOT}),
    "product": frozenset({CareKind.TREAT}),
    "repeat_on": frozenset({CareKind.TREAT}),
    "from_place": frozenset({CareKind.MOVE}),
    "to_place": frozenset({CareKind.MOVE}),
}
_TITLES = Phrases({CareKind.REPOT: "Repot", CareKind.TREAT: "Treatment"})
_FIRST = {
    CareKind.REPOT: "pot_volume_l",
    CareKind.TREAT: "product",
}
_AS_BEFORE = mark("as before")


class CareStart(Struct, frozen=True):
    """What the form opens with: for whom, what, and what was used before.

    With ``care_id`` a piece of care that is on record is corrected.
    """

    whom: str
    draft: CareDraft
    care_id: int | None = None
    products: tuple[str, ...] = ()
    places: tuple[str, ...] = ()


class CareDialog(FormDialog):
    """What was given or done, to one or several plants."""

    delete_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, start: CareStart) -> None:
        is_new = start.care_id is None
        own = _TITLES.get(start.draft.what, tr("What was really given"))
        day = words.short_day(start.draft.on)
        title = (
            own
            if is_new
            else tr("Care of {whom} on {day}").format(whom=start.whom, day=day)
        )
        super().__init__(parent, title, tr("Save"))
        self._start = start
        self.body.addWidget(whom_head(start.whom))
        self._add_fields()
        if not is_new:
            remove = button(tr("De&lete"), self._delete, tr("It comes back by Undo"))
            self.buttons.addButton(remove, QDialogButtonBox.ButtonRole.DestructiveRole)
        self._fill(start.draft)
        self.what.currentIndexChanged.connect(lambda _row: self._show_fields())
        self._show_fields()
        sizes.least_wide(self, 460)
        self.begin()
        first = self.form.editor(_FIRST.get(start.draft.what, "what"))
        if first is not None:
            first.setFocus()

    def propose(self, ppm_n: float | None) -> None:
        """Begin with the strength that was planned."""
        self.strength.setText(words.number(ppm_n))
        self.begin()

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def draft(self) -> CareDraft:
        """Give what was entered of what belongs to the kind chosen."""
        what = self._chosen()
        return CareDraft(
            on=typed.needed_day(self.day.text(), "on"),
            what=what,
            strength_ppm_n=typed.number(
                self._text("strength_ppm_n"), "strength_ppm_n", "120"
            ),
            volume_l=self._amount(measured_lines.volume_l, "volume_l"),
            rain_mm=self._amount(measured_lines.length_mm, "rain_mm"),
            pot_volume_l=self._amount(measured_lines.volume_l, "pot_volume_l"),
            medium=self.medium.currentData() if what is CareKind.REPOT else None,
            product=self._text("product"),
            repeat_on=typed.day(self._text("repeat_on"), "repeat_on"),
            from_place=self._text("from_place") or None,
            to_place=self._text("to_place") or None,
            note=self.note.text().strip(),
        )

    def _text(self, field: str) -> str:
        """Give what stands in a field that belongs to the kind chosen, else nothing."""
        line = self._line(field)
        return "" if line is None else line.text().strip()

    def _amount(
        self, read: Callable[[QLineEdit, str], float | None], field: str
    ) -> float | None:
        line = self._line(field)
        return None if line is None else read(line, field)

    def _line(self, field: str) -> QLineEdit | None:
        line = self.form.editor(field)
        belongs = self._chosen() in _SHOWN[field]
        return line if belongs and isinstance(line, QLineEdit) else None

    def _add_fields(self) -> None:
        form = self.form
        self.what = form.combo("what", tr("&What"), tuple(CHOICES.items()))
        self._about = form.note("")
        self.product = form.line("product", tr("&Product"), tr("as its label has it"))
        self.product.setCompleter(_offering(self._start.products))
        self._caution = form.note(tr(CAUTION), tone="")
        self._caution.setObjectName("caution")
        self.strength = form.line(
            "strength_ppm_n", tr("&Strength"), tr("ppm N, say 120")
        )
        self.volume = form.line(
            "volume_l", tr("&Poured"), tr("a usual round; or say 0.4 L")
        )
        self.rain = form.line(
            "rain_mm", tr("&Rain"), tr("{unit} in the gauge").format(unit=length_unit())
        )
        self.pot = form.line(
            "pot_volume_l",
            tr("New &pot volume"),
            tr("as before; or say 1.5 L, 0.4 gal"),
        )
        media = [(None, tr(_AS_BEFORE)), *words.choices(tuple(Medium))]
        self.medium = form.combo("medium", tr("New &medium"), media)
        self.from_place = form.line("from_place", tr("&From"))
        self.to_place = form.line("to_place", tr("&To"))
        for line in (self.from_place, self.to_place):
            line.setCompleter(_offering(self._start.places))
        self.day = form.line("on", tr("&Day"), typed.day_example())
        self.again = form.line(
            "repeat_on", tr("A&gain on"), tr("as the label says, or empty")
        )
        self.note = form.line("note", tr("&Note"))
        form.end()
        self.body.addWidget(form)
        self.body.addStretch(1)

    def _fill(self, draft: CareDraft) -> None:
        choose(self.what, draft.what)
        self.strength.setText(words.number(draft.strength_ppm_n))
        measured_lines.show_volume(self.volume, draft.volume_l)
        measured_lines.show_length(self.rain, draft.rain_mm)
        measured_lines.show_volume(self.pot, draft.pot_volume_l)
        choose(self.medium, draft.medium)
        self.product.setText(draft.product)
        self.from_place.setText(draft.from_place or "")
        self.to_place.setText(draft.to_place or "")
        self.day.setText(figures(draft.on))
        self.again.setText(figures(draft.repeat_on) if draft.repeat_on else "")
        self.note.setText(draft.note)

    def _chosen(self) -> CareKind:
        return CareKind(self.what.currentData())

    def _show_fields(self) -> None:
        """Show what belongs to the kind chosen, and what is to be minded with it."""
        what = self._chosen()
        for field, kinds in _SHOWN.items():
            self.form.show_field(field, shown=what in kinds)
        told = tr(_TOLD.get(what, ""))
        self._about.setText(told)
        self._about.setVisible(bool(told))
        treats = what is CareKind.TREAT
        self.note.setPlaceholderText(
            tr("what was done, against what") if treats else ""
        )
        self.note.setAccessibleName(tr("What was done") if treats else tr("Note"))

    def _delete(self) -> None:
        if self._start.care_id is not None and self.save_button.isEnabled():
            self.delete_wanted.emit(self._start.care_id)


def _offering(texts: Sequence[str]) -> QCompleter:
    made = QCompleter(list(texts))
    made.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
    made.setFilterMode(Qt.MatchFlag.MatchContains)
    return made
