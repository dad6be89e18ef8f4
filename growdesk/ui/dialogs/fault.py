"""Tell a fault of the program: what happened, what is safe, and what to do now."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QVBoxLayout

from growdesk.domain.speech import tr, trn
from growdesk.ui import actions, sizes, words
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from datetime import datetime

    from PySide6.QtWidgets import QWidget

_WIDE_PX = 520
_APART_PX = 8


class Told(Struct, frozen=True):
    """The words of the dialog: a title, and what stands under each of its heads."""

    title: str
    happened: str
    safe: str
    advice: str


def met(doing: str, wrote: datetime | None) -> Told:
    """Give the words for a fault that was met while the window is open."""
    asked = next((each for each in actions.declared() if each.key == doing), None)
    happened = tr("growdesk met a fault of its own. It is written to the log.")
    if asked is not None:
        happened = tr(
            "growdesk met a fault of its own. What was asked for last: {command}. It "
            "is written to the log."
        ).format(command=_bare(tr(asked.text)))
    safe = tr(
        "Everything that was saved. In this window nothing has been saved yet. What is "
        "typed in an open form stays there."
    )
    if wrote is not None:
        safe = tr(
            "Everything that was saved, last at {time}. What is typed in an open form "
            "stays there."
        ).format(time=wrote.astimezone().strftime("%H:%M:%S"))
    advice = tr(
        "Go on. If it comes again, close growdesk and start it anew. A report says "
        "where the fault is; you read it before it is kept, and nothing is sent."
    )
    return Told(tr("Something went wrong inside growdesk"), happened, safe, advice)


def hard_end(at: datetime) -> Told:
    """Give the words for a program that ended hard the last time."""
    local = at.astimezone()
    return Told(
        tr("growdesk did not end properly the last time"),
        tr("On {day} at {time} growdesk was stopped in the middle of its work.").format(
            day=words.short_day(local.date()), time=local.strftime("%H:%M")
        ),
        tr(
            "Everything that was saved before. Only what stood in an open form is gone."
        ),
        tr(
            "Go on. A report says where it stopped; you read it before it is kept, and "
            "nothing is sent."
        ),
    )


class FaultDialog(OnScreen):
    """Stands over what is open, and takes nothing from it."""

    report_wanted = Signal()
    close_wanted = Signal()

    def __init__(self, parent: QWidget | None, told: Told, *, may_close: bool) -> None:
        super().__init__(parent)
        self.setWindowTitle(told.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._more = 0
        self._more_line = label("", tone="wrong")
        self._more_line.hide()
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(4)
        outer.addWidget(label(told.title, scale=1.3))
        for head, text in (
            (tr("What happened"), told.happened),
            (tr("What is safe"), told.safe),
            (tr("What to do"), told.advice),
        ):
            outer.addSpacing(_APART_PX)
            outer.addWidget(label(head, tone="head"))
            outer.addWidget(label(text))
        outer.addWidget(self._more_line)
        outer.addStretch(1)
        outer.addWidget(self._buttons(may_close=may_close))
        sizes.least_wide(self, _WIDE_PX)

    def one_more(self) -> None:
        """Say that another fault came while this one is being read."""
        self._more += 1
        self._more_line.setText(
            trn(
                "{count} other fault came meanwhile.",
                "{count} other faults came meanwhile.",
                self._more,
            ).format(count=self._more)
        )
        self._more_line.show()

    def _buttons(self, *, may_close: bool) -> QDialogButtonBox:
        box = QDialogButtonBox()
        go_on = QPushButton(tr("&Go on"))
        go_on.setDefault(True)
        box.addButton(go_on, QDialogButtonBox.ButtonRole.AcceptRole)
        report = button(tr("&Make a report…"), self._to_report)
        box.addButton(report, QDialogButtonBox.ButtonRole.ActionRole)
        if may_close:
            close = button(tr("&Close growdesk"), self._to_close)
            box.addButton(close, QDialogButtonBox.ButtonRole.DestructiveRole)
        box.accepted.connect(self.accept)
        go_on.setFocus()
        return box

    def _to_report(self) -> None:
        self.accept()
        self.report_wanted.emit()

    def _to_close(self) -> None:
        self.accept()
        self.close_wanted.emit()


def _bare(text: str) -> str:
    """Give a command's words without its letter and its dots."""
    return text.replace("&", "").removesuffix("…")
