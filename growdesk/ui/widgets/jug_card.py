"""Draw one jug as a card: its letter, what to weigh, and into how much water.

What is less often needed is folded: what a litre holds, why this EC, the plants.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
)

from growdesk.domain.speech import tr
from growdesk.domain.volume_words import volume_text
from growdesk.ui import jug_measuring, jug_words, theme, words
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.doses import dose_grid, elements
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.parts import enlarge, label, link, link_line, short_label
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from growdesk.services.values import Jug, MixPlan


class JugCard(QFrame):
    """One jug."""

    tins_wanted = Signal()
    meter_wanted = Signal(str)
    bottle_wanted = Signal(object)

    def __init__(
        self, jug: Jug, plan: MixPlan, *, is_open: bool = False, is_today: bool = False
    ) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self._jug, self._plan = jug, plan
        told = jug_words.spoken(jug, plan)
        self.setAccessibleName(told)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(12, 10, 12, 8)
        self._rows.setSpacing(5)
        self.fold = Fold(
            self,
            tr("More"),
            tr("More on jug {letter}").format(letter=jug.letter),
            is_open=is_open,
            fill=self._fill,
        )
        self.fold.button.setAccessibleDescription(told)
        self._add_head()
        self._add_doses()
        for litres in jug.of_two:
            self._rows.addWidget(label(words.unbroken(litres)))
        if jug_words.gives(jug):
            self._rows.addWidget(label(jug_words.gives(jug)))
        self._add_ec(is_today=is_today)
        for warning in jug_measuring.to_mind(jug):
            self._rows.addWidget(label(warning, tone="wrong"))
        for bottle in jug_measuring.bottles_for(jug, plan):
            make = partial(self.bottle_wanted.emit, bottle)
            self._rows.addWidget(link_line(jug_measuring.make_it(bottle), make))
        self._rows.addWidget(self.fold.body)
        self.fold.body.raise_()

    def _add_head(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(6)
        letter = QLabel(self._jug.letter)
        c = theme.colours()
        letter.setStyleSheet(
            f"background: {c.accent}; color: {c.on_accent}; border-radius: 6px;"
            "padding: 1px 10px;"
        )
        enlarge(letter, 1.5, strong=True)
        letter.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        top.addWidget(letter)
        strength = short_label(words.strength(self._jug.strength_ppm_n))
        enlarge(strength, 1.2, strong=True)
        top.addWidget(strength)
        top.addStretch(1)
        top.addWidget(self.fold.button)
        self._rows.addLayout(top)
        recipe = jug_words.recipe(self._jug, self._plan)
        if recipe:
            self._rows.addWidget(label(recipe))

    def _add_doses(self) -> None:
        jug, plan = self._jug, self._plan
        if not jug.doses:
            self._add_missing()
            return
        water = jug_words.of_water(jug, plan)
        if not jug_words.in_parts(jug):
            litres = volume_text(jug_words.mixed_l(jug))
            self._rows.addLayout(dose_grid(jug.doses, litres, water))
            return
        for each in jug.fills:
            several = label(jug_words.mixes(each), tone="head")
            self._rows.addWidget(several)
            litres = volume_text(each.volume_l)
            self._rows.addLayout(dose_grid(each.doses, litres, water))

    def _add_ec(self, *, is_today: bool) -> None:
        """Add the EC to expect; of today it leads to where the reading is written."""
        jug = self._jug
        told = jug_words.expected(jug)
        if not jug.doses or not (told or is_today):
            return
        said = words.unbroken(f"{told} mS/cm") if told else tr("no figure known")
        if not is_today:
            line: QLabel = label(tr("Meter: {said}").format(said=said))
        else:
            line = TextLink(tr("Meter"), f": {said}", self._want_meter)
            line.setAccessibleName(
                tr("What the meter read in jug {letter}: {said}").format(
                    letter=jug.letter, said=said
                )
            )
        line.setObjectName("ec")
        line.setToolTip(as_typed(jug.ec_why))
        self._rows.addWidget(line)

    def _want_meter(self) -> None:
        self.meter_wanted.emit(self._jug.letter)

    def _add_missing(self) -> None:
        jug, plan = self._jug, self._plan
        if jug_words.mixed_l(jug) > 0 and not jug.recipe and plan.tin is None:
            into = jug_words.into_words(jug, plan)
            said = tr(
                "Say what is in the tin, and the grams for {into} stand here."
            ).format(into=into)
            self._rows.addWidget(label(said))
            self._rows.addWidget(link(tr("Tins…"), self.tins_wanted.emit))
            return
        self._rows.addWidget(label(jug_words.missing(jug, plan)))

    def _fill(self, rows: QVBoxLayout) -> None:
        """Put into the fold what is less often needed."""
        jug = self._jug
        spare = jug_words.spare(jug)
        lines = [
            *(told for told in jug_words.how_mixed(jug) if told not in jug.of_two),
            *jug_measuring.measured_with(jug),
            f"{spare}." if spare else "",
            elements(jug.elements_mg_per_l) if jug.elements_mg_per_l else "",
            jug.ec_why,
            *jug_measuring.in_full(jug),
            *jug.notes,
            jug_words.served(jug),
        ]
        for line in lines:
            if line:
                rows.addWidget(label(words.unbroken(line), tone="muted"))
