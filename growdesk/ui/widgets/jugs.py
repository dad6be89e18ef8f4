"""Draw the jugs of the day as cards, with what goes into each in grams or mL.

Takes a ``MixPlan`` as it is; its words are those of the sheet, from ``jug_words``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.volume_words import volume_text
from growdesk.ui import jug_words, theme, words
from growdesk.ui.widgets.parts import clear, enlarge, frame, label, short_label

if TYPE_CHECKING:
    from growdesk.services.values import Jug, MixPlan


class Jugs(QWidget):
    """All that is to be had ready at the bench."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[MixPlan, object] | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)

    def show_plan(self, plan: MixPlan) -> None:
        """Show a day's plan; one that stands there already is left alone."""
        wanted = (plan, theme.colours())
        if wanted == self._shown:
            return
        self._shown = wanted
        clear(self._column)
        if not plan.jugs:
            self._column.addWidget(
                label("No jug of feed on this day: no plant is fed.", tone="muted")
            )
        for jug in plan.jugs:
            self._column.addWidget(jug_card(jug, plan))
        self._column.addWidget(_water_card(plan))
        self._add_steps(plan)
        for remark in (jug_words.outside_band(plan), _volume_unknown(plan)):
            if remark:
                self._column.addWidget(label(remark, tone="wrong"))
        if jug_words.one_more(plan):
            told = label(jug_words.one_more(plan))
            told.setObjectName("one-more")
            self._column.addWidget(told)

    def _add_steps(self, plan: MixPlan) -> None:
        """Add the ladder, told as another way; with one jug its card says it all."""
        if len(plan.jugs) < 2 or not plan.ladder:
            return
        self._column.addSpacing(6)
        self._column.addWidget(label(jug_words.ladder_heading(plan), tone="head"))
        caution = jug_words.ladder_caution(plan)
        if caution:
            said = label(caution)
            said.setObjectName("ladder-caution")
            self._column.addWidget(said)
        for number, step in enumerate(plan.ladder, 1):
            self._column.addWidget(label(f"{number}.  {step}"))


def _volume_unknown(plan: MixPlan) -> str:
    told = jug_words.volume_unknown(plan)
    return f"{told} Give the pot its volume under Change the plant." if told else ""


def jug_card(jug: Jug, plan: MixPlan) -> QFrame:
    """Give one jug: its letter, strength and all its litres, then what goes in."""
    card = frame("card")
    card.setAccessibleName(jug_words.spoken(jug, plan))
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 10, 12, 10)
    rows.setSpacing(5)
    top = QHBoxLayout()
    top.setSpacing(10)
    letter = QLabel(jug.letter)
    c = theme.colours()
    letter.setStyleSheet(
        f"background: {c.accent}; color: {c.on_accent}; border-radius: 6px;"
        "padding: 1px 10px;"
    )
    enlarge(letter, 1.5, strong=True)
    letter.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    top.addWidget(letter)
    amount = short_label(f"{jug.strength_ppm_n} ppm N")
    enlarge(amount, 1.2, strong=True)
    top.addWidget(amount)
    top.addStretch(1)
    litres = short_label(jug_words.volume(jug))
    litres.setObjectName("litres")
    enlarge(litres, 1.2, strong=True)
    top.addWidget(litres)
    rows.addLayout(top)
    dose = label(_dose_words(jug, plan), scale=1.12)
    dose.setObjectName("dose")
    rows.addWidget(dose)
    if jug.spare_l:
        rows.addWidget(label(f"{jug_words.spare(jug)}.", tone="muted"))
    if jug.elements_mg_per_l:
        rows.addWidget(label(elements(jug.elements_mg_per_l), tone="muted"))
    conductivity = ec_words(jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm)
    if conductivity:
        rows.addWidget(label(conductivity, tone="muted"))
    rows.addWidget(label("For " + ", ".join(jug.tags), tone="muted"))
    for warning in jug.warnings:
        rows.addWidget(label(warning, tone="wrong"))
    return card


def _dose_words(jug: Jug, plan: MixPlan) -> str:
    if jug.tin is None and jug_words.mixed_l(jug) > 0:
        into = jug_words.into_words(jug, plan)
        return f"Say what is in the tin, and the grams for {into} stand here."
    return jug_words.weigh(jug, plan).rstrip(".") + "."


def elements(given: tuple[tuple[str, float], ...]) -> str:
    """Give the elements in mg/L, nitrogen first."""
    seen = ((name, value) for name, value in given if value >= 0.005)
    told = (f"{name}\u00a0{_milligrams(value)}" for name, value in seen)
    return words.unbroken(" · ".join(told) + " mg/L")


def _milligrams(value: float) -> str:
    return (
        f"{value:.0f}" if value >= 10 else words.number(value, 1 if value >= 1 else 2)
    )


def ec_words(low: float | None, high: float | None) -> str:
    """Give the range in which a meter should read."""
    if low is None or high is None:
        return ""
    if abs(high - low) < 0.005:
        return words.unbroken(f"A meter should read about {low:.2f} mS/cm")
    return words.unbroken(f"A meter should read {low:.2f} to {high:.2f} mS/cm")


def _water_card(plan: MixPlan) -> QFrame:
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 10, 12, 10)
    rows.setSpacing(3)
    total_l = jug_words.clear_total_l(plan)
    top = QHBoxLayout()
    head = short_label("Clear water")
    enlarge(head, 1.2, strong=True)
    top.addWidget(head)
    top.addStretch(1)
    amount = short_label(volume_text(total_l) if total_l else "none")
    enlarge(amount, 1.2, strong=True)
    top.addWidget(amount)
    rows.addLayout(top)
    if total_l:
        kind = jug_words.water_name(plan)
        said = f"{kind[0].upper()}{kind[1:]}, {jug_words.CLEAR_SPARE}."
        rows.addWidget(label(said))
        rows.addWidget(label(jug_words.clear_shares(plan), tone="muted"))
    return card
