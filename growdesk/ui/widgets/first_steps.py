"""Show what an empty collection asks for first, one button a step.

The button of the next step is the default and has the focus when it arrives, so that
the first plant is reached by Enter alone.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from growdesk.domain.speech import Phrases, tr
from growdesk.ui.widgets.parts import button, clear, label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.values import SetupStep

_BUTTON = Phrases(
    {
        "latitude": "Set the latitude…",
        "water": "Say which water…",
        "tin": "Say what is in the tin…",
        "plant": "Add the first plant…",
    }
)


class FirstSteps(QWidget):
    """The steps before the first watering day."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[SetupStep, ...] = ()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(22, 22, 22, 22)
        self._column.setSpacing(10)
        self.buttons: list[QPushButton] = []

    def show_steps(self, steps: Sequence[SetupStep]) -> None:
        """Show the steps, done or not; what stands there already is left alone."""
        if tuple(steps) == self._shown:
            return
        self._shown = tuple(steps)
        clear(self._column)
        self.buttons = []
        if not steps:
            return
        self._column.addWidget(label(tr("To begin with"), scale=1.35))
        self._column.addWidget(
            label(tr("Four short things, then the first watering day stands here."))
        )
        for step in steps:
            self._add(step)
        self._column.addStretch(1)
        self.take_focus()

    def take_focus(self) -> None:
        """Put the focus on the step that comes next."""
        for made in self.buttons[:1]:
            made.show()  # a layout shows new widgets later, and hidden ones take none
            made.setFocus(Qt.FocusReason.OtherFocusReason)

    def _add(self, step: SetupStep) -> None:
        if step.done:
            self._column.addWidget(label(f"✓  {step.text}", tone="muted"))
            return
        self._column.addWidget(label(step.text))
        text = _BUTTON.get(step.key, step.text)
        made = button(text, partial(self.wanted.emit, step.key))
        made.setObjectName(f"step-{step.key}")
        made.setAutoDefault(True)
        made.setDefault(not self.buttons)
        self._column.addWidget(made, 0, Qt.AlignmentFlag.AlignLeft)
        self.buttons.append(made)
