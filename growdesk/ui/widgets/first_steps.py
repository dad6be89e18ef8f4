"""Lead a new collection to its first day, one button a step, nothing in between.

While there is no plant the steps fill the list, the next one in focus, so that Enter
alone leads on. Once plants are there, what was left stands on one line over them.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui.widgets.parts import Page, button, clear, label, link, link_line

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
_LATER = Phrases({"latitude": "the latitude", "water": "a water", "tin": "a tin"})
SAMPLE = mark("Look at a sample collection (Ctrl+Alt+O)")
SAMPLE_WHY = mark(
    "It opens in a window of its own, with invented plants, and is thrown away when "
    "you close it. Nothing of it comes into your collection."
)


class FirstSteps(Page):
    """The steps before the first watering day."""

    wanted = Signal(str)
    sample_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[SetupStep, ...] = ()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(22, 12, 22, 12)
        self._column.setSpacing(4)
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
            label(tr("One plant is enough. The rest can wait, in any order."))
        )
        for step in steps:
            self._add(step)
        self._column.addSpacing(12)
        sample = link_line(tr(SAMPLE), self.sample_wanted.emit)
        sample.setObjectName("step-sample")
        self._column.addWidget(sample)
        self._column.addWidget(label(tr(SAMPLE_WHY), tone="muted"))
        self._column.addStretch(1)
        self.take_focus()
        self.buttons.append(sample)

    def take_focus(self) -> None:
        """Put the focus on the step that comes next."""
        for made in self.buttons[:1]:
            made.show()  # a layout shows new widgets later, and hidden ones take none
            made.setFocus(Qt.FocusReason.OtherFocusReason)

    def _add(self, step: SetupStep) -> None:
        self._column.addSpacing(8)
        if step.done:
            said = tr("✓  {step}").format(step=step.text)
            self._column.addWidget(label(said, tone="muted"))
            return
        self._column.addWidget(label(step.text))
        self._column.addWidget(label(step.until, tone="muted"))
        made = button(_BUTTON[step.key], partial(self.wanted.emit, step.key))
        made.setObjectName(f"step-{step.key}")
        made.setAccessibleDescription(f"{step.text} {step.until}")
        made.setAutoDefault(True)
        made.setDefault(not self.buttons)
        self._column.addWidget(made, 0, Qt.AlignmentFlag.AlignLeft)
        self.buttons.append(made)


class StepsLeft(QWidget):
    """One line over the list with what is still to be said, a link each."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(14, 0, 14, 4)
        self._row.setSpacing(6)
        self._shown: tuple[str, ...] = ()
        self.buttons: list[QPushButton] = []
        self.hide()

    def show_steps(self, steps: Sequence[SetupStep]) -> None:
        """Show what is left of the steps; nothing hides the line."""
        left = [step for step in steps if not step.done]
        keys = tuple(step.key for step in left)
        if keys == self._shown:
            return
        self._shown = keys
        clear(self._row)
        self.buttons = []
        self.setVisible(bool(left))
        if not left:
            return
        said = label(tr("Still to say:"), tone="muted")
        said.setWordWrap(False)
        self._row.addWidget(said)
        for step in left:
            made = link(_LATER[step.key], partial(self.wanted.emit, step.key))
            made.setObjectName(f"left-{step.key}")
            made.setToolTip(f"{step.text} {step.until}")
            made.setAccessibleDescription(made.toolTip())
            self._row.addWidget(made)
            self.buttons.append(made)
        self._row.addStretch(1)
