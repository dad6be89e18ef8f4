"""Draw the jugs of the day as cards, with what goes into each in grams or mL.

Takes a ``MixPlan`` as it is; whatever it does not hold is said in words.
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

from growdesk.ui import theme, words
from growdesk.ui.widgets.parts import clear, enlarge, frame, label, short_label

if TYPE_CHECKING:
    from growdesk.services.values import Jug, MixPlan, QuickMix


class Jugs(QWidget):
    """All that is to be had ready at the bench."""

    def __init__(self) -> None:
        super().__init__()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)

    def show_plan(self, plan: MixPlan) -> None:
        """Show a day's plan."""
        clear(self._column)
        if not plan.jugs:
            self._column.addWidget(
                label("No jug of feed today: no plant is to be fed.", tone="muted")
            )
        for jug in plan.jugs:
            self._column.addWidget(jug_card(jug))
        self._add_steps(plan)
        self._column.addWidget(_water_card(plan))
        self._add_open_ends(plan)

    def _add_steps(self, plan: MixPlan) -> None:
        if not plan.ladder:
            return
        self._column.addWidget(label("In this order", tone="head"))
        for number, step in enumerate(plan.ladder, 1):
            self._column.addWidget(label(f"{number}.  {step}"))

    def _add_open_ends(self, plan: MixPlan) -> None:
        if plan.outside_band:
            self._column.addWidget(
                label(
                    "Outside the strength they would take, for want of a jug: "
                    + ", ".join(plan.outside_band),
                    tone="wrong",
                )
            )
        if plan.volume_unknown:
            self._column.addWidget(
                label(
                    "Not counted, since no pot volume is recorded: "
                    + ", ".join(plan.volume_unknown)
                    + ". Give the pot its volume under Change the plant.",
                    tone="wrong",
                )
            )


def jug_card(jug: Jug) -> QFrame:
    """Give one jug: its letter, strength and volume, then what goes in."""
    card = frame("card")
    card.setAccessibleName(jug_words(jug))
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
    litres = short_label(words.volume(jug.volume_l))
    enlarge(litres, 1.2, strong=True)
    top.addWidget(litres)
    rows.addLayout(top)
    dose = label(dose_words(jug), scale=1.12)
    dose.setObjectName("dose")
    rows.addWidget(dose)
    if jug.elements_mg_per_l:
        rows.addWidget(label(elements(jug.elements_mg_per_l), tone="muted"))
    conductivity = ec_words(jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm)
    if conductivity:
        rows.addWidget(label(conductivity, tone="muted"))
    rows.addWidget(label("For " + ", ".join(jug.tags), tone="muted"))
    for warning in jug.warnings:
        rows.addWidget(label(warning, tone="wrong"))
    return card


def dose_words(jug: Jug) -> str:
    """Say what goes into the jug."""
    if jug.tin is None:
        return "Say what is in the tin, and the grams stand here."
    if jug.volume_ml is not None:
        return f"{words.number(jug.volume_ml, 1)} mL of {jug.tin}"
    return f"{words.number(jug.mass_g)} g of {jug.tin}"


def jug_words(jug: Jug) -> str:
    """Give a jug as a screen reader should say it."""
    return (
        f"Jug {jug.letter}, {jug.strength_ppm_n} ppm N, {words.volume(jug.volume_l)}, "
        f"{dose_words(jug)}"
    )


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


def quick_words(mix: QuickMix) -> str:
    """Say the answer of the quick calculator in one line."""
    mass = f"{words.number(mix.mass_g)} g"
    if mix.volume_ml is not None:
        mass = f"{words.number(mix.volume_ml, 1)} mL ({mass})"
    return f"{mass} in {words.volume(mix.volume_l)} of water"


def _water_card(plan: MixPlan) -> QFrame:
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 10, 12, 10)
    rows.setSpacing(3)
    total = plan.clear_l + plan.flush_l
    top = QHBoxLayout()
    head = short_label("Clear water")
    enlarge(head, 1.2, strong=True)
    top.addWidget(head)
    top.addStretch(1)
    amount = short_label(words.volume(total) if total else "none")
    enlarge(amount, 1.2, strong=True)
    top.addWidget(amount)
    rows.addLayout(top)
    if plan.flush_l:
        rows.addWidget(
            label(
                f"{words.volume(plan.clear_l)} for the plants on clear water, "
                f"{words.volume(plan.flush_l)} to flush with.",
                tone="muted",
            )
        )
    elif total:
        rows.addWidget(label("For the plants on clear water.", tone="muted"))
    return card
