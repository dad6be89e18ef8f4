"""Show the house rules as a page built from their declarations, with a preview.

Rules stand under their headings and can be found by typing; each can go back to its
default. What the rules as they stand would change is asked for a moment after the last
change, and told before anything is kept. What a rule does is not known here.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.quantity_words import unit_shown
from growdesk.domain.speech import mark, tr
from growdesk.services.rule_declaring import YOURS
from growdesk.ui import field_words, rule_words, sizes
from growdesk.ui.dialogs import rule_editors
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.dialogs.rule_finding import RuleFinding
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.form import beside
from growdesk.ui.widgets.parts import frame, label, link, short_label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QFrame, QLabel

    from growdesk.domain.facts import House
    from growdesk.services.rule_effects import HouseEffect
    from growdesk.services.values import Setting

_PAUSE_MS = 300
_BETWEEN_PX = 12
_WHOLE_RULE_PX = 120
_BESIDE_BAR_PX = 10
_ROOM_FOR_HEADINGS_PX = 900
_NOTHING_YET = mark(
    "Change a rule, and here stands what it would do, before you save it."
)
_ASKED = mark("Judging all plants under these rules…")


class SettingsDialog(FormDialog):
    """All house rules by heading, one row each, and what they would change.

    With ``unsaid`` a page left as it is says that what it shows is right.
    """

    effect_wanted = Signal(object)
    most_high_px = 720

    def __init__(
        self,
        parent: QWidget | None,
        declared: Sequence[Setting],
        house: House,
        first: str = "",
        *,
        unsaid: bool = False,
    ) -> None:
        super().__init__(parent, tr("House rules"), tr("Save"))
        self._declared = {setting.key: setting for setting in declared}
        self._house = house
        self._unsaid = unsaid
        self._asked: House | None = None
        self._back: dict[str, QPushButton] = {}
        self._cells: dict[str, tuple[QWidget, QHBoxLayout]] = {}
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self._ask)
        self.finding = RuleFinding(self.form, self.area)
        self.top.addWidget(
            label(
                tr("What holds for every plant that has no rule of its own."),
                tone="muted",
            )
        )
        self.top.addWidget(self.finding.line)
        self.middle.insertWidget(0, self.finding.headings)
        self.finding.headings.setVisible(
            self.room().width() >= sizes.px(_ROOM_FOR_HEADINGS_PX)
        )
        for setting in declared:
            self.finding.under(setting)
            self._add(setting)
        self.finding.end()
        self.form.end()
        self.body.addWidget(self.form)
        self.body.setContentsMargins(0, 0, _BESIDE_BAR_PX, 0)
        self.preview = self._make_preview()
        self.below.addWidget(_carded(self.preview))
        self.resize(sizes.area(900, self.most_high_px))
        self._pause.stop()
        self.begin()
        if first:
            self.go_to(first)
        else:
            self.finding.line.setFocus()

    def go_to(self, key: str) -> None:
        """Put the focus on a rule and bring it into sight."""
        editor = self.form.editor(key)
        if editor is None:
            return
        self.finding.line.clear()
        editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self.area.ensureWidgetVisible(editor, 0, _WHOLE_RULE_PX)
        if isinstance(editor, QLineEdit):
            editor.selectAll()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> House:
        """Give the house as entered."""
        given: dict[str, Any] = {
            key: rule_editors.read(setting, self._editor(key))
            for key, setting in self._declared.items()
        }
        return replace(self._house, **given)

    @override
    def send(self, draft: object) -> None:
        """Hand the house out; where nothing was changed there is nothing to write."""
        if draft == self._house and not self._unsaid:
            self.close_saved()
        else:
            super().send(draft)

    @override
    def enter(self, focused: QWidget | None) -> None:
        """Press a button, else show what the rules would do; saving is a step more."""
        if isinstance(focused, QPushButton):
            super().enter(focused)
            return
        self._pause.stop()
        self.form.clear_errors()
        try:
            self.draft()
        except InputError as error:
            self.show_beside(error)
        self._ask()

    @override
    def show_beside(self, error: Exception) -> bool:
        field = self.form.show_error(error)
        if field:
            self.go_to(field)
            return True
        self.form.say("")
        return False

    # -- what it would change -------------------------------------------------------

    def show_effect(self, house: House, effect: HouseEffect) -> None:
        """Tell what a house would change, if it is still the one that stands here."""
        if house == self._asked:
            self._tell(rule_words.effect(effect))

    def effect_refused(self, house: House, error: Exception) -> None:
        """Tell why a house could not be judged."""
        if house == self._asked:
            self._tell(self._slip(error), wrong=True)

    def _changed(self, key: str) -> None:
        setting = self._declared[key]
        try:
            is_default = (
                rule_editors.read(setting, self._editor(key)) == setting.default
            )
        except InputError:
            is_default = False
        differs = not is_default and setting.source != tr(YOURS)
        if differs or key in self._back:
            self._way_back(key).setVisible(differs)
        self._pause.start()

    def _ask(self) -> None:
        """Ask what the rules as they stand would change; a slip is told instead."""
        self._asked = None
        try:
            house = self.draft()
        except InputError as error:
            self._tell(self._slip(error), wrong=True)
            return
        if house == self._house:
            self._tell(tr(_NOTHING_YET))
            return
        self._asked = house
        self._tell(tr(_ASKED))
        self.effect_wanted.emit(house)

    def _slip(self, error: Exception) -> str:
        setting = None
        if isinstance(error, InputError):
            setting = self._declared.get(error.field)
        if setting is None or not isinstance(error, GrowdeskError):
            return field_words.plain_line(error)
        return tr("{title}: {beside} Until then nothing is judged.").format(
            title=setting.title, beside=beside(error)
        )

    def _tell(self, text: str, *, wrong: bool = False) -> None:
        self.preview.setText(text)
        self.preview.setAccessibleName(
            text.replace("→", tr("to", "read aloud between two values"))
        )
        self.preview.setProperty("tone", "wrong" if wrong else "")
        self.preview.style().unpolish(self.preview)
        self.preview.style().polish(self.preview)
        event = QAccessibleEvent(self.preview, QAccessible.Event.NameChanged)
        QAccessible.updateAccessibility(event)

    # -- building -------------------------------------------------------------------

    def _editor(self, key: str) -> QWidget:
        editor = self.form.editor(key)
        if editor is None:
            raise TypeError(f"no editor for {key}")
        return editor

    def _add(self, setting: Setting) -> None:
        key = setting.key
        editor = rule_editors.editor_of(setting, partial(self._changed, key))
        cell = QWidget()
        row = QHBoxLayout(cell)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(editor)
        if setting.unit:
            row.addWidget(short_label(unit_shown(setting.unit), tone="muted"))
        row.addStretch(1)
        self._cells[key] = cell, row
        self.form.add(key, setting.title, editor, cell)
        self.form.note(setting.text, tone="")
        source = self.form.note(rule_words.default(setting))
        source.setContentsMargins(0, 0, 0, _BETWEEN_PX)
        rule_editors.put(setting, editor, getattr(self._house, key))
        self._changed(key)

    def _way_back(self, key: str) -> QPushButton:
        """Give what leads back to a rule's default, made when it first differs."""
        if key not in self._back:
            setting = self._declared[key]
            back = link(tr("Back to default"), partial(self._go_back, key))
            back.setToolTip(rule_words.value(setting, setting.default))
            back.setAccessibleName(f"{setting.title}: {rule_words.back(setting)}")
            cell, row = self._cells[key]
            row.addWidget(back)
            focus.chain(focus.stops(cell))
            self._back[key] = back
        return self._back[key]

    def _go_back(self, key: str) -> None:
        setting = self._declared[key]
        editor = self._editor(key)
        rule_editors.put(setting, editor, setting.default)
        editor.setFocus(Qt.FocusReason.OtherFocusReason)

    def _make_preview(self) -> QLabel:
        made = label(tr(_NOTHING_YET))
        made.setObjectName("effect")
        made.setMinimumHeight(2 * made.fontMetrics().lineSpacing())
        made.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        return made


def _carded(inner: QWidget) -> QFrame:
    card = frame("card")
    row = QHBoxLayout(card)
    row.setContentsMargins(10, 6, 10, 6)
    row.addWidget(inner)
    return card
