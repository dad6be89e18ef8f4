"""Answer a quick dose question, free of any plan.

Three fields as typed, an answer beside them. The arithmetic is asked for by a signal
and comes back; a slip is told beside the fields.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from growdesk.ui import jug_words, words
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.jug_card import elements
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from growdesk.services.values import QuickMix

_PAUSE_MS = 350


def answer(mix: QuickMix) -> str:
    """Say in one line what is weighed and how much it is made up to."""
    mass = f"{words.number(mix.mass_g)} g"
    if mix.volume_ml is not None:
        mass = f"{words.number(mix.volume_ml, 1)} mL ({mass})"
    return f"{mass}, made up to {words.volume(mix.volume_l)}"


class QuickCalculator(QWidget):
    """Fields for an analysis, a target and water, with the answer under them."""

    asked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._form = Form()
        self.analysis = self._form.line(
            "analysis", "&Analysis", "N-P2O5-K2O as on the label, say 20-20-20"
        )
        self.target = self._form.line("target", "St&rength", "say 150 ppm N")
        self.water = self._form.line("water", "&Water", "say 5 L or 1.5 gal")
        self.density = self._form.line(
            "density", "De&nsity", "liquids only, say 1.2 g/mL"
        )
        self.water_ec = self._form.line(
            "water_ec", "Water's E&C", "if known, say 0.3 mS/cm"
        )
        self._answer = label("", scale=1.28)
        self._more = label("", tone="muted")
        self._warnings = label("", tone="wrong")
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self.ask)
        self._asked: tuple[str, ...] = ()
        self._lay_out()

    def typed(self) -> tuple[str, str, str, str, str]:
        """Give the five texts as typed."""
        return (
            self.analysis.text().strip(),
            self.target.text().strip(),
            self.water.text().strip(),
            self.density.text().strip(),
            self.water_ec.text().strip(),
        )

    def said(self) -> str:
        """Give all that the answer says."""
        return f"{self._answer.text()}\n{self._more.text()}\n{self._warnings.text()}"

    def ask(self) -> None:
        """Ask for the answer where enough is typed and it is a new question."""
        typed = self.typed()
        if all(typed[:3]) and typed != self._asked:
            self._asked = typed
            self.asked.emit(typed)

    def show_answer(self, mix: QuickMix) -> None:
        """Show the dose, how the question was understood, and the elements."""
        self._form.clear_errors()
        self._answer.setText(answer(mix))
        lines = [mix.understood, elements(mix.elements_mg_per_l)]
        lines.append(
            jug_words.ec_text(None, mix.ec_low_ms_per_cm, mix.ec_high_ms_per_cm)
        )
        self._more.setText("\n".join(line for line in lines if line))
        self._warnings.setText("\n".join(mix.warnings))

    def show_error(self, error: Exception) -> None:
        """Tell a slip beside its field; what was typed stays."""
        self._answer.setText("")
        self._more.setText("")
        self._warnings.setText("")
        self._form.show_error(error)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 14, 16, 14)
        column.setSpacing(8)
        column.addWidget(
            label("A dose for any water, free of today's plan.", tone="muted")
        )
        column.addWidget(self._form)
        column.addWidget(button("Work it out", self._ask_anew))
        column.addWidget(self._answer)
        column.addWidget(self._more)
        column.addWidget(self._warnings)
        column.addWidget(
            label(
                "Here ppm means milligrams per litre of solution. A gallon is the US "
                "one; write imp gal for the other.",
                tone="muted",
            )
        )
        column.addStretch(1)
        for edit in (
            self.analysis,
            self.target,
            self.water,
            self.density,
            self.water_ec,
        ):
            edit.textChanged.connect(lambda _text: self._pause.start())
            edit.returnPressed.connect(self._ask_anew)

    def _ask_anew(self) -> None:
        self._asked = ()
        typed = self.typed()
        if not all(typed[:3]):
            self._form.say(
                "Give analysis, strength and water; the rest may stay empty."
            )
            return
        self._form.clear_errors()
        self.ask()
