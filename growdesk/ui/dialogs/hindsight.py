"""Show past decisions to be marked with hindsight.

Marks go out one by one as signals and come back as new rows; nothing is written here.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.facts import Verdict
from growdesk.domain.speech import Phrases, tr
from growdesk.ui import sizes, words
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, enlarge, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from PySide6.QtGui import QKeyEvent

    from growdesk.services.hindsight_values import PastDay

_DECIDED, _BETTER = 1, 4
_KEYS = Phrases(
    {
        Verdict.FEED: "&Feed",
        Verdict.FLUSH: "F&lush",
        Verdict.CLEAR_WATER: "&Clear water",
        Verdict.KEEP_DRY: "Keep &dry",
        Verdict.LOOK_FIRST: "Look f&irst",
    }
)


class HindsightDialog(OnScreen):
    """The past watering days of one plant, newest first, each to be marked.

    A note typed belongs to its day: it waits there as a draft until the day is marked.
    """

    left = Signal(object)
    mark_wanted = Signal(object, object, str)
    unmark_wanted = Signal(object)
    table_wanted = Signal()

    def __init__(self, parent: QWidget | None, plant: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("With hindsight"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._days: tuple[PastDay, ...] = ()
        self._drafts: dict[date, str] = {}
        self.days_table = ToldTable(
            tr("Past watering days of {plant}").format(plant=plant),
            (
                tr("Day"),
                tr("Decided"),
                tr("Because"),
                tr("Done"),
                tr("Should have been"),
                tr("Note"),
            ),
            wide=(2, 5),
            marked=(_DECIDED, _BETTER),
        )
        self.days_table.currentCellChanged.connect(lambda *_cells: self._show_day())
        self.sentence = label("")
        sizes.least_high(self.sentence, 44)
        self.note = QLineEdit()
        self.note.setAccessibleName(tr("Note on the mark"))
        self.note.setPlaceholderText(tr("what showed it, in your own words"))
        self.note.textEdited.connect(self._hold_note)
        self.waits = label("", tone="muted")
        self.right_button = button(tr("&Right as it was"), self._right)
        self.verdict_buttons = {
            verdict: button(text, partial(self._mark, verdict))
            for verdict, text in _KEYS.items()
        }
        self.unmark_button = button(tr("Re&move the mark"), self._unmark)
        self._lay_out(plant)

    def show_days(self, days: Sequence[PastDay]) -> None:
        """Show the days; the one chosen stays chosen."""
        self._days = tuple(days)
        for number in self.days_table.show_rows([_row(day) for day in self._days]):
            day = self._days[number]
            self.days_table.mark(number, _DECIDED, day.verdict)
            if day.better is not None:
                self.days_table.mark(number, _BETTER, day.better)
        self._nothing.setVisible(not self._days)
        self._show_day()

    def show_mark(self, on: date, better: Verdict | None, note: str) -> None:
        """Show what a day is marked with now; no other row is touched.

        With a new mark the cursor goes on to the next older day.
        """
        before = next((day for day in self._days if day.on == on), None)
        if before is None:
            return
        if self._drafts.pop(on, None) is not None and not self._drafts:
            self.left.emit({})
        after = replace(before, better=better, note=note.strip())
        self.show_days([after if day.on == on else day for day in self._days])
        if better is not None and better is not before.better:
            self._move_on(on)

    def _move_on(self, on: date) -> None:
        row = [day.on for day in self._days].index(on)
        if row + 1 < len(self._days):
            self.days_table.selectRow(row + 1)
        self.days_table.setFocus()

    def complain(self, text: str) -> None:
        """Tell why a mark was refused; the note stays as typed."""
        self._message.setText(text)
        self._message.setVisible(bool(text))

    # -- asking ---------------------------------------------------------------------

    @property
    def chosen(self) -> PastDay | None:
        """Give the day the cursor stands on."""
        row = self.days_table.currentRow()
        return self._days[row] if 0 <= row < len(self._days) else None

    def _right(self) -> None:
        day = self.chosen
        if day is not None:
            self._mark(day.verdict)

    def _mark(self, verdict: Verdict) -> None:
        day = self.chosen
        if day is not None:
            self.mark_wanted.emit(day.on, verdict, self.note.text())

    def _hold_note(self, text: str) -> None:
        day = self.chosen
        if day is None:
            return
        if text == day.note:
            self._drafts.pop(day.on, None)
        else:
            self._drafts[day.on] = text
        self._say_what_waits()

    def _keep_note(self) -> None:
        """Keep the note with the day's mark; without one it waits for it."""
        day = self.chosen
        if day is not None and day.better is not None and day.on in self._drafts:
            self.mark_wanted.emit(day.on, day.better, self.note.text())

    def _say_what_waits(self) -> None:
        day = self.chosen
        waits = day is not None and day.on in self._drafts
        self.waits.setText(_waiting(day) if day is not None and waits else "")

    # -- what was typed and left ----------------------------------------------------

    def take_draft(self, kept: dict[date, str]) -> None:
        """Put notes that were left back on their days."""
        self._drafts.update(kept)
        self._show_day()

    @override
    def reject(self) -> None:
        """Leave; notes that wait for a mark are handed out to be kept."""
        self.left.emit(dict(self._drafts))
        super().reject()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Enter press a button or keep the note; it never closes the dialog."""
        if event.key() not in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            super().keyPressEvent(event)
            return
        focused = self.focusWidget()
        if isinstance(focused, QPushButton):
            focused.click()
        elif focused is self.note:
            self._keep_note()
        else:
            self.note.setFocus(Qt.FocusReason.OtherFocusReason)

    def _unmark(self) -> None:
        day = self.chosen
        if day is not None:
            self.unmark_wanted.emit(day.on)

    def _show_day(self) -> None:
        day = self.chosen
        self.complain("")
        self.sentence.setText("" if day is None else day.sentence)
        self.note.setText("" if day is None else self._drafts.get(day.on, day.note))
        self._say_what_waits()
        for each in (self.right_button, *self.verdict_buttons.values(), self.note):
            each.setEnabled(day is not None)
        for verdict, each in self.verdict_buttons.items():
            each.setEnabled(day is not None and day.verdict is not verdict)
        self.unmark_button.setEnabled(day is not None and day.better is not None)

    # -- building -------------------------------------------------------------------

    def _lay_out(self, plant: str) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(8)
        head = label(plant, scale=1.15)
        enlarge(head, 1.0, strong=True)
        outer.addWidget(head)
        outer.addWidget(
            label(
                tr(
                    "Once you know how it went, mark what a day "
                    "should have been. Each day is judged by what had "
                    "been seen and done by then, but with today's "
                    "place, pot, kind, corrections and house rules, "
                    "and by your overrule as it stands today. What "
                    "was really done stands beside it."
                ),
                tone="muted",
            )
        )
        self._nothing = label(
            tr("Nothing is on record of this plant yet."), tone="muted"
        )
        outer.addWidget(self._nothing)
        outer.addWidget(self.days_table, 1)
        outer.addWidget(self.sentence)
        outer.addWidget(label(tr("It should have been"), tone="head"))
        outer.addLayout(self._choices())
        note_row = QHBoxLayout()
        note_row.addWidget(label(tr("Note")))
        note_row.addWidget(self.note, 1)
        note_row.addWidget(self.unmark_button)
        outer.addLayout(note_row)
        outer.addWidget(self.waits)
        self._message = label("", tone="wrong")
        self._message.hide()
        outer.addWidget(self._message)
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        counted = button(tr("&All marks counted…"), self.table_wanted.emit)
        foot.addButton(counted, QDialogButtonBox.ButtonRole.ActionRole)
        for each in foot.findChildren(QPushButton):
            each.setAutoDefault(False)
        foot.rejected.connect(self.reject)
        outer.addWidget(foot)
        self.resize(sizes.area(900, 620))

    def _choices(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setSpacing(8)
        every: list[QPushButton] = [self.right_button, *self.verdict_buttons.values()]
        for number, each in enumerate(every):
            grid.addWidget(each, number // 3, number % 3)
        return grid


def _row(day: PastDay) -> tuple[str, ...]:
    done = tr("passed by") if day.passed_by else ""
    if day.done is not None:
        done = words.CARE[day.done]
    better = "" if day.better is None else words.VERDICT[day.better]
    return (
        words.short_day(day.on),
        words.VERDICT[day.verdict],
        day.short_reason,
        done or tr("nothing written"),
        better,
        day.note,
    )


def _waiting(day: PastDay) -> str:
    if day.better is None:
        return tr("The note waits here until you mark the day.")
    return tr("Enter keeps the note with the mark.")
