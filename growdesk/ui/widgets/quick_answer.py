"""Show the answer of a quick mix: what to measure first, all else under it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from growdesk.domain import measure_words
from growdesk.domain.speech import Phrases, tr
from growdesk.domain.volume_words import volume_text
from growdesk.ui import dose_words, words
from growdesk.ui.widgets.doses import dose_grid, elements
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.parts import clear, label

if TYPE_CHECKING:
    from growdesk.services.quick_values import Concentrate, QuickMix

_FORMS = Phrases({"nitrate": "nitrate-N", "ammonium": "ammonium-N", "urea": "urea-N"})


def doses_told(mix: QuickMix) -> str:
    """Say in one line what is measured and how much it is made up to."""
    doses = ", ".join(dose_words.dose(each) for each in mix.doses)
    return tr("{doses}, made up to {volume_l}").format(
        doses=doses, volume_l=volume_text(mix.volume_l)
    )


def gives(mix: QuickMix) -> str:
    """Say what comes out of what was asked for."""
    if mix.target is None or mix.gives_mg_per_l is None:
        ppm_n = dict(mix.elements_mg_per_l).get("N", 0.0)
        return (
            tr("Gives {ppm_n} ppm N.").format(ppm_n=measure_words.plain(ppm_n))
            if ppm_n
            else ""
        )
    given, wanted = mix.gives_mg_per_l, mix.target.strength_mg_per_l
    told = measure_words.gives(given, wanted, f"ppm {mix.target.nutrient}")
    return f"{told[0].upper()}{told[1:]}."


def concentrate(told: Concentrate) -> str:
    """Say how the same products make a concentrate; nothing where they must not."""
    if told.refused:
        return ""
    said = tr(
        "As a stock solution: the same made up to {volume_l}, "
        "{means}; {ml_per_l} mL of it in each litre of feed. Label "
        "the bottle."
    ).format(
        volume_l=volume_text(told.volume_l),
        means=told.means,
        ml_per_l=measure_words.plain(told.ml_per_l),
    )
    return " ".join((said, *told.notes))


def no_concentrate(told: Concentrate) -> tuple[str, ...]:
    """Say why no concentrate is made of these, and the way out."""
    if not told.refused:
        return ()
    return (tr("Not as one bottle of stock solution."), *told.refused, *told.way_out)


class QuickAnswer(QWidget):
    """The answer; it speaks as sentences and keeps its fold as it was left."""

    def __init__(self) -> None:
        super().__init__()
        self._is_open = False
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 4, 0, 0)
        self._column.setSpacing(5)

    def said(self) -> str:
        """Give all that it says."""
        return "\n".join(each.text() for each in self.findChildren(QLabel))

    def show_nothing(self) -> None:
        """Take the answer away."""
        clear(self._column)
        self.setAccessibleName("")

    def show_mix(self, mix: QuickMix) -> None:
        """Show what to measure, what comes out, and what to mind."""
        clear(self._column)
        ec = dose_words.ec_text(
            mix.ec_ms_per_cm, mix.ec_low_ms_per_cm, mix.ec_high_ms_per_cm
        )
        lines = [
            gives(mix),
            tr("A meter should read {ec} mS/cm.").format(ec=ec) if ec else "",
        ]
        wrong = list(mix.warnings)
        if mix.concentrate is not None:
            lines.append(concentrate(mix.concentrate))
            wrong += no_concentrate(mix.concentrate)
        told = [line for line in lines if line]
        wrong = [line for line in wrong if line]
        self.setAccessibleName(" ".join((f"{doses_told(mix)}.", *told, *wrong)))
        made_up = volume_text(mix.volume_l)
        self._column.addLayout(
            dose_grid(mix.doses, made_up, tr("in all, filled up with water"))
        )
        for line in told:
            self._column.addWidget(label(words.unbroken(line)))
        for warning in wrong:
            self._column.addWidget(label(warning, tone="wrong"))
        self._add_fold(mix)

    def _add_fold(self, mix: QuickMix) -> None:
        name = tr("What a litre holds")
        fold = Fold(self, name, name, is_open=self._is_open)
        fold.turned.connect(self._keep)
        self._column.addWidget(fold.button, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(fold.body)
        oxides = dict(mix.oxides_mg_per_l)
        elemental = dict(mix.elements_mg_per_l)
        only = [(name, mg) for name, mg in oxides.items() if name not in elemental]
        forms = [(_FORMS.get(n, n), mg) for n, mg in mix.nitrogen_forms_mg_per_l]
        rows = (
            elements(mix.elements_mg_per_l),
            tr("As oxides: {elements}").format(elements=elements(only)) if only else "",
            tr("Its nitrogen: {elements}").format(elements=elements(forms))
            if forms
            else "",
            mix.ec_why,
            *mix.notes,
            mix.understood,
        )
        for row in rows:
            if row:
                fold.rows.addWidget(label(row, tone="muted"))

    def _keep(self, is_open: bool) -> None:  # noqa: FBT001 -- a signal's
        self._is_open = is_open
